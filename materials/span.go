package materials

// This file holds the spread that an uncertain figure carries.

import "math"

// Range is a figure with its spread, Low ≤ Likely ≤ High, in the SI unit of the
// quantity. Low and High bound what is met in practice; they are no limits of
// a standard unless the row says so.
type Range struct{ Low, Likely, High float64 }

// Exactly returns the range of a figure without spread.
func Exactly(v float64) Range { return Range{Low: v, Likely: v, High: v} }

// Valid reports whether all three figures are finite and in order.
func (r Range) Valid() bool {
	return !math.IsInf(r.Low, 0) && !math.IsInf(r.High, 0) && r.Low <= r.Likely && r.Likely <= r.High
}
