package model

import "clampheat/model/network"

// This file reads the voltage that a stack takes from what it feeds.

// Drop is the voltage lost on the way of the current at a state, V: from the
// first part to the last of a stack without draws. With draws it is what the
// voltage at a draw falls short of that with no current drawn at all, at the
// same temperatures, the inner resistance of batteries counted; of several draws
// it is that of the one that loses the most. What circulates between unlike
// batteries at rest is no loss on the way to a draw.
func (a *Assembly) Drop(t float64, x []float64) float64 {
	if len(a.Draws) == 0 {
		sum := 0.0
		for _, m := range a.made {
			sum += a.Network.ReadResistor(m.resistor, t, x).Drop
		}
		return sum
	}
	largest := 0.0
	for i, open := range a.OpenVoltages(t, x) {
		largest = max(largest, open-a.Network.ReadDraw(a.Draws[i], t, x).Voltage)
	}
	return largest
}

// Open is the state x at the time t with no current drawn: its temperatures, and
// the currents that circulate at them where batteries are unlike.
func (a *Assembly) Open(t float64, x []float64) []float64 {
	_, y := a.open(t, x)
	return y
}

// OpenVoltages are the voltages, V, at the draws with no current drawn, at the
// temperatures of a state, by index in Draws.
func (a *Assembly) OpenVoltages(t float64, x []float64) []float64 {
	n, y := a.open(t, x)
	out := make([]float64, len(a.Draws))
	for i, id := range a.Draws {
		out[i] = n.ReadDraw(id, t, y).Voltage
	}
	return out
}

// open gives a network without load and its state at the temperatures of
// another. Spots, which the current heats, are as without it.
func (a *Assembly) open(t float64, x []float64) (*network.Network, []float64) {
	n := a.Network.Clone()
	n.SetLoad(0)
	y := make([]float64, n.Unknowns())
	copy(y, x[:n.Nodes()])
	// A circuit that Assemble has passed has currents, be there no load.
	_ = n.Connect(t, y)
	return n, y
}
