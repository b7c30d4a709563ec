package job

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"example.com/hydronics/internal/unit"
)

// A shape is what the struct tags of a type say about the object it stands for.
//
//	key       the name in the file
//	kind      the kind of quantity of a number; the key ends in one of its suffixes
//	range     "min max", both allowed, in the unit of the key
//	one       the words that are accepted, separated by |
//	default   the value of a key that is left out
//	optional  the key may be left out: a number is then NaN, anything else empty
//	doc       what the key means
//
// A pointer to a struct is an object that may be left out. Everything without
// default or optional is required.
type shape struct {
	goType   reflect.Type
	fields   []field
	keys     [][]byte       // of the fields, as they mostly stand in a file: in quotes, a colon behind
	named    map[string]int // their places by key
	required fieldSet
	blank    reflect.Value // an object that leaves out every key: defaults, and NaN
}

// A fieldSet holds fields of a shape, one bit for the place of each.
type fieldSet uint64

const mostFields = 64

func (s fieldSet) has(i int) bool      { return s>>i&1 != 0 }
func (s fieldSet) with(i int) fieldSet { return s | 1<<i }

type field struct {
	key      string
	doc      string
	required bool
	value    value
}

// sort says what JSON value a Go value stands for.
type sort uint8

const (
	number sort = iota
	whole
	text
	truth
	object
	list
	triple // a point in space: [x, y, z]
)

// A value describes what may stand after a key, or in a list.
type value struct {
	sort     sort
	kind     unit.Kind
	unit     unit.Unit
	min, max float64 // in the unit of the key
	one      []string
	standard reflect.Value // the default, in SI; invalid: none
	object   *shape
	pointer  bool
	item     *value // of a list
}

var kinds = map[string]unit.Kind{
	"": unit.Number, "temperature": unit.Temperature, "difference": unit.TemperatureDifference,
	"length": unit.Length, "small length": unit.SmallLength, "volume": unit.Volume,
	"flow": unit.VolumeFlow, "velocity": unit.Velocity, "time": unit.Time,
	"pressure": unit.Pressure, "gauge": unit.GaugePressure, "energy": unit.Energy, "power": unit.Power,
	"loss coefficient": unit.HeatCapacityRate, "conductivity": unit.Conductivity, "kv": unit.FlowCoefficient,
}

var jobShape = sync.OnceValue(func() *shape { return shapeOf(reflect.TypeFor[Job]()) })

// shapeOf reads the tags. A tag that makes no sense is a bug of this package,
// and a panic: the first test that decodes anything finds it.
func shapeOf(t reflect.Type) *shape {
	s := &shape{goType: t, named: map[string]int{}, blank: reflect.New(t).Elem()}
	if t.NumField() > mostFields {
		panic("job: too many keys of " + t.Name())
	}
	for i := range t.NumField() {
		f := t.Field(i)
		tag := f.Tag
		key, ok := tag.Lookup("key")
		if !ok {
			panic("job: no key for " + t.Name() + "." + f.Name)
		}
		fd := field{key: key, doc: tag.Get("doc"), value: valueOf(f.Type, key, tag)}
		_, optional := tag.Lookup("optional")
		fd.required = !optional && !fd.value.pointer && !fd.value.standard.IsValid()
		if _, twice := s.named[key]; twice || fd.doc == "" {
			panic("job: key " + key + " of " + t.Name() + " stands twice or has no doc")
		}
		switch {
		case fd.required:
			s.required = s.required.with(i)
		case fd.value.standard.IsValid():
			s.blank.Field(i).Set(fd.value.standard)
		case fd.value.sort == number:
			s.blank.Field(i).SetFloat(math.NaN())
		}
		s.named[key] = i
		s.keys = append(s.keys, []byte(`"`+key+`":`))
		s.fields = append(s.fields, fd)
	}
	return s
}

