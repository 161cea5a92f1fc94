package solver

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// One step in time and the choice of its length.

// begin finds consistent values of the unknowns without mass at t and
// evaluates the system there.
func (s *Soaker) begin(t float64) error {
	s.t = t
	if s.free {
		if err := s.makeConsistent(); err != nil {
			if !connect(s.sys, &s.st, t, s.x, s.scratch) || s.makeConsistent() != nil {
				return err
			}
		}
	}
	s.evaluateStart(t)
	if !finite(s.f) || !finite(s.j.Diag) {
		return &NotFiniteError{What: "the heat balance", Time: t}
	}
	return nil
}

func (s *Soaker) evaluateStart(t float64) {
	s.flows[0] = s.sys.Linearize(t, s.x, s.f, s.j)
	s.stats.Jacobians++
	s.drifting = s.sys.Drift(t, s.x, s.drift)
}

// aim sets the step from t: h, or less so as to end at stop, in two halves
// rather than in a long and a tiny one. It ends at the last of the wanted
// times within it where that costs little, since the end of a step is better
// known than its inside.
func (s *Soaker) aim(h, stop float64, times []float64) {
	left := stop - s.t
	switch {
	case h >= left*(1-1e-9):
		s.h, s.end = left, stop
		return
	case h > left/2:
		h = left / 2
	}
	s.h, s.end = h, s.t+h
	end := s.end
	for _, t := range times {
		if t > end || t >= stop {
			break
		}
		if t-s.t >= leastLanding*h {
			s.h, s.end = t-s.t, t
		}
	}
}

// leastLanding is the share of a step that must be left of it for it to end at a
// wanted time. It and firstMove steer, and no answer rests on them: they are
// those of a few tried that took the fewest steps at equal accuracy on the rod of
// package validation.
const leastLanding = 0.6

// attempt makes the step and returns the error estimate, K: the root mean
// square over the nodes, or what the globals' counts if that is more, or NaN. s.f
// holds the balances at the step's start and keeps them. Before a jump the step
// sees what comes before it.
func (s *Soaker) attempt(jump bool) float64 {
	end := s.end
	if jump {
		end = math.Nextafter(end, math.Inf(-1))
	}
	h, q := s.h, 1/s.h
	s.e.factor(s.j, s.c, q/gamma)
	s.stats.Factorisations++
	if !s.e.sound() {
		return math.NaN()
	}
	x, z, c, u := s.x, s.z, s.c, &s.u
	copy(u[0], s.f)
	s.solve(0)
	stage2(z, u[1], x, c, u[0], q)
	s.evaluate(1, min(s.t+alpha2*h, end))
	stage3(z, u[2], x, c, u[0], u[1], q)
	s.evaluate(2, min(s.t+alpha3*h, end))
	stage4(z, u[3], x, c, u[0], u[1], u[2], q)
	s.evaluate(3, min(s.t+alpha4*h, end))
	stage5(z, u[4], x, c, u[0], u[1], u[2], u[3], q)
	s.evaluate(4, end)
	stage6(z, u[5], c, u[0], u[1], u[2], u[3], u[4], q)
	s.evaluate(5, end)
	s.stats.Balances += stages - 1
	s.stats.Solves += stages
	sum := finish(z, u[5], s.n)
	off, most := 0.0, leastGlobal
	for i, v := range z[s.n:] {
		if v-v != 0 {
			return math.NaN()
		}
		off, most = max(off, math.Abs(u[5][s.n+i])), max(most, math.Abs(v))
	}
	return max(math.Sqrt(sum/float64(s.n)), globalWeight*off/most)
}

// globalWeight, K, is what an error as large as the largest global itself would
// count. Of a current's error twice its share is missing in the heat, so that the
// default tolerance lets the poorer formula miss a hundredth of a step's heat, and
// the better one less. Newton's corrections are weighed ten times as heavily
// (weight); at MinSoakTol that would be as little as rounding leaves of the currents
// of a loop of milliohms, globalRounding at some hundreds of kelvin.
const globalWeight = 10

// evaluate adds the balances at s.z to stage k and solves it.
func (s *Soaker) evaluate(k int, t float64) {
	s.flows[k] = s.sys.Balance(t, s.z, s.scratch)
	floats.Add(s.u[k], s.scratch)
	s.solve(k)
}

