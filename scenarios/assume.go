package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file keeps the books of what a file leaves out: every value that the
// resolver takes and the file does not state passes through assume, so that
// it is listed with its ground and can be varied.

// An Assumption is a value that a scenario rests on and its file does not
// state.
type Assumption struct {
	// ID names the assumption for varying: "compact holder.base width".
	ID string
	// Where is the part or the table's row, What the value of it.
	Where, What string
	// Value is the range in SI; the zero Range where Text says it in words.
	Value materials.Range
	// Kind of quantity; "" for a plain number and for those in Unit.
	Kind quantity.Kind
	// Unit that the value is shown in; Scale is one of that unit in SI, where
	// Kind has no table of units. Both are empty for a plain number.
	Unit  string
	Scale float64
	Text  string // of a default in words
	Basis materials.Basis
	// Source is a published one, Ground why an assumed value is what it is.
	Source, Ground string
}

// Varies says whether the assumption has a range to vary it over.
func (a Assumption) Varies() bool { return a.Text == "" && a.Value.Low < a.Value.High }

// String is the value with its range as a person reads it, "20 mm (18 … 25
// mm)".
func (a Assumption) String() string {
	if a.Text != "" {
		return a.Text
	}
	likely := a.Likely()
	if !a.Varies() {
		return likely
	}
	low := strings.TrimSuffix(a.show(a.Value.Low), " "+a.Unit)
	return fmt.Sprintf("%s (%s … %s)", likely, low, a.show(a.Value.High))
}

// Likely is the likely value as a person reads it.
func (a Assumption) Likely() string {
	if a.Text != "" {
		return a.Text
	}
	return a.show(a.Value.Likely)
}

// shown is how many digits of an assumed value mean anything.
const shown = 3

func (a Assumption) show(si float64) string {
	if a.Kind != "" {
		return quantity.Format(a.Kind, si, a.Unit, shown)
	}
	if a.Scale == 0 {
		return quantity.Number(si, shown)
	}
	return quantity.Number(si/a.Scale, shown) + " " + a.Unit
}

// UnknownAssumptionError is a value to vary that the scenario does not assume.
type UnknownAssumptionError struct {
	ID   string
	Near string // the assumption that looks most like it; "" for none
}

func (e *UnknownAssumptionError) Error() string {
	if e.Near != "" {
		return fmt.Sprintf("nothing is assumed under the name %q; did you mean %q?", e.ID, e.Near)
	}
	return fmt.Sprintf("nothing is assumed under the name %q", e.ID)
}

// ledger lists the assumptions in the order in which they were first taken,
// and replaces those that are varied.
type ledger struct {
	list []Assumption
	at   map[string]int
	vary map[string]float64
}

// assume takes a value into the list, once for each ID, and returns it, or
// the value that takes its place.
func (l *ledger) assume(a Assumption) materials.Range {
	a.ID = a.Where + "." + a.What
	if l.at == nil {
		l.at = map[string]int{}
	}
	if i, known := l.at[a.ID]; known {
		a = l.list[i]
	} else {
		l.at[a.ID] = len(l.list)
		l.list = append(l.list, a)
	}
	if v, ok := l.vary[a.ID]; ok && a.Text == "" {
		return materials.Exactly(v)
	}
	return a.Value
}

// unknown tells of a value to vary that nothing asked for.
func (l *ledger) unknown() error {
	ids := make([]string, 0, len(l.vary))
	for id := range l.vary {
		if i, ok := l.at[id]; !ok || l.list[i].Text != "" {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		return nil
	}
	slices.Sort(ids)
	known := make([]string, 0, len(l.list))
	for _, a := range l.list {
		if a.Text == "" {
			known = append(known, a.ID)
		}
	}
	return &UnknownAssumptionError{ID: ids[0], Near: near(ids[0], known)}
}

// Units for ranges of package materials that no kind of quantity has.
const (
	squareMillimetre = 1e-6                    // m²
	filmUnit         = 1e-6 * squareMillimetre // Ω·m² in 1 µΩ·mm²
	micrometre       = 1e-6                    // m
	megapascal       = 1e6                     // Pa
)

// row takes a range out of a row of package materials. One that is exact and
// published is not assumed and not listed.
func (l *ledger) row(where, what string, r materials.Range, unit string, scale float64, p materials.Provenance) materials.Range {
	if r.Low == r.High && p.Basis == materials.Published {
		return r
	}
	return l.assume(Assumption{Where: where, What: what, Value: r, Unit: unit, Scale: scale,
		Basis: p.Basis, Source: p.Source.Cite, Ground: p.Ground})
}
