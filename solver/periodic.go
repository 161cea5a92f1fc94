package solver

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// The lasting cycle of a system that is driven with a period: the state that
// comes back after one period. It is found on the map of a state onto that one
// period later, not by following hundreds of periods:
//
//   - One period is followed with error control, and its steps are kept. With
//     the steps kept the map is a smooth function of the state at its beginning.
//   - The map's fixed point is sought by mixing (mixing.go), a period a try.
//   - At the state found the steps are chosen anew, until that moves it no more.

// PeriodicOptions says which cycle is sought and what is wanted of it.
type PeriodicOptions struct {
	// Period, s: what drives the system repeats after it. The system is asked
	// at times from 0 up to it.
	Period float64
	// Breaks are the times within a period at which the supply or its slope
	// jumps, s, in order. At 0 it may jump without being named.
	Breaks []float64
	// Tol as in SoakOptions. The state that comes back is found to a hundredth
	// of it, or 1e-8 K. 0 means DefaultSoakTol.
	Tol float64
	// Start is a guess of the state at 0, nodes then globals, length n+m: best the
	// steady state under the mean heating. Nodes without mass and globals are
	// solved for.
	Start []float64
	// Times are the times at which states are wanted, s, in order, within
	// [0, Period].
	Times []float64
	// Ceilings are the temperatures up to which the nodes' figures hold, K; nil
	// for none, +Inf for a node without.
	Ceilings []float64
	// MaxPeriods bounds the periods that are followed to find the cycle. 0 means
	// 60. Two more tell whether it lasts and what it is like.
	MaxPeriods int
	// MaxSteps bounds the steps of one period. 0 means 100 000.
	MaxSteps int
	// Progress, unless nil, is called after each period with their number and what
	// the state may still be off by, K.
	Progress func(periods int, off float64)
}

const (
	defaultPeriods = 60
	// closing is the share of the tolerance to which the cycle is closed, and
	// leastClosing, K, what rounding leaves of that.
	closing, leastClosing = 1e-2, 1e-8
)

// PeriodicResult is a cycle that lasts, over one period from 0.
type PeriodicResult struct {
	X      []float64   // the state at 0, nodes then globals
	Times  []float64   // s: those of the options
	States [][]float64 // nodes then globals at Times
	// Mean is the mean of each unknown over the period, K for a node, by the three
	// Gauss–Lobatto points of each step as in the audit.
	Mean []float64
	// Peak is the highest value of each unknown and PeakTime, s, the first time at
	// which it has it, also within steps.
	Peak, PeakTime []float64
	// Made, Lost and Stored are the heat made in, lost by and stored in the
	// whole system over the period, J. Stored is what the cycle lacks of closing.
	Made, Lost, Stored float64
	Audit              Audit
	// Periods is how many periods were followed in all.
	Periods int
	// Residual is the largest change of a node with mass over the period, K, and
	// Off about by how much its state may still be off, K: by what the search
	// would correct it next.
	Residual, Off float64
	// Decay is the share of a departure from the cycle, of the kind that fades
	// most slowly, that is left after one period. It is below 1.
	Decay float64
	Stats Stats
}

// Periodic seeks the lasting cycle of a system that is driven with a period.
//
// It ends with a result; or with *CycleError, which says that the system has no
// lasting cycle, or none below its ceilings; or with *NotConvergedError,
// *InputError, *NotFiniteError, *StepTooSmallError, *StepLimitError or the
// context's error, which say nothing about the system.
func Periodic(ctx context.Context, sys System, opt PeriodicOptions) (*PeriodicResult, error) {
	c := &cycle{s: NewSoaker(sys), opt: opt}
	if err := c.check(); err != nil {
		return nil, err
	}
	c.prepare()
	err := c.seek(ctx)
	if err == nil {
		return c.finish(ctx)
	}
	if node := overCeiling(c.peak, c.opt.Ceilings); node >= 0 && passing(err) {
		return nil, c.over(node, "it is passed, and then no period can be followed")
	}
	return nil, err
}

func (c *cycle) over(node int, why string) error {
	return &CycleError{Why: why, Node: node, Ceiling: c.opt.Ceilings[node], Peak: c.peak[node], X: clone(c.start), Periods: c.periods}
}

// CycleError says that a system has no cycle that lasts, or none below its
// ceilings.
type CycleError struct {
	Why string
	// Node is the one that passes its ceiling, −1 if none does; Peak, K, is the
	// highest that it was in the last period followed.
	Node          int
	Ceiling, Peak float64   // K
	X             []float64 // the state at the beginning of that period
	Periods       int       // followed
}

func (e *CycleError) Error() string {
	if e.Node < 0 {
		return fmt.Sprintf("no lasting cycle: %s (after %d periods)", e.Why, e.Periods)
	}
	return fmt.Sprintf("no lasting cycle below the ceiling of %.5g K at node %d: %s, to %.5g K (after %d periods)", e.Ceiling, e.Node, e.Why, e.Peak, e.Periods)
}

