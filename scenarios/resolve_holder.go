package scenarios

import (
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes the fuse holders with their fuses.

// compactHolder is a base with a hole for a neighbour's stud and a stud of its
// own, on which one nut presses base, fuse and a neighbour's lug together.
func (o owner) compactHolder(p place) piece {
	item := o.item
	out := piece{item: o.index, label: o.label}
	metal := o.metal(o.word("base metal", item.Metal))
	plating := o.plating(o.word("plating", item.Plating))
	finish := o.finishOn(plating)
	plastic := o.plasticEmissivity()
	width, thickness := o.section("base width", "base thickness")

	base := &model.Block{
		Label: o.label + ", base", Metal: metal, Plating: plating, Finish: finish,
		Length: o.value("base length", quantity.Length, item.Length), Width: width, Thickness: thickness,
		Exposed: o.exposed(o.value("base surface", quantity.Area, item.Surface)),
		Housing: &model.Housing{
			Capacity:   o.value("housing heat capacity", quantity.HeatCapacity, Quantity{}),
			To:         o.span("housing takes", quantity.Conductance, Quantity{}),
			Exposed:    o.value("housing surface", quantity.Area, Quantity{}),
			Emissivity: plastic,
		},
		PlasticTo: o.value("plastic limit", quantity.Temperature, Quantity{}),
	}
	if item.Ohms.Set {
		o.use(item.Ohms.Pos)
		base.Resistance = materials.Exactly(item.Ohms.Value)
	}
	capWidth := o.value("cap width", quantity.Length, Quantity{})
	fuse := &model.Fuse{
		Label: o.prefix() + fuseLabel(item), Metal: o.metal(o.defaultWord(o.label, o.part, "cap metal")), Plating: plating, Finish: finish,
		CapLength:    o.value("cap length", quantity.Length, Quantity{}),
		CapWidth:     capWidth,
		CapThickness: o.value("cap thickness", quantity.Length, Quantity{}),
		CapExposed:   o.value("cap surface", quantity.Area, Quantity{}),
		Body:         o.fuseBody(plastic),
		Sides:        [2]string{"base side", "nut side"},
	}
	o.element(fuse)
	basePart, fusePart := o.addPart(base), o.addPart(fuse)

	thread := o.word("stud", item.Stud)
	class := o.word("stud class", item.Class)
	bolt := -1
	if t := o.torques(item, 1); t != nil {
		bolt = o.addBolt(o, o.label+", nut", thread, class, t[0])
	}
	onBase := func(port int) *contact {
		return &contact{port: model.Port{Part: basePart, Port: port}, item: o.index, name: base.Label,
			metal: metal, plating: plating, face: width * width, across: width, depth: thickness, bolt: -1}
	}
	onCap := func(side int) *contact {
		return &contact{port: model.Port{Part: fusePart, Port: side}, item: o.index, name: fuse.Label + ", " + fuse.Sides[side],
			metal: fuse.Metal, plating: plating, face: capWidth * capWidth, across: capWidth, depth: fuse.CapThickness, bolt: -1}
	}
	if bolt >= 0 {
		o.join(onBase(1), onCap(0), bolt, o.item.Way)
	}
	out.entry, out.exit = onBase(0), onCap(1)
	out.exit.bolt = bolt
	if p.reversed {
		out.entry, out.exit = out.exit, out.entry
	}
	return out
}

// boltedHolder is a fuse whose tags lie on the two studs of a plastic base,
// each under a nut with a neighbour's lug.
func (o owner) boltedHolder(sides [2]string) piece {
	item := o.item
	out := piece{item: o.index, label: o.label}
	metal := o.metal(o.word("tag metal", item.Metal))
	plating := o.plating(o.word("plating", item.Plating))
	plastic := o.plasticEmissivity()
	width, thickness := o.section("tag width", "tag thickness")
	fuse := &model.Fuse{
		Label: o.prefix() + fuseLabel(item), Metal: metal, Plating: plating,
		Finish:    o.finishOn(plating),
		CapLength: o.value("tag length", quantity.Length, item.Length), CapWidth: width, CapThickness: thickness,
		CapExposed: o.exposed(o.value("tag surface", quantity.Area, item.Surface)),
		Body:       o.fuseBody(plastic),
		Sides:      sides,
	}
	o.element(fuse)
	part := o.addPart(fuse)
	o.base(part, plastic)
	bolts := o.twoBolts(sides)
	face := func(side int) *contact {
		return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: fuse.Label + ", " + sides[side],
			metal: metal, plating: plating, face: width * width, across: width, depth: thickness, bolt: bolts[side]}
	}
	out.entry, out.exit = face(0), face(1)
	return out
}

