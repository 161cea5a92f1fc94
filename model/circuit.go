package model

// This file holds what closes a circuit outside the stack: the wires that are
// not modelled as parts, batteries and rails of return among them, and what
// draws the current.

// A Wire connects two points of the circuit electrically and in no other way:
// a battery from its post to the negative rail, or a piece of that rail. It
// takes part in how currents divide; its heat is made outside the stack.
type Wire struct {
	Name string
	A, B Port
	// EMF is the voltage, V, that drives a current from A to B through the
	// wire: the open-circuit voltage of a battery whose post is B.
	EMF float64
	// Resistance, Ω, is constant.
	Resistance float64
	// Like, where not nil, adds the ohms of a section of a part, hot as that
	// is: the negative side of a battery that is wired like its positive one.
	Like *Section
}

// A Section is what lies between two ports of a part.
type Section struct{ Part, From, To int }

// A Draw takes a current out of the circuit at one point and gives it back at
// another: a load. Of Current, A over time, and Power, W over time, one is set;
// where neither is, the draw takes the stack's Supply.
type Draw struct {
	Name           string
	From, To       Port
	Current, Power Supply
}
