package network

// This file gives the derivatives of the balance by time and by the load.

// Drift stores the derivative of the balance by time at a fixed state, in the
// balance's units per second, or reports false where it is zero: where neither
// current nor air nor what is drawn changes.
func (n *Network) Drift(t float64, x, df []float64) bool {
	rate, _ := n.heatingRates(t)
	room, drawn := n.moving(t), n.drawsMove(t)
	if rate == 0 && room.airRate == 0 && !drawn {
		return false
	}
	n.heatRate(t, x, df, rate)
	if room.airRate != 0 {
		n.airRate(x, df, room)
	}
	for i := range n.takers {
		n.take(df, i, n.load*n.drawn(i).Slope(t))
	}
	return true
}

// LoadDerivative stores the derivative of the balance by the load.
func (n *Network) LoadDerivative(t float64, x, df []float64) {
	_, rate := n.heatingRates(t)
	n.heatRate(t, x, df, rate)
	for i := range n.takers {
		n.take(df, i, n.drawn(i).Current(t))
	}
}

// heatRate stores the derivative of the balance by the square of the supply's
// current, times rate.
func (n *Network) heatRate(t float64, x, df []float64, rate float64) {
	size := n.Unknowns()
	x, df = x[:size], df[:size]
	clear(df)
	for _, r := range n.ownRuns {
		m := r.to - r.from
		ohmic(x[r.node:][:m], df[r.node:][:m], n.r0[r.from:r.to], n.r1[r.from:r.to], rate)
	}
	for i := range n.bare {
		b := &n.bare[i]
		ohmic(x[b.node:][:b.m], df[b.node:][:b.m], n.r0[b.own:][:b.m], n.r1[b.own:][:b.m], rate)
	}
	for i := range n.between {
		r := &n.between[i]
		p := rate * (r.r0 + r.r1*(x[r.a]+x[r.b])/2)
		df[r.a] += p / 2
		df[r.b] += p / 2
	}
	w := n.heating(t)
	for i := range n.spots {
		r := &n.spots[i]
		s := r.at(x, w)
		p := rate * (s.ohm + r.film + w*s.byHeat)
		df[r.a] += p / 2
		df[r.b] += p / 2
	}
}

// airRate adds what the moving air and what follows it do.
func (n *Network) airRate(x, df []float64, room ambient) {
	for k := range n.losses {
		r := &n.losses[k]
		tr := r.seen(room)
		seenRate := 0.0
		if r.follows {
			seenRate = room.radiantRate
		}
		for i := r.from; i < r.to; i++ {
			node := r.node + i - r.from
			_, _, byAir := r.slopes(n.film, n.conv[i], x[node], room.air)
			df[node] -= byAir*room.airRate - 4*n.rad[i]*tr*tr*tr*seenRate
		}
	}
	for i := range n.airTies {
		df[n.airTies[i].node] += n.airTies[i].conductance * room.airRate
	}
	for i := range n.openings {
		v := &n.openings[i]
		_, _, byAir := v.out(x[v.node], room.air)
		df[v.node] -= byAir * room.airRate
	}
}

// drawn is what a draw takes over time, A or W.
func (n *Network) drawn(i int) Supply {
	if d := &n.draws[i]; d.Current == nil {
		return d.Power
	}
	return n.draws[i].Current
}

// drawsMove says whether any draw changes with time.
func (n *Network) drawsMove(t float64) bool {
	for i := range n.takers {
		if n.drawn(i).Slope(t) != 0 {
			return true
		}
	}
	return false
}

// take adds an amount, A or W, that a draw takes to the residuals: to those of the
// junctions at its ends, or to its own.
func (n *Network) take(f []float64, i int, amount float64) {
	d := &n.takers[i]
	if d.at >= 0 {
		f[d.at] += amount
		return
	}
	if d.from >= 0 {
		f[d.from] -= amount
	}
	if d.to >= 0 {
		f[d.to] += amount
	}
}
