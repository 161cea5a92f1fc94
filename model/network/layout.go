package network

// This file arranges a finished network for the loops that pass it.

import (
	"cmp"
	"math"
	"slices"

	"clampheat/materials"
)

// layout is a network arranged for solving: things of one kind side by side,
// in runs over nodes that follow one another wherever there are such, so that
// the long parts are passed in plain loops. It is not written after Finish.
type layout struct {
	// pairs are the pairs of nodes that act on one another; the first ones,
	// up to loose, are neighbours i, i+1 by rising i, the rest are sorted.
	pairs  [][2]int
	loose  int
	chains []run
	// fixed is the conductance of each pair that does not change, W/K, and
	// fixedDiag the derivative that it and the holds give each node's balance.
	fixed, fixedDiag []float64

	ties   []tie
	losses []lossRun
	// conv and rad are the coefficients of the surfaces of all loss runs:
	// what conv means depends on the run, rad is εσA, W/K⁴.
	conv, rad []float64
	lossPlace []lossPlace // by SurfaceID
	slots     []gapSlot   // by GapID
	bare      []bareRun

	film film
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

type lossRun struct {
	run
	kind     lossKind
	exponent float64
	radiant  float64
	still    *still
	fused    bool // done by a bareRun
}

type lossPlace struct{ run, index int }

type gapSlot struct {
	pair, a, b int // a < b
	area, rad  float64
	cavity     cavity
}

// arrange fills the layout from the parts.
func (n *Network) arrange() {
	n.film = film{&filmTable().cells, square(n.room.Pressure / materials.StandardPressure)}
	n.arrangePairs()
	n.arrangeResistors()
	n.arrangeLosses()
	n.arrangeBare()
}

func square(x float64) float64 { return x * x }

func ordered(a, b NodeID) [2]int {
	return [2]int{int(min(a, b)), int(max(a, b))}
}

func (n *Network) arrangePairs() {
	var pairs [][2]int
	for _, l := range n.links {
		if l.a != l.b {
			pairs = append(pairs, ordered(l.a, l.b))
		}
	}
	for _, r := range n.resistors {
		if r.A != r.B {
			pairs = append(pairs, ordered(r.A, r.B))
		}
	}
	for _, g := range n.gaps {
		pairs = append(pairs, ordered(g.a, g.b))
	}
	slices.SortFunc(pairs, func(x, y [2]int) int {
		near := func(p [2]int) int {
			if p[1] == p[0]+1 {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(near(x), near(y)), cmp.Compare(x[0], y[0]), cmp.Compare(x[1], y[1]))
	})
	n.pairs = slices.Compact(pairs)
	index := make(map[[2]int]int, len(n.pairs))
	for i, p := range n.pairs {
		index[p] = i
		if p[1] != p[0]+1 {
			continue
		}
		n.loose = i + 1
		if k := len(n.chains) - 1; k >= 0 && n.pairs[i-1][1] == p[0] {
			n.chains[k].to = i + 1
		} else {
			n.chains = append(n.chains, run{p[0], i, i + 1})
		}
	}
	n.fixed = make([]float64, len(n.pairs))
	n.fixedDiag = make([]float64, len(n.nodes))
	for _, l := range n.links {
		if l.a == l.b {
			continue
		}
		n.fixed[index[ordered(l.a, l.b)]] += l.conductance
		n.fixedDiag[l.a] -= l.conductance
		n.fixedDiag[l.b] -= l.conductance
	}
	for _, h := range n.holds {
		n.fixedDiag[h.node] -= h.conductance
		n.ties = append(n.ties, tie{int(h.node), h.conductance, h.temp})
	}
	for _, g := range n.gaps {
		p := ordered(g.a, g.b)
		n.slots = append(n.slots, gapSlot{index[p], p[0], p[1], g.Area,
			g.Area * g.Emissivity * materials.StefanBoltzmann, cavity{g.Distance, g.Height / g.Distance}})
	}
	n.place = make([]resistorPlace, len(n.resistors))
	for i, r := range n.resistors {
		pair := -1
		if r.A != r.B {
			pair = index[ordered(r.A, r.B)]
		}
		p := ordered(r.A, r.B)
		switch {
		case r.Constriction:
			n.place[i] = resistorPlace{inSpots, len(n.spots)}
			n.spots = append(n.spots, spotResistor{a: p[0], b: p[1], pair: pair})
		case pair >= 0:
			n.place[i] = resistorPlace{inPairs, len(n.between)}
			n.between = append(n.between, pairResistor{a: p[0], b: p[1], pair: pair})
		}
	}
}

// arrangeResistors puts those of one node in runs and stores all figures.
func (n *Network) arrangeResistors() {
	var own []int
	for i, r := range n.resistors {
		if r.A == r.B && !r.Constriction {
			own = append(own, i)
		}
	}
	slices.SortStableFunc(own, func(x, y int) int { return cmp.Compare(n.resistors[x].A, n.resistors[y].A) })
	n.r0, n.r1 = make([]float64, len(own)), make([]float64, len(own))
	for k, i := range own {
		n.place[i] = resistorPlace{inRun, k}
		node := int(n.resistors[i].A)
		last := len(n.ownRuns) - 1
		if last >= 0 {
			if r := &n.ownRuns[last]; r.node+r.to-r.from == node {
				r.to = k + 1
				continue
			}
		}
		n.ownRuns = append(n.ownRuns, run{node, k, k + 1})
	}
	for i := range n.resistors {
		n.store(i)
	}
}

// A sorted is a surface with what decides its group.
type sorted struct {
	id   int
	node int
	run  lossRun
	conv float64
}

func (n *Network) arrangeLosses() {
	all := make([]sorted, 0, len(n.surfaces))
	shapes := map[string]int{} // order in which a shape was first met
	var stills []*still
	var key []byte
	for i := range n.surfaces {
		s := &n.surfaces[i]
		if s.Radiant == 0 {
			s.Radiant = n.room.Radiant
		}
		e := sorted{id: i, node: int(s.node)}
		e.run.radiant = s.Radiant
		switch shape := s.Shape.(type) {
		case nil:
			e.run.kind = steadyLoss
		case Given:
			e.run.kind, e.conv = steadyLoss, s.Area*shape.H
		case PowerLaw:
			e.run.kind, e.run.exponent = powerKind(shape.M), shape.M
			e.conv = s.Area * shape.C * math.Pow(shape.L, -shape.M)
		default:
			key = shape.appendKey(key[:0])
			k, met := shapes[string(key)]
			if !met {
				k = len(stills)
				shapes[string(key)] = k
				stills = append(stills, newStill(shape, n.room.Pressure))
			}
			e.run.kind, e.conv, e.run.still = tabledLoss, s.Area, stills[k]
			if stills[k].plainly() {
				e.run.kind = curvedLoss
			}
			e.run.exponent = float64(k) // only orders the groups here
		}
		all = append(all, e)
	}
	slices.SortStableFunc(all, func(x, y sorted) int {
		return cmp.Or(cmp.Compare(x.run.kind, y.run.kind), cmp.Compare(x.run.exponent, y.run.exponent),
			cmp.Compare(x.run.radiant, y.run.radiant), cmp.Compare(x.node, y.node))
	})
	n.lossPlace = make([]lossPlace, len(all))
	n.conv, n.rad = make([]float64, len(all)), make([]float64, len(all))
	for i, e := range all {
		s := &n.surfaces[e.id]
		n.conv[i], n.rad[i] = e.conv, s.Area*s.Emissivity*materials.StefanBoltzmann
		last := len(n.losses) - 1
		if last >= 0 && n.losses[last].goesOn(e) {
			n.losses[last].to = i + 1
		} else {
			e.run.run = run{e.node, i, i + 1}
			n.losses = append(n.losses, e.run)
			last++
		}
		n.lossPlace[e.id] = lossPlace{last, i}
	}
}

// goesOn says whether a surface can be added to the end of a run.
func (r *lossRun) goesOn(e sorted) bool {
	return r.kind == e.run.kind && r.exponent == e.run.exponent && r.radiant == e.run.radiant &&
		r.still == e.run.still && r.node+r.to-r.from == e.node
}

func powerKind(m float64) lossKind {
	switch m {
	case 0:
		return steadyLoss
	case 0.25:
		return quarterLoss
	case 1.0 / 3:
		return thirdLoss
	}
	return powerLoss
}
