package model_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"clampheat/materials"
	"clampheat/model"
)

// tapped is a bar between two cables, with or without studs.
func tapped(bar *model.Bar, in, out int) *model.Stack {
	return &model.Stack{
		Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(200),
		Parts: []model.Part{cable("in", 0.8), bar, cable("out", 0.5)},
		Joints: []model.Joint{crimped("first", model.Port{Part: 0, Port: 1}, model.Port{Part: 1, Port: in}),
			crimped("second", model.Port{Part: 1, Port: out}, model.Port{Part: 2})},
	}
}

func busBar(length float64, studs ...float64) *model.Bar {
	return &model.Bar{Label: "bar", Metal: copper, Plating: tin, Finish: finish, Width: 0.025, Thickness: 0.005,
		Length: length, Exposed: 0.9, Studs: studs}
}

// TestStuds: a bar with studs at its two ends is a bar; what sticks out beyond a
// stud cools and carries nothing; a bar of three studs is two bars end to end.
func TestStuds(t *testing.T) {
	plain := tapped(busBar(0.2), 0, 1)
	a, x := fine(t, plain)
	t.Run("at the ends/like a bar", func(t *testing.T) {
		b, y := fine(t, tapped(busBar(0.2, 0, 0.2), 0, 1))
		if len(y) != len(x) || len(b.Branches) != 0 {
			t.Fatalf("%d unknowns, %d of the bar without studs; %d branches", len(y), len(x), len(b.Branches))
		}
		for i := range x {
			if math.Abs(x[i]-y[i]) > 1e-9 {
				t.Errorf("node %d: %g K, of the bar without studs %g K", i, y[i], x[i])
			}
		}
		near(t, "drop, V", b.Drop(0, y), a.Drop(0, x), 1e-12)
		want := []string{"in", "first", "bar, stud A", "bar, A to B", "bar, stud B", "second", "out"}
		if got := names(b); !slices.Equal(got, want) {
			t.Errorf("rows %q", got)
		}
	})
	t.Run("turned round/the same", func(t *testing.T) {
		s := tapped(busBar(0.2, 0, 0.2), 1, 0)
		s.Parts[1].(*model.Bar).StudNames = []string{"out", "in"}
		b, y := fine(t, s)
		near(t, "drop, V", b.Drop(0, y), a.Drop(0, x), 1e-9)
		want := []string{"in", "first", "bar, stud in", "bar, out to in", "bar, stud out", "second", "out"}
		if got := names(b); !slices.Equal(got, want) {
			t.Errorf("rows %q", got)
		}
	})
	t.Run("stubs/cooler and without current", func(t *testing.T) {
		b, y := fine(t, tapped(busBar(0.3, 0.05, 0.25), 0, 1))
		if got, was := b.RowTemp(2, y), a.RowTemp(2, x); !(got < was-0.1) {
			t.Errorf("stud at %g K, without stubs %g K", got, was)
		}
		ohm := b.ReadRow(3, 0, y).Ohm
		hot := 1.7241e-8 * 0.2 / (0.025 * 0.005) * (1 + 0.00393*(b.RowTemp(3, y)-293.15)) // IEC 60028
		near(t, "section, Ω", ohm, hot, 0.01)
		heat := 0.0
		for i := range b.Rows {
			heat += b.RowHeat(i, 0, y)
		}
		made := 0.0
		for _, h := range b.Made(0, y) {
			made += h.Heat
		}
		near(t, "heat of the rows, W", heat, made, 1e-12)
	})
	t.Run("not taken/without current", func(t *testing.T) {
		b, y := fine(t, tapped(busBar(0.2, 0, 0.1, 0.2), 0, 1))
		i := rowOf(t, b, "bar, B to C")
		if b.Rows[i].Branch != model.NoBranch || b.RowCurrent(i, 0, y) != 0 || b.RowHeat(i, 0, y) != 0 {
			t.Errorf("beyond the last stud taken: branch %d, %g A, %g W", b.Rows[i].Branch, b.RowCurrent(i, 0, y), b.RowHeat(i, 0, y))
		}
		if got := b.RowCurrent(i-2, 0, y); got != 200 {
			t.Errorf("before it %g A", got)
		}
	})
	t.Run("three/two bars end to end", func(t *testing.T) {
		b, y := fine(t, tapped(busBar(0.2, 0, 0.08, 0.2), 0, 2))
		first, second := busBar(0.08), busBar(0.12)
		s := tapped(first, 0, 1)
		s.Parts = append(s.Parts, second)
		s.Joints[1].A = model.Port{Part: 3, Port: 1}
		s.Joints = append(s.Joints, model.Joint{Name: "butt", A: model.Port{Part: 1, Port: 1}, B: model.Port{Part: 3}, Kind: model.Fixed,
			Resistance: materials.Exactly(1e-15), Conductance: materials.Exactly(1e7)})
		c, z := fine(t, s)
		near(t, "drop, V", b.Drop(0, y), c.Drop(0, z), 1e-8)
		near(t, "second stud, K", b.RowTemp(rowOf(t, b, "bar, stud B"), y), c.RowTemp(rowOf(t, c, "butt"), z), 1e-8)
	})
}

// TestBusBar: the current of a bus bar grows from stud to stud by what each
// battery gives, and at every stud as much comes in as goes out.
func TestBusBar(t *testing.T) {
	s := bank([]string{"A", "B", "C", "D"}, []float64{0.02, 0.06, 0.1, 0.14, 0.18}, 4)
	a, x := fine(t, s)
	sum := 0.0
	for k, name := range []string{"A", "B", "C", "D"} {
		sum += a.RowCurrent(rowOf(t, a, name+": cable"), 0, x)
		section := rowOf(t, a, fmt.Sprintf("bus bar, %c to %c", 'A'+k, 'B'+k))
		near(t, "bar beyond "+name+", A", a.RowCurrent(section, 0, x), sum, 1e-10)
		near(t, "its heat, W", a.RowHeat(section, 0, x), sum*a.RowDrop(section, 0, x), 1e-9)
	}
	near(t, "load, A", sum, 200, 1e-10)
	d := current(t, a, s, "D: post", x)
	if one := current(t, a, s, "A: post", x); !(one < d) {
		t.Errorf("the far battery gives %g A, the near one %g A", one, d)
	}
	for i := range a.Rows {
		if r := &a.Rows[i]; r.Kind == model.TerminalRow && r.Part == 16 && len(r.Limits) != 1 {
			t.Errorf("%s has %d limits", r.Name, len(r.Limits))
		}
	}
}
