package solver

import (
	"fmt"
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
// as they are. Of a piece, with W = A⁻¹ B, the transposed system leaves Wᵀ f on
// the core's right-hand side y and then Aᵀ x = f + Cᵀ y.
func (e *elimination) solveTransposed(x []float64) {
	e.lo, e.hi, e.nearLo, e.nearHi = e.hi, e.lo, e.nearHi, e.nearLo
	defer func() { e.lo, e.hi, e.nearLo, e.nearHi = e.hi, e.lo, e.nearHi, e.nearLo }()
	e.forward(e.twigs, x)
	for k := range e.pieces {
		c := &e.pieces[k]
		for t := range c.ties {
			x[c.ties[t].unknown] += c.dot(e.w[t], x)
		}
	}
	e.solveCore(x)
	for k := range e.pieces {
		c := &e.pieces[k]
		for t := range c.ties {
			e.spread(c, t, x[c.ties[t].unknown], x)
		}
		e.forward(c.rounds, x)
		e.back(c.rounds, x)
	}
	e.back(e.twigs, x)
}
