package solver

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// pulsed is a ladder whose current flows for a part of each period.
type pulsed struct {
	*ladder
	on float64 // s
}

func (p pulsed) at(t float64) {
	if t < p.on {
		p.load(p.current)
	} else {
		p.load(0)
	}
}

func (p pulsed) Balance(t float64, x, f []float64) Flow {
	p.at(t)
	return p.ladder.Balance(t, x, f)
}

func (p pulsed) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	p.at(t)
	return p.ladder.Linearize(t, x, f, j)
}

func (p pulsed) Drift(float64, []float64, []float64) bool { return false }

// pulse is heat made for a part of each period.
func pulse(q, on float64) source {
	return func(t, _, load float64) (float64, float64, float64, float64) {
		if t < on {
			return q * load, 0, 0, q
		}
		return 0, 0, 0, 0
	}
}

func periodic(t interface {
	Helper()
	Fatal(...any)
}, sys System, opt PeriodicOptions) *PeriodicResult {
	t.Helper()
	res, err := Periodic(context.Background(), sys, opt)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// cycleOut follows one period after another until a period changes nothing more
// than so much, and says how many that were.
func cycleOut(t *testing.T, sys System, opt PeriodicOptions, stop float64) (x []float64, cycles int) {
	t.Helper()
	s := NewSoaker(sys)
	x = clone(opt.Start)
	var res SoakResult
	for cycles < 100000 {
		run := SoakOptions{Tol: opt.Tol, Start: x, Until: opt.Period, Breaks: append(append([]float64(nil), opt.Breaks...), opt.Period)}
		if err := s.RunInto(context.Background(), run, &res); err != nil {
			t.Fatal(err)
		}
		cycles++
		moved := 0.0
		for i := range s.n {
			if s.c[i] > 0 {
				moved = max(moved, math.Abs(res.X[i]-x[i]))
			}
		}
		copy(x, res.X)
		if moved <= stop {
			return x, cycles
		}
	}
	t.Fatal("the cycles do not end")
	return nil, 0
}

func TestPeriodicClosedForms(t *testing.T) {
	// A lump heated by pulses: between jumps it moves by exponentials, so that its
	// highest rise is q/h (1−a)/(1−ab) with a = exp(−on/τ), b = exp(−off/τ).
	t.Run("pulses/exponentials", func(t *testing.T) {
		const h, air, q, on, off = 0.5, 300.0, 40.0, 300.0, 600.0
		for _, c := range []float64{1, 50, 400, 5000, 1e6} {
			tau := c / h
			a, b := math.Exp(-on/tau), math.Exp(-off/tau)
			top := q / h * (1 - a) / (1 - a*b)
			res := periodic(t, lump(c, h, air, pulse(q, on)), PeriodicOptions{Period: on + off, Breaks: []float64{on}, Tol: 1e-6,
				Start: []float64{air}, Times: []float64{0, on, on + 100}})
			within(t, "peak", res.Peak[0], air+top, 2e-6)
			if tau > 20 { // else it is there long before, but for rounding
				within(t, "its time", res.PeakTime[0], on, 1e-9)
			}
			within(t, "lowest", res.X[0], air+top*b, 2e-6)
			within(t, "mean", res.Mean[0], air+q/h*on/(on+off), 2e-5)
			within(t, "at 0", res.States[0][0], res.X[0], 0)
			within(t, "at the jump", res.States[1][0], air+top, 2e-6)
			within(t, "after it", res.States[2][0], air+top*math.Exp(-100/tau), 2e-6)
			within(t, "heat made", res.Made, q*on, 1e-9*q*on)
			within(t, "decay", res.Decay, a*b, 1e-5)
			if res.Audit.Bookkeeping > 1e-9 || res.Audit.Quadrature > 1e-6 || math.Abs(res.Stored) > 1e-7*c {
				t.Errorf("C = %g J/K: audit %+v, stored %g J", c, res.Audit, res.Stored)
			}
			t.Logf("C = %g J/K: %d periods, residual %.2g K, off %.2g K, decay %.6f", c, res.Periods, res.Residual, res.Off, res.Decay)
		}
	})
	// Under q (1 + sin ωt) the rise is q/h (1 + sin(ωt − φ)/√(1+ω²τ²)), tan φ = ωτ.
	t.Run("sine/peak within a step", func(t *testing.T) {
		const c, h, air, q, period = 400.0, 0.5, 300.0, 20.0, 1800.0
		w := 2 * math.Pi / period
		wave := func(now, _, load float64) (float64, float64, float64, float64) {
			return q * load * (1 + math.Sin(w*now)), 0, q * load * w * math.Cos(w*now), 0
		}
		phi := math.Atan(w * c / h)
		res := periodic(t, lump(c, h, air, wave), PeriodicOptions{Period: period, Tol: 1e-5, Start: []float64{air + q/h}})
		within(t, "peak", res.Peak[0], air+q/h*(1+math.Cos(phi)), 1e-4)
		within(t, "its time", res.PeakTime[0], (phi+math.Pi/2)/w, 0.5)
		within(t, "mean", res.Mean[0], air+q/h, 1e-4)
		within(t, "at 0", res.X[0], air+q/h*(1-math.Sin(phi)*math.Cos(phi)), 1e-4)
	})
	// Light bodies follow at once: the cycle is a row of steady states.
	t.Run("no mass/nothing to come back to", func(t *testing.T) {
		res := periodic(t, lump(0, 0.5, 300, pulse(20, 10)), PeriodicOptions{Period: 30, Breaks: []float64{10}, Start: []float64{300}, Times: []float64{5, 20}})
		within(t, "on", res.States[0][0], 340, 1e-6)
		within(t, "off", res.States[1][0], 300, 1e-6)
		within(t, "mean", res.Mean[0], 300+40./3, 1e-6)
	})
}

// Following every period until nothing moves is the judge.
func TestPeriodicBruteForce(t *testing.T) {
	compare := func(t *testing.T, sys System, opt PeriodicOptions) {
		t.Helper()
		opt.Tol = 1e-6
		res := periodic(t, sys, opt)
		x, cycles := cycleOut(t, sys, opt, 1e-9)
		off := 0.0 // unknowns without mass jump with the supply
		for i, c := range NewSoaker(sys).c {
			if c > 0 {
				off = max(off, math.Abs(res.X[i]-x[i]))
			}
		}
		within(t, "the state at 0", off, 0, 1e-4)
		t.Logf("%d periods instead of %d, %.2g K apart; residual %.2g K, off %.2g K, decay %.5f, %d steps a period", res.Periods, cycles, off, res.Residual, res.Off, res.Decay, res.Stats.Steps/res.Periods)
		if res.Periods > 40 {
			t.Errorf("%d periods", res.Periods)
		}
		if res.Audit.Bookkeeping > 1e-9 || res.Audit.Quadrature > 1e-6 {
			t.Errorf("audit %+v", res.Audit)
		}
		// Where it is hottest must be at least as hot as any state asked for.
		s := NewSoaker(sys)
		opt2 := SoakOptions{Tol: 1e-6, Start: res.X, Until: opt.Period, Breaks: append(append([]float64(nil), opt.Breaks...), opt.Period)}
		for k := range 200 {
			opt2.Times = append(opt2.Times, opt.Period*float64(k)/200)
		}
		run, err := s.Run(context.Background(), opt2)
		if err != nil {
			t.Fatal(err)
		}
		for i := range s.n {
			most := math.Inf(-1)
			for _, x := range run.States {
				most = max(most, x[i])
			}
			if most > res.Peak[i]+1e-4 || res.Peak[i] > most+1 {
				t.Errorf("node %d: peak %g K, by 200 points %g K", i, res.Peak[i], most)
			}
		}
	}
	for _, n := range []int{50, 200} {
		p := newLadder(n, 220, 0.25e-3)
		t.Run("rod/a minute of three", func(t *testing.T) {
			compare(t, pulsed{p, 60}, PeriodicOptions{Period: 180, Breaks: []float64{60}, Start: uniform(n, 330)})
		})
		t.Run("rod/from cold", func(t *testing.T) {
			compare(t, pulsed{p, 300}, PeriodicOptions{Period: 900, Breaks: []float64{300}, Start: uniform(n, ladderAir)})
		})
	}
	// Bodies of hours behind small ones of seconds; minutes of period.
	t.Run("slow bodies", func(t *testing.T) {
		p := &lumps{c: []float64{20, 300, 20000, 0}, h: []float64{0.02, 0.1, 1, 0.3}, air: 300, links: [][2]int{{0, 1}, {1, 2}, {2, 3}}, g: []float64{1, 2, 5},
			sources: []source{func(now, temp, load float64) (float64, float64, float64, float64) {
				if now < 40 {
					return warming(60, 0.004, 300)(now, temp, load)
				}
				return 0, 0, 0, 0
			}, given(0), given(1), given(0)}, load: 1}
		compare(t, p, PeriodicOptions{Period: 120, Breaks: []float64{40}, Start: uniform(4, 300)})
	})
	t.Run("batteries/currents and potentials", func(t *testing.T) {
		p := newRungs(4, 5)
		p.wave = func(now float64) float64 {
			if now < 300 {
				return 1.5
			}
			return 0.1
		}
		compare(t, p, PeriodicOptions{Period: 900, Breaks: []float64{300}, Start: p.start()})
	})
	t.Run("constant power/swinging, with a skin", func(t *testing.T) {
		p := &feed{power: 400, v: 12, r: 0.02, alpha: 0.004, h: 1, air: 300, c: 300, skin: 4, swing: 0.6, load: 1}
		compare(t, p, PeriodicOptions{Period: 2 * math.Pi, Start: []float64{300, 300, 30}})
	})
}

// Any linear network under pulses, against its own long way.
func TestPeriodicNetworks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawLumps(t)
		n := len(p.c)
		on, off := rapid.Float64Range(1, 300).Draw(t, "on"), rapid.Float64Range(1, 300).Draw(t, "off")
		for i := range p.sources {
			p.sources[i] = pulse(rapid.SampledFrom([]float64{0, 1, 10}).Draw(t, "heat"), on)
		}
		res := periodic(t, p, PeriodicOptions{Period: on + off, Breaks: []float64{on}, Tol: 1e-5, Start: uniform(n, p.air)})
		// A linear network: the mean of the cycle is the state under the mean heat.
		mean := *p
		mean.sources = nil
		for i := range p.sources {
			q, _, _, _ := p.sources[i](0, 0, 1)
			mean.sources = append(mean.sources, given(q*on/(on+off)))
		}
		state, err := Steady(context.Background(), &mean, SteadyOptions{Start: uniform(n, p.air)})
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range state.X {
			if !(math.Abs(res.Mean[i]-want) <= 1e-3) {
				t.Fatalf("node %d: mean %v K, state under the mean heat %v K", i, res.Mean[i], want)
			}
			if !(res.Peak[i] >= res.Mean[i]-1e-6) {
				t.Fatalf("node %d: peak %v K below the mean %v K", i, res.Peak[i], res.Mean[i])
			}
		}
		if res.Audit.Bookkeeping > 1e-9 || res.Decay < -1e-3 || res.Decay >= 1 || res.Periods > 25 {
			t.Fatalf("audit %+v, decay %v, %d periods", res.Audit, res.Decay, res.Periods)
		}
	})
}

