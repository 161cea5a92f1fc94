package solver

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// circuit is a drawn structure of branches, each a run of cells that carries one
// current, between junctions of one potential each, of which junction 0 is earth;
// some branches end in the same lump, some share the air of a box, and a constant
// power may be drawn between two junctions.
type circuit struct {
	st       Structure
	branches []wire
	power    int // unknown that is its current, −1 for none
	from, to int // junctions between which it is drawn
	first    int // potential of junction 1
}

type wire struct {
	from, to, current int
	cells             []int
	touching          []int // links of the cells with the current
	plus, minus       int   // links of the current with the potentials of from and to, −1 at earth
}

func drawCircuit(t *rapid.T) circuit {
	var c circuit
	link := func(a, b int) int {
		c.st.Links = append(c.st.Links, [2]int{a, b})
		return len(c.st.Links) - 1
	}
	junctions := rapid.IntRange(1, 6).Draw(t, "junctions")
	lumps := rapid.Bool().Draw(t, "junctions are lumps")
	if lumps {
		c.st.Nodes = junctions
	}
	for k := range rapid.IntRange(max(1, junctions-1), 12).Draw(t, "branches") {
		w := wire{from: rapid.IntRange(0, junctions-1).Draw(t, "from"), to: rapid.IntRange(0, junctions-1).Draw(t, "to")}
		if k+1 < junctions { // all hang together
			w.from, w.to = k+1, rapid.IntRange(0, k).Draw(t, "joined to")
		}
		for i := range rapid.SampledFrom([]int{0, 1, 3, 12, 30}).Draw(t, "cells") {
			n := c.st.Nodes
			c.st.Nodes++
			w.cells = append(w.cells, n)
			switch {
			case i > 0:
				link(n-1, n)
			case lumps:
				link(w.from, n)
			}
		}
		if n := len(w.cells); n > 0 && lumps && rapid.Bool().Draw(t, "joined at both ends") && (n > 1 || w.from != w.to) {
			link(w.cells[n-1], w.to)
		}
		c.branches = append(c.branches, w)
	}
	cells := c.st.Nodes
	for range rapid.IntRange(0, 2).Draw(t, "airs and walls") {
		air := c.st.Nodes
		c.st.Nodes++
		for i := range cells {
			if rapid.IntRange(0, 9).Draw(t, "outside") > 0 {
				link(air, i)
			}
		}
	}
	if c.st.Nodes == 0 {
		c.st.Nodes = 1
	}
	next := c.st.Nodes
	for k := range c.branches {
		c.branches[k].current = next
		for _, i := range c.branches[k].cells {
			c.branches[k].touching = append(c.branches[k].touching, link(next, i))
		}
		next++
	}
	c.power = -1
	if junctions > 1 && rapid.Bool().Draw(t, "power") {
		c.power, c.from, c.to = next, rapid.IntRange(1, junctions-1).Draw(t, "drawn at"), 0
		next++
	}
	c.first = next
	next += junctions - 1
	for k := range c.branches {
		w := &c.branches[k]
		w.plus, w.minus = -1, -1
		if w.from == w.to {
			continue
		}
		if w.from > 0 {
			w.plus = link(w.current, c.first+w.from-1)
		}
		if w.to > 0 {
			w.minus = link(w.current, c.first+w.to-1)
		}
	}
	if c.power >= 0 {
		link(c.power, c.first+c.from-1)
	}
	c.st.Globals = next - c.st.Nodes
	return c
}

// draw fills a Jacobian as it is near an operating point: currents of any size
// and sign, resistances over four decades, potentials without a diagonal.
func (c *circuit) draw(t *rapid.T) *Jacobian {
	j := NewJacobian(c.st)
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	for i := range c.st.Nodes {
		j.Diag[i] = -value("loss", 0.1, 2)
	}
	for l, p := range c.st.Links {
		if max(p[0], p[1]) < c.st.Nodes {
			j.Up[l], j.Down[l] = value("up", 0.01, 5), value("down", 0.01, 5)
			j.Diag[p[0]] -= j.Up[l]
			j.Diag[p[1]] -= j.Down[l]
		}
	}
	for _, w := range c.branches {
		current := value("current", -300, 300)
		outside := math.Pow(10, value("ohms outside, decades", -5, -1))
		j.Diag[w.current] = -outside
		for _, l := range w.touching {
			r := math.Pow(10, value("ohms of a cell, decades", -7, -4))
			j.Diag[w.current] -= r
			j.Up[l], j.Down[l] = -0.004*r*current, 2*r*current
		}
		if w.plus >= 0 {
			j.Up[w.plus], j.Down[w.plus] = 1, -1
		}
		if w.minus >= 0 {
			j.Up[w.minus], j.Down[w.minus] = -1, 1
		}
	}
	if c.power >= 0 {
		volts := value("volts", 8, 60)
		l := len(j.Up) - 1
		j.Diag[c.power] = -volts
		j.Up[l], j.Down[l] = -value("current of the power", 0, 50), -1
	}
	return j
}

// Gonum's dense LU, with its exchange of rows, is the judge, straight and
// transposed.
func TestEliminationOfCircuits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCircuit(t)
		if err := checkStructure(c.st); err != nil {
			t.Fatal(err)
		}
		e := newElimination(newPlan(c.st))
		capacities := make([]float64, c.st.Nodes)
		for i := range capacities {
			capacities[i] = rapid.SampledFrom([]float64{0, 1, 300}).Draw(t, "capacity")
		}
		for range 2 {
			j := c.draw(t)
			s := rapid.SampledFrom([]float64{0, 0.01, 10}).Draw(t, "s")
			e.factor(j, capacities, s)
			a := dense(c.st, j, capacities, s)
			var lu mat.LU
			lu.Factorize(a)
			if lu.Cond() > 1e10 {
				t.Skip("ill-conditioned draw")
			}
			if !e.sound() {
				t.Fatalf("%d weak pivots in a matrix of condition %.3g", e.weak, lu.Cond())
			}
			if up := lu.Det() > 0; up != e.determinantUp() {
				t.Fatalf("determinant positive: %v, dense LU says %v", e.determinantUp(), up)
			}
			b := mat.NewVecDense(c.st.Nodes+c.st.Globals, nil)
			for i := range b.Len() {
				b.SetVec(i, rapid.Float64Range(-10, 10).Draw(t, "b"))
			}
			for _, transposed := range []bool{false, true} {
				var want mat.VecDense
				if err := lu.SolveVecTo(&want, transposed, b); err != nil {
					t.Skip("ill-conditioned draw")
				}
				got := append([]float64(nil), b.RawVector().Data...)
				if transposed {
					e.solveTransposed(got)
				} else {
					e.solve(got)
				}
				// Without exchange of rows a current's pivot is its ohms, 1e-5 at
				// least beside the 1 of a potential: five digits fewer.
				tol := max(1e-14*lu.Cond(), 1e-10) * mat.Norm(&want, math.Inf(1))
				for i, v := range got {
					if !(math.Abs(v-want.AtVec(i)) <= tol+1e-12) {
						t.Fatalf("transposed %v: unknown %d is %v, dense LU says %v, condition %.3g", transposed, i, v, want.AtVec(i), lu.Cond())
					}
				}
			}
		}
	})
}
