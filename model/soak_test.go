package model_test

import (
	"context"
	"math"
	"testing"

	"clampheat/model"
	"clampheat/solver"
)

// TestSoak: a stack that a schedule brings to its current, in steps and ramps,
// ends where the search for the settled state ends; with the current off it
// starts to cool at once.
func TestSoak(t *testing.T) {
	s := compact()
	s.Parts[0].(*model.Post).Body.Capacity = 500 // a small battery, to settle soon
	schedule, err := model.NewSchedule(
		model.Piece{From: 0, To: 140, For: 300}, model.Piece{From: 60, To: 60, For: 600}, model.Piece{From: 140, To: 140, For: 40000}, model.Piece{For: math.Inf(1)})
	if err != nil {
		t.Fatal(err)
	}
	s.Supply = schedule
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	start := a.Start(map[int]float64{4: 310})
	if start[0] != 298.15 || a.RowTemp(len(a.Rows)-3, start) != 310 {
		t.Fatalf("post at %g K, cable at %g K", start[0], a.RowTemp(len(a.Rows)-3, start))
	}
	run, err := solver.Soak(context.Background(), a.Network, solver.SoakOptions{
		Start: start, Until: 41200, Times: []float64{40900, 41200}, Breaks: schedule.Breaks()})
	if err != nil {
		t.Fatal(err)
	}
	settled, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Time: 40000})
	if err != nil {
		t.Fatal(err)
	}
	hottest := a.HottestTerminal(settled.X)
	want := a.RowTemp(hottest, settled.X)
	if got := a.RowTemp(hottest, run.States[0]); math.Abs(got-want) > 0.02 {
		t.Errorf("soaked to %g K, settles at %g K", got, want)
	}
	if got := a.RowTemp(hottest, run.States[1]); !(got < want-1) {
		t.Errorf("%g K after 300 s without current, %g K before", got, want)
	}
}

func BenchmarkAssemble(b *testing.B) {
	for name, s := range map[string]*model.Stack{"compact": compact(), "holder": holder(), "box": boxedBank("A", "B", "C", "D")} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