// cycle is a search for a lasting cycle.
type cycle struct {
	s       *Soaker
	opt     PeriodicOptions
	soak    SoakOptions // of one period
	run     SoakResult
	start   []float64 // state at 0
	paces   []pace    // the steps kept
	mix     mixing
	peak    []float64 // of the last period, by the ends of steps
	periods int
	stats   Stats
	closeTo float64 // K
	off     float64 // K
	climbs  int     // periods up to the last in which nothing could last and the rises grew
	decay   float64
}

func (c *cycle) check() error {
	o := &c.opt
	if o.MaxPeriods == 0 {
		o.MaxPeriods = defaultPeriods
	}
	if !(o.Period > 0) || math.IsInf(o.Period, 1) {
		return &InputError{"the period", fmt.Sprintf("of a cycle is %g s", o.Period)}
	}
	if n := len(o.Breaks); n > 0 && (o.Breaks[0] < 0 || o.Breaks[n-1] > o.Period) {
		return &InputError{"the breaks", "of a cycle lie outside its period"}
	}
	// The end of the period is a break: what comes after it is its beginning.
	c.soak = SoakOptions{Tol: o.Tol, Start: o.Start, Until: o.Period, Times: o.Times, MaxSteps: o.MaxSteps,
		Breaks: append(slices.Clone(o.Breaks), o.Period)}
	if err := c.s.check(&c.soak); err != nil {
		return err
	}
	if o.Ceilings != nil && len(o.Ceilings) != c.s.n {
		return &InputError{"the ceilings", fmt.Sprintf("are %d for %d nodes", len(o.Ceilings), c.s.n)}
	}
	if slices.ContainsFunc(o.Ceilings, math.IsNaN) {
		return &InputError{"the ceilings", "hold something that is no number"}
	}
	if o.MaxPeriods < 0 {
		return &InputError{"the number of periods", fmt.Sprintf("that may be followed is %d", o.MaxPeriods)}
	}
	return nil
}

func (c *cycle) prepare() {
	c.start = clone(c.opt.Start)
	c.peak = make([]float64, c.s.n)
	c.closeTo = max(closing*c.soak.Tol, leastClosing)
	c.mix = newMixing(c.s)
}

// near, K, is how far the state may move from the one for which the steps were
// chosen: for one as near they would be chosen much the same.
const near = 1

// seek leaves the state at 0 of a closed cycle in c.start.
func (c *cycle) seek(ctx context.Context) error {
	if err := c.follow(ctx, true); err != nil {
		return err
	}
	fit := c.within(near) // the state for which the steps were chosen is near
	for !fit || !c.within(c.closeTo) {
		again := !fit && c.within(near)
		if err := c.improve(ctx, again); err != nil {
			return err
		}
		if again {
			fit = c.within(near)
		}
	}
	return c.lasting(ctx)
}

// within says whether the state is known to be no further off than that, K.
func (c *cycle) within(k float64) bool { return c.mix.ready && c.off <= k }

func (c *cycle) lost(why string) error {
	return &NotConvergedError{Sought: "lasting cycle", Why: why, Residual: c.mix.imbalance(), Correction: c.off, Iterations: c.periods, Load: 1}
}

const withoutBound = "the temperatures rise from period to period without bound"

// follow follows one period from c.start, choosing steps or with those kept, and
// notes what it leads to.
func (c *cycle) follow(ctx context.Context, choose bool) error {
	if err := c.period(ctx, choose); err != nil {
		return err
	}
	if largest(c.s.x[:c.s.n]) > boundless {
		return &CycleError{Why: withoutBound, Node: -1, X: clone(c.start), Periods: c.periods}
	}
	c.mix.note(c.start, c.s.x)
	before := c.off
	c.off = c.mix.off()
	if !c.mix.ready && c.mix.rising() && c.off > before {
		c.climbs++
	} else {
		c.climbs = 0
	}
	if c.opt.Progress != nil {
		c.opt.Progress(c.periods, c.off)
	}
	// Heat makes no node cooler: from a state that only rises all higher ones do.
	if node := overCeiling(c.start, c.opt.Ceilings); node >= 0 && c.mix.rising() {
		return c.over(node, "it is passed, and the temperatures still rise")
	}
	return nil
}

// period is the bare map: from c.start to c.s.x, one period later.
func (c *cycle) period(ctx context.Context, choose bool) error {
	c.periods++
	c.mix.clear()
	copy(c.peak, c.start[:c.s.n])
	defer func() { c.s.watch = nil }()
	var err error
	if choose {
		c.paces = c.paces[:0]
		c.s.watch = func(jump bool) {
			c.paces = append(c.paces, pace{c.s.end, jump})
			c.step()
		}
		opt := c.soak
		opt.Start, opt.Times = c.start, nil
		err = c.s.RunInto(ctx, opt, &c.run)
	} else {
		c.s.watch = func(bool) { c.step() }
		err = c.s.replay(ctx, c.start, c.paces, nil)
	}
	c.stats.add(&c.s.stats)
	return err
}

