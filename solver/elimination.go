package solver

import (
	"math"
	"slices"
)

// elimination factorises, on a plan, the matrix
//
//	    ⎡ s·C − J_nn   −J_ng ⎤
//	M = ⎣   −J_gn      −J_gg ⎦
//
// of nodes and globals, and solves with it. It exchanges no rows: with
// off-diagonals of J that are not negative the part of the nodes is a Z-matrix,
// whose pivots without exchange are positive exactly where it is an M-matrix
// (Berman & Plemmons, Nonnegative Matrices in the Mathematical Sciences, 1994,
// ch. 6), that is where the state is stable. A weak or negative pivot is
// counted, not hidden. Off-diagonals are kept with the sign of J.
type elimination struct {
	*plan
	d, r, lo, hi []float64 // an unknown each: diagonal, 1/pivot, multipliers to and from the parent
	off          []float64 // the core's off-diagonals, directed
	nearLo       []float64 // the core's multipliers, as near
	nearHi       []float64
	w, rows      [][]float64 // by tie of a piece, of which each has its own nodes: W and C
	short        []float64   // rows of few entries
	top          []float64   // a global each: the largest magnitude of its diagonal
	weak, minus  int
	against      []bool // a global each: its pivot is negative
}

func newElimination(p *plan) *elimination {
	size := p.structure.Nodes + p.structure.Globals
	all := make([]float64, 4*size)
	e := &elimination{
		plan: p,
		d:    all[:size:size], r: all[size : 2*size : 2*size], lo: all[2*size : 3*size : 3*size], hi: all[3*size:],
		off:    make([]float64, 2*p.entries),
		nearLo: make([]float64, len(p.near)), nearHi: make([]float64, len(p.near)),
		w: make([][]float64, p.mostTies), rows: make([][]float64, p.mostTies),
		short: make([]float64, p.shortRows), top: make([]float64, p.structure.Globals), against: make([]bool, p.structure.Globals),
	}
	for k := range e.w {
		e.w[k], e.rows[k] = make([]float64, size), make([]float64, size)
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

// determinantUp says whether det M > 0.
func (e *elimination) determinantUp() bool {
	up := e.minus%2 == 0
	for _, a := range e.against {
		up = up != a
	}
	return up
}

// alike says whether the last factorisation has the signs of a state that lasts:
// positive pivots of all nodes, and those of the globals as they were there.
func (e *elimination) alike(against []bool) bool {
	return e.weak == 0 && e.minus == 0 && slices.Equal(e.against, against)
}

// hold factorises M with some of the nodes held at their temperatures: those
// of weight 1 and not 0.
func (e *elimination) hold(j *Jacobian, weights []float64) {
	e.factor(j, weights, held*(largest(j.Diag)+1))
}

// held is how many times the largest conductance holds a node: more than the
// digits of its temperature could tell from infinity.
const held = 1e20

// factor factorises M for the given Jacobian, capacities of the nodes and s (0
// for a steady state). capacities may be nil where s is 0.
func (e *elimination) factor(j *Jacobian, capacities []float64, s float64) {
	e.weak, e.minus = 0, 0
	n := e.structure.Nodes
	diag, d := j.Diag[:n], e.d[:n]
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
	for i, v := range j.Diag[n:] {
		e.d[n+i], e.top[i] = -v, math.Abs(v)
	}
	e.factorRounds(e.twigs, j)
	if len(e.order) == 0 {
		return
	}
	e.loadCore(j)
	for k := range e.pieces {
		e.factorPiece(&e.pieces[k], j)
	}
	e.factorCore()
}

func (e *elimination) factorRounds(rounds []round, j *Jacobian) {
	for k := range rounds {
		r := &rounds[k]
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

// solve overwrites x, a right-hand side of nodes and globals, by M⁻¹ x.
func (e *elimination) solve(x []float64) {
	e.forward(e.twigs, x)
	if len(e.order) > 0 {
		for k := range e.pieces {
			c := &e.pieces[k]
			e.forward(c.rounds, x)
			e.back(c.rounds, x)
			for t := range c.ties {
				x[c.ties[t].unknown] += e.along(c, t, x)
			}
		}
		e.solveCore(x)
		for k := range e.pieces {
			c := &e.pieces[k]
			for t := range c.ties {
				c.add(x, x[c.ties[t].unknown], e.w[t])
			}
		}
	}
	e.back(e.twigs, x)
}

// forward carries a right-hand side along trees to where they hang.
func (e *elimination) forward(rounds []round, x []float64) {
	for k := range rounds {
		r := &rounds[k]
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
}

// back finds the unknowns of trees, given those on which they hang.
func (e *elimination) back(rounds []round, x []float64) {
	for k := len(rounds) - 1; k >= 0; k-- {
		r := &rounds[k]
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
