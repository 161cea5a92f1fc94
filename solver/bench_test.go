package solver

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"
)

var ladderSizes = []int{50, 200, 1000, 10000}

// secureTolerance is the loosest tolerance, in quarter decades, from which on
// this and every tighter one keep the ladder's error within the wanted one.
func secureTolerance(b *testing.B, n int, want float64) float64 {
	b.Helper()
	s := NewSoaker(newLadder(n, 160, 0.25e-3))
	var res SoakResult
	secure := 0.0
	for e := 24; e >= -4; e-- {
		tol := math.Pow(10, -float64(e)/4)
		opt := SoakOptions{Tol: tol, Start: uniform(n, ladderAir), Until: 3600, Times: ladderTimes}
		if err := s.RunInto(context.Background(), opt, &res); err != nil {
			b.Fatal(err)
		}
		for _, ref := range ladderReference {
			if ref.n != n {
				continue
			}
			for c, i := range cells(n) {
				for k, v := range ref.soak[c] {
					if !(math.Abs(res.States[k][i]-v) <= want) {
						return secure
					}
				}
			}
		}
		secure = tol
	}
	return secure
}

// timeEach also reports the median run, which a busy machine spoils less than
// the mean.
func timeEach(b *testing.B, run func() error) {
	b.Helper()
	b.ReportAllocs()
	times := make([]float64, 0, 1<<20)
	for b.Loop() {
		start := time.Now()
		if err := run(); err != nil {
			b.Fatal(err)
		}
		if len(times) < cap(times) {
			times = append(times, float64(time.Since(start).Nanoseconds()))
		}
	}
	slices.Sort(times)
	b.ReportMetric(times[len(times)/2], "median-ns")
}

// An hour's soak with five wanted times, at equal accuracy.
func BenchmarkLadderSoak(b *testing.B) {
	for _, want := range []float64{0.01, 0.001, 0.0001} {
		for _, n := range ladderSizes {
			b.Run(fmt.Sprintf("error=%g/n=%d", want, n), func(b *testing.B) {
				tol := secureTolerance(b, n, want)
				s := NewSoaker(newLadder(n, 160, 0.25e-3))
				opt := SoakOptions{Tol: tol, Start: uniform(n, ladderAir), Until: 3600, Times: ladderTimes}
				var res SoakResult
				timeEach(b, func() error { return s.RunInto(context.Background(), opt, &res) })
				b.ReportMetric(float64(res.Stats.Steps+res.Stats.Rejected), "steps")
				b.ReportMetric(tol, "K-tol")
			})
		}
	}
}

func BenchmarkLadderSteady(b *testing.B) {
	for _, n := range ladderSizes {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := NewSteadySolver(newLadder(n, 160, 0.25e-3))
			opt := SteadyOptions{Start: uniform(n, ladderAir+50)}
			var res SteadyResult
			timeEach(b, func() error { return s.SolveInto(context.Background(), opt, &res) })
			b.ReportMetric(float64(res.Stats.Iterations), "iterations")
		})
	}
}

// The lasting cycle of the ladder with its current on for a third of three
// minutes, from the steady state's neighbourhood.
func BenchmarkLadderPeriodic(b *testing.B) {
	for _, n := range []int{50, 1000} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			p := pulsed{newLadder(n, 220, 0.25e-3), 60}
			opt := PeriodicOptions{Period: 180, Breaks: []float64{60}, Start: uniform(n, 330)}
			var res *PeriodicResult
			timeEach(b, func() (err error) {
				res, err = Periodic(context.Background(), p, opt)
				return err
			})
			b.ReportMetric(float64(res.Periods), "periods")
		})
	}
}

// Sweeps: many variants of one ladder, a soak of an hour each. At this tolerance
// the largest error over 2000 variants was 0.0072 K against a general-purpose
// solver at 1e-12.
func BenchmarkLadderThroughput(b *testing.B) {
	const n = 50
	p := newLadder(n, 160, 0.25e-3)
	s := NewSoaker(p)
	opt := SoakOptions{Tol: 0.18, Start: uniform(n, ladderAir), Until: 3600, Times: ladderTimes}
	var res SoakResult
	b.ReportAllocs()
	k := 0
	for b.Loop() {
		p.variant(k % 2000)
		k++
		if err := s.RunInto(context.Background(), opt, &res); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkElimination(b *testing.B) {
	for _, n := range ladderSizes {
		p := newLadder(n, 160, 0.25e-3)
		st := p.Structure()
		e, j, c, f := newElimination(newPlan(st)), NewJacobian(st), make([]float64, n), make([]float64, n)
		p.Capacities(c)
		x := uniform(n, 320)
		p.Linearize(0, x, f, j)
		b.Run(fmt.Sprintf("balance/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				p.Balance(0, x, f)
			}
		})
		b.Run(fmt.Sprintf("linearize/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				p.Linearize(0, x, f, j)
			}
		})
		b.Run(fmt.Sprintf("factor/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				e.factor(j, c, 0.1)
			}
		})
		b.Run(fmt.Sprintf("solve/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				e.solve(f)
			}
		})
	}
}

// A rod every cell of which touches the air of a box and its wall as well.
func BenchmarkHubs(b *testing.B) {
	for _, n := range []int{50, 1000} {
		st := Structure{Nodes: n + 2}
		for i := range n - 1 {
			st.Links = append(st.Links, [2]int{i, i + 1})
		}
		for i := range n + 1 {
			st.Links = append(st.Links, [2]int{i, n + 1})
			if i < n {
				st.Links = append(st.Links, [2]int{i, n})
			}
		}
		e, j, c, f := newElimination(newPlan(st)), NewJacobian(st), uniform(n+2, 1), uniform(n+2, 1)
		for i := range j.Diag {
			j.Diag[i] = -100 * float64(n)
		}
		for l := range j.Up {
			j.Up[l], j.Down[l] = 1, 1
		}
		b.Run(fmt.Sprintf("factor/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				e.factor(j, c, 0.1)
			}
		})
		b.Run(fmt.Sprintf("solve/n=%d", n), func(b *testing.B) {
			for b.Loop() {
				e.solve(f)
			}
		})
	}
}
