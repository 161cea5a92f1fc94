package network

// This file reads single things back out of a state, for tables and reports.
// It is not on the hot path and may allocate.

import (
	"fmt"
	"math"

	"clampheat/materials"
)

// ResistorReading is what a resistor does at a state.
type ResistorReading struct {
	Ohm  float64 // Ω, all of it, hot
	Drop float64 // V, at the mean current, as a meter reads it; of a branch, with its sign
	Heat float64 // W; 0 for one that makes it elsewhere
	// Spot is the temperature of a constriction's spots, K; 0 for others.
	Spot float64
	// ConstrictionVolts is the drop over the constriction alone, without film,
	// to be held against the softening voltage of the face metal; 0 for others.
	ConstrictionVolts float64
}

// ReadResistor reads a resistor at time t and temperatures x.
func (n *Network) ReadResistor(id ResistorID, t float64, x []float64) ResistorReading {
	r := &n.resistors[id]
	w, i := n.heating(t), math.Abs(n.mean(t))
	if r.Branch != 0 {
		i = x[n.currentOf(r.Branch)]
		w = n.surplus() * i * i
	}
	temp := (x[r.A] + x[r.B]) / 2
	var out ResistorReading
	if r.Constriction {
		s := constriction(r.R20, r.Alpha, temp, w)
		out = ResistorReading{Ohm: s.ohm + r.Film, Spot: temp + s.excess, ConstrictionVolts: math.Abs(i) * s.ohm}
	} else {
		r0, r1 := r.line()
		out.Ohm = r0 + r1*temp
	}
	out.Drop = i * out.Ohm
	if !r.Elsewhere {
		out.Heat = w * out.Ohm
	}
	return out
}

// SurfaceReading is what a surface does at a state.
type SurfaceReading struct {
	Film                  float64 // W/(m²K), by convection
	HRad                  float64 // W/(m²K), by radiation, on the rise above what the surface sees
	Convection, Radiation float64 // W, into the room or the space
	// Rayleigh is that of the relation with the largest share of the surface;
	// 0 where no correlation is at work.
	Rayleigh float64
	// Warnings say where a relation is used outside the range for which it is
	// stated.
	Warnings []string
}

// ReadSurface reads a surface at the state x in the room of time 0.
func (n *Network) ReadSurface(id SurfaceID, x []float64) SurfaceReading {
	return n.ReadSurfaceAt(id, 0, x)
}

// ReadSurfaceAt reads a surface at the state x in the room of time t.
func (n *Network) ReadSurfaceAt(id SurfaceID, t float64, x []float64) SurfaceReading {
	s := &n.surfaces[id]
	f := n.faceOf(id, n.ambient(t), x)
	temp := x[s.node]
	out := SurfaceReading{
		Convection: f.convection(n.film, f.conv, temp, f.air),
		Radiation:  radiation(f.rad, temp, f.seen),
		HRad:       s.Emissivity * materials.StefanBoltzmann * (temp + f.seen) * (temp*temp + f.seen*f.seen),
	}
	switch shape := s.Shape.(type) {
	case nil:
	case Given:
		out.Film = shape.H
	case PowerLaw:
		out.Film = shape.C * math.Pow(math.Abs(temp-f.air)/shape.L, shape.M)
	default:
		out.Film = f.still.coefficient(n.film, temp, f.air)
		out.Rayleigh, out.Warnings = n.ranges(shape, temp, f.air)
	}
	return out
}

// facing is a surface with what it faces at a state.
type facing struct {
	law
	conv, rad float64
	air, seen float64 // K
}

func (n *Network) faceOf(id SurfaceID, room ambient, x []float64) facing {
	p := n.lossPlace[id]
	if p.run < 0 {
		s := &n.inner[p.index]
		return facing{s.law, s.conv, s.rad, x[s.air], x[s.wall]}
	}
	r := &n.losses[p.run]
	return facing{r.law, n.conv[p.index], n.rad[p.index], room.air, r.seen(room)}
}

// Below a rise of slightRise, K, or on a face of less than slightShare of a
// surface, a range that is left is not worth a warning: next to no heat flows.
const (
	slightRise  = 1
	slightShare = 0.1
)

