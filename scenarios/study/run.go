package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/quantity"
	"clampheat/solver"
)

// This file makes a stack ready to be followed over time, from the start that its
// file says.

// run is a stack at one condition made ready to be soaked.
type run struct {
	stack    *model.Stack
	assembly *model.Assembly
	soaker   *solver.Soaker
	start    []float64
	// final is the settled state, sought for the likely condition alone; nil
	// where there is none, which none then explains, or where all repeats.
	final  *state
	none   *NoAnswerError
	places []int // rows that have a series
	names  []string
}

func newRun(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, c model.Condition) (*run, error) {
	a, err := stack.Assemble(c, model.Mesh{})
	if err != nil {
		return nil, err
	}
	r := &run{stack: stack, assembly: a, soaker: solver.NewSoaker(a.Network), names: rowNames(a)}
	for i, row := range a.Rows {
		if row.Kind != model.JointRow {
			r.places = append(r.places, i)
		}
	}
	if r.start, err = r.startState(ctx, sc, c); err != nil {
		return nil, err
	}
	return r, nil
}

// startState is the air's temperature, one temperature of every part, or the
// settled profile scaled to a hottest terminal.
func (r *run) startState(ctx context.Context, sc *scenarios.Scenario, c model.Condition) ([]float64, error) {
	x := r.assembly.Start(nil)
	start := sc.File.Start
	nodes := r.assembly.Network.Nodes()
	switch {
	case !start.Set:
		return x, nil
	case !start.Terminal:
		for i := range nodes {
			x[i] = start.Temp
		}
	default:
		left := still(r.stack)
		s, err := settle(ctx, left, c, model.Mesh{})
		if err != nil {
			return nil, fmt.Errorf("the settled profile that the start is scaled from: %w", err)
		}
		hot, err := s.hottest()
		if err != nil {
			return nil, err
		}
		air := left.Surroundings.Air
		rise := s.temp(hot) - air
		if rise < 1e-3 {
			return nil, &NoAnswerError{Text: "the start cannot be scaled from the settled profile, which is at the air's temperature"}
		}
		for i := range nodes {
			x[i] = air + (s.x[i]-air)*(start.Temp-air)/rise
		}
	}
	connect(r.assembly, 0, x)
	return x, nil
}

// ceilings stops a soak where a node passes what its figures hold for.
func (r *run) ceilings() solver.Event {
	limits := r.assembly.Network.Ceilings()
	return solver.Event{Name: ceilingEvent, Stop: true, Value: func(_ float64, x []float64) float64 {
		worst := math.Inf(-1)
		for i, l := range limits {
			worst = math.Max(worst, x[i]-l)
		}
		return math.Max(worst, -maxLeft)
	}}
}

const (
	ceilingEvent = "ceiling"
	circuitEvent = "circuit"
)

// sagging makes a function that is above 0 where a draw of power has its circuit
// at its end: at half of the voltage at rest, or hardly above it, where a further
// drop lets no more power through. Beyond that end no current is one.
func sagging(a *model.Assembly, start []float64) func(t float64, x []float64) float64 {
	const (
		half   = 0.505 // 4·0.505·0.495 is 0.9999 of the most that a source gives
		cannot = 1     // V; more than nothing
	)
	open := a.OpenVoltages(0, start)
	return func(t float64, x []float64) float64 {
		worst := -math.MaxFloat64
		for i, d := range a.Draws {
			reading := a.Network.ReadDraw(d, t, x)
			if reading.Power == 0 {
				continue
			}
			if math.IsNaN(reading.Voltage) {
				return cannot
			}
			worst = max(worst, half*open[i]-reading.Voltage)
		}
		return max(worst, -maxLeft)
	}
}

// endedBy says which part ended a soak.
func (r *run) endedBy(res *solver.SoakResult) string {
	for _, hit := range res.Events {
		if hit.Name == circuitEvent {
			return (&circuitEnd{hit.Time}).ends()
		}
	}
	worst, past := 0, math.Inf(-1)
	for i, l := range r.assembly.Network.Ceilings() {
		if d := res.X[i] - l; d > past {
			worst, past = i, d
		}
	}
	return fmt.Sprintf("the soak ends after %s: %s passes %.0f °C, up to which its figures hold; a fuse whose element does opens",
		quantity.Scaled(quantity.Time, res.End, 3), r.assembly.Network.NodeName(nodeID(worst)), r.assembly.Network.Ceilings()[worst]-celsius)
}

