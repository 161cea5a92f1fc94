package model

import "clampheat/materials"

// A Stack is what a current passes, parts and the joints between them, and the
// room around. Parts and joints are lists, and a joint
// names the two ports that it connects: any number of joints may meet at a
// port, so that a stack may branch.
type Stack struct {
	Title        string
	Surroundings Surroundings
	// Supply is the current, A over time, that flows from one free end of the
	// stack to the other; with Draws it flows only where they take it.
	Supply Supply
	// Ripple says how much of the current alternates, its rms over the mean:
	// heat goes with 1 + Ripple², drops with the mean.
	Ripple float64
	Parts  []Part
	Bolts  []Bolt
	Joints []Joint
	Covers []Cover
	// Wires and Draws close the circuit outside the stack: batteries, rails of
	// return, loads.
	Wires     []Wire
	Draws     []Draw
	Enclosure *Enclosure // the box around parts of the stack; nil = none
	// Course is the temperature of the room's air over time, K; nil = constant,
	// as the surroundings have it.
	Course Supply
	// Limits are those that the user sets for a part, beside those that follow
	// from platings, plastics and insulations.
	Limits []PartLimit
}

// PartLimit is a limit of the user's own for the part with an index in
// Stack.Parts.
type PartLimit struct {
	Part int
	Limit
}

// Surroundings are the room around a stack.
type Surroundings struct {
	Air      float64 // K, temperature of the air
	Radiant  float64 // K, temperature of what the surfaces see; 0 = Air
	Altitude float64 // m above sea level
	AirSpeed float64 // m/s of moving air over the stack; 0 = still
}

// Port is a place on a part where current enters or leaves: ports 0 and 1 are
// the two ends of a part in the direction of the path, those of a bar with
// studs are its studs. Where Part is Outside, it is a point of the circuit
// outside the stack, which Port counts.
type Port struct{ Part, Port int }

// Outside stands for a part where a port is a point outside the stack.
const Outside = -1

// Part is one thing that carries current or heat. The kinds are those of this
// package: Cable, Bar, Post, Block, Fuse, Washer and Base.
type Part interface {
	// Name is what the user calls the part.
	Name() string
	// place adds the part's nodes, links, resistors and surfaces.
	place(b *builder, part int) error
}

// Condition says where in their ranges the uncertain ohms of joints and fuse
// are taken: the likely values, those of careful or those of careless
// assembly.
type Condition int

const (
	Likely   Condition = iota // the likely ohms
	Careful                   // the low ends of the ranges
	Careless                  // the high ends
)

// at takes from a range of ohms, or of anything that is better when lower,
// the value that the condition means.
func (c Condition) at(r materials.Range) float64 {
	switch c {
	case Careful:
		return r.Low
	case Careless:
		return r.High
	}
	return r.Likely
}

// against takes from a range of something that is better when higher, a
// conductance, the value that the condition means.
func (c Condition) against(r materials.Range) float64 {
	switch c {
	case Careful:
		return r.High
	case Careless:
		return r.Low
	}
	return r.Likely
}
