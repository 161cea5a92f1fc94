package solver

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func loads(t *testing.T, sys System, opt RateOptions) *RateResult {
	t.Helper()
	res, err := NewSteadySolver(sys).Rate(context.Background(), opt)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestRate(t *testing.T) {
	// λ² q (1 + α ΔT) = h ΔT, solved for λ; the load without bound is √(h/(q α)).
	const h, power, alpha = 0.05, 20.0, 0.004
	bare := func(d float64) float64 { return math.Sqrt(h * d / (power * (1 + alpha*d))) }
	lumpOf := func() *lumps { return lump(1, h, 300, warming(power, alpha, 300)) }
	t.Run("lump/closed form, in the order of the loads", func(t *testing.T) {
		res := loads(t, lumpOf(), RateOptions{Start: []float64{300}, Targets: []Target{
			{Nodes: []int{0}, Temp: 380}, {Nodes: []int{0}, Temp: 300.5}, {Nodes: []int{0}, Temp: 900}}})
		for i, want := range []struct {
			target int
			d      float64
		}{{1, 0.5}, {0, 80}, {2, 600}} {
			r := res.Reached[i]
			if r.Target != want.target {
				t.Fatalf("target %d comes as number %d", r.Target, i)
			}
			within(t, "load", r.Load, bare(want.d), 1e-9)
			within(t, "state", r.X[0], 300+want.d, 1e-7)
			const step = 1e-4
			slope := 2 * step / (bare(want.d+step) - bare(want.d-step))
			within(t, "slope", r.Slope, slope, 1e-4*slope)
		}
		var end *FoldError
		if !errors.As(res.End, &end) || !end.Unbounded {
			t.Fatalf("end %v", res.End)
		}
		within(t, "end", end.Load, math.Sqrt(h/(power*alpha)), 1e-6)
	})
	t.Run("ceiling/a load beyond the whole one", func(t *testing.T) {
		const q = 1e-4
		res := loads(t, lump(1, h, 300, warming(q, 0, 300)), RateOptions{Start: []float64{300}, Ceilings: []float64{700},
			Targets: []Target{{Nodes: []int{0}, Temp: 400}, {Nodes: []int{0}, Temp: 701}}})
		if len(res.Reached) != 1 {
			t.Fatalf("reached %+v", res.Reached)
		}
		within(t, "load", res.Reached[0].Load, math.Sqrt(h*100/q), 1e-6)
		var end *CeilingError
		if !errors.As(res.End, &end) {
			t.Fatalf("end %v", res.End)
		}
		within(t, "ceiling", end.Load, math.Sqrt(h*400/q), 1e-5)
	})
	t.Run("unit of the load/does not matter", func(t *testing.T) {
		for _, scale := range []float64{1e-6, 1, 1e6} {
			res := loads(t, lump(1, h, 300, warming(power/(scale*scale), alpha, 300)), RateOptions{Start: []float64{300},
				Targets: []Target{{Nodes: []int{0}, Temp: 380}}})
			within(t, "load", res.Reached[0].Load/scale, bare(80), 1e-9)
			var end *FoldError
			if !errors.As(res.End, &end) {
				t.Fatalf("end %v", res.End)
			}
			within(t, "end", end.Load/scale, math.Sqrt(h/(power*alpha)), 1e-6)
			if res.Stats.Continuation > 100 {
				t.Errorf("scale %g takes %d steps", scale, res.Stats.Continuation)
			}
		}
	})
	t.Run("first/ends there", func(t *testing.T) {
		res := loads(t, lumpOf(), RateOptions{Start: []float64{300}, First: true, Targets: []Target{
			{Nodes: []int{0}, Temp: 381}, {Nodes: []int{0}, Temp: 380}}})
		if len(res.Reached) != 1 || res.Reached[0].Target != 1 || res.End != nil {
			t.Fatalf("%+v", res)
		}
	})
	t.Run("without load/already there", func(t *testing.T) {
		res := loads(t, lumpOf(), RateOptions{Start: []float64{300}, First: true, Targets: []Target{{Nodes: []int{0}, Temp: 290}}})
		within(t, "load", res.Reached[0].Load, 0, 0)
	})
	// λ q exp(a ΔT) = h ΔT up to the fold at a ΔT = 1 (Semenov 1928).
	t.Run("Semenov/below and beyond the fold", func(t *testing.T) {
		const h, a, q = 2.0, 0.05, 3.0
		ignition := func(_, temp, load float64) (float64, float64, float64, float64) {
			v := q * math.Exp(a*(temp-300))
			return load * v, load * v * a, 0, v
		}
		res := loads(t, lump(1, h, 300, ignition), RateOptions{Start: []float64{300}, Targets: []Target{
			{Nodes: []int{0}, Temp: 300 + 19.9}, {Nodes: []int{0}, Temp: 300 + 21}}})
		if len(res.Reached) != 1 {
			t.Fatalf("reached %+v", res.Reached)
		}
		within(t, "load", res.Reached[0].Load, h*19.9/(q*math.Exp(a*19.9)), 1e-9)
		var end *FoldError
		if !errors.As(res.End, &end) {
			t.Fatalf("end %v", res.End)
		}
		within(t, "fold", end.Load, h/(a*math.E*q), 1e-6)
	})
	t.Run("global/constant power", func(t *testing.T) {
		p := &feed{power: 500, v: 12, r: 0.02, h: 4, air: 300, c: 1, load: 1}
		res := loads(t, p, RateOptions{Start: []float64{300, 0}, Targets: []Target{{Nodes: []int{0}, Temp: 310}}})
		i := math.Sqrt(4 * 10 / 0.02) // I² R = h ΔT
		within(t, "load", res.Reached[0].Load, i*(12-i*0.02)/500, 1e-8)
	})
	for name, opt := range map[string]RateOptions{
		"no node":      {Start: []float64{300}, Targets: []Target{{Temp: 310}}},
		"other node":   {Start: []float64{300}, Targets: []Target{{Nodes: []int{1}, Temp: 310}}},
		"no number":    {Start: []float64{300}, Targets: []Target{{Nodes: []int{0}, Temp: math.NaN()}}},
		"short start":  {},
		"odd ceilings": {Start: []float64{300}, Ceilings: []float64{1, 2}},
	} {
		t.Run("input/"+name, func(t *testing.T) {
			var input *InputError
			if _, err := NewSteadySolver(lumpOf()).Rate(context.Background(), opt); !errors.As(err, &input) {
				t.Fatalf("got %v", err)
			}
		})
	}
	t.Run("input/no load", func(t *testing.T) {
		type bare struct{ System }
		var input *InputError
		if _, err := NewSteadySolver(bare{lumpOf()}).Rate(context.Background(), RateOptions{Start: []float64{300}}); !errors.As(err, &input) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("afterwards/the load is whole again", func(t *testing.T) {
		p := lumpOf()
		loads(t, p, RateOptions{Start: []float64{300}, Targets: []Target{{Nodes: []int{0}, Temp: 310}}})
		within(t, "load", p.load, 1, 0)
	})
}

// In any linear network heated with λ² the load of a target is known from the
// state at the whole load: the rises go with λ².
func TestRateNetworks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawLumps(t)
		n := len(p.c)
		for i := range p.sources {
			q := rapid.Float64Range(0.1, 10).Draw(t, "heat")
			p.sources[i] = warming(q, 0, 300)
		}
		state, err := Steady(context.Background(), p, SteadyOptions{Start: uniform(n, p.air)})
		if err != nil {
			t.Fatal(err)
		}
		all := identity(n)
		hottest := 0
		for i, v := range state.X {
			if v > state.X[hottest] {
				hottest = i
			}
		}
		rise := rapid.Float64Range(0.1, 500).Draw(t, "rise")
		res, err := NewSteadySolver(p).Rate(context.Background(), RateOptions{Start: uniform(n, p.air), First: true,
			Targets: []Target{{Nodes: all, Temp: p.air + rise}}})
		if err != nil {
			t.Fatal(err)
		}
		want := math.Sqrt(rise / (state.X[hottest] - p.air))
		if got := res.Reached[0].Load; !(math.Abs(got-want) <= 1e-6*want) {
			t.Fatalf("load %v, want %v", got, want)
		}
	})
}
