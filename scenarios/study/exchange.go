package study

import (
	"clampheat/model/network"
	"clampheat/solver"
)

// This file changes a network by terms beside it, so that one assembly serves
// many what-if cases.

// exchanged is a network with heat, links and ways to the room added to it, or
// taken off. With no terms it is the network. It has no load to be scaled: a
// search that needs one ends with an error.
type exchanged struct {
	n     *network.Network
	heats []heatTerm
	swaps []swapTerm
	links []linkTerm
	rooms []roomTerm
	air   float64 // K
}

// heatTerm adds a share of what a resistor makes, in equal parts to nodes. Its
// small change with temperature is left out of the derivatives, here and below,
// which only costs steps.
type heatTerm struct {
	resistor network.ResistorID
	nodes    []network.NodeID
	share    float64
}

// swapTerm has the resistors of one contact make what those of a contact of
// another network would make at the same temperatures of its two sides.
type swapTerm struct {
	own, other []network.ResistorID
	nodes      []network.NodeID // the two sides
	from       *network.Network // of the other, under the same current
	sides      []network.NodeID // the two sides there
	x          []float64        // a state of the other, to be overwritten
}

func (s *swapTerm) heat(n *network.Network, t float64, x []float64) float64 {
	for i, side := range s.sides {
		s.x[side] = x[s.nodes[i]]
	}
	heat := 0.0
	for _, id := range s.other {
		heat += s.from.ReadResistor(id, t, s.x).Heat
	}
	for _, id := range s.own {
		heat -= n.ReadResistor(id, t, x).Heat
	}
	return heat
}

// linkTerm adds conductance, W/K, between two nodes that have a link.
type linkTerm struct {
	a, b, pair  int
	conductance float64
}

// roomTerm adds conductance, W/K, from a node to the air of the room.
type roomTerm struct {
	node        int
	conductance float64
}

func (e *exchanged) Structure() solver.Structure           { return e.n.Structure() }
func (e *exchanged) Capacities(dst []float64)              { e.n.Capacities(dst) }
func (e *exchanged) Drift(t float64, x, df []float64) bool { return e.n.Drift(t, x, df) }
func (e *exchanged) Balance(t float64, x, f []float64) solver.Flow {
	return e.add(t, x, f, e.n.Balance(t, x, f))
}

func (e *exchanged) Linearize(t float64, x, f []float64, j *solver.Jacobian) solver.Flow {
	flow := e.n.Linearize(t, x, f, j)
	for _, l := range e.links {
		j.Diag[l.a] -= l.conductance
		j.Diag[l.b] -= l.conductance
		j.Up[l.pair] += l.conductance
		j.Down[l.pair] += l.conductance
	}
	for _, r := range e.rooms {
		j.Diag[r.node] -= r.conductance
	}
	return e.add(t, x, f, flow)
}

func (e *exchanged) add(t float64, x, f []float64, flow solver.Flow) solver.Flow {
	for _, h := range e.heats {
		heat := h.share * e.n.ReadResistor(h.resistor, t, x).Heat
		for _, n := range h.nodes {
			f[n] += heat / float64(len(h.nodes))
		}
		flow.Made += heat
	}
	for i := range e.swaps {
		s := &e.swaps[i]
		heat := s.heat(e.n, t, x)
		for _, n := range s.nodes {
			f[n] += heat / float64(len(s.nodes))
		}
		flow.Made += heat
	}
	for _, l := range e.links {
		heat := l.conductance * (x[l.a] - x[l.b])
		f[l.a] -= heat
		f[l.b] += heat
	}
	for _, r := range e.rooms {
		heat := r.conductance * (x[r.node] - e.air)
		f[r.node] -= heat
		flow.Lost += heat
	}
	return flow
}

// link adds conductance between two nodes that have a link.
func (e *exchanged) link(a, b network.NodeID, conductance float64) {
	from, to := int(min(a, b)), int(max(a, b))
	for k, pair := range e.n.Structure().Links {
		if pair[0] == from && pair[1] == to {
			e.links = append(e.links, linkTerm{from, to, k, conductance})
			return
		}
	}
}