// ranges gives the Rayleigh number of the term with the largest share and
// the terms that are used out of their ranges.
func (n *Network) ranges(s Shape, t, air float64) (ra float64, warnings []string) {
	tf := (t + air) / 2
	if tf < filmFrom || tf > filmTo {
		warnings = append(warnings, fmt.Sprintf("air at %.0f K is outside %.0f…%.0f K, where its figures are known", tf, filmFrom, filmTo))
	}
	a := figures(tf, n.room.Pressure)
	if m, ok := s.(MovingAir); ok {
		if w := m.leaves(a); w != "" {
			warnings = append(warnings, w)
		}
		s = m.Over
	}
	terms, _ := s.terms(nil, 1, t >= air)
	largest := 0.0
	for _, m := range terms {
		own := a.b[plain] * math.Abs(t-air) * m.l * m.l * m.l
		if m.share > largest {
			largest, ra = m.share, own
		}
		if math.Abs(t-air) < slightRise || m.share < slightShare {
			continue
		}
		if own < m.stated.from {
			warnings = append(warnings, fmt.Sprintf("%s: Ra %.3g is below %.0g, from which the relation is stated", m.stated.name, own, m.stated.from))
		}
		if own > m.stated.to {
			warnings = append(warnings, fmt.Sprintf("%s: Ra %.3g is above %.0g, up to which the relation is stated", m.stated.name, own, m.stated.to))
		}
	}
	return ra, warnings
}

// leaves says where a relation of moving air leaves its range.
func (m MovingAir) leaves(a airFigures) string {
	re := m.Speed * m.Length / a.nu
	switch {
	case m.Kind == Across && re*a.pr < 0.2:
		return fmt.Sprintf("air across a cylinder: Re·Pr %.3g is below 0.2, from which the relation is stated", re*a.pr)
	case m.Kind == Across && re > 1e7:
		return fmt.Sprintf("air across a cylinder: Re %.3g is above 1e+07, up to which the relation is stated", re)
	case m.Kind == Along && re > 1e8:
		return fmt.Sprintf("air along a plate: Re %.3g is above 1e+08, up to which the relation is stated", re)
	}
	return ""
}

// ReadLink is the heat, W, that a link carries from its first node to its
// second at temperatures x.
func (n *Network) ReadLink(id LinkID, x []float64) float64 {
	l := &n.links[id]
	return l.conductance * (x[l.a] - x[l.b])
}

// ReadHold is the heat, W, that flows into a held body at the state x in the
// room of time 0.
func (n *Network) ReadHold(id HoldID, x []float64) float64 { return n.ReadHoldAt(id, 0, x) }

// ReadHoldAt is the heat, W, that flows into a held body at the state x in the
// room of time t.
func (n *Network) ReadHoldAt(id HoldID, t float64, x []float64) float64 {
	h := &n.holds[id]
	if h.air {
		return h.conductance * (x[h.node] - n.Air(t))
	}
	return h.conductance * (x[h.node] - h.temp)
}

// ReadVent is the heat, W, that a vent carries to the room of time t at the state
// x.
func (n *Network) ReadVent(id VentID, t float64, x []float64) float64 {
	v := &n.openings[id]
	q, _, _ := v.out(x[v.node], n.Air(t))
	return q
}

// ReadSource is the heat, W, that a source makes.
func (n *Network) ReadSource(id SourceID) float64 { return n.sources[id].watts }

// GapReading is what a gap does at a state; heat is counted from its first
// node to its second.
type GapReading struct {
	Convection, Radiation float64 // W, convection or, at Nusselt 1, conduction
	Rayleigh, Nusselt     float64
	Warnings              []string
}

// ReadGap reads a gap at temperatures x.
func (n *Network) ReadGap(id GapID, x []float64) GapReading {
	g, slot := &n.gaps[id], &n.slots[id]
	c := slot.cross(n.film, x[slot.a], x[slot.b])
	out := GapReading{Convection: c.conv, Radiation: c.rad, Rayleigh: c.ra, Nusselt: c.nu}
	if int(g.a) != slot.a {
		out.Convection, out.Radiation = -c.conv, -c.rad
	}
	if c.nu > 1.01 && (slot.cavity.aspect < 5 || slot.cavity.aspect > 110) {
		out.Warnings = append(out.Warnings, fmt.Sprintf("air layer: height over width %.3g is outside 5…110, for which the relation is stated", slot.cavity.aspect))
	}
	if c.ra > 1e7 {
		out.Warnings = append(out.Warnings, fmt.Sprintf("air layer: Ra %.3g is above 1e+07, up to which the relation is stated", c.ra))
	}
	if c.tf < filmFrom || c.tf > filmTo {
		out.Warnings = append(out.Warnings, fmt.Sprintf("air at %.0f K is outside %.0f…%.0f K, where its figures are known", c.tf, filmFrom, filmTo))
	}
	return out
}
