package solver

import (
	"context"
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

func soak(t *testing.T, sys System, opt SoakOptions) *SoakResult {
	t.Helper()
	res, err := Soak(context.Background(), sys, opt)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %.1g", what, got, want, tol)
	}
}

func TestSoakClosedForms(t *testing.T) {
	// A lump of constant heat and loss: T = air + q/h (1 − exp(−t h/C)).
	t.Run("lump/exponential", func(t *testing.T) {
		const c, h, air, q = 400.0, 0.5, 300.0, 20.0
		times := []float64{0, 1, 30, 800, 2000, 6000}
		for _, tol := range []float64{1, 1e-2, 1e-4, 1e-6} {
			res := soak(t, lump(c, h, air, given(q)), SoakOptions{Tol: tol, Start: []float64{air}, Until: 6000, Times: times})
			for k, at := range times {
				within(t, "temperature", res.States[k][0], air+q/h*(1-math.Exp(-at*h/c)), 0.5*tol)
			}
			within(t, "heat made", res.Made, q*6000, 1e-9*q*6000)
			within(t, "heat stored", res.Stored, c*(res.X[0]-air), 1e-9*q*6000)
			if res.Audit.Bookkeeping > 1e-9 || res.Audit.Quadrature > 10*tol/300 {
				t.Errorf("audit %+v at %g K", res.Audit, tol)
			}
		}
	})
	// Two lumps: x' = A x + b, solved by the matrix exponential of gonum.
	t.Run("two lumps/matrix exponential", func(t *testing.T) {
		p := &lumps{c: []float64{100, 900}, h: []float64{0.2, 1}, air: 290, links: [][2]int{{1, 0}}, g: []float64{3},
			sources: []source{given(40), given(0)}, load: 1}
		a := mat.NewDense(3, 3, []float64{-3.2 / 100, 3. / 100, 40. / 100, 3. / 900, -4. / 900, 0, 0, 0, 0})
		times := []float64{10, 100, 1000, 5000}
		res := soak(t, p, SoakOptions{Tol: 1e-6, Start: []float64{290, 290}, Until: 5000, Times: times})
		for k, at := range times {
			var scaled, e mat.Dense
			scaled.Scale(at, a)
			e.Exp(&scaled)
			within(t, "first", res.States[k][0], 290+e.At(0, 2), 1e-6)
			within(t, "second", res.States[k][1], 290+e.At(1, 2), 1e-6)
		}
	})
	// A step of heat at a break: two exponentials, joined.
	t.Run("break/hit exactly", func(t *testing.T) {
		const c, h, air, at = 50.0, 1.0, 300.0, 123.25
		step := func(now, _, _ float64) (float64, float64, float64, float64) {
			if now >= at {
				return 90, 0, 0, 0
			}
			return 10, 0, 0, 0
		}
		res := soak(t, lump(c, h, air, step), SoakOptions{Tol: 1e-6, Start: []float64{air}, Until: 400, Times: []float64{100, at, 300}, Breaks: []float64{at}})
		turn := 10 * (1 - math.Exp(-at*h/c))
		within(t, "before", res.States[0][0], air+10*(1-math.Exp(-100*h/c)), 1e-6)
		within(t, "at the break", res.States[1][0], air+turn, 1e-6)
		within(t, "after", res.States[2][0], air+90+(turn-90)*math.Exp(-(300-at)*h/c), 1e-6)
		within(t, "heat made", res.Made, 10*at+90*(400-at), 1e-6)
		if res.Stats.Restarts != 1 || res.Audit.Bookkeeping > 1e-9 || res.Audit.Quadrature > 1e-7 {
			t.Errorf("audit %+v, stats %+v", res.Audit, res.Stats)
		}
	})
	t.Run("globals/consistent from any guess, right-continuous at a break", func(t *testing.T) {
		p := &feed{power: 400, v: 12, r: 0.01, alpha: 0.004, h: 0.5, air: 300, c: 200, skin: 2, load: 1}
		res := soak(t, p, SoakOptions{Tol: 1e-4, Start: []float64{300, 250, 30}, Until: 100, Times: []float64{0, 50}, Breaks: []float64{50}})
		for k, x := range res.States {
			i, r := x[2], 0.01*(1+0.004*(x[0]-300))
			want := (12 - math.Sqrt(144-4*r*400)) / (2 * r)
			within(t, "current", i, want, 1e-7)
			within(t, "skin", x[1], (2*x[0]+0.5*300)/2.5, 1e-7)
			if k > 0 && !(x[0] > 300) {
				t.Error("nothing warmed up")
			}
		}
	})
}

