package model

import (
	"clampheat/materials"
	"clampheat/model/network"
)

// A Bar is a flat conductor with a port at each end.
type Bar struct {
	Label                    string
	Metal                    materials.Metal
	Plating                  materials.Plating
	Finish                   materials.Finish
	Width, Thickness, Length float64 // m
	Lies                     Lie
	Exposed                  float64 // share of its long sides that sees the room
	Ends                     [2]End  // of the ports that no joint takes
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
	section, perimeter := p.Width*p.Thickness, 2*(p.Width+p.Thickness)
	nodes, widths, err := b.rod(part, rod{
		length:     p.Length,
		perimeter:  perimeter,
		conduction: p.Metal.Conductivity * section,
		capacity:   p.Metal.Density * p.Metal.SpecificHeat * section,
		resistance: p.Metal.Resistivity20 / section,
		metal:      p.Metal,
		source:     OtherSource,
		ends:       p.Ends,
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
	}
	row := b.row(TerminalRow, p.Label, part, nodes...)
	row.Limits = platingLimits(p.Plating)
	b.addRow(part, row)
	return nil
}
