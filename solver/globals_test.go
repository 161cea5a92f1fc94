package solver

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
)

// current drawn at a power by a feed without temperature coefficient, on the side
// of the higher voltage: P = I (V − I R).
func (p *feed) current(power float64) float64 {
	return (p.v - math.Sqrt(p.v*p.v-4*p.r*power)) / (2 * p.r)
}

func (p *feed) most() float64 { return p.v * p.v / (4 * p.r) }

// ramped is a feed whose power rises by its share of the most in each second.
type ramped struct{ feed }

func (p *ramped) at(t float64) *feed {
	f := p.feed
	f.power *= t
	return &f
}

func (p *ramped) Balance(t float64, x, f []float64) Flow { return p.at(t).Balance(0, x, f) }
func (p *ramped) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	return p.at(t).Linearize(0, x, f, j)
}

func (p *ramped) Drift(_ float64, x, df []float64) bool {
	clear(df)
	df[1] = p.power
	return true
}

// The power goes from nothing to 98 % of the most that can be drawn, where the
// current climbs steeply, on a body too heavy to warm. What is handed out is
// settled: the steps themselves are looked at.
func TestCurrentsOfSteps(t *testing.T) {
	for _, c := range []struct{ tol, share float64 }{{DefaultSoakTol, 2e-3}, {1e-3, 1e-4}, {1e-5, 2e-6}} {
		t.Run(fmt.Sprintf("steep/%g K", c.tol), func(t *testing.T) {
			p := &ramped{feed{v: 13, r: 10e-3, h: 2, air: 300, c: 1e6, load: 1}}
			p.power = 0.98 / 60 * p.most()
			s := NewSoaker(p)
			worst, steps := 0.0, 0
			s.watch = func(bool) {
				want := p.current(p.power * s.end)
				worst = max(worst, math.Abs(s.z[1]-want)/want)
				steps++
			}
			opt := SoakOptions{Tol: c.tol, Start: []float64{300, 0}, Until: 60}
			if _, err := s.Run(context.Background(), opt); err != nil {
				t.Fatal(err)
			}
			t.Logf("%d steps, %.2g off", steps, worst)
			if !(worst <= c.share) {
				t.Errorf("a current is off by %.3g of it", worst)
			}
		})
	}
}

// Kirchhoff's laws in all that a soak hands out, at any tolerance.
func TestSettled(t *testing.T) {
	for _, tol := range []float64{1, DefaultSoakTol, 1e-4} {
		t.Run(fmt.Sprintf("rungs/%g K", tol), func(t *testing.T) {
			p := newRungs(5, 8)
			var times []float64
			for k := range 301 {
				times = append(times, 12.3*float64(k))
			}
			res := soak(t, p, SoakOptions{Tol: tol, Start: p.start(), Until: 3690, Times: times})
			for k, x := range append(res.States, res.X) {
				if v := p.kirchhoff(x); !(v < 1e-9) {
					t.Fatalf("state %d: Kirchhoff's laws hold to %.3g", k, v)
				}
			}
		})
		t.Run(fmt.Sprintf("power/%g K", tol), func(t *testing.T) {
			p := &feed{v: 13, r: 10e-3, alpha: 0.004, h: 40, air: 300, c: 500, skin: 60, swing: 1, load: 1}
			p.power = 0.2 * p.most()
			times := []float64{0, 0.3, 1, 1.7, 2, 3, 4.4}
			for _, stop := range []float64{1e4, 300.3} {
				res := soak(t, p, SoakOptions{Tol: tol, Start: []float64{300, 300, 0}, Until: 5, Times: times,
					Events: []Event{{Name: "stop", Node: 0, Level: stop, Stop: true}}})
				if stopped := res.End < 5; stopped != (stop < 1e4) {
					t.Fatalf("ends at %g s", res.End)
				}
				f := make([]float64, 3)
				for k, x := range append(res.States, res.X) {
					at := res.End
					if k < len(res.Times) {
						at = res.Times[k]
					}
					p.Balance(at, x, f)
					// W of the skin without mass, and of the power drawn.
					if !(math.Abs(f[1]) < 1e-7 && math.Abs(f[2]) < 1e-9*p.power) {
						t.Errorf("at %g s: %g W, %g W left", at, f[1], f[2])
					}
				}
			}
		})
	}
	// At the last instant before a jump the state is that before it.
	t.Run("jump at the end/what comes before", func(t *testing.T) {
		p := newRungs(2, 3)
		p.wave = func(t float64) float64 {
			if t < 50 {
				return 1
			}
			return 0.5
		}
		res := soak(t, p, SoakOptions{Start: p.start(), Until: 50, Times: []float64{50}, Breaks: []float64{50}})
		for _, x := range [][]float64{res.X, res.States[0]} {
			if v := p.kirchhoff(x); !(v < 1e-9) {
				t.Errorf("Kirchhoff's laws hold to %.3g", v)
			}
		}
	})
}

// The most power that a source gives, all of its ohms apart from any node, and
// nothing warms: a fold of the current alone.
func TestFoldWithoutHeat(t *testing.T) {
	for _, over := range []float64{1.001, 1.03, 1.5, 5} {
		t.Run(fmt.Sprintf("power/%g of the most", over), func(t *testing.T) {
			p := &cold{feed{v: 12, r: 10e-3, h: 5, air: 300, c: 100, load: 1}}
			p.power = over * p.most()
			res, err := Steady(context.Background(), p, SteadyOptions{Start: []float64{300, 0}})
			var fold *FoldError
			if !errors.As(err, &fold) {
				t.Fatalf("got %+v, %v", res, err)
			}
			within(t, "the share of the load", fold.Load, 1/over, 1e-6)
		})
	}
	t.Run("below/the high side", func(t *testing.T) {
		p := &cold{feed{v: 12, r: 10e-3, h: 5, air: 300, c: 100, load: 1}}
		p.power = 0.999 * p.most()
		res := steady(t, p, SteadyOptions{Start: []float64{300, 0}})
		within(t, "current", res.X[1], p.current(p.power), 1e-6)
	})
}

// cold is a feed whose ohms heat something else.
type cold struct{ feed }

func (p *cold) Balance(t float64, x, f []float64) Flow {
	return p.Linearize(t, x, f, NewJacobian(p.Structure()))
}

func (p *cold) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	flow := p.feed.Linearize(t, x, f, j)
	f[0] = -flow.Lost
	j.Diag[0], j.Up[0], flow.Made = -p.h, 0, 0
	return flow
}
