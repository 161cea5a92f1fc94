package network_test

import (
	"math"
	"testing"

	"clampheat/model/network"
)

// No NaN and no Inf comes out of a relation, whatever goes in.
func TestNusseltStaysFinite(t *testing.T) {
	edges := []float64{0, 1, -1, 0.71, 1e5, 1e40, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64}
	for name, f := range map[string]func(a, b, c float64) float64{
		"vertical plate":      func(a, b, _ float64) float64 { return network.NusseltVerticalPlate(a, b) },
		"horizontal cylinder": func(a, b, _ float64) float64 { return network.NusseltHorizontalCylinder(a, b) },
		"vertical cylinder":   network.NusseltVerticalCylinder,
		"face up":             func(a, b, _ float64) float64 { return network.NusseltFaceUp(a, b) },
		"face down":           func(a, b, _ float64) float64 { return network.NusseltFaceDown(a, b) },
		"block":               func(a, _, _ float64) float64 { return network.NusseltBlock(a) },
		"cross flow":          func(a, b, _ float64) float64 { return network.NusseltCrossFlow(a, b) },
		"plate flow":          func(a, b, _ float64) float64 { return network.NusseltPlateFlow(a, b) },
		"layer":               func(a, b, _ float64) float64 { return network.NusseltLayer(a, b) },
	} {
		for _, a := range edges {
			for _, b := range edges {
				for _, c := range edges {
					if nu := f(a, b, c); math.IsNaN(nu) || math.IsInf(nu, 0) || nu < 0 {
						t.Errorf("%s: (%g, %g, %g) gives %g", name, a, b, c, nu)
					}
				}
			}
		}
	}
	if nu := network.NusseltFaceUp(1e5, -1); nu != 0 {
		t.Errorf("face up/Pr below 0: %g, want 0", nu)
	}
}
