package network

// This file solves for potentials: a symmetric sparse matrix, of which the
// junction with the fewest neighbours is eliminated first (minimum degree: Tinney
// and Walker 1967, Proc. IEEE 55, 1801, scheme 2; from memory). Conductances above 0
// need no exchange of rows.

import (
	"maps"
	"slices"
)

// conductances are a matrix of conductances, A/V, between junctions of which one
// without a number is at 0 V.
type conductances struct {
	diag []float64
	near []map[int]float64 // by junction: what joins it to others, with their sign in the matrix
}

func newConductances(n int) *conductances {
	c := &conductances{make([]float64, n), make([]map[int]float64, n)}
	for i := range c.near {
		c.near[i] = map[int]float64{}
	}
	return c
}

// join puts a conductance between two junctions, of which one may be below 0: at
// 0 V.
func (c *conductances) join(a, b int, by float64) {
	if a >= 0 {
		c.diag[a] += by
	}
	if b >= 0 {
		c.diag[b] += by
	}
	if a >= 0 && b >= 0 {
		c.near[a][b] -= by
		c.near[b][a] -= by
	}
}

// eliminated is a junction that was worked out of the rows of others.
type eliminated struct {
	at   int
	near []int
	by   []float64 // of its row over the diagonal
}

// solve replaces the rows of right, one for each junction, by the potentials that
// each column of them makes. It uses the matrix up, and reports whether there was
// an answer.
func (c *conductances) solve(right [][]float64) bool {
	waiting := make([][]int, len(c.diag)+1) // by number of neighbours; those that have another by now are passed over
	for i, near := range c.near {
		waiting[len(near)] = append(waiting[len(near)], i)
	}
	done := make([]bool, len(c.diag))
	var order []eliminated
	for k := 0; k < len(waiting); {
		last := len(waiting[k]) - 1
		if last < 0 {
			k++
			continue
		}
		i := waiting[k][last]
		waiting[k] = waiting[k][:last]
		if done[i] || len(c.near[i]) != k {
			continue
		}
		done[i] = true
		e, ok := c.eliminate(i, right)
		if !ok {
			return false
		}
		order = append(order, e)
		for _, a := range e.near {
			d := len(c.near[a])
			waiting[d] = append(waiting[d], a)
			k = min(k, d)
		}
	}
	for _, e := range slices.Backward(order) {
		row := right[e.at]
		for m, a := range e.near {
			for k, v := range right[a] {
				row[k] -= e.by[m] * v
			}
		}
	}
	return true
}

// eliminate works a junction out of the rows of its neighbours.
func (c *conductances) eliminate(i int, right [][]float64) (e eliminated, ok bool) {
	if c.diag[i] == 0 {
		return e, false
	}
	e = eliminated{at: i, near: slices.Sorted(maps.Keys(c.near[i]))}
	for k := range right[i] {
		right[i][k] /= c.diag[i]
	}
	for _, a := range e.near {
		e.by = append(e.by, c.near[i][a]/c.diag[i])
	}
	for m, a := range e.near {
		to := c.near[i][a]
		delete(c.near[a], i)
		c.diag[a] -= to * e.by[m]
		for k, v := range right[i] {
			right[a][k] -= to * v
		}
		for q, b := range e.near[:m] {
			by := to * e.by[q]
			c.near[a][b] -= by
			c.near[b][a] -= by
		}
	}
	return e, true
}
