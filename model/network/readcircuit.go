package network

// This file reads the electrical side back out of a state.

import "math"

// BranchReading is what a branch does at a state.
type BranchReading struct {
	Current float64 // A, the mean, positive from the branch's From to its To
	Ohm     float64 // Ω, of all its resistors, hot, and of what lies outside the network
	Drop    float64 // V, over these, with the current's sign; the branch's own voltage is not in it
}

// ReadBranch reads a branch at the state x of time t.
func (n *Network) ReadBranch(id BranchID, t float64, x []float64) BranchReading {
	w := &n.wires[id-1]
	out := BranchReading{Current: x[w.at], Ohm: w.ohms}
	for _, r := range n.carriers[id-1] {
		out.Ohm += n.ReadResistor(r, t, x).Ohm
	}
	out.Drop = out.Current * out.Ohm
	return out
}

// DrawReading is what a draw does at a state.
type DrawReading struct {
	Current float64 // A, the mean, out of the network at the draw's From
	Voltage float64 // V, of From over To
	Power   float64 // W
}

// ReadDraw reads a draw at the state x of time t.
func (n *Network) ReadDraw(id DrawID, t float64, x []float64) DrawReading {
	d := &n.takers[id]
	out := DrawReading{Voltage: potential(x, d.from) - potential(x, d.to)}
	if d.at >= 0 {
		out.Current = x[d.at]
	} else {
		out.Current = n.load * n.drawn(int(id)).Current(t)
	}
	out.Power = out.Voltage * out.Current
	return out
}

// Potential is that of a junction, V, over the first junction of those that hang
// together with it.
func (n *Network) Potential(j JunctionID, x []float64) float64 {
	return potential(x, n.potentials[j])
}

// Kirchhoff is the largest residual of eqs. (19) to (21) at the state x of time t:
// those of junctions against the largest current, those of branches against the
// largest voltage, those of draws of power against the product of both or the
// largest power drawn. Voltages of batteries count among the voltages, so that the
// residual of a loop is told against these and not against the drops in it, which
// may be far smaller. It is 0 in a network without branches, and +Inf for a state
// whose residuals are no numbers.
func (n *Network) Kirchhoff(t float64, x []float64) float64 {
	if n.globals == 0 {
		return 0
	}
	f := make([]float64, n.Unknowns())
	n.Balance(t, x, f)
	most := func(largest float64, of []float64) float64 {
		for _, v := range of {
			largest = math.Max(largest, math.Abs(v))
		}
		return largest
	}
	nodes := len(n.nodes)
	from, to := nodes+len(n.branches), nodes+n.currents()
	amps, volts, watts := most(0, x[nodes:to]), most(0, x[to:]), 0.0
	for i := range n.wires {
		w := &n.wires[i]
		drop := potential(x, w.from) - potential(x, w.to) + w.emf - f[w.at]
		volts = math.Max(volts, math.Max(math.Abs(w.emf), math.Abs(drop)))
	}
	for i := range n.takers {
		taken := math.Abs(n.load * n.drawn(i).Current(t))
		if n.takers[i].at < 0 {
			amps = math.Max(amps, taken)
		} else {
			watts = math.Max(watts, taken)
		}
	}
	watts = math.Max(watts, volts*amps)
	worst := 0.0
	for _, of := range []struct {
		residuals []float64
		scale     float64
	}{{f[nodes:from], volts}, {f[from:to], watts}, {f[to:], amps}} {
		r := most(0, of.residuals)
		if r == 0 {
			continue
		}
		if r /= of.scale; math.IsNaN(r) {
			return math.Inf(1)
		}
		worst = math.Max(worst, r)
	}
	return worst
}
