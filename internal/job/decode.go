package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"
)

// MaxFileSize is the size in bytes of the largest job file that is read.
const MaxFileSize = 4 << 20

// mostFaults bounds the report on a file that is something else altogether.
const mostFaults = 100

// Decode reads a job file and returns it in SI units. The error lists every
// fault as [Faults], each with its path.
//
// Numbers that are optional and left out are NaN.
func Decode(data []byte) (*Job, error) {
	if len(data) > MaxFileSize {
		return nil, Faults{{"", strconv.Itoa(len(data)) + " bytes", "at most " + strconv.Itoa(MaxFileSize) + " bytes"}}
	}
	if j, ok := fast(data); ok {
		return j, nil
	}
	return decode(data)
}

// decode is Decode the careful way.
func decode(data []byte) (*Job, error) {
	// encoding/json judges the grammar, so that the walk below can trust it.
	if !json.Valid(data) {
		return nil, Faults{syntax(data)}
	}
	d := decoder{data: data}
	j := new(Job)
	s := jobShape()
	d.object(s, reflect.ValueOf(j).Elem())
	if err := d.faults.err(); err != nil {
		return nil, err
	}
	return j, nil
}

// syntax says where the grammar of JSON breaks.
func syntax(data []byte) Fault {
	err := json.NewDecoder(bytes.NewReader(data)).Decode(new(json.RawMessage))
	offset := len(data)
	var broken *json.SyntaxError
	switch {
	case errors.As(err, &broken):
		offset = int(broken.Offset)
	case errors.Is(err, io.EOF) && len(bytes.TrimSpace(data)) == 0:
		return Fault{"", "nothing", "one JSON object"}
	case err == nil:
		return Fault{"", "something after the end of the JSON object", "one JSON object"}
	}
	before := data[:min(offset, len(data))]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := len(before) - bytes.LastIndexByte(before, '\n') - 1
	return Fault{"", fmt.Sprintf("no valid JSON at line %d, column %d (%v)", line, max(column, 1), err), "one JSON object"}
}

// A decoder walks over valid JSON with the shape of the type beside it.
type decoder struct {
	data   []byte
	at     int
	path   []step
	faults Faults
}

// A step leads from an object or a list to what it holds.
type step struct {
	key   string
	index int // of a list; -1: key counts
}

func (d *decoder) fault(holds, accepted string) {
	if len(d.faults) < mostFaults {
		d.faults = append(d.faults, Fault{d.where(), holds, accepted})
	}
}

func (d *decoder) where() string {
	var b strings.Builder
	for _, s := range d.path {
		switch {
		case s.index >= 0:
			b.WriteString("[" + strconv.Itoa(s.index) + "]")
		case b.Len() > 0:
			b.WriteString("." + s.key)
		default:
			b.WriteString(s.key)
		}
	}
	return b.String()
}

func (d *decoder) push(s step) { d.path = append(d.path, s) }
func (d *decoder) pop()        { d.path = d.path[:len(d.path)-1] }

// next returns the first byte of the next token without consuming it.
func (d *decoder) next() byte {
	for {
		switch c := d.data[d.at]; c {
		case ' ', '\t', '\n', '\r', ',', ':':
			d.at++
		default:
			return c
		}
	}
}

// object fills to from the object at the present place.
func (d *decoder) object(s *shape, to reflect.Value) {
	if d.next() != '{' {
		d.mismatch((&value{sort: object, object: s}).accepted())
		return
	}
	d.at++
	to.Set(s.blank)
	var seen fieldSet
	for d.next() != '}' {
		key := d.text()
		i, known := s.named[key]
		d.push(step{key, -1})
		switch {
		case !known:
			d.fault("a key that is not known", (&value{sort: object, object: s}).accepted())
			d.skip()
		case seen.has(i):
			d.fault("the key a second time", "each key once")
			d.skip()
		default:
			seen = seen.with(i)
			f := &s.fields[i]
			d.value(&f.value, to.Field(i))
		}
		d.pop()
	}
	d.at++
	for i := range s.fields {
		if s.required.has(i) && !seen.has(i) {
			f := &s.fields[i]
			d.push(step{f.key, -1})
			d.fault("nothing", f.value.accepted()+" ("+f.doc+")")
			d.pop()
		}
	}
}

