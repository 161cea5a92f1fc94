package model

import (
	"clampheat/materials"
	"clampheat/model/network"
)

// A Bar is a flat conductor with a port at each end or, with Studs, at each of
// these.
type Bar struct {
	Label                    string
	Metal                    materials.Metal
	Plating                  materials.Plating
	Finish                   materials.Finish
	Width, Thickness, Length float64 // m
	Lies                     Lie
	Exposed                  float64 // share of its long sides that sees the room
	Ends                     [2]End  // of the ports that no joint takes
	// Studs are the places along the bar, m from its beginning and rising, where
	// joints press on it. With any, the ports count them, and current flows
	// between those that are taken. StudNames are "A", "B", … where empty.
	Studs     []float64
	StudNames []string
	// Count bars stand side by side with a Gap, m, between them; 0 means one.
	Count int
	Gap   float64
}

// Name is what the user calls the bar.
func (p *Bar) Name() string { return p.Label }

func (p *Bar) check() error {
	c := checks{where: p.Label}
	c.positive("length", p.Length)
	c.positive("width", p.Width)
	c.positive("thickness", p.Thickness)
	c.share("exposed share", p.Exposed)
	c.share("finish's emissivity", p.Finish.Emissivity.Likely)
	checkLump(&c, p.Metal)
	p.checkBars(&c)
	p.checkStuds(&c)
	if p.Lies != Horizontal && p.Lies != Flat && p.Lies != Vertical {
		c.fail("way it lies", "is unknown: %d", p.Lies)
	}
	for side := range p.Ends {
		p.Ends[side].check(&c)
	}
	return c.err
}

func (p *Bar) place(b *builder, part int) error {
	if err := p.check(); err != nil {
		return err
	}
	section, perimeter := p.section(), p.outside()
	nodes, widths, err := b.rod(part, rod{
		length:     p.Length,
		perimeter:  perimeter,
		conduction: p.Metal.Conductivity * section,
		capacity:   p.Metal.Density * p.Metal.SpecificHeat * section,
		resistance: p.Metal.Resistivity20 / section,
		metal:      p.Metal,
		source:     OtherSource,
		ends:       p.Ends,
		studs:      p.Studs,
	})
	if err != nil {
		return err
	}
	b.parts[part].figures.Mass = p.Metal.Density * section * p.Length

	e := exposure{
		emissivity: p.Finish.Emissivity.Likely,
		shape:      network.BarOnEdge(p.Width, p.Thickness),
		flow:       network.Along, flowLength: p.Width,
		depth: p.Thickness / 2, conductivity: p.Metal.Conductivity,
	}
	switch p.Lies {
	case Flat:
		e.shape = network.BarFlat(p.Width, p.Thickness)
	case Vertical:
		e.shape = network.VerticalPlate{H: p.Length}
	}
	for i, n := range nodes {
		e.area = perimeter * widths[i] * p.Exposed
		b.expose(part, n, p.Label, e)
		b.exposeChannels(part, n, p, widths[i])
	}
	if len(p.Studs) > 0 {
		p.rows(b, part, nodes)
		return nil
	}
	row := b.row(TerminalRow, p.Label, part, nodes...)
	row.Limits = platingLimits(p.Plating)
	b.addRow(part, row)
	return nil
}
