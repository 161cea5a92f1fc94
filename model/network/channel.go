package network

// This file holds the air between parallel plates that are open above and
// below: bars side by side.

import "math"

// Channel is the inside of two upright plates at one temperature that face each
// other, per square metre of both, with air rising between them.
type Channel struct {
	Gap    float64 // m, between the plates
	Height float64 // m
}

// channel is the Nusselt number over the gap S of the plates' height L, aspect
// L/S, over El = Ra S/L (Bar-Cohen and Rohsenow): fully developed flow
// El/24 and the boundary layers 0.59 El^¼ of single plates, joined.
func channel(y, aspect float64) (nu, slope float64) {
	if y <= 0 || aspect <= 0 {
		return 0, 0
	}
	el := y / aspect
	layers := channelLayers * el * math.Sqrt(el)
	if layers > 1e30 {
		// Far beyond the flow that fills the gap, whose share is lost in rounding.
		nu = math.Sqrt(math.Sqrt(el)) / math.Sqrt(channelLayers)
		return nu, nu / 4
	}
	sum := channelFilled + layers
	return el / math.Sqrt(sum), el / math.Sqrt(sum) * (channelFilled + layers/4) / sum
}

const (
	channelFilled = 576   // 24²
	channelLayers = 2.873 // 1/0.59²
)

// NusseltChannel is the mean Nusselt number, over the gap, of two upright plates
// at one temperature with air between them, by the rise of the plates over the
// air that enters below; aspect is the height over the gap. An Ra below 0 counts as 0; for
// an aspect that is not above 0 or what is no number it is 0, for none.
//
// Source: Bar-Cohen and Rohsenow 1984, J. Heat Transfer 106, 116; coefficients
// from memory, not looked up.
func NusseltChannel(ra, aspect float64) float64 {
	nu, _ := channel(ra, aspect)
	return orNone(nu)
}

var statedChannel = statement{"channel between plates", 0, 1e12}

func (s Channel) terms(dst []term, share float64, _ bool) ([]term, bool) {
	return append(dst, term{plain, share, s.Gap, s.Height / s.Gap, channel, statedChannel}), true
}

func (s Channel) check() string { return lengths(s.Gap, s.Height) }

func (s Channel) appendKey(b []byte) []byte { return key(b, 'h', s.Gap, s.Height) }

// GrooveEmissivity is the emissivity of two long grey plates of a width [m] that
// face each other across a gap [m], both at one temperature, per area of both:
// what they send each other comes back. F is the view from one to the other,
//
//	F = √(1 + (gap/width)²) − gap/width,   ε (1 − F)/(1 − (1 − ε) F)
//
// For a width or gap that is not above 0 or what is no number it is 0.
//
// Source: Hottel's crossed strings for F (Incropera et al., Fundamentals of Heat
// and Mass Transfer, 6th ed. 2007, Table 13.1, parallel plates with midlines
// connected by a perpendicular); the radiosity balance of two like plates.
func GrooveEmissivity(emissivity, width, gap float64) float64 {
	if !(width > 0 && gap > 0) {
		return 0
	}
	r := gap / width
	seen := 1 / (math.Hypot(1, r) + r) // √(1 + r²) − r without cancellation
	return orNone(emissivity * (1 - seen) / (1 - (1-emissivity)*seen))
}