// maxLeft stands, K, for further than any limit.
const maxLeft = 9999

func (r *run) run(ctx context.Context, until float64, times []float64, progress func(float64), events ...solver.Event) (*solver.SoakResult, error) {
	breaks := r.stack.BreaksUntil(until)
	own := []solver.Event{r.ceilings()}
	if powered(r.stack) {
		sags := sagging(r.assembly, r.start)
		own = append(own, solver.Event{Name: circuitEvent, Stop: true, Value: sags})
	}
	opt := solver.SoakOptions{Start: r.start, Until: until, Times: times,
		Breaks: breaks, MaxSteps: stepsFor(breaks), Events: append(own, events...)}
	if progress != nil {
		opt.Progress = func(t float64) { progress(t / until) }
	}
	res, err := r.soaker.Run(ctx, opt)
	if err != nil {
		return nil, r.broken(ctx, opt, err)
	}
	// A row on a break tells of what flows after it; the last is no exception.
	if n := len(res.Times); n > 0 && len(breaks) > 0 && res.Times[n-1] == breaks[len(breaks)-1] && res.Times[n-1] == until {
		connect(r.assembly, until, res.States[n-1])
	}
	return res, nil
}

// circuitEnd is a soak that comes to a time, s, from which on its circuit does not
// give the power that is drawn.
type circuitEnd struct{ at float64 }

func (e *circuitEnd) Error() string {
	return fmt.Sprintf("after %s the circuit does not give the power any more: as hot as it is then, %s",
		quantity.Scaled(quantity.Time, e.at, 3), circuitFold)
}

// ends says it of a soak.
func (e *circuitEnd) ends() string {
	return fmt.Sprintf("the soak ends after %s: the circuit does not give the power any more; as hot as it is then, %s",
		quantity.Scaled(quantity.Time, e.at, 3), circuitFold)
}

// broken puts the error of a soak into words: of a power, steps without end are
// often those before its circuit gives out.
func (r *run) broken(ctx context.Context, opt solver.SoakOptions, err error) error {
	if ctx.Err() != nil {
		return err
	}
	var small *solver.StepTooSmallError
	if errors.As(err, &small) && powered(r.stack) {
		opt.Until, opt.Times, opt.Events, opt.Progress = small.Time*shortBefore, nil, nil, nil
		opt.Breaks = r.stack.BreaksUntil(opt.Until)
		before := r.start
		if opt.Until > 0 {
			if res, err := r.soaker.Run(ctx, opt); err == nil {
				before = res.X
			}
		}
		if givesOut(r.assembly, small.Time, before) {
			end := &circuitEnd{small.Time}
			return &NoAnswerError{Text: "no lasting state: " + end.Error(), Err: end}
		}
	}
	return &NoAnswerError{Text: "no answer: the search over time found none (" + err.Error() + ")", Err: err}
}

// shortBefore is the share of the time to its end at which a circuit that gives
// out is still looked at.
const shortBefore = 0.995

// givesOut says whether a circuit gives no more than it has to at a time, or less,
// as hot as a state is.
func givesOut(a *model.Assembly, t float64, x []float64) bool {
	const hardly = 1.02
	n := a.Network.Clone()
	n.SetLoad(hardly)
	return n.Connect(t, slices.Clone(x)) != nil
}

// stepsFor is how many steps a run may take: each break begins anew with small
// ones.
func stepsFor(breaks []float64) int {
	const even, each = 100_000, 20
	return even + each*len(breaks)
}

// breaksBefore are the breaks of a period before its end, which is one anyhow.
func breaksBefore(stack *model.Stack, until float64) []float64 {
	var out []float64
	for _, b := range stack.BreaksUntil(until) {
		if b < until {
			out = append(out, b)
		}
	}
	return out
}
