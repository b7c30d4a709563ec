package job

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strconv"
)

// A reader is the fast way through a file that has no fault. It takes a file only
// as it should be, in one pass, and gives up at the first thing it does not expect:
// the decoder then goes through the file again and says what is wrong where. What
// it takes, the decoder takes with the same result; a fuzz target holds both
// together.
type reader struct {
	data []byte
	at   int
}

// fast returns the job of a file without faults.
func fast(data []byte) (*Job, bool) {
	r := reader{data: data}
	j := new(Job)
	if !r.object(jobShape(), reflect.ValueOf(j).Elem()) {
		return nil, false
	}
	r.next()
	return j, r.at == len(r.data)
}

// next passes over white space and returns the byte behind it, 0 at the end.
func (r *reader) next() byte {
	for ; r.at < len(r.data); r.at++ {
		switch c := r.data[r.at]; c {
		case ' ', '\t', '\n', '\r':
		default:
			return c
		}
	}
	return 0
}

// take passes over a byte if it comes next.
func (r *reader) take(c byte) bool {
	if r.next() != c {
		return false
	}
	r.at++
	return true
}

// literal passes over a word without quotes if it comes next.
func (r *reader) literal(word string) bool {
	r.next()
	if !bytes.HasPrefix(r.data[r.at:], []byte(word)) {
		return false
	}
	r.at += len(word)
	return true
}

func (r *reader) object(s *shape, to reflect.Value) bool {
	if !r.take('{') {
		return false
	}
	to.Set(s.blank)
	var seen fieldSet
	next := 0
	for !r.take('}') {
		if seen != 0 && !r.take(',') {
			return false
		}
		i, ok := r.key(s, next)
		if !ok || seen.has(i) || !r.value(&s.fields[i].value, to.Field(i)) {
			return false
		}
		seen = seen.with(i)
		next = i + 1
	}
	return seen&s.required == s.required
}

// key returns the place of the field whose key comes next, and passes over the
// colon. Most files keep the order of the type and leave some keys out, so it looks
// from one field on.
func (r *reader) key(s *shape, from int) (int, bool) {
	if r.next() != '"' {
		return 0, false
	}
	rest := r.data[r.at:]
	for i := from; i < len(s.keys); i++ {
		if bytes.HasPrefix(rest, s.keys[i]) {
			r.at += len(s.keys[i])
			return i, true
		}
	}
	key, ok := r.text() // out of order, or with escapes or blanks
	if !ok || !r.take(':') {
		return 0, false
	}
	i, ok := s.named[string(key)]
	return i, ok
}

func (r *reader) value(v *value, to reflect.Value) bool {
	switch v.sort {
	case number, whole:
		n, ok := r.number()
		if !ok || !v.takes(n) {
			return false
		}
		v.set(to, n)
		return true
	case text:
		written, ok := r.text()
		if !ok {
			return false
		}
		word, ok := v.word(written)
		to.SetString(word)
		return ok
	case truth:
		yes := r.literal("true")
		to.SetBool(yes)
		return yes || r.literal("false")
	case object:
		if v.pointer {
			to.Set(reflect.New(v.object.goType))
			to = to.Elem()
		}
		return r.object(v.object, to)
	case triple:
		return r.triple(v, to)
	default:
		return r.list(v, to)
	}
}

func (r *reader) triple(v *value, to reflect.Value) bool {
	if !r.take('[') {
		return false
	}
	for i := range to.Len() {
		n, ok := 0.0, i == 0 || r.take(',')
		if ok {
			n, ok = r.number()
		}
		if !ok || !v.takes(n) {
			return false
		}
		to.Index(i).SetFloat(v.unit.SI(n))
	}
	return r.take(']')
}

func (r *reader) list(v *value, to reflect.Value) bool {
	if !r.take('[') {
		return false
	}
	for n := 0; !r.take(']'); n++ {
		if n > 0 && !r.take(',') {
			return false
		}
		if n == to.Cap() {
			to.Grow(max(2, n))
		}
		to.SetLen(n + 1)
		if !r.value(v.item, to.Index(n)) {
			return false
		}
	}
	return true
}

// text returns the string that comes next.
func (r *reader) text() ([]byte, bool) {
	if !r.take('"') {
		return nil, false
	}
	start := r.at
	plain := true
	for ; r.at < len(r.data); r.at++ {
		switch c := r.data[r.at]; {
		case c == '"':
			r.at++
			if plain {
				return r.data[start : r.at-1], true
			}
			return unquote(r.data[start-1 : r.at])
		case c < ' ':
			return nil, false
		case c == '\\':
			plain = false
			r.at++
		case c >= 0x80:
			plain = false // may be no valid UTF-8
		}
	}
	return nil, false
}

func unquote(literal []byte) ([]byte, bool) {
	var word string
	err := json.Unmarshal(literal, &word)
	return []byte(word), err == nil
}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number returns the number that comes next. Up to 15 digits without an exponent
// are a whole number over a power of ten, both exact, so that their quotient is
// rounded right (W. D. Clinger, How to read floating point numbers accurately,
// 1990). Any others are for [strconv.ParseFloat].
func (r *reader) number() (float64, bool) {
	r.next()
	start := r.at
	negative := r.at < len(r.data) && r.data[r.at] == '-'
	if negative {
		r.at++
	}
	whole, first := r.digits(0)
	n := first
	ok := n > 0 && (n == 1 || r.data[r.at-n] != '0')
	places := 0
	if r.at < len(r.data) && r.data[r.at] == '.' {
		r.at++
		whole, places = r.digits(whole)
		n += places
		ok = ok && places > 0
	}
	exponent := false
	if r.at < len(r.data) && (r.data[r.at] == 'e' || r.data[r.at] == 'E') {
		exponent = true
		r.at++
		if r.at < len(r.data) && (r.data[r.at] == '+' || r.data[r.at] == '-') {
			r.at++
		}
		_, k := r.digits(0)
		ok = ok && k > 0
	}
	switch {
	case !ok:
		return 0, false
	case exponent || n > 15:
		v, err := strconv.ParseFloat(string(r.data[start:r.at]), 64)
		return v, err == nil
	}
	v := float64(whole) / tens[places]
	if negative {
		v = -v
	}
	return v, true
}

// digits appends the digits that come next to a number and counts them.
func (r *reader) digits(to int64) (int64, int) {
	n := 0
	for ; r.at < len(r.data); r.at++ {
		c := r.data[r.at] - '0'
		if c > 9 {
			break
		}
		to = 10*to + int64(c)
		n++
	}
	return to, n
}
