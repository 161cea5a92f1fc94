package model_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"clampheat/model"
	"clampheat/solver"

	"pgregory.net/rapid"
)

// TestAnyCircuit: whatever parts, joints, wires and draws are put together, either
// an error says why no current can be found, or what is found obeys Kirchhoff.
func TestAnyCircuit(t *testing.T) {
	worked, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(50)}
		n := rapid.IntRange(1, 6).Draw(t, "parts")
		for i := range n {
			if rapid.Bool().Draw(t, "bar") {
				s.Parts = append(s.Parts, &model.Bar{Label: fmt.Sprint("bar ", i), Metal: copper, Plating: tin, Finish: finish, Width: 0.02,
					Thickness: 0.005, Length: 0.1, Exposed: 1, Studs: []float64{0, 0.04, 0.07}})
			} else {
				s.Parts = append(s.Parts, lug(fmt.Sprint("lug ", i)))
			}
		}
		port := func(outside bool) model.Port {
			least := 0
			if outside {
				least = -1
			}
			return model.Port{Part: rapid.IntRange(least, n-1).Draw(t, "part"), Port: rapid.IntRange(0, 1).Draw(t, "port")}
		}
		// Most parts are joined to one before them, and some to more.
		for i := 1; i < n; i++ {
			a, b := port(false), port(false)
			if b.Part = i; rapid.IntRange(0, 9).Draw(t, "apart") > 0 {
				a.Part %= i
			}
			s.Joints = append(s.Joints, crimped("joint", a, b))
		}
		for range rapid.IntRange(0, 3).Draw(t, "more joints") {
			if a, b := port(false), port(false); a.Part != b.Part {
				s.Joints = append(s.Joints, crimped("joint", a, b))
			}
		}
		// Voltages are small, since a battery that is shorted has no lasting state.
		for range rapid.IntRange(0, 4).Draw(t, "wires") {
			w := model.Wire{Name: "wire", A: port(true), B: port(true), Resistance: rapid.SampledFrom([]float64{0, 1e-3, 2e-3, 5e-3}).Draw(t, "ohms")}
			if w.Resistance > 0 {
				w.EMF = rapid.SampledFrom([]float64{0, 0, 0.02, 0.03}).Draw(t, "voltage")
			}
			s.Wires = append(s.Wires, w)
		}
		for range rapid.SampledFrom([]int{0, 1, 1, 2}).Draw(t, "draws") {
			s.Draws = append(s.Draws, model.Draw{Name: "draw", From: port(true), To: port(true)})
		}
		a, err := s.Assemble(model.Likely, model.Mesh{Cell: 1})
		var bad *model.StackError
		switch {
		case errors.As(err, &bad):
			refused++
			return
		case err != nil:
			t.Fatalf("%v", err)
		}
		worked++
		x := a.Start(nil)
		if k := a.Network.Kirchhoff(0, x); !(k < 1e-9) {
			t.Fatalf("Kirchhoff's laws hold to %g", k)
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: x, Ceilings: a.Network.Ceilings()})
		if err != nil {
			t.Fatal(err)
		}
		if k := a.Network.Kirchhoff(0, r.X); !(k < 1e-9) {
			t.Fatalf("Kirchhoff's laws hold to %g in the lasting state", k)
		}
		for i := range a.Rows {
			if c := a.RowCurrent(i, 0, x); math.IsNaN(c) || math.IsInf(c, 0) {
				t.Fatalf("%s carries %g A", a.Rows[i].Name, c)
			}
		}
	})
	t.Logf("%d worked, %d refused", worked, refused)
	if worked == 0 || refused == 0 {
		t.Errorf("%d worked, %d refused: one side was not tried", worked, refused)
	}
}

