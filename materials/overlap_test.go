package materials_test

import (
	"math"
	"testing"

	"clampheat/materials"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestStreamlineFactor solves the flow of current through two lapping bars
// anew, in two dimensions by finite volumes on grids of 6 and 12 cells a
// thickness, and extrapolates. The error of such a grid falls as h^(4/3) at the
// two re-entrant corners.
func TestStreamlineFactor(t *testing.T) {
	for _, ratio := range []int{1, 2, 3, 4, 6} {
		coarse, fine := lapped(t, ratio, 6), lapped(t, ratio, 12)
		exact := fine + (fine-coarse)/(math.Pow(2, 4.0/3)-1)
		got, err := materials.StreamlineFactor(float64(ratio))
		if err != nil || !near(got, exact, 0.01) {
			t.Errorf("overlap %d: %.4f, by finite volumes %.4f, %v", ratio, got, exact, err)
		}
	}
}

// lapped returns the overlap's resistance over that of one bar as long, for an
// overlap of ratio thicknesses on a grid of n cells a thickness.
func lapped(t *testing.T, ratio, n int) float64 {
	t.Helper()
	const lead = 3 // thicknesses of bar on either side, enough for an even flow
	long, high := (ratio+2*lead)*n, 2*n
	metal := func(x, y int) bool { // the lower bar comes from the left, the upper one leaves to the right
		if x < 0 || x >= long || y < 0 || y >= high {
			return false
		}
		return y < n && x < (lead+ratio)*n || y >= n && x >= lead*n
	}
	a := mat.NewSymBandDense(long*high, high, nil)
	b := mat.NewVecDense(long*high, nil)
	at := func(x, y int) int { return x*high + y }
	for x := range long {
		for y := range high {
			i, sum := at(x, y), 0.0
			if !metal(x, y) {
				a.SetSymBand(i, i, 1)
				continue
			}
			for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				if !metal(x+d[0], y+d[1]) {
					continue
				}
				sum++
				if j := at(x+d[0], y+d[1]); j > i {
					a.SetSymBand(i, j, -1)
				}
			}
			if x == 0 { // 1 V at the left end, half a cell away
				sum += 2
				b.SetVec(i, 2)
			}
			if x == long-1 { // 0 V at the right end
				sum += 2
			}
			a.SetSymBand(i, i, sum)
		}
	}
	var factor mat.BandCholesky
	if !factor.Factorize(a) {
		t.Fatal("the grid has no solution")
	}
	var v mat.VecDense
	if err := factor.SolveVecTo(&v, b); err != nil {
		t.Fatal(err)
	}
	current := 0.0
	for y := range n {
		current += 2 * (1 - v.AtVec(at(0, y)))
	}
	// A bar of one thickness has a resistance of one a thickness of length.
	return (1/current - 2*lead) / float64(ratio)
}

func TestStreamlineFactorShape(t *testing.T) {
	// Far out two bars side by side: half the resistance of one.
	if e, err := materials.StreamlineFactor(1e6); err != nil || !near(e, 0.5, 1e-5) {
		t.Errorf("%g, %v", e, err)
	}
	for _, bad := range []float64{0, 0.99, -1, math.NaN(), math.Inf(1)} {
		if e, err := materials.StreamlineFactor(bad); err == nil {
			t.Errorf("overlap %g gives %g", bad, e)
		}
	}
	t.Run("falls without steps", rapid.MakeCheck(func(t *rapid.T) {
		const step = 1e-6
		x := rapid.Float64Range(1, 12).Draw(t, "overlap")
		a, errA := materials.StreamlineFactor(x)
		b, errB := materials.StreamlineFactor(x + step)
		if errA != nil || errB != nil || b >= a || a-b > step {
			t.Fatalf("%g: %.9f, then %.9f", x, a, b)
		}
	}))
}
