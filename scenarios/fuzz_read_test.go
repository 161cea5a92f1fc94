package scenarios

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"clampheat/model"
)

// Whatever the bytes, ReadAll answers with scenarios whose stacks can be put
// together, or with problems at places inside the file; and what it reads,
// Read reads.
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
	for _, name := range filesIn(f, filepath.Join("testdata", "*"), ".yaml") {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(varied + "  - name: a\n    compact holder: {nut: 4 N·m, faces: tarnished}\n    air: 40 °C\n"))
	f.Add([]byte(varied + "  - name: b\n    cable: 2/0 AWG\n    compact holder: {replace with: []}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		all, err := ReadAll("f.yaml", data)
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
		if _, err := Read("f.yaml", data); err != nil {
			t.Errorf("with its variants it can be read, alone not: %v", err)
		}
		for _, s := range all {
			sound(t, s)
		}
	})
}

func sound(t *testing.T, s *Scenario) {
	t.Helper()
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
