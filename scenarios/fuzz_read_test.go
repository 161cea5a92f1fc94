package scenarios

import (
	"errors"
	"math"
	"testing"

	"clampheat/model"
)

// Whatever the bytes, Read answers with a scenario whose stack can be put
// together, or with problems at places inside the file.
func FuzzRead(f *testing.F) {
	for _, e := range Examples() {
		data, err := Example(e.Name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, path := range every {
		f.Add(written(path[1:]))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Read("f.yaml", data)
		if err != nil {
			var problems *Problems
			if !errors.As(err, &problems) {
				t.Fatalf("%v is about no place", err)
			}
			for _, p := range problems.List {
				if p.Line < 1 || p.Column < 1 || p.Length < 1 || p.Message == "" {
					t.Errorf("%+v has no place", p)
				}
			}
			return
		}
		for _, a := range s.Assumptions() {
			for _, v := range []float64{a.Value.Low, a.Value.Likely, a.Value.High} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%s is %v", a.ID, v)
				}
			}
		}
		stack, err := s.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := stack.Assemble(model.Likely, coarse); err != nil {
			t.Error(err)
		}
	})
}

func BenchmarkStack(b *testing.B) {
	s, err := Open("compact")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Stack(nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data, err := Example("compact")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read("b.yaml", data); err != nil {
			b.Fatal(err)
		}
	}
}