// base is the plastic foot of a holder, or its share of one that several holders
// are screwed to: heat capacity and surface add up.
func (o owner) base(fuse int, plastic float64) {
	own := &model.Base{
		Label: o.label + ", base",
		Housing: model.Housing{
			Capacity:   o.value("base heat capacity", quantity.HeatCapacity, Quantity{}),
			To:         o.span("base takes", quantity.Conductance, Quantity{}),
			Exposed:    o.value("base surface", quantity.Area, Quantity{}),
			Height:     o.value("base height", quantity.Length, Quantity{}),
			Emissivity: plastic,
		},
		Carries: []model.Port{{Part: fuse, Port: 0}, {Part: fuse, Port: 1}},
		LimitTo: o.value("plastic limit", quantity.Temperature, Quantity{}),
	}
	if o.item.Case.Set {
		o.use(o.item.Case.Pos)
		name := o.item.Case.Text
		if post, taken := o.cases[name]; taken {
			o.twoKindsOfCase(post.item)
			return
		}
		if shared, known := o.bases[name]; known {
			shared.base.Housing.Capacity += own.Housing.Capacity
			shared.base.Housing.Exposed += own.Housing.Exposed
			shared.base.Carries = append(shared.base.Carries, own.Carries...)
			return
		}
		own.Label = name
		o.bases[name] = sharedBase{own, o.index}
	}
	o.addPart(own)
}

// twoBolts makes the bolts of a part with two studs.
func (o owner) twoBolts(sides [2]string) [2]int {
	thread := o.word("stud", o.item.Stud)
	class := o.word("stud class", o.item.Class)
	bolts := [2]int{-1, -1}
	if t := o.torques(o.item, 2); t != nil {
		for i, side := range sides {
			bolts[i] = o.addBolt(o, o.label+", nut, "+side, thread, class, t[i])
		}
	}
	return bolts
}

// section is width and thickness, of the file where it gives them.
func (o owner) section(width, thickness string) (w, t float64) {
	if s := o.item.Section; s.Set {
		o.use(s.Pos)
		return s.Width, s.Thickness
	}
	return o.value(width, quantity.Length, Quantity{}), o.value(thickness, quantity.Length, Quantity{})
}

func (o owner) fuseBody(plastic float64) model.Housing {
	return model.Housing{
		Capacity:   o.value("fuse body heat capacity", quantity.HeatCapacity, Quantity{}),
		To:         o.span("fuse body takes", quantity.Conductance, Quantity{}),
		Exposed:    o.value("fuse body surface", quantity.Area, Quantity{}),
		Height:     o.value("fuse body height", quantity.Length, Quantity{}),
		Emissivity: plastic, // ceramics and plastics alike: the handbook tables give 0.85 to 0.95 to both
	}
}

// cover puts the covers over what lies below them: the part itself and the
// lugs on its studs.
func (r *resolver) cover() {
	for i := range r.file.Path {
		item := &r.file.Path[i]
		if r.file.taken[item.Way] {
			continue
		}
		if item.Cover.Set {
			r.use(item.Cover.Pos)
		}
		if _, err := lookGeneric(item.Kind, "cover"); err != nil {
			continue // a kind that has none
		}
		o := r.owner(i)
		if o.word("cover", item.Cover) != "closed" {
			continue
		}
		cover := model.Cover{
			Label:    o.label + ", cover",
			Parts:    r.covered(i),
			Gap:      o.value("cover gap", quantity.Length, Quantity{}),
			Inside:   r.plasticEmissivity(),
			Capacity: o.value("cover heat capacity", quantity.HeatCapacity, Quantity{}),
			Exposed:  o.value("cover surface", quantity.Area, Quantity{}),
			Height:   o.value("cover height", quantity.Length, Quantity{}),
			Outside:  r.plasticEmissivity(),
			LimitTo:  o.value("cover limit", quantity.Temperature, Quantity{}),
		}
		r.stack.Covers = append(r.stack.Covers, cover)
	}
}

// covered lists the parts under the cover of an item: its own but for the
// plastic base, which carries the cover, and the lugs on its studs.
func (r *resolver) covered(item int) []int {
	var parts []int
	under := map[int]bool{}
	for _, c := range r.stack.Covers {
		for _, p := range c.Parts {
			under[p] = true
		}
	}
	for i, p := range r.stack.Parts {
		if _, base := p.(*model.Base); !base && r.partItem[i] == item {
			parts = append(parts, i)
		}
	}
	for _, j := range r.stack.Joints {
		if j.Kind != model.Bolted || r.boltItem[j.Bolt] != item {
			continue
		}
		for _, at := range [2]model.Port{j.A, j.B} {
			_, block := r.stack.Parts[at.Part].(*model.Block)
			if block && r.file.Path[r.partItem[at.Part]].Kind == "cable" && !under[at.Part] {
				parts, under[at.Part] = append(parts, at.Part), true
			}
		}
	}
	return parts
}

// disc is the area of a circle.
func disc(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
