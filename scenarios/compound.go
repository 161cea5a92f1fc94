package scenarios

import (
	"errors"
	"reflect"
	"strings"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file reads the values that are made of several quantities: a section, a
// start, a limit, a measured joint, a fuse's figure.

// hottest bounds limits and starts: above it copper is no longer solid
// (1084.6 °C, ITS-90).
const hottest = 1084.6 + materials.ZeroCelsius // K

func (r *reader) section(f field, n *node) Section {
	text, ok := r.text(n)
	if !ok {
		return Section{}
	}
	width, thickness, err := quantity.ParsePair(text)
	if err != nil {
		r.quantityProblem(n.pos, err)
		return Section{}
	}
	if !r.within(f, quantity.Length, width, n.pos) || !r.within(f, quantity.Length, thickness, n.pos) {
		return Section{}
	}
	if thickness.SI > width.SI {
		r.note(r.file.warningAt(n.pos, "the thickness is larger than the width").hint("a section is width × thickness"))
	}
	return Section{Width: width.SI, Thickness: thickness.SI, Unit: width.Unit, Set: true, Pos: n.pos}
}

// cutWord cuts text around a word that stands by itself.
func cutWord(text, word string) (before, after string, found bool) {
	fields := strings.Fields(text)
	for i, f := range fields {
		if strings.EqualFold(f, word) {
			return strings.Join(fields[:i], " "), strings.Join(fields[i+1:], " "), true
		}
	}
	return text, "", false
}

// start reads "40 °C" or "hottest terminal 40 °C".
func (r *reader) start(n *node) Start {
	text, ok := r.text(n)
	if !ok {
		return Start{}
	}
	rest, terminal := cutPrefixWords(text, "hottest terminal")
	v, err := quantity.Parse(quantity.Temperature, rest)
	if err != nil {
		r.quantityProblem(n.pos, err).hint("write \"40 °C\" for every part, or \"hottest terminal 40 °C\" for the settled profile scaled to that")
		return Start{}
	}
	if v.SI > hottest {
		r.mistake(n.pos, "a start is at most the melting point of copper, 1085 °C; it is %s", quantity.Format(quantity.Temperature, v.SI, v.Unit, 0))
		return Start{}
	}
	return Start{Temp: v.SI, Terminal: terminal, Set: true, Pos: n.pos}
}

// cutPrefixWords takes leading words off, whatever their letter case.
func cutPrefixWords(text, words string) (rest string, found bool) {
	fields, want := strings.Fields(text), strings.Fields(words)
	if len(fields) < len(want) {
		return text, false
	}
	for i, w := range want {
		if !strings.EqualFold(fields[i], w) {
			return text, false
		}
	}
	return strings.Join(fields[len(want):], " "), true
}

const limitHint = `write a temperature ("90 °C"), a rise ("50 K"), or touch with a time ("touch 4 s")`

// limit reads "90 °C", "50 K", "50 K rise" or "touch 4 s".
func (r *reader) limit(n *node) Limit {
	text, ok := r.text(n)
	if !ok {
		return Limit{}
	}
	out := Limit{Set: true, Pos: n.pos}
	if rest, touch := cutPrefixWords(text, "touch"); touch {
		v, err := quantity.Parse(quantity.Time, rest)
		if err != nil {
			r.quantityProblem(n.pos, err).hint("write for example \"touch 4 s\"")
			return Limit{}
		}
		if !(v.SI > 0 && v.SI <= longest) {
			r.mistake(n.pos, "a touch lasts more than 0 s")
			return Limit{}
		}
		out.Touch, out.Unit = v.SI, v.Unit
		return out
	}
	before, _, saysRise := cutWord(text, "rise")
	v, err := quantity.Parse(quantity.Rise, before)
	if err == nil && (saysRise || v.Unit == "K") {
		if !(v.SI > 0 && v.SI <= hottest-materials.ZeroCelsius) {
			r.mistake(n.pos, "a limit of the rise lies between 0 K and 1085 K; it is %s", quantity.Format(quantity.Rise, v.SI, v.Unit, 0))
			return Limit{}
		}
		out.Rise, out.Unit = v.SI, v.Unit
		return out
	}
	kind := quantity.Temperature
	if saysRise {
		kind = quantity.Rise
	}
	if v, err = quantity.Parse(kind, before); err != nil {
		r.quantityProblem(n.pos, err).hint("%s", limitHint)
		return Limit{}
	}
	if v.SI > hottest {
		r.mistake(n.pos, "a limit is at most the melting point of copper, 1085 °C; it is %s", quantity.Format(quantity.Temperature, v.SI, v.Unit, 0))
		return Limit{}
	}
	out.Temp, out.Unit = v.SI, v.Unit
	return out
}

// figure is a number of one of several kinds, with the current it belongs to.
type figure struct {
	value   float64
	kind    quantity.Kind
	unit    string
	current float64 // A; 0 where none is given
}

// figure reads "2.1 mV at 140 A" where the first quantity may be of any of the
// kinds.
func (r *reader) figure(n *node, kinds []quantity.Kind, hint string) (figure, bool) {
	text, ok := r.text(n)
	if !ok {
		return figure{}, false
	}
	amount, amps, at := cutWord(text, "at")
	out := figure{kind: kinds[0]}
	v, err := quantity.Parse(out.kind, amount)
	var wrong *quantity.WrongKindError
	if errors.As(err, &wrong) {
		for _, k := range kinds[1:] {
			if wrong.Got == k {
				out.kind = k
				v, err = quantity.Parse(k, amount)
			}
		}
	}
	if err != nil {
		var units []string
		for _, k := range kinds {
			units = append(units, quantity.Units(k)...)
		}
		r.quantityProblem(n.pos, err).allow(units...).hint("%s", hint)
		return figure{}, false
	}
	if !(v.SI > 0) {
		r.mistake(n.pos, "this must be more than 0; it is %s", quantity.Format(out.kind, v.SI, v.Unit, 0)).hint("%s", hint)
		return figure{}, false
	}
	out.value, out.unit = v.SI, v.Unit
	if !at {
		return out, true
	}
	i, err := quantity.Parse(quantity.Current, amps)
	if err != nil {
		r.quantityProblem(n.pos, err).hint("%s", hint)
		return figure{}, false
	}
	if !(i.SI > 0 && i.SI <= mostCurrent) {
		r.mistake(n.pos, "the current must be more than 0 A and at most 10 kA; it is %s", quantity.Format(quantity.Current, i.SI, i.Unit, 0))
		return figure{}, false
	}
	if out.kind == quantity.Resistance {
		r.mistake(n.pos, "a resistance stands without a current").hint("%s", hint)
		return figure{}, false
	}
	out.current = i.SI
	return out, true
}

// measured reads "2.1 mV at 140 A" or "12 µΩ".
func (r *reader) measured(n *node) Measured {
	const hint = `write "2.1 mV at 140 A" or "12 µΩ"`
	f, ok := r.figure(n, []quantity.Kind{quantity.Resistance, quantity.Voltage}, hint)
	if !ok {
		return Measured{}
	}
	out := Measured{Resistance: f.value, Current: f.current, Unit: f.unit, Set: true, Pos: n.pos}
	if f.kind == quantity.Voltage {
		if f.current == 0 {
			r.mistake(n.pos, "a voltage needs the current at which it was measured").hint("%s", hint)
			return Measured{}
		}
		out.Resistance = f.value / f.current
	}
	return out
}

// atRated reads "75 mV at 300 A", "22 W at 300 A" or "0.25 mΩ"; without a
// current the rated one is meant.
func (r *reader) atRated(n *node) AtRated {
	const hint = `write "75 mV at 300 A", "22 W at 300 A", or the cold resistance "0.25 mΩ"`
	f, ok := r.figure(n, []quantity.Kind{quantity.Voltage, quantity.Power, quantity.Resistance}, hint)
	if !ok {
		return AtRated{}
	}
	out := AtRated{Current: f.current, Set: true, Pos: n.pos}
	switch f.kind {
	case quantity.Voltage:
		out.Drop = f.value
	case quantity.Power:
		out.Power = f.value
	default:
		out.Resistance = f.value
	}
	return out
}

// back reads the return cable.
func (r *reader) back(p pair) (out Return) {
	if p.value.shape != mapping {
		if _, ok := r.text(p.value); ok {
			r.mistake(p.value.pos, "the return cable is written as its size and its length").
				hint("below \"return:\" stand \"cable: 1/0 AWG\" and \"length: 1.5 m\"")
		}
		return out
	}
	r.fields(reflect.ValueOf(&out).Elem(), returnFields(), p.value.pairs, nil)
	r.missing(p.value, p.key.pos, "the return cable", returnFields(), nil)
	out.Set, out.Pos = true, p.key.pos
	return out
}
