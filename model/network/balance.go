package network

// This file evaluates the balance of eq. (1) and its Jacobian, going over the
// arranged network kind by kind.

// Balance stores in f the net heat of each node, W, at time t, s, and the state
// x by eq. (1), and the residuals of the currents, V or W, and of the junctions,
// A, by eqs. (19) to (21). It allocates nothing.
func (n *Network) Balance(t float64, x, f []float64) Flow {
	size := n.Unknowns()
	x, f = x[:size], f[:size]
	clear(f)
	n.conduct(x, f)
	var sum Flow
	room, w := n.ambient(t), n.heating(t)
	for _, r := range n.ownRuns {
		m := r.to - r.from
		sum.Made += ohmic(x[r.node:][:m], f[r.node:][:m], n.r0[r.from:r.to], n.r1[r.from:r.to], w)
	}
	for i := range n.between {
		r := &n.between[i]
		p := w * (r.r0 + r.r1*(x[r.a]+x[r.b])/2)
		f[r.a] += p / 2
		f[r.b] += p / 2
		sum.Made += p
	}
	for i := range n.spots {
		r := &n.spots[i]
		p := w * (r.at(x, w).ohm + r.film)
		f[r.a] += p / 2
		f[r.b] += p / 2
		sum.Made += p
	}
	n.pull(x, f, room, &sum)
	for i := range n.bare {
		b := n.passBare(&n.bare[i], x, f, room, w)
		sum.Made += b.Made
		sum.Lost += b.Lost
	}
	for i := range n.losses {
		r := &n.losses[i]
		if r.fused {
			continue
		}
		m := r.to - r.from
		sum.Lost += n.lose(r, x[r.node:][:m], f[r.node:][:m], room)
	}
	for i := range n.slots {
		g := &n.slots[i]
		c := g.cross(n.film, x[g.a], x[g.b])
		f[g.a] -= c.conv + c.rad
		f[g.b] += c.conv + c.rad
	}
	n.loseInside(x, f)
	for i := range n.openings {
		v := &n.openings[i]
		q, _, _ := v.out(x[v.node], room.air)
		f[v.node] -= q
		sum.Lost += q
	}
	n.feed(f, &sum)
	if n.globals > 0 {
		sum.Made += n.circulate(t, x, f)
	}
	return sum
}

// Linearize does what Balance does and stores the exact derivatives, sharing
// roots and powers. It allocates nothing.
func (n *Network) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	size := n.Unknowns()
	x, f = x[:size], f[:size]
	diag := j.Diag[:size]
	copy(diag, n.fixedDiag)
	copy(j.Up, n.fixed)
	copy(j.Down, n.fixed)
	clear(f)
	n.conduct(x, f)
	var sum Flow
	room, w := n.ambient(t), n.heating(t)
	for _, r := range n.ownRuns {
		m := r.to - r.from
		sum.Made += ohmicSlope(x[r.node:][:m], f[r.node:][:m], diag[r.node:][:m], n.r0[r.from:r.to], n.r1[r.from:r.to], w)
	}
	for i := range n.between {
		r := &n.between[i]
		p := w * (r.r0 + r.r1*(x[r.a]+x[r.b])/2)
		f[r.a] += p / 2
		f[r.b] += p / 2
		sum.Made += p
		share(j, r.a, r.b, r.pair, w*r.r1)
	}
	for i := range n.spots {
		r := &n.spots[i]
		s := r.at(x, w)
		p := w * (s.ohm + r.film)
		f[r.a] += p / 2
		f[r.b] += p / 2
		sum.Made += p
		share(j, r.a, r.b, r.pair, w*s.byTemp)
	}
	n.pull(x, f, room, &sum)
	for i := range n.bare {
		b := n.passBareSlope(&n.bare[i], x, f, diag, room, w)
		sum.Made += b.Made
		sum.Lost += b.Lost
	}
	for i := range n.losses {
		r := &n.losses[i]
		if r.fused {
			continue
		}
		m := r.to - r.from
		sum.Lost += n.loseSlope(r, x[r.node:][:m], f[r.node:][:m], diag[r.node:][:m], room)
	}
	for i := range n.slots {
		g := &n.slots[i]
		c := g.cross(n.film, x[g.a], x[g.b])
		f[g.a] -= c.conv + c.rad
		f[g.b] += c.conv + c.rad
		diag[g.a] -= c.byA
		diag[g.b] += c.byB
		j.Up[g.pair] -= c.byB
		j.Down[g.pair] += c.byA
	}
	n.loseInsideSlope(x, f, j)
	for i := range n.openings {
		v := &n.openings[i]
		q, slope, _ := v.out(x[v.node], room.air)
		f[v.node] -= q
		diag[v.node] -= slope
		sum.Lost += q
	}
	n.feed(f, &sum)
	if n.globals > 0 {
		sum.Made += n.circulateSlope(t, x, f, j)
	}
	return sum
}

