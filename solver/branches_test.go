package solver

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// kirchhoff is the largest residual of a state's currents and potentials, in
// shares of the largest current and the largest voltage.
func (p *wiring) kirchhoff(x []float64) float64 {
	f := make([]float64, len(x))
	p.Balance(0, x, f)
	i0, v0 := p.globals()
	volts := largest(x[v0:])
	for _, b := range p.branches {
		volts = max(volts, math.Abs(b.emf))
	}
	worst := 0.0
	if v := largest(f[i0:v0]); v > 0 {
		worst = v / volts
	}
	if v := largest(f[v0:]); v > 0 {
		worst = max(worst, v/largest(x[i0:v0]))
	}
	return worst
}

// batteriesInRow are four equal batteries of 1 mΩ between two rails without heat,
// whose links between neighbours have x mΩ; the load hangs on the first station
// and gives back at the first or the last one.
func batteriesInRow(x float64, diagonal bool) *wiring {
	p := &wiring{air: 300, joints: 8, drawn: make([]float64, 8), load: 1}
	p.cellsOf(1, 0, 1, 1, 0)
	for k := range 4 {
		p.branches = append(p.branches, arm{from: 2 * k, to: 2*k + 1, emf: 13, ohms: 1e-3})
	}
	for k := range 3 {
		for side := range 2 {
			p.branches = append(p.branches, arm{from: 2*k + side, to: 2*k + 2 + side, ohms: x * 1e-3})
		}
	}
	p.drawn[1] = 100
	if diagonal {
		p.drawn[6] = -100
	}
	return p
}

// Nodal analysis of the ladder by hand. Between stations k and k+1 both rails
// carry what the batteries beyond give, or on the diagonal what those before give
// in one of them; with x = r the currents stand, from the far end, as 1 : 3 : 11 :
// 41, on the diagonal as 3 : 1 : 1 : 3, and with x = r/10 as 12 : 10 : 10 : 12.
func TestBatteriesInRow(t *testing.T) {
	for name, c := range map[string]struct {
		x        float64
		diagonal bool
		shares   [4]float64
	}{
		"same end/x = r":    {1, false, [4]float64{41, 11, 3, 1}},
		"diagonal/x = r":    {1, true, [4]float64{3, 1, 1, 3}},
		"diagonal/x = 0.1r": {0.1, true, [4]float64{12, 10, 10, 12}},
	} {
		t.Run(name, func(t *testing.T) {
			p := batteriesInRow(c.x, c.diagonal)
			res := steady(t, p, SteadyOptions{Start: p.start()})
			sum := c.shares[0] + c.shares[1] + c.shares[2] + c.shares[3]
			for k, s := range c.shares {
				within(t, "current", res.X[1+k], 100*s/sum, 1e-9)
			}
		})
	}
}

// drawWiring makes random branches between junctions, all of which hang
// together, with sources in some and a load at each.
func drawWiring(t *rapid.T) *wiring {
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	p := &wiring{alpha: 0.004, air: 300, joints: rapid.IntRange(2, 6).Draw(t, "junctions"), load: 1}
	p.cellsOf(p.joints, 0, 20, 0.05, 0.2) // their lumps, in a row
	for k := range rapid.IntRange(p.joints-1, 10).Draw(t, "branches") {
		b := arm{from: rapid.IntRange(0, p.joints-1).Draw(t, "from"), to: rapid.IntRange(0, p.joints-1).Draw(t, "to")}
		if k+1 < p.joints {
			b.from, b.to = k+1, rapid.IntRange(0, k).Draw(t, "to one before")
		}
		if b.from == b.to {
			b.to = (b.from + 1) % p.joints
		}
		b.emf = rapid.SampledFrom([]float64{0, 0, -0.2, 0.2}).Draw(t, "volts")
		b.ohms = math.Pow(10, value("decades of ohms", -3, -1))
		if b.cells = rapid.IntRange(0, 20).Draw(t, "cells"); b.cells > 0 {
			size := float64(b.cells)
			b.first = p.cellsOf(b.cells, math.Pow(10, value("decades of ohms, cells", -6, -4))/size, 100/size, 2/size, 0.3*size)
			p.links, p.g = append(p.links, [2]int{b.from, b.first}), append(p.g, 0.5)
			if rapid.Bool().Draw(t, "joined at both ends") {
				p.links, p.g = append(p.links, [2]int{b.first + b.cells - 1, b.to}), append(p.g, 0.5)
			}
		}
		p.branches = append(p.branches, b)
	}
	p.drawn = make([]float64, p.joints)
	for k := range p.drawn {
		p.drawn[k] = value("amperes drawn", 5, 200)
	}
	return p
}

