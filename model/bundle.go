package model

import (
	"math"

	"clampheat/model/network"
)

// This file holds cables that touch. A stack carries one of them: all are alike
// and carry the same current, so that one stands for all, and the one looked at
// is the hottest.
//
// What n cables of the diameter D show the air is the hull around them, and
// each gets its part of that, with the convection of the hull's own size:
//
//	row of 2      (π + 2) D/2 a cable, a flat bar 2 D by D
//	row of n ≥ 3  2 D a cable, a flat bar n D by D: a middle cable has neighbours
//	              on both sides, and what conducts to the ends is left out
//	bunch         π D_n/n a cable, a cylinder of D_n = D √((4n − 1)/3)
//
// D_n is the diameter around a full hexagonal bunch, (2j + 1) D with
// n = 3j(j + 1) + 1: exact for 1, 7, 19, 37 …, and by that relation between them.
//
// In a bunch the heat of the inner cables goes through the outer ones. As a
// cylinder that makes its heat evenly the bunch is hotter in its middle than at
// its hull by q/(4πk) (Incropera et al., Fundamentals of Heat and Mass Transfer,
// 6th ed. 2007, eq. (3.53), with q = q̇ π r²), where q is the heat of the others, W/m:
// how the cable's own reaches its jacket is modelled in itself.

// Arrangement says how cables lie together that touch.
type Arrangement int

const (
	FlatRow    Arrangement = iota // side by side, level where the cable lies
	RoundBunch                    // bound together
)

// A Bundle is a number of alike cables that touch all along and carry the same
// current.
type Bundle struct {
	Count       int // of all of them, the cable itself among them
	Arrangement Arrangement
}

// BunchConductivity is the conductivity, W/(m K), of a mass of touching cables
// across them: copper, jackets and the air between.
//
// Source: Stolpe 1971, Ampacities for Cables in Randomly Filled Trays, IEEE
// Trans. Power App. Syst. PAS-90, 962: 400 °C cm/W, as measured; from memory.
const BunchConductivity = 0.25

// mostTogether is how many cables one may ask for: more are not built (common
// practice, no source).
const mostTogether = 100

func (g *Bundle) check(c *checks) {
	if g.Count < 1 || g.Count > mostTogether {
		c.fail("number of cables that touch", "must be 1 to %d, not %d", mostTogether, g.Count)
	}
	if g.Arrangement != FlatRow && g.Arrangement != RoundBunch {
		c.fail("way the cables lie together", "is unknown: %d", g.Arrangement)
	}
}

// BunchDiameter is the diameter [m] of a bunch of n ≥ 1 round things of one
// diameter [m]. For a count below 1 it is 0.
func BunchDiameter(n int, diameter float64) float64 {
	if n < 1 {
		return 0
	}
	return orNone(diameter * math.Sqrt(float64(4*n-1)/3))
}

// BunchResistance is the thermal resistance [K·m/W] from the hull of a bunch of n
// alike cables to its innermost one, over the heat of one: (n − 1)/(4πk). For a
// count below 2 it is 0.
func BunchResistance(n int) float64 {
	if n < 2 {
		return 0
	}
	return float64(n-1) / (4 * math.Pi * BunchConductivity)
}

// hull is what one cable shows the air, per metre.
type hull struct {
	perimeter  float64 // m
	shape      network.Shape
	flow       network.AirFlow
	flowLength float64 // m
	inside     float64 // K·m/W, between jacket and hull
}

// hull is that of one of the cables of an outer diameter [m] over a length [m],
// alone where there is no more than one of them.
func (g *Bundle) hull(diameter, length float64, lies Lie) hull {
	switch {
	case g == nil || g.Count == 1:
		return roundHull(diameter, 1, length, lies)
	case g.Arrangement == RoundBunch:
		h := roundHull(BunchDiameter(g.Count, diameter), g.Count, length, lies)
		h.inside = BunchResistance(g.Count)
		return h
	}
	h := hull{
		perimeter: 2 * diameter,
		shape:     network.BarFlat(float64(g.Count)*diameter, diameter),
		flow:      network.Along, flowLength: float64(g.Count) * diameter,
	}
	if g.Count == 2 {
		h.perimeter = (math.Pi + 2) * diameter / 2
	}
	if lies == Vertical {
		h.shape = network.VerticalPlate{H: length}
	}
	return h
}

// roundHull is the side of a cylinder that n cables share.
func roundHull(diameter float64, n int, length float64, lies Lie) hull {
	h := hull{
		perimeter: math.Pi * diameter / float64(n),
		shape:     network.HorizontalCylinder{D: diameter},
		flow:      network.Across, flowLength: diameter,
	}
	if lies == Vertical {
		h.shape = network.VerticalCylinder{D: diameter, H: length}
	}
	return h
}
