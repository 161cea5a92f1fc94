package model

import (
	"math"

	"clampheat/materials"
)

// A Washer is a disc in the way of the current.
type Washer struct {
	Label              string
	Metal              materials.Metal
	Plating            materials.Plating
	Finish             materials.Finish
	Hole, Outer, Thick float64 // m
}

// Name is what the user calls the washer.
func (p *Washer) Name() string { return p.Label }

func (p *Washer) check() error {
	c := checks{where: p.Label}
	c.positive("hole", p.Hole)
	c.positive("thickness", p.Thick)
	c.positive("outer diameter less the hole", p.Outer-p.Hole)
	c.share("finish's emissivity", p.Finish.Emissivity.Likely)
	checkLump(&c, p.Metal)
	return c.err
}

func (p *Washer) place(b *builder, part int) error {
	if err := p.check(); err != nil {
		return err
	}
	section := math.Pi / 4 * (p.Outer*p.Outer - p.Hole*p.Hole)
	// Two halves, so that the heat which crosses the disc meets its resistance:
	// a washer of steel is in the way of both.
	volume := section * p.Thick
	first := b.lump(part, p.Label, p.Metal, volume/2)
	second := b.lump(part, p.Label, p.Metal, volume/2)
	b.n.AddLink(p.Label, first, second, p.Metal.Conductivity*section/p.Thick)
	b.parts[part].ports = []port{{first, p.Metal}, {second, p.Metal}}
	b.parts[part].path = []Place{{first, part, 0}, {second, part, p.Thick}}
	b.parts[part].length = p.Thick
	rim := math.Pi * p.Outer * p.Thick
	for i := range 2 {
		n := b.parts[part].ports[i].node
		b.resist(part, OtherSource, ownResistor(p.Label, n, p.Metal, 0, p.Thick/2, section))
		b.expose(part, n, p.Label, compact(rim, 0.5, p.Finish, p.Metal, volume))
	}
	b.addRow(part, b.row(PartRow, p.Label, part, first, second))
	return nil
}
