package job

import (
	"encoding/json"
	"testing"
)

func BenchmarkDecode(b *testing.B) {
	data := demo(b)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAssess(b *testing.B) {
	j, err := Decode(demo(b))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Assess(j); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMarshal(b *testing.B) {
	j, err := Decode(demo(b))
	if err != nil {
		b.Fatal(err)
	}
	s, err := Assess(j)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := json.Marshal(s); err != nil {
			b.Fatal(err)
		}
	}
}