func TestSoakEvents(t *testing.T) {
	const c, h, air, q = 400.0, 0.5, 300.0, 20.0
	when := func(rise float64) float64 { return -c / h * math.Log(1-rise*h/q) }
	p := lump(c, h, air, given(q))
	t.Run("thresholds/in order of time", func(t *testing.T) {
		res := soak(t, p, SoakOptions{Tol: 1e-6, Start: []float64{air}, Until: 5000, Events: []Event{
			{Name: "late", Level: air + 30},
			{Name: "never", Level: air + 41},
			{Name: "early", Level: air + 1},
			{Name: "value", Value: func(_ float64, x []float64) float64 { return x[0] - air - 20 }},
			{Name: "at once", Level: air - 1},
			{Name: "settled", Rate: 1. / 3600},
		}})
		want := []EventHit{{"at once", 4, 0}, {"early", 2, when(1)}, {"value", 3, when(20)}, {"late", 0, when(30)}, {"settled", 5, -c / h * math.Log(c/q/3600)}}
		if len(res.Events) != len(want) {
			t.Fatalf("got %v", res.Events)
		}
		for k, e := range res.Events {
			if e.Name != want[k].Name || e.Index != want[k].Index {
				t.Errorf("event %d is %v", k, e)
			}
			tol := 1e-3
			if e.Name == "settled" {
				tol = 0.1 // of a slope of 3e-4 K/s that falls by an eight-hundredth a second
			}
			within(t, e.Name, e.Time, want[k].Time, tol)
		}
	})
	t.Run("stop/ends the soak", func(t *testing.T) {
		res := soak(t, p, SoakOptions{Tol: 1e-6, Start: []float64{air}, Until: 5000, Times: []float64{0, 100, 1000, 4000}, Events: []Event{
			{Name: "stop", Level: air + 30, Stop: true}, {Name: "later", Level: air + 30.1},
		}})
		within(t, "end", res.End, when(30), 1e-3)
		within(t, "last state", res.X[0], air+30, 1e-9)
		if len(res.Times) != 3 || len(res.States) != 3 || len(res.Events) != 1 {
			t.Errorf("times %v, events %v", res.Times, res.Events)
		}
	})
}

