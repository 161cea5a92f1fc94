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

func (o owner) cable(p place, labels []string) piece {
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
	part := o.addPart(cable)
	for side := range 2 {
		free := o.neighbour(side) < 0 && !p.lugs[side]
		if free && o.word("goes on", item.GoesOn) == "held at air" {
			cable.Ends[side].Held = o.file.Air.Value
		}
	}
	faces := [2]*contact{}
	for side := range 2 {
		if p.lugs[side] {
			faces[side] = o.lug(side, part, conductor, o.lugStud(side), o.lugName(side, labels))
		}
	}
	out.entry, out.exit = faces[0], faces[1]
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

// neighbour is the index of the item on a side, washers apart, −1 for none.
func (o owner) neighbour(side int) int {
	step := 2*side - 1
	k := o.index + step
	for k >= 0 && k < len(o.file.Path) && isWasher(&o.file.Path[k]) {
		k += step
	}
	if k < 0 || k >= len(o.file.Path) {
		return -1
	}
	return k
}

// lugName tells the lugs of a cable apart by what they lie on.
func (o owner) lugName(side int, labels []string) string {
	k := o.neighbour(side)
	if k < 0 {
		return "lug of " + o.label
	}
	name := "lug on " + labels[k]
	if there := &o.file.Path[k]; slices.Contains(twoStudKinds, there.Kind) {
		// Lugs on both studs of a part would have one name, where its
		// neighbours are alike.
		other := owner{o.resolver, there, k, labels[k], there.Kind}
		if sides := other.sides(labels); sides == unnamedSides {
			name += ", " + sides[1-side]
		}
	}
	return name
}

// lugStud is the thread that the hole of a lug has to pass.
func (o owner) lugStud(side int) (f materials.Fastener) {
	k := o.neighbour(side)
	if k < 0 {
		return f
	}
	item := &o.file.Path[k]
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
	o.stack.Joints = append(o.stack.Joints, crimp)
	return &contact{port: model.Port{Part: part, Port: side}, item: o.index, name: name,
		metal: block.Metal, plating: plating, face: width * width, across: width, depth: thickness, bolt: -1}
}

// lugFinish is the finish of a lug: the cable's own is that of its jacket.
func (o owner) lugFinish(p materials.Plating) materials.Finish {
	o.label, o.part = "lug", "lug"
	return o.finishOn(p)
}
