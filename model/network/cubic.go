package network

// This file holds the cubics of which all tables are made.

// cubic holds the coefficients of a polynomial in s over one interval of a
// table, 0 ≤ s < 1, lowest power first.
type cubic [4]float64

// hermite is the cubic with values and slopes (by s) at both ends: pieces that
// share these join with a continuous derivative.
func hermite(v0, d0, v1, d1 float64) cubic {
	return cubic{v0, d0, 3*(v1-v0) - 2*d0 - d1, 2*(v0-v1) + d0 + d1}
}

// at is the value, summed in two halves that a processor works out side by
// side.
func (c *cubic) at(s float64) float64 {
	return (c[0] + c[1]*s) + s*s*(c[2]+c[3]*s)
}

// both are the value and its derivative by s.
func (c *cubic) both(s float64) (v, d float64) {
	top, s2 := c[3]*s, s*s
	return (c[0] + c[1]*s) + s2*(c[2]+top), (c[1] + 2*c[2]*s) + 3*s*top
}
