package validation

import (
	"context"
	"flag"
	"fmt"
	"math"
	"sort"
	"sync"
	"testing"
	"time"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// The speed of the solver on the rod of ladder.go, built through the public
// API of the network. The tolerances are fixed: TestWorkPrecision finds those
// at which a wanted error is held, and prints the table to stand beside that of
// other solvers.

var workPrecision = flag.Bool("work-precision", false, "print the table of work and precision")

var ladderSizes = []int{50, 200, 1000, 10000}

func BenchmarkSoak(b *testing.B) {
	for _, n := range ladderSizes {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			run := newSoakRun(b, n)
			b.ReportAllocs()
			for b.Loop() {
				run.soak(b, 0)
			}
			b.ReportMetric(float64(run.res.Stats.Steps), "steps")
		})
	}
}

func BenchmarkSteady(b *testing.B) {
	for _, n := range ladderSizes {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			l := mustLadder(b, n)
			s := solver.NewSteadySolver(l)
			opt := solver.SteadyOptions{Start: l.start(ladderAir + 50)}
			var res solver.SteadyResult
			b.ReportAllocs()
			for b.Loop() {
				if err := s.SolveInto(context.Background(), opt, &res); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(res.Stats.Iterations), "iterations")
		})
	}
}

// BenchmarkThroughput soaks variants of the rod one after the other, on one
// goroutine and on two.
func BenchmarkThroughput(b *testing.B) {
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			for b.Loop() {
				if _, err := soakVariants(workers, throughputTol, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(b.Elapsed().Seconds()*1000/float64(b.N)/ladderVariants, "s/1000-soaks")
		})
	}
}

// BenchmarkExampleSoak soaks the shipped examples over the hour that the rod
// is soaked for, at the default tolerance, and reports the cost over that of a
// rod of as many nodes. What is supplied for less than the hour stays as it
// ends. A supply that steps is given to the rod as well, since every step ends
// and restarts a stretch of the way.
func BenchmarkExampleSoak(b *testing.B) {
	for _, e := range scenarios.Examples() {
		b.Run(e.Name, func(b *testing.B) {
			a, supply, opt := exampleSoak(b, e.Name)
			soaker := solver.NewSoaker(a.Network)
			var res solver.SoakResult
			rod := newSoakRun(b, a.Network.Nodes())
			rod.l.SetSupply(scaled{supply, ladderCurrent / peak(supply)}, 0)
			rod.opt.Breaks = opt.Breaks
			b.ReportAllocs()
			// In turns and by medians, so that what else the machine does falls
			// on both alike.
			var own, rods []float64
			for b.Loop() {
				begin := time.Now()
				if err := soaker.RunInto(context.Background(), opt, &res); err != nil {
					b.Fatal(err)
				}
				own = append(own, time.Since(begin).Seconds())
				b.StopTimer()
				begin = time.Now()
				rod.soak(b, 0)
				rods = append(rods, time.Since(begin).Seconds())
				b.StartTimer()
			}
			sort.Float64s(own)
			sort.Float64s(rods)
			b.ReportMetric(own[len(own)/2]/rods[len(rods)/2], "rods")
			b.ReportMetric(float64(a.Network.Nodes()), "nodes")
			b.ReportMetric(float64(res.Stats.Steps), "steps")
		})
	}
}

// scaled is a supply in other amperes.
type scaled struct {
	model.Supply
	factor float64
}

func (s scaled) Current(t float64) float64 { return s.factor * s.Supply.Current(t) }
func (s scaled) Slope(t float64) float64   { return s.factor * s.Supply.Slope(t) }

// peak is the largest current at the ends of a supply's stretches, A.
func peak(s model.Supply) float64 {
	top := s.Current(0)
	for _, t := range s.Breaks() {
		top = max(top, s.Current(t), s.Current(math.Nextafter(t, 0)))
	}
	return top
}

// exampleSoak is a shipped example, ready for an hour's soak.
func exampleSoak(tb testing.TB, name string) (*model.Assembly, model.Supply, solver.SoakOptions) {
	tb.Helper()
	sc, err := scenarios.Open(name)
	if err != nil {
		tb.Fatal(err)
	}
	stack, err := sc.Stack(nil)
	if err != nil {
		tb.Fatal(err)
	}
	a, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		tb.Fatal(err)
	}
	return a, stack.Supply, solver.SoakOptions{Start: a.Start(nil), Until: ladderUntil,
		Times: []float64{60, 300, 900, 1800, ladderUntil}, Breaks: stack.BreaksUntil(ladderUntil)}
}

// A step of a soak allocates nothing: a run of many steps and one of few
// allocate alike.
func TestSoakAllocates(t *testing.T) {
	run := newSoakRun(t, 200)
	run.soak(t, 1e-3)
	if n := testing.AllocsPerRun(10, func() { run.soak(t, 1e-3) }); n != 0 {
		t.Errorf("a soak of %d steps allocates %v times", run.res.Stats.Steps, n)
	}
}