// pull adds the heat through the links to held bodies and to the room's air.
func (n *Network) pull(x, f []float64, room ambient, sum *Flow) {
	for i := range n.ties {
		h := &n.ties[i]
		q := h.conductance * (x[h.node] - h.temp)
		f[h.node] -= q
		sum.Lost += q
	}
	for i := range n.airTies {
		h := &n.airTies[i]
		q := h.conductance * (x[h.node] - room.air)
		f[h.node] -= q
		sum.Lost += q
	}
}

// feed adds the heat of other things.
func (n *Network) feed(f []float64, sum *Flow) {
	for i := range n.sources {
		s := &n.sources[i]
		f[s.node] += s.watts
		sum.Made += s.watts
	}
}

// at is the state of a constriction in the network's.
func (r *spotResistor) at(x []float64, heating float64) spot {
	return constriction(r.r20, r.alpha, (x[r.a]+x[r.b])/2, heating)
}

// share stores the derivatives of a heat of which each node gets half, whose
// derivative by the mean of both temperatures is d.
func share(j *Jacobian, a, b, pair int, d float64) {
	if pair < 0 {
		j.Diag[a] += d
		return
	}
	d /= 4
	j.Diag[a] += d
	j.Diag[b] += d
	j.Up[pair] += d
	j.Down[pair] += d
}

// conduct adds the heat through the links of fixed conductance.
func (n *Network) conduct(x, f []float64) {
	for _, c := range n.chains {
		m := c.to - c.from
		chain(x[c.node:][:m+1], f[c.node:][:m+1], n.fixed[c.from:c.to])
	}
	for k := n.loose; k < n.joined; k++ {
		p := n.pairs[k]
		q := n.fixed[k] * (x[p[0]] - x[p[1]])
		f[p[0]] -= q
		f[p[1]] += q
	}
}

// chain passes a row of nodes, each linked to the next.
func chain(x, f, g []float64) {
	x, f = x[:len(g)+1], f[:len(g)+1]
	here, in := x[0], 0.0
	for i, gi := range g {
		next := x[i+1]
		out := gi * (here - next)
		f[i] += in - out
		here, in = next, out
	}
	f[len(g)] += in
}

// ohmic adds w (r0 + r1 T) and returns the sum.
func ohmic(x, f, r0, r1 []float64, w float64) (made float64) {
	f, r0, r1 = f[:len(x)], r0[:len(x)], r1[:len(x)]
	for i, t := range x {
		p := w * (r0[i] + r1[i]*t)
		f[i] += p
		made += p
	}
	return made
}

func ohmicSlope(x, f, d, r0, r1 []float64, w float64) (made float64) {
	f, d, r0, r1 = f[:len(x)], d[:len(x)], r0[:len(x)], r1[:len(x)]
	for i, t := range x {
		s := w * r1[i]
		p := w*r0[i] + s*t
		f[i] += p
		d[i] += s
		made += p
	}
	return made
}