func TestWirings(t *testing.T) {
	t.Run("any/Kirchhoff's laws, energy, the soak ends in the steady state", rapid.MakeCheck(func(t *rapid.T) {
		p := drawWiring(t)
		res, err := Steady(context.Background(), p, SteadyOptions{Start: p.start(), Tol: MinSteadyTol})
		if err != nil {
			t.Fatal(err)
		}
		if k := p.kirchhoff(res.X); !(k <= 1e-9) {
			t.Fatalf("Kirchhoff's laws hold to %.3g", k)
		}
		// Of less than a watt the tolerance leaves more than that.
		if !(res.Audit.Bookkeeping <= 1e-9) && res.Flow.Made > 1 {
			t.Fatalf("audit %+v", res.Audit)
		}
		run, err := Soak(context.Background(), p, SoakOptions{Tol: 1e-3, Start: p.start(), Until: 1e6})
		if err != nil {
			t.Fatal(err)
		}
		if !(run.Audit.Bookkeeping <= 1e-9) {
			t.Fatalf("soak's audit %+v", run.Audit)
		}
		for i := range p.c {
			if !(math.Abs(run.X[i]-res.X[i]) <= 1e-2) {
				t.Fatalf("node %d ends at %v K, steady state %v K", i, run.X[i], res.X[i])
			}
		}
	}))
	t.Run("rungs/alike where they are alike", func(t *testing.T) {
		p := newRungs(5, 8)
		// Load and return at the same distance from both: turn one end round.
		p.drawn[len(p.drawn)-2], p.drawn[0] = 0, 0
		res := steady(t, p, SteadyOptions{Start: p.start()})
		i0, _ := p.globals()
		// Branches 0, 1, 4, 7, 10 are the batteries.
		for _, pair := range [][2]int{{0, 10}, {1, 7}} {
			a, b := res.X[i0+pair[0]], res.X[i0+pair[1]]
			within(t, "share of two alike", a, b, 1e-9*math.Abs(b))
		}
		within(t, "Kirchhoff", p.kirchhoff(res.X), 0, 1e-9)
	})
	t.Run("rungs/a load for a temperature, in any unit", func(t *testing.T) {
		for _, unit := range []float64{1e-3, 1, 1e3} {
			p := newRungs(4, 5)
			for k := range p.drawn {
				p.drawn[k] *= unit
			}
			const hot = 360
			var all []int
			for i := range p.c {
				all = append(all, i)
			}
			res := loads(t, p, RateOptions{Start: p.start(), First: true, Targets: []Target{{Nodes: all, Temp: hot}}})
			load := res.Reached[0].Load
			for k := range p.drawn {
				p.drawn[k] *= load
			}
			again := steady(t, p, SteadyOptions{Start: p.start()})
			within(t, "the hottest under that load", largest(again.X[:len(p.c)]), hot, 1e-5)
			if res.Stats.Continuation > 50 {
				t.Errorf("%d steps along the load", res.Stats.Continuation)
			}
		}
	})
	t.Run("tight/the tolerance can be met", func(t *testing.T) {
		p := newRungs(20, 8)
		steady(t, p, SteadyOptions{Start: p.start(), Tol: MinSteadyTol})
	})
}

// What is not joined has no potential: an error, never a number.
func TestUnjoined(t *testing.T) {
	singular := func(t *testing.T, p *wiring) {
		t.Helper()
		res, err := Steady(context.Background(), p, SteadyOptions{Start: p.start()})
		var none *NotConvergedError
		if !errors.As(err, &none) {
			t.Errorf("steady: %+v, %v", res, err)
		}
		run, err := Soak(context.Background(), p, SoakOptions{Start: p.start(), Until: 10})
		if !errors.As(err, &none) {
			t.Errorf("soak: %+v, %v", run, err)
		}
	}
	t.Run("a potential alone", func(t *testing.T) {
		p := batteriesInRow(1, false)
		p.joints++
		p.drawn = append(p.drawn, 1)
		singular(t, p)
	})
	t.Run("two branches apart from earth", func(t *testing.T) {
		p := batteriesInRow(1, false)
		p.joints += 2
		p.branches = append(p.branches, arm{from: 8, to: 9, emf: 12, ohms: 1e-3}, arm{from: 9, to: 8, ohms: 2e-3})
		p.drawn = append(p.drawn, 0, 0)
		singular(t, p)
	})
	t.Run("joined by a thread/solved", func(t *testing.T) {
		p := batteriesInRow(1, false)
		p.joints += 2
		p.branches = append(p.branches, arm{from: 8, to: 9, emf: 12, ohms: 1e-3}, arm{from: 9, to: 8, ohms: 2e-3}, arm{from: 8, to: 0, ohms: 1})
		p.drawn = append(p.drawn, 0, 0)
		res := steady(t, p, SteadyOptions{Start: p.start()})
		i0, _ := p.globals()
		within(t, "round the loop", res.X[i0+10], 12/3e-3, 1e-5)
		within(t, "through the thread", res.X[i0+12], 0, 1e-5)
	})
}
