package scenarios

import (
	"strings"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file is how the resolver asks for a value: what the file says, else
// what the generic part says, which is then an assumption.

// owner is an item in the eyes of the resolver: where its values come from.
type owner struct {
	*resolver
	item  *Item
	index int    // in File.Path
	label string // as outputs call it
	where string // as assumptions call it
	part  string // of the generic parts
}

// owner is the item with an index.
func (r *resolver) owner(i int) owner {
	return owner{r, &r.file.Path[i], i, r.names.labels[i], r.names.where[i], r.file.Path[i].Kind}
}

// prefix stands before the names of what comes with a part.
func (o owner) prefix() string {
	return strings.TrimSuffix(o.names.labels[o.index], o.names.short[o.index])
}

// span is a range of a value: the file's where it is given.
func (o owner) span(what string, kind quantity.Kind, given Quantity) materials.Range {
	if given.Set {
		o.use(given.Pos)
		return materials.Exactly(given.Value)
	}
	return o.spanOf(o.where, o.part, what, kind)
}

// value is a value of which only the likely one counts.
func (o owner) value(what string, kind quantity.Kind, given Quantity) float64 {
	return o.span(what, kind, given).Likely
}

// word is a word: the file's where it is given.
func (o owner) word(what string, given Word) string {
	if given.Set {
		o.use(given.Pos)
		return given.Text
	}
	return o.defaultWord(o.where, o.part, what)
}

// spanOf takes a range of a generic part as an assumption of where.
func (r *resolver) spanOf(where, part, what string, kind quantity.Kind) materials.Range {
	d, err := lookGeneric(part, what)
	if err != nil {
		r.fail(err)
		return materials.Range{}
	}
	v, unit, err := d.span(kind)
	if err != nil {
		r.fail(&PartsError{part, what, "cannot be read: " + err.Error()})
		return materials.Range{}
	}
	return r.assume(Assumption{Where: where, What: what, Value: v, Kind: kind, Unit: unit,
		Basis: d.basis(), Source: d.source, Ground: d.ground})
}

// defaultWord takes a word of a generic part as an assumption of where.
func (r *resolver) defaultWord(where, part, what string) string {
	d, err := lookGeneric(part, what)
	if err != nil {
		r.fail(err)
		return ""
	}
	r.assume(Assumption{Where: where, What: what, Text: d.text, Basis: d.basis(), Source: d.source, Ground: d.ground})
	return d.text
}

func (r *resolver) wordOr(where, part, what string, given Word) string {
	if given.Set {
		r.use(given.Pos)
		return given.Text
	}
	return r.defaultWord(where, part, what)
}

func (d datum) basis() materials.Basis {
	if d.source != "" {
		return materials.Published
	}
	return materials.Assumed
}

// metal looks a metal up.
func (r *resolver) metal(name string) materials.Metal {
	m, err := materials.LookupMetal(name)
	r.fail(err)
	return m
}

// plating looks a plating up, its hardness being an assumption.
func (r *resolver) plating(name string) materials.Plating {
	p, err := materials.LookupPlating(name)
	r.fail(err)
	p.Hardness = r.row("plating "+p.Name, "hardness", p.Hardness, "MPa", megapascal, p.Provenance)
	return p
}

// finish looks a finish up, its emissivity being an assumption.
func (r *resolver) finish(name string) materials.Finish {
	f, err := lookUpFinish(name)
	r.fail(err)
	f.Emissivity = r.row("finish "+f.Name, "emissivity", f.Emissivity, "", 0, f.Provenance)
	return f
}

// plasticEmissivity is that of housings and covers.
func (r *resolver) plasticEmissivity() float64 {
	return r.spanOf("plastic", "plastic", "emissivity", number).Likely
}

func (r *resolver) lookFaces(name string) materials.FaceState {
	s, err := materials.LookupFaceState(name)
	r.fail(err)
	return s
}

func (r *resolver) faceState(name string) materials.FaceState {
	s := r.lookFaces(name)
	s.Film = r.row("faces "+s.Name, "film", s.Film, "µΩ·mm²", filmUnit, s.Provenance)
	s.Gap = r.row("faces "+s.Name, "gap", s.Gap, "µm", micrometre, s.Provenance)
	return s
}

func (r *resolver) thread(name string) materials.ThreadCondition {
	t, err := materials.LookupThreadCondition(name)
	r.fail(err)
	t.NutFactor = r.row("thread "+t.Name, "nut factor", t.NutFactor, "", 0, t.Provenance)
	return t
}

func (r *resolver) tightening(name string) materials.Tightening {
	t, err := materials.LookupTightening(name)
	r.fail(err)
	t.ClampFactor = r.row("tightened by "+t.Name, "clamp over intended", t.ClampFactor, "", 0, t.Provenance)
	return t
}

// unsaidFaces are faces of which the file says nothing: likely those of parts
// as received, but nobody saw to it. Careful assembly would have brushed
// them, careless assembly may have left them tarnished.
func (r *resolver) unsaidFaces() materials.FaceState {
	s := r.lookFaces(r.defaultWord("joints", "joints", "faces"))
	clean, dull := r.lookFaces("brushed"), r.lookFaces("tarnished")
	s.Film = r.row("faces not stated", "film", materials.Range{Low: clean.Film.Low, Likely: s.Film.Likely, High: dull.Film.High},
		"µΩ·mm²", filmUnit, s.Provenance)
	s.Gap = r.row("faces not stated", "gap", materials.Range{Low: clean.Gap.Low, Likely: s.Gap.Likely, High: dull.Gap.High},
		"µm", micrometre, s.Provenance)
	return s
}

// unsaidTightening is how a nut was tightened where the file gives a torque
// and not how it was set: likely with a wrench, carelessly by feel.
func (r *resolver) unsaidTightening() materials.Tightening {
	t, err := materials.LookupTightening(r.defaultWord("joints", "joints", "tightened"))
	r.fail(err)
	feel, err := materials.LookupTightening("by feel")
	r.fail(err)
	spread := materials.Range{Low: feel.ClampFactor.Low, Likely: t.ClampFactor.Likely, High: t.ClampFactor.High}
	t.ClampFactor = r.row("tightening not stated", "clamp over intended", spread, "", 0, t.Provenance)
	return t
}

// insulation looks an insulation up by name or temperature.
func (r *resolver) insulation(name string) materials.Insulation {
	v, err := materials.LookupInsulation(insulationName(name))
	r.fail(err)
	where := "insulation " + v.Name
	v.Conductivity = r.row(where, "conductivity", v.Conductivity, "W/(m·K)", 1, v.Provenance)
	v.Emissivity = r.row(where, "emissivity", v.Emissivity, "", 0, v.Provenance)
	return v
}

// platingOr is the plating that the file names, else what the generic part
// says; that of a metal that the file names is bare.
func (o owner) platingOr(metal materials.Metal) materials.Plating {
	if o.item.Metal.Set && !o.item.Plating.Set {
		return o.plating(o.ownFace(o.item.Metal.Text, metal))
	}
	return o.plating(o.word("plating", o.item.Plating))
}

// metalAndPlating takes "copper, tin-plated" apart; a plating of its own key
// counts more.
func (o owner) metalAndPlating(given Word) (materials.Metal, materials.Plating) {
	name, plating := splitMetal(given.Text)
	metal := o.metal(name)
	switch {
	case o.item.Plating.Set:
		o.use(o.item.Plating.Pos)
		return metal, o.plating(o.item.Plating.Text)
	case plating != "":
		return metal, o.plating(plating)
	}
	return metal, o.plating(o.ownFace(name, metal))
}

// ownFace is the face of a metal for which the file names no plating: the one
// that the metal's own name tells, as "zinc-plated steel" does, else its bare
// face.
func (o owner) ownFace(name string, metal materials.Metal) string {
	if first, _, ok := strings.Cut(name, " "); ok && strings.HasSuffix(first, "-plated") {
		if p, err := materials.LookupPlating(first); err == nil {
			return p.Name
		}
	}
	return o.bareFace(metal)
}

// bareFace is the face of a metal that has no plating: the row of that name,
// else what the generic part says.
func (o owner) bareFace(metal materials.Metal) string {
	for _, name := range append([]string{metal.Name}, metal.Aliases...) {
		if !strings.HasPrefix(name, "bare ") {
			name = "bare " + name
		}
		if p, err := materials.LookupPlating(name); err == nil {
			o.assume(Assumption{Where: o.where, What: "plating", Text: p.Name, Basis: materials.Assumed,
				Ground: "a face is bare where the file names no plating"})
			return p.Name
		}
	}
	return o.defaultWord(o.where, "bar", "face of another metal")
}

// finishOn is the finish that the file names, else the one that goes with the
// outermost metal.
func (o owner) finishOn(p materials.Plating) materials.Finish {
	if given := o.item.Finish; given.Set && o.item.Kind != "cable" {
		o.use(given.Pos)
		return o.finish(given.Text)
	}
	if _, err := lookGeneric(o.part, "finish of "+p.Name); err == nil {
		return o.finish(o.defaultWord(o.where, o.part, "finish of "+p.Name))
	}
	f := o.finish(strings.TrimPrefix(p.Name, "bare "))
	o.assume(Assumption{Where: o.where, What: "finish", Text: f.Name, Basis: materials.Assumed, Ground: "follows from the plating"})
	return f
}