func TestPeriodicEndings(t *testing.T) {
	cycle := func(t *testing.T, sys System, opt PeriodicOptions) *CycleError {
		t.Helper()
		res, err := Periodic(context.Background(), sys, opt)
		var none *CycleError
		if !errors.As(err, &none) {
			t.Fatalf("got %+v, %v", res, err)
		}
		t.Log(none)
		return none
	}
	hot := func(q float64) source { // with a slope that a mean loss cannot hold from q = 250 on
		return func(now, temp, load float64) (float64, float64, float64, float64) {
			if now < 50 {
				return warming(q, 0.004, 300)(now, temp, load)
			}
			return 0, 0, 0, 0
		}
	}
	opt := PeriodicOptions{Period: 100, Breaks: []float64{50}, Start: []float64{300}}
	t.Run("runs away/past its ceiling", func(t *testing.T) {
		o := opt
		o.Ceilings = []float64{500}
		if none := cycle(t, lump(2000, 0.5, 300, hot(300)), o); none.Node != 0 || none.Ceiling != 500 || !(none.Peak > 500) {
			t.Errorf("got %+v", none)
		}
	})
	t.Run("runs away/without a ceiling no result", func(t *testing.T) {
		for _, q := range []float64{260, 300, 1000} {
			if none := cycle(t, lump(2000, 0.5, 300, hot(q)), opt); none.Node != -1 || none.Why != withoutBound || !(none.X[0] > 600) {
				t.Errorf("%g W: got %+v", q, none)
			}
		}
	})
	t.Run("runs away/branches side by side", func(t *testing.T) {
		for n := 1; n <= 4; n++ {
			p := alikeBranches(n)
			p.wave = func(t float64) float64 {
				if t < 5 {
					return 1
				}
				return 0.2
			}
			o := PeriodicOptions{Period: 10, Breaks: []float64{5}, Start: p.start()}
			if none := cycle(t, p, o); none.Why != withoutBound {
				t.Errorf("%d branches: got %+v", n, none)
			}
			p.drawn[1] /= 3
			periodic(t, p, o)
		}
	})
	// Heat that grows by 2 W/K up to 200 K and no further: its beginning looks the
	// same.
	t.Run("rises and bends/found", func(t *testing.T) {
		bends := func(_, temp, load float64) (float64, float64, float64, float64) {
			if temp < 500 {
				return 10 + 2*(temp-300), 2, 0, 0
			}
			return 410, 0, 0, 0
		}
		res := periodic(t, lump(2000, 1, 300, bends), opt)
		within(t, "temperature", res.X[0], 710, 1e-3)
	})
	t.Run("ceiling/passed in the cycle", func(t *testing.T) {
		o := opt
		o.Ceilings = []float64{340}
		cycle(t, lump(2000, 0.5, 300, hot(100)), o)
		o.Ceilings = []float64{480}
		periodic(t, lump(2000, 0.5, 300, hot(100)), o)
	})
	// λ q exp(a ΔT) over half the time: with a slow body as under the mean heat,
	// which has a stable and an unstable state below a ΔT = 1 (Semenov 1928).
	t.Run("unstable/no answer", func(t *testing.T) {
		const h, a = 2.0, 0.05
		q := 2 * h / (a * math.E) * 0.9
		boom := func(now, temp, load float64) (float64, float64, float64, float64) {
			if now >= 5 {
				return 0, 0, 0, 0
			}
			v := q * math.Exp(a*(temp-300))
			return v * load, a * v * load, 0, v
		}
		o := PeriodicOptions{Period: 10, Breaks: []float64{5}, Start: []float64{300}, Tol: 1e-5}
		low := periodic(t, lump(2000, h, 300, boom), o)
		if !(a*(low.Mean[0]-300) < 1) {
			t.Errorf("the lasting cycle of the two lies at a rise of %g K", low.Mean[0]-300)
		}
		o.Start = []float64{300 + 1.6/a}
		res, err := Periodic(context.Background(), lump(2000, h, 300, boom), o)
		if err == nil && math.Abs(res.X[0]-low.X[0]) > 1e-3 {
			t.Errorf("an unstable cycle at %g K", res.X[0])
		}
		t.Log(err)
	})
	// Two cells that each gain more by a kelvin than they lose, alike: no sign of a
	// determinant tells.
	t.Run("unstable twice/refused", func(t *testing.T) {
		p := &wiring{alpha: 0.02, air: 300, joints: 2, drawn: []float64{0, 100}, load: 1}
		p.cellsOf(2, 2e-4, 500, 0.02, 0)
		p.branches = []arm{{from: 0, to: 1, cells: 2, ohms: 1e-3}}
		if none := cycle(t, p, PeriodicOptions{Period: 100, Start: p.start()}); none.Why != withoutBound {
			t.Errorf("got %+v", none)
		}
	})
	t.Run("explosion/within a period", func(t *testing.T) {
		boom := func(_, temp, _ float64) (float64, float64, float64, float64) {
			q := math.Exp(0.1 * (temp - 300))
			return q, 0.1 * q, 0, 0
		}
		_, err := Periodic(context.Background(), lump(10, 0, 300, boom), PeriodicOptions{Period: 1000, Start: []float64{300}})
		var small *StepTooSmallError
		if !errors.As(err, &small) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("periods used up/says so", func(t *testing.T) {
		o := opt
		o.MaxPeriods = 2
		_, err := Periodic(context.Background(), lump(2000, 0.5, 300, hot(100)), o)
		var none *NotConvergedError
		if !errors.As(err, &none) || none.Sought == "" {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("cancelled/says so", func(t *testing.T) {
		ctx, cancel := context.WithCancel(context.Background())
		o := opt
		o.Progress = func(int, float64) { cancel() }
		if _, err := Periodic(ctx, lump(2000, 0.5, 300, hot(100)), o); !errors.Is(err, context.Canceled) {
			t.Fatalf("got %v", err)
		}
	})
	for name, o := range map[string]PeriodicOptions{
		"no period":        {Start: []float64{300}},
		"period no number": {Start: []float64{300}, Period: math.NaN()},
		"break outside":    {Start: []float64{300}, Period: 10, Breaks: []float64{11}},
		"break before":     {Start: []float64{300}, Period: 10, Breaks: []float64{-1}},
		"time outside":     {Start: []float64{300}, Period: 10, Times: []float64{11}},
		"start too short":  {Period: 10},
		"ceilings":         {Start: []float64{300}, Period: 10, Ceilings: []float64{1, 2}},
		"ceiling":          {Start: []float64{300}, Period: 10, Ceilings: []float64{math.NaN()}},
		"tolerance":        {Start: []float64{300}, Period: 10, Tol: -1},
		"periods":          {Start: []float64{300}, Period: 10, MaxPeriods: -1},
	} {
		t.Run("input/"+name, func(t *testing.T) {
			var input *InputError
			if _, err := Periodic(context.Background(), lump(100, 1, 300, given(5)), o); !errors.As(err, &input) {
				t.Fatalf("got %v", err)
			}
		})
	}
}
