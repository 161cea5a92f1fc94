package model

import "clampheat/materials"

// This file says what lies beyond the parts of a stack: how a long part goes
// on, and the bodies that take heat from it.

// End says how a cable or bar goes on past a port that no joint takes. The
// zero End lets no heat through: a long cable that goes on alike.
type End struct {
	Held float64 // K; the end is held at it where not 0
	Body *Body   // the end sits on a body where not nil
}

// A Body is a mass that takes heat from a part: a battery, an inverter.
type Body struct {
	Name     string
	Capacity float64         // J/K; 0 = held at the temperature of the air
	To       materials.Range // W/K, from the part to the body
	Loss     float64         // W/K, from the body to the air
}

func (d *Body) check(c *checks) {
	c.notNegative(d.Name+"'s heat capacity", d.Capacity)
	c.notNegative(d.Name+"'s loss to the air", d.Loss)
	if !notNegative(d.To) {
		c.fail(d.Name+"'s conductance", "must be a range from zero up, not %g … %g … %g", d.To.Low, d.To.Likely, d.To.High)
	}
}

// heldStiffness is how many times better the way to a held end conducts than
// the cell before it: the end is then at its temperature within a thousandth
// of the fall over that cell.
const heldStiffness = 1e3

func (e *End) check(c *checks) {
	c.notNegative("temperature of the end", e.Held)
	if e.Body != nil {
		e.Body.check(c)
	}
}
