package network

// This file arranges a finished network for the loops that pass it.

import (
	"cmp"
	"slices"

	"clampheat/materials"
)

// layout is a network arranged for solving: things of one kind side by side,
// in runs over nodes that follow one another wherever there are such, so that
// the long parts are passed in plain loops. It is not written after Finish.
type layout struct {
	// pairs are the pairs of unknowns that act on one another. The first ones,
	// up to loose, are neighbours i, i+1 by rising i; up to joined follow the other
	// pairs of nodes, sorted, then those that only a space joins, then those with a
	// current, by the higher unknown.
	pairs         [][2]int
	loose, joined int
	chains        []run
	// fixed is the conductance of each pair of nodes that does not change, W/K,
	// and fixedDiag the derivative that it and the holds give each node's balance.
	fixed, fixedDiag []float64

	ties      []tie
	airTies   []tie // held at the room's air
	losses    []lossRun
	inner     []innerSurface
	innerRuns []innerRun
	openings  []opening // by VentID
	// conv and rad are the coefficients of the surfaces of all loss runs, those of
	// spaces last: what conv means depends on the run, rad is εσA, W/K⁴.
	conv, rad []float64
	lossPlace []lossPlace // by SurfaceID
	slots     []gapSlot   // by GapID
	bare      []bareRun

	film film

	circuit
}

// A run is of things from … to−1 on nodes that follow one another from node.
// Those of a chain lie between its nodes, so that it has one node more.
type run struct{ node, from, to int }

type tie struct {
	node              int
	conductance, temp float64
}

type lossKind uint8

const (
	steadyLoss  lossKind = iota // h given: conv = A h
	quarterLoss                 // conv |ΔT|^¼ ΔT
	thirdLoss                   // conv |ΔT|^⅓ ΔT
	powerLoss                   // conv |ΔT|^m ΔT
	curvedLoss                  // conv = A: one curve of still
	tabledLoss                  // conv = A: all tables of still
)

// law is how the heat that a surface gives to the air goes with the
// temperatures.
type law struct {
	kind     lossKind
	exponent float64
	still    *still
}

type lossRun struct {
	run
	law
	radiant float64 // K, of what it sees
	follows bool    // it sees what is as warm as the air
	fused   bool    // done by a bareRun
}

// seen is the temperature of what the surfaces of a run see, K.
func (r *lossRun) seen(a ambient) float64 {
	if r.follows {
		return a.radiant
	}
	return r.radiant
}

// lossPlace says where a surface was put: in a run, or, run being −1, in inner.
type lossPlace struct{ run, index int }

type gapSlot struct {
	pair, a, b int // a < b
	area, rad  float64
	cavity     cavity
	rising     Rising
}

// arrange fills the layout from the parts.
func (n *Network) arrange() {
	n.film = film{&filmTable().cells, square(n.room.Pressure / materials.StandardPressure)}
	n.arrangeCircuit()
	n.arrangePairs()
	n.arrangeEnds()
	n.arrangeLinks()
	n.arrangeResistors()
	n.arrangeLosses()
	n.arrangeBare()
}

func square(x float64) float64 { return x * x }

func (n *Network) arrangeLinks() {
	n.fixedDiag = make([]float64, len(n.nodes))
	for _, l := range n.links {
		if l.a == l.b {
			continue
		}
		n.fixed[n.pairOf(int(l.a), int(l.b))] += l.conductance
		n.fixedDiag[l.a] -= l.conductance
		n.fixedDiag[l.b] -= l.conductance
	}
	for _, h := range n.holds {
		n.fixedDiag[h.node] -= h.conductance
		t := tie{int(h.node), h.conductance, h.temp}
		if h.air {
			n.airTies = append(n.airTies, t)
		} else {
			n.ties = append(n.ties, t)
		}
	}
	for _, g := range n.gaps {
		p := ordered(g.a, g.b)
		n.slots = append(n.slots, gapSlot{n.pairOf(p[0], p[1]), p[0], p[1], g.Area,
			g.Area * g.Emissivity * materials.StefanBoltzmann, cavity{g.Distance, g.Height / g.Distance}, g.Rising})
	}
	for _, v := range n.vents {
		n.openings = append(n.openings, opening{int(v.Node), v.Flow, v.Buoyant})
	}
}

// arrangeResistors finds a place for each and stores all figures. Those of one
// node are put in runs.
func (n *Network) arrangeResistors() {
	n.place = make([]resistorPlace, len(n.resistors))
	var own []int
	for i, r := range n.resistors {
		p, at := ordered(r.A, r.B), n.currentOf(r.Branch)
		pair := -1
		if r.A != r.B && !r.Elsewhere {
			pair = n.pairOf(p[0], p[1])
		}
		spot := spotResistor{a: p[0], b: p[1], pair: pair}
		switch {
		case r.Branch == 0 && r.Elsewhere:
			n.place[i] = resistorPlace{inNothing, 0}
		case r.A == r.B && !r.Constriction:
			own = append(own, i)
		case r.Branch != 0:
			n.place[i] = resistorPlace{inBridges, len(n.bridges)}
			n.bridges = append(n.bridges, bridgeResistor{spotResistor: spot, spots: r.Constriction, at: at,
				pairA: n.pairOf(p[0], at), pairB: n.pairOf(p[1], at), elsewhere: r.Elsewhere})
		case r.Constriction:
			n.place[i] = resistorPlace{inSpots, len(n.spots)}
			n.spots = append(n.spots, spot)
		default:
			n.place[i] = resistorPlace{inPairs, len(n.between)}
			n.between = append(n.between, pairResistor{a: p[0], b: p[1], pair: pair})
		}
	}
	n.arrangeOwn(own)
	for i := range n.resistors {
		n.store(i)
	}
}

// arrangeOwn puts resistors of one node in runs: of one branch, of one kind.
func (n *Network) arrangeOwn(own []int) {
	slices.SortStableFunc(own, func(x, y int) int {
		a, b := &n.resistors[x], &n.resistors[y]
		elsewhere := 0
		if a.Elsewhere != b.Elsewhere {
			if elsewhere = -1; a.Elsewhere {
				elsewhere = 1
			}
		}
		return cmp.Or(cmp.Compare(a.Branch, b.Branch), elsewhere, cmp.Compare(a.A, b.A))
	})
	n.r0, n.r1 = make([]float64, len(own)), make([]float64, len(own))
	var last *Resistor
	for k, i := range own {
		n.place[i] = resistorPlace{inRun, k}
		r := &n.resistors[i]
		follows := last != nil && last.Branch == r.Branch && last.Elsewhere == r.Elsewhere && r.A == last.A+1
		last = r
		it := run{int(r.A), k, k + 1}
		at := n.currentOf(r.Branch)
		switch {
		case r.Branch == 0 && follows:
			n.ownRuns[len(n.ownRuns)-1].to = k + 1
		case r.Branch == 0:
			n.ownRuns = append(n.ownRuns, it)
		case follows:
			n.branchRuns[len(n.branchRuns)-1].to = k + 1
		default:
			n.branchRuns = append(n.branchRuns, branchRun{it, at, n.pairOf(int(r.A), at), r.Elsewhere})
		}
	}
}
