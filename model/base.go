package model

import (
	"math"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file holds what is of plastic: the bodies that touch the terminals of
// other parts, take heat from them and lose it to the room.

// A Housing is a plastic body around a block or under a fuse.
type Housing struct {
	Capacity   float64         // J/K
	To         materials.Range // W/K, from each lump to the housing
	Exposed    float64         // m² that sees the room
	Height     float64         // m, of its upright faces; 0 = a compact body of any shape
	Emissivity float64
}

// A Base is a body that carries the terminals of other parts but no current:
// the plastic foot of a bolted holder.
type Base struct {
	Label   string
	Housing Housing
	Carries []Port
	LimitTo float64 // K, of the plastic; 0 = none
}

// Name is what the user calls the base.
func (p *Base) Name() string { return p.Label }

func (h *Housing) check(c *checks) {
	c.notNegative("housing's heat capacity", h.Capacity)
	c.notNegative("housing's exposed surface", h.Exposed)
	c.notNegative("housing's height", h.Height)
	c.share("housing's emissivity", h.Emissivity)
	c.positive("conductance to the housing", h.To.Likely)
}

// housing adds a housing's node and surface, and links it to the lumps that
// it touches.
func (b *builder) housing(part int, name string, h *Housing, limit float64, lumps ...network.NodeID) network.NodeID {
	n := b.node(part, name, h.Capacity, 0)
	for _, lump := range lumps {
		b.n.AddLink(name, lump, n, h.To.Likely)
	}
	e := exposure{area: h.Exposed, emissivity: h.Emissivity, flow: network.Along}
	switch {
	case h.Exposed == 0:
	case h.Height > 0:
		e.shape, e.flowLength = network.VerticalPlate{H: h.Height}, h.Height
	default:
		l := math.Sqrt(h.Exposed)
		e.shape, e.flowLength = network.Block{SqrtArea: l}, l
	}
	b.expose(part, n, name, e)
	row := b.row(BodyRow, name, part, n)
	row.Limits = plasticLimits(limit)
	b.beside = append(b.beside, row)
	return n
}

func (p *Base) place(b *builder, part int) error {
	c := checks{where: p.Label}
	p.Housing.check(&c)
	c.notNegative("limit of the plastic", p.LimitTo)
	if len(p.Carries) == 0 {
		c.fail("", "it carries no terminal")
	}
	if c.err != nil {
		return c.err
	}
	lumps := make([]network.NodeID, len(p.Carries))
	for i, at := range p.Carries {
		carried, err := b.port(p.Label, at)
		if err != nil {
			return err
		}
		lumps[i] = carried.node
	}
	b.housing(part, p.Label, &p.Housing, p.LimitTo, lumps...)
	return nil
}