func valueOf(t reflect.Type, key string, tag reflect.StructTag) value {
	v := value{min: math.Inf(-1), max: math.Inf(1)}
	standard, hasStandard := tag.Lookup("default")
	switch {
	case t.Kind() == reflect.Float64 || t.Kind() == reflect.Int:
		kind, known := kinds[tag.Get("kind")]
		if !known {
			panic("job: kind of " + key)
		}
		v.kind = kind
		v.unit = suffix(v.kind, key)
		if _, err := fmt.Sscanf(tag.Get("range"), "%g %g", &v.min, &v.max); err != nil {
			panic("job: range of " + key)
		}
		if t.Kind() == reflect.Int {
			v.sort = whole
		}
		if hasStandard {
			n, err := strconv.ParseFloat(standard, 64)
			if err != nil || !v.takes(n) {
				panic("job: default of " + key)
			}
			v.standard = reflect.New(t).Elem()
			v.set(v.standard, n)
		}
	case t.Kind() == reflect.String:
		v.sort = text
		if words := tag.Get("one"); words != "" {
			v.one = strings.Split(words, "|")
		}
		if hasStandard {
			v.standard = reflect.ValueOf(standard).Convert(t)
		}
	case t.Kind() == reflect.Bool:
		v.sort = truth
		if hasStandard {
			v.standard = reflect.ValueOf(standard == "true")
		}
	case t.Kind() == reflect.Pointer:
		v.sort, v.pointer, v.object = object, true, shapeOf(t.Elem())
	case t.Kind() == reflect.Struct:
		v.sort, v.object = object, shapeOf(t)
	case t.Kind() == reflect.Array:
		v.sort, v.kind = triple, unit.Length
		v.unit = suffix(v.kind, key)
		v.min, v.max = -1000, 1000
	case t.Kind() == reflect.Slice:
		item := valueOf(t.Elem(), key, tag)
		v.sort, v.item = list, &item
	default:
		panic("job: " + key + " has a type that no file can hold")
	}
	return v
}

// suffix returns the unit that ends the key.
func suffix(kind unit.Kind, key string) unit.Unit {
	found := unit.Unit{}
	long := -1
	for _, u := range kind.Units() {
		if n := len(u.Suffix); n > long && (n == 0 || strings.HasSuffix(key, "_"+u.Suffix)) {
			found, long = u, n
		}
	}
	if long < 0 {
		panic("job: " + key + " does not end in a unit of the kind " + kind.Name())
	}
	return found
}

// set stores the number n of the file in v, in SI.
func (v *value) set(to reflect.Value, n float64) {
	if v.sort == whole {
		to.SetInt(int64(n))
		return
	}
	to.SetFloat(v.unit.SI(n))
}

// takes reports whether n, in the unit of the key, may stand where v describes it.
func (v *value) takes(n float64) bool {
	return n >= v.min && n <= v.max && (v.sort != whole || n == math.Trunc(n))
}

// word returns the text if it may stand where v describes it, as one of the words
// where there is a choice.
func (v *value) word(text []byte) (string, bool) {
	for _, w := range v.one {
		if w == string(text) {
			return w, true
		}
	}
	return string(text), len(v.one) == 0 && len(text) > 0
}

// accepted says in words what may stand where v describes the value.
func (v *value) accepted() string {
	switch v.sort {
	case number, whole:
		what := "a number"
		if v.sort == whole {
			what = "a whole number"
		}
		return what + " from " + trim(v.min) + " to " + trim(v.max) + symbolAfter(v.unit.Suffix)
	case text:
		if len(v.one) > 0 {
			return `one of "` + strings.Join(v.one, `", "`) + `"`
		}
		return "text, not empty"
	case truth:
		return "true or false"
	case triple:
		return "[x, y, z], three numbers from " + trim(v.min) + " to " + trim(v.max) + symbolAfter(v.unit.Suffix) + ", z upwards"
	case list:
		return "a list, each of it " + v.item.accepted()
	default:
		keys := make([]string, len(v.object.fields))
		for i := range v.object.fields {
			keys[i] = v.object.fields[i].key
		}
		return "an object with the keys " + strings.Join(keys, ", ")
	}
}

func trim(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func symbolAfter(suffix string) string {
	if s := Symbol(suffix); s != "" {
		return " " + s
	}
	return ""
}
