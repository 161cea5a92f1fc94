package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes what fuse links of either form have in common: the element
// and the figures that the data of a fuse mean.

// element fills in the element of a fuse, its rating and its data.
func (o owner) element(fuse *model.Fuse) {
	item := o.item
	rated := item.Fuse
	o.use(rated.Pos)
	fuse.Rated = rated.Value
	o.checkRating(rated)
	for _, m := range item.Melts {
		if m.Current <= rated.Value {
			o.complain(o.file.warningAt(m.Pos, "a fuse carries its rating for good: %s is not above its %s",
				quantity.Format(quantity.Current, m.Current, "A", 0), quantity.Format(quantity.Current, rated.Value, "A", 0)))
		}
	}
	if item.Interrupting.Set {
		o.use(item.Interrupting.Pos)
		fuse.Interrupting = item.Interrupting.Value
	}
	metal := o.metal(o.defaultWord("fuse", "fuse", "element metal"))
	fuse.ElementAlpha = metal.Alpha20
	fuse.ElementTo = metal.ValidTo

	rig := o.fuseData(fuse)
	rise := o.ofFuse("element rise", quantity.Rise, item.FuseElement)
	byBody := o.ofFuse("element by body", quantity.Share, Quantity{}).Likely
	ohm, power := rig.element(fuse, rise.Likely)
	// At the data's current the element is hotter than the caps by power over
	// all ways to them; a share of these leads through the body, whose own way
	// to the caps stands in series.
	fuse.ToBody = byBody * power / rise.Likely
	throughBody := 0.0
	if fuse.ToBody > 0 {
		throughBody = 1 / (1/fuse.ToBody + 1/(2*fuse.Body.To.Likely))
	}
	fuse.ToCap = mapped(rise, func(k float64) float64 { return max(power/k-throughBody, power/k*leastByCaps) / 2 })
	// A conductor of resistance R and length l has the section ρl/R.
	length := o.value("element length", quantity.Length, Quantity{})
	section := metal.Resistivity20 * length / ohm
	fuse.ElementCapacity = metal.Density * metal.SpecificHeat * section * length
}

// leastByCaps is the least share of an element's heat that goes to the caps
// straight, so that a wide range of the rise leaves a way there.
const leastByCaps = 0.1

// ofFuse takes a value that both forms of fuse share.
func (o owner) ofFuse(what string, kind quantity.Kind, given Quantity) materials.Range {
	if given.Set {
		o.use(given.Pos)
		return materials.Exactly(given.Value)
	}
	return o.spanOf("fuse", "fuse", what, kind)
}

// rigData is what the data of a fuse say, likely: a resistance of the whole
// link between its caps, cold or hot, at a current, with the caps at a
// temperature.
type rigData struct {
	ohm     float64 // Ω
	hot     bool    // ohm is that of the hot link, not that at 20 °C
	current float64 // A
	caps    float64 // K
}

// fuseData reads the fuse's data: a cold resistance, or a drop or power with
// the element hot.
func (o owner) fuseData(fuse *model.Fuse) rigData {
	data := o.item.FuseDrop
	current := fuse.Rated
	if data.Current > 0 {
		current = data.Current
	}
	if data.Set {
		o.use(data.Pos)
	}
	caps := o.spanOf("fuse", "fuse", "rig caps", quantity.Temperature)
	if data.Resistance > 0 {
		fuse.Cold = materials.Exactly(data.Resistance)
		return rigData{data.Resistance, false, current, caps.Likely}
	}
	hot := &model.HotFigure{Current: current, Terminal: caps}
	fuse.Hot = hot
	if data.Power > 0 {
		hot.Power = materials.Exactly(data.Power)
		return rigData{data.Power / (current * current), true, current, caps.Likely}
	}
	if data.Drop > 0 {
		hot.Drop = materials.Exactly(data.Drop)
	} else {
		hot.Drop = o.spanOf("fuse", "fuse", "drop", quantity.Voltage)
	}
	return rigData{hot.Drop.Likely / current, true, current, caps.Likely}
}

// element gives the ohms of the element alone at 20 °C and the watts that it
// makes in the rig, a rise [K] above the caps. What the caps' own metal takes of
// the data is made in the caps and has no part in that rise. Data that leave
// nothing for the element are told by the model; the whole then stands for it.
func (d rigData) element(fuse *model.Fuse, rise float64) (ohm, power float64) {
	caps := 2 * fuse.Metal.Resistivity20 * fuse.CapLength / (fuse.CapWidth * fuse.CapThickness)
	hotter := 1 + fuse.ElementAlpha*(d.caps+rise-materials.ReferenceTemp)
	if d.hot {
		caps *= 1 + fuse.Metal.Alpha20*(d.caps-materials.ReferenceTemp)
	}
	ohm = d.ohm
	if ohm > caps {
		ohm -= caps
	}
	if d.hot {
		ohm /= hotter
	}
	return ohm, ohm * hotter * d.current * d.current
}

// checkRating warns of a fuse that the generic holder is not made for.
func (o owner) checkRating(rated Quantity) {
	if !rated.Set {
		return // the reader told why
	}
	least := o.bound("smallest fuse")
	most := o.bound("largest fuse")
	if rated.Value < least || rated.Value > most {
		o.complain(o.file.warningAt(rated.Pos, "the generic %s has the size of fuses from %s to %s", o.item.Kind,
			quantity.Format(quantity.Current, least, "A", 0), quantity.Format(quantity.Current, most, "A", 0)).
			hint("state its sizes below it, or take the figures with care"))
	}
}

// bound is a figure of a generic part that no result rests on.
func (o owner) bound(what string) float64 {
	d, err := lookGeneric(o.part, what)
	if err != nil {
		o.fail(err)
		return 0
	}
	v, _, err := d.span(quantity.Current)
	o.fail(err)
	return v.Likely
}

func fuseLabel(item *Item) string {
	return "fuse " + quantity.Format(quantity.Current, item.Fuse.Value, item.Fuse.Unit, 0)
}