func mustLadder(tb testing.TB, n int) *ladder {
	tb.Helper()
	l, err := newLadder(n, ladderCurrent, ladderJointOhm)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

type soakRun struct {
	l      *ladder
	soaker *solver.Soaker
	opt    solver.SoakOptions
	res    solver.SoakResult
}

func newSoakRun(tb testing.TB, n int) *soakRun {
	tb.Helper()
	ref, err := readLadderReference()
	if err != nil {
		tb.Fatal(err)
	}
	l := mustLadder(tb, n)
	return &soakRun{l: l, soaker: solver.NewSoaker(l),
		opt: solver.SoakOptions{Start: l.start(ladderAir), Until: ladderUntil, Times: ref.Times}}
}

func (r *soakRun) soak(tb testing.TB, tol float64) {
	r.opt.Tol = tol
	if err := r.soaker.RunInto(context.Background(), r.opt, &r.res); err != nil {
		tb.Fatal(err)
	}
}

// ms is the median time of a soak at a tolerance, milliseconds.
func (r *soakRun) ms(tb testing.TB, tol float64) float64 {
	var times []float64
	for begin := time.Now(); time.Since(begin) < 400*time.Millisecond || len(times) < 9; {
		t := time.Now()
		r.soak(tb, tol)
		times = append(times, time.Since(t).Seconds()*1000)
	}
	sort.Float64s(times)
	return times[len(times)/2]
}

// TestWorkPrecision prints, for each size, the error and the time at each
// tolerance, and the time at equal accuracy: that of the loosest tolerance, in
// quarter decades, from which on it and every tighter one keep within the
// error.
func TestWorkPrecision(t *testing.T) {
	if !*workPrecision {
		t.Skip("give -work-precision to print the table")
	}
	ref, err := readLadderReference()
	if err != nil {
		t.Fatal(err)
	}
	targets := []float64{0.1, 0.01, 0.001, 0.0001}
	fmt.Println("| N | 0.1 K | 0.01 K | 0.001 K | 0.0001 K | ms per soak at equal accuracy")
	for _, n := range ladderSizes {
		run := newSoakRun(t, n)
		type point struct{ tol, err float64 }
		var points []point
		for e := -6; e <= 20; e++ {
			tol := math.Pow(10, -float64(e)/4)
			run.soak(t, tol)
			points = append(points, point{tol, ref.difference(run.l, &run.res)})
		}
		row := fmt.Sprintf("| %d |", n)
		for _, target := range targets {
			k := len(points)
			for k > 0 && points[k-1].err <= target {
				k--
			}
			if k == len(points) {
				row += " – |"
				continue
			}
			ms := run.ms(t, points[k].tol)
			row += fmt.Sprintf(" %.3g (tol %.2g, %d steps) |", ms, points[k].tol, run.res.Stats.Steps)
		}
		fmt.Println(row)
	}
	for _, workers := range []int{1, 2} {
		begin := time.Now()
		worst, err := soakVariants(workers, throughputTol, ref)
		if err != nil {
			t.Fatal(err)
		}
		took := time.Since(begin).Seconds()
		fmt.Printf("throughput, %d workers: %.4g s per 1000 soaks, largest error %.3g K\n", workers, took*1000/ladderVariants, worst)
	}
	fmt.Println("| N | settled, µs | iterations | error, K |")
	for _, n := range ladderSizes {
		l := mustLadder(t, n)
		s := solver.NewSteadySolver(l)
		opt := solver.SteadyOptions{Start: l.start(ladderAir + 50)}
		var res solver.SteadyResult
		var times []float64
		for begin := time.Now(); time.Since(begin) < 300*time.Millisecond; {
			at := time.Now()
			if err := s.SolveInto(context.Background(), opt, &res); err != nil {
				t.Fatal(err)
			}
			times = append(times, time.Since(at).Seconds()*1e6)
		}
		sort.Float64s(times)
		worst, err := ref.steadyError(context.Background(), n, ladderCurrent)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Printf("| %d | %.4g | %d | %.1g |\n", n, times[len(times)/2], res.Stats.Iterations, worst)
	}
}

const (
	ladderVariants = 2000
	// throughputTol, K, keeps the largest error over all variants below 0.01 K.
	throughputTol = 0.28
)

// soakVariants soaks all variants and gives the largest error, K, against the
// reference table where ref is not nil.
func soakVariants(workers int, tol float64, ref *ladderReference) (float64, error) {
	var table [][]float64
	if ref != nil {
		var err error
		if table, err = readVariants(); err != nil {
			return 0, err
		}
	}
	times := []float64{60, 300, 900, 1800, 3600}
	worst, errs := make([]float64, workers), make([]error, workers)
	var wait sync.WaitGroup
	for w := range workers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			worst[w], errs[w] = func() (float64, error) {
				l, err := newLadder(50, ladderCurrent, ladderJointOhm)
				if err != nil {
					return 0, err
				}
				s := solver.NewSoaker(l)
				opt := solver.SoakOptions{Tol: tol, Start: l.start(ladderAir), Until: ladderUntil, Times: times}
				var res solver.SoakResult
				largest := 0.0
				for k := w; k < ladderVariants; k += workers {
					l.vary(k)
					if err := s.RunInto(context.Background(), opt, &res); err != nil {
						return 0, err
					}
					for c, cell := range l.cells() {
						for i := range times {
							if table != nil {
								largest = math.Max(largest, math.Abs(res.States[i][cell]-table[k][3+5*c+i]))
							}
						}
					}
				}
				return largest, nil
			}()
		}()
	}
	wait.Wait()
	largest := 0.0
	for w := range workers {
		if errs[w] != nil {
			return 0, errs[w]
		}
		largest = math.Max(largest, worst[w])
	}
	return largest, nil
}

// Many variants at once give the same answers as one after the other, within
// the error that the throughput is measured at.
func TestThroughputConcurrent(t *testing.T) {
	if testing.Short() {
		t.Skip("2000 soaks")
	}
	ref, err := readLadderReference()
	if err != nil {
		t.Fatal(err)
	}
	worst, err := soakVariants(2, throughputTol, ref)
	if err != nil {
		t.Fatal(err)
	}
	if worst > 0.01 {
		t.Errorf("largest error of %d variants is %.3g K", ladderVariants, worst)
	}
}
