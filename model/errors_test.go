package model_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"clampheat/materials"
	"clampheat/model"

	"pgregory.net/rapid"
)

// TestRefused: what no figure can be made from is an error that names the
// thing and its field.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, where, field string
		change             func(*model.Stack)
	}{
		{"cable/negative length", "feed", "length", func(s *model.Stack) { s.Parts[0].(*model.Cable).Length = -3 }},
		{"cable/no conductor", "feed", "conductor's area", func(s *model.Stack) { s.Parts[0].(*model.Cable).Conductor.Area = 0 }},
		{"cable/endless", "load", "length", func(s *model.Stack) { s.Parts[7].(*model.Cable).Length = 1e9 }},
		{"lug/emissivity 1.3", "first lug", "finish's emissivity", func(s *model.Stack) { s.Parts[1].(*model.Block).Finish.Emissivity.Likely = 1.3 }},
		{"washer/hole wider than disc", "steel washer", "outer diameter less the hole", func(s *model.Stack) { s.Parts[2].(*model.Washer).Hole = 0.02 }},
		{"fuse/less than its caps", "fuse 300 A", "cold resistance", func(s *model.Stack) { s.Parts[3].(*model.Fuse).Cold = materials.Exactly(1e-6) }},
		{"bar/no width", "link bar", "width", func(s *model.Stack) { s.Parts[4].(*model.Bar).Width = 0 }},
		{"switch/housing touches nothing", "battery switch", "conductance to the housing", func(s *model.Stack) { s.Parts[5].(*model.Block).Housing.To = materials.Range{} }},
		{"base/carries nothing", "foot", "", func(s *model.Stack) { s.Parts[8].(*model.Base).Carries = nil }},
		{"base/carries a base", "foot", "", func(s *model.Stack) { s.Parts[8].(*model.Base).Carries = []model.Port{{Part: 8}} }},
		{"cover/no gap", "cover", "air gap", func(s *model.Stack) { s.Covers[0].Gap = 0 }},
		{"cover/over nothing", "cover", "", func(s *model.Stack) { s.Covers[0].Parts = nil }},
		{"joint/no such bolt", "fuse on bar", "bolt", func(s *model.Stack) { s.Joints[3].Bolt = 9 }},
		{"joint/no face", "fuse on bar", "contact face", func(s *model.Stack) { s.Joints[3].Face.Area = 0 }},
		{"joint/no such part", "fuse on bar", "", func(s *model.Stack) { s.Joints[3].B.Part = 40 }},
		{"joint/onto a base", "fuse on bar", "", func(s *model.Stack) { s.Joints[3].B.Part = 8 }},
		{"joint/missing", "link bar", "", func(s *model.Stack) { s.Joints = append(s.Joints[:3:3], s.Joints[4:]...) }},
		{"surroundings/absolute zero", "the surroundings", "temperature of the air", func(s *model.Stack) { s.Surroundings.Air = 0 }},
		{"supply/none", "the supply", "current", func(s *model.Stack) { s.Supply = nil }},
		{"supply/not a number", "the supply", "current", func(s *model.Stack) { s.Supply = model.Constant(math.NaN()) }},
		{"parts/none", "", "", func(s *model.Stack) { s.Parts = nil }},
		{"parts/one missing", "", "", func(s *model.Stack) { s.Parts[2] = (*model.Washer)(nil) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := holder()
			c.change(s)
			_, err := s.Assemble(model.Likely, model.Mesh{})
			var got *model.StackError
			if !errors.As(err, &got) {
				t.Fatalf("got %v, want a StackError", err)
			}
			if got.Where != c.where || got.Field != c.field {
				t.Errorf("names %q, field %q: %v", got.Where, got.Field, err)
			}
		})
	}
	t.Run("branch/no place to go out", func(t *testing.T) {
		s := holder()
		s.Joints[6].A = model.Port{Part: 4, Port: 1}
		_, err := s.Assemble(model.Likely, model.Mesh{})
		var got *model.StackError
		if !errors.As(err, &got) || got.Where != "feed" {
			t.Errorf("got %v", err)
		}
	})
	t.Run("bolt/past yield", func(t *testing.T) {
		s := holder()
		s.Bolts[0].Torque = 900
		_, err := s.Assemble(model.Likely, model.Mesh{})
		var yield *model.YieldError
		if !errors.As(err, &yield) || yield.Bolt != "first nut" {
			t.Errorf("got %v", err)
		}
	})
	t.Run("mesh/too fine", func(t *testing.T) {
		for _, cell := range []float64{-1, 1e-9, math.NaN(), math.Inf(1)} {
			if _, err := holder().Assemble(model.Likely, model.Mesh{Cell: cell}); err == nil {
				t.Errorf("cells of %g fin lengths pass", cell)
			}
		}
	})
}

// numbers lists every number of a value, for a test to spoil.
func numbers(v reflect.Value, out []reflect.Value) []reflect.Value {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			out = numbers(v.Elem(), out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out = numbers(v.Field(i), out)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			out = numbers(v.Index(i), out)
		}
	case reflect.Float64, reflect.Int:
		if v.CanSet() {
			out = append(out, v)
		}
	}
	return out
}

// spoil puts odd values into a few fields of a stack and assembles it: Assemble
// must neither panic nor let anything but finite figures through. It reports
// whether the stack was refused.
func spoil(t *rapid.T) (refused bool) {
	s := rapid.SampledFrom([]func() *model.Stack{holder, compact, func() *model.Stack { return boxedBank("A", "B") }}).Draw(t, "stack")()
	all := numbers(reflect.ValueOf(s), nil)
	for range rapid.IntRange(1, 3).Draw(t, "spoiled") {
		v := all[rapid.IntRange(0, len(all)-1).Draw(t, "field")]
		if v.Kind() == reflect.Int {
			v.SetInt(int64(rapid.IntRange(-2, 30).Draw(t, "index")))
		} else {
			v.SetFloat(rapid.SampledFrom(odd).Draw(t, "value"))
		}
	}
	a, err := s.Assemble(rapid.SampledFrom([]model.Condition{model.Likely, model.Careful, model.Careless}).Draw(t, "condition"), model.Mesh{Cell: 0.5})
	if err != nil {
		return true
	}
	x := a.Start(nil)
	f := make([]float64, len(x))
	flow := a.Network.Balance(0, x, f)
	for _, v := range append(append([]float64{flow.Made, flow.Lost, a.Drop(0, x)}, f...), x...) {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%g leaves the network", v)
		}
	}
	return false
}

var odd = []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1, 1e-300, 1e300, -1e300, 1e-9, 1e9,
	math.MaxFloat64, math.SmallestNonzeroFloat64}

func TestSpoiled(t *testing.T) {
	passed, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		if spoil(t) {
			refused++
		} else {
			passed++
		}
	})
	if passed == 0 || refused == 0 {
		t.Errorf("%d passed, %d refused: one side was not tried", passed, refused)
	}
}

func FuzzAssemble(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { spoil(t) }))
}
