package solver

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// alikeBranches are so many branches side by side, each a cell of 10 mΩ with 0.4 %
// more a kelvin that loses 0.5 W/K, and carry 300 A each.
func alikeBranches(n int) *wiring {
	p := &wiring{alpha: 0.004, air: 300, joints: 2, drawn: []float64{0, 300 * float64(n)}, load: 1}
	for range n {
		p.branches = append(p.branches, arm{from: 0, to: 1, first: p.cellsOf(1, 1e-2, 100, 0.5, 0), cells: 1})
	}
	return p
}

// Beyond I = √(h/(R α)) = 111.8 A in each a kelvin makes more heat than it loses.
// What solves the balances there, at 1.7 K, cannot last; that as many modes of it
// grow as there are branches must not hide that.
func TestAlikeBranches(t *testing.T) {
	most := math.Sqrt(0.5 / (1e-2 * 0.004))
	for _, n := range []int{1, 2, 3, 4} {
		t.Run(fmt.Sprintf("runaway/%d branches", n), func(t *testing.T) {
			p := alikeBranches(n)
			res, err := Steady(context.Background(), p, SteadyOptions{Start: p.start()})
			var fold *FoldError
			if !errors.As(err, &fold) {
				t.Fatalf("got %+v, %v", res, err)
			}
			if !fold.Unbounded {
				t.Error("states rise without bound, and that is not said")
			}
			within(t, "the share of the load", fold.Load, most/300, 1e-6)
		})
		t.Run(fmt.Sprintf("below/%d branches", n), func(t *testing.T) {
			p := alikeBranches(n)
			p.drawn[1] /= 3
			res := steady(t, p, SteadyOptions{Start: p.start()})
			// h ΔT = I² R (1 + α ΔT)
			within(t, "temperature", res.X[0], 300+100/(0.5-0.4), 1e-6)
		})
	}
}

// Gonum's eigenvalues of M with the globals eliminated, by its dense LU, are the
// judge.
func TestDeparturesOfCircuits(t *testing.T) {
	grown, faded := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawCircuit(t)
		j := c.draw(t)
		n, m := c.st.Nodes, c.st.Globals
		// Sources whose heat grows with the temperature, in some.
		for i := range n {
			if rapid.IntRange(0, 3).Draw(t, "grows") == 0 {
				j.Diag[i] += rapid.Float64Range(0, 3).Draw(t, "by")
			}
		}
		e := newElimination(newPlan(c.st))
		e.factor(j, nil, 0)
		a := dense(c.st, j, make([]float64, n), 0)
		var s mat.Dense
		s.CloneFrom(a.Slice(0, n, 0, n))
		if m > 0 {
			var lu mat.LU
			lu.Factorize(a.Slice(n, n+m, n, n+m))
			var x, y mat.Dense
			if lu.SolveTo(&x, false, a.Slice(n, n+m, 0, n)) != nil || lu.Cond() > 1e10 {
				t.Skip("ill-conditioned draw")
			}
			y.Mul(a.Slice(0, n, n, n+m), &x)
			s.Sub(&s, &y)
		}
		var eigen mat.Eigen
		if !e.sound() || !eigen.Factorize(&s, mat.EigenNone) {
			t.Skip("nothing to compare")
		}
		least, most := math.Inf(1), 0.0
		for _, v := range eigen.Values(nil) {
			least, most = min(least, real(v)), max(most, math.Hypot(real(v), imag(v)))
		}
		if math.Abs(least) < 1e-6*most {
			t.Skip("on the edge")
		}
		if least < 0 {
			grown++
		} else {
			faded++
		}
		if got := new(departures).fade(e); got != (least > 0) {
			t.Fatalf("all fade: %v of %d nodes, eigenvalues from %g on, largest %g", got, n, least, most)
		}
	})
	if grown == 0 || faded == 0 {
		t.Errorf("%d draws that grow, %d that fade: one side is not tested", grown, faded)
	}
}

// pairs are circuits apart from one another, in each a battery of 13 V and of 10 mΩ
// which warm, from which a power is drawn: the balances hold on
// either side of half the voltage.
type pairs struct{ feeds []*feed }

func newPairs(n int) *pairs {
	p := &pairs{}
	for range n {
		p.feeds = append(p.feeds, &feed{power: 1000, v: 13, r: 10e-3, alpha: 1e-4, h: 40, air: 300, c: 50, load: 1})
	}
	return p
}

func (p *pairs) Structure() Structure {
	s := Structure{Nodes: len(p.feeds), Globals: len(p.feeds)}
	for k := range p.feeds {
		s.Links = append(s.Links, [2]int{k, s.Nodes + k})
	}
	return s
}

func (p *pairs) Capacities(dst []float64) {
	for k, f := range p.feeds {
		dst[k] = f.c
	}
}

func (p *pairs) each(x []float64, do func(f *feed, own []float64) []float64, dst []float64) {
	n := len(p.feeds)
	for k, f := range p.feeds {
		out := do(f, []float64{x[k], x[n+k]})
		dst[k], dst[n+k] = out[0], out[1]
	}
}

func (p *pairs) Balance(t float64, x, f []float64) Flow {
	return p.Linearize(t, x, f, NewJacobian(p.Structure()))
}

func (p *pairs) Linearize(t float64, x, f []float64, j *Jacobian) (flow Flow) {
	n, k := len(p.feeds), 0
	own, r := NewJacobian(p.feeds[0].Structure()), make([]float64, 2)
	p.each(x, func(one *feed, y []float64) []float64 {
		w := one.Linearize(t, y, r, own)
		flow.Made, flow.Lost = flow.Made+w.Made, flow.Lost+w.Lost
		j.Diag[k], j.Diag[n+k], j.Up[k], j.Down[k] = own.Diag[0], own.Diag[1], own.Up[0], own.Down[0]
		k++
		return r
	}, f)
	return flow
}

func (p *pairs) Drift(float64, []float64, []float64) bool { return false }

func (p *pairs) SetLoad(lambda float64) {
	for _, f := range p.feeds {
		f.load = lambda
	}
}

func (p *pairs) LoadDerivative(t float64, x, df []float64) {
	r := make([]float64, 2)
	p.each(x, func(f *feed, y []float64) []float64 {
		f.LoadDerivative(t, y, r)
		return r
	}, df)
}

// Of two such circuits both on the side of low voltage, every sign that tells is
// there twice.
func TestLowVoltageSide(t *testing.T) {
	for _, n := range []int{1, 2, 3, 4} {
		t.Run(fmt.Sprintf("%d circuits/the high side found", n), func(t *testing.T) {
			p := newPairs(n)
			start := append(uniform(n, 300), uniform(n, 1200)...)
			res := steady(t, p, SteadyOptions{Start: start})
			for _, i := range res.X[n:] {
				if !(i < 100) {
					t.Errorf("%g A, %g V at the load", i, 1000/i)
				}
			}
			if !(res.Stats.Continuation > 0) {
				t.Error("the guess did not lead to the low side: nothing is tested")
			}
		})
	}
}
