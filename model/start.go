package model

import (
	"math"

	"clampheat/model/network"
)

// This file makes the state that a search or a soak starts from.

// Start is a state to start a search or a soak from: all at the temperature
// of the air at the time 0, but for the parts whose temperature [K] is given by
// their index in Stack.Parts. Where the current divides, the currents that flow
// at those temperatures follow the nodes.
func (a *Assembly) Start(parts map[int]float64) []float64 {
	x := make([]float64, a.Network.Unknowns())
	for i := range a.Network.Nodes() {
		x[i] = a.Network.Air(0)
		if t, ok := parts[a.nodePart[i]]; ok && finite(t) {
			x[i] = math.Max(t, 0)
		}
	}
	// Where no current gives the power that is drawn, the search will say so.
	_ = a.Network.Connect(0, x)
	return x
}

// proportion tells figures that are sound one by one and overflow together,
// by the balance of the stack at the temperature of the air and its current
// at each break.
func (a *Assembly) proportion(s *Stack) error {
	x := a.Start(nil)
	f := make([]float64, len(x))
	for _, t := range append([]float64{0}, s.Breaks()...) {
		_ = a.Network.Connect(t, x)
		flow := a.Network.Balance(t, x, f)
		if !finite(flow.Made) || !finite(flow.Lost) {
			return &StackError{Reason: "its figures are out of all proportion"}
		}
		for i, v := range f {
			switch {
			case finite(v):
			case i < a.Network.Nodes():
				return &StackError{Where: a.Network.NodeName(network.NodeID(i)), Reason: "its figures are out of all proportion"}
			default:
				return &StackError{Reason: "its currents are out of all proportion"}
			}
		}
	}
	return nil
}
