package model

import (
	"math"

	"clampheat/materials"
)

// This file combines the ranges of several inputs into the range of what
// follows from them.
//
// The effects of the inputs are added as the root of the sum of their squares
// (JCGM 100:2008, 5.1.2 eq. (10)), in the logarithm of the result, which is
// where products of powers have constant coefficients (5.1.6 eq. (12)). Each
// effect is found by setting the one input to the end of its range, the others
// likely (5.1.3 note 2). Upward and downward effects are kept apart, since most
// of the ranges are lopsided. The inputs are taken as independent: worst on
// worst is not what a range means.

// combine gives the range of f, which is positive, over ranges of its inputs.
// The slice that f is called with is reused.
func combine(inputs []materials.Range, f func(x []float64) float64) materials.Range {
	x := make([]float64, len(inputs))
	for i, r := range inputs {
		x[i] = r.Likely
	}
	likely := f(x)
	var up, down float64
	for i, r := range inputs {
		for _, end := range [2]float64{r.Low, r.High} {
			x[i] = end
			if d := math.Log(f(x) / likely); d > 0 {
				up += d * d
			} else {
				down += d * d
			}
		}
		x[i] = r.Likely
	}
	return materials.Range{
		Low:    likely * math.Exp(-math.Sqrt(down)),
		Likely: likely,
		High:   likely * math.Exp(math.Sqrt(up)),
	}
}

// positive reports whether a range is in order, finite and above zero.
func positive(r materials.Range) bool {
	return finite(r.Low) && finite(r.High) && 0 < r.Low && r.Low <= r.Likely && r.Likely <= r.High
}

// notNegative reports whether a range is in order, finite and not below zero.
func notNegative(r materials.Range) bool {
	return finite(r.Low) && finite(r.High) && 0 <= r.Low && r.Low <= r.Likely && r.Likely <= r.High
}
