package scenarios

import (
	"slices"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file puts the stack, or parts of it, into a box.

const boxPart = "box"

func (r *resolver) box() {
	b := &r.file.Enclosure
	if !b.Set || !b.Wall.Set {
		return // the reader told why
	}
	wall, err := materials.LookupWallMaterial(b.Wall.Text)
	r.fail(err)
	where := "wall of " + wall.Name
	conductivity := r.row(where, "conductivity", wall.Conductivity, "W/(m·K)", 1, wall.Provenance).Likely
	thickness := b.Thickness.Value
	if !b.Thickness.Set {
		thickness = r.assume(Assumption{Where: boxPart, What: "thickness", Value: wall.UsualThickness, Kind: quantity.Length, Unit: "mm",
			Basis: wall.Basis, Source: wall.Source.Cite, Ground: wall.Ground}).Likely
	}
	finish := b.Finish.Text
	if !b.Finish.Set {
		finish = wall.Finish
		r.assume(Assumption{Where: boxPart, What: "finish", Text: finish, Basis: materials.Assumed, Ground: "usual for a wall of " + wall.Name})
	}
	emissivity := r.finish(finish).Emissivity.Likely
	box := &model.Enclosure{
		Label: boxPart, Width: b.Width.Value, Height: b.Height.Value, Depth: b.Depth.Value,
		Wall: model.Wall{Name: wall.Name, Conductivity: conductivity, Density: wall.Density,
			SpecificHeat: wall.SpecificHeat, Thickness: thickness},
		Inside: emissivity, Outside: emissivity,
		Fan: b.Fan.Value, Heat: b.Heat.Value,
	}
	switch r.wordOr(boxPart, boxPart, "mounting", b.Mounting) {
	case "on bulkhead":
		box.Mounting = model.OnBulkhead
		box.Bulkhead = r.perArea(boxPart, "bulkhead")
	case "against insulation":
		box.Mounting = model.Insulated
	}
	if b.Vents.Set {
		box.Inlet, box.Outlet = b.Vents.Low, b.Vents.High
		box.VentRise = b.VentRise.Value
		if !b.VentRise.Set {
			box.VentRise = box.Height * r.spanOf(boxPart, boxPart, "vent rise over height", quantity.Share).Likely
		}
	} else {
		r.defaultWord(boxPart, boxPart, "vents")
	}
	if !b.Fan.Set {
		r.defaultWord(boxPart, boxPart, "fan")
	}
	if !b.Heat.Set {
		r.defaultWord(boxPart, boxPart, "other heat")
	}
	told := len(r.problems)
	box.Parts = r.inBox()
	if len(r.problems) > told {
		return
	}
	if len(box.Parts) == 0 && !r.partial {
		r.complain(r.file.problemAt(b.Pos, "nothing of the path is in this box").hint("say what it holds: \"holds: [compact holder]\""))
		return
	}
	r.stack.Enclosure = box
}

// perArea takes a conductance per area, W/(m² K), for which there is no kind of
// quantity: no file states one.
func (r *resolver) perArea(where, what string) float64 {
	const unit = "W/(m² K)"
	d, err := lookGeneric(where, what)
	if err != nil {
		r.fail(err)
		return 0
	}
	v, err := d.spanIn(unit)
	if err != nil {
		r.fail(&PartsError{where, what, "cannot be read: " + err.Error()})
		return 0
	}
	return r.assume(Assumption{Where: where, What: what, Value: v, Unit: unit, Scale: 1,
		Basis: d.basis(), Source: d.source, Ground: d.ground}).Likely
}

// inBox lists the parts of the stack in the box: those of the items that the
// file names, or of all but posts and long cables, with the lugs that lie on
// them.
func (r *resolver) inBox() []int {
	f := r.file
	b := &f.Enclosure
	held := make([]bool, len(f.Path))
	if b.Holds.Set {
		r.use(b.Holds.Pos)
		for _, name := range b.Holds.List {
			found := f.called(name.Text, r.names)
			if len(found) == 0 && !f.dropped {
				r.complain(r.notCalled(name))
			}
			for _, i := range found {
				held[i] = true
			}
		}
	} else {
		r.defaultWord(boxPart, boxPart, "holds")
		room := b.Width.Value + b.Height.Value + b.Depth.Value
		for i := range f.Path {
			item := &f.Path[i]
			held[i] = !isPost(item) && !(item.Kind == "cable" && item.Length.Value > room)
		}
	}
	r.cablesBetween(held)
	var parts []int
	in := make([]bool, len(r.stack.Parts))
	for part, item := range r.partItem {
		in[part] = held[item]
	}
	for _, j := range r.stack.Joints {
		if j.Kind != model.Bolted || !held[r.boltItem[j.Bolt]] {
			continue
		}
		for _, p := range [2]int{j.A.Part, j.B.Part} {
			if _, lug := r.stack.Parts[p].(*model.Block); lug && f.Path[r.partItem[p]].Kind == "cable" {
				in[p] = true
			}
		}
	}
	for part, yes := range in {
		if yes {
			parts = append(parts, part)
		}
	}
	return parts
}

// cablesBetween puts the cables into the box that join parts which it holds,
// unless the file lists cables among what the box holds.
func (r *resolver) cablesBetween(held []bool) {
	f := r.file
	cable := func(i int) bool { return f.Path[i].Kind == "cable" }
	if f.Enclosure.Holds.Set {
		for i := range held {
			if held[i] && cable(i) {
				return
			}
		}
	}
	inside := func(i, side int) bool {
		across := r.order.across(i, side)
		for _, s := range across {
			if !held[s.item] || cable(s.item) {
				return false
			}
		}
		return len(across) > 0
	}
	var more []int
	for i := range f.Path {
		if cable(i) && !held[i] && inside(i, 0) && inside(i, 1) {
			more = append(more, i)
		}
	}
	for _, i := range more {
		held[i] = true
		r.assume(Assumption{Where: boxPart, What: r.names.where[i], Text: "in the box", Basis: materials.Assumed,
			Ground: "it joins parts that the box holds; where the box's list names cables, only those are in it"})
	}
}

// called are the items that a name means: a part by its label, with or without
// that of its way, all parts of a kind, or all of a way.
func (f *File) called(name string, names naming) (items []int) {
	for i := range f.Path {
		if names.labels[i] == name {
			return []int{i}
		}
	}
	for i := range f.Path {
		way := false
		for w := f.Path[i].Way; w > 0; w = f.Ways[w].Parent {
			way = way || f.Ways[w].Name == name || f.fullName(w) == name
		}
		if way || names.short[i] == name || f.Path[i].Kind == name {
			items = append(items, i)
		}
	}
	return items
}

// notCalled tells of a name that no part has.
func (r *resolver) notCalled(name Word) Problem {
	f := r.file
	var known []string
	for i := range f.Path {
		known = append(known, r.names.labels[i], r.names.short[i], f.Path[i].Kind)
	}
	for w := range f.Ways[1:] {
		known = append(known, f.Ways[w+1].Name)
	}
	p := f.problemAt(name.Pos, "%q is no part of the path", name.Text)
	if guess := near(name.Text, known); guess != "" {
		return p.hint("did you mean %q?", guess)
	}
	var labels []string
	for _, l := range r.names.labels {
		if !slices.Contains(labels, l) && len(labels) < mostListed {
			labels = append(labels, l)
		}
	}
	return p.allow(labels...)
}
