package solver

import (
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// SoakOptions says over which time a system is followed, how closely, and
// what is wanted of the way.
type SoakOptions struct {
	// Tol bounds the difference of the method's two formulas in each step,
	// root mean square over the nodes, K. The state that is kept is that of
	// the better formula and much closer, see the package comment. 0 means
	// DefaultSoakTol; the least is MinSoakTol.
	Tol float64
	// Start is the state at From, nodes then globals, length n+m. Nodes without
	// mass and globals may be guesses: they are solved for.
	Start       []float64
	From, Until float64 // s
	// Times are the times at which states are wanted, s, in order, all
	// within [From, Until].
	Times []float64
	// Breaks are the times at which the supply or its slope jumps, s, in
	// order. Steps end there; at a break itself the system answers for what
	// follows. One at Until counts as well: left out, what follows is seen at the
	// end, and no step is short enough for globals that jump there.
	Breaks []float64
	Events []Event
	// MaxSteps bounds the number of steps. 0 means 100 000.
	MaxSteps int
	// Progress, unless nil, is called after each step with the time reached.
	Progress func(t float64)
}

const (
	// DefaultSoakTol, K.
	DefaultSoakTol = 0.05
	// MinSoakTol, K, is what rounding lets a step still tell, at some hundreds
	// of kelvin.
	MinSoakTol = 1e-9
	// defaultMaxSteps stops a soak that makes no headway.
	defaultMaxSteps = 100_000
)

// SoakResult is a system's way from From to End.
type SoakResult struct {
	Times  []float64   // s: those of the options that the soak reached
	States [][]float64 // nodes then globals at Times, K; rows of one array
	Events []EventHit  // in order of time
	End    float64     // s: Until, or the time of the event that stopped the soak
	X      []float64   // the state at End
	// Made, Lost and Stored are the heat made in, lost by and stored in the
	// whole system from From to the end of the last step, J.
	Made, Lost, Stored float64
	Audit              Audit
	Stats              Stats

	backing []float64
}

// Audit holds the residuals of the energy balance, relative to the largest of
// the heat made, lost and stored, or to that of a rise of 1 mK if they are
// smaller.
type Audit struct {
	// Bookkeeping: the net heat of all nodes summed with the method's own
	// weights, less what is stored. It shows slips of the linear algebra or of
	// a system whose flow and balances disagree, to rounding. Of a steady state: heat
	// made less heat lost.
	Bookkeeping float64
	// Quadrature: heat made less lost by the three Gauss–Lobatto points of each
	// step on the dense output, less what is stored. It falls with the
	// tolerance. 0 for a steady state.
	Quadrature float64
}

// Stats counts the work of a run.
type Stats struct {
	Steps, Rejected int // accepted and rejected steps in time
	Balances        int // evaluations without derivatives
	Jacobians       int // evaluations with derivatives
	Factorisations  int
	Solves          int // with a factorisation
	Iterations      int // of Newton's method
	Continuation    int // steps along the load
	Restarts        int // breaks in time
}

// Soak follows a system in time. See Soaker for many runs.
//
// Its errors are *InputError, *NotFiniteError, *StepTooSmallError,
// *StepLimitError, *NotConvergedError (no consistent values of the unknowns
// without mass), or the context's, wrapped.
func Soak(ctx context.Context, sys System, opt SoakOptions) (*SoakResult, error) {
	return NewSoaker(sys).Run(ctx, opt)
}

// Soaker follows one system in time, any number of times, with one set of
// workspaces. It is used by one goroutine at a time.
type Soaker struct {
	sys  System
	st   Structure
	n    int // nodes
	e    *elimination
	j    *Jacobian
	c    []float64 // capacities, 0 for globals
	free bool      // some unknown has no mass
	bad  error     // why the system cannot be followed at all

	x, z, f, drift []float64 // state, next state, balances, ∂F/∂t
	u              [stages][]float64
	mid, sum       []float64 // review
	scratch        []float64
	flows          [stages]Flow
	drifting       bool

	t, h, end float64 // the step from t to end = t + h
	book      ledger
	kept      ledger // before the step
	stats     Stats
	watch     func(jump bool) // called after each step; nil = not
	rest      *rest           // nil without globals
}

// NewSoaker prepares a system's soaks. The structure and the capacities are
// read here, once; what is wrong with them is what Run answers.
func NewSoaker(sys System) *Soaker {
	st, err := structureOf(sys)
	if err != nil {
		return &Soaker{bad: err}
	}
	n, size := st.Nodes, st.Nodes+st.Globals
	s := &Soaker{sys: sys, st: st, n: n, e: newElimination(newPlan(st)), j: NewJacobian(st)}
	// One array for all: neighbours in memory, and one allocation.
	all := make([]float64, (stages+8)*size)
	next := func() []float64 {
		v := all[:size:size]
		all = all[size:]
		return v
	}
	s.c, s.x, s.z, s.f, s.drift, s.mid, s.sum, s.scratch = next(), next(), next(), next(), next(), next(), next(), next()
	for i := range s.u {
		s.u[i] = next()
	}
	sys.Capacities(s.c[:n])
	s.free = slices.Contains(s.c, 0)
	for i, c := range s.c {
		if !(c >= 0) || math.IsInf(c, 1) {
			s.bad = &InputError{"the capacity", fmt.Sprintf("of node %d is %g J/K", i, c)}
		}
	}
	if st.Globals > 0 {
		s.rest = newRest(st, s.c)
	}
	return s
}

// Run is Soak with the workspaces of s.
func (s *Soaker) Run(ctx context.Context, opt SoakOptions) (*SoakResult, error) {
	res := new(SoakResult)
	if err := s.RunInto(ctx, opt, res); err != nil {
		return nil, err
	}
	return res, nil
}

// RunInto is Run with a result to overwrite, whose memory it uses again. After
// an error the result holds nothing of use.
func (s *Soaker) RunInto(ctx context.Context, opt SoakOptions, res *SoakResult) error {
	if err := s.check(&opt); err != nil {
		return err
	}
	s.prepare(&opt, res)
	if err := s.begin(opt.From); err != nil {
		return err
	}
	out := recorder{s: s, opt: &opt, res: res}
	out.start()
	ctl := controller{tol: opt.Tol}
	h := s.firstStep(opt.Tol, opt.Until-opt.From)
	breaks := opt.Breaks
	for s.t < opt.Until && !out.stopped {
		for len(breaks) > 0 && breaks[0] <= s.t {
			breaks = breaks[1:]
		}
		stop, broken := opt.Until, false
		if len(breaks) > 0 && breaks[0] <= stop {
			stop, broken = breaks[0], true
		}
		if s.stats.Steps >= opt.MaxSteps {
			return &StepLimitError{Time: s.t, Steps: s.stats.Steps}
		}
		if ctx.Err() != nil {
			return fmt.Errorf("soak stopped at %.6g s: %w", s.t, context.Cause(ctx))
		}
		s.aim(h, stop, opt.Times[len(res.Times):])
		jump := broken && s.end == stop
		err := s.attempt(jump)
		ok, next := ctl.judge(err, s.h)
		if ok && !s.accept(jump) {
			s.resume()
			err = math.NaN()
			ok, next = ctl.judge(err, s.h)
		}
		if !ok {
			s.stats.Rejected++
			if next < 1e-13*max(1, math.Abs(s.t)) {
				return s.tooSmall(next, err)
			}
			h = next
			continue
		}
		// A step cut short by a stop says little against the longer one.
		if s.h >= 0.9*h || next > h {
			h = next
		}
		s.stats.Steps++
		if s.watch != nil {
			s.watch(jump)
		}
		out.step(jump)
		s.x, s.z = s.z, s.x
		s.t = s.end
		if jump && s.t < opt.Until {
			s.stats.Restarts++
			if err := s.begin(s.t); err != nil {
				return err
			}
			out.restart()
			ctl = controller{tol: opt.Tol}
			h = s.firstStep(opt.Tol, opt.Until-s.t)
		}
		if opt.Progress != nil {
			opt.Progress(s.t)
		}
	}
	return out.finish()
}

func (s *Soaker) check(opt *SoakOptions) error {
	if s.bad == nil && s.sys == nil {
		return &InputError{"the soaker", "was not made by NewSoaker"}
	}
	if s.bad != nil {
		return s.bad
	}
	if opt.Tol == 0 {
		opt.Tol = DefaultSoakTol
	}
	if opt.MaxSteps == 0 {
		opt.MaxSteps = defaultMaxSteps
	}
	switch {
	case !(opt.Tol >= MinSoakTol) || math.IsInf(opt.Tol, 1):
		return &InputError{"the tolerance", fmt.Sprintf("of a soak is %g K, and must be at least %g K", opt.Tol, MinSoakTol)}
	case len(opt.Start) != len(s.x):
		return &InputError{"the start", fmt.Sprintf("of a soak holds %d unknowns instead of %d", len(opt.Start), len(s.x))}
	case !finite(opt.Start):
		return &InputError{"the start", "of a soak holds something that is no finite number"}
	case opt.From-opt.From != 0 || opt.Until-opt.Until != 0 || opt.Until < opt.From:
		return &InputError{"the time", fmt.Sprintf("of a soak runs from %g s to %g s", opt.From, opt.Until)}
	case !slices.IsSorted(opt.Breaks) || !finite(opt.Breaks):
		return &InputError{"the breaks", "of a soak are not in order"}
	case !slices.IsSorted(opt.Times) || !finite(opt.Times):
		return &InputError{"the times", "at which states are wanted are not in order"}
	case len(opt.Times) > 0 && (opt.Times[0] < opt.From || opt.Times[len(opt.Times)-1] > opt.Until):
		return &InputError{"the times", "at which states are wanted lie outside the soak"}
	}
	for k := range opt.Events {
		if err := opt.Events[k].check(s.n); err != nil {
			return err
		}
	}
	return nil
}

// prepare clears what a former run left.
func (s *Soaker) prepare(opt *SoakOptions, res *SoakResult) {
	size, rows := len(s.x), len(opt.Times)
	copy(s.x, opt.Start)
	s.book, s.stats = ledger{}, Stats{}
	res.Events, res.Times, res.States = res.Events[:0], res.Times[:0], res.States[:0]
	res.backing = slices.Grow(res.backing[:0], rows*size)[:rows*size]
	res.X = slices.Grow(res.X[:0], size)[:size]
	res.End = opt.From
	s.book.start(s.c, s.x[:s.n])
}

func finite(v []float64) bool {
	if s := floats.Dot(v, v); s-s == 0 {
		return true
	}
	for _, a := range v { // or the squares alone are too large
		if a-a != 0 {
			return false
		}
	}
	return true
}
