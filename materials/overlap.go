package materials

// This file holds how far the crowding of current raises the resistance of
// two bars that lap over each other.

import (
	"fmt"
	"math"
)

// overlapSolved holds, for overlap over thickness, the exact factor. From a
// two-dimensional solution by finite volumes, refined until ±0.002, of two equal
// bars whose faces touch without resistance; a calculation, no published table.
var overlapSolved = []struct{ ratio, factor float64 }{
	{1, 1.207}, {1.5, 0.890}, {2, 0.768}, {3, 0.669},
}

// closedFrom is the ratio from which the closed form for long overlaps holds.
const closedFrom = 4

// overlapExcess is by how much the exact factor exceeds the closed form.
var overlapExcess = func() []struct{ ratio, excess float64 } {
	list := make([]struct{ ratio, excess float64 }, 0, len(overlapSolved)+1)
	for _, s := range overlapSolved {
		list = append(list, struct{ ratio, excess float64 }{s.ratio, s.factor - longOverlap(s.ratio)})
	}
	return append(list, struct{ ratio, excess float64 }{closedFrom, 0})
}()

// longOverlap is the factor of an overlap from closedFrom up.
func longOverlap(ratio float64) float64 { return 0.5 + twoSteps/ratio }

// StreamlineFactor returns the factor e by which the resistance of an
// overlap of two equal bars exceeds that of one bar of the same length, by the
// overlap's length over the bars' thickness. It counts the crowding of the
// current alone, the faces touching all over without resistance; it falls
// towards one half, two bars side by side.
//
// Valid from 1 up; below, it returns a *RangeError.
//
// Source: from 4 up the sum of a half and of two steps in thickness,
// e = 1/2 + (2/π)(5/2·ln 3 − 2·ln(8/3))/(l/t), by conformal mapping; below, the
// numerical solution, whose course agrees with Melsom & Booth, J. IEE 60 (1922).
func StreamlineFactor(overlapOverThickness float64) (float64, error) {
	x := overlapOverThickness
	if err := within("overlap over thickness", x, 1, math.MaxFloat64, ""); err != nil {
		return 0, fmt.Errorf("find the streamline factor: %w", err)
	}
	e := longOverlap(x)
	for i := 1; i < len(overlapExcess); i++ {
		if x < overlapExcess[i].ratio {
			return e + hermite(i-1, x), nil
		}
	}
	return e, nil
}

// twoSteps is the extra length of two steps in thickness, 1 to 2, in thicknesses.
var twoSteps = 2 / math.Pi * (2.5*math.Log(3) - 2*math.Log(8.0/3))

// hermite interpolates the excess after point i by a monotone cubic.
// Source: Fritsch & Butland 1984, harmonic mean slopes; level at the last point.
func hermite(i int, x float64) float64 {
	p, q := overlapExcess[i], overlapExcess[i+1]
	h := q.ratio - p.ratio
	t := (x - p.ratio) / h
	return p.excess*(1+2*t)*(1-t)*(1-t) + h*excessSlope(i)*t*(1-t)*(1-t) +
		q.excess*t*t*(3-2*t) + h*excessSlope(i+1)*t*t*(t-1)
}

// excessSlope is the slope that the interpolant takes at point i.
func excessSlope(i int) float64 {
	p := overlapExcess
	secant := func(i int) float64 { return (p[i+1].excess - p[i].excess) / (p[i+1].ratio - p[i].ratio) }
	switch i {
	case 0: // one-sided, through the first three points
		a, b := secant(0), secant(1)
		h, g := p[1].ratio-p[0].ratio, p[2].ratio-p[1].ratio
		return ((2*h+g)*a - h*b) / (h + g)
	case len(p) - 1:
		return 0
	}
	a, b := secant(i-1), secant(i)
	h, g := p[i].ratio-p[i-1].ratio, p[i+1].ratio-p[i].ratio
	share := (1 + g/(h+g)) / 3
	return a * b / (share*b + (1-share)*a)
}
