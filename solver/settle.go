package solver

import "math"

// Between its ends the dense output of a step keeps the balances of unknowns
// without mass to its own order only, and at the ends to the tolerance. A state
// with globals that is handed out is therefore corrected: so that Kirchhoff's laws
// hold in it to rounding, at the temperatures that the step gave.

// rest is the room for that, apart from what the next step begins with.
type rest struct {
	j       *Jacobian
	step, y []float64
	mass    []float64 // a node each: 1 where it has mass
}

func newRest(st Structure, c []float64) *rest {
	r := &rest{j: NewJacobian(st), step: make([]float64, len(c)), y: make([]float64, len(c)), mass: make([]float64, st.Nodes)}
	for i := range r.mass {
		if c[i] > 0 {
			r.mass[i] = 1
		}
	}
	return r
}

// mostSettling corrections leave nothing of what a step's tolerance lets pass.
// Laws linear in the globals, as those of junctions and of ohms, need one.
const mostSettling = 4

// settle corrects the unknowns without mass of x at t by Newton's method; x stays
// as it is where that does not converge. It does nothing without globals. It uses
// the factorisation, but nothing else that a step needs.
func (s *Soaker) settle(t float64, x []float64) {
	r := s.rest
	if r == nil {
		return
	}
	copy(r.y, x)
	last := math.Inf(1)
	for range mostSettling {
		s.sys.Linearize(t, r.y, r.step, r.j)
		s.e.hold(r.j, r.mass)
		for i, m := range r.mass {
			if m > 0 {
				r.step[i] = 0
			}
		}
		s.e.solve(r.step)
		s.stats.Jacobians++
		s.stats.Factorisations++
		s.stats.Solves++
		for i, m := range r.mass {
			if m > 0 {
				r.step[i] = 0
			}
			r.y[i] += r.step[i]
		}
		for i := s.n; i < len(r.y); i++ {
			r.y[i] += r.step[i]
		}
		size := s.idleSize(r.step, r.y)
		if !(size < last) {
			return
		}
		if last = size; size <= consistentTol {
			copy(x, r.y)
			return
		}
	}
}

// idleSize is the size of a correction of unknowns without mass: of nodes in K, of
// globals in shares of the largest.
func (s *Soaker) idleSize(step, x []float64) float64 {
	return max(largest(step[:s.n]), largest(step[s.n:])/(leastGlobal+largest(x[s.n:])))
}
