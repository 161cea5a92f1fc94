package solver

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// departures tells whether departures from a state fade where the signs of
// pivots do not. With M = −J of the state, M⁻¹ gives the rises that carry off
// given heats, globals following; a departure that grows belongs to an
// eigenvalue of it with a negative real part, which stands at the far end from
// those of the many that fade. Arnoldi's method finds the ends of a spectrum first
// (Saad, Numerical Methods for Large Eigenvalue Problems, 2nd ed., SIAM 2011,
// chapter 6; from memory).
type departures struct {
	basis [][]float64 // orthonormal
	v     []float64   // nodes and globals
	h     *mat.Dense  // M⁻¹ in the basis
}

const (
	// mostBasis: a system of as many nodes is looked through whole. What grows in a
	// larger one goes over many cells, as neighbours hold a single one, and so is
	// among the slow ones that are found in half as many steps.
	mostBasis = 40
	// leastPart of the largest eigenvalue, and of a vector less its part in the
	// basis, is taken for rounding: the errors of solving with M, some 1e-16 times
	// its condition, stay below.
	leastPart = 1e-9
)

// fade says whether all departures fade that can be found. It solves with e, which
// holds the factorisation of M.
func (d *departures) fade(e *elimination) bool {
	n := e.structure.Nodes
	most := min(mostBasis, n)
	d.prepare(n, n+e.structure.Globals, most)
	size := most
	for k := range most {
		clear(d.v)
		copy(d.v, d.basis[k])
		e.solve(d.v)
		w := d.v[:n]
		length := floats.Norm(w, 2)
		for range 2 { // the second time for what rounding left
			for a, u := range d.basis[:k+1] {
				part := floats.Dot(u, w)
				d.h.Set(a, k, d.h.At(a, k)+part)
				floats.AddScaled(w, -part, u)
			}
		}
		rest := floats.Norm(w, 2)
		if rest-rest != 0 {
			return false
		}
		if k+1 == most || rest <= leastPart*length {
			size = k + 1
			break
		}
		d.h.Set(k+1, k, rest)
		floats.ScaleTo(d.basis[k+1], 1/rest, w)
	}
	var eigen mat.Eigen
	if !eigen.Factorize(d.h.Slice(0, size, 0, size), mat.EigenNone) {
		return false
	}
	values := eigen.Values(nil)
	largest, least := 0.0, 0.0
	for _, v := range values {
		largest, least = max(largest, math.Hypot(real(v), imag(v))), min(least, real(v))
	}
	return least >= -leastPart*largest
}

// prepare makes the workspaces and a first vector that has a part of everything:
// uneven, as parts that are alike depart from one another as well.
func (d *departures) prepare(n, all, most int) {
	if d.h == nil {
		d.v, d.h = make([]float64, all), mat.NewDense(most, most, nil)
		for range most {
			d.basis = append(d.basis, make([]float64, n))
		}
	}
	d.h.Zero()
	first := d.basis[0]
	for i := range first {
		_, uneven := math.Modf(float64(i+1) * math.Phi)
		first[i] = 0.5 + uneven
	}
	floats.Scale(1/floats.Norm(first, 2), first)
}
