package model

import (
	"fmt"

	"clampheat/materials"
	"clampheat/model/network"
)

// A Fuse is a fuse link: a cap at each end, an element and a body.
type Fuse struct {
	Label   string
	Rated   float64 // A
	Metal   materials.Metal
	Plating materials.Plating
	Finish  materials.Finish
	// Cap is the metal of one end, m: length along the current, width and
	// thickness; CapExposed the m² of it that see the room.
	CapLength, CapWidth, CapThickness, CapExposed float64
	// Cold is the resistance, Ω at 20 °C, four-wire between the caps. Where it
	// is 0, it is solved from Hot.
	Cold materials.Range
	Hot  *HotFigure
	// ElementAlpha is the element's temperature coefficient, 1/K;
	// ElementCapacity J/K; ToCap W/K from the element to each cap; ToBody W/K.
	ElementAlpha    float64
	ElementCapacity float64
	ToCap           materials.Range
	ToBody          float64
	Body            Housing // To is from the body to each cap
	Interrupting    float64 // A; 0 = not stated
	ElementTo       float64 // K, up to which the element's figures hold
	// Sides name the two caps; where empty they are "first side" and "second
	// side".
	Sides [2]string
}

// Name is what the user calls the fuse.
func (p *Fuse) Name() string { return p.Label }

func (p *Fuse) check() error {
	c := checks{where: p.Label}
	c.notNegative("rated current", p.Rated)
	c.positive("cap's length", p.CapLength)
	c.positive("cap's width", p.CapWidth)
	c.positive("cap's thickness", p.CapThickness)
	c.notNegative("cap's exposed surface", p.CapExposed)
	c.notNegative("element's heat capacity", p.ElementCapacity)
	c.notNegative("element's temperature coefficient", p.ElementAlpha)
	c.notNegative("element's ceiling", p.ElementTo)
	c.notNegative("conductance from element to body", p.ToBody)
	c.share("finish's emissivity", p.Finish.Emissivity.Likely)
	checkLump(&c, p.Metal)
	p.Body.check(&c)
	if r := p.ToCap; !positive(r) {
		c.fail("conductance from element to cap", "must be a range above zero, not %g … %g … %g", r.Low, r.Likely, r.High)
	}
	if r := p.Cold; r != (materials.Range{}) && !positive(r) {
		c.fail("cold resistance", "must be a range above zero, not %g … %g … %g", r.Low, r.Likely, r.High)
	}
	if p.Cold.Likely == 0 {
		p.checkHot(&c)
	}
	return c.err
}

// capsOhm is the resistance of the metal of both caps, Ω at 20 °C.
func (p *Fuse) capsOhm() float64 {
	return 2 * p.Metal.Resistivity20 * p.CapLength / (p.CapWidth * p.CapThickness)
}

func (p *Fuse) place(b *builder, part int) error {
	figures, err := p.FuseFigures()
	if err != nil {
		return err
	}
	element := b.c.at(figures.Cold) - p.capsOhm()
	if !(element > 0) {
		return &StackError{Where: p.Label, Field: "cold resistance", Reason: fmt.Sprintf(
			"of %.3g µΩ leaves nothing for the element: the caps alone have %.3g µΩ", b.c.at(figures.Cold)*1e6, p.capsOhm()*1e6)}
	}
	section := p.CapWidth * p.CapThickness
	volume := section * p.CapLength
	var caps [2]network.NodeID
	for i := range caps {
		n := b.lump(part, p.Label+", cap", p.Metal, volume)
		caps[i] = n
		b.parts[part].ports = append(b.parts[part].ports, port{n, p.Metal})
		b.resist(part, FuseSource, ownResistor(p.Label+", cap", n, p.Metal, 0, p.CapLength, section))
		b.expose(part, n, p.Label+", cap", compact(p.CapExposed, 1, p.Finish, p.Metal, volume))
	}
	b.parts[part].path = []Place{{caps[0], part, p.CapLength / 2}, {caps[1], part, 1.5 * p.CapLength}}
	b.parts[part].length = 2 * p.CapLength

	// Two halves. Heat P made evenly along a strip of conductance G from end to
	// end lies on average P/(12 G) above its ends, so that ToCap is 6 G; what leads
	// from half to half makes the way from cap to cap G again.
	var halves [2]network.NodeID
	var ohms []network.ResistorID
	for i, c := range caps {
		halves[i] = b.node(part, p.Label+", element", p.ElementCapacity/2, p.ElementTo)
		b.n.AddLink(p.Label+", element to cap", halves[i], c, p.ToCap.Likely)
		ohms = append(ohms, b.resist(part, FuseSource, network.Resistor{
			Name: p.Label + ", element", A: halves[i], B: halves[i], R20: element / 2, Alpha: p.ElementAlpha})...)
	}
	b.n.AddLink(p.Label+", element", halves[0], halves[1], p.ToCap.Likely/4)

	sides := sideNames(p.Sides)
	terminal := func(i int) Row {
		row := b.row(TerminalRow, p.Label+", "+sides[i], part, caps[i])
		row.Limits = platingLimits(p.Plating)
		return row
	}
	b.addRow(part, terminal(0))
	inside := b.row(ElementRow, p.Label, part, halves[:]...)
	inside.Resistors = ohms
	if p.ElementTo > 0 {
		inside.Limits = []Limit{{Name: "element", Source: "figures of the fuse", Temp: p.ElementTo}}
	}
	b.parts[part].rows = append(b.parts[part].rows, inside)
	b.addRow(part, terminal(1))

	body := b.housing(part, p.Label+", body", &p.Body, 0, caps[:]...)
	if p.ToBody > 0 {
		for _, h := range halves {
			b.n.AddLink(p.Label+", element to body", h, body, p.ToBody/2)
		}
	}
	return nil
}
