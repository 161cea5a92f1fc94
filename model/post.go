package model

import (
	"math"

	"clampheat/materials"
	"clampheat/model/network"
)

// A Post is a stud or terminal on a body of its own.
type Post struct {
	Label    string
	Metal    materials.Metal
	Plating  materials.Plating
	Finish   materials.Finish
	Diameter float64 // m, of the metal that carries the current
	Length   float64 // m, that the current runs in it
	// Resistance, Ω at 20 °C, replaces that of the geometry where not 0.
	Resistance materials.Range
	Exposed    float64 // m² of metal that sees the room or its box
	// Body that the post stands on, nil for none. Posts with the same Body stand
	// on one.
	Body *Body
}

// Name is what the user calls the post.
func (p *Post) Name() string { return p.Label }

func (p *Post) check() error {
	c := checks{where: p.Label}
	c.positive("diameter", p.Diameter)
	c.positive("length", p.Length)
	c.notNegative("exposed surface", p.Exposed)
	c.notNegative("resistance", p.Resistance.Likely)
	c.share("finish's emissivity", p.Finish.Emissivity.Likely)
	checkLump(&c, p.Metal)
	if p.Body != nil {
		p.Body.check(&c)
	}
	return c.err
}

func (p *Post) place(b *builder, part int) error {
	if err := p.check(); err != nil {
		return err
	}
	section := math.Pi / 4 * p.Diameter * p.Diameter
	n := b.lump(part, p.Label, p.Metal, section*p.Length)
	b.parts[part].ports = []port{{n, p.Metal}, {n, p.Metal}}
	b.parts[part].path = []Place{{n, part, p.Length / 2}}
	b.parts[part].length = p.Length
	b.resist(part, OtherSource, ownResistor(p.Label, n, p.Metal, p.Resistance.Likely, p.Length, section))
	b.expose(part, n, p.Label, compact(p.Exposed, 1, p.Finish, p.Metal, section*p.Length))

	row := b.row(TerminalRow, p.Label, part, n)
	row.Limits = platingLimits(p.Plating)
	b.addRow(part, row)
	if p.Body != nil {
		return b.body(part, p.Body, n, b.boxed[part])
	}
	return nil
}

// ownResistor is the resistor of a lump of metal: of its geometry, or the
// stated ohms where they are not 0.
func ownResistor(name string, n network.NodeID, m materials.Metal, stated, length, section float64) network.Resistor {
	ohm := stated
	if ohm == 0 {
		ohm = m.Resistivity20 * length / section
	}
	return network.Resistor{Name: name, A: n, B: n, R20: ohm, Alpha: m.Alpha20}
}