// step looks at a step just made.
func (c *cycle) step() {
	c.mix.weigh(c.s.j, c.s.h)
	for i, v := range c.s.z[:len(c.peak)] {
		c.peak[i] = max(c.peak[i], v)
	}
}

// improve makes the next guess and follows a period from it; where none can be
// followed from there, from a part of the way to it.
func (c *cycle) improve(ctx context.Context, choose bool) error {
	last := clone(c.start)
	next := c.mix.next(c.start)
	for share := 1.0; ; share /= 4 {
		if c.periods >= c.opt.MaxPeriods {
			copy(c.start, last)
			return c.spent()
		}
		for i, v := range next {
			c.start[i] = last[i] + share*(v-last[i])
		}
		err := c.follow(ctx, choose)
		if err == nil || share < leastShare || !passing(err) {
			return err
		}
	}
}

// spent is how a search ends that may follow no more periods. Where the last ones
// only rose, by ever more, and under the mean of none of them a state could last,
// the temperatures run away.
func (c *cycle) spent() error {
	if c.climbs >= leastClimbs {
		return &CycleError{Why: withoutBound, Node: -1, X: clone(c.start), Periods: c.periods}
	}
	return c.lost("the periods that may be followed are used up")
}

// leastClimbs of at least leastMove each make up hundreds of kelvin: losses that
// grow faster than the heat would have shown on the way.
const leastClimbs = 10

// leastShare ends the search for a guess from which a period can be followed.
const leastShare = 1e-2

// passing says whether an error may be owed to a guess that went too far.
func passing(err error) bool {
	var (
		small  *StepTooSmallError
		none   *NotConvergedError
		finite *NotFiniteError
		cycle  *CycleError
	)
	return errors.As(err, &small) || errors.As(err, &none) && none.Sought == "" || errors.As(err, &finite) ||
		errors.As(err, &cycle) && cycle.Why == withoutBound
}

// lasting says why the cycle that was found cannot last, or notes how fast
// departures from it fade.
func (c *cycle) lasting(ctx context.Context) error {
	v := c.mix.slowest()
	last := len(c.mix.y) - 1
	y, g := c.mix.y[last], c.mix.g[last]
	state := clone(c.start)
	for i, a := range v {
		c.start[i] = y[i] + departure*a
	}
	err := c.period(ctx, false)
	copy(c.start, state)
	if err != nil {
		return err
	}
	w := make([]float64, len(v))
	for i := range w {
		w[i] = (c.s.x[i] - y[i] - g[i]) / departure
	}
	if c.decay = c.mix.share(v, w); !(c.decay < 1) {
		return &CycleError{Why: "in the only one found a departure grows from period to period", Node: -1, X: state, Periods: c.periods}
	}
	return nil
}

// departure, K, is small against what bends the map and large against rounding.
const departure = 0.05

// finish follows the cycle once more, for all that is wanted of it.
func (c *cycle) finish(ctx context.Context) (*PeriodicResult, error) {
	s := c.s
	run := new(SoakResult)
	c.soak.Start = c.start
	s.prepare(&c.soak, run)
	e := newExtremes(len(s.x))
	s.watch = func(bool) { e.step(s) }
	defer func() { s.watch = nil }()
	out := &recorder{s: s, opt: &c.soak, res: run}
	if err := s.replay(ctx, c.start, c.paces, out); err != nil {
		return nil, err
	}
	if err := out.finish(); err != nil {
		return nil, err
	}
	c.periods++
	c.stats.add(&s.stats)
	floats.Scale(1/c.opt.Period, e.sum)
	copy(c.peak, e.peak)
	if node := overCeiling(c.peak, c.opt.Ceilings); node >= 0 {
		return nil, c.over(node, "it is passed in the cycle that the temperatures come to")
	}
	return &PeriodicResult{
		X: c.start, Times: run.Times, States: run.States,
		Mean: e.sum, Peak: e.peak, PeakTime: e.when,
		Made: run.Made, Lost: run.Lost, Stored: run.Stored, Audit: run.Audit,
		Periods: c.periods, Residual: c.mix.imbalance(), Off: c.off, Decay: c.decay, Stats: c.stats,
	}, nil
}

func (s *Stats) add(o *Stats) {
	s.Steps += o.Steps
	s.Rejected += o.Rejected
	s.Balances += o.Balances
	s.Jacobians += o.Jacobians
	s.Factorisations += o.Factorisations
	s.Solves += o.Solves
	s.Iterations += o.Iterations
	s.Restarts += o.Restarts
}
