package model

import (
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
)

// Lie says how a long part lies.
type Lie int

const (
	Horizontal Lie = iota // cable; bar with its width upright ("on edge")
	Flat                  // bar with its width level
	Vertical              // running upwards
)

// A Cable is a round conductor in a jacket.
type Cable struct {
	Label      string
	Conductor  materials.Conductor
	Insulation materials.Insulation
	Wall       float64 // m, thickness of the jacket
	Length     float64 // m
	Lies       Lie
	Exposed    float64 // share of the jacket that sees the room
	Ends       [2]End  // of the ports that no joint takes
	// Bundle are the cables that it touches, itself among them, and Conduit what
	// it lies in, with others or alone; nil where there is none. It has one or
	// the other.
	Bundle  *Bundle
	Conduit *Conduit
}

// Name is what the user calls the cable.
func (p *Cable) Name() string { return p.Label }

func (p *Cable) check() error {
	c := checks{where: p.Label}
	c.positive("length", p.Length)
	c.positive("insulation's thickness", p.Wall)
	c.positive("conductor's area", p.Conductor.Area)
	c.positive("conductor's resistance", p.Conductor.Resistance20)
	c.positive("conductor's diameter", p.Conductor.Diameter.Likely)
	c.positive("insulation's conductivity", p.Insulation.Conductivity.Likely)
	c.positive("insulation's heat capacity", p.Insulation.HeatCapacity)
	c.share("insulation's emissivity", p.Insulation.Emissivity.Likely)
	c.share("exposed share", p.Exposed)
	checkLump(&c, p.Conductor.Metal)
	switch {
	case p.Bundle != nil && p.Conduit != nil:
		c.fail("bundle", "lies in a conduit: how many cables that holds is the conduit's count")
	case p.Bundle != nil:
		p.Bundle.check(&c)
	case p.Conduit != nil:
		p.Conduit.check(&c, p.Conductor.Diameter.Likely+2*p.Wall)
	}
	if p.Lies != Horizontal && p.Lies != Flat && p.Lies != Vertical {
		c.fail("way it lies", "is unknown: %d", p.Lies)
	}
	for side := range p.Ends {
		p.Ends[side].check(&c)
	}
	return c.err
}

// JacketShare is the share of a jacket's heat capacity that counts with the
// conductor, the rest with the surface, for the ratio of the jacket's diameter
// to the conductor's:
//
//	p = 1/(2 ln(D/d)) − 1/((D/d)² − 1)    (9)
//
// The ratio is at least 1, where the share is one half; a smaller one counts as
// 1, and for what is no number the answer is 0.
//
// Source: Van Wormer 1955, in IEC 60853-2:1989, 4.2.3.1.
func JacketShare(ratio float64) float64 {
	ratio = max(1, ratio)
	if x := ratio - 1; x < 1e-4 {
		return 0.5 - x/6 // the series of p about x = 0; the terms of p cancel there
	}
	return orNone(1/(2*math.Log(ratio)) - 1/(ratio*ratio-1))
}

func (p *Cable) place(b *builder, part int) error {
	if err := p.check(); err != nil {
		return err
	}
	p.warnShared(b, part)
	metal, d := p.Conductor.Metal, p.Conductor.Diameter.Likely
	outer := d + 2*p.Wall
	jacket := p.Insulation.HeatCapacity * math.Pi / 4 * (outer*outer - d*d) // J/(m K)
	inner := JacketShare(outer/d) * jacket
	copper := p.Conductor.Area * metal.Density // kg/m
	air := p.Bundle.hull(outer, p.Length, p.Lies)
	if p.Conduit != nil {
		air.inside = BunchResistance(p.Conduit.Count)
	}

	nodes, widths, err := b.rod(part, rod{
		length:    p.Length,
		perimeter: air.perimeter,
		// What the lay and the strands take from the current they take from
		// the heat: k·A by the resistance and the metal's ρ·k.
		conduction: metal.Conductivity * metal.Resistivity20 / p.Conductor.Resistance20,
		capacity:   copper*metal.SpecificHeat + inner,
		resistance: p.Conductor.Resistance20,
		metal:      metal,
		source:     CableSource,
		ends:       p.Ends,
	})
	if err != nil {
		return err
	}
	b.parts[part].figures.Mass = copper * p.Length

	e := exposure{
		emissivity: p.Insulation.Emissivity.Likely,
		shape:      air.shape,
		flow:       air.flow, flowLength: air.flowLength,
		depth: p.Wall, conductivity: p.Insulation.Conductivity.Likely, layered: true,
	}
	through := 2 * math.Pi * p.Insulation.Conductivity.Likely / math.Log(outer/d) // W/(m K)
	if air.inside > 0 {
		through = 1 / (1/through + air.inside)
	}
	jackets := make([]network.NodeID, len(nodes))
	for i := range nodes {
		jackets[i] = b.node(part, p.Label+", jacket", (jacket-inner)*widths[i], 0)
	}
	for i, n := range jackets {
		b.n.AddLink(p.Label+", jacket", nodes[i], n, through*widths[i])
		if p.Conduit == nil {
			e.area = air.perimeter * widths[i] * p.Exposed
			b.expose(part, n, p.Label, e)
		}
	}
	outermost := jackets
	if p.Conduit != nil {
		outermost = p.placeConduit(b, part, jackets, widths, outer)
	}

	row := b.row(PartRow, p.Label, part, nodes...)
	for _, n := range outermost {
		row.Surfaces = append(row.Surfaces, b.parts[part].surfaces[n]...)
	}
	if p.Insulation.MaxTemp > 0 {
		row.Limits = []Limit{{
			Name:   fmt.Sprintf("%s insulation", p.Insulation.Name),
			Source: "rating of the insulation", Temp: p.Insulation.MaxTemp,
		}}
	}
	b.addRow(part, row)
	return nil
}

// warnShared says that of cables side by side the heat of one alone comes into what
// they share, where there is such a thing.
func (p *Cable) warnShared(b *builder, part int) {
	n := 1
	if p.Bundle != nil {
		n = p.Bundle.Count
	}
	if p.Conduit != nil {
		n = max(n, p.Conduit.Count)
	}
	if n == 1 || !b.boxed[part] && b.cover[part] < 0 {
		return
	}
	var in string
	if v := b.cover[part]; v >= 0 {
		in = b.s.Covers[v].Label
	} else {
		in = b.s.Enclosure.Label
	}
	b.warn(p.Label, fmt.Sprintf("it is one of %d alike cables, and only its own heat warms %s: with that of the others it is hotter there than worked out", n, in))
}
