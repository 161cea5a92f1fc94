package network

// This file holds the relations of moving air.

import "math"

// NusseltCrossFlow is the mean Nusselt number of a cylinder in air that moves
// across it, over its diameter, eq. (16). Stated for Re Pr ≥ 0.2 and
// Re ≤ 10⁷. For an Re or Pr below 0 or what is no number it is 0, for none.
//
// Source: Churchill and Bernstein 1977, J. Heat Transfer 99, 300.
func NusseltCrossFlow(re, pr float64) float64 {
	if !(re >= 0 && pr >= 0) {
		return 0
	}
	lead := 0.62 * math.Sqrt(re) * math.Cbrt(pr) / math.Pow(1+math.Pow(0.4/pr, 2.0/3), 0.25)
	return orNone(0.3 + lead*math.Pow(1+math.Pow(re/282000, 5.0/8), 4.0/5))
}

// turbulentFrom is the Reynolds number at which the boundary layer on a flat
// plate turns turbulent, the usual figure of the textbooks (Incropera et al.,
// Fundamentals of Heat and Mass Transfer, 6th ed. 2007, §6.3).
const turbulentFrom = 5e5

// NusseltPlateFlow is the mean Nusselt number of a flat plate in air that
// moves along it, over the length, eq. (17): laminar up to Re = 5·10⁵, beyond
// it laminar in front and turbulent behind. Stated for 0.6 ≤ Pr and Re ≤ 10⁸.
// For an Re or Pr below 0 or what is no number it is 0, for none.
//
// Source: Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed.
// 2007, eqs. (7.30) and (7.38).
func NusseltPlateFlow(re, pr float64) float64 {
	if !(re >= 0 && pr >= 0) {
		return 0
	}
	return orNone(max(laminarFlow(re, pr), turbulentFlow(re, pr)))
}

func laminarFlow(re, pr float64) float64 {
	return 0.664 * math.Sqrt(re) * math.Cbrt(pr)
}

// turbulentFlow is the relation for a plate whose front part is laminar. It
// crosses the laminar one once, from below, at turbulentFrom.
func turbulentFlow(re, pr float64) float64 {
	return (0.037*math.Pow(re, 0.8) - turbulentLess) * math.Cbrt(pr)
}

var turbulentLess = 0.037*math.Pow(turbulentFrom, 0.8) - 0.664*math.Sqrt(turbulentFrom)
