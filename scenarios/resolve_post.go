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
		Body:     o.body(),
	}
	if item.Ohms.Set {
		o.use(item.Ohms.Pos)
		post.Resistance = materials.Exactly(item.Ohms.Value)
	}
	part := o.addPart(post)
	out.outer = [2]model.Port{{Part: part, Port: 0}, {Part: part, Port: 1}}
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

// body is what the post stands on: its own, or the one that posts on the same
// case share.
func (o owner) body() *model.Body {
	item := o.item
	body := &model.Body{
		Name:     o.prefix() + bodyName(item.Kind),
		To:       o.span("body takes", quantity.Conductance, item.Takes),
		Capacity: o.value("body heat capacity", quantity.HeatCapacity, item.Heat),
		Loss:     o.value("body loss", quantity.Conductance, Quantity{}),
	}
	if !item.Case.Set {
		return body
	}
	o.use(item.Case.Pos)
	name := o.caseName()
	shared, known := o.cases[name]
	switch {
	case !known:
		body.Name = o.prefix() + item.Case.Text
		o.cases[name] = body
		return body
	case shared.To != body.To && item.Takes.Set:
		o.complain(o.file.problemAt(item.Takes.Pos, "the case %q takes another heat at another post of it", item.Case.Text).hint("state it alike at all posts of the case, or at the first only"))
	case shared.Capacity != body.Capacity && item.Heat.Set:
		o.complain(o.file.problemAt(item.Heat.Pos, "the case %q has another heat capacity at another post of it", item.Case.Text).hint("state it alike at all posts of the case, or at the first only"))
	}
	return shared
}

// caseName tells the cases of the file apart: one within the path of a battery is
// that battery's.
func (o owner) caseName() string {
	name := o.item.Case.Text
	if battery := o.batteryOf(o.item.Way); battery > 0 {
		name = o.file.fullName(battery) + ": " + name
	}
	return name
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