func (d *decoder) value(v *value, to reflect.Value) {
	switch v.sort {
	case number, whole:
		d.number(v, to)
	case text:
		if d.next() != '"' {
			d.mismatch(v.accepted())
			return
		}
		written := d.text()
		word, ok := v.word([]byte(written))
		if !ok {
			d.fault(strconv.Quote(written), v.accepted())
			return
		}
		to.SetString(word)
	case truth:
		switch d.next() {
		case 't':
			d.at += len("true")
			to.SetBool(true)
		case 'f':
			d.at += len("false")
			to.SetBool(false)
		default:
			d.mismatch(v.accepted())
		}
	case object:
		if v.pointer {
			to.Set(reflect.New(v.object.goType))
			to = to.Elem()
		}
		d.object(v.object, to)
	case triple:
		d.triple(v, to)
	case list:
		d.list(v, to)
	}
}

func (d *decoder) number(v *value, to reflect.Value) {
	if c := d.next(); c != '-' && (c < '0' || c > '9') {
		d.mismatch(v.accepted())
		return
	}
	word := d.literal()
	n, err := strconv.ParseFloat(word, 64)
	if err != nil || !v.takes(n) {
		d.fault(word, v.accepted())
		return
	}
	v.set(to, n)
}

func (d *decoder) triple(v *value, to reflect.Value) {
	start := d.at
	if d.next() != '[' {
		d.mismatch(v.accepted())
		return
	}
	d.at++
	one := value{sort: number, unit: v.unit, min: v.min, max: v.max}
	n := 0
	for ; d.next() != ']'; n++ {
		if n < to.Len() {
			d.push(step{index: n})
			d.value(&one, to.Index(n))
			d.pop()
		} else {
			d.skip()
		}
	}
	d.at++
	if n != to.Len() {
		d.fault(excerpt(d.data[start:d.at]), v.accepted())
	}
}

func (d *decoder) list(v *value, to reflect.Value) {
	if d.next() != '[' {
		d.mismatch(v.accepted())
		return
	}
	d.at++
	for n := 0; d.next() != ']'; n++ {
		if n == to.Cap() {
			to.Grow(max(4, n))
		}
		to.SetLen(n + 1)
		d.push(step{index: n})
		d.value(v.item, to.Index(n))
		d.pop()
	}
	d.at++
}

// mismatch reports a value of another sort than wanted, and passes over it.
func (d *decoder) mismatch(accepted string) {
	d.next()
	start := d.at
	d.skip()
	d.fault(excerpt(d.data[start:d.at]), accepted)
}

func excerpt(raw []byte) string {
	const most = 60
	s := strings.Join(strings.Fields(string(raw)), " ")
	if len(s) > most {
		return strings.ToValidUTF8(s[:most], "") + "..."
	}
	return s
}

// skip passes over one value.
func (d *decoder) skip() {
	depth := 0
	for {
		switch d.next() {
		case '{', '[':
			depth++
			d.at++
		case '}', ']':
			depth--
			d.at++
		case '"':
			d.text()
		default:
			d.literal()
		}
		if depth <= 0 {
			return
		}
	}
}

// literal returns the number, true, false or null at the present place.
func (d *decoder) literal() string {
	start := d.at
	for d.at < len(d.data) {
		switch d.data[d.at] {
		case ' ', '\t', '\n', '\r', ',', ':', '}', ']':
			return string(d.data[start:d.at])
		}
		d.at++
	}
	return string(d.data[start:d.at])
}

// text returns the string at the present place.
func (d *decoder) text() string {
	start := d.at
	plain := true
	for d.at++; d.data[d.at] != '"'; d.at++ {
		switch c := d.data[d.at]; {
		case c == '\\':
			plain = false
			d.at++
		case c >= 0x80:
			plain = false // may be no valid UTF-8
		}
	}
	d.at++
	if plain {
		return string(d.data[start+1 : d.at-1])
	}
	var s string
	if err := json.Unmarshal(d.data[start:d.at], &s); err != nil {
		panic(err) // the grammar was judged before
	}
	return s
}
