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
	name := item.Case.Text
	if holder, taken := o.bases[name]; taken {
		o.twoKindsOfCase(holder.item)
		return body
	}
	shared, known := o.cases[name]
	switch {
	case !known:
		body.Name = name
		o.cases[name] = sharedBody{body, o.index}
		return body
	case shared.body.To != body.To && item.Takes.Set:
		o.complain(o.file.problemAt(item.Takes.Pos, "the case %q takes another heat at another post of it", item.Case.Text).hint("state it alike at all posts of the case, or at the first only"))
	case shared.body.Capacity != body.Capacity && item.Heat.Set:
		o.complain(o.file.problemAt(item.Heat.Pos, "the case %q has another heat capacity at another post of it", item.Case.Text).hint("state it alike at all posts of the case, or at the first only"))
	}
	return shared.body
}

// sharedBody is what the posts of one case stand on, with the item that it was
// first named with; sharedBase is what the holders of one case are screwed to.
type (
	sharedBody struct {
		body *model.Body
		item int
	}
	sharedBase struct {
		base *model.Base
		item int
	}
)

// twoKindsOfCase tells that posts and holders have a case of one name: a body
// of metal and a foot of plastic are not one thing.
func (o owner) twoKindsOfCase(other int) {
	there := &o.file.Path[other]
	o.complain(o.file.problemAt(o.item.Case.Pos, "the case %q is that of a %s already: a %s cannot be on it too", o.item.Case.Text, there.Kind, o.item.Kind).
		hint("a post stands on a body, a holder is screwed to a base: give each a name of its own; the other is in line %d", there.Case.Pos.Line))
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
