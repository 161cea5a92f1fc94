package network

import "math"

// The loops over surfaces. Each passes one run: surfaces of one law on nodes
// that follow one another. Radiation is fused with convection, as
// T⁴ − Tr⁴ = (T − Tr)(T + Tr)(T² + Tr²), which loses no digits near Tr.

// lose adds the losses of a run to f and returns their sum.
func (n *Network) lose(r *lossRun, x, f []float64, room ambient) float64 {
	conv, rad := n.conv[r.from:r.to], n.rad[r.from:r.to]
	air, tr := room.air, r.seen(room)
	switch r.kind {
	case quarterLoss:
		return loseQuarter(x, f, conv, rad, air, tr)
	case curvedLoss:
		return loseCurved(r.still.hot[0], n.film, x, f, conv, rad, air, tr)
	case tabledLoss:
		return loseTabled(r.still, n.film, x, f, conv, rad, air, tr)
	}
	lost := 0.0
	for i, t := range x {
		q := r.convection(n.film, conv[i], t, air) + radiation(rad[i], t, tr)
		f[i] -= q
		lost += q
	}
	return lost
}

// loseSlope does what lose does and adds the derivatives to diag.
func (n *Network) loseSlope(r *lossRun, x, f, diag []float64, room ambient) float64 {
	conv, rad := n.conv[r.from:r.to], n.rad[r.from:r.to]
	air, tr := room.air, r.seen(room)
	switch r.kind {
	case quarterLoss:
		return loseQuarterSlope(x, f, diag, conv, rad, air, tr)
	case curvedLoss:
		return loseCurvedSlope(r.still.hot[0], n.film, x, f, diag, conv, rad, air, tr)
	case tabledLoss:
		return loseTabledSlope(r.still, n.film, x, f, diag, conv, rad, air, tr)
	}
	lost := 0.0
	for i, t := range x {
		q, d := r.convectionSlope(conv[i], t, air)
		q += radiation(rad[i], t, tr)
		f[i] -= q
		diag[i] -= d + 4*rad[i]*t*t*t
		lost += q
	}
	return lost
}

func radiation(rad, t, tr float64) float64 {
	return rad * (t - tr) * (t + tr) * (t*t + tr*tr)
}

// convection gives the heat, W, that one surface gives the air.
func (l *law) convection(f film, conv, t, air float64) float64 {
	d := t - air
	switch l.kind {
	case steadyLoss:
		return conv * d
	case quarterLoss:
		return conv * math.Sqrt(math.Sqrt(math.Abs(d))) * d
	case thirdLoss:
		return conv * math.Cbrt(math.Abs(d)) * d
	case powerLoss:
		return conv * math.Pow(math.Abs(d), l.exponent) * d
	}
	return conv * l.still.at(f, t, air) * d
}

// convectionSlope is convection with its derivative, for the laws that have
// no loop of their own.
func (l *law) convectionSlope(conv, t, air float64) (q, slope float64) {
	d := t - air
	var h float64
	switch l.kind {
	case steadyLoss:
		return conv * d, conv
	case thirdLoss:
		h = conv * math.Cbrt(math.Abs(d))
	default:
		h = conv * math.Pow(math.Abs(d), l.exponent)
	}
	return h * d, h * (1 + l.exponent)
}

func loseQuarter(x, f, conv, rad []float64, air, tr float64) (lost float64) {
	f, conv, rad = f[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	for i, t := range x {
		d := t - air
		q := conv[i]*math.Sqrt(math.Sqrt(math.Abs(d)))*d + rad[i]*(t-tr)*((t+tr)*(t*t+tr2))
		f[i] -= q
		lost += q
	}
	return lost
}

func loseQuarterSlope(x, f, diag, conv, rad []float64, air, tr float64) (lost float64) {
	f, diag, conv, rad = f[:len(x)], diag[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	for i, t := range x {
		d := t - air
		t2 := t * t
		h := conv[i] * math.Sqrt(math.Sqrt(math.Abs(d)))
		q := h*d + rad[i]*(t-tr)*((t+tr)*(t2+tr2))
		f[i] -= q
		diag[i] -= 1.25*h + 4*rad[i]*(t2*t)
		lost += q
	}
	return lost
}
