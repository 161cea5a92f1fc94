package solver

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
)

// elimination factorises, on a plan, the matrix
//
//	    ⎡ s·C − J_nn   −J_ng ⎤
//	M = ⎣   −J_gn      −J_gg ⎦
//
// of nodes and globals, and solves with it. It exchanges no rows among the
// nodes: with off-diagonals of J that are not negative M is a Z-matrix, whose
// pivots without exchange are positive exactly where it is an M-matrix
// (Berman & Plemmons, Nonnegative Matrices in the Mathematical Sciences, 1994,
// ch. 6), that is where the state is stable. A weak or negative pivot is
// counted, not hidden. Off-diagonals are kept with the sign of J.
//
// The border (hubs h, then globals g) is eliminated last: with W = M_nn⁻¹ J_nb
// the rest is the dense S = M_bb − J_bn W.
type elimination struct {
	*plan
	d, r, lo, hi  []float64 // a node each: diagonal, 1/pivot, multipliers to and from the parent
	off           []float64 // the core's off-diagonals, directed
	nearLo        []float64 // the core's multipliers, as near
	nearHi        []float64
	w             [][]float64 // a border unknown each
	border        int
	s             []float64 // border × border
	tail          blas64.General
	pivots        []int
	y             []float64   // border
	rows          [][]float64 // J_bn, a border unknown each
	weak, minus   int
	determinantUp bool // det M > 0
}

func newElimination(p *plan) *elimination {
	n, b := p.structure.Nodes, len(p.hubs)+p.structure.Globals
	e := &elimination{
		plan: p,
		d:    make([]float64, n), r: make([]float64, n), lo: make([]float64, n), hi: make([]float64, n),
		off:    make([]float64, 2*p.entries),
		nearLo: make([]float64, len(p.near)), nearHi: make([]float64, len(p.near)),
		w: make([][]float64, b), border: b,
		s: make([]float64, b*b), y: make([]float64, b), pivots: make([]int, p.structure.Globals),
	}
	for k := range e.w {
		e.w[k] = make([]float64, n)
	}
	e.rows = make([][]float64, b)
	for k := range e.rows {
		e.rows[k] = make([]float64, n)
	}
	if h, m := len(p.hubs), p.structure.Globals; m > 0 {
		e.tail = blas64.General{Rows: m, Cols: m, Stride: b, Data: e.s[h*b+h:]}
	}
	return e
}

// weakPivot counts a pivot that is negative, or out of all proportion to the
// diagonal: too small, or grown so large that the diagonal is lost in it.
func (e *elimination) weakPivot(p, d float64) {
	if p < 0 {
		e.minus++
	}
	small, large := pivotFloor*math.Abs(d), math.Abs(d)
	if !(math.Abs(p) > small) || pivotFloor*math.Abs(p) > large {
		e.weak++
	}
}

// sound says whether the last factorisation can be solved with.
func (e *elimination) sound() bool { return e.weak == 0 }

// stable says whether all pivots of the nodes were positive.
func (e *elimination) stable() bool { return e.weak == 0 && e.minus == 0 }

// factor factorises M for the given Jacobian, capacities and s (0 for a
// steady state). capacities may be nil where s is 0.
func (e *elimination) factor(j *Jacobian, capacities []float64, s float64) {
	e.weak, e.minus = 0, 0
	diag, d := j.Diag, e.d
	diag = diag[:len(d)]
	if s == 0 {
		for i, v := range diag {
			d[i] = -v
		}
	} else {
		capacities = capacities[:len(d)]
		for i, v := range diag {
			d[i] = s*capacities[i] - v
		}
	}
	for k := range e.rounds {
		r := &e.rounds[k]
		for q := range r.pairs {
			e.factorPair(&r.pairs[q][0], &r.pairs[q][1], j)
		}
		for q := range r.solos {
			c := &r.solos[q]
			e.take(c.parent, e.factorChain(c, j, 0, 0))
		}
		for q := range r.leaves {
			e.factorLeaf(&r.leaves[q], j)
		}
	}
	if len(e.core) > 0 {
		e.factorCore(j)
	}
	e.determinantUp = e.minus%2 == 0
	if e.border > 0 {
		e.factorBorder(j)
	}
}