func TestSoakFailures(t *testing.T) {
	start := []float64{300}
	t.Run("answers that are no numbers/no result", func(t *testing.T) {
		p := lump(100, 1, 300, given(5))
		p.brokenFrom = 40
		_, err := Soak(context.Background(), p, SoakOptions{Start: start, Until: 100})
		var small *StepTooSmallError
		if !errors.As(err, &small) || !(small.Time <= 40) || !(small.Time > 39) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("broken from the start/no result", func(t *testing.T) {
		p := lump(100, 1, 300, given(math.NaN()))
		var bad *NotFiniteError
		if _, err := Soak(context.Background(), p, SoakOptions{Start: start, Until: 100}); !errors.As(err, &bad) {
			t.Fatalf("got %v", err)
		}
	})
	// C T' = q exp(a (T − air)) reaches infinity at t = C/(a q).
	t.Run("explosion/no result past it", func(t *testing.T) {
		boom := func(_, temp, _ float64) (float64, float64, float64, float64) {
			q := math.Exp(0.1 * (temp - 300))
			return q, 0.1 * q, 0, 0
		}
		_, err := Soak(context.Background(), lump(10, 0, 300, boom), SoakOptions{Start: start, Until: 1000})
		var small *StepTooSmallError
		if !errors.As(err, &small) || math.Abs(small.Time-100) > 1 {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("no consistent current/no result", func(t *testing.T) {
		p := &feed{power: 4000, v: 12, r: 0.01, h: 0.5, air: 300, c: 200, load: 1} // beyond v²/4r = 3600 W
		_, err := Soak(context.Background(), p, SoakOptions{Start: []float64{300, 100}, Until: 10})
		var none *NotConvergedError
		if !errors.As(err, &none) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("cancelled/says so", func(t *testing.T) {
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		if _, err := Soak(ctx, lump(100, 1, 300, given(5)), SoakOptions{Start: start, Until: 100}); !errors.Is(err, context.Canceled) {
			t.Fatalf("got %v", err)
		}
	})
	t.Run("steps used up/says where", func(t *testing.T) {
		var limit *StepLimitError
		if _, err := Soak(context.Background(), lump(100, 1, 300, given(5)), SoakOptions{Start: start, Until: 1000, MaxSteps: 3, Tol: 1e-8}); !errors.As(err, &limit) {
			t.Fatalf("got %v", err)
		}
	})
	for name, opt := range map[string]SoakOptions{
		"start too long":   {Start: []float64{1, 2}, Until: 1},
		"start not finite": {Start: []float64{math.NaN()}, Until: 1},
		"backwards":        {Start: start, Until: -1},
		"tolerance":        {Start: start, Until: 1, Tol: -1},
		"times unsorted":   {Start: start, Until: 9, Times: []float64{2, 1}},
		"times outside":    {Start: start, Until: 9, Times: []float64{10}},
		"breaks unsorted":  {Start: start, Until: 9, Breaks: []float64{2, 1}},
		"event elsewhere":  {Start: start, Until: 9, Events: []Event{{Node: 1}}},
	} {
		t.Run("input/"+name, func(t *testing.T) {
			var input *InputError
			if _, err := Soak(context.Background(), lump(100, 1, 300, given(5)), opt); !errors.As(err, &input) {
				t.Fatalf("got %v", err)
			}
		})
	}
}

// fixedSteps runs the bare method, without error control.
func fixedSteps(t *testing.T, sys System, x0 []float64, until float64, steps int) []float64 {
	t.Helper()
	s := NewSoaker(sys)
	copy(s.x, x0)
	if err := s.begin(0); err != nil {
		t.Fatal(err)
	}
	for k := range steps {
		s.h, s.end = until/float64(steps), until*float64(k+1)/float64(steps)
		s.attempt(false)
		if !s.accept(false) {
			t.Fatal("not finite")
		}
		s.x, s.z = s.z, s.x
		s.t = s.end
	}
	return clone(s.x)
}

// The order that is observed: the slope of the error over the step length.
func TestSoakOrder(t *testing.T) {
	const least = 3.8
	orders := func(t *testing.T, sys System, x0 []float64, until float64, exact func(i int) float64) {
		t.Helper()
		for i := range x0 {
			var errs []float64
			counts := []int{40, 80, 160}
			for _, n := range counts {
				errs = append(errs, math.Abs(fixedSteps(t, sys, x0, until, n)[i]-exact(i)))
			}
			for k := 1; k < len(errs); k++ {
				if order := math.Log2(errs[k-1] / errs[k]); !(order >= least) {
					t.Errorf("unknown %d: order %.2f from %d to %d steps (errors %.2g, %.2g)", i, order, counts[k-1], counts[k], errs[k-1], errs[k])
				}
			}
		}
	}
	// C T' = q(t) − h (T − air) − s (T − air)², q made so that
	// T = air + 10 + 5 sin t solves it.
	t.Run("nonautonomous/manufactured solution", func(t *testing.T) {
		const c, h, s, air = 2.0, 3.0, 0.1, 300.0
		q := func(now, temp, _ float64) (float64, float64, float64, float64) {
			y, dy, ddy := 10+5*math.Sin(now), 5*math.Cos(now), -5*math.Sin(now)
			d := temp - air
			return c*dy + h*y + s*y*y - s*d*d, -2 * s * d, c*ddy + h*dy + 2*s*y*dy, 0
		}
		orders(t, lump(c, h, air, q), []float64{air + 10}, 6, func(int) float64 { return air + 10 + 5*math.Sin(6) })
	})
	// Mass, skin without mass, current as a global, power that swings: what is
	// exact is had from the method at 4000 steps.
	t.Run("index 1/constant power that swings", func(t *testing.T) {
		p := &feed{power: 300, v: 12, r: 0.05, alpha: 0.004, h: 2, air: 300, c: 3, skin: 5, swing: 0.5, load: 1}
		x0 := []float64{300, 300, 25}
		fine := fixedSteps(t, p, x0, 6, 3000)
		orders(t, p, x0, 6, func(i int) float64 { return fine[i] })
	})
}
