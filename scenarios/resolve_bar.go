package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes bars and blocks: metal with a hole at each end.

func (o owner) bar() piece {
	o.part = "bar"
	item := o.item
	metal, plating := o.metalAndPlating(item.Of)
	o.use(item.Section.Pos)
	o.use(item.Length.Pos)
	bar := &model.Bar{
		Label: o.label, Metal: o.measuredMetal(metal), Plating: plating, Finish: o.finishOn(plating),
		Width: item.Section.Width, Thickness: item.Section.Thickness, Length: item.Length.Value,
		Lies: o.lieOfBars(),
	}
	o.abreast(bar)
	sides := 2 * (bar.Width + bar.Thickness) * bar.Length
	bar.Exposed = o.sidesExposed(sides) / sides
	part := o.addPart(bar)
	return o.holes(part, metal, plating)
}

func (o owner) block() piece {
	o.part = "bar"
	item := o.item
	metal, plating := o.metalAndPlating(item.Of)
	o.use(item.Section.Pos)
	o.use(item.Length.Pos)
	width, thickness, length := item.Section.Width, item.Section.Thickness, item.Length.Value
	if item.Lies.Set {
		o.use(item.Lies.Pos) // a lump loses its heat alike however it lies
	}
	block := &model.Block{
		Label: o.label, Metal: metal, Plating: plating, Finish: o.finishOn(plating),
		Length: length, Width: width, Thickness: thickness,
	}
	block.Exposed = o.sidesExposed(2 * (width + thickness) * length)
	if item.Ohms.Set {
		o.use(item.Ohms.Pos)
		block.Resistance = materials.Exactly(item.Ohms.Value)
	}
	return o.holes(o.addPart(block), metal, plating)
}

// sidesExposed is the surface of a bar that sees the room: of its sides [m²]
// the usual share, unless the file gives the surface, the share or both.
func (o owner) sidesExposed(sides float64) float64 {
	given := o.item.Surface
	if !given.Set {
		return sides * o.value("exposed", quantity.Share, o.item.Exposed)
	}
	o.use(given.Pos)
	if given.Value > sides && !o.partial {
		o.complain(o.file.problemAt(given.Pos, "this is more than all sides of the %s have, %s", o.item.Kind,
			quantity.Format(quantity.Area, sides, "cm²", 3)).hint("leave it out, or correct section and length"))
		return sides
	}
	return o.exposed(given.Value)
}

// measuredMetal gives the metal a resistivity that makes the bar have the
// resistance that the file gives; the way of heat stays that of the geometry.
func (o owner) measuredMetal(m materials.Metal) materials.Metal {
	if given := o.item.Ohms; given.Set {
		o.use(given.Pos)
		m.Resistivity20 = given.Value * o.item.Section.Width * o.item.Section.Thickness / o.item.Length.Value
	}
	return m
}

// holes are the two faces of a bar: squares of its width with a hole.
func (o owner) holes(part int, metal materials.Metal, plating materials.Plating) piece {
	face := func(side int) *contact {
		w := o.item.Section.Width
		return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: o.label,
			metal: metal, plating: plating, face: w * w, across: w, depth: o.item.Section.Thickness, bolt: -1}
	}
	return piece{item: o.index, label: o.label, entry: face(0), exit: face(1)}
}
