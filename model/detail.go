package model

import (
	"fmt"

	"clampheat/model/network"
)

// This file lists every surface as the network sees it, for who wants to check
// the figures by hand.

// SurfaceDetail is a surface at a state.
type SurfaceDetail struct {
	Name       string
	Node       network.NodeID
	Temp       float64 // K
	Area       float64 // m²
	Convection float64 // W/(m² K)
	Radiation  float64 // W/(m² K)
	// Conductance, W/K, is to the room, or to the cover over it, both together;
	// of a surface in a box the one is to its air and the other to its wall.
	Conductance float64
	// Biot is h·L/k, L the depth that the heat crosses to the surface: volume
	// over area of a lump, half the thickness of a bar, the wall of a jacket. 0
	// where the inside is not known.
	Biot     float64
	Warnings []string
}

// largestBiot is the Biot number above which a lump is not of one temperature
// (Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq.
// (5.10)).
const largestBiot = 0.1

// Detail lists the surfaces at a state of the time 0: see DetailAt.
func (a *Assembly) Detail(x []float64) []SurfaceDetail { return a.DetailAt(0, x) }

// DetailAt lists the surfaces that face the room or a box at a state of the time
// t and then those that face a cover, whose coefficients count to the cover's
// temperature and are 0 where that is their own. A jacket, whose inside is
// modelled apart, earns no warning of its Biot number.
func (a *Assembly) DetailAt(t float64, x []float64) []SurfaceDetail {
	out := make([]SurfaceDetail, 0, len(a.exposed)+len(a.covered))
	for _, e := range a.exposed {
		r := a.Network.ReadSurfaceAt(e.id, t, x)
		d := SurfaceDetail{
			Name: e.name, Node: e.node, Temp: x[e.node], Area: e.area,
			Convection: r.Film, Radiation: r.HRad, Conductance: (r.Film + r.HRad) * e.area,
			Warnings: append([]string(nil), r.Warnings...),
		}
		if e.conductivity > 0 {
			d.Biot = (r.Film + r.HRad) * e.depth / e.conductivity
		}
		if d.Biot > largestBiot && !e.layered {
			d.Warnings = append(d.Warnings, fmt.Sprintf(
				"Biot number %.2g is above %.2g: the lump is not of one temperature", d.Biot, largestBiot))
		}
		out = append(out, d)
	}
	for _, g := range a.covered {
		r := a.Network.ReadGap(g.id, x)
		d := SurfaceDetail{Name: g.name, Node: g.node, Temp: x[g.node], Area: g.area,
			Warnings: append([]string(nil), r.Warnings...)}
		if fall := x[g.node] - x[g.lid]; fall != 0 {
			d.Convection, d.Radiation = r.Convection/(g.area*fall), r.Radiation/(g.area*fall)
			d.Conductance = (d.Convection + d.Radiation) * g.area
		}
		out = append(out, d)
	}
	return out
}
