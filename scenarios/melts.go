package scenarios

import (
	"strings"

	"clampheat/scenarios/quantity"
)

// This file reads a fuse's time–current curve: the points that its data give,
// in the order of rising current, since more current melts it sooner.

const meltsHint = `write "600 A in 30 s; 900 A in 2 s"`

// melts reads "600 A in 30 s; 900 A in 2 s", or a list of such points.
func (r *reader) melts(p pair) []Melt {
	var out []Melt
	for _, n := range r.oneOrMore(p) {
		text, ok := r.text(n)
		if !ok {
			return nil
		}
		for _, point := range strings.Split(text, ";") {
			m, ok := r.melt(strings.TrimSpace(point), n.pos)
			if !ok {
				return nil
			}
			if len(out) > 0 {
				last := out[len(out)-1]
				if !(m.Current > last.Current && m.Time < last.Time) {
					r.mistake(n.pos, "more current melts a fuse sooner: points go by rising current").hint("%s", meltsHint)
					return nil
				}
			}
			out = append(out, m)
		}
	}
	return out
}

func (r *reader) melt(text string, pos Pos) (Melt, bool) {
	amount, time, found := cutWord(text, "in")
	if !found {
		r.mistake(pos, "a point of a fuse's curve is a current and the time in which it melts").hint("%s", meltsHint)
		return Melt{}, false
	}
	i, err := quantity.Parse(quantity.Current, amount)
	if err != nil {
		r.quantityProblem(pos, err).hint("%s", meltsHint)
		return Melt{}, false
	}
	t, err := quantity.Parse(quantity.Time, time)
	if err != nil {
		r.quantityProblem(pos, err).hint("%s", meltsHint)
		return Melt{}, false
	}
	// A short circuit melts a fuse with far more than any supply carries on.
	const mostMelting = 1e6 // A
	if !(i.SI > 0 && i.SI <= mostMelting) || !(t.SI > 0 && t.SI <= longest) {
		r.mistake(pos, "a fuse melts at more than 0 A and at most 1 MA, within more than 0 s and at most a year")
		return Melt{}, false
	}
	return Melt{Current: i.SI, Time: t.SI, Pos: pos}, true
}
