package model

import (
	"clampheat/materials"
	"clampheat/model/network"
)

// A Block is a compact lump of metal: lug, pad, base of a holder. With Across
// set it is two lumps with a resistance between them in one housing: a switch
// or shunt.
type Block struct {
	Label                    string
	Metal                    materials.Metal
	Plating                  materials.Plating
	Finish                   materials.Finish
	Length, Width, Thickness float64 // m; Length is that of the current; of each lump
	// Resistance, Ω at 20 °C, replaces that of the geometry where not 0; of
	// each lump.
	Resistance materials.Range
	Exposed    float64 // m² of metal that sees the room, of each lump
	Across     materials.Range
	Housing    *Housing
	PlasticTo  float64 // K, up to which the plastic that touches it may go; 0 = none
	// Sides name the two terminals of a block with Across; where empty they
	// are "first side" and "second side".
	Sides [2]string
}

// Name is what the user calls the block.
func (p *Block) Name() string { return p.Label }

func (p *Block) check() error {
	c := checks{where: p.Label}
	c.positive("length", p.Length)
	c.positive("width", p.Width)
	c.positive("thickness", p.Thickness)
	c.notNegative("exposed surface", p.Exposed)
	c.notNegative("resistance", p.Resistance.Likely)
	c.notNegative("resistance across", p.Across.Likely)
	c.notNegative("limit of the plastic", p.PlasticTo)
	c.share("finish's emissivity", p.Finish.Emissivity.Likely)
	checkLump(&c, p.Metal)
	if p.Housing != nil {
		p.Housing.check(&c)
	}
	return c.err
}

func (p *Block) place(b *builder, part int) error {
	if err := p.check(); err != nil {
		return err
	}
	section := p.Width * p.Thickness
	volume := section * p.Length
	var nodes [2]network.NodeID
	lumps := 1.0
	if p.Across.Likely > 0 {
		lumps = 2
	}
	// One lump is cut in two halves, a node at each port, so that the heat
	// which runs through it meets its resistance.
	for i := range nodes {
		n := b.lump(part, p.Label, p.Metal, volume*lumps/2)
		nodes[i] = n
		b.parts[part].ports = append(b.parts[part].ports, port{n, p.Metal})
		b.resist(part, OtherSource, ownResistor(p.Label, n, p.Metal, p.Resistance.Likely*lumps/2, p.Length*lumps/2, section))
		b.expose(part, n, p.Label, compact(p.Exposed, lumps/2, p.Finish, p.Metal, volume))
	}
	if lumps == 2 {
		b.placeAcross(part, p, nodes)
	} else {
		b.n.AddLink(p.Label, nodes[0], nodes[1], p.Metal.Conductivity*section/p.Length)
		b.parts[part].path = []Place{{nodes[0], part, 0}, {nodes[1], part, p.Length}}
		b.parts[part].length = p.Length
		b.addRow(part, p.terminal(b, part, p.Label, nodes[:]...))
	}
	if p.Housing != nil {
		touching := nodes[:]
		h := *p.Housing
		if lumps == 1 {
			h.To = scale(h.To, 0.5) // it is stated for the whole lump
		}
		b.housing(part, p.Label+", housing", &h, p.PlasticTo, touching...)
	}
	return nil
}

// placeAcross adds what lies between the two lumps of a switch or shunt. The
// heat that crosses with the current does so by Wiedemann–Franz: both go
// through metal.
func (b *builder) placeAcross(part int, p *Block, nodes [2]network.NodeID) {
	b.n.AddLink(p.Label, nodes[0], nodes[1], MetallicConductance(p.Across.Likely))
	across := b.resist(part, OtherSource, network.Resistor{
		Name: p.Label, A: nodes[0], B: nodes[1], R20: p.Across.Likely, Alpha: p.Metal.Alpha20})
	b.parts[part].path = []Place{{nodes[0], part, p.Length / 2}, {nodes[1], part, 1.5 * p.Length}}
	b.parts[part].length = 2 * p.Length

	sides := sideNames(p.Sides)
	b.addRow(part, p.terminal(b, part, p.Label+", "+sides[0], nodes[0]))
	middle := b.row(PartRow, p.Label, part, nodes[:]...)
	middle.Resistors = across
	middle.Surfaces = nil
	b.parts[part].rows = append(b.parts[part].rows, middle)
	b.addRow(part, p.terminal(b, part, p.Label+", "+sides[1], nodes[1]))
}

func (p *Block) terminal(b *builder, part int, name string, nodes ...network.NodeID) Row {
	row := b.row(TerminalRow, name, part, nodes...)
	row.Limits = append(platingLimits(p.Plating), plasticLimits(p.PlasticTo)...)
	return row
}

// sideNames fills in the names of the two sides of a part.
func sideNames(given [2]string) [2]string {
	names := [2]string{"first side", "second side"}
	for i, n := range given {
		if n != "" {
			names[i] = n
		}
	}
	return names
}
