package model_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"clampheat/model"
	"clampheat/solver"
)

// steelConduit holds some cables of the fixtures.
func steelConduit(count int) *model.Conduit {
	return &model.Conduit{Name: "steel", Kind: model.MetalConduit, Inner: 60e-3, Outer: 64e-3,
		Conductivity: 50, HeatCapacity: 3.6e6, Emissivity: 0.9, Count: count}
}

// settled solves an assembly.
func settled(t interface{ Fatal(...any) }, a *model.Assembly) []float64 {
	r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Ceilings: a.Network.Ceilings()})
	if err != nil {
		t.Fatal(err)
	}
	return r.X
}

// refused says that a stack is not assembled, and that the error says where.
func refused(t *testing.T, s *model.Stack) {
	t.Helper()
	_, err := s.Assemble(model.Likely, model.Mesh{})
	var stack *model.StackError
	if !errors.As(err, &stack) || stack.Where == "" || stack.Reason == "" {
		t.Errorf("error %v", err)
	}
}

// Worked by hand: metal, 30 mm around the cables, 50 °C between:
// 5.2/(1 + 0.1 · (1.4 + 0.011 · 50) · 30) = 5.2/6.85.
func TestConduitResistance(t *testing.T) {
	if got, want := model.ConduitResistance(model.MetalConduit, 30e-3, 323.15), 5.2/6.85; math.Abs(got-want) > 1e-12 {
		t.Errorf("metal: %g K·m/W, want %g", got, want)
	}
	if metal, fibre := model.ConduitResistance(model.MetalConduit, 30e-3, 323.15), model.ConduitResistance(model.FibreConduit, 30e-3, 323.15); fibre <= metal {
		t.Errorf("fibre %g K·m/W is not above metal %g", fibre, metal)
	}
	for _, kind := range []model.ConduitKind{-1, 2} {
		if got := model.ConduitResistance(kind, 30e-3, 323.15); got != 0 {
			t.Errorf("kind %d: %g, want 0", kind, got)
		}
	}
	before := 0.0
	for n := 1; n < 30; n++ {
		d := model.ConduitDiameter(n, 1)
		if d <= before {
			t.Errorf("%d cables are %g around, fewer %g", n, d, before)
		}
		before = d
	}
}

// In the middle of a long cable the heat of all cables crosses the standard's
// resistance, at the temperatures that it finds there.
func TestConduitHeat(t *testing.T) {
	for _, count := range []int{1, 3, 7} {
		c := cable("cable", 4)
		c.Conduit = steelConduit(count)
		a, x := settle(t, alone(c, 100), model.Likely)
		made := 0.0
		for _, h := range a.Made(0, x) {
			made += h.Heat
		}
		lost := 0.0
		for _, h := range a.Lost(x) {
			lost += h.Heat
		}
		if math.Abs(made-lost) > 1e-8*made {
			t.Errorf("%d cables: made %.10g W, lost %.10g W", count, made, lost)
		}
		d, outer := conductor.Diameter.Likely, conductor.Diameter.Likely+2*c.Wall
		all := made / c.Length * float64(count) // W/m, of all cables
		cells := len(a.Rows[0].Nodes)
		jackets := a.Detail(x)[cells:]
		mid := cells / 2
		jacket, conduit := jackets[mid].Temp, 0.0
		for _, s := range a.Detail(x)[mid : mid+1] {
			conduit = s.Temp
		}
		inner := conduit + all*math.Log(64.0/60)/(2*math.Pi*50)
		want := all * model.ConduitResistance(model.MetalConduit, model.ConduitDiameter(count, outer), (jacket+inner)/2)
		if got := jacket - inner; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d cables: jackets above the conduit %g K, want %g K", count, got, want)
		}
		want = made / c.Length * (math.Log(outer/d)/(2*math.Pi*0.2) + model.BunchResistance(count))
		if got := x[a.Rows[0].Nodes[mid]] - jacket; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d cables: conductor above its jacket %g K, want %g K", count, got, want)
		}
		if want := math.Pi * 64e-3 * c.Length / float64(count); math.Abs(a.Parts[0].Surface-want) > 1e-12 {
			t.Errorf("%d cables: surface %g m², want the conduit's part %g m²", count, a.Parts[0].Surface, want)
		}
		free := cable("cable", 4)
		af, err := alone(free, 100).Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		wall := 3.6e6 * math.Pi / 4 * (64e-3*64e-3 - 60e-3*60e-3) * c.Length / float64(count)
		if got, want := a.Parts[0].Capacity, af.Parts[0].Capacity+wall; math.Abs(got-want) > 1e-9*want {
			t.Errorf("%d cables: heat capacity %g J/K, want %g J/K", count, got, want)
		}
	}
}

// A conduit holds heat back, more so the more cables there are in it.
func TestConduitIsHotter(t *testing.T) {
	before := hot(t, cable("cable", 1), 100)
	for _, count := range []int{1, 2, 3, 4, 5, 9} {
		c := cable("cable", 1)
		c.Conduit = steelConduit(count)
		if now := hot(t, c, 100); now <= before {
			t.Errorf("%d cables are at %g K, fewer at %g K", count, now, before)
		} else {
			before = now
		}
	}
}

func TestConduitRefused(t *testing.T) {
	for name, change := range map[string]func(*model.Conduit){
		"no cables":         func(d *model.Conduit) { d.Count = 0 },
		"unknown kind":      func(d *model.Conduit) { d.Kind = 2 },
		"no bore":           func(d *model.Conduit) { d.Inner = 0 },
		"no wall":           func(d *model.Conduit) { d.Outer = d.Inner },
		"too full":          func(d *model.Conduit) { d.Count = 30 },
		"no conductivity":   func(d *model.Conduit) { d.Conductivity = 0 },
		"negative capacity": func(d *model.Conduit) { d.HeatCapacity = -1 },
		"emissivity":        func(d *model.Conduit) { d.Emissivity = 1.1 },
	} {
		t.Run(name, func(t *testing.T) {
			c := cable("cable", 1)
			c.Conduit = steelConduit(3)
			change(c.Conduit)
			refused(t, alone(c, 100))
		})
	}
}

// Outside the sizes that the standard states its relation for, the answer says so.
func TestConduitWarns(t *testing.T) {
	for count, warns := range map[int]bool{1: true, 4: false} {
		c := cable("cable", 1)
		c.Conduit = steelConduit(count)
		a, err := alone(c, 100).Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		said := false
		for _, w := range a.Warnings {
			said = said || strings.Contains(w.Text, "IEC 60287-2-1")
		}
		if said != warns {
			t.Errorf("%d cables: warnings %v", count, a.Warnings)
		}
	}
}
