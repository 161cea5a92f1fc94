package study

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

// The other questions asked of a bank of batteries.

// Figures between a branched stack and another are not exchanged; the comparison
// itself holds, at the same current.
func TestCompare_branched(t *testing.T) {
	c, err := RunCompare(context.Background(), []Candidate{
		{"one each", bankOf(t, "A B", "A B out")}, {"plain", read(t, strings.Replace(feed, "140 A", "300 A", 1))}})
	if err != nil {
		t.Fatal(err)
	}
	if c.Verdict == nil || c.Verdict.Tried != gridSize || c.Against[0].Why.Missing == "" {
		t.Errorf("%+v %+v", c.Verdict, c.Against)
	}
	if len(c.Columns[0].Sizing.Fuses) != 2 || math.Abs(c.Columns[0].Sizing.Fuses[0].Sustained-150) > 2 {
		t.Errorf("%+v", c.Columns[0].Sizing.Fuses)
	}
}

// A soak of a bank ends where its settled state is.
func TestSoak_branched(t *testing.T) {
	sc := bankOf(t, "A B", "A B out")
	r, err := RunSoak(context.Background(), sc, SoakOptions{For: 48 * 3600})
	if err != nil {
		t.Fatal(err)
	}
	if s := steady(t, sc); math.Abs(float64(r.Hottest.Temp-s.Hottest.Temp)) > 0.05 || r.Hottest.Place != s.Hottest.Place {
		t.Errorf("ends at %v, %s; settled %v, %s", r.Hottest.Temp, r.Hottest.Place, s.Hottest.Temp, s.Hottest.Place)
	}
	if !r.Lasting || r.Numerics.Bookkeeping > 1e-9 {
		t.Errorf("lasting %v, books to %g", r.Lasting, r.Numerics.Bookkeeping)
	}
}

// A nut of a battery is asked about at its own current.
func TestTorque_branched(t *testing.T) {
	r, err := RunTorque(context.Background(), bankOf(t, "A B", "A out B"), TorqueOptions{Nut: "A: compact holder"})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.Through-150) > 1e-6 {
		t.Errorf("%g A through the nut", r.Through)
	}
	p := r.OwnCurve().Stated()
	if got := p.FaceDrop / p.FaceResistance; math.Abs(got-150) > 0.5 {
		t.Errorf("the meter's reading is for %g A", got)
	}
	var unknown *UnknownNutError
	if _, err := RunTorque(context.Background(), bankOf(t, "A B", "A out B"), TorqueOptions{Nut: "compact holder"}); !errors.As(err, &unknown) {
		t.Errorf("a nut of no battery: %v", err)
	}
}

// Levers of a bank are taken for all its batteries at once, as the file says them
// once, and a step for all is worth more than for one.
func TestLevers_branched(t *testing.T) {
	r, err := RunLevers(context.Background(), bankOf(t, "A B", "A B out"))
	if err != nil {
		t.Fatal(err)
	}
	places := map[string]bool{}
	for _, l := range r.Cool {
		places[l.Kind+" "+l.Place] = true
	}
	for _, want := range []string{"cable A, B: cable 1/0 AWG", "brush A, B: compact holder", "brush bus bar"} {
		if !places[want] {
			t.Errorf("no lever %q among %v", want, places)
		}
	}
	for _, row := range r.Sensitivities.Rows {
		if math.IsNaN(row.Ohms) || math.IsInf(row.Ohms, 0) {
			t.Errorf("%s: %g", row.Name, row.Ohms)
		}
	}
	// By a small change of the current, to first order.
	sc := bankOf(t, "A B", "A B out")
	base, more := at(t, sc, 300, 0), at(t, sc, 301, 0)
	row := rowNamed(t, base, r.Sensitivities.Of)
	if got := more.temp(row) - base.temp(row); math.Abs(got-r.Sensitivities.Current) > 0.02*got {
		t.Errorf("an ampere more is worth %g K, by its derivative %g K", got, r.Sensitivities.Current)
	}
}
