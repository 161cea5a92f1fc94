package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes parts with two studs and a resistance between them: battery
// switch and shunt.

func (o owner) twoStud(sides [2]string) piece {
	item := o.item
	metal := o.metal(o.word("metal", item.Metal))
	plating := o.plating(o.word("plating", item.Plating))
	width, thickness := o.section("lump width", "lump thickness")
	block := &model.Block{
		Label: o.label, Metal: metal, Plating: plating,
		Finish: o.finishOn(plating),
		Length: o.value("lump length", quantity.Length, item.Length), Width: width, Thickness: thickness,
		Exposed: o.exposed(o.value("surface", quantity.Area, item.Surface)),
		Across:  o.span("across", quantity.Resistance, item.Ohms),
		Housing: &model.Housing{
			Capacity:   o.value("housing heat capacity", quantity.HeatCapacity, Quantity{}),
			To:         o.span("housing takes", quantity.Conductance, Quantity{}),
			Exposed:    o.value("housing surface", quantity.Area, Quantity{}),
			Emissivity: o.plasticEmissivity(),
		},
		PlasticTo: o.value("plastic limit", quantity.Temperature, Quantity{}),
		Sides:     sides,
	}
	part := o.addPart(block)
	bolts := o.twoBolts(sides)
	face := func(side int) *contact {
		return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: o.label + ", " + sides[side],
			metal: metal, plating: plating, face: width * width, across: width, depth: thickness, bolt: bolts[side]}
	}
	return piece{item: o.index, label: o.label, entry: face(0), exit: face(1)}
}

// washer is a disc that has got between two faces.
func (o owner) washer() piece {
	item := o.item
	fastener, err := materials.LookupFastener(item.Of.Text)
	if err != nil {
		o.fail(err)
		return piece{item: o.index, label: o.label}
	}
	o.part = "washer"
	outer := fastener.WasherDiameter
	if item.Diameter.Set {
		o.use(item.Diameter.Pos)
		outer = item.Diameter.Value
	}
	metal := o.metal(o.word("metal", item.Metal))
	plating := o.platingOr(metal)
	w := &model.Washer{
		Label: o.label, Metal: metal, Plating: plating, Finish: o.finishOn(plating),
		Hole: fastener.HoleDiameter, Outer: outer,
		Thick: o.value("thickness", quantity.Length, item.Length),
	}
	part := o.addPart(w)
	face := func(side int) *contact {
		return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: o.label,
			metal: w.Metal, plating: w.Plating, face: disc(outer), across: outer, depth: w.Thick, bolt: -1}
	}
	return piece{item: o.index, label: o.label, entry: face(0), exit: face(1)}
}
