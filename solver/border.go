package solver

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// The dense end of the elimination: a few hubs and globals that come after all
// other nodes.

// factorBorder makes S and eliminates it: hubs without exchange of rows, since
// their pivots tell of stability, globals with it.
func (e *elimination) factorBorder(j *Jacobian) {
	h, b := len(e.hubs), e.border
	e.loadBorder(j)
	for k := range b {
		w := e.w[k]
		e.solveNodes(w)
		clear(e.y)
		e.addRows(w)
		for i, v := range e.y {
			e.s[i*b+k] -= v
		}
	}
	for k := range h {
		p, d := e.s[k*b+k], e.d[e.hubs[k]]
		if !(p > pivotFloor*math.Abs(d)) {
			e.weakPivot(p, d)
			if p < 0 {
				e.determinantUp = !e.determinantUp
			}
		}
		for i := k + 1; i < b; i++ {
			f := e.s[i*b+k] / p
			e.s[i*b+k] = f
			for q := k + 1; q < b; q++ {
				e.s[i*b+q] -= f * e.s[k*b+q]
			}
		}
	}
	if m := e.structure.Globals; m == 1 {
		v := e.s[b*b-1]
		if v == 0 || v-v != 0 {
			e.weak++
		}
		if v < 0 {
			e.determinantUp = !e.determinantUp
		}
	} else if m > 1 {
		e.factorTail(m)
	}
}

// loadBorder stores J_nb in w and M_bb in s.
func (e *elimination) loadBorder(j *Jacobian) {
	h, b, m := len(e.hubs), e.border, e.structure.Globals
	clear(e.s)
	for k, i := range e.hubs {
		w, row := e.w[k], e.rows[k]
		clear(w)
		e.s[k*b+k] = e.d[i]
		scatter(w, row, j.Up, j.Down, &e.stars[k][0])
		scatter(w, row, j.Down, j.Up, &e.stars[k][1])
	}
	for _, l := range e.hubHub {
		p, q := e.hubAt[e.structure.Links[l][0]], e.hubAt[e.structure.Links[l][1]]
		e.s[p*b+q], e.s[q*b+p] = -j.Up[l], -j.Down[l]
	}
	for g := range m {
		w := e.w[h+g]
		copy(w, j.Cols[g])
		copy(e.rows[h+g], j.Rows[g])
		for k, i := range e.hubs {
			e.s[k*b+h+g] = -w[i]
			e.s[(h+g)*b+k] = -j.Rows[g][i]
			w[i] = 0
		}
		for q := range m {
			e.s[(h+g)*b+h+q] = -j.Corner[g*m+q]
		}
	}
}

func scatter(w, row, to, from []float64, s *star) {
	nodes := s.nodes[:len(s.links)]
	row, from = row[:len(w)], from[:len(to)]
	for q, l := range s.links {
		i := nodes[q]
		w[i], row[i] = to[l], from[l]
	}
}

// addRows adds J_bn x to e.y; x is zero at the hubs.
func (e *elimination) addRows(x []float64) {
	for k, row := range e.rows {
		e.y[k] += floats.Dot(row, x)
	}
}

func (e *elimination) factorTail(m int) {
	if !lapack64.Getrf(e.tail, e.pivots) {
		e.weak++
	}
	for k := range m {
		v := e.tail.Data[k*e.tail.Stride+k]
		if v-v != 0 {
			e.weak++
		}
		if v < 0 {
			e.determinantUp = !e.determinantUp
		}
		if e.pivots[k] != k {
			e.determinantUp = !e.determinantUp
		}
	}
}

// solveBorder finds the unknowns of the border from e.y, in place.
func (e *elimination) solveBorder() {
	h, b, m := len(e.hubs), e.border, e.structure.Globals
	y := e.y
	for k := range h {
		for i := k + 1; i < b; i++ {
			y[i] -= e.s[i*b+k] * y[k]
		}
	}
	switch {
	case m == 1:
		y[b-1] /= e.s[b*b-1]
	case m > 1:
		lapack64.Getrs(blas.NoTrans, e.tail, blas64.General{Rows: m, Cols: 1, Stride: 1, Data: y[h:]}, e.pivots)
	}
	for k := h - 1; k >= 0; k-- {
		v := y[k]
		for q := k + 1; q < b; q++ {
			v -= e.s[k*b+q] * y[q]
		}
		y[k] = v / e.s[k*b+k]
	}
}

// solve overwrites x, a right-hand side of nodes and globals, by M⁻¹ x.
func (e *elimination) solve(x []float64) {
	n := len(e.d)
	if e.border == 0 {
		e.solveNodes(x[:n])
		return
	}
	nodes, h := x[:n], len(e.hubs)
	for k, i := range e.hubs {
		e.y[k] = x[i]
		x[i] = 0
	}
	copy(e.y[h:], x[n:])
	e.solveNodes(nodes)
	e.addRows(nodes)
	e.solveBorder()
	for k, w := range e.w {
		floats.AddScaled(nodes, e.y[k], w)
	}
	for k, i := range e.hubs {
		x[i] = e.y[k]
	}
	copy(x[n:], e.y[h:])
}
