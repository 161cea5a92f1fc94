package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampheat/scenarios/quantity"
)

// This file reads what changes with time: a current or a power, the steps that
// a duty repeats, the temperature of the air in the course of a day.

// Bounds of a supply. That of a current is as that of "fuse" in file.go, that
// of a power is 10 kA at 100 V; common practice, no source.
const (
	mostCurrent = 10e3 // A
	mostPower   = 1e6  // W
)

// longest bounds a step of a supply: a year.
const longest = 365 * 24 * 3600 // s

// mostSteps is how many lines of steps a person writes; longer tables go into a
// log.
const mostSteps = 1000

// timed says how the values of one kind are told over time.
type timed struct {
	kind    quantity.Kind
	what    string // in a message
	plural  string
	example string
	least   float64
	most    float64
	bounds  string
}

var (
	currents = timed{quantity.Current, "current", "currents",
		`write "140 A", or a list: "0 A to 140 A over 5 min", "140 A for 15 min", "100 A"`, 0, mostCurrent, "between 0 A and 10 kA"}
	powers = timed{quantity.Power, "power", "powers",
		`write "2000 W", or a list: "0 W to 2000 W over 5 min", "2000 W for 15 min", "500 W"`, 0, mostPower, "between 0 W and 1000 kW"}
)

const dutyHint = `write a list of steps, all in A or all in W: "180 A for 5 min", "0 A for 10 min"`

// supply reads one value or a list of steps, the last of which has no end.
func (r *reader) supply(p pair, kind timed) Supply {
	out, ok := r.steps(p, kind, kind.example, ends)
	if !ok {
		return Supply{}
	}
	return out
}

// zero is nothing of a kind.
func (k timed) zero() string { return "0 " + quantity.Units(k.kind)[0] }

// oneWay is why a current is not negative.
const oneWay = "a current flows the way the path is written; for charging write the path from the charger to the battery post"

// flowing refuses a supply of nothing, but for a current of batteries, between
// which currents flow even then.
func (r *reader) flowing(s *Supply, hint string) {
	if !s.Set || s.highest() > 0 {
		return
	}
	f := r.file
	batteries := slices.ContainsFunc(f.Ways, func(w Way) bool { return w.Kind == BatteryWay })
	switch {
	case s.Kind == quantity.Power:
		r.mistake(s.Pos, "no power is drawn at all").hint("%s", hint)
	case !batteries && !f.dropped:
		r.mistake(s.Pos, "no current flows at all").hint("%s", hint)
	default:
		return
	}
	*s = Supply{}
}

// duty reads the steps of a cycle, all of which have a time.
func (r *reader) duty(p pair) Supply {
	if p.value.shape != list {
		if _, ok := r.text(p.value); ok {
			r.mistake(p.value.pos, "a duty is a list of steps").hint("%s", dutyHint)
		}
		return Supply{}
	}
	kind := currents
	if len(p.value.items) > 0 && isPower(p.value.items[0].text) {
		kind = powers
	}
	out, ok := r.steps(p, kind, dutyHint, repeats)
	if !ok {
		return Supply{}
	}
	out.Repeats = true
	return out
}

// isPower says whether a step is one of power.
func isPower(step string) bool {
	for _, word := range []string{"for", "over", "to"} {
		step, _, _ = cutWord(step, word)
	}
	_, err := quantity.Parse(quantity.Power, step)
	return err == nil
}

// air reads the temperature of the air: one, or the steps of its course, which
// repeat where each has a time.
func (r *reader) air(f field, p pair) Air {
	if p.value.shape != list {
		if _, from := oneOf([]string{fromLog}, p.value.text); from && p.value.shape == scalar {
			return Air{FromLog: true, Quantity: Quantity{Set: true, Pos: p.value.pos}}
		}
		if _, from := cutPrefixWords(p.value.text, "from"); from && p.value.shape == scalar {
			r.mistake(p.value.pos, "the air cannot be %q", p.value.text).hint("write a temperature, \"25 °C\", or %q for the column of the log", fromLog)
			return Air{}
		}
		return Air{Quantity: r.quantity(f, p.value)}
	}
	temps := airs()
	course, ok := r.steps(p, temps, temps.example, either)
	if !ok {
		return Air{}
	}
	out := Air{Quantity: Quantity{Value: math.Inf(-1), Unit: course.Unit, Set: true, Pos: course.Pos}}
	last := len(course.Steps) - 1
	for _, s := range course.Steps {
		out.Value = math.Max(out.Value, math.Max(s.From, s.To))
	}
	course.Repeats = !math.IsInf(course.Steps[last].For, 1)
	if course.Repeats || last > 0 {
		out.Course = course
	}
	return out
}

