package network

// This file solves the electrical side alone, at given temperatures: a guess for
// the solver, which solves both together.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// CircuitError says why a circuit has no currents at given temperatures. Item is
// the name of the draw or branch where that shows, "" where it is the whole.
type CircuitError struct {
	Item   string
	Reason string
}

func (e *CircuitError) Error() string {
	if e.Item == "" {
		return "the circuit " + e.Reason
	}
	return fmt.Sprintf("the circuit at %s %s", e.Item, e.Reason)
}

const (
	// connectSteps bounds Newton's steps; near the most power that a source can
	// give each only halves the error.
	connectSteps = 60
	// connected is the last step, relative to the largest current and voltage, at
	// which the next is lost in rounding.
	connected = 1e-9
)

// Connect fills in the currents and potentials of a state from its temperatures,
// which it leaves as they are, at time t. They are exact there. Where a draw of
// power finds no current, since no state near by gives so much, the answer is
// a *CircuitError and those of the circuit without draws of power are filled in,
// from which a solver can seek the most power that has a state.
func (n *Network) Connect(t float64, x []float64) error {
	if err := n.Ready(); err != nil {
		return err
	}
	if n.globals == 0 {
		return nil
	}
	size, nodes := n.Unknowns(), len(n.nodes)
	if len(x) != size {
		return &CircuitError{Reason: fmt.Sprintf("has %d unknowns with its nodes, and the state holds %d", size, len(x))}
	}
	c := connection{
		n: n, f: make([]float64, size),
		j:      &Jacobian{Diag: make([]float64, size), Up: make([]float64, len(n.pairs)), Down: make([]float64, len(n.pairs))},
		a:      blas64.General{Rows: n.globals, Cols: n.globals, Stride: n.globals, Data: make([]float64, n.globals*n.globals)},
		pivots: make([]int, n.globals),
		step:   make([]float64, n.globals),
	}
	clear(x[nodes:])
	if err := c.settle(t, x, false); err != nil {
		return err
	}
	rest := append([]float64(nil), x[nodes:]...)
	for i := range n.takers {
		if n.takers[i].at < 0 {
			continue
		}
		if err := c.settle(t, x, true); err != nil {
			copy(x[nodes:], rest)
			return err
		}
		break
	}
	return nil
}

// A connection is the workspace of Connect.
type connection struct {
	n      *Network
	f      []float64
	j      *Jacobian
	a      blas64.General
	pivots []int
	step   []float64
}

// settle takes Newton's steps. Without power the draws of it take nothing.
func (c *connection) settle(t float64, x []float64, power bool) error {
	n, nodes := c.n, len(c.n.nodes)
	for range connectSteps {
		clear(c.f)
		n.circulateSlope(t, x, c.f, c.j) // what it adds for the nodes is not read
		c.fill(x, power)
		if !lapack64.Getrf(c.a, c.pivots) {
			return &CircuitError{Reason: "has no currents, or more than one set of them"}
		}
		lapack64.Getrs(blas.NoTrans, c.a, blas64.General{Rows: n.globals, Cols: 1, Stride: 1, Data: c.step}, c.pivots)
		for k, v := range c.step {
			x[nodes+k] -= v
		}
		size, err := c.reach(x)
		if err != nil {
			return err
		}
		if size <= connected {
			return n.givesPower(x, power)
		}
	}
	return &CircuitError{Reason: "gives less power than is drawn at these temperatures"}
}

// fill stores the derivatives of the residuals by currents and potentials in a,
// and the residuals in step.
func (c *connection) fill(x []float64, power bool) {
	n, nodes := c.n, len(c.n.nodes)
	clear(c.a.Data)
	set := func(i, k int, v float64) { c.a.Data[i*c.a.Stride+k] = v }
	for k := range n.globals {
		set(k, k, c.j.Diag[nodes+k])
		c.step[k] = c.f[nodes+k]
	}
	for k := len(n.fixed); k < len(n.pairs); k++ {
		p := n.pairs[k]
		if p[0] >= nodes {
			set(p[0]-nodes, p[1]-nodes, c.j.Up[k])
			set(p[1]-nodes, p[0]-nodes, c.j.Down[k])
		}
	}
	if power {
		return
	}
	for i := range n.takers {
		at := n.takers[i].at
		if at < 0 {
			continue
		}
		for k := range n.globals {
			set(at-nodes, k, 0)
		}
		set(at-nodes, at-nodes, 1)
		c.step[at-nodes] = x[at]
	}
}

// reach is the last step against the largest current and voltage.
func (c *connection) reach(x []float64) (size float64, err error) {
	n, nodes := c.n, len(c.n.nodes)
	currents := n.currents()
	for _, of := range [2][2]int{{0, currents}, {currents, n.globals}} {
		most, step := 0.0, 0.0
		for k := of[0]; k < of[1]; k++ {
			if !finite(x[nodes+k]) {
				return 0, &CircuitError{Reason: "has currents without bound"}
			}
			most, step = max(most, math.Abs(x[nodes+k])), max(step, math.Abs(c.step[k]))
		}
		if step > 0 {
			size = max(size, step/max(most, step))
		}
	}
	return size, nil
}

// currents is the number of unknowns that are currents; potentials follow.
func (n *Network) currents() int {
	count := len(n.branches)
	for i := range n.takers {
		if n.takers[i].at >= 0 {
			count++
		}
	}
	return count
}

// givesPower refuses a solution in which a draw of power stands on a voltage that
// is not above 0: it solves the equation, and nothing would run on it.
func (n *Network) givesPower(x []float64, power bool) error {
	if !power {
		return nil
	}
	for i := range n.takers {
		d := &n.takers[i]
		if d.at >= 0 && x[d.at] != 0 && (potential(x, d.from)-potential(x, d.to))*x[d.at] < 0 {
			return &CircuitError{Item: n.draws[i].Name, Reason: "gives no power"}
		}
	}
	return nil
}