// TestCircuitRefused: a circuit in which a current cannot be told is an error that
// says what it lacks.
func TestCircuitRefused(t *testing.T) {
	out := func(k int) model.Port { return model.Port{Part: model.Outside, Port: k} }
	for _, c := range []struct {
		name, where, field string
		change             func(*model.Stack)
	}{
		{"draw/from no part", "inverter", "", func(s *model.Stack) { s.Draws[0].From.Part = 30 }},
		{"draw/from no port", "inverter", "", func(s *model.Stack) { s.Draws[0].From.Port = 2 }},
		{"draw/to where it comes from", "inverter", "", func(s *model.Stack) { s.Draws[0].To = s.Draws[0].From }},
		{"draw/no way back", "inverter", "", func(s *model.Stack) { s.Draws[0].To = out(5) }},
		{"draw/current and power", "inverter", "", func(s *model.Stack) {
			s.Draws[0].Current, s.Draws[0].Power = model.Constant(1), model.Constant(1)
		}},
		{"draw/negative power", "inverter", "power", func(s *model.Stack) { s.Draws[0].Power = model.Constant(-1) }},
		{"draw/no supply to take", "the supply", "current", func(s *model.Stack) { s.Supply = nil }},
		{"wire/to a stud that is not there", "A", "", func(s *model.Stack) { s.Wires[0].B = model.Port{Part: 8, Port: 3} }},
		{"wire/negative ohms", "A", "resistance", func(s *model.Stack) { s.Wires[0].Resistance = -1 }},
		{"wire/endless voltage", "A", "voltage", func(s *model.Stack) { s.Wires[0].EMF = math.Inf(1) }},
		{"wire/shorted", "A", "", func(s *model.Stack) { s.Wires[0].B = s.Wires[0].A }},
		{"wire/like nothing", "A", "", func(s *model.Stack) { s.Wires[0].Like = &model.Section{Part: 3, From: 1, To: 1} }},
		{"wire/like a point", "A", "", func(s *model.Stack) { s.Wires[0].Like = &model.Section{Part: model.Outside, To: 1} }},
		{"wire/a voltage without ohms between junctions", "third", "", func(s *model.Stack) {
			s.Wires = append(s.Wires, model.Wire{Name: "third", A: out(0), B: model.Port{Part: 8, Port: 2}, EMF: 13})
		}},
		{"joint/to a point outside", "joint", "", func(s *model.Stack) {
			s.Joints = append(s.Joints, crimped("joint", out(0), model.Port{Part: 1}))
		}},
		{"part/led to by nothing", "spare", "", func(s *model.Stack) { s.Parts = append(s.Parts, lug("spare")) }},
		{"draws/none, and no end is free", "", "", func(s *model.Stack) {
			s.Draws = nil
			s.Wires = append(s.Wires, model.Wire{Name: "short", A: out(0), B: model.Port{Part: 9, Port: 1}, Resistance: 1})
		}},
		{"stud/beyond the bar", "bus bar", "place of stud C", func(s *model.Stack) { s.Parts[8].(*model.Bar).Studs[2] = 1 }},
		{"stud/before another", "bus bar", "place of stud C", func(s *model.Stack) { s.Parts[8].(*model.Bar).Studs[2] = 0.03 }},
		{"box/no width", "box", "width", func(s *model.Stack) { s.Enclosure = steelBox(); s.Enclosure.Width = 0 }},
		{"box/all wall", "box", "wall's thickness", func(s *model.Stack) { s.Enclosure = steelBox(); s.Enclosure.Wall.Thickness = 0.1 }},
		{"box/one vent", "box", "vents", func(s *model.Stack) { s.Enclosure = steelBox(); s.Enclosure.Inlet = 1e-3 }},
		{"box/on a bulkhead without contact", "box", "conductance to the bulkhead", func(s *model.Stack) {
			s.Enclosure = steelBox()
			s.Enclosure.Mounting = model.OnBulkhead
		}},
		{"box/holds no part", "box", "list of parts", func(s *model.Stack) { s.Enclosure = steelBox(); s.Enclosure.Parts = []int{10} }},
		{"course/below the least", "the air's course", "temperature", func(s *model.Stack) { s.Course = model.Constant(-1) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
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
}

// TestBranchNames: branches are named by the parts on them and counted from the
// battery to the bar.
func TestBranchNames(t *testing.T) {
	s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
	a, x := settle(t, s, model.Likely)
	for i, want := range []string{"A: post … bus bar, A to B", "B: post … B: cable", "bus bar, B to C … load"} {
		if got := a.Branches[i].Name; got != want {
			t.Errorf("branch %d is %q", i+1, got)
		}
		if c := a.Network.ReadBranch(a.Branches[i].ID, 0, x).Current; !(c > 0) {
			t.Errorf("%s carries %g A", want, c)
		}
	}
	// The path runs on from part to part: alike batteries lie side by side, as
	// far from their studs.
	begin := map[int]float64{}
	for _, p := range a.Path {
		if _, met := begin[p.Part]; !met {
			begin[p.Part] = p.Along
		}
	}
	near(t, "posts, m", begin[4]-begin[0], 0.04, 1e-9) // as far apart as their studs
}
