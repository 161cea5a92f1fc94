package model

import (
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file holds cables that lie in a conduit in air. As with a bundle, the
// stack carries one of the cables, all alike, and with it its part of the
// conduit.
//
// From the jackets to the conduit it is, for all of them together,
//
//	T = U/(1 + 0.1 (V + Y θ) De)   K·m/W
//
// θ the mean temperature of both, °C, De, mm, the diameter around the cables
// (IEC 60287-2-1, 4.2.6.2 and Table 4, as open code quotes them). The standard
// states it for De of 25 to 100 mm. Among the cables it is as in a bunch of as
// many.

// ConduitKind says which figures of the standard a conduit goes by.
type ConduitKind int

const (
	MetalConduit ConduitKind = iota // of metal
	FibreConduit                    // of fibre, in air
	unknownConduit
)

// conduitLaw are U, V and Y of IEC 60287-2-1, Table 4, by kind, as open code
// quotes the table. Of plastic it has ducts in the ground alone; fibre in air,
// which holds more heat back, is what comes nearest.
var conduitLaw = [unknownConduit]struct{ u, v, y float64 }{
	MetalConduit: {5.2, 1.4, 0.011},
	FibreConduit: {5.2, 0.83, 0.006},
}

// The diameters around cables, m, for which the relation is stated.
const (
	conduitFrom = 25e-3
	conduitTo   = 100e-3
)

// A Conduit is a round tube around one or more alike cables that carry the same
// current, in the air of the room.
type Conduit struct {
	Name         string      // of its material
	Kind         ConduitKind // of metal, or not: plastic counts with fibre
	Inner, Outer float64     // m, diameters
	Conductivity float64     // W/(m K)
	HeatCapacity float64     // J/(m³ K)
	Emissivity   float64     // of the outer side
	Count        int         // of cables inside
}

// ConduitDiameter is the diameter around n cables of one diameter [m] in a
// conduit, m: 1, 1.65, 2.15 and 2.5 times their own for one to four (IEC 60287-2-1,
// 4.2.6.2), for more that of a bunch. For a count below 1 it is 0.
func ConduitDiameter(n int, diameter float64) float64 {
	if around := [...]float64{0, 1, 1.65, 2.15, 2.5}; n >= 0 && n < len(around) {
		return orNone(around[n] * diameter)
	}
	return BunchDiameter(n, diameter)
}

func (d *Conduit) check(c *checks, cable float64) {
	if d.Count < 1 || d.Count > mostTogether {
		c.fail("number of cables in the conduit", "must be 1 to %d, not %d", mostTogether, d.Count)
	}
	if d.Kind < 0 || d.Kind >= unknownConduit {
		c.fail("kind of conduit", "is unknown: %d", d.Kind)
	}
	c.positive("conduit's inner diameter", d.Inner)
	if !finite(d.Outer) || d.Outer <= d.Inner {
		c.fail("conduit's outer diameter", "must be above the inner one of %.4g mm, not %.4g mm", d.Inner*1e3, d.Outer*1e3)
	}
	// By area alone: how close they can lie in truth is left to who draws them in.
	if float64(d.Count)*cable*cable > d.Inner*d.Inner {
		c.fail("conduit's inner diameter", "of %.4g mm does not hold %d cables of %.4g mm", d.Inner*1e3, d.Count, cable*1e3)
	}
	c.positive("conduit's conductivity", d.Conductivity)
	c.notNegative("conduit's heat capacity", d.HeatCapacity)
	c.share("conduit's emissivity", d.Emissivity)
}

// placeConduit puts the cable's part of the conduit around its jackets, each of
// which stands for a width [m].
func (p *Cable) placeConduit(b *builder, part int, jackets []network.NodeID, widths []float64, outer float64) []network.NodeID {
	d, n := p.Conduit, float64(p.Conduit.Count)
	around := ConduitDiameter(d.Count, outer)
	if around < conduitFrom || around > conduitTo {
		b.warn(p.Label, fmt.Sprintf("IEC 60287-2-1 states what passes from cables to a conduit for %.0f to %.0f mm around them, not %.3g mm",
			conduitFrom*1e3, conduitTo*1e3, around*1e3))
	}
	law := conduitLaw[d.Kind]
	perMM := 0.1 * around * 1e3
	rising := network.Rising{At0: (1 + law.v*perMM) / law.u / n, Growth: law.y * perMM / law.u / n} // W/(m K), W/(m K²)

	name := p.Label + ", conduit"
	wall := d.HeatCapacity * math.Pi / 4 * (d.Outer*d.Outer - d.Inner*d.Inner) / n // J/(m K)
	through := 2 * math.Pi * d.Conductivity / math.Log(d.Outer/d.Inner) / n        // W/(m K)
	e := exposure{
		emissivity: d.Emissivity,
		shape:      network.HorizontalCylinder{D: d.Outer},
		flow:       network.Across, flowLength: d.Outer,
	}
	if p.Lies == Vertical {
		e.shape = network.VerticalCylinder{D: d.Outer, H: p.Length}
	}
	inside := make([]network.NodeID, len(jackets))
	for i := range jackets {
		inside[i] = b.node(part, name, wall/2*widths[i], 0)
	}
	outside := make([]network.NodeID, len(jackets))
	for i := range jackets {
		outside[i] = b.node(part, name, wall/2*widths[i], 0)
	}
	for i, jacket := range jackets {
		w := widths[i]
		area := math.Pi * outer * w
		id := b.n.AddGap(p.Label+" to its conduit", jacket, inside[i], network.Gap{
			Area: area, Rising: network.Rising{At0: rising.At0 * w, Growth: rising.Growth * w}})
		b.a.covered = append(b.a.covered, covered{id, jacket, inside[i], p.Label + " to its conduit", area})
		b.n.AddLink(name, inside[i], outside[i], through*w)
		e.area = math.Pi * d.Outer / n * w * p.Exposed
		b.expose(part, outside[i], name, e)
	}
	return outside
}

// ConduitResistance is the thermal resistance [K·m/W] from the jackets of
// cables, all together, to a conduit in air, at a diameter around them [m] and
// the mean temperature of both [K]. For what has no finite answer it is 0.
//
// Source: IEC 60287-2-1, 4.2.6.2 and Table 4, as open code quotes them.
func ConduitResistance(kind ConduitKind, around, mean float64) float64 {
	if kind < 0 || kind >= unknownConduit {
		return 0
	}
	law := conduitLaw[kind]
	return orNone(law.u / (1 + 0.1*(law.v+law.y*(mean-materials.ZeroCelsius))*around*1e3))
}
