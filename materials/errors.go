package materials

// This file holds the errors that look-ups and property functions return.

import (
	"fmt"
	"strings"
)

// UnknownError reports a name that a table does not hold.
type UnknownError struct {
	Kind string   // what was looked for, as a person says it: "metal", "finish"
	Name string   // the name as given
	Near []string // at most three known names that resemble it, best first
	All  []string // every known name, in the table's order
}

// Error says what was not found and which names come near; without a near one
// it lists what is known.
func (e *UnknownError) Error() string {
	const most = 16 // more names than that help nobody
	offer := "known are " + quoted(e.All[:min(most, len(e.All))], ", ")
	if more := len(e.All) - most; more > 0 {
		offer += fmt.Sprintf(" and %d more", more)
	}
	if len(e.Near) > 0 {
		offer = "near names are " + quoted(e.Near, ", ")
	}
	return fmt.Sprintf("no %s is called %q; %s", e.Kind, e.Name, offer)
}

// RangeError reports an argument outside the range that a relation is claimed for.
type RangeError struct {
	Quantity  string  // what was out of range: "air temperature"
	Value     float64 // as given
	Low, High float64 // the range claimed, both ends allowed
	Unit      string  // of all three; empty for a pure number
}

// Error names the quantity, its value and the range.
func (e *RangeError) Error() string {
	unit := ""
	if e.Unit != "" {
		unit = " " + e.Unit
	}
	return fmt.Sprintf("%s %.6g%s is outside %.6g to %.6g%s", e.Quantity, e.Value, unit, e.Low, e.High, unit)
}

// within returns a *RangeError unless low ≤ v ≤ high; NaN is outside.
func within(quantity string, v, low, high float64, unit string) error {
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{Quantity: quantity, Value: v, Low: low, High: high, Unit: unit}
}

func quoted(names []string, sep string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, sep)
}
