package solver

import (
	"context"
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// Gonum's dense LU of the transposed matrix is the judge, on forests, rings,
// hubs, meshes and globals.
func TestTransposedElimination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		st := drawStructure(t)
		e := newElimination(newPlan(st))
		j, c := drawJacobian(t, st)
		e.factor(j, c, 0)
		b := mat.NewVecDense(st.Nodes+st.Globals, nil)
		for i := range b.Len() {
			b.SetVec(i, rapid.Float64Range(-10, 10).Draw(t, "b"))
		}
		var lu mat.LU
		lu.Factorize(dense(st, j, c, 0))
		var want mat.VecDense
		if err := lu.SolveVecTo(&want, true, b); err != nil {
			t.Skip("ill-conditioned draw")
		}
		got := append([]float64(nil), b.RawVector().Data...)
		e.solveTransposed(got)
		for i, v := range got {
			if !(math.Abs(v-want.AtVec(i)) <= 1e-9*(1+mat.Norm(&want, math.Inf(1)))) {
				t.Fatalf("unknown %d is %v, dense LU says %v", i, v, want.AtVec(i))
			}
		}
		// The factors must be as they were.
		straight := append([]float64(nil), b.RawVector().Data...)
		e.solve(straight)
		if err := lu.SolveVecTo(&want, false, b); err != nil {
			t.Skip("ill-conditioned draw")
		}
		for i, v := range straight {
			if !(math.Abs(v-want.AtVec(i)) <= 1e-9*(1+mat.Norm(&want, math.Inf(1)))) {
				t.Fatalf("after a transposed solve unknown %d is %v, dense LU says %v", i, v, want.AtVec(i))
			}
		}
	})
}

// worths asks the adjoint of one node's temperature at the steady state.
func worths(t interface{ Fatal(...any) }, sys System, start []float64, node int) (x, w []float64) {
	s := NewSteadySolver(sys)
	res, err := s.Solve(context.Background(), SteadyOptions{Start: start})
	if err != nil {
		t.Fatal(err)
	}
	w = make([]float64, len(res.X))
	w[node] = 1
	if err := s.Adjoint(0, res.X, w, w); err != nil {
		t.Fatal(err)
	}
	return res.X, w
}

func TestAdjoint(t *testing.T) {
	// Ohm's law of heat: behind conductances h0 and g in a row, a watt in node 0
	// raises node 1 by 1/(h0+…); the two-port's transfer resistance is g over the
	// determinant (h0+g)(h1+g) − g².
	t.Run("two lumps/closed form", func(t *testing.T) {
		p := &lumps{c: []float64{1, 1}, h: []float64{0.3, 0.7}, air: 300, links: [][2]int{{0, 1}}, g: []float64{2},
			sources: []source{given(5), given(0)}, load: 1}
		_, w := worths(t, p, uniform(2, 310), 1)
		det := (0.3+2)*(0.7+2) - 2*2
		for i, want := range []float64{2 / det, (0.3 + 2) / det} {
			if math.Abs(w[i]-want) > 1e-12 {
				t.Errorf("a watt in node %d raises node 1 by %.15g K, closed form %.15g K", i, w[i], want)
			}
		}
	})
	t.Run("any network/each worth is what a watt more does", rapid.MakeCheck(func(t *rapid.T) {
		p := drawLumps(t)
		n := len(p.c)
		node := rapid.IntRange(0, n-1).Draw(t, "output")
		x, w := worths(t, p, uniform(n, p.air), node)
		at := rapid.IntRange(0, n-1).Draw(t, "watt")
		q, _, _, _ := p.sources[at](0, 0, 1)
		p.sources[at] = given(q + 1)
		moved, err := Steady(context.Background(), p, SteadyOptions{Start: uniform(n, p.air)})
		if err != nil {
			t.Fatal(err)
		}
		if got := moved.X[node] - x[node]; math.Abs(got-w[at]) > 1e-6*(1+math.Abs(got)) {
			t.Fatalf("a watt in node %d raises node %d by %.12g K, its worth is %.12g K/W", at, node, got, w[at])
		}
		// No node of a passive network cools when another is heated.
		if floats.Min(w) < 0 {
			t.Fatalf("a worth below zero: %v", w)
		}
	}))
	// A constant power over a resistance: the global takes part.
	t.Run("global/against a central difference", func(t *testing.T) {
		p := &feed{power: 1000, v: 12, r: 2e-3, alpha: 4e-3, h: 0.8, air: 300, c: 100, skin: 3, load: 1}
		start := []float64{320, 315, 85}
		x, w := worths(t, p, start, 0)
		df := make([]float64, 3)
		p.LoadDerivative(0, x, df)
		got := floats.Dot(w, df)
		const step = 1e-4
		end := func(factor float64) float64 {
			q := *p
			q.power *= factor
			res, err := Steady(context.Background(), &q, SteadyOptions{Start: x, Tol: MinSteadyTol})
			if err != nil {
				t.Fatal(err)
			}
			return res.X[0]
		}
		want := (end(1+step) - end(1-step)) / (2 * step)
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("dT/d ln P is %.10g K, by a central difference %.10g K", got, want)
		}
	})
	t.Run("fold/no derivative", func(t *testing.T) {
		// At the fold of a lump with linear R(T) the Jacobian is zero for every T.
		p := lump(1, 0.5, 300, warming(125, 0.004, 300))
		s := NewSteadySolver(p)
		w := []float64{1}
		err := s.Adjoint(0, []float64{400}, w, w)
		var singular *SingularError
		if !errors.As(err, &singular) {
			t.Errorf("got %v, %v", w, err)
		}
	})
	t.Run("input/lengths and numbers", func(t *testing.T) {
		s := NewSteadySolver(lump(1, 0.5, 300, given(1)))
		one, two, none := []float64{1}, []float64{1, 2}, []float64{math.NaN()}
		for name, err := range map[string]error{
			"state": s.Adjoint(0, two, one, one), "output": s.Adjoint(0, one, two, one),
			"result": s.Adjoint(0, one, one, two), "number": s.Adjoint(0, one, none, one),
		} {
			var input *InputError
			if !errors.As(err, &input) {
				t.Errorf("%s: got %v", name, err)
			}
		}
	})
}
