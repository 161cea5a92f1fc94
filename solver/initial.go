package solver

import "math"

// Unknowns without mass follow those that have it; at a start and after a jump
// of the supply they are solved for.

const (
	consistentIterations = 60
	// consistentTol, K, is where Newton's method, quadratic there, may stop:
	// its next correction would be lost in rounding.
	consistentTol = 1e-7
)

// makeConsistent solves the balances of the nodes without mass and of the
// globals for them, at s.t, by damped Newton.
func (s *Soaker) makeConsistent() error {
	mass, step := s.mid, s.sum // not in use between steps
	for i, c := range s.c {
		mass[i] = 0
		if c > 0 {
			mass[i] = 1
		}
	}
	s.sys.Linearize(s.t, s.x, s.f, s.j)
	s.stats.Jacobians++
	norm := s.idleImbalance(s.f)
	size := math.Inf(1)
	for k := range consistentIterations {
		if norm-norm != 0 {
			return &NotFiniteError{What: "the heat balance", Time: s.t}
		}
		if norm == 0 {
			return nil
		}
		// Rows of nodes with mass are weighed so that they stay where they are.
		s.e.hold(s.j, mass)
		s.stats.Factorisations++
		for i, f := range s.f {
			step[i] = f
			if s.c[i] > 0 {
				step[i] = 0
			}
		}
		s.e.solve(step)
		s.stats.Solves++
		s.stats.Iterations++
		last := size
		size = 0
		largestGlobal := leastGlobal + largest(s.x[s.n:])
		for i := range step {
			if s.c[i] > 0 {
				step[i] = 0
			}
			if i < s.n {
				size = max(size, math.Abs(step[i]))
			} else {
				size = max(size, math.Abs(step[i])/largestGlobal)
			}
		}
		if !finite(step) {
			return &NotConvergedError{Why: "the unknowns without mass have no consistent values: the linear system is singular", Residual: norm, Correction: last, Iterations: k}
		}
		damp := 1.0
		for {
			for i := range step {
				s.z[i] = s.x[i] + damp*step[i]
			}
			s.sys.Balance(s.t, s.z, s.scratch)
			s.stats.Balances++
			if next := s.idleImbalance(s.scratch); next < norm || size <= consistentTol && next-next == 0 {
				norm = next
				break
			}
			if damp *= 0.5; damp < 1e-6 {
				return &NotConvergedError{Why: "the unknowns without mass have no consistent values", Residual: norm, Correction: size, Iterations: k + 1}
			}
		}
		copy(s.x, s.z)
		if size <= consistentTol && damp == 1 {
			return nil
		}
		s.sys.Linearize(s.t, s.x, s.f, s.j)
		s.stats.Jacobians++
	}
	return &NotConvergedError{Why: "the unknowns without mass do not settle", Residual: norm, Correction: size, Iterations: consistentIterations}
}

// idleImbalance is the root of the summed squares of the balances of the
// unknowns without mass.
func (s *Soaker) idleImbalance(f []float64) float64 {
	sum := 0.0
	for i, v := range f {
		if s.c[i] == 0 {
			sum += v * v
		}
	}
	return math.Sqrt(sum)
}
