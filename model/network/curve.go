package network

// This file tabulates natural convection over g β ψ |ΔT|/(ν α).

import "math"

// A curve is the natural convection of a shape, as far as one family of
// relations goes, over x = B |ΔT|:
//
//	H(x) = Σ share · Nu(x L³)/L,  so that  Q = A k H(x) ΔT
//
// Its knots lie at equal steps of the mantissa within each power of two, so
// that the interval is read from the bits of x, without a logarithm.
type curve struct {
	cells [curveCells]cubic
	terms []term // the same by the formulas, for x outside the table
}

const (
	curveLow    = 4  // from x = 2⁴: 10⁻⁷ K in air at 20 °C
	curveHigh   = 44 // to x = 2⁴⁴: beyond 1000 K at 150 K film
	curveBits   = 3  // 2³ intervals to a power of two
	curveCells  = (curveHigh - curveLow) << curveBits
	mantissa    = 52
	curveShift  = mantissa - curveBits
	curveOffset = (1023 + curveLow) << curveBits
	restMask    = 1<<curveShift - 1
	oneBits     = 1023 << mantissa
)

func newCurve(terms []term) *curve {
	c := &curve{terms: terms}
	v0, d0 := c.formula(math.Ldexp(1, curveLow))
	for i := range c.cells {
		octave, part := i>>curveBits, i&(1<<curveBits-1)
		width := math.Ldexp(1, curveLow+octave-curveBits)
		x := math.Ldexp(1, curveLow+octave) + float64(part+1)*width
		v1, d1 := c.formula(x)
		c.cells[i] = hermite(v0, d0*width, v1, d1*width)
		v0, d0 = v1, d1
	}
	return c
}

// formula gives H and dH/dx by the relations themselves.
func (c *curve) formula(x float64) (h, slope float64) {
	for i := range c.terms {
		t := &c.terms[i]
		nu, d := t.nusselt(x*t.l*t.l*t.l, t.aspect)
		h += t.share / t.l * nu
		slope += t.share / t.l * d
	}
	if x > 0 {
		return h, slope / x
	}
	return h, 0
}

// knot gives the interval in which x lies and the place in it. Outside the
// table, which is below 2^curveLow and above 2^curveHigh, the interval is not
// less than curveCells.
func knot(x float64) (interval uint64, s float64) {
	bits := math.Float64bits(x)
	return bits>>curveShift - curveOffset, math.Float64frombits(oneBits|(bits&restMask)<<curveBits) - 1
}

// steepness is x over the width of its interval, which turns a derivative by
// s into one by ln x: the mantissa in parts of an interval.
func steepness(x float64) float64 {
	return math.Float64frombits(oneBits|math.Float64bits(x)&(1<<mantissa-1)) * (1 << curveBits)
}

// both gives H and x dH/dx.
func (c *curve) both(x float64) (h, slope float64) {
	if i, s := knot(x); i < curveCells {
		h, d := c.cells[i].both(s)
		return h, d * steepness(x)
	}
	h, slope = c.formula(x)
	return h, slope * x
}
