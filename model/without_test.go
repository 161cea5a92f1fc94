package model_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// boxedBank is a bank of three batteries with all that can hang on a part: a base
// under two fuses, a cover, a limit, a box, wires that are like cables.
func boxedBank(names ...string) *model.Stack {
	studs := make([]float64, len(names)+1)
	for i := range studs {
		studs[i] = 0.02 + 0.04*float64(i)
	}
	s := bank(names, studs, len(names))
	foot := &model.Base{Label: "foot", LimitTo: 393.15, Housing: model.Housing{Capacity: 80, To: materials.Exactly(0.05), Exposed: 4e-3, Emissivity: 0.9}}
	inside := []int{4 * len(names)} // the bar
	for i, name := range names {
		post := 4 * i
		foot.Carries = append(foot.Carries, model.Port{Part: post + 1}, model.Port{Part: post + 1, Port: 1})
		s.Covers = append(s.Covers, model.Cover{Label: name + ": cover", Parts: []int{post + 1}, Gap: 8e-3, Inside: 0.9, Capacity: 40, Exposed: 0.012, Height: 0.04, Outside: 0.9})
		s.Limits = append(s.Limits, model.PartLimit{Part: post + 3, Limit: model.Limit{Name: "own", Temp: 350}})
		inside = append(inside, post+1, post+2)
		negative := model.Port{Part: model.Outside, Port: 1 + int(name[0]-'A')}
		s.Wires[i].A = negative
		s.Wires = append(s.Wires, model.Wire{Name: name + ": negative", A: model.Port{Part: model.Outside}, B: negative, Like: &model.Section{Part: post + 3, From: 0, To: 1}})
	}
	s.Parts = append(s.Parts, foot)
	s.Enclosure = steelBox()
	s.Enclosure.Parts = append(inside, len(s.Parts)-1)
	s.Supply = model.Constant(120)
	return s
}

// TestWithout: a stack with a battery's branch taken away is, number for number,
// the one that was built without it.
func TestWithout(t *testing.T) {
	for _, c := range []struct {
		name, gone string
		stay       []string
	}{
		{"first", "A", []string{"B", "C"}}, {"middle", "B", []string{"A", "C"}}, {"last", "C", []string{"A", "B"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			whole := boxedBank("A", "B", "C")
			i := 4 * int(c.gone[0]-'A')
			left, err := whole.Without(i, i+1, i+2, i+3)
			if err != nil {
				t.Fatal(err)
			}
			built := boxedBank(c.stay...)
			// The studs are where the whole has them.
			bar := *whole.Parts[12].(*model.Bar)
			built.Parts[8] = &bar
			for k, j := range built.Joints {
				if j.B.Part == 8 {
					built.Joints[k].B.Port = int(c.stay[k/4][0] - 'A')
				}
				if j.A.Part == 8 {
					built.Joints[k].A.Port = 3
				}
			}
			a, x := fine(t, left)
			b, y := fine(t, built)
			if !slices.Equal(names(a), names(b)) {
				t.Fatalf("rows %q, built without %q", names(a), names(b))
			}
			if !slices.Equal(x, y) {
				t.Error("the states differ")
			}
			if len(whole.Parts) != 15 || len(whole.Parts[14].(*model.Base).Carries) != 6 || len(whole.Enclosure.Parts) != 8 {
				t.Error("the stack itself has changed")
			}
		})
	}
	t.Run("the fuse alone/its branch carries nothing", func(t *testing.T) {
		left, err := boxedBank("A", "B", "C").Without(5)
		if err != nil {
			t.Fatal(err)
		}
		a, x := fine(t, left)
		for i, r := range a.Rows {
			if (r.Name == "B: post" || r.Name == "B: cable") && (r.Branch != model.NoBranch || a.RowHeat(i, 0, x) != 0 || a.RowOhms(i, 0, x) != 0) {
				t.Errorf("%s carries a current", r.Name)
			}
		}
		near(t, "A and C, A", current(t, a, left, "A: post", x)+current(t, a, left, "C: post", x), 120, 1e-10)
	})
	t.Run("all that is on a base/the base too", func(t *testing.T) {
		left, err := boxedBank("A", "B").Without(1, 5)
		if err != nil {
			t.Fatal(err)
		}
		if slices.ContainsFunc(left.Parts, func(p model.Part) bool { return p.Name() == "foot" }) || len(left.Covers) != 0 {
			t.Error("a base or cover is left of which all is gone")
		}
	})
	t.Run("refused", func(t *testing.T) {
		s := boxedBank("A", "B")
		for _, parts := range [][]int{{-1}, {40}, {9}} { // 9 is the load's cable
			_, err := s.Without(parts...)
			var bad *model.StackError
			if !errors.As(err, &bad) {
				t.Errorf("without %v: %v", parts, err)
			}
		}
	})
}

