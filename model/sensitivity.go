package model

import (
	"slices"

	"clampheat/model/network"
)

// This file groups the derivatives of a settled temperature by the rows that
// the user knows.

// RowSensitivity is what a change of one row does to a settled temperature, to
// first order. Shares are of what the row has: 0.01 of one is what one per cent
// more does.
type RowSensitivity struct {
	Watt        float64 // K/W, by heat made in the row, shared evenly by its nodes
	Ohms        float64 // K, by all ohms of the row as a share
	Added       float64 // K/Ω, of a joint: by ohms added that do not follow the temperature
	Conductance float64 // K, of a joint: by the conductance across it as a share
	Surface     float64 // K, by all surface of the row that sees the room or a box as a share
}

// Sensitivities are what a change of anything does to one settled temperature,
// to first order.
type Sensitivities struct {
	Current float64 // K, by the current as a share
	// Air, K/K, is by the temperature of the air, and Around by that of air,
	// walls and bodies together, which is what a warmer room does.
	Air, Around float64
	Rows        []RowSensitivity // by index in Assembly.Rows
}

// Sensitivities gives the derivatives of a temperature at the settled state x of
// time t, s, where worth is what a watt more at each node adds to it, K/W, and a
// volt or ampere more in the balance of each current and potential: the adjoint
// of the solver.
func (a *Assembly) Sensitivities(t float64, x, worth []float64) Sensitivities {
	n := a.Network.Sensitivities(t, x, worth)
	s := Sensitivities{Current: n.Load, Air: n.Air, Around: n.Air + n.Radiant + n.Held, Rows: make([]RowSensitivity, len(a.Rows))}
	for i, row := range a.Rows {
		r := &s.Rows[i]
		for _, id := range row.Nodes {
			r.Watt += worth[id] / float64(len(row.Nodes))
		}
		for _, id := range row.Resistors {
			r.Ohms += n.Resistors[id].Share
		}
		for _, id := range row.Surfaces {
			r.Surface += n.Surfaces[id].Share
		}
		if row.Kind == BodyRow {
			// Such rows list no surfaces: they show none of their own.
			for _, e := range a.exposed {
				if slices.Contains(row.Nodes, e.node) {
					r.Surface += n.Surfaces[e.id].Share
				}
			}
		}
		for _, id := range row.Links {
			r.Conductance += n.Links[id].Share
		}
		if row.Kind == JointRow && len(row.Resistors) > 0 {
			r.Added = n.Resistors[row.Resistors[0]].Film
		}
	}
	return s
}

// HottestNode is the node whose temperature is that of a row, K, at a state; of
// a joint its hotter side.
func (a *Assembly) HottestNode(row int, x []float64) network.NodeID {
	hottest := a.Rows[row].Nodes[0]
	for _, n := range a.Rows[row].Nodes {
		if x[n] > x[hottest] {
			hottest = n
		}
	}
	return hottest
}
