package solver

import (
	"context"
	"fmt"
	"math"
)

// SteadyOptions says where and how closely a steady state is sought.
type SteadyOptions struct {
	// Start is the first guess, nodes then globals, length n+m.
	Start []float64
	// Time at which the supply is frozen, s.
	Time float64
	// Tol bounds the error of each node's temperature, K: the correction that
	// Newton's method would make next. 0 means DefaultSteadyTol; the least is
	// MinSteadyTol.
	Tol float64
	// Ceilings are the temperatures up to which the nodes' figures hold, K;
	// nil for none, +Inf for a node without.
	Ceilings []float64
	// MaxIterations bounds the iterations of each of Newton's searches. 0 means 50.
	MaxIterations int
}

const (
	// DefaultSteadyTol, K.
	DefaultSteadyTol = 1e-7
	// MinSteadyTol, K, is what rounding leaves of the corrections.
	MinSteadyTol = 1e-10

	defaultIterations = 50

	// nodeRounding and globalRounding are the shares of the highest temperature
	// below which corrections are noise. A volt's rounding over the milliohms of a
	// loop, and so its currents', weigh more than a watt's over its conductance.
	nodeRounding, globalRounding = 1e-13, 1e-12
)

// SteadyResult is a lasting state.
type SteadyResult struct {
	X     []float64 // nodes then globals
	Flow  Flow      // W
	Load  float64   // the share of the load that it carries: 1
	Audit Audit
	Stats Stats
}

// Steady seeks the lasting state of a system under its supply at one time.
// See SteadySolver for many searches.
//
// It ends with a result; or with *CeilingError or *FoldError, which say that
// there is none and up to which share of the load there is one; or with
// *NotConvergedError, *NotFiniteError, *InputError or the context's error, which
// say nothing about the system. Only a Loaded system's search can tell a fold
// and the load at a ceiling.
func Steady(ctx context.Context, sys System, opt SteadyOptions) (*SteadyResult, error) {
	return NewSteadySolver(sys).Solve(ctx, opt)
}

// SteadySolver seeks steady states of one system, any number of times, with
// one set of workspaces. It is used by one goroutine at a time.
type SteadySolver struct {
	sys    System
	loaded Loaded // nil where the load cannot be scaled
	st     Structure
	n      int
	e      *elimination
	j      *Jacobian

	x, f, step, trial, chord []float64
	opt                      SteadyOptions
	flow                     Flow
	rounding                 float64
	unloaded                 signs
	departures               departures
	path                     *path
	stats                    Stats
	bad                      error // why nothing can be sought at all
}

// signs are what a system with globals has without load, where it lasts.
type signs struct {
	known   bool
	up      bool      // det M > 0
	against []bool    // a global each: its pivot is negative
	held    []float64 // a node each, 1: all are held
}

// NewSteadySolver prepares searches. The structure is read here, once; what is
// wrong with it is what Solve answers.
func NewSteadySolver(sys System) *SteadySolver {
	st, err := structureOf(sys)
	if err != nil {
		return &SteadySolver{bad: err}
	}
	size := st.Nodes + st.Globals
	s := &SteadySolver{sys: sys, st: st, n: st.Nodes, e: newElimination(newPlan(st)), j: NewJacobian(st), rounding: nodeRounding}
	if st.Globals > 0 {
		s.rounding = globalRounding
	}
	s.loaded, _ = sys.(Loaded)
	all := make([]float64, 5*size)
	s.x, s.f, s.step = all[:size:size], all[size:2*size:2*size], all[2*size:3*size:3*size]
	s.trial, s.chord = all[3*size:4*size:4*size], all[4*size:]
	return s
}

// Solve is Steady with the workspaces of s. The system's load is 1 when it
// returns.
func (s *SteadySolver) Solve(ctx context.Context, opt SteadyOptions) (*SteadyResult, error) {
	res := new(SteadyResult)
	if err := s.SolveInto(ctx, opt, res); err != nil {
		return nil, err
	}
	return res, nil
}

// SolveInto is Solve with a result to overwrite, whose memory it uses again.
// After an error the result holds nothing of use.
func (s *SteadySolver) SolveInto(ctx context.Context, opt SteadyOptions, res *SteadyResult) error {
	if err := s.check(&opt); err != nil {
		return err
	}
	s.opt, s.stats = opt, Stats{}
	if ctx.Err() != nil {
		return fmt.Errorf("search for a steady state stopped: %w", context.Cause(ctx))
	}
	direct := s.direct()
	if direct == nil {
		if node := s.overCeiling(s.x); node >= 0 && s.loaded == nil {
			return &CeilingError{Node: node, Ceiling: opt.Ceilings[node], X: clone(s.x)}
		} else if node >= 0 {
			direct = s.follow(ctx)
		}
	} else if s.loaded != nil {
		direct = s.follow(ctx)
	}
	if s.loaded != nil {
		s.loaded.SetLoad(1)
	}
	if direct != nil {
		return direct
	}
	return s.fill(res)
}

// unusable is why nothing can be sought at all; a solver that was not made has
// no system.
func (s *SteadySolver) unusable() error {
	if s.bad == nil && s.sys == nil {
		return &InputError{"the solver", "was not made by NewSteadySolver"}
	}
	return s.bad
}

