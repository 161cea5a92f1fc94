package solver

import (
	"math"
	"testing"
)

// Any structure that is let in is eliminated to the solution of its system: each
// unknown once, none left out. The matrix is diagonally dominant, so that its
// residual must be rounding.
func FuzzElimination(f *testing.F) {
	f.Add([]byte{10, 0, 0, 1, 1, 2, 2, 3, 3, 4})
	f.Add([]byte{20, 2, 0, 1, 1, 2, 2, 3, 20, 0, 20, 1, 20, 2, 21, 20})
	f.Add([]byte{12, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 0})
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) < 2 {
			return
		}
		st := Structure{Nodes: int(b[0]), Globals: int(b[1] % 8)}
		size := st.Nodes + st.Globals
		for k := 2; k+1 < len(b) && size > 0; k += 2 {
			st.Links = append(st.Links, [2]int{int(b[k]) % size, int(b[k+1]) % size})
		}
		if checkStructure(st) != nil {
			return
		}
		j := NewJacobian(st)
		for i := range j.Diag {
			j.Diag[i] = -1
		}
		for l, p := range st.Links {
			j.Up[l], j.Down[l] = 1+0.1*float64(l%7), 1-0.1*float64(l%5)
			j.Diag[p[0]] -= j.Up[l]
			j.Diag[p[1]] -= j.Down[l]
		}
		e, x := newElimination(newPlan(st)), make([]float64, size)
		for i := range x {
			x[i] = float64(i%11) - 5
		}
		e.factor(j, nil, 0)
		if !e.sound() || !e.determinantUp() {
			t.Fatalf("%d weak pivots, determinant positive: %v", e.weak, e.determinantUp())
		}
		for _, transposed := range []bool{false, true} {
			got := clone(x)
			rest := clone(x) // less M x
			if transposed {
				e.solveTransposed(got)
			} else {
				e.solve(got)
			}
			for i, d := range j.Diag {
				rest[i] += d * got[i]
			}
			for l, p := range st.Links {
				up, down := j.Up[l], j.Down[l]
				if transposed {
					up, down = down, up
				}
				rest[p[0]] += up * got[p[1]]
				rest[p[1]] += down * got[p[0]]
			}
			for i, v := range rest {
				if !(math.Abs(v) <= 1e-11*float64(size)) {
					t.Fatalf("transposed %v: residual %g of unknown %d", transposed, v, i)
				}
			}
		}
	})
}
