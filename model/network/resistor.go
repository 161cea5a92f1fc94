package network

// This file holds the sources of heat, and the spots of a contact, which are
// hotter than the metal around them.

import (
	"math"

	"clampheat/materials"
)

// Resistor makes heat from a current, half of it in node A and half in node B,
// which may be the same. Its temperature is the mean of both.
type Resistor struct {
	Name string
	A, B NodeID
	// R20 is the part that follows the metal's temperature, Ω at 293.15 K, by
	// Alpha, 1/K: R = R20 [1 + α (T − 293.15)], eq. (2) of the package comment.
	R20, Alpha float64
	// Film is the part that does not, Ω.
	Film float64
	// Constriction says that R20 is that of the spots of a contact, which are
	// hotter than the metal around them by eq. (3).
	Constriction bool
	// Branch is the branch whose current it carries; 0 = the supply's.
	Branch BranchID
	// Elsewhere says that it follows the temperature of its nodes and makes its
	// heat outside the network: one of two like things of which one is modelled.
	Elsewhere bool
}

// reference is the temperature, K, at which resistances are stated.
const reference = materials.ReferenceTemp

// resistance holds the resistors arranged for solving.
type resistance struct {
	ownRuns    []run // A = B, on nodes that follow one another, with the supply's current
	branchRuns []branchRun
	r0, r1     []float64 // Ω and Ω/K of the resistors of all runs: R = r0 + r1 T
	between    []pairResistor
	spots      []spotResistor
	bridges    []bridgeResistor
	place      []resistorPlace // by ResistorID
}

// branchRun is a run of resistors with the current of a branch. The pairs of
// their nodes and that current follow one another.
type branchRun struct {
	run
	at, pair  int // the current among the unknowns, the first pair
	elsewhere bool
}

// bridgeResistor is a resistor of a branch that lies between two nodes or is a
// constriction.
type bridgeResistor struct {
	spotResistor         // where spots
	r0, r1       float64 // where not
	spots        bool
	at           int // the current among the unknowns
	pairA, pairB int // of a and of b with it
	elsewhere    bool
}

type pairResistor struct {
	a, b, pair int // pair −1 where a = b
	r0, r1     float64
}

type spotResistor struct {
	a, b, pair       int
	r20, alpha, film float64
}

// resistorPlace says where a resistor was put: in r0 and r1, in between, in
// spots or in bridges. One of the supply's current with its heat elsewhere has
// no place, as it acts on nothing.
type resistorPlace struct {
	kind  resistorKind
	index int
}

type resistorKind uint8

const (
	inRun resistorKind = iota
	inPairs
	inSpots
	inBridges
	inNothing
)

func (r *resistance) clone() resistance {
	c := *r
	c.r0 = append([]float64(nil), r.r0...)
	c.r1 = append([]float64(nil), r.r1...)
	c.between = append([]pairResistor(nil), r.between...)
	c.spots = append([]spotResistor(nil), r.spots...)
	c.bridges = append([]bridgeResistor(nil), r.bridges...)
	return c
}

// line gives r0 and r1 of R = r0 + r1 T.
func (r *Resistor) line() (r0, r1 float64) {
	r1 = r.R20 * r.Alpha
	return r.R20 - r1*reference + r.Film, r1
}

// SetResistor replaces the ohms of a resistor, the part at 20 °C and the film,
// in a finished network. Both must be finite and not negative, and a branch must
// keep some resistance, as for Finish; else the answer is a *SetupError and nothing
// changes.
func (n *Network) SetResistor(id ResistorID, r20, film float64) error {
	r := &n.resistors[id]
	changed := *r
	changed.R20, changed.Film = r20, film
	if err := changed.check(); err != nil {
		return err
	}
	if r.Branch != 0 && r20+film == 0 && n.othersOhms(id) == 0 {
		return &SetupError{Item: n.branches[r.Branch-1].Name, Reason: noOhms}
	}
	*r = changed
	n.store(int(id))
	return nil
}

// othersOhms is the resistance of a resistor's branch without it, Ω at 20 °C.
func (n *Network) othersOhms(id ResistorID) float64 {
	b := n.resistors[id].Branch
	ohms := n.branches[b-1].Ohms
	for _, k := range n.carriers[b-1] {
		if r := &n.resistors[k]; k != id {
			ohms += r.R20 + r.Film
		}
	}
	return ohms
}

// store writes a resistor's figures to its place.
func (n *Network) store(id int) {
	r, p := &n.resistors[id], n.place[id]
	r0, r1 := r.line()
	switch p.kind {
	case inRun:
		n.r0[p.index], n.r1[p.index] = r0, r1
	case inPairs:
		n.between[p.index].r0, n.between[p.index].r1 = r0, r1
	case inSpots:
		s := &n.spots[p.index]
		s.r20, s.alpha, s.film = r.R20, r.Alpha, r.Film
	case inBridges:
		s := &n.bridges[p.index]
		s.r20, s.alpha, s.film = r.R20, r.Alpha, r.Film
		s.r0, s.r1 = r0, r1
	}
}

func (r *Resistor) check() error {
	if !notNegative(r.R20) || !notNegative(r.Film) {
		return &SetupError{Item: r.Name, Reason: "has a resistance that is negative or not a number"}
	}
	if !finite(r.Alpha) || math.Abs(r.Alpha) > 0.1 {
		return &SetupError{Item: r.Name, Reason: "has a temperature coefficient that no metal has"}
	}
	return nil
}

// spotShare is Holm's ⅔: the spot's mean excess over the bulk as a share of
// its highest (Holm 1967, §13).
const spotShare = 2.0 / 3

// softest bounds the drop over a constriction, as q β² of eq. (3), up to which
// the relation is followed; past it the excess is held. With α = 0.0039/K the
// bound lies at about 0.13 V, beyond the softening of copper (0.12 V, Holm
// 1967), where the spots give way and the relation has lost its ground. It
// keeps the balance finite wherever a search may wander.
const softest = 0.5

// spot is the state of a constriction.
type spot struct {
	ohm    float64 // Ω, of the constriction, film not counted
	excess float64 // K, of the spot over the bulk
	byTemp float64 // Ω/K
	byHeat float64 // Ω/A², by the square of the current
}

// constriction solves eq. (3), with y the excess of the spot over the bulk:
//
//	(T + y)² − T² = q (1 + β y)²,  q = I² r²/(4L),  β = ⅔ α
//
// which is a quadratic in y.
func constriction(r20, alpha, temp, heating float64) spot {
	r, slope := r20*(1+alpha*(temp-reference)), r20*alpha
	beta := spotShare * alpha
	c := r * r / (4 * materials.Lorenz)
	q := c * heating
	held := false
	if b2 := beta * beta; q*b2 > softest {
		q, held = softest/b2, true
	}
	half := temp - q*beta
	root := math.Sqrt(math.Max(half*half+q*(1-q*beta*beta), 0))
	den := half + root
	if !(r > 0) || !(temp > 0) || den <= 0 || root == 0 {
		return spot{ohm: r, byTemp: slope}
	}
	y := q / den
	hot := 1 + beta*y
	s := spot{ohm: r * hot, excess: y, byTemp: slope * hot}
	// root = y + T − qβ(1 + βy) as well: half the derivative by y.
	pull := r * beta / (2 * root)
	s.byTemp -= pull * 2 * y
	if !held {
		s.byTemp += pull * 2 * q * slope / r * hot * hot
		s.byHeat = pull * c * hot * hot
	}
	return s
}
