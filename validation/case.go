package validation

import (
	"context"
	"fmt"
	"math"
	"strings"
)

// Kind says what stands behind a case.
type Kind string

const (
	Published Kind = "published" // a printed value of a standard, law, handbook or textbook
	Analytic  Kind = "analytic"  // a closed form, or a fine independent solution
	Measured  Kind = "measured"  // open measured data
	Practice  Kind = "practice"  // common practice, no source
	CodeCheck Kind = "code"      // arithmetic from a stated formula, no outside number
)

// fromMemory ends the source of a figure that was quoted from memory; the
// document is counted once all the same.
const fromMemory = " (from memory)"

// Inputs are the named inputs of a case, SI unless the name says otherwise.
type Inputs map[string]float64

// Tolerance is the band of answers that a case accepts.
type Tolerance struct {
	Low, High float64 // offsets from Want
	Text      string  // "±1 %"
}

// Rel accepts ± share of the value expected.
func Rel(want, share float64) Tolerance {
	d := math.Abs(want) * share
	return Tolerance{-d, d, fmt.Sprintf("±%.3g %%", share*100)}
}

// Abs accepts ± d in the unit of the case.
func Abs(d float64, unit string) Tolerance {
	return Tolerance{-d, d, strings.TrimSpace(fmt.Sprintf("±%.3g %s", d, unit))}
}

// Band accepts low … high around the value expected, as shares of it.
func Band(want, low, high float64) Tolerance {
	return Tolerance{want * low, want * high, fmt.Sprintf("%+.3g … %+.3g %%", low*100, high*100)}
}

// A Case is one claim held against the world outside.
type Case struct {
	Group, Name string // "air", "viscosity/300 K"
	Claim       string
	Kind        Kind
	Source      string // author or standard, year, table or equation
	Inputs      Inputs
	Unit        string
	Want        float64
	Tol         Tolerance
	Why         string // why the tolerance is that wide
	// Breaks names the input whose change must turn the case red.
	Breaks string
	// Exact cases must turn red at a change of 1 %.
	Exact bool
	// Reported cases print their difference and are not judged.
	Reported bool
	Note     string
	// Got computes the answer from the inputs.
	Got func(ctx context.Context, in Inputs) (float64, error)
	// Stand, where not nil, stands in for a Got that takes long while the
	// smallest break is looked for.
	Stand func(ctx context.Context, in Inputs) (float64, error)
}

// Result is a case with what the project gets.
type Result struct {
	Case
	Value  float64
	Passed bool // true for a reported case that could be computed
	// Break is the smallest change of the input Breaks, as a share, that turns
	// the case red; 0 for a reported case.
	Break float64
	Weak  bool // Break is above 10 %
}

// passes judges an answer.
func (c *Case) passes(got float64) bool {
	d := got - c.Want
	return !math.IsNaN(d) && d >= c.Tol.Low && d <= c.Tol.High
}
