package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"clampheat/model"
	"clampheat/scenarios"
)

func rate(t *testing.T, sc *scenarios.Scenario, opt RateOptions) *Rate {
	t.Helper()
	r, err := RunRate(context.Background(), sc, opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// at settles a scenario at a current of its own.
func at(t *testing.T, sc *scenarios.Scenario, current float64, c model.Condition) *state {
	t.Helper()
	stack, err := leftOn(sc, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := settle(context.Background(), carrying(stack, current), c, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The search along the current and the search at one current share no more
// than the heat balance: settled at each current found, the limit is met.
func TestRate_limitsAreMet(t *testing.T) {
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			sc := open(t, e.Name)
			r := rate(t, sc, RateOptions{})
			if len(r.Limits) == 0 || r.Likely.Set != ByLimit {
				t.Fatalf("no limit is reached: %+v", r.Likely)
			}
			last := 0.0
			for _, l := range r.Limits {
				s := at(t, sc, l.Current, model.Likely)
				row := rowNamed(t, s, l.By.Place)
				if d := s.temp(row) - float64(l.By.Limit); math.Abs(d) > 0.01 {
					t.Errorf("%s at %s: %.4g K from the limit at %.6g A", l.By.Name, l.By.Place, d, l.Current)
				}
				if l.Current < last {
					t.Errorf("%s is out of order", l.By.Name)
				}
				last = l.Current
			}
			if !(last <= r.End.Current) {
				t.Errorf("a limit at %g A, beyond the end at %g A", last, r.End.Current)
			}
			if !(r.Careless.Current < r.Likely.Current && r.Likely.Current < r.Careful.Current) {
				t.Errorf("careless %g A, likely %g A, careful %g A", r.Careless.Current, r.Likely.Current, r.Careful.Current)
			}
			for i, c := range map[model.Condition]Rated{model.Careful: r.Careful, model.Careless: r.Careless} {
				s := at(t, sc, c.Current, i)
				if d := s.temp(rowNamed(t, s, c.By.Place)) - float64(c.By.Limit); math.Abs(d) > 0.01 {
					t.Errorf("condition %d: %.4g K from the limit", i, d)
				}
			}
			// Just below, every limit holds; just above, one does not.
			for _, side := range []struct {
				share float64
				want  Verdict
			}{{0.999, Holds}, {1.001, Passed}} {
				s := at(t, sc, side.share*r.Likely.Current, model.Likely)
				names := rowNames(s.assembly)
				_, margins := tightest(bounds(sc, s.assembly, s.stack.Surroundings.Air), func(i int) string { return names[i] }, s.temp, s.temp)
				if got := least(margins).Verdict; got != side.want {
					t.Errorf("at %g of the current the tightest limit %s", side.share, got)
				}
			}
		})
	}
}

func rowNamed(t *testing.T, s *state, name string) int {
	t.Helper()
	for i, n := range rowNames(s.assembly) {
		if n == name {
			return i
		}
	}
	t.Fatalf("no row %q", name)
	return 0
}

func TestRate_end(t *testing.T) {
	sc := open(t, "compact")
	r := rate(t, sc, RateOptions{})
	if r.End.Set != ByCeiling {
		t.Fatalf("end %+v", r.End)
	}
	// The search at one current finds the same end.
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	for share, lasts := range map[float64]bool{0.9999: true, 1.0001: false} {
		stack.Supply = model.Constant(share * r.End.Current)
		_, err := settle(context.Background(), stack, model.Likely, model.Mesh{})
		var none *NoAnswerError
		if lasts != (err == nil) || (!lasts && !errors.As(err, &none)) {
			t.Errorf("at %g of the end: %v", share, err)
		}
	}
}

func TestRate_overAir(t *testing.T) {
	sc := open(t, "compact")
	r := rate(t, sc, RateOptions{Altitudes: []float64{0, 3000}})
	seen := map[float64]AirRating{}
	for i, a := range r.OverAir {
		seen[math.Round(a.Air.Celsius())] = a
		if i > 0 && !(a.Likely.Current < r.OverAir[i-1].Likely.Current) {
			t.Errorf("warmer air carries more: %g A at %.0f °C", a.Likely.Current, a.Air.Celsius())
		}
		if !(a.Careless < a.Likely.Current && a.Likely.Current < a.Careful) {
			t.Errorf("range at %.0f °C: %g, %g, %g A", a.Air.Celsius(), a.Careless, a.Likely.Current, a.Careful)
		}
	}
	for _, air := range []float64{-20, 25, 40, 50, 60} {
		if _, ok := seen[air]; !ok {
			t.Errorf("nothing at %g °C", air)
		}
	}
	if d := seen[25].Likely.Current - r.Likely.Current; math.Abs(d) > 1e-6 {
		t.Errorf("at the file's air %g A off", d)
	}
	// A file in that air says the same.
	if got := rate(t, read(t, with("air: 25 °C", "air: 50 °C")), RateOptions{}).Likely.Current; math.Abs(got-rate(t, read(t, feed), RateOptions{}).at(50)) > 1e-6 {
		t.Errorf("%g A by a file", got)
	}
	// Thin air cools less.
	for i := range r.OverAir {
		if low, high := r.Altitudes[0].Currents[i], r.Altitudes[1].Currents[i]; !(high < low) {
			t.Errorf("3000 m carries %g A, sea level %g A", high, low)
		}
	}
	var input *InputError
	if _, err := RunRate(context.Background(), sc, RateOptions{Currents: []float64{-1}}); !errors.As(err, &input) {
		t.Errorf("a negative current: %v", err)
	}
}

func (r *Rate) at(celsius float64) float64 {
	for _, a := range r.OverAir {
		if math.Abs(a.Air.Celsius()-celsius) < 0.01 {
			return a.Likely.Current
		}
	}
	return math.NaN()
}

// The rise that IEC 60947-1, 7.2.2, allows is for air of at most 40 °C; in hotter air
// the terminal may be no hotter than 40 °C plus the rise, so that the current
// falls faster there. A limit of a rise alone loses next to nothing below.
func TestRate_riseLimitBends(t *testing.T) {
	r := rate(t, open(t, "compact"), RateOptions{})
	below, above := r.at(40)/r.at(35), r.at(45)/r.at(40)
	if !(below > 0.99 && above < 0.97) {
		t.Errorf("from 35 to 40 °C × %.4f, from 40 to 45 °C × %.4f", below, above)
	}
}

func TestRate_nothingLeft(t *testing.T) {
	// Air above the user's own limit: no current at all.
	sc := read(t, with("air: 25 °C", "air: 50 °C\nlimit: 45 °C"))
	r := rate(t, sc, RateOptions{})
	if r.Likely.Current != 0 || r.Likely.By.Verdict != Passed {
		t.Errorf("%+v", r.Likely)
	}
	if len(r.OverTime) != 0 {
		t.Errorf("times %+v", r.OverTime)
	}
	if _, err := json.Marshal(r); err != nil {
		t.Error(err)
	}
}

func TestRate_overTime(t *testing.T) {
	sc := read(t, with("fuse: 300 A", "fuse: 300 A\n    melts: 100 A in 4 h; 600 A in 30 s; 900 A in 2 s"))
	r := rate(t, sc, RateOptions{Currents: []float64{100, 1.5 * rate(t, sc, RateOptions{}).Likely.Current}})
	if len(r.OverTime) < 10 {
		t.Fatalf("%d points", len(r.OverTime))
	}
	for i, p := range r.OverTime[1:] {
		if !(p.Time < r.OverTime[i].Time && p.Current > r.OverTime[i].Current) {
			t.Errorf("%g A for %g s after %g A for %g s", p.Current, p.Time, r.OverTime[i].Current, r.OverTime[i].Time)
		}
	}
	// The long end meets the continuous current: no time is short at it.
	if first := r.OverTime[0]; first.Current/r.Likely.Current-1 > 0.001 || first.Time < 3600 {
		t.Errorf("the curve begins at %.6g of the continuous current, %g s", first.Current/r.Likely.Current, first.Time)
	}
	// A point of the curve by a soak of its own.
	p := r.OverTime[len(r.OverTime)/2]
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	stack.Supply = model.Constant(p.Current)
	soak, err := newRun(context.Background(), sc, stack, model.Likely)
	if err != nil {
		t.Fatal(err)
	}
	res, err := soak.run(context.Background(), p.Time, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bounds(sc, soak.assembly, stack.Surroundings.Air) {
		if soak.names[b.row] == p.Place && b.name == p.Limit {
			if d := soak.assembly.RowTemp(b.row, res.X) - b.temp; math.Abs(d) > 0.1 {
				t.Errorf("%g K from the limit after %g s", d, p.Time)
			}
		}
	}
	// The fuse's points keep their times; below the continuous current no limit
	// is passed.
	points := r.Fuses[0].Points
	if points[0].Limit != 0 || points[1].Melts != 30 || !(points[1].Limit > points[2].Limit && points[2].Limit > 0) {
		t.Errorf("%+v", points)
	}
	if r.Currents[0].Passed != 0 || !(r.Currents[1].Passed > 0) {
		t.Errorf("%+v", r.Currents)
	}
	if r.Currents[0].Hottest == nil || math.Abs(float64(r.Currents[0].Hottest.Temp)-at(t, sc, 100, model.Likely).hottestTemp()) > 1e-6 {
		t.Errorf("%+v", r.Currents[0])
	}
}

func (s *state) hottestTemp() float64 { return s.temp(s.assembly.HottestTerminal(s.x)) }

func TestRating(t *testing.T) {
	sc := open(t, "high-capacity")
	r := rate(t, sc, RateOptions{})
	for c, want := range map[model.Condition]Rated{model.Likely: r.Likely, model.Careful: r.Careful, model.Careless: r.Careless} {
		current, by, err := Rating(context.Background(), sc, c)
		if err != nil || math.Abs(current-want.Current) > 1e-6*current || by != want.By {
			t.Errorf("%g A by %+v, %v; want %+v", current, by, err, want)
		}
	}
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := Rating(gone, sc, model.Likely); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// More current never cools a node.
func TestMoreCurrentNeverCools(t *testing.T) {
	for _, e := range scenarios.Examples() {
		sc, err := scenarios.Open(e.Name)
		if err != nil {
			t.Fatal(err)
		}
		end, _, err := Rating(context.Background(), sc, model.Likely)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(e.Name, rapid.MakeCheck(func(rt *rapid.T) {
			low := rapid.Float64Range(0, 1.3*end).Draw(rt, "A")
			more := rapid.Float64Range(0.1, 30).Draw(rt, "more A")
			a, b := at(t, sc, low, model.Likely), at(t, sc, low+more, model.Likely)
			for i := range a.assembly.Network.Nodes() {
				if b.x[i] < a.x[i]-1e-6 {
					rt.Fatalf("%s: %g K at %g A, %g K at %g A more", a.assembly.Network.NodeName(nodeID(i)), a.x[i], low, b.x[i], more)
				}
			}
		}))
	}
}

// A stack's own ripple counts: heat goes with 1 + ripple².
func TestRate_ripple(t *testing.T) {
	plain := rate(t, read(t, feed), RateOptions{}).Likely.Current
	rippled := rate(t, read(t, with("air: 25 °C", "air: 25 °C\nripple: 50 %")), RateOptions{}).Likely.Current
	if got, want := plain/rippled, math.Sqrt(1.25); math.Abs(got-want) > 1e-3 {
		t.Errorf("ripple of 50 %% costs a factor of %.5f, want %.5f", got, want)
	}
}
