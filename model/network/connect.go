package network

// This file solves the electrical side alone, at given temperatures: a guess for
// the solver, which solves both together.

import (
	"fmt"
	"math"
	"slices"
)

// CircuitError says why a circuit has no currents at given temperatures. Item is
// the name of the draw or branch where that shows, "" where it is the whole.
type CircuitError struct {
	Item   string
	Reason string
	// Power says that the circuit has currents, and none that give the power that
	// is drawn.
	Power bool
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
	// refined is the number of steps after which junctions, whose currents each step
	// corrects, are as exact as they get.
	refined = 4
	// lostVolts is the drop, relative to the largest voltage, that is lost in
	// rounding the difference of two: a few times 2⁻⁵³.
	lostVolts = 1e-15
)

// Connect fills in the currents and potentials of a state from its temperatures,
// which it leaves as they are, at time t. They are exact there. Where a draw of
// power finds no current, since no state near by gives so much, the answer is
// a *CircuitError with Power set, and those of the circuit without draws of power
// are filled in, from which a solver can seek the most power that has a state. With
// any other error the state stays as it was.
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
		j:    &Jacobian{Diag: make([]float64, size), Up: make([]float64, len(n.pairs)), Down: make([]float64, len(n.pairs))},
		step: make([]float64, n.globals),
	}
	before := slices.Clone(x[nodes:])
	clear(x[nodes:])
	if why := c.settle(t, x); why != nil {
		copy(x[nodes:], before)
		return why
	}
	for i := range n.takers {
		if n.takers[i].at >= 0 {
			c.power = append(c.power, i)
		}
	}
	if len(c.power) == 0 {
		return nil
	}
	rest := slices.Clone(x[nodes:])
	if why := c.settle(t, x); why != nil {
		copy(x[nodes:], rest)
		why.Power = true
		return why
	}
	return nil
}

// A connection is the workspace of Connect.
type connection struct {
	n     *Network
	f     []float64
	j     *Jacobian
	step  []float64 // of the currents and potentials
	power []int     // the draws of power, by DrawID; while empty they take nothing
}

// settle takes Newton's steps.
func (c *connection) settle(t float64, x []float64) *CircuitError {
	n, nodes := c.n, len(c.n.nodes)
	for k := range connectSteps {
		clear(c.f)
		n.circulateSlope(t, x, c.f, c.j) // what it adds for the nodes is not read
		if !c.take(x) {
			return &CircuitError{Reason: "has no currents, or more than one set of them"}
		}
		for k, v := range c.step {
			x[nodes+k] -= v
		}
		size, why := c.reach(x, k >= refined)
		if why != nil {
			return why
		}
		if size <= connected {
			if c.rests(t, x) {
				clear(x[nodes:][:n.currents()])
			}
			return c.givesPower(x)
		}
	}
	return &CircuitError{Reason: "gives less power than is drawn at these temperatures"}
}

// reach is the last step against the largest current and voltage. Of the current
// of a branch only that counts, late, whose drop is not lost in rounding the
// voltages: where nothing flows there is nothing else.
func (c *connection) reach(x []float64, late bool) (size float64, why *CircuitError) {
	n, nodes := c.n, len(c.n.nodes)
	currents := n.currents()
	var most, step [2]float64 // of currents and potentials
	for k, s := range c.step {
		of := 0
		if k >= currents {
			of = 1
		}
		if !finite(x[nodes+k]) {
			return 0, &CircuitError{Reason: "has currents without bound"}
		}
		most[of] = max(most[of], math.Abs(x[nodes+k]))
		if k >= len(n.wires) {
			step[of] = max(step[of], math.Abs(s))
		}
	}
	volts := c.volts(x)
	for i := range n.wires {
		w := &n.wires[i]
		if s := math.Abs(c.step[w.at-nodes]); !late || math.Abs(s*c.j.Diag[w.at]) > lostVolts*volts {
			step[0] = max(step[0], s)
		}
	}
	for of, s := range step {
		if s > 0 {
			size = max(size, s/max(most[of], s))
		}
	}
	return size, nil
}

// rests reports whether nothing is drawn and all currents are what rounding the
// voltages leaves of none.
func (c *connection) rests(t float64, x []float64) bool {
	n := c.n
	for i := range n.takers {
		d := &n.takers[i]
		if d.at < 0 && n.load*n.drawn(i).Current(t) != 0 || d.at >= 0 && x[d.at] != 0 {
			return false
		}
	}
	volts := c.volts(x)
	for i := range n.wires {
		if at := n.wires[i].at; math.Abs(x[at]*c.j.Diag[at]) > lostVolts*volts {
			return false
		}
	}
	return true
}

// volts is the largest voltage of a state.
func (c *connection) volts(x []float64) float64 {
	most := 0.0
	for _, v := range x[len(c.n.nodes)+c.n.currents():] {
		most = max(most, math.Abs(v))
	}
	for i := range c.n.wires {
		most = max(most, math.Abs(c.n.wires[i].emf))
	}
	return most
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
func (c *connection) givesPower(x []float64) *CircuitError {
	for _, i := range c.power {
		d := &c.n.takers[i]
		if x[d.at] != 0 && (potential(x, d.from)-potential(x, d.to))*x[d.at] < 0 {
			return &CircuitError{Item: c.n.draws[i].Name, Reason: "gives no power"}
		}
	}
	return nil
}
