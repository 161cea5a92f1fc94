package solver

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// drawStructure makes networks of the shapes that stacks have: forests with
// consecutive runs or scrambled numbers, hubs, rings, meshes, globals.
func drawStructure(t *rapid.T) Structure {
	n := rapid.IntRange(1, 40).Draw(t, "nodes")
	label := rapid.Permutation(identity(n)).Draw(t, "labels")
	if rapid.Bool().Draw(t, "in order") {
		label = identity(n)
	}
	s := Structure{Nodes: n, Globals: rapid.IntRange(0, 3).Draw(t, "globals")}
	seen := map[[2]int]bool{}
	add := func(a, b int) {
		a, b = label[a], label[b]
		if a == b || seen[[2]int{a, b}] || seen[[2]int{b, a}] {
			return
		}
		seen[[2]int{a, b}] = true
		s.Links = append(s.Links, [2]int{a, b})
	}
	branch := rapid.SampledFrom([]int{1, 2, 40}).Draw(t, "reach")
	for i := 1; i < n; i++ {
		if rapid.IntRange(0, 20).Draw(t, "cut") > 0 {
			add(rapid.IntRange(max(0, i-branch), i-1).Draw(t, "hangs on"), i)
		}
	}
	for range rapid.SampledFrom([]int{0, 0, 1, 5, 60}).Draw(t, "cross links") {
		add(rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to"))
	}
	for h := range rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "hubs") {
		for i := range n {
			add(min(h*7, n-1), i)
		}
	}
	for k := range s.Globals {
		reach := rapid.SampledFrom([]int{0, 1, 3, n}).Draw(t, "global's reach")
		for i := range n {
			if reach == n || rapid.IntRange(0, n-1).Draw(t, "touches") < reach {
				s.Links = append(s.Links, [2]int{n + k, i})
			}
		}
		for q := range k {
			if rapid.Bool().Draw(t, "globals touch") {
				s.Links = append(s.Links, [2]int{n + q, n + k})
			}
		}
	}
	return s
}

// withoutGlobals is the network of the nodes alone.
func withoutGlobals(s Structure) Structure {
	r := Structure{Nodes: s.Nodes}
	for _, p := range s.Links {
		if max(p[0], p[1]) < s.Nodes {
			r.Links = append(r.Links, p)
		}
	}
	return r
}

func identity(n int) []int {
	p := make([]int, n)
	for i := range p {
		p[i] = i
	}
	return p
}

// drawJacobian fills a stable, unsymmetric Jacobian; capacities, some zero.
func drawJacobian(t *rapid.T, s Structure) (*Jacobian, []float64) {
	j := NewJacobian(s)
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	for i := range j.Diag {
		j.Diag[i] = -value("loss", 0.1, 2)
		if i >= s.Nodes {
			j.Diag[i] = 40 + value("own", -3, 3)
		}
	}
	for l, pair := range s.Links {
		if max(pair[0], pair[1]) >= s.Nodes {
			j.Up[l], j.Down[l] = value("up", -1, 1), value("down", -1, 1)
			continue
		}
		j.Up[l], j.Down[l] = value("up", 0, 5), value("down", 0, 5)
		j.Diag[pair[0]] -= j.Up[l]
		j.Diag[pair[1]] -= j.Down[l]
	}
	c := make([]float64, s.Nodes)
	for i := range c {
		c[i] = rapid.SampledFrom([]float64{0, 1, 30}).Draw(t, "capacity")
	}
	return j, c
}

// dense writes s·C − J out.
func dense(st Structure, j *Jacobian, c []float64, s float64) *mat.Dense {
	n, m := st.Nodes, st.Globals
	a := mat.NewDense(n+m, n+m, nil)
	for i := range n {
		a.Set(i, i, s*c[i]-j.Diag[i])
	}
	for i := n; i < n+m; i++ {
		a.Set(i, i, -j.Diag[i])
	}
	for l, p := range st.Links {
		a.Set(p[0], p[1], -j.Up[l])
		a.Set(p[1], p[0], -j.Down[l])
	}
	return a
}