// airs says how the temperature of the air is told over time.
func airs() timed {
	f, _ := fieldNamed(fileFields(), "air")
	return timed{quantity.Temperature, "temperature of the air", "temperatures",
		`write "25 °C", or a list: "15 °C to 32 °C over 8 h", "32 °C for 4 h", "32 °C to 15 °C over 12 h"`,
		bound(quantity.Temperature, f.least), bound(quantity.Temperature, f.most), fmt.Sprintf("between %s and %s", f.least, f.most)}
}

// ending says what follows the last of a list of steps.
type ending int

const (
	ends    ending = iota // it has no time and stays
	repeats               // each has a time, and the first begins anew
	either
)

// steps reads one value or a list of steps of a kind.
func (r *reader) steps(p pair, kind timed, hint string, end ending) (Supply, bool) {
	out := Supply{Kind: kind.kind, Pos: p.value.pos}
	values := r.oneOrMore(p)
	if len(values) > mostSteps {
		r.mistake(values[mostSteps].pos, "a list has at most %d steps", mostSteps).hint("a longer table goes into a CSV file, which \"log\" names")
		return Supply{}, false
	}
	for i, n := range values {
		text, ok := r.text(n)
		if !ok {
			return Supply{}, false
		}
		step, unit, ok := r.step(text, n.pos, kind, hint)
		last, stays := i == len(values)-1, math.IsInf(step.For, 1)
		switch {
		case !ok:
			continue
		case end == repeats && stays:
			r.mistake(n.pos, "each step of a duty needs a time, for it repeats").hint("%s", hint)
			continue
		case end == ends && last && !stays && r.inCircuit:
			r.mistake(n.pos, "the steps of a circuit do not repeat, and this one does not say what flows after the last").hint("add a last line without a time, for example \"%s\"", kind.zero())
			continue
		case end == ends && last && !stays:
			r.mistake(n.pos, "the supply does not say what flows after its last step").hint("add a last line without a time, for example \"%s\"", kind.zero())
			continue
		case !last && stays:
			r.mistake(n.pos, "a step before the last needs a time").hint("%s", hint)
			continue
		}
		out.Steps = append(out.Steps, step)
		if out.Unit == "" {
			out.Unit = unit
		}
	}
	if len(values) == 0 || len(out.Steps) < len(values) {
		return Supply{}, false
	}
	out.Set = true
	return out, true
}

// step reads "140 A", "140 A for 15 min" or "0 A to 140 A over 5 min".
func (r *reader) step(text string, pos Pos, kind timed, hint string) (step Step, unit string, ok bool) {
	step = Step{For: math.Inf(1), Pos: pos}
	amount, time, timed := cutWord(text, "for")
	ramp := false
	if !timed {
		amount, time, ramp = cutWord(text, "over")
	}
	from, to, two := cutWord(amount, "to")
	if two != ramp {
		r.mistake(pos, "a ramp has two %s and a time", kind.plural).hint("%s", hint)
		return step, "", false
	}
	if two && !strings.ContainsFunc(from, isLetter) {
		if _, after, found := strings.Cut(to, " "); found {
			from += " " + after
		}
	}
	first, good := r.amount(from, pos, kind)
	if !good {
		return step, "", false
	}
	step.From, step.To = first.SI, first.SI
	if two {
		second, good := r.amount(to, pos, kind)
		if !good {
			return step, "", false
		}
		step.To = second.SI
	}
	if timed || ramp {
		v, err := quantity.Parse(quantity.Time, time)
		if err != nil {
			r.quantityProblem(pos, err)
			return step, "", false
		}
		if !(v.SI > 0 && v.SI <= longest) {
			r.mistake(pos, "a step lasts more than 0 s and at most a year")
			return step, "", false
		}
		step.For = v.SI
	}
	return step, first.Unit, true
}

func isLetter(c rune) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }

// amount reads one value of a supply.
func (r *reader) amount(text string, pos Pos, kind timed) (quantity.Value, bool) {
	v, err := quantity.Parse(kind.kind, text)
	if err != nil {
		r.quantityProblem(pos, err)
		return v, false
	}
	if v.SI < kind.least || v.SI > kind.most {
		n := r.mistake(pos, "the %s must be %s; it is %s", kind.what, kind.bounds, quantity.Format(kind.kind, v.SI, v.Unit, 0))
		if v.SI < 0 && kind.kind != quantity.Temperature {
			n.hint("%s", oneWay)
		}
		return v, false
	}
	return v, true
}

// length is the time of all steps, s.
func (s *Supply) length() float64 {
	sum := 0.0
	for _, step := range s.Steps {
		sum += step.For
	}
	return sum
}

// Load is what the stack carries as the file says it: a current, a power, a
// duty or a log; nil where its circuits have currents of their own, or the file
// does not say.
func (f *File) Load() *Supply {
	for _, s := range []*Supply{&f.Current, &f.Power, &f.Duty, &f.Log.Supply} {
		if s.Set {
			return s
		}
	}
	return nil
}
