package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes bus bars: metal with a row of studs.

func (o owner) busBar() piece {
	item := o.item
	likeBar := o // what it has in common with any bar
	likeBar.part = "bar"
	metal, plating := likeBar.metalAndPlating(item.Of)
	for _, pos := range []Pos{item.Section.Pos, item.Studs.Pos, item.Spacing.Pos} {
		o.use(pos)
	}
	n := len(item.Studs.List)
	row := float64(n-1) * item.Spacing.Value
	length := item.Length.Value
	if item.Length.Set {
		o.use(item.Length.Pos)
		if length < row && !o.partial {
			o.complain(o.file.problemAt(item.Length.Pos, "%d studs at this spacing need %s", n, quantity.Format(quantity.Length, row, item.Length.Unit, 3)).
				hint("leave the length out, or correct it"))
		}
	} else {
		length = row + 2*item.Section.Width*o.value("end over width", number, Quantity{})
	}
	bar := &model.Bar{
		Label: o.label, Metal: metal, Plating: plating, Finish: likeBar.finishOn(plating),
		Width: item.Section.Width, Thickness: item.Section.Thickness, Length: length,
		Lies: likeBar.lieOfBars(),
	}
	o.abreast(bar)
	sides := 2 * (bar.Width + bar.Thickness) * bar.Length
	bar.Exposed = likeBar.sidesExposed(sides) / sides
	for k, name := range item.Studs.List {
		bar.Studs = append(bar.Studs, (length-row)/2+float64(k)*item.Spacing.Value)
		bar.StudNames = append(bar.StudNames, name.Text)
	}
	part := o.addPart(bar)
	out := piece{item: o.index, label: o.label}
	thread := o.word("stud", item.Stud)
	class := o.word("stud class", item.Class)
	torques := o.torques(item, n)
	for k, name := range item.Studs.List {
		w := item.Section.Width
		c := &contact{port: model.Port{Part: part, Port: k}, item: o.index, name: o.label + ", stud " + name.Text,
			metal: metal, plating: plating, face: w * w, across: w, depth: item.Section.Thickness, bolt: -1}
		if torques != nil {
			c.bolt = o.addBolt(o, o.label+", nut "+name.Text, thread, class, torques[k])
		}
		out.studs = append(out.studs, c)
	}
	if item.Return.Set {
		o.use(item.Return.Pos)
		if o.batteriesOn() != o.index && !o.partial {
			o.complain(o.file.problemAt(item.Return.Pos, "no row of batteries meets on this bar, so that no negative leaves one").hint("leave %q out", "return"))
		}
	}
	return out
}

// abreast puts several alike bars side by side.
func (o owner) abreast(bar *model.Bar) {
	item := o.item
	bar.Count = 1
	if item.Bars.Set {
		o.use(item.Bars.Pos)
		bar.Count = item.Bars.N
	}
	switch {
	case bar.Count > 1:
		bar.Gap = bar.Thickness
		if item.Gap.Set {
			o.use(item.Gap.Pos)
			bar.Gap = item.Gap.Value
		} else {
			o.assume(Assumption{Where: o.where, What: "gap", Text: "as thick as a bar", Basis: materials.Published, Source: abreastSource})
		}
	case item.Gap.Set:
		o.use(item.Gap.Pos)
		o.complain(o.file.problemAt(item.Gap.Pos, "one bar has no gap beside it").hint("say how many there are: \"bars: 2\""))
	}
}

// abreastSource is where the usual gap between bars is from.
const abreastSource = "DIN 43671: the bars of a conductor stand as far apart as they are thick; from memory"

// lieOfBars is how a bar lies: several side by side stand on edge, where the
// file does not say.
func (o owner) lieOfBars() model.Lie {
	if o.item.Bars.N > 1 && !o.item.Lies.Set {
		o.assume(Assumption{Where: o.where, What: "lies", Text: "on edge", Basis: materials.Assumed, Ground: "air rises between bars on edge only"})
		return model.Horizontal
	}
	return lie(o.word("lies", o.item.Lies))
}