// Gonum's dense LU with partial pivoting is the judge of the elimination.
func TestElimination(t *testing.T) {
	t.Run("solution/as dense LU", rapid.MakeCheck(func(t *rapid.T) {
		st := drawStructure(t)
		e := newElimination(newPlan(st))
		for range 2 { // a second factorisation must not remember the first
			j, c := drawJacobian(t, st)
			s := rapid.SampledFrom([]float64{0, 0.3, 100}).Draw(t, "s")
			e.factor(j, c, s)
			a := dense(st, j, c, s)
			b := mat.NewVecDense(st.Nodes+st.Globals, nil)
			for i := range b.Len() {
				b.SetVec(i, rapid.Float64Range(-10, 10).Draw(t, "b"))
			}
			var lu mat.LU
			lu.Factorize(a)
			var want mat.VecDense
			if err := lu.SolveVecTo(&want, false, b); err != nil {
				t.Skip("ill-conditioned draw")
			}
			got := append([]float64(nil), b.RawVector().Data...)
			e.solve(got)
			for i, v := range got {
				if !(math.Abs(v-want.AtVec(i)) <= 1e-9*(1+mat.Norm(&want, math.Inf(1)))) {
					t.Fatalf("unknown %d is %v, dense LU says %v", i, v, want.AtVec(i))
				}
			}
			if up := lu.Det() > 0; up != e.determinantUp() {
				t.Fatalf("determinant positive: %v, dense LU says %v", e.determinantUp(), up)
			}
			if st.Globals == 0 && !e.stable() {
				t.Fatalf("an M-matrix has positive pivots; %d negative, %d weak", e.minus, e.weak)
			}
		}
	}))
	t.Run("pivots/as eigenvalues", rapid.MakeCheck(func(t *rapid.T) {
		st := drawStructure(t)
		st = withoutGlobals(st)
		j, c := drawJacobian(t, st)
		for i := range j.Diag {
			j.Diag[i] += rapid.Float64Range(0, 3).Draw(t, "source")
		}
		e := newElimination(newPlan(st))
		e.factor(j, c, 0)
		var eig mat.Eigen
		if !eig.Factorize(dense(st, j, c, 0), mat.EigenNone) {
			t.Skip("no eigenvalues")
		}
		least := math.Inf(1)
		for _, v := range eig.Values(nil) {
			least = min(least, real(v))
		}
		if math.Abs(least) < 1e-6 {
			t.Skip("at the edge")
		}
		// Berman & Plemmons 1994, ch. 6, theorem 2.3: a Z-matrix is a
		// nonsingular M-matrix where its eigenvalues have positive real parts,
		// and where its pivots are positive.
		if e.stable() != (least > 0) {
			t.Fatalf("stable: %v, least real part %v", e.stable(), least)
		}
	}))
}

func TestPlan(t *testing.T) {
	line := func(n int) Structure {
		s := Structure{Nodes: n}
		for i := range n - 1 {
			s.Links = append(s.Links, [2]int{i, i + 1})
		}
		return s
	}
	t.Run("line/one pair of chains", func(t *testing.T) {
		p := newPlan(line(101))
		if len(p.twigs) != 2 || len(p.twigs[0].pairs) != 1 || len(p.order) != 0 || len(p.pieces) != 0 {
			t.Fatalf("got %d rounds, %d in the core, %d pieces", len(p.twigs), len(p.order), len(p.pieces))
		}
		pair := p.twigs[0].pairs[0]
		if pair[0].length != 50 || pair[1].length != 50 || pair[0].step != -pair[1].step {
			t.Fatalf("two halves from both ends wanted, got %+v", pair)
		}
	})
	t.Run("line with a leaf a node, numbered in turn/chains all the same", func(t *testing.T) {
		s := Structure{Nodes: 202}
		for i := range 101 {
			s.Links = append(s.Links, [2]int{2 * i, 2*i + 1})
			if i < 100 {
				s.Links = append(s.Links, [2]int{2 * i, 2*i + 2})
			}
		}
		p := newPlan(s)
		pairs, longest := 0, 0
		for _, r := range p.twigs {
			for _, pair := range r.pairs {
				pairs++
				longest = max(longest, pair[0].length)
			}
		}
		if longest < 48 || len(p.twigs) > 4 {
			t.Fatalf("%d pairs, longest %d, %d rounds", pairs, longest, len(p.twigs))
		}
	})
	t.Run("hub/last and without fill", func(t *testing.T) {
		s := line(60)
		s.Nodes++
		for i := range 60 {
			s.Links = append(s.Links, [2]int{i, 60})
		}
		p := newPlan(s)
		if len(p.order) != 1 || p.order[0].unknown != 60 || p.entries != 0 || len(p.pieces) != 1 {
			t.Fatalf("core %v, %d entries, %d pieces", p.order, p.entries, len(p.pieces))
		}
	})
	t.Run("ring/cut once", func(t *testing.T) {
		s := line(30)
		s.Links = append(s.Links, [2]int{29, 0})
		if p := newPlan(s); len(p.order) != 1 || len(p.pieces) != 1 {
			t.Fatalf("core %v, %d pieces", p.order, len(p.pieces))
		}
	})
	t.Run("mesh/core by minimum degree", func(t *testing.T) {
		s := Structure{Nodes: 64}
		for i := range 64 {
			if i%8 < 7 {
				s.Links = append(s.Links, [2]int{i, i + 1})
			}
			if i < 56 {
				s.Links = append(s.Links, [2]int{i, i + 8})
			}
		}
		p := newPlan(s)
		if len(p.order) != 64 || len(p.pieces) != 0 {
			t.Fatalf("%d in the core, %d pieces", len(p.order), len(p.pieces))
		}
		// In natural order the whole band fills, 343 entries by count; minimum
		// degree must stay well below.
		if fill := p.entries - len(p.coreLinks); fill > 200 {
			t.Fatalf("fill of %d entries", fill)
		}
	})
}
