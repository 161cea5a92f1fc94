package model

import (
	"errors"
	"math"
	"slices"

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
// by the balance of the stack at the temperature of the air and the currents of its
// largest load, at the times when what drives it is at its extremes: what lies
// between these is smaller.
func (a *Assembly) proportion(s *Stack) error {
	x := a.Start(nil)
	f := make([]float64, len(x))
	largest, times := s.extremes()
	var none *network.CircuitError
	if err := a.Network.Connect(largest, x); errors.As(err, &none) && !none.Power {
		return &StackError{Reason: "its currents are out of all proportion"}
	}
	for _, t := range times {
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

// extremes are the times, s, of the largest load, and those at which that, the
// supply's current or the air's temperature is extreme. Several loads, each largest
// at another time, are added up at these times.
func (s *Stack) extremes() (largest float64, times []float64) {
	var loads []Supply
	for _, d := range s.Draws {
		for _, l := range [2]Supply{d.Current, d.Power} {
			if l != nil {
				loads = append(loads, l)
			}
		}
	}
	if s.Supply != nil {
		loads = append(loads, s.Supply)
	}
	most := -1.0
	for _, l := range loads {
		_, t := ends(l)
		total := 0.0
		for _, other := range loads {
			total += math.Abs(other.Current(t))
		}
		if total > most {
			most, largest = total, t
		}
	}
	times = []float64{0, largest}
	for _, d := range [2]Supply{s.Supply, s.Course} {
		if d != nil {
			low, high := ends(d)
			times = append(times, low, high)
		}
	}
	slices.Sort(times)
	return largest, slices.Compact(times)
}

// ends are the times, s, among 0 and its breaks at which a supply is nearest to and
// farthest from 0.
func ends(d Supply) (least, most float64) {
	low, high := math.Abs(d.Current(0)), math.Abs(d.Current(0))
	for _, t := range d.Breaks() {
		v := math.Abs(d.Current(t))
		if v < low {
			low, least = v, t
		}
		if v > high {
			high, most = v, t
		}
	}
	return least, most
}
