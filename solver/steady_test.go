package solver

import (
	"context"
	"errors"
	"math"
	"testing"
)

func steady(t *testing.T, sys System, opt SteadyOptions) *SteadyResult {
	t.Helper()
	res, err := Steady(context.Background(), sys, opt)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestSteady(t *testing.T) {
	// q (1 + α (T − cold)) = h (T − air), linear in T.
	t.Run("lump/closed form", func(t *testing.T) {
		res := steady(t, lump(1, 0.5, 300, warming(20, 0.004, 293)), SteadyOptions{Start: []float64{300}})
		want := (20*(1-0.004*293) + 0.5*300) / (0.5 - 20*0.004)
		within(t, "temperature", res.X[0], want, 1e-9)
		within(t, "audit", res.Audit.Bookkeeping, 0, 1e-12)
		within(t, "load", res.Load, 1, 0)
	})
	t.Run("constant power/smaller of the two currents", func(t *testing.T) {
		p := &feed{power: 500, v: 12, r: 0.02, h: 4, air: 300, c: 1, load: 1}
		want := (12 - math.Sqrt(144-4*0.02*500)) / 0.04
		// The larger root is a state as well, but none that the load arrives at.
		for _, guess := range []float64{0, 40, 300, 560} {
			res := steady(t, p, SteadyOptions{Start: []float64{300, guess}, Tol: MinSteadyTol})
			within(t, "current", res.X[1], want, 1e-9)
			within(t, "temperature", res.X[0], 300+want*want*0.02/4, 1e-7)
		}
	})
	t.Run("not loaded/no fold can be told", func(t *testing.T) {
		type bare struct{ System }
		p := bare{lump(1, 0.05, 300, warming(20, 0.004, 293))} // h < qα
		var none *NotConvergedError
		if _, err := Steady(context.Background(), p, SteadyOptions{Start: []float64{300}}); !errors.As(err, &none) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("answers that are no numbers/no result", func(t *testing.T) {
		var bad *NotFiniteError
		if _, err := Steady(context.Background(), lump(1, 1, 300, given(math.NaN())), SteadyOptions{Start: []float64{300}}); !errors.As(err, &bad) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("nothing holds it/no result", func(t *testing.T) {
		var none *NotConvergedError
		if _, err := Steady(context.Background(), lump(1, 0, 300, given(1)), SteadyOptions{Start: []float64{300}}); !errors.As(err, &none) {
			t.Fatalf("got %v", err)
		}
	})
	for name, opt := range map[string]SteadyOptions{
		"start too short":   {},
		"start not finite":  {Start: []float64{math.Inf(1)}},
		"tolerance":         {Start: []float64{300}, Tol: math.NaN()},
		"ceilings too many": {Start: []float64{300}, Ceilings: []float64{1, 2}},
		"ceiling no number": {Start: []float64{300}, Ceilings: []float64{math.NaN()}},
	} {
		t.Run("input/"+name, func(t *testing.T) {
			var input *InputError
			if _, err := Steady(context.Background(), lump(1, 1, 300, given(5)), opt); !errors.As(err, &input) {
				t.Fatalf("got %v", err)
			}
		})
	}
}

func TestSteadyEndings(t *testing.T) {
	fold := func(t *testing.T, sys System, start []float64, ceilings []float64) *FoldError {
		t.Helper()
		res, err := Steady(context.Background(), sys, SteadyOptions{Start: start, Ceilings: ceilings})
		var f *FoldError
		if !errors.As(err, &f) {
			t.Fatalf("got %+v, %v", res, err)
		}
		return f
	}
	ceiling := func(t *testing.T, sys System, start []float64, ceilings []float64) *CeilingError {
		t.Helper()
		res, err := Steady(context.Background(), sys, SteadyOptions{Start: start, Ceilings: ceilings})
		var c *CeilingError
		if !errors.As(err, &c) {
			t.Fatalf("got %+v, %v", res, err)
		}
		return c
	}
	// I² R0 (1 + α ΔT) = h ΔT has no solution from I² = h/(R0 α) on; below, ΔT
	// rises without bound.
	t.Run("constant h/temperatures without bound", func(t *testing.T) {
		const h, power, alpha = 0.05, 20.0, 0.004
		f := fold(t, lump(1, h, 300, warming(power, alpha, 300)), []float64{300}, nil)
		within(t, "load", f.Load, math.Sqrt(h/(power*alpha)), 1e-6)
		if !f.Unbounded {
			t.Error("states near that load have no bound")
		}
	})
	t.Run("constant h/ceiling before that", func(t *testing.T) {
		const h, power, alpha = 0.05, 20.0, 0.004
		for _, top := range []float64{400, 1000, 3000} {
			c := ceiling(t, lump(1, h, 300, warming(power, alpha, 300)), []float64{300}, []float64{top})
			d := top - 300
			within(t, "load", c.Load, math.Sqrt(h*d/(power*(1+alpha*d))), 1e-6*c.Load)
			within(t, "state", c.X[0], top, 1e-2)
			if c.X[0] > top {
				t.Error("the state at the ceiling lies above it")
			}
		}
	})
	// λ q exp(a ΔT) = h ΔT: the two states meet at a ΔT = 1, λ q = h/(a e).
	// Source: N. N. Semenov, Zeitschrift für Physik 48 (1928) 571.
	ignition := func(q, a float64) source {
		return func(_, temp, load float64) (float64, float64, float64, float64) {
			v := q * math.Exp(a*(temp-300))
			return load * v, load * v * a, 0, v
		}
	}
	t.Run("Semenov/fold", func(t *testing.T) {
		const h, a = 2.0, 0.05
		for _, q := range []float64{15, 50, 1000} {
			f := fold(t, lump(1, h, 300, ignition(q, a)), []float64{300}, []float64{math.Inf(1)})
			within(t, "load", f.Load, h/(a*math.E*q), 1e-6*f.Load)
			within(t, "rise", f.X[0]-300, 1/a, 0.1)
		}
	})
	t.Run("Semenov/fold of many nodes alike, linked to a rod and a hub", func(t *testing.T) {
		const n, h, a, q = 40, 2.0, 0.05, 50.0
		p := &lumps{air: 300, load: 1}
		for i := range n {
			p.c, p.h, p.sources = append(p.c, 1), append(p.h, h), append(p.sources, ignition(q, a))
			if i > 0 {
				p.links, p.g = append(p.links, [2]int{i - 1, i}), append(p.g, 30)
			}
			if i > 1 && i < n-1 {
				p.links, p.g = append(p.links, [2]int{i, 0}), append(p.g, 0.7)
			}
		}
		f := fold(t, p, uniform(n, 300), nil)
		within(t, "load", f.Load, h/(a*math.E*q), 1e-6*f.Load)
	})
	t.Run("Semenov/just below the fold, stable state of the two", func(t *testing.T) {
		const h, a = 2.0, 0.05
		q := h / (a * math.E) * 0.999
		for _, guess := range []float64{300, 319, 321, 330, 400} {
			res := steady(t, lump(1, h, 300, ignition(q, a)), SteadyOptions{Start: []float64{guess}})
			if d := res.X[0] - 300; !(a*d < 1) {
				t.Errorf("from %g K: rise %g K is beyond the fold", guess, d)
			}
		}
	})
	t.Run("Semenov/ceiling below the fold", func(t *testing.T) {
		const h, a = 2.0, 0.05
		c := ceiling(t, lump(1, h, 300, ignition(50, a)), []float64{300}, []float64{319.5})
		within(t, "load", c.Load, h*19.5/(50*math.Exp(a*19.5)), 1e-6*c.Load)
	})
	// At constant power the current rises as the resistance warms: eliminating
	// ΔT = I²R0/(h − I²R0α), λP = I (v − I R) has its top where a search over I
	// alone finds it.
	t.Run("constant power/fold with a global", func(t *testing.T) {
		p := &feed{power: 3000, v: 12, r: 0.01, alpha: 0.004, h: 2, air: 300, c: 1, load: 1}
		power := func(i float64) float64 {
			d := i * i * p.r / (p.h - i*i*p.r*p.alpha)
			return i * (p.v - i*p.r*(1+p.alpha*d))
		}
		lo, hi := 0.0, math.Sqrt(p.h/(p.r*p.alpha))*0.9999
		for range 200 { // ternary search of a concave top
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			if power(a) < power(b) {
				lo = a
			} else {
				hi = b
			}
		}
		f := fold(t, p, []float64{300, 0}, nil)
		within(t, "load", f.Load, power(lo)/p.power, 1e-6*f.Load)
		within(t, "current", f.X[1], lo, 0.01*lo)
	})
	t.Run("air above the ceiling/no load at all", func(t *testing.T) {
		c := ceiling(t, lump(1, 1, 300, given(5)), []float64{300}, []float64{290})
		within(t, "load", c.Load, 0, 0)
	})
	t.Run("ladder/ceiling agrees with bisection on the current", func(t *testing.T) {
		const n, top = 50, 420.0
		tops := uniform(n, top)
		c := ceiling(t, newLadder(n, 300, 0.25e-3), uniform(n, ladderAir), tops)
		lo, hi := 0.0, 300.0
		for range 60 {
			mid := (lo + hi) / 2
			res := steady(t, newLadder(n, mid, 0.25e-3), SteadyOptions{Start: uniform(n, ladderAir+50)})
			if res.X[0] > top {
				hi = mid
			} else {
				lo = mid
			}
		}
		within(t, "load", c.Load, lo/300, 1e-6)
		if c.Node != 0 {
			t.Errorf("node %d", c.Node)
		}
	})
}

// Two cables in parallel: as globals the two currents, which share the
// given one as the resistances divide it.
func TestSteadyParallel(t *testing.T) {
	p := &parallel{current: 200, r: [2]float64{1e-3, 3e-3}, alpha: 0.004, h: [2]float64{1, 2}, air: 300, load: 1}
	res := steady(t, p, SteadyOptions{Start: []float64{300, 300, 0, 0}})
	// Checked by substitution in the two laws.
	t1, t2, i1, i2 := res.X[0], res.X[1], res.X[2], res.X[3]
	r1, r2 := 1e-3*(1+0.004*(t1-300)), 3e-3*(1+0.004*(t2-300))
	within(t, "sum of currents", i1+i2, 200, 1e-9)
	within(t, "equal drops", i1*r1-i2*r2, 0, 1e-10)
	within(t, "first", t1-300, i1*i1*r1, 1e-6)
	within(t, "second", t2-300, i2*i2*r2/2, 1e-6)
	run := soak(t, p, SoakOptions{Tol: 1e-5, Start: []float64{300, 300, 0, 0}, Until: 5000})
	within(t, "the soak ends there", run.X[0], t1, 1e-3)
	within(t, "the soak ends there", run.X[2], i1, 1e-3)
}

type parallel struct {
	current    float64
	r, h       [2]float64
	alpha, air float64
	load       float64
}

func (p *parallel) Structure() Structure {
	return Structure{Nodes: 2, Globals: 2, Links: [][2]int{{0, 2}, {0, 3}, {1, 3}, {2, 3}}}
}
func (p *parallel) Capacities(dst []float64)                  { dst[0], dst[1] = 100, 200 }
func (p *parallel) Drift(float64, []float64, []float64) bool  { return false }
func (p *parallel) SetLoad(lambda float64)                    { p.load = lambda }
func (p *parallel) LoadDerivative(_ float64, _, df []float64) { clear(df); df[2] = p.current }
func (p *parallel) Balance(t float64, x, f []float64) Flow {
	return p.Linearize(t, x, f, NewJacobian(p.Structure()))
}

func (p *parallel) Linearize(_ float64, x, f []float64, j *Jacobian) (flow Flow) {
	var drop [2]float64
	for k := range 2 {
		r, i := p.r[k]*(1+p.alpha*(x[k]-p.air)), x[2+k]
		dr := p.r[k] * p.alpha
		made, lost := i*i*r, p.h[k]*(x[k]-p.air)
		f[k] = made - lost
		j.Diag[k] = i*i*dr - p.h[k]
		up, slope := 2*i*r, float64(1-2*k)*i*dr // of r_1
		switch k {
		case 0:
			j.Up[0], j.Down[0] = up, 0
			j.Up[1], j.Down[1] = 0, slope
			j.Down[3] = r
		case 1:
			j.Up[2], j.Down[2] = up, slope
			j.Diag[3] = -r
		}
		drop[k] = i * r
		flow.Made += made
		flow.Lost += lost
	}
	f[2] = p.load*p.current - x[2] - x[3]
	j.Diag[2], j.Up[3] = -1, -1
	f[3] = drop[0] - drop[1]
	return flow
}
