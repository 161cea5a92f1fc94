package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes posts: studs on a body that takes heat.

func (o owner) post(p place) piece {
	item := o.item
	fastener, err := materials.LookupFastener(item.Of.Text)
	if err != nil {
		o.fail(err)
		return piece{item: o.index, label: o.label}
	}
	out := piece{item: o.index, label: o.label}
	var diameter float64
	if item.Diameter.Set {
		o.use(item.Diameter.Pos)
		diameter = item.Diameter.Value
	} else {
		diameter = fastener.Diameter * o.value("boss over thread", number, Quantity{})
	}
	plating := o.plating(o.word("plating", item.Plating))
	post := &model.Post{
		Label:    o.label,
		Metal:    o.metal(o.word("metal", item.Metal)),
		Plating:  plating,
		Finish:   o.finishOn(plating),
		Diameter: diameter,
		Length:   o.value("boss length", quantity.Length, item.Length),
		Exposed:  o.exposed(o.value("surface", quantity.Area, item.Surface)),
		Body: model.Body{
			Name:     bodyName(item.Kind),
			To:       o.span("body takes", quantity.Conductance, item.Takes),
			Capacity: o.value("body heat capacity", quantity.HeatCapacity, item.Heat),
			Loss:     o.value("body loss", quantity.Conductance, Quantity{}),
		},
	}
	if item.Ohms.Set {
		o.use(item.Ohms.Pos)
		post.Resistance = materials.Exactly(item.Ohms.Value)
	}
	part := o.addPart(post)
	c := &contact{item: o.index, name: o.label, metal: post.Metal, plating: plating,
		face: disc(diameter), across: diameter, depth: post.Length, bolt: -1}
	class := o.word("stud class", item.Class)
	if t := o.torques(item, 1); t != nil {
		c.bolt = o.addBolt(o, o.label+", nut", item.Of.Text, class, t[0])
	}
	if p.exit == stud {
		c.port = model.Port{Part: part, Port: 1}
		out.exit = c
	} else {
		c.port = model.Port{Part: part, Port: 0}
		out.entry = c
	}
	return out
}

// bodyName is what stands behind a post.
func bodyName(kind string) string {
	switch kind {
	case "battery post":
		return "battery"
	case "inverter terminal":
		return "inverter"
	}
	return "body"
}

// exposed applies the share that the file gives to a surface.
func (o owner) exposed(surface float64) float64 {
	if o.item.Exposed.Set {
		o.use(o.item.Exposed.Pos)
		return surface * o.item.Exposed.Value
	}
	return surface
}
