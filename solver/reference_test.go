package solver

import (
	"context"
	"fmt"
	"math"
	"testing"
)

// ladderReference: temperatures of the ladder's first, middle and last cell at
// ladderTimes, K, and of its steady state. Radau IIA of order 5 at a relative
// tolerance of 1e-12, made with SciPy; good to 1e-7 K.
var ladderReference = []struct {
	n      int
	soak   [3][5]float64
	steady [3]float64
}{
	{50, [3][5]float64{{300.80665448, 311.55579582, 336.5963629, 365.88339352, 399.65257518}, {301.17433295, 310.91999068, 322.00043189, 327.45970126, 331.97179488}, {299.36214261, 301.01542096, 302.19283665, 302.55650501, 302.76947218}}, [3]float64{425.10857211, 335.11114627, 302.91124386}},
	{200, [3][5]float64{{300.8033516, 311.55979216, 336.75351495, 366.55463186, 401.69758672}, {301.17433615, 310.93925727, 322.13718045, 327.68279815, 332.32734548}, {299.28698614, 300.91469641, 302.08528456, 302.4433591, 302.65022527}}, [3]float64{429.85373048, 335.74424113, 302.7950455}},
	{1000, [3][5]float64{{300.80251002, 311.56077874, 336.79469114, 366.73241387, 402.24706156}, {301.17433647, 310.94377762, 322.17193809, 327.74063197, 332.42119508}, {299.26745541, 300.88826935, 302.05697105, 302.41362692, 302.61893304}}, [3]float64{431.17257468, 335.9168107, 302.76462262}},
	{10000, [3][5]float64{{300.802323, 311.560996, 336.80391174, 366.77233659, 402.37090831}, {301.17433652, 310.94476122, 322.17966294, 327.75355238, 332.44226024}, {299.26309106, 300.88234838, 302.05062179, 302.40696252, 302.61192146}}, [3]float64{431.47250819, 335.95587354, 302.75781002}},
}

func cells(n int) [3]int { return [3]int{0, n / 2, n - 1} }

// The one ladder that was computed by another method and program.
func TestLadder(t *testing.T) {
	for _, ref := range ladderReference {
		s := NewSoaker(newLadder(ref.n, 160, 0.25e-3))
		for _, tol := range []struct{ set, want float64 }{
			{0, 0.005},    // the default promises 0.01 K
			{0.5, 0.01},   // BenchmarkLadderSoak
			{0.01, 0.001}, // the same
			{1e-3, 2e-4}, {1e-5, 1e-5}, {1e-7, 1e-6},
		} {
			if ref.n == 10000 && tol.set == 1e-7 && testing.Short() {
				continue
			}
			t.Run(fmt.Sprintf("soak/n=%d/tolerance=%g", ref.n, tol.set), func(t *testing.T) {
				res, err := s.Run(context.Background(), SoakOptions{Tol: tol.set, Start: uniform(ref.n, ladderAir), Until: 3600, Times: ladderTimes})
				if err != nil {
					t.Fatal(err)
				}
				for c, i := range cells(ref.n) {
					for k, want := range ref.soak[c] {
						within(t, fmt.Sprintf("cell %d at %g s", i, ladderTimes[k]), res.States[k][i], want, tol.want)
					}
				}
				asked := tol.set
				if asked == 0 {
					asked = DefaultSoakTol
				}
				if res.Audit.Bookkeeping > 1e-9 || res.Audit.Quadrature > 10*asked/300 {
					t.Errorf("audit %+v", res.Audit)
				}
			})
		}
		t.Run(fmt.Sprintf("steady/n=%d", ref.n), func(t *testing.T) {
			s := NewSteadySolver(newLadder(ref.n, 160, 0.25e-3))
			for _, above := range []float64{0, 50, 400} {
				res, err := s.Solve(context.Background(), SteadyOptions{Start: uniform(ref.n, ladderAir+above)})
				if err != nil {
					t.Fatal(err)
				}
				for c, i := range cells(ref.n) {
					within(t, fmt.Sprintf("cell %d", i), res.X[i], ref.steady[c], 1e-7)
				}
				within(t, "audit", res.Audit.Bookkeeping, 0, 1e-9)
			}
		})
	}
	// At 300 A the end is far beyond what copper bears, but a state.
	t.Run("steady/300 A", func(t *testing.T) {
		res := steady(t, newLadder(50, 300, 0.25e-3), SteadyOptions{Start: uniform(50, ladderAir)})
		within(t, "first cell", res.X[0]-273.15, 653.45, 0.01)
	})
}

