package network_test

import (
	"math"
	"testing"

	"clampheat/model/network"
)

// Each relation of the package against another author's, or against an exact
// limit, in a range where both are stated. The tolerances are how far good
// relations lie apart; a coefficient mistyped by more is found.
func TestAgainstOtherRelations(t *testing.T) {
	// The cube's conduction alone: 4π · 0.6606785 a, from its electric
	// capacity (Hwang and Mascagni 2004, J. Appl. Phys. 95, 3798).
	cube := 4 * math.Pi * 0.6606785 / math.Sqrt(6)
	// Churchill 1983 for a sphere, as in Incropera et al., 6th ed. 2007,
	// eq. (9.35), turned from the diameter to the square root of the area.
	sphere := func(ra, pr float64) float64 {
		byDiameter := ra / math.Pow(math.Pi, 1.5)
		return math.Sqrt(math.Pi) * (2 + 0.589*math.Pow(byDiameter, 0.25)/math.Pow(1+math.Pow(0.469/pr, 9.0/16), 4.0/9))
	}
	// Catton 1978 and MacGregor and Emery 1969 for upright layers, as in
	// Incropera et al., 6th ed. 2007, eqs. (9.51) and (9.52).
	catton := func(ra, aspect float64) float64 {
		return 0.22 * math.Pow(0.71/0.91*ra, 0.28) * math.Pow(aspect, -0.25)
	}
	macGregor := func(ra, aspect float64) float64 {
		return 0.42 * math.Pow(ra, 0.25) * math.Pow(0.71, 0.012) * math.Pow(aspect, -0.3)
	}
	for _, c := range []struct {
		name      string
		got, want float64
		tol       float64
	}{
		// Lloyd and Moran 1974, as in Incropera et al., 6th ed. 2007, eq. (9.30): measured by
		// mass transfer at a Schmidt number of 2200, so that air must lie lower.
		{"face up/Ra 1e5", network.NusseltFaceUp(1e5, 0.71), 0.54 * math.Pow(1e5, 0.25), 0.15},
		{"face up/Ra 1e6", network.NusseltFaceUp(1e6, 0.71), 0.54 * math.Pow(1e6, 0.25), 0.15},
		// Radziemska and Lewandowski 2001, as in Incropera et al., 7th ed. 2011, eq. (9.32).
		{"face down/Ra 1e4", network.NusseltFaceDown(1e4, 0.71), 0.52 * math.Pow(1e4, 0.2), 0.15},
		{"face down/Ra 1e6", network.NusseltFaceDown(1e6, 0.71), 0.52 * math.Pow(1e6, 0.2), 0.15},
		// D/H ≥ 35/Gr^¼ is where a vertical cylinder is within 5 % of a plate
		// (Sparrow and Gregg 1956, as in Incropera et al., 6th ed. 2007, §9.6.1).
		{"vertical cylinder/limit of a plate, Gr 1e8", network.NusseltVerticalCylinder(0.72e8, 0.72, 100.0/35) / network.NusseltVerticalPlate(0.72e8, 0.72), 1.05, 0.01},
		{"vertical cylinder/limit of a plate, Gr 1e6", network.NusseltVerticalCylinder(0.72e6, 0.72, math.Pow(1e6, 0.25)/35) / network.NusseltVerticalPlate(0.72e6, 0.72), 1.05, 0.01},
		{"block/sphere at rest", network.NusseltBlock(1e-12), 2 * math.Sqrt(math.Pi), 0.025},
		{"block/cube at rest", network.NusseltBlock(1e-12), cube, 0.025},
		{"block/sphere, Ra 1e5", network.NusseltBlock(1e5), sphere(1e5, 0.71), 0.04},
		{"block/sphere, Ra 1e7", network.NusseltBlock(1e7), sphere(1e7, 0.71), 0.04},
		{"air layer/Catton, 5 high", network.NusseltLayer(1e5, 5), catton(1e5, 5), 0.08},
		{"air layer/Catton, 10 high", network.NusseltLayer(1e4, 10), catton(1e4, 10), 0.08},
		{"air layer/MacGregor and Emery, 20 high", network.NusseltLayer(1e5, 20), macGregor(1e5, 20), 0.05},
		{"air layer/MacGregor and Emery, 40 high", network.NusseltLayer(2e4, 40), macGregor(2e4, 40), 0.05},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Logf("%.4g, other %.4g, %+.1f %%", c.got, c.want, 100*(c.got/c.want-1))
			if math.Abs(c.got/c.want-1) > c.tol {
				t.Errorf("%.4g, other relation %.4g, allowed %.1f %% apart", c.got, c.want, 100*c.tol)
			}
		})
	}
}