func (s *SteadySolver) check(opt *SteadyOptions) error {
	if err := s.unusable(); err != nil {
		return err
	}
	if opt.Tol == 0 {
		opt.Tol = DefaultSteadyTol
	}
	if opt.MaxIterations == 0 {
		opt.MaxIterations = defaultIterations
	}
	switch {
	case !(opt.Tol >= MinSteadyTol) || math.IsInf(opt.Tol, 1):
		return &InputError{"the tolerance", fmt.Sprintf("of a steady state is %g K, and must be at least %g K", opt.Tol, MinSteadyTol)}
	case len(opt.Start) != len(s.x):
		return &InputError{"the start", fmt.Sprintf("of a steady search holds %d unknowns instead of %d", len(opt.Start), len(s.x))}
	case !finite(opt.Start):
		return &InputError{"the start", "of a steady search holds something that is no finite number"}
	case opt.Time-opt.Time != 0:
		return &InputError{"the time", "of a steady search is no finite number"}
	case opt.Ceilings != nil && len(opt.Ceilings) != s.n:
		return &InputError{"the ceilings", fmt.Sprintf("are %d for %d nodes", len(opt.Ceilings), s.n)}
	}
	for i, c := range opt.Ceilings {
		if math.IsNaN(c) {
			return &InputError{"the ceiling", fmt.Sprintf("of node %d is no number", i)}
		}
	}
	return nil
}

// flatStart is how far above the guess the second attempt begins, K: at a
// uniform start at the air's temperature the losses have next to no slope.
const flatStart = 50

// direct seeks the state by Newton's method from the guess, then from above
// it. It leaves a stable state in s.x or says why it has none.
func (s *SteadySolver) direct() error {
	if s.loaded != nil && s.st.Globals > 0 && !s.unloaded.known {
		// Where this fails, so will the search along the load, which says why.
		_ = s.withoutLoad()
	}
	if s.loaded != nil {
		s.loaded.SetLoad(1)
	}
	var err error
	for _, above := range [...]float64{0, flatStart} {
		copy(s.x, s.opt.Start)
		for i := range s.x[:s.n] {
			s.x[i] += above
		}
		if above > 0 {
			s.connect()
		}
		err = s.newton(1)
		if err == nil && s.stable() {
			return nil
		}
	}
	if err == nil {
		err = &NotConvergedError{Why: "the only state found cannot last: it is unstable", Iterations: s.stats.Iterations, Load: 1}
	}
	return err
}

// connect fills in the globals of s.x, if the system can.
func (s *SteadySolver) connect() { connect(s.sys, &s.st, s.opt.Time, s.x, s.trial) }

// connect lets the system fill in the globals of x at t, by way of scratch, and
// says whether it did.
func connect(sys System, st *Structure, t float64, x, scratch []float64) bool {
	c, ok := sys.(Connected)
	if !ok || st.Globals == 0 {
		return false
	}
	copy(scratch, x)
	if c.Connect(t, scratch) != nil {
		return false
	}
	copy(x[st.Nodes:], scratch[st.Nodes:])
	return true
}

// withoutLoad finds the state without load, from which stability is judged. There
// globals are sought from 0, as currents are then; else from what the system tells
// of them, and else from the guess.
func (s *SteadySolver) withoutLoad() error {
	s.loaded.SetLoad(0)
	copy(s.x, s.opt.Start)
	clear(s.x[s.n:])
	err := s.newton(0)
	if err != nil && s.st.Globals > 0 {
		copy(s.x, s.opt.Start)
		s.connect()
		err = s.newton(0)
	}
	if u := &s.unloaded; err == nil && s.st.Globals > 0 {
		u.known, u.up = true, s.e.determinantUp()
		u.against = append(u.against[:0], s.e.against...)
	}
	return err
}

// stable judges the state found by the last factorisation: by the signs of all
// pivots or, with globals, by these against what they are without load. Where heat
// and current act on one another as in metals of one temperature coefficient, M is
// symmetric but for factors of its rows, and no departure grows if no sign differs
// (Sylvester's law of inertia). One that grows turns the determinant. Where that
// is as it was and the signs are not, all departures that can be found must fade.
func (s *SteadySolver) stable() bool {
	u := &s.unloaded
	if !u.known {
		return s.e.stable()
	}
	if !s.e.sound() || s.e.determinantUp() != u.up {
		return false
	}
	return s.e.alike(u.against) || s.holds() && s.departures.fade(s.e)
}

// holds says whether the globals by themselves are on the side of no load, as the
// current of a constant power is on that of the higher voltage: with the nodes held
// at their temperatures all signs are those without load.
func (s *SteadySolver) holds() bool {
	u := &s.unloaded
	if u.held == nil {
		u.held = make([]float64, s.n)
		for i := range u.held {
			u.held[i] = 1
		}
	}
	s.e.hold(s.j, u.held)
	same := s.e.alike(u.against)
	s.e.factor(s.j, nil, 0)
	s.stats.Factorisations += 2
	return same
}

func (s *SteadySolver) overCeiling(x []float64) int { return overCeiling(x, s.opt.Ceilings) }

// overCeiling is the node furthest above its ceiling, or −1.
func overCeiling(x, ceilings []float64) int {
	worst, node := 0.0, -1
	for i, c := range ceilings {
		if over := x[i] - c; over > worst {
			worst, node = over, i
		}
	}
	return node
}

func (s *SteadySolver) fill(res *SteadyResult) error {
	if v := s.flow.Made + s.flow.Lost; v-v != 0 || !finite(s.x) {
		return &NotFiniteError{What: "the steady state", Time: s.opt.Time}
	}
	res.X = append(res.X[:0], s.x...)
	res.Flow, res.Load, res.Stats = s.flow, 1, s.stats
	res.Audit = steadyAudit(s.flow, &s.st, s.j)
	return nil
}

func clone(x []float64) []float64 { return append([]float64(nil), x...) }
