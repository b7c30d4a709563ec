package job

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// The fast way through a file takes what the careful one takes, with the same result.
func FuzzFast(f *testing.F) {
	f.Add(demo(f))
	f.Add([]byte(` {"title" : "\u00e4\u2028 \xff", "site": {"altitude_m": -0.25e+1, "wind_m_s": 12345678901234567.0} , } `))
	f.Add([]byte(`{"routes": [{"start_m": [1, 2.50, -3], "stretches": [,]}]}x`))
	f.Fuzz(func(t *testing.T, data []byte) {
		a, ok := fast(data)
		b, err := decode(data)
		if ok != (err == nil) {
			t.Fatalf("fast %v, careful %v", ok, err)
		}
		if ok && !cmp.Equal(a, b, cmpopts.EquateNaNs()) {
			t.Fatal(cmp.Diff(a, b, cmpopts.EquateNaNs()))
		}
	})
}

// Whatever the bytes, Decode and Assess do not panic; only an object passes, and
// what passes can be written as JSON.
func FuzzDecode(f *testing.F) {
	f.Add(demo(f))
	mixed, err := os.ReadFile("../../examples/dwelling/" + mixedHouse)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(mixed)
	f.Add([]byte(`{"title": "x", "site": {"altitude_m": [1, {"a": null}]}}`))
	f.Add([]byte(`{"routes": [{"start_m": [1,2], "stretches": [{}]}], "heaters": {}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Decode(data)
		if (j == nil) != (err != nil) {
			t.Fatal("a job with an error, or neither")
		}
		if err != nil {
			return
		}
		if !json.Valid(data) {
			t.Fatal("accepted what is no JSON")
		}
		s, err := Assess(j)
		if (s == nil) != (err != nil) {
			t.Fatal("a sheet with an error, or neither")
		}
		if err != nil {
			return
		}
		if _, err := json.Marshal(s); err != nil {
			t.Fatal(err)
		}
	})
}
