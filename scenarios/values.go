package scenarios

import (
	"errors"
	"reflect"
	"strings"
	"unicode"

	"clampheat/scenarios/quantity"
)

// This file reads single values into the types of file.go. Values made of
// several quantities are in compound.go.

// value reads the value of a key.
func (r *reader) value(target reflect.Value, f field, p pair) {
	if f.later != "" {
		r.later(target, f, p)
		return
	}
	if p.value.told {
		return
	}
	if p.value.empty {
		n := r.mistake(p.key.pos, "%q has no value", p.key.text)
		if r.remark(p.key) {
			n.hint("%s", remarkHint)
		} else {
			n.hint("%s", f.doc)
		}
		return
	}
	switch t := target.Addr().Interface().(type) {
	case *Word:
		*t = r.word(f, p.value)
	case *Quantity:
		*t = r.quantity(f, p.value)
	case *[]Quantity:
		for _, n := range r.oneOrMore(p) {
			*t = append(*t, r.quantity(f, n))
		}
	case *Section:
		*t = r.section(f, p.value)
	case *Supply:
		switch f.is {
		case "duty":
			*t = r.duty(p)
		case "power supply":
			*t = r.supply(p, powers)
		default:
			*t = r.supply(p, currents)
		}
	case *Air:
		*t = r.air(f, p)
	case *Log:
		*t = r.logName(p.value)
	case *Enclosure:
		*t = r.enclosure(p)
	case *Vents:
		*t = r.vents(p.value)
	case *Names:
		*t = r.names(f.key, p.value, f.is == "names")
	case *Bunch:
		*t = r.bunch(p.value)
	case *Pipe:
		*t = r.pipe(p.value)
	case *Count:
		*t = r.count(f, p.value)
	case *Start:
		*t = r.start(p.value)
	case *[]Limit:
		for _, n := range r.oneOrMore(p) {
			*t = append(*t, r.limit(n))
		}
	case *Measured:
		*t = r.measured(p.value)
	case *AtRated:
		*t = r.atRated(p.value)
	case *[]Melt:
		*t = r.melts(p)
	case *Return:
		*t = r.back(p)
	case *Variants:
		*t = Variants{Set: true, Pos: p.key.pos} // read with the whole file known
	case *[]Item:
		*t = r.path(p)
	}
}

// later notes a key that is kept for later.
func (r *reader) later(target reflect.Value, f field, p pair) {
	*target.Addr().Interface().(*Later) = Later{Set: true, Pos: p.key.pos}
	r.note(r.file.warningAt(p.key.pos, "%q is a known key, but does nothing yet", f.key))
}

const remarkHint = "a # after a blank begins a remark; put the value in quotes"

// remark says whether a # with a number, as threads are named, follows the key
// on its line.
func (r *reader) remark(key *node) bool {
	if key.pos.Line < 1 || key.pos.Line > len(r.file.lines) {
		return false
	}
	line := []rune(r.file.lines[key.pos.Line-1])
	rest := string(line[min(len(line), max(0, key.pos.Column-1+key.pos.Length)):])
	rest = strings.TrimSpace(strings.TrimPrefix(rest, ":"))
	return len(rest) > 1 && rest[0] == '#' && unicode.IsDigit(rune(rest[1]))
}

// text returns the text of a single value.
func (r *reader) text(n *node) (string, bool) {
	switch {
	case n.told:
	case n.shape == list:
		r.mistake(n.pos, "one value is wanted here, not a list")
	case n.shape == mapping:
		r.mistake(n.pos, "one value is wanted here, not keys of its own").hint("check the indent of the lines below")
	case n.empty || strings.TrimSpace(n.text) == "":
		r.mistake(n.pos, "a value is missing here")
	case strings.ContainsFunc(n.text, unicode.IsControl):
		r.mistake(n.pos, "a value is one line without control characters")
	default:
		return strings.TrimSpace(n.text), true
	}
	return "", false
}

// oneOrMore returns the values of a key that takes one or a list.
func (r *reader) oneOrMore(p pair) []*node {
	if p.value.shape != list {
		return []*node{p.value}
	}
	if len(p.value.items) == 0 {
		r.mistake(p.value.pos, "the list of %q is empty", p.key.text)
	}
	return p.value.items
}

// word reads a text, a word of a short list, or a word of a table.
func (r *reader) word(f field, n *node) Word {
	text, ok := r.text(n)
	if !ok {
		return Word{}
	}
	word := Word{Text: text, Set: true, Pos: n.pos}
	switch {
	case f.words != nil:
		w, known := oneOf(f.words, text)
		if !known {
			p := r.mistake(n.pos, "%q cannot be %q", f.key, text).allow(f.words...)
			if guess := near(text, f.words); guess != "" {
				p.hint("did you mean %q?", guess)
			}
			return Word{}
		}
		word.Text = w
	case f.from != "":
		if err := lookUps[f.from](text); err != nil {
			r.note(r.file.wordProblem(n.pos, f.from, err))
			return Word{}
		}
	}
	return word
}

