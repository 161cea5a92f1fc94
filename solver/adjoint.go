package solver

import (
	"fmt"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// How one output of a steady state answers to everything at once.
//
// A state x(p) with F(x, p) = 0 moves by dx/dp = −J⁻¹ ∂F/∂p, so that an output
// φ(x), of which φ_x is the gradient, moves by
//
//	dφ/dp = w · ∂F/∂p,  −Jᵀ w = φ_x
//
// One solve with the transposed matrix gives w, and each parameter after that
// costs one product (Giles & Pierce, An introduction to the adjoint approach to
// design, Flow, Turbulence and Combustion 65 (2000) 393–415, section 2; from
// memory). −J being what the elimination factorises, no signs change.

// Adjoint stores in dst what each balance is worth to an output of the steady
// state x at a time [s]: for a node, by how much the output rises for each watt
// more that is made there, K/W where the output is a temperature; for a global,
// for each unit of its residual. Output is the gradient of the output by the
// unknowns: for the temperature of node i it is 1 at i and 0 elsewhere. All
// three have the length n+m; dst may be output itself.
//
// The state is taken as it is: where it is not a steady one, so is the answer
// not a derivative of one. A Loaded system is asked at the load that it has,
// which is 1 after a Solve.
//
// It ends with *InputError for a length or number that cannot be,
// *SingularError at a fold, where the output has no derivative, or
// *NotFiniteError.
func (s *SteadySolver) Adjoint(time float64, x, output, dst []float64) error {
	if err := s.unusable(); err != nil {
		return err
	}
	for _, v := range []struct {
		what string
		v    []float64
	}{{"the state", x}, {"the gradient of the output", output}, {"the result", dst}} {
		if len(v.v) != len(s.x) {
			return &InputError{v.what, fmt.Sprintf("of an adjoint holds %d unknowns instead of %d", len(v.v), len(s.x))}
		}
	}
	if !finite(x) || !finite(output) || time-time != 0 {
		return &InputError{"the state", "of an adjoint, its time or the gradient holds something that is no finite number"}
	}
	s.sys.Linearize(time, x, s.f, s.j)
	s.e.factor(s.j, nil, 0)
	if !s.e.sound() {
		return &SingularError{Time: time}
	}
	copy(dst, output)
	s.e.solveTransposed(dst)
	if !finite(dst) {
		return &NotFiniteError{What: "the adjoint of the steady state", Time: time}
	}
	return nil
}

// SingularError says that a state has no derivatives: its linear system is
// singular, as it is at a fold.
type SingularError struct{ Time float64 }

func (e *SingularError) Error() string {
	return fmt.Sprintf("the steady state at %.6g s has no derivatives: the linear system is singular", e.Time)
}

// solveTransposed overwrites x, a right-hand side of nodes and globals, by
// M⁻ᵀ x.
//
// With M = L D U the multipliers of L and U change places and the passes stay
// as they are. Of the border, with W = M_nn⁻¹ J_nb, the transposed system leaves
// Sᵀ y = g + Wᵀ f and then M_nnᵀ x = f + J_bnᵀ y.
func (e *elimination) solveTransposed(x []float64) {
	e.lo, e.hi, e.nearLo, e.nearHi = e.hi, e.lo, e.nearHi, e.nearLo
	defer func() { e.lo, e.hi, e.nearLo, e.nearHi = e.hi, e.lo, e.nearHi, e.nearLo }()
	n := len(e.d)
	nodes, h := x[:n], len(e.hubs)
	for k, i := range e.hubs {
		e.y[k] = x[i]
		x[i] = 0
	}
	copy(e.y[h:], x[n:])
	for k, w := range e.w { // w is zero at the hubs
		e.y[k] += floats.Dot(w, nodes)
	}
	e.solveBorderTransposed()
	for k, row := range e.rows {
		floats.AddScaled(nodes, e.y[k], row)
	}
	e.solveNodes(nodes)
	for k, i := range e.hubs {
		x[i] = e.y[k]
	}
	copy(x[n:], e.y[h:])
}

// solveBorderTransposed is solveBorder with Sᵀ.
func (e *elimination) solveBorderTransposed() {
	h, b, m := len(e.hubs), e.border, e.structure.Globals
	y := e.y
	for k := range h {
		y[k] /= e.s[k*b+k]
		for q := k + 1; q < b; q++ {
			y[q] -= e.s[k*b+q] * y[k]
		}
	}
	switch {
	case m == 1:
		y[b-1] /= e.s[b*b-1]
	case m > 1:
		lapack64.Getrs(blas.Trans, e.tail, blas64.General{Rows: m, Cols: 1, Stride: 1, Data: y[h:]}, e.pivots)
	}
	for k := h - 1; k >= 0; k-- {
		for i := k + 1; i < b; i++ {
			y[k] -= e.s[i*b+k] * y[i]
		}
	}
}
