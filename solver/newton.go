package solver

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Newton's method for F(x) = 0 at a given load, damped.

const (
	// leastDamping ends a line search that finds nothing better.
	leastDamping = 1e-5
	// mostCooling is the largest share of its absolute temperature that a node
	// may lose in one iteration: fourth powers know no negative temperature.
	mostCooling = 0.5
	// leastGlobal is next to nothing for a global, in its unit: what none differs
	// from by more is zero.
	leastGlobal = 1e-6
)

// newton improves s.x until the next correction is below the tolerance; it
// leaves the flow at s.x in s.flow and the factorisation of the last
// correction. load only names the load in errors.
func (s *SteadySolver) newton(load float64) error {
	t := s.opt.Time
	s.flow = s.sys.Linearize(t, s.x, s.f, s.j)
	s.stats.Jacobians++
	norm := sumSquares(s.f)
	size := math.Inf(1)
	fail := func(why string, k int) error {
		return &NotConvergedError{Why: why, Residual: largest(s.f), Correction: size, Iterations: k, Load: load}
	}
	if norm-norm != 0 {
		return &NotFiniteError{What: "the heat balance", Time: t}
	}
	for k := range s.opt.MaxIterations {
		s.e.factor(s.j, nil, 0)
		s.stats.Factorisations++
		s.stats.Iterations++
		if !s.e.sound() {
			return fail("the linear system is singular", k+1)
		}
		copy(s.step, s.f)
		s.e.solve(s.step)
		s.stats.Solves++
		last := size
		reach := s.survey()
		if size = reach.size; size-size != 0 {
			return fail("a correction is no finite number", k+1)
		}
		tol := max(s.opt.Tol, s.rounding*reach.hottest)
		// Corrections shrink quadratically at the end, so that the share of the
		// error that old derivatives leave can be foreseen. Where it is small they
		// serve for the rest of the way.
		if reach.damp == 1 && (size <= tol || size*size <= chordShare*last*last && size <= chordReach) {
			move(s.trial, s.x, 1, s.step)
			if s.polish(size, tol) {
				return nil
			}
		}
		damp := reach.damp
		for {
			move(s.trial, s.x, damp, s.step)
			s.flow = s.sys.Linearize(t, s.trial, s.f, s.j)
			s.stats.Jacobians++
			next := sumSquares(s.f)
			if next < norm*(1-damp/4) && s.st.Globals == 0 || s.closer(damp) {
				norm = next
				break
			}
			if damp /= 2; damp < leastDamping {
				return fail("no damped step comes closer", k+1)
			}
		}
		s.x, s.trial = s.trial, s.x
	}
	return fail("the iterations are used up", s.opt.MaxIterations)
}

const (
	// chordShare of the error is what a correction with old derivatives may
	// leave for these to be used on: new ones cost as much as two such
	// corrections.
	chordShare = 1e-3
	// chordReach, K, is the largest correction after which that is tried.
	chordReach = 1
	// chords is how many such corrections are made.
	chords = 4
)

// polish corrects s.trial with the derivatives of s.x until the correction that
// would come next, of which size was the last, is below tol; then the trial
// is the state. False if that does not go fast.
func (s *SteadySolver) polish(size, tol float64) bool {
	for range chords {
		flow := s.sys.Balance(s.opt.Time, s.trial, s.chord)
		s.stats.Balances++
		s.e.solve(s.chord)
		s.stats.Solves++
		next := max(largest(s.chord[:s.n]), s.weight()*largest(s.chord[s.n:]))
		if next <= tol {
			s.flow = flow
			s.x, s.trial = s.trial, s.x
			return true
		}
		if !(next <= 0.1*size) {
			return false
		}
		size = next
		floats.Add(s.trial, s.chord)
	}
	return false
}

// extent tells of a correction how large it is, how hot the hottest node is,
// and how much of the correction may be made at once.
type extent struct{ size, hottest, damp float64 }

// survey looks over the correction s.step of s.x: it is cut where a node would
// lose too much of its temperature.
func (s *SteadySolver) survey() extent {
	step := s.step[:s.n]
	x := s.x[:len(step)]
	size, hottest, room := 0.0, 0.0, 0.0
	for i, v := range step {
		t := x[i]
		// Squares and a sum tell of numbers that are none.
		if a := v * v; a > size {
			size = a
		}
		if t > hottest {
			hottest = t
		}
		if r := v + mostCooling*t; r < room {
			room = r
		}
	}
	damp := 1.0
	if room < 0 {
		for i, v := range step {
			if t := x[i]; -v > mostCooling*t && t > 0 {
				damp = min(damp, mostCooling*t/-v)
			}
		}
	}
	return extent{math.Sqrt(size), hottest, damp}
}

// closer is the natural monotonicity test: with the old derivatives the
// correction at s.trial, whose balances are in s.f, is smaller than the one
// made (Deuflhard, Newton Methods for Nonlinear Problems, 2004, section 3.3).
// It does not depend on the units of the balances.
func (s *SteadySolver) closer(damp float64) bool {
	copy(s.chord, s.f)
	s.e.solve(s.chord)
	s.stats.Solves++
	return s.length(s.chord) <= (1-damp/4)*s.length(s.step)
}

// length of a correction: of nodes in K, of globals against the largest of them.
func (s *SteadySolver) length(step []float64) float64 {
	sum := sumSquares(step[:s.n])
	if s.st.Globals > 0 {
		w := s.weight()
		sum += w * w * sumSquares(step[s.n:])
	}
	return math.Sqrt(sum)
}

// weight says as how many kelvin a correction of a global counts, for each of
// its units: as one for a hundredth of the largest global. A current that is
// nearly none beside the others is known no better than these.
func (s *SteadySolver) weight() float64 {
	return 100 / (leastGlobal + largest(s.x[s.n:]))
}

// move stores x + damp·step in dst.
func move(dst, x []float64, damp float64, step []float64) {
	floats.AddScaledTo(dst, x, damp, step)
}

func sumSquares(v []float64) float64 { return floats.Dot(v, v) }

// largest is the largest magnitude, or NaN if any is.
func largest(v []float64) float64 {
	most := 0.0
	for _, a := range v {
		if a = math.Abs(a); !(a <= most) {
			if most = a; a != a {
				return a
			}
		}
	}
	return most
}