// of reads what stands behind the word of a kind.
func (r *reader) of(part kind, own pair) Word {
	if own.value.told {
		return Word{}
	}
	if own.value.empty {
		n := r.mistake(own.key.pos, "%q has no value", part.name)
		if r.remark(own.key) {
			n.hint("%s", remarkHint)
		} else {
			n.hint("write for example \"%s: %s\"", part.name, ofExample(part.name))
		}
		return Word{}
	}
	text, ok := r.text(own.value)
	if !ok {
		return Word{}
	}
	word := Word{Text: text, Set: true, Pos: own.value.pos}
	switch part.of {
	case ofGeneric:
		if !strings.EqualFold(text, ofGeneric) {
			r.mistake(word.Pos, "%q is no %s known here", text, part.name).allow(ofGeneric).
				hint("write \"%s: generic\" and state what differs below it", part.name)
			return Word{}
		}
		word.Text = ofGeneric
	case ofMetal:
		metal, plating := splitMetal(text)
		if err := lookUps["metal"](metal); err != nil {
			r.note(r.file.wordProblem(word.Pos, "metal", err))
			return Word{}
		}
		if plating == "" {
			break
		}
		if err := lookUps["plating"](plating); err != nil {
			r.note(r.file.wordProblem(word.Pos, "plating", err))
			return Word{}
		}
	default:
		if err := lookUps[part.of](text); err != nil {
			r.note(r.file.wordProblem(word.Pos, part.of, err))
			return Word{}
		}
	}
	return word
}

// ofExample is a usual value of a kind's own key.
func ofExample(name string) string {
	part, _ := kindNamed(name)
	switch part.of {
	case ofFastener:
		return "M8"
	case ofMetal:
		return "copper, tin-plated"
	case ofConductor:
		return "1/0 AWG"
	}
	return ofGeneric
}

// kindOfQuantity is the kind that a tag means.
func kindOfQuantity(is string) quantity.Kind {
	switch is {
	case "torques":
		return quantity.Torque
	case "voltages":
		return quantity.Voltage
	case "resistances":
		return quantity.Resistance
	case "air":
		return quantity.Temperature
	}
	return quantity.Kind(is)
}

// quantity reads a number with its unit and checks its bounds.
func (r *reader) quantity(f field, n *node) Quantity {
	text, ok := r.text(n)
	if !ok {
		return Quantity{}
	}
	kind := kindOfQuantity(f.is)
	v, err := quantity.Parse(kind, text)
	if err != nil {
		r.quantityProblem(n.pos, err)
		return Quantity{}
	}
	if !r.within(f, kind, v, n.pos) {
		return Quantity{}
	}
	return Quantity{Value: v.SI, Unit: v.Unit, Set: true, Pos: n.pos}
}

// within checks a value against the bounds of its key.
func (r *reader) within(f field, kind quantity.Kind, v quantity.Value, pos Pos) bool {
	is := quantity.Format(kind, v.SI, v.Unit, 0)
	switch {
	case f.above != "" && !(v.SI > bound(kind, f.above)):
		r.mistake(pos, "%q must be more than %s; it is %s", f.key, f.above, is)
	case f.least != "" && !(v.SI >= bound(kind, f.least)):
		r.mistake(pos, "%q must be at least %s; it is %s", f.key, f.least, is)
	case f.most != "" && !(v.SI <= bound(kind, f.most)):
		r.mistake(pos, "%q must be at most %s; it is %s", f.key, f.most, is)
	default:
		return true
	}
	return false
}

// bound reads a bound of a tag; a test reads them all.
func bound(kind quantity.Kind, text string) float64 {
	v, err := quantity.Parse(kind, text)
	if err != nil {
		return 0
	}
	return v.SI
}

// quantityProblem tells an error of package quantity at its place.
func (f *File) quantityProblem(pos Pos, err error) Problem {
	p := f.problemAt(pos, "%v", err)
	var hinted interface{ Hint() string }
	if errors.As(err, &hinted) {
		p = p.hint("%s", hinted.Hint())
	}
	var noUnit *quantity.NoUnitError
	var unknown *quantity.UnknownUnitError
	var wrong *quantity.WrongKindError
	switch {
	case errors.As(err, &noUnit):
		return p.allow(noUnit.Allowed...)
	case errors.As(err, &unknown):
		return p.allow(unknown.Allowed...)
	case errors.As(err, &wrong):
		return p.allow(wrong.Allowed...)
	}
	return p
}

func (r *reader) quantityProblem(pos Pos, err error) *noted {
	return r.note(r.file.quantityProblem(pos, err))
}
