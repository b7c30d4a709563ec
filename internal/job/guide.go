package job

import (
	"strconv"
	"strings"

	"example.com/hydronics/pipe"
)

// Guide returns the companion text of a job file: every key in the order of the
// file, what it means, what is accepted and what counts if it is left out. It is
// made from the same definitions as the decoder.
func Guide() string {
	var b strings.Builder
	fold(&b, "", "The keys of a job file. Lists are written key[]; a key ends in the unit of its number. "+
		"Heights count from the ground outdoors at the unit. A key marked * is required.")
	b.WriteString("\n")
	describe(&b, jobShape(), "")
	b.WriteString("\nTubes (for the keys called tube)\n\n")
	for _, series := range pipe.AllSeries() {
		tubes, err := series.Tubes()
		if err != nil {
			panic(err) // the catalogue does not know its own series
		}
		names := make([]string, len(tubes))
		for i := range tubes {
			names[i] = strings.TrimPrefix(tubes[i].Designation, string(series)+" ")
		}
		fold(&b, "  ", string(series)+": "+strings.Join(names, ", "))
	}
	return b.String()
}

func describe(b *strings.Builder, s *shape, prefix string) {
	for i := range s.fields {
		f := &s.fields[i]
		var path strings.Builder
		path.WriteString(prefix + f.key)
		mark := " "
		if f.required {
			mark = "*"
		}
		v := &f.value
		for v.sort == list {
			path.WriteString("[]")
			v = v.item
		}
		b.WriteString(mark + " " + path.String() + "\n")
		text := f.doc
		if v.sort != object {
			text += ": " + v.accepted()
		}
		if f.value.standard.IsValid() {
			text += "; left out: " + f.value.standardText()
		}
		fold(b, "      ", text)
		if v.sort == object {
			describe(b, v.object, path.String()+".")
		}
	}
}

func (v *value) standardText() string {
	switch v.sort {
	case number:
		return trim(roundOff(v.unit.From(v.standard.Float()))) + symbolAfter(v.unit.Suffix)
	case whole:
		return strconv.FormatInt(v.standard.Int(), 10)
	case truth:
		return strconv.FormatBool(v.standard.Bool())
	default:
		return v.standard.String()
	}
}

// fold writes text in lines of at most 78 columns.
func fold(b *strings.Builder, indent, text string) {
	line := indent
	for word := range strings.FieldsSeq(text) {
		if len([]rune(line))+1+len([]rune(word)) > 78 && line != indent {
			b.WriteString(line + "\n")
			line = indent
		}
		if line != indent {
			line += " "
		}
		line += word
	}
	b.WriteString(line + "\n")
}
