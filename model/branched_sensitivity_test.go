package model_test

import (
	"context"
	"testing"

	"clampheat/model"
	"clampheat/solver"
)

// TestBranchedSensitivities holds the derivatives of a terminal's temperature, of a
// stack that branches and stands in a box with vents, against differences: a
// resistance moves currents from one branch to another besides making heat.
func TestBranchedSensitivities(t *testing.T) {
	stack := func() *model.Stack {
		s := boxedBank("A", "B", "C")
		s.Enclosure.Heat, s.Enclosure.Inlet, s.Enclosure.Outlet, s.Enclosure.VentRise = 12, 2e-3, 2e-3, 0.2
		return s
	}
	const of = "A: lug"
	temp := func(s *model.Stack, change func(*model.Assembly)) float64 {
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		if change != nil {
			change(a)
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Tol: 1e-10})
		if err != nil {
			t.Fatal(err)
		}
		return r.X[a.HottestNode(rowOf(t, a, of), r.X)]
	}
	s := stack()
	a, x := fine(t, s)
	worth := make([]float64, len(x))
	worth[a.HottestNode(rowOf(t, a, of), x)] = 1
	if err := solver.NewSteadySolver(a.Network).Adjoint(0, x, worth, worth); err != nil {
		t.Fatal(err)
	}
	got := a.Sensitivities(0, x, worth)

	load := func(by float64) float64 {
		s := stack()
		s.Supply = model.Constant(120 * by)
		return temp(s, nil)
	}
	near(t, "by the current, K", got.Current, (load(1.001)-load(0.999))/2e-3, 1e-4)
	around := func(by float64) float64 {
		s := stack()
		s.Surroundings.Air += by
		return temp(s, nil)
	}
	// A warmer room has thinner air too, which the derivative leaves out.
	near(t, "by the room, K/K", got.Around, (around(0.1)-around(-0.1))/0.2, 0.01)
	for _, name := range []string{"A: cable", "B: cable", "bus bar, A to B", "load"} {
		share := func(by float64) float64 {
			return temp(stack(), func(a *model.Assembly) {
				row := a.Rows[rowOf(t, a, name)]
				cold := make([]float64, a.Network.Unknowns())
				for i := range a.Network.Nodes() {
					cold[i] = 293.15
				}
				for _, id := range row.Resistors {
					if err := a.Network.SetResistor(id, by*a.Network.ReadResistor(id, 0, cold).Ohm, 0); err != nil {
						t.Fatal(err)
					}
				}
			})
		}
		near(t, name+": by its ohms, K", got.Rows[rowOf(t, a, name)].Ohms, (share(1.001)-share(0.999))/2e-3, 1e-3)
	}
	// A measured value in the place of the predicted one.
	nut := 1
	f, err := s.JointFigures(nut)
	if err != nil {
		t.Fatal(err)
	}
	share := func(by float64) float64 {
		s := stack()
		s.Joints[nut].Measured = &model.Measured{Resistance: f.Resistance.Likely * by}
		return temp(s, nil)
	}
	near(t, "A: fuse nut: by its ohms, K", got.Rows[rowOf(t, a, "A: fuse nut")].Ohms, (share(1.001)-share(0.999))/2e-3, 1e-3)
}
