package scenarios

import (
	"math"
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes cables with their crimped lugs.

func (o owner) cable(p place) piece {
	item := o.item
	out := piece{item: o.index, label: o.label}
	conductor, err := o.conductor()
	if err != nil {
		o.complain(o.file.wordProblem(item.Of.Pos, "conductor", err))
		return out
	}
	conductor.Diameter = o.row("conductor "+conductor.Name, "diameter of the strands", conductor.Diameter, "mm", 1e-3, conductor.Provenance)
	ins := o.insulation(o.word("insulation", item.Insulation))
	if item.Finish.Set {
		o.use(item.Finish.Pos)
		ins.Emissivity = o.finish(item.Finish.Text).Emissivity
	}
	if item.Lugs.Set {
		o.use(item.Lugs.Pos)
	}
	cable := &model.Cable{
		Label: o.label, Conductor: conductor, Insulation: ins, Wall: o.wall(conductor),
		Length: item.Length.Value, Lies: lie(o.word("lies", item.Lies)),
		Exposed: o.value("exposed", quantity.Share, item.Exposed),
	}
	o.use(item.Length.Pos)
	o.together(cable)
	part := o.addPart(cable)
	out.outer = [2]model.Port{{Part: part, Port: 0}, {Part: part, Port: 1}}
	for side := range 2 {
		free := o.order.free(o.index, side) && !p.lugs[side]
		if free && o.word("goes on", item.GoesOn) == "held at air" {
			cable.Ends[side] = o.heldAtAir(cable)
		}
	}
	faces := [2]*contact{}
	for side := range 2 {
		if p.lugs[side] {
			faces[side] = o.lug(side, part, conductor, o.lugStud(side), o.lugName(side))
		}
	}
	out.entry, out.exit = faces[0], faces[1]
	return out
}

// heldAtAir is the end of a cable at the temperature of the air, which it follows
// where the air has a course: then by a way a thousand times better than a piece
// of the conductor as long as it is thick.
func (o owner) heldAtAir(c *model.Cable) model.End {
	if !o.file.Air.Course.Set {
		return model.End{Held: o.file.Air.Value}
	}
	metal := c.Conductor.Metal
	own := metal.Conductivity * metal.Resistivity20 / c.Conductor.Resistance20 / c.Conductor.Diameter.Likely // W/K
	return model.End{Body: &model.Body{Name: "the held end of " + c.Label, To: materials.Exactly(1e3 * own)}}
}

// together lays the cable beside others, or into a conduit.
func (o owner) together(cable *model.Cable) {
	item := o.item
	bundle, pipe := item.Bundle, item.Conduit
	o.use(bundle.Pos)
	o.use(pipe.Pos)
	if bundle.Set && pipe.Set && pipe.Count > 1 {
		o.complain(o.file.problemAt(pipe.Pos, "the cables are counted twice, in the bundle and in the conduit").hint("leave \"bundle\" out"))
		return
	}
	if bundle.Set && pipe.Set {
		pipe.Count = bundle.Count
	}
	if pipe.Set {
		cable.Conduit = o.conduit(pipe)
		return
	}
	if bundle.Set {
		cable.Bundle = &model.Bundle{Count: bundle.Count}
		if bundle.Round {
			cable.Bundle.Arrangement = model.RoundBunch
		}
	}
}

// conduitWalls are the materials of conduits as the table of walls calls them.
var conduitWalls = map[string]string{"plastic": "PVC", "steel": "steel", "aluminium": "aluminium"}

func (o owner) conduit(p Pipe) *model.Conduit {
	m, err := materials.LookupWallMaterial(conduitWalls[p.Material])
	o.fail(err)
	finish := m.Finish
	if p.Material == "steel" {
		finish = "zinc-plated steel" // conduits are not painted as boxes are
	}
	wall := p.Diameter * o.spanOf("conduit", "conduit", "wall over diameter", number).Likely
	out := &model.Conduit{
		Name: p.Material, Kind: model.FibreConduit, Inner: p.Diameter - 2*wall, Outer: p.Diameter,
		Conductivity: o.row("wall of "+m.Name, "conductivity", m.Conductivity, "W/(m·K)", 1, m.Provenance).Likely,
		HeatCapacity: m.Density * m.SpecificHeat,
		Emissivity:   o.finish(finish).Emissivity.Likely,
		Count:        max(1, p.Count),
	}
	if p.Material != "plastic" {
		out.Kind = model.MetalConduit
	}
	return out
}

// conductor looks the cable's size up, with the words that say how it is made.
func (o owner) conductor() (materials.Conductor, error) {
	item := o.item
	name := item.Of.Text
	metric := strings.Contains(name, "mm")
	if metric && !strings.Contains(name, "class") {
		name += " " + o.word("stranding", item.Strands)
	} else if item.Strands.Set && metric {
		o.use(item.Strands.Pos)
	}
	if item.Tinned.Set {
		o.use(item.Tinned.Pos)
		if item.Tinned.Text == "yes" && !strings.Contains(name, "tinned") {
			name += " tinned"
		}
	}
	return materials.LookupConductor(name)
}

// wall is the thickness of the jacket, of the sourced table where the file does
// not say.
func (o owner) wall(c materials.Conductor) float64 {
	if given := o.item.Wall; given.Set {
		o.use(given.Pos)
		return given.Value
	}
	wall, source, err := materials.JacketWall(c.Area)
	if err != nil {
		o.complain(o.file.problemAt(o.item.Pos, "the thickness of this cable's insulation is not in the table: %v", err).
			hint("state it: \"wall: 2 mm\""))
		return 0
	}
	return o.assume(Assumption{Where: "insulation on " + c.Name, What: "wall", Value: wall, Kind: quantity.Length, Unit: "mm",
		Basis: source.Basis, Source: source.Source.Cite, Ground: source.Ground}).Likely
}

// lie turns the word for how a part lies into the model's.
func lie(word string) model.Lie {
	switch word {
	case "upright":
		return model.Vertical
	case "flat", "level":
		return model.Flat
	}
	return model.Horizontal
}

// carrier is the part that the item lies on at a side: the one that owns the
// stud, else what it meets; false where it meets nothing.
func (o owner) carrier(side int) (seat, bool) {
	at := o.order.at[o.index][side]
	if at < 0 {
		return seat{}, false
	}
	across := o.order.across(o.index, side)
	for _, s := range slices.Concat(across, o.order.meetings[at].seats()) {
		if s.item != o.index && o.order.places[s.item].on(s.side) == stud {
			return s, true
		}
	}
	return across[0], true
}

// lugName tells the lugs of a cable apart by what they lie on.
func (o owner) lugName(side int) string {
	on, ok := o.carrier(side)
	if !ok {
		return o.prefix() + "lug of " + o.names.short[o.index]
	}
	there := &o.file.Path[on.item]
	name := "lug on " + o.names.labels[on.item]
	if there.Way == o.item.Way {
		name = "lug on " + o.names.short[on.item]
	}
	switch {
	case isBusBar(there):
		name += ", stud " + there.Studs.List[on.stud].Text
	case slices.Contains(twoStudKinds, there.Kind):
		// Lugs on both studs of a part would have one name, where its
		// neighbours are alike.
		if sides := o.owner(on.item).sides(); sides == unnamedSides {
			name += ", " + sides[1-side]
		}
	}
	return o.prefix() + name
}

// lugStud is the thread that the hole of a lug has to pass.
func (o owner) lugStud(side int) (f materials.Fastener) {
	on, ok := o.carrier(side)
	if !ok {
		return f
	}
	item := &o.file.Path[on.item]
	name := item.Of.Text
	if !isPost(item) {
		name = item.Stud.Text
		if d, err := lookGeneric(item.Kind, "stud"); name == "" && err == nil {
			name = d.text
		}
	}
	if name == "" {
		return f
	}
	f, err := materials.LookupFastener(name)
	if err != nil {
		return materials.Fastener{} // told where the stud is
	}
	return f
}

// lug adds a lug on one end of a cable: a tube on the strands, flattened to a
// palm with a hole. The flat width of a tube of bore D and wall t is half its
// mean girth, π/2·(D + t), its thickness 2t.
func (o owner) lug(side, cable int, c materials.Conductor, stud materials.Fastener, name string) *contact {
	const lug = "lug"
	ratio := func(what string) materials.Range { return o.spanOf(lug, lug, what, number) }
	bore := c.Diameter.Likely * ratio("bore over conductor").Likely
	section := c.Area * ratio("section over conductor").Likely
	wall := (math.Sqrt(bore*bore+4*section/math.Pi) - bore) / 2
	width := math.Max(math.Pi/2*(bore+wall), stud.HoleDiameter*ratio("palm over hole").Likely)
	thickness := section / width
	length := width * ratio("length over palm").Likely
	plating := o.plating(o.wordOr(lug, lug, "plating", o.item.Plating))
	block := &model.Block{
		Label: name, Metal: o.metal(o.defaultWord(lug, lug, "metal")), Plating: plating,
		Finish: o.lugFinish(plating),
		Length: length, Width: width, Thickness: thickness,
		Exposed: 2 * (width + thickness) * length * o.spanOf(lug, lug, "free surface", quantity.Share).Likely,
	}
	part := o.addPart(block)
	crimp := model.Joint{Name: name + ", crimp", Kind: model.Crimped,
		A: model.Port{Part: cable, Port: side}, B: model.Port{Part: part, Port: 1 - side}}
	if side == 0 {
		crimp.A, crimp.B = crimp.B, crimp.A
	}
	if given := o.item.CrimpOhms; given.Set {
		o.use(given.Pos)
		crimp.Resistance = materials.Exactly(given.Value)
	} else {
		barrel := c.Resistance20 * c.Diameter.Likely * ratio("barrel over conductor").Likely
		crimp.Resistance = mapped(o.spanOf("lug", "cable", "crimp over conductor", number), func(k float64) float64 { return k * barrel })
	}
	o.addJoint(crimp, o.item.Way)
	return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: name,
		metal: block.Metal, plating: plating, face: width * width, across: width, depth: thickness, bolt: -1}
}

// lugFinish is the finish of a lug: the cable's own is that of its jacket.
func (o owner) lugFinish(p materials.Plating) materials.Finish {
	o.where, o.part = "lug", "lug"
	return o.finishOn(p)
}