// A curve is read between the ends of steps as well: there the default
// tolerance must hold what it promises too.
func TestLadderCurve(t *testing.T) {
	const n = 200
	var times []float64
	for at := 0.0; at <= 3600; at += 30 {
		times = append(times, at)
	}
	opt := SoakOptions{Start: uniform(n, ladderAir), Until: 3600, Times: times}
	rough := soak(t, newLadder(n, 160, 0.25e-3), opt)
	opt.Tol = 1e-6
	fine := soak(t, newLadder(n, 160, 0.25e-3), opt)
	worst := 0.0
	for k := range times {
		for i, v := range fine.States[k] {
			worst = max(worst, math.Abs(v-rough.States[k][i]))
		}
	}
	if !(worst <= 0.01) {
		t.Errorf("a curve at the default tolerance is off by %.2g K", worst)
	}
	if rough.Stats.Steps > 14 {
		t.Errorf("%d steps for it: wanted times must not rule the steps", rough.Stats.Steps)
	}
}

func TestNoAllocation(t *testing.T) {
	const n = 50
	ctx := context.Background()
	p := newLadder(n, 160, 0.25e-3)
	s := NewSoaker(p)
	var res SoakResult
	// A hundred times the steps must not allocate more: neither must a step.
	for _, tol := range []float64{1, 1e-7} {
		opt := SoakOptions{Tol: tol, Start: uniform(n, ladderAir), Until: 3600, Times: ladderTimes}
		if a := testing.AllocsPerRun(5, func() {
			if err := s.RunInto(ctx, opt, &res); err != nil {
				t.Fatal(err)
			}
		}); a != 0 {
			t.Errorf("soak at %g K: %g allocations", tol, a)
		}
	}
	solver := NewSteadySolver(p)
	var state SteadyResult
	opt := SteadyOptions{Start: uniform(n, ladderAir)}
	if a := testing.AllocsPerRun(5, func() {
		if err := solver.SolveInto(ctx, opt, &state); err != nil {
			t.Fatal(err)
		}
	}); a != 0 {
		t.Errorf("steady: %g allocations", a)
	}

	w := newRungs(4, 10)
	for name, times := range map[string][]float64{"no": nil, "five": ladderTimes} {
		s := NewSoaker(w)
		opt := SoakOptions{Start: w.start(), Until: 3600, Times: times}
		if a := testing.AllocsPerRun(5, func() {
			if err := s.RunInto(ctx, opt, &res); err != nil {
				t.Fatal(err)
			}
		}); a != 0 {
			t.Errorf("soak of branches, %s wanted times: %g allocations", name, a)
		}
	}

	st := Structure{Nodes: 40, Globals: 3}
	for i := range 39 {
		st.Links = append(st.Links, [2]int{i, i + 1})
		if i > 1 {
			st.Links = append(st.Links, [2]int{i, 0})
		}
		st.Links = append(st.Links, [2]int{i, 40 + i%3})
	}
	e, j, c, x := newElimination(newPlan(st)), NewJacobian(st), uniform(40, 1), uniform(43, 1)
	for i := range j.Diag {
		j.Diag[i] = -1
	}
	if a := testing.AllocsPerRun(5, func() {
		e.factor(j, c, 1)
		e.solve(x)
	}); a != 0 {
		t.Errorf("elimination with a hub and globals: %g allocations", a)
	}
}
