package network

// This file gives the derivatives of one output of a settled state by all that
// the network is made of. It is not on the hot path.

import (
	"math"

	"clampheat/materials"
)

// Sensitivities are the derivatives of one output of a settled state, a
// temperature in K, by the figures of a network. Each is a partial one: all
// other figures stay.
type Sensitivities struct {
	// Load is by the supply's current as a share of what it is, K: 0.01 of it
	// is what one per cent more current does.
	Load float64
	// Air, Radiant and Held are by the temperature of the room's air, of
	// all that the surfaces see, and of all held bodies, K/K. Without a source
	// that depends on temperature their sum is 1 where losses are linear.
	Air, Radiant, Held float64
	Resistors          []ResistorSensitivity // by ResistorID
	Links              []LinkSensitivity     // by LinkID
	Holds              []float64             // K per W/K, by HoldID
	Surfaces           []SurfaceSensitivity  // by SurfaceID
	Gaps               []float64             // K/m² of more of the same gap, by GapID; 0 for one without area
}

// ResistorSensitivity is by the ohms of a resistor at 20 °C and by those that
// do not follow the temperature, K/Ω; and by all of them as a share of what they
// are, K.
type ResistorSensitivity struct{ R20, Film, Share float64 }

// LinkSensitivity is by the conductance of a link, K per W/K, and by it as a
// share of what it is, K.
type LinkSensitivity struct{ Conductance, Share float64 }

// SurfaceSensitivity is by the area of a surface, K/m², as more of the same
// shape, 0 for a surface without area; by the area as a share of what it is, K;
// and by the emissivity, K.
type SurfaceSensitivity struct{ Area, Share, Emissivity float64 }

// Sensitivities gives the derivatives of an output at a settled state x of
// time t, s. Worth is what a watt more at each node adds to the output, K/W: the
// solver's adjoint. The derivatives are those of the balance as it is
// evaluated, tables included.
//
// Source: w·∂F/∂p, Giles and Pierce 2000, Flow, Turbulence and Combustion 65,
// 393, section 2 (from memory).
func (n *Network) Sensitivities(t float64, x, worth []float64) Sensitivities {
	s := Sensitivities{
		Resistors: make([]ResistorSensitivity, len(n.resistors)),
		Links:     make([]LinkSensitivity, len(n.links)),
		Holds:     make([]float64, len(n.holds)),
		Surfaces:  make([]SurfaceSensitivity, len(n.surfaces)),
		Gaps:      make([]float64, len(n.gaps)),
	}
	rate := make([]float64, len(n.nodes))
	n.LoadDerivative(t, x, rate)
	for i, d := range rate {
		s.Load += worth[i] * d * n.load
	}
	w := n.heating(t)
	for i := range n.resistors {
		r := &n.resistors[i]
		half := w * (worth[r.A] + worth[r.B]) / 2
		byR20 := half * r.byR20((x[r.A]+x[r.B])/2, w)
		s.Resistors[i] = ResistorSensitivity{R20: byR20, Film: half, Share: r.R20*byR20 + r.Film*half}
	}
	for i, l := range n.links {
		d := (worth[l.b] - worth[l.a]) * (x[l.a] - x[l.b])
		s.Links[i] = LinkSensitivity{Conductance: d, Share: l.conductance * d}
	}
	for i, h := range n.holds {
		s.Holds[i] = -worth[h.node] * (x[h.node] - h.temp)
		s.Held += worth[h.node] * h.conductance
	}
	for i := range n.surfaces {
		own, byAir, byRadiant := n.surfaceSlopes(SurfaceID(i), x)
		node := n.surfaces[i].node
		s.Surfaces[i] = SurfaceSensitivity{Area: -worth[node] * own.Area, Share: -worth[node] * own.Area * n.surfaces[i].Area,
			Emissivity: -worth[node] * own.Emissivity}
		s.Air -= worth[node] * byAir
		s.Radiant -= worth[node] * byRadiant
	}
	for i := range n.gaps {
		g := &n.slots[i]
		if g.area == 0 {
			continue
		}
		c := g.cross(n.film, x[g.a], x[g.b])
		s.Gaps[i] = (worth[g.b] - worth[g.a]) * (c.conv + c.rad) / g.area
	}
	return s
}

// byR20 is ∂R/∂R20 at a temperature, K, and a square of the current, A².
func (r *Resistor) byR20(temp, heating float64) float64 {
	if !r.Constriction || r.R20 == 0 {
		return 1 + r.Alpha*(temp-reference)
	}
	// The spots' excess depends on I r only, so that r ∂/∂r = 2 I² ∂/∂I² of it.
	s := constriction(r.R20, r.Alpha, temp, heating)
	return (s.ohm + 2*heating*s.byHeat) / r.R20
}

// surfaceSlopes gives of the heat that a surface loses, W, the derivatives by
// its own figures and by the temperatures of the air and of what it sees, at
// the temperature of its node.
func (n *Network) surfaceSlopes(id SurfaceID, x []float64) (own SurfaceSensitivity, byAir, byRadiant float64) {
	s, p := &n.surfaces[id], n.lossPlace[id]
	if s.Area == 0 {
		return
	}
	r := &n.losses[p.run]
	t, air, tr := x[s.node], n.room.Air, r.radiant
	conv, rad := n.conv[p.index], n.rad[p.index]
	own.Emissivity = s.Area * radiation(materials.StefanBoltzmann, t, tr)
	own.Area = (r.convection(n.film, conv, t, air) + radiation(rad, t, tr)) / s.Area
	byRadiant = -4 * rad * tr * tr * tr
	switch r.kind {
	case curvedLoss, tabledLoss:
		h, byRise, byFilm := r.still.slopes(n.film, t, air)
		byAir = conv * (-h - byRise + byFilm*(t-air))
	default:
		_, slope := r.convectionSlope(conv, t, air)
		byAir = -slope
	}
	return own, byAir, byRadiant
}

// slopes gives the coefficient of the tables, W/(m²K), its derivative by
// ln |ΔT|, and that by the air's temperature through the film alone. It is the
// loop over a tabled surface, written out once more for one surface, with the
// two derivatives kept apart that the loop adds.
func (st *still) slopes(fm film, t, air float64) (h, byRise, byFilm float64) {
	parts := st.hot
	if t < air {
		parts = st.cold
	}
	rise := math.Abs(t-air) * fm.dense
	cell, s, inside := filmAt(0.5 * (t + air))
	c := &fm.cells[cell]
	for _, p := range parts {
		b, bd := c.b[p.family].both(s)
		v, vd := p.curve.both(rise * b)
		h += v
		byRise += vd
		byFilm += vd * (bd / b)
	}
	k, kd := c.k.both(s)
	byFilm = kd*h + k*byFilm
	h, byRise = k*h, k*byRise
	if st.wind != nil {
		w, wd := st.wind.both(cell, s)
		sum := math.Cbrt(h*h*h + w*w*w)
		inv := 1 / (sum * sum)
		byRise *= h * h * inv
		byFilm = (byFilm*h*h + wd*w*w) * inv
		h = sum
	}
	if !inside {
		return h, byRise, 0
	}
	return h, byRise, byFilm * (0.5 / filmStep)
}