func (s *Soaker) solve(k int) {
	if s.drifting && stageDrifts[k] != 0 {
		floats.AddScaled(s.u[k], stageDrifts[k]*s.h, s.drift)
	}
	s.e.solve(s.u[k])
}

// accept books the step's heat and evaluates the system at its end. It is
// false where heat made or lost on the way is no finite number.
func (s *Soaker) accept(jump bool) bool {
	review(s.mid, s.sum, s.x, s.z, &s.u)
	s.kept = s.book
	s.book.method(s)
	first := s.flows[0]
	middle := s.sys.Balance(s.t+s.h/2, s.mid, s.scratch)
	s.stats.Balances++
	var last Flow
	if jump {
		last = s.sys.Balance(math.Nextafter(s.end, math.Inf(-1)), s.z, s.f)
		s.stats.Balances++
	} else {
		last = s.sys.Linearize(s.end, s.z, s.f, s.j)
		s.stats.Jacobians++
		s.drifting = s.sys.Drift(s.end, s.z, s.drift)
	}
	s.flows[0] = last
	s.book.lobatto(s.h, first, middle, last)
	sum := last.Made - last.Lost + middle.Made - middle.Lost
	return sum-sum == 0
}

// resume goes back to the start of a step that accept refused.
func (s *Soaker) resume() {
	s.book = s.kept
	s.evaluateStart(s.t)
}

func (s *Soaker) tooSmall(h, err float64) error {
	why := "the error stays above the tolerance"
	if err-err != 0 {
		why = "the system's answers are no finite numbers"
		if !s.e.sound() {
			why = "the linear system is singular"
		}
	}
	return &StepTooSmallError{Time: s.t, Step: h, Why: why}
}

// controller chooses step lengths: from the estimate of the step made and, as
// Gustafsson's predictive controller, from how the estimate moved since the
// step before (Hairer & Wanner II, section IV.8, eq. (8.25)).
type controller struct {
	tol           float64
	lastH, lastE  float64
	afterRejected bool
}

const (
	safety     = 0.9
	mostGrowth = 8
	mostShrink = 0.2
)

// judge says whether a step of length h with the given error is good enough,
// and how long the next one should be.
func (c *controller) judge(err, h float64) (ok bool, next float64) {
	e := err / c.tol
	if !(e <= 1) {
		c.afterRejected = true
		if e-e != 0 {
			return false, h * mostShrink
		}
		return false, h * max(mostShrink, safety*root4(1/e))
	}
	e = max(e, 1e-8)
	factor := safety * root4(1/e)
	if c.lastH > 0 {
		factor = min(factor, safety*h/c.lastH*root4(c.lastE/(e*e)))
	}
	c.lastH, c.lastE = h, max(e, 1e-2)
	factor = min(max(factor, mostShrink), mostGrowth)
	if c.afterRejected {
		factor = min(factor, 1)
	}
	c.afterRejected = false
	return true, h * factor
}

// root4 is what the fourth-order error of a step asks for.
func root4(v float64) float64 { return math.Sqrt(math.Sqrt(v)) }

// firstStep guesses the length of the first step from how the state and the
// supply move: within it the nodes should go some tolerances far, more loosely so
// the tighter the tolerance, as the error goes with the fourth power.
func (s *Soaker) firstStep(tol, span float64) float64 {
	move := firstMove * root4(tol)
	speed := s.rate(s.f)
	h := span
	if speed*span > move {
		h = move / speed
	}
	if s.drifting {
		if bend := s.rate(s.drift) / 2; bend*h*h > move {
			h = math.Sqrt(move / bend)
		}
	}
	return h
}

// rate is the root mean square over the nodes of heat / capacity.
func (s *Soaker) rate(heat []float64) float64 {
	sum := 0.0
	for i, c := range s.c[:s.n] {
		if c > 0 {
			v := heat[i] / c
			sum += v * v
		}
	}
	return math.Sqrt(sum / float64(s.n))
}

// firstMove is how far the nodes should move in the first step, K, at a
// tolerance of 1 K; see leastLanding for its choice.
const firstMove = 1.4
