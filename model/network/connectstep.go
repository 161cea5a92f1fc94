package network

// This file takes one of Newton's steps to the currents and potentials at given
// temperatures. The current of a branch follows from the potentials at its ends,
//
//	s_I = (s_from − s_to − F)/R,  R = −∂F/∂I
//
// s being what a step takes away and F the branch's residual (19). Put into (21)
// that leaves the junctions with a matrix of conductances, symmetric and as sparse
// as the circuit, and the currents of the draws of power beside it.

import (
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// take stores the step, and reports whether there is one.
func (c *connection) take(x []float64) bool {
	n, nodes := c.n, len(c.n.nodes)
	first := nodes + n.currents() // of the potentials
	m := newConductances(len(x) - first)
	// The columns of right: of the residuals, and of the current of each draw.
	right := make([][]float64, len(x)-first)
	for k := range right {
		right[k] = make([]float64, 1+len(c.power))
		right[k][0] = -c.f[first+k]
	}
	for i := range n.wires {
		w := &n.wires[i]
		ohms := -c.j.Diag[w.at]
		if ohms == 0 {
			return false
		}
		if w.from == w.to {
			continue
		}
		m.join(w.from-first, w.to-first, 1/ohms)
		if w.from >= 0 {
			right[w.from-first][0] += c.f[w.at] / ohms
		}
		if w.to >= 0 {
			right[w.to-first][0] -= c.f[w.at] / ohms
		}
	}
	for k, i := range c.power {
		d := &n.takers[i]
		if d.from >= 0 {
			right[d.from-first][1+k] = 1
		}
		if d.to >= 0 {
			right[d.to-first][1+k] = -1
		}
	}
	if !m.solve(right) {
		return false
	}
	clear(c.step)
	drawn, ok := c.draw(right, first)
	if !ok {
		return false
	}
	for k, i := range c.power {
		c.step[n.takers[i].at-nodes] = drawn[k]
	}
	for k, r := range right {
		v := r[0]
		for i, s := range drawn {
			v -= r[1+i] * s
		}
		c.step[first-nodes+k] = v
	}
	for i := range n.wires {
		w := &n.wires[i]
		c.step[w.at-nodes] = (c.of(w.from) - c.of(w.to) - c.f[w.at]) / -c.j.Diag[w.at]
	}
	return true
}

// of is the step of a potential among the unknowns.
func (c *connection) of(at int) float64 {
	if at < 0 {
		return 0
	}
	return c.step[at-len(c.n.nodes)]
}

// draw gives the steps of the currents of the draws of power, with what each
// column of the right side makes of the potentials.
func (c *connection) draw(potentials [][]float64, first int) (steps []float64, ok bool) {
	p := len(c.power)
	if p == 0 {
		return nil, true
	}
	a := blas64.General{Rows: p, Cols: p, Stride: p, Data: make([]float64, p*p)}
	steps = make([]float64, p)
	for k, i := range c.power {
		d := &c.n.takers[i]
		row := a.Data[k*p:][:p]
		row[k] = c.j.Diag[d.at]
		steps[k] = c.f[d.at]
		for _, end := range [2][2]int{{d.from, d.pairFrom}, {d.to, d.pairTo}} {
			if end[0] < 0 {
				continue
			}
			by, of := c.j.Up[end[1]], potentials[end[0]-first]
			steps[k] -= by * of[0]
			for q := range row {
				row[q] -= by * of[1+q]
			}
		}
	}
	pivots := make([]int, p)
	if !lapack64.Getrf(a, pivots) {
		return nil, false
	}
	lapack64.Getrs(blas.NoTrans, a, blas64.General{Rows: p, Cols: 1, Stride: 1, Data: steps}, pivots)
	return steps, true
}