// TestBranchedEnergy: at rest all heat of resistors and of other things leaves
// by surfaces, bodies and vents, and in a soak what does not is stored.
func TestBranchedEnergy(t *testing.T) {
	s := boxedBank("A", "B", "C")
	s.Enclosure.Heat, s.Enclosure.Inlet, s.Enclosure.Outlet, s.Enclosure.VentRise = 12, 2e-3, 2e-3, 0.2
	a, x := fine(t, s)
	made, lost := 0.0, 0.0
	for _, h := range a.Made(0, x) {
		made += h.Heat
	}
	for _, h := range a.Lost(x) {
		lost += h.Heat
	}
	near(t, "lost, W", lost, made, 1e-9)
	box := a.ReadBox(0, x)
	near(t, "out of the box, W", box.Wall+box.Bulkhead+box.Vents, box.Parts+box.Other, 1e-8)
	if !(box.Air > box.Inner && box.Inner > box.Outer && box.Outer > 298.15) {
		t.Errorf("air %g K, wall %g and %g K", box.Air, box.Inner, box.Outer)
	}
	d := a.Network.ReadDraw(a.Draws[0], 0, x)
	near(t, "power of the draw, W", d.Power, d.Voltage*120, 1e-12)
	// 13.2 V of three batteries at 120 A: what the load does not get is heat, in
	// the stack, in the batteries and in the negative cables.
	elsewhere := 0.0
	for _, b := range a.Branches {
		r := a.Network.ReadBranch(b.ID, 0, x)
		elsewhere += r.Current * r.Drop
	}
	near(t, "taken from the batteries, W", 13.2*120, d.Power+elsewhere, 1e-9)
	if !(elsewhere > made-12) {
		t.Errorf("%g W in all branches, %g W in the stack", elsewhere, made-12)
	}

	run, err := solver.Soak(context.Background(), a.Network, solver.SoakOptions{Start: a.Start(nil), Until: 3600, Tol: 1e-3})
	if err != nil {
		t.Fatal(err)
	}
	if run.Audit.Bookkeeping > 1e-9 || run.Audit.Quadrature > 1e-4 {
		t.Errorf("audit %+v", run.Audit)
	}
	if k := a.Network.Kirchhoff(3600, run.X); k > 1e-7 {
		t.Errorf("Kirchhoff's laws hold to %g at the end", k)
	}
}

// TestShared: posts on one body are linked by it, and terminals on one base by
// that: the idle one is as warm as the body between them makes it.
func TestShared(t *testing.T) {
	idle := func(share, base bool) float64 {
		s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
		s.Wires = s.Wires[:1] // nothing closes B's circuit
		s.Wires[0].Resistance = 1e-3
		s.Supply = model.Constant(150)
		s.Joints = slices.DeleteFunc(s.Joints, func(j model.Joint) bool { return j.Name == "B: bar" })
		s.Wires = append(s.Wires, model.Wire{Name: "B", A: model.Port{Part: model.Outside}, B: model.Port{Part: 4}, EMF: 13.2, Resistance: 2e-3})
		body := &model.Body{Name: "case", Capacity: 5000, To: materials.Exactly(0.3), Loss: 0.5}
		s.Parts[0].(*model.Post).Body = body
		if !share {
			own := *body
			body = &own
		}
		s.Parts[4].(*model.Post).Body = body
		if base {
			s.Parts = append(s.Parts, &model.Base{Label: "foot", Carries: []model.Port{{Part: 1}, {Part: 5}},
				Housing: model.Housing{Capacity: 80, To: materials.Exactly(0.2), Exposed: 4e-3, Emissivity: 0.9}})
		}
		a, x := fine(t, s)
		bodies := 0
		for _, r := range a.Rows {
			if r.Name == "case" {
				bodies++
			}
		}
		if (bodies == 1) != share {
			t.Errorf("%d rows of the case", bodies)
		}
		return a.RowTemp(rowOf(t, a, "B: post"), x)
	}
	if apart := idle(false, false); math.Abs(apart-298.15) > 1e-6 {
		t.Errorf("an idle battery apart is at %g K", apart)
	}
	if shared := idle(true, false); !(shared > 299) {
		t.Errorf("an idle post on the other's case is at %g K", shared)
	}
	if based := idle(false, true); !(based > 299) {
		t.Errorf("an idle holder on the other's base is at %g K", based)
	}
}

// TestBranchedMesh: in a stack that branches, too, cells of half the length bring
// a terminal nearer. The short sections between studs have few cells at any mesh,
// so that the order shows between meshes far apart only.
func TestBranchedMesh(t *testing.T) {
	at := func(cell float64) float64 {
		s := bank([]string{"A", "B", "C"}, []float64{0.02, 0.06, 0.1, 0.14}, 3)
		a, err := s.Assemble(model.Likely, model.Mesh{Cell: cell})
		if err != nil {
			t.Fatal(err)
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Tol: 1e-10})
		if err != nil {
			t.Fatal(err)
		}
		return a.RowTemp(rowOf(t, a, "C: lug"), r.X)
	}
	usual, finer, finest := at(0.2), at(0.05), at(0.0125)
	if d := math.Abs(usual - finest); d > 1e-3 {
		t.Errorf("the usual cells are %g K off the finest", d)
	}
	if ratio := (usual - finest) / (finer - finest); ratio < 4 {
		t.Errorf("a quarter of the cells are %g times as near", ratio)
	}
}
