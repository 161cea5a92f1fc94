package network

// This file evaluates the currents and potentials of a network that branches:
// eqs. (19) to (21) and the heat of what carries the currents.

// surplus is the square of the current that makes the heat over that of the
// current that a meter reads.
func (n *Network) surplus() float64 { return 1 + n.ripple*n.ripple }

// circulate adds the heat of the branches to f, whose places of currents and
// potentials are 0, stores the residuals of these and returns the heat made.
func (n *Network) circulate(t float64, x, f []float64) (made float64) {
	n.meet(t, x, f)
	k := n.surplus()
	for i := range n.branchRuns {
		r := &n.branchRuns[i]
		m := r.to - r.from
		current := x[r.at]
		w := k * current * current
		if r.elsewhere {
			w = 0
		}
		ohm := resist(x[r.node:][:m], f[r.node:][:m], n.r0[r.from:r.to], n.r1[r.from:r.to], w)
		f[r.at] -= current * ohm
		made += w * ohm
	}
	for i := range n.bridges {
		r := &n.bridges[i]
		current := x[r.at]
		w := k * current * current
		s := r.state(x, w)
		f[r.at] -= current * s.ohm
		if !r.elsewhere {
			p := w * s.ohm
			f[r.a] += p / 2
			f[r.b] += p / 2
			made += p
		}
	}
	return made
}

// circulateSlope does what circulate does and stores the derivatives.
func (n *Network) circulateSlope(t float64, x, f []float64, j *Jacobian) (made float64) {
	nodes, fixed := len(n.nodes), len(n.fixed)
	clear(j.Diag[nodes:])
	clear(j.Up[fixed:])
	clear(j.Down[fixed:])
	n.meet(t, x, f)
	n.meetSlope(x, j)
	k := n.surplus()
	for i := range n.branchRuns {
		r := &n.branchRuns[i]
		m := r.to - r.from
		current := x[r.at]
		w, rate := k*current*current, 2*k*current
		if r.elsewhere {
			w, rate = 0, 0
		}
		ohm := resistSlope(x[r.node:][:m], f[r.node:][:m], j.Diag[r.node:][:m], j.Up[r.pair:][:m], j.Down[r.pair:][:m],
			n.r0[r.from:r.to], n.r1[r.from:r.to], w, rate, current)
		f[r.at] -= current * ohm
		j.Diag[r.at] -= ohm
		made += w * ohm
	}
	for i := range n.bridges {
		r := &n.bridges[i]
		current := x[r.at]
		w, rate := k*current*current, 2*k*current
		s := r.state(x, w)
		f[r.at] -= current * s.ohm
		j.Diag[r.at] -= s.ohm + current*rate*s.byHeat
		half := current * s.byTemp / 2
		j.Down[r.pairA] -= half
		j.Down[r.pairB] -= half
		if r.elsewhere {
			continue
		}
		p := w * s.ohm
		f[r.a] += p / 2
		f[r.b] += p / 2
		made += p
		share(j, r.a, r.b, r.pair, w*s.byTemp)
		half = rate * (s.ohm + w*s.byHeat) / 2
		j.Up[r.pairA] += half
		j.Up[r.pairB] += half
	}
	return made
}

// meet adds what the branches' ends and the draws bring to the residuals.
func (n *Network) meet(t float64, x, f []float64) {
	for i := range n.wires {
		b := &n.wires[i]
		current := x[b.at]
		f[b.at] += potential(x, b.from) - potential(x, b.to) + b.emf - b.ohms*current
		if b.from >= 0 {
			f[b.from] -= current
		}
		if b.to >= 0 {
			f[b.to] += current
		}
	}
	for i := range n.takers {
		d := &n.takers[i]
		n.take(f, i, n.load*n.drawn(i).Current(t))
		if d.at < 0 {
			continue
		}
		current := x[d.at]
		f[d.at] -= (potential(x, d.from) - potential(x, d.to)) * current
		if d.from >= 0 {
			f[d.from] -= current
		}
		if d.to >= 0 {
			f[d.to] += current
		}
	}
}

// meetSlope stores the derivatives of what meet adds.
func (n *Network) meetSlope(x []float64, j *Jacobian) {
	for _, e := range n.ends {
		j.Up[e.pair], j.Down[e.pair] = e.sign, -e.sign
	}
	for i := range n.wires {
		j.Diag[n.wires[i].at] -= n.wires[i].ohms
	}
	for i := range n.takers {
		d := &n.takers[i]
		if d.at < 0 {
			continue
		}
		j.Diag[d.at] -= potential(x, d.from) - potential(x, d.to)
		if d.pairFrom >= 0 {
			j.Up[d.pairFrom] = -x[d.at]
		}
		if d.pairTo >= 0 {
			j.Up[d.pairTo] = x[d.at]
		}
	}
}

// state is the state of a resistor of a branch: its ohms, film and all.
func (r *bridgeResistor) state(x []float64, heating float64) spot {
	if r.spots {
		s := r.spotResistor.at(x, heating)
		s.ohm += r.film
		return s
	}
	return spot{ohm: r.r0 + r.r1*(x[r.a]+x[r.b])/2, byTemp: r.r1}
}

// resist adds w (r0 + r1 T) and returns the sum of the ohms.
func resist(x, f, r0, r1 []float64, w float64) (ohm float64) {
	f, r0, r1 = f[:len(x)], r0[:len(x)], r1[:len(x)]
	for i, t := range x {
		r := r0[i] + r1[i]*t
		f[i] += w * r
		ohm += r
	}
	return ohm
}

// resistSlope does what resist does and adds the derivatives: of the nodes' heat
// by their temperatures and, rate being that of w, by the current, and of the
// drop by the temperatures.
func resistSlope(x, f, d, up, down, r0, r1 []float64, w, rate, current float64) (ohm float64) {
	f, d, up, down = f[:len(x)], d[:len(x)], up[:len(x)], down[:len(x)]
	r0, r1 = r0[:len(x)], r1[:len(x)]
	for i, t := range x {
		s := r1[i]
		r := r0[i] + s*t
		f[i] += w * r
		d[i] += w * s
		up[i] += rate * r
		down[i] -= current * s
		ohm += r
	}
	return ohm
}
