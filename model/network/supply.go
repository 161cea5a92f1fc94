package network

// This file holds the current that makes the heat.

// Supply is the current over time, A, at t seconds from the start. Current is
// continuous from the right: at a step it gives the value after the step.
// Slope is its derivative there, A/s. Both must be finite.
type Supply interface {
	Current(t float64) float64
	Slope(t float64) float64
}

// Constant is a current, A, that does not change.
type Constant float64

// Current is the current itself.
func (c Constant) Current(float64) float64 { return float64(c) }

// Slope is zero.
func (c Constant) Slope(float64) float64 { return 0 }

// SetSupply gives the current that flows through every resistor that is on no
// branch. Ripple is the root mean square of the alternating part over the mean:
// heat goes with the square of the current, so that it grows by 1 + ripple²,
// while a drop read by a meter follows the mean; it is that of the branches'
// currents too. It may be called again after Finish.
func (n *Network) SetSupply(s Supply, ripple float64) {
	n.supply, n.ripple = s, ripple
}

// SetLoad multiplies the supply's current and all that is drawn by lambda, which
// is 1 at first. Voltages and the heat of other things are not multiplied.
func (n *Network) SetLoad(lambda float64) { n.load = lambda }

// mean is the current at time t that a meter reads.
func (n *Network) mean(t float64) float64 {
	if n.supply == nil {
		return 0
	}
	return n.load * n.supply.Current(t)
}

// heating is the square of the current that makes the heat, A².
func (n *Network) heating(t float64) float64 {
	i := n.mean(t)
	return i * i * (1 + n.ripple*n.ripple)
}

// heatingRates gives the derivatives of heating by time and by the load.
func (n *Network) heatingRates(t float64) (byTime, byLoad float64) {
	if n.supply == nil {
		return 0, 0
	}
	i := n.supply.Current(t)
	k := 2 * i * n.load * (1 + n.ripple*n.ripple)
	return k * n.load * n.supply.Slope(t), k * i
}