func (e *elimination) factorLeaf(f *leaf, j *Jacobian) {
	i := f.node
	p := e.d[i]
	// Nothing was measured against an untouched diagonal but its sign.
	if !(p > 0) {
		e.weakPivot(p, p)
	}
	x := 1 / p
	e.r[i] = x
	if f.parent < 0 {
		return
	}
	a, b := j.Up[f.link], j.Down[f.link]
	if f.turned {
		a, b = b, a
	}
	e.lo[i], e.hi[i] = b*x, a*x
	e.take(f.parent, a*b*x)
}

// take subtracts what an eliminated neighbour leaves on q's diagonal.
func (e *elimination) take(q int, v float64) {
	before := e.d[q]
	e.d[q] = before - v
	if !(e.d[q] > pivotFloor*before) {
		e.weakDiagonal(e.d[q], before)
	}
}

// weakDiagonal notes a diagonal of which too little is left to count on; its
// sign is judged when it is a pivot.
func (e *elimination) weakDiagonal(after, before float64) {
	if !(math.Abs(after) > pivotFloor*math.Abs(before)) {
		e.weak++
	}
}

func (e *elimination) factorCore(j *Jacobian) {
	for k := range e.off {
		e.off[k] = 0
	}
	for _, c := range e.coreLinks {
		e.off[2*c[1]], e.off[2*c[1]+1] = j.Up[c[0]], j.Down[c[0]]
	}
	for k := range e.core {
		c := &e.core[k]
		p := e.d[c.node]
		if !(p > 0) {
			e.weakPivot(p, p)
		}
		x := 1 / p
		e.r[c.node] = x
		near, at := e.near[c.from:c.to], e.nearAt[c.from:c.to]
		lo, hi := e.nearLo[c.from:c.to], e.nearHi[c.from:c.to]
		t := c.pairs
		for a, q := range near {
			out, in := e.off[at[a]], e.off[at[a]^1]
			lo[a], hi[a] = in*x, out*x
			e.take(q, in*out*x)
		}
		for a := range near {
			for b := a + 1; b < len(near); b++ {
				e.off[e.targets[t]] += lo[a] * e.off[at[b]]
				e.off[e.targets[t]^1] += lo[b] * e.off[at[a]]
				t++
			}
		}
	}
}

// solveNodes solves with the nodes outside the border; x is not touched at hubs.
func (e *elimination) solveNodes(x []float64) {
	for k := range e.rounds {
		r := &e.rounds[k]
		for q := range r.pairs {
			e.forwardPair(&r.pairs[q][0], &r.pairs[q][1], x)
		}
		for q := range r.solos {
			c := &r.solos[q]
			x[c.parent] += e.forwardChain(c, x, 0, 0)
		}
		for q := range r.leaves {
			if f := &r.leaves[q]; f.parent >= 0 {
				x[f.parent] += e.lo[f.node] * x[f.node]
			}
		}
	}
	for k := range e.core {
		c := &e.core[k]
		v := x[c.node]
		lo := e.nearLo[c.from:c.to]
		for a, q := range e.near[c.from:c.to] {
			x[q] += lo[a] * v
		}
	}
	for k := len(e.core) - 1; k >= 0; k-- {
		c := &e.core[k]
		v := x[c.node] * e.r[c.node]
		hi := e.nearHi[c.from:c.to]
		for a, q := range e.near[c.from:c.to] {
			v += hi[a] * x[q]
		}
		x[c.node] = v
	}
	for k := len(e.rounds) - 1; k >= 0; k-- {
		r := &e.rounds[k]
		for q := range r.leaves {
			f := &r.leaves[q]
			v := x[f.node] * e.r[f.node]
			if f.parent >= 0 {
				v += e.hi[f.node] * x[f.parent]
			}
			x[f.node] = v
		}
		for q := range r.solos {
			c := &r.solos[q]
			e.backChain(c, x, 0, x[c.parent])
		}
		for q := range r.pairs {
			e.backPair(&r.pairs[q][0], &r.pairs[q][1], x)
		}
	}
}
