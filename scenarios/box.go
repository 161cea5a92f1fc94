package scenarios

import (
	"reflect"
	"strings"

	"clampheat/scenarios/quantity"
)

// This file reads the box around a stack.

const boxHint = `below "enclosure:" stand its sizes and its wall: "width: 400 mm", "height: 300 mm", "depth: 200 mm", "wall: polycarbonate"`

// noBox takes the box of a file away in a variant.
const noBox = "none"

// enclosure reads the box.
func (r *reader) enclosure(p pair) (out Enclosure) {
	if p.value.shape == scalar && strings.EqualFold(strings.TrimSpace(p.value.text), noBox) {
		return out
	}
	if p.value.shape != mapping {
		r.mistake(p.value.pos, "a box is written as its sizes and its wall").hint("%s", boxHint)
		return out
	}
	r.fields(reflect.ValueOf(&out).Elem(), boxFields(), p.value.pairs, nil)
	r.missing(p.value, p.key.pos, "the box", boxFields(), nil)
	out.Set, out.Pos = true, p.key.pos
	if rise := out.VentRise; rise.Set && !out.Vents.Set && p.value.get("vents") == nil {
		r.mistake(rise.Pos, "%q goes with %q, which is missing", "vent rise", "vents")
	}
	if rise := out.VentRise; rise.Set && out.Height.Set && rise.Value > out.Height.Value {
		r.mistake(rise.Pos, "the vents are farther apart than the box is high")
	}
	return out
}

const ventsHint = `write "20 cm²" for each of two vents, or "20 cm² low, 30 cm² high"`

// vents reads "20 cm²" or "20 cm² low, 30 cm² high".
func (r *reader) vents(n *node) Vents {
	text, ok := r.text(n)
	if !ok {
		return Vents{}
	}
	out := Vents{Set: true, Pos: n.pos}
	first, second, two := strings.Cut(text, ",")
	if !two {
		v, ok := r.vent(first, n.pos)
		out.Low, out.High, out.Unit, out.Set = v.SI, v.SI, v.Unit, ok
		return out
	}
	for _, part := range []string{first, second} {
		amount, rest, low := cutWord(part, "low")
		high := false
		if !low {
			amount, rest, high = cutWord(part, "high")
		}
		if !low && !high || rest != "" || low && out.Low > 0 || high && out.High > 0 {
			r.mistake(n.pos, "two vents are a low one and a high one").hint("%s", ventsHint)
			return Vents{}
		}
		v, ok := r.vent(amount, n.pos)
		if !ok {
			return Vents{}
		}
		out.Unit = v.Unit
		if low {
			out.Low = v.SI
		} else {
			out.High = v.SI
		}
	}
	return out
}

// vent reads the area of one vent: more than none, and no more than a door.
func (r *reader) vent(text string, pos Pos) (quantity.Value, bool) {
	const most = 2 // m², the area of a door; common practice, no source
	v, err := quantity.Parse(quantity.Area, text)
	if err != nil {
		r.quantityProblem(pos, err).hint("%s", ventsHint)
		return v, false
	}
	if !(v.SI > 0 && v.SI <= most) {
		r.mistake(pos, "a vent has more than 0 cm² and at most 2 m²; it is %s", quantity.Format(quantity.Area, v.SI, v.Unit, 0))
		return v, false
	}
	return v, true
}
