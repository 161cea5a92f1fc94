package model

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestGrid: cells make up the length, are the same from either end, smallest
// there and nowhere larger than asked for.
func TestGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1e-3, 5).Draw(t, "length")
		fin := rapid.Float64Range(0.01, 1).Draw(t, "fin")
		cell := rapid.Float64Range(0.05, 2).Draw(t, "cell")
		cells, err := grid(length, fin, cell)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, c := range cells {
			sum += c
			if !(c > 0 && c <= cell*fin*(1+1e-9)) {
				t.Fatalf("cell %d of %g m, at most %g m wanted", i, c, cell*fin)
			}
			if other := cells[len(cells)-1-i]; c != other {
				t.Fatalf("cell %d of %g m, %g m from the other end", i, c, other)
			}
			if i > 0 && i < len(cells)/2 && c < cells[i-1]*(1-1e-6) {
				t.Fatalf("cell %d of %g m after one of %g m", i, c, cells[i-1])
			}
		}
		if math.Abs(sum-length) > 1e-12*length*float64(len(cells)) {
			t.Fatalf("%d cells make %g m of %g m", len(cells), sum, length)
		}
	})
	t.Run("length/too many cells", func(t *testing.T) {
		for _, bad := range [][3]float64{{1e9, 0.2, 0.2}, {1, 0, 0.2}, {1, math.NaN(), 0.2}} {
			if cells, err := grid(bad[0], bad[1], bad[2]); err == nil {
				t.Errorf("%v: %d cells", bad, len(cells))
			}
		}
	})
}
