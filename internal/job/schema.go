package job

import "math"

// Schema returns the JSON Schema of the job file (draft 2020-12), made from the
// same definitions as the decoder, for editors that complete and check. It knows
// all that concerns one key; what concerns several is left to [Assess].
func Schema() map[string]any {
	s := objectSchema(jobShape())
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "job file of the dwelling program"
	return s
}

func objectSchema(s *shape) map[string]any {
	properties := map[string]any{}
	required := []string{}
	for i := range s.fields {
		f := &s.fields[i]
		p := valueSchema(&f.value)
		p["description"] = f.doc
		properties[f.key] = p
		if f.required {
			required = append(required, f.key)
		}
	}
	return map[string]any{"type": "object", "additionalProperties": false, "properties": properties, "required": required}
}

func valueSchema(v *value) map[string]any {
	m := map[string]any{}
	switch v.sort {
	case number, whole:
		m = numberSchema(v)
		if v.standard.IsValid() {
			if v.sort == whole {
				m["default"] = v.standard.Int()
			} else {
				m["default"] = roundOff(v.unit.From(v.standard.Float()))
			}
		}
	case text:
		m["type"] = "string"
		m["minLength"] = 1
		if len(v.one) > 0 {
			m["enum"] = v.one
		}
		if v.standard.IsValid() {
			m["default"] = v.standard.String()
		}
	case truth:
		m["type"] = "boolean"
		if v.standard.IsValid() {
			m["default"] = v.standard.Bool()
		}
	case object:
		m = objectSchema(v.object)
	case triple:
		m["type"], m["minItems"], m["maxItems"], m["items"] = "array", 3, 3, numberSchema(v)
	case list:
		m["type"], m["items"] = "array", valueSchema(v.item)
	}
	return m
}

func numberSchema(v *value) map[string]any {
	m := map[string]any{"type": "number", "minimum": v.min, "maximum": v.max}
	if v.sort == whole {
		m["type"] = "integer"
	}
	return m
}

// roundOff takes away what the change of units left behind.
func roundOff(v float64) float64 { return math.Round(v*1e9) / 1e9 }
