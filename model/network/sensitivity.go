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
	// Load is by the supply's current and all that is drawn as a share of what
	// they are, K: 0.01 of it is what one per cent more does.
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
	Vents              []VentSensitivity     // by VentID
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

// VentSensitivity is by the two figures of a vent, K per W/K and K per W/K^1.5.
type VentSensitivity struct{ Flow, Buoyant float64 }

// Sensitivities gives the derivatives of an output at a settled state x of
// time t, s. Worth is what a watt more at each node adds to the output, K/W, and
// a unit more of each other residual: the solver's adjoint. The derivatives are
// those of the balance as it is evaluated, tables included.
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
		Vents:     make([]VentSensitivity, len(n.vents)),
	}
	room := n.ambient(t)
	rate := make([]float64, n.Unknowns())
	n.LoadDerivative(t, x, rate)
	for i, d := range rate {
		s.Load += worth[i] * d * n.load
	}
	for i := range n.resistors {
		s.Resistors[i] = n.resistorWorth(&n.resistors[i], t, x, worth)
	}
	for i, l := range n.links {
		d := (worth[l.b] - worth[l.a]) * (x[l.a] - x[l.b])
		s.Links[i] = LinkSensitivity{Conductance: d, Share: l.conductance * d}
	}
	for i, h := range n.holds {
		if h.air {
			s.Holds[i] = -worth[h.node] * (x[h.node] - room.air)
			s.Air += worth[h.node] * h.conductance
			continue
		}
		s.Holds[i] = -worth[h.node] * (x[h.node] - h.temp)
		s.Held += worth[h.node] * h.conductance
	}
	for i := range n.surfaces {
		n.surfaceWorth(SurfaceID(i), room, x, worth, &s)
	}
	for i := range n.gaps {
		g := &n.slots[i]
		if g.area == 0 {
			continue
		}
		c := g.cross(n.film, x[g.a], x[g.b])
		s.Gaps[i] = (worth[g.b] - worth[g.a]) * (c.conv + c.rad) / g.area
	}
	for i := range n.openings {
		v := &n.openings[i]
		t := x[v.node]
		d := t - room.air
		_, _, byAir := v.out(t, room.air)
		s.Vents[i] = VentSensitivity{Flow: -worth[v.node] * d, Buoyant: -worth[v.node] * math.Sqrt(math.Abs(d)/max(t, room.air)) * d}
		s.Air -= worth[v.node] * byAir
	}
	return s
}

// resistorWorth is by the ohms of one resistor: through its heat and, in a
// branch, through its drop, by which the currents divide.
func (n *Network) resistorWorth(r *Resistor, t float64, x, worth []float64) ResistorSensitivity {
	w, drop := n.heating(t), 0.0
	if r.Branch != 0 {
		at := n.currentOf(r.Branch)
		w = n.surplus() * x[at] * x[at]
		drop = -worth[at] * x[at]
	}
	byOhm := drop
	if !r.Elsewhere {
		byOhm += w * (worth[r.A] + worth[r.B]) / 2
	}
	byR20 := byOhm * r.byR20((x[r.A]+x[r.B])/2, w)
	return ResistorSensitivity{R20: byR20, Film: byOhm, Share: r.R20*byR20 + r.Film*byOhm}
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

// surfaceWorth stores what one surface is worth, and adds what the temperatures
// around the stack are through it.
func (n *Network) surfaceWorth(id SurfaceID, room ambient, x, worth []float64, s *Sensitivities) {
	p := &n.surfaces[id]
	if p.Area == 0 {
		return
	}
	f := n.faceOf(id, room, x)
	temp, own := x[p.node], worth[p.node]
	air, wall := 0.0, 0.0 // what a watt is worth there
	if p.In != 0 {
		in := n.spaces[p.In-1]
		air, wall = worth[in.air], worth[in.wall]
	}
	conv, _, byAir := f.slopes(n.film, f.conv, temp, f.air)
	if p.In == 0 {
		s.Air -= own * byAir
		s.Radiant += own * 4 * f.rad * f.seen * f.seen * f.seen
	}
	bare := 0.0 // what a black surface would radiate
	if p.In == 0 || p.node != n.spaces[p.In-1].wall {
		bare = radiation(materials.StefanBoltzmann, temp, f.seen)
	}
	byArea := (air-own)*conv/p.Area + (wall-own)*p.Emissivity*bare
	s.Surfaces[id] = SurfaceSensitivity{Area: byArea, Share: byArea * p.Area, Emissivity: (wall - own) * p.Area * bare}
}
