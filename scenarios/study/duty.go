package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file follows what repeats: the state of a stack once each period of its
// load is like the one before.

// RunDuty answers how hot a stack gets whose load repeats: the peaks of each
// period, once each is like the one before, and what the rms current alone would
// have said.
//
// Its errors are those of RunSteady, and *InputError where nothing repeats.
func RunDuty(ctx context.Context, sc *scenarios.Scenario) (*Duty, error) {
	stack, err := resolved(sc, nil)
	if err != nil {
		return nil, err
	}
	if !repeats(stack) {
		return nil, nothingRepeats(sc, stack)
	}
	likely, err := newCycle(ctx, stack, model.Likely)
	if err != nil {
		return nil, err
	}
	left := still(stack)
	out := &Duty{Conditions: conditions(sc, left, ownCurrent(left)), Period: stack.Period(), Fuses: []FuseSizing{}}
	out.AirFrom = temp(coolestAir(stack))
	out.fill(likely)
	out.places(likely, sc.Ways())
	if err := out.headline(ctx, sc, likely); err != nil {
		return nil, err
	}
	rms, err := out.rules(ctx, likely)
	if err != nil {
		return nil, err
	}
	ways, fuses := likely.ways(sc.Ways())
	out.Ways = ways
	for part := range stack.Parts {
		if current, ok := fuses[part]; ok {
			out.Fuses = append(out.Fuses, fuseSizing(sc, stack, part, current))
		}
	}
	if rms != nil {
		out.Warnings = append(out.Warnings, warnings(rms)...)
	}
	at := loadPeak(stack)
	x := slices.Clone(likely.result.X)
	connect(likely.assembly, at, x)
	out.Warnings = slices.Concat(overloaded(stack, likely.assembly, at, x), touchOpinions(sc), out.Warnings)
	return out, nil
}

// nothingRepeats says what a duty needs.
func nothingRepeats(sc *scenarios.Scenario, stack *model.Stack) error {
	hint := `write a list of steps that repeats, for example "duty: [180 A for 5 min, 0 A for 10 min]", or "repeats: yes" beside a log`
	if math.IsInf(stack.Period(), 1) && len(stack.BreaksUntil(2*lastBreak(stack))) > len(stack.Breaks()) {
		return &InputError{Text: "not all that drives the stack repeats after one time, its loads and its air: there is no duty to be asked about",
			Hint: "clampheat soak follows it from its start"}
	}
	if slices.ContainsFunc(sc.Ways(), func(w scenarios.WayInfo) bool { return w.Kind == scenarios.CircuitWay }) {
		return &InputError{Text: "the currents of circuits do not repeat, whatever steps they have: there is no duty to be asked about",
			Hint: "clampheat soak follows their steps; a duty is one load behind the bar, without circuits"}
	}
	return &InputError{Text: "nothing in the file repeats: there is no duty to be asked about", Hint: hint}
}

// cycle is the lasting cycle of a stack at one condition.
type cycle struct {
	stack    *model.Stack
	assembly *model.Assembly
	names    []string
	result   *solver.PeriodicResult
}

// Rows of a cycle: evenly over the period, and on either side of each break where
// these are not too many.
const (
	dutyRows = 240
	fineRows = 2000
)

// newCycle seeks it, from the settled state of a load that heats as much.
func newCycle(ctx context.Context, stack *model.Stack, c model.Condition) (*cycle, error) {
	a, err := stack.Assemble(c, model.Mesh{})
	if err != nil {
		return nil, err
	}
	// Cold, the circuit gives most: what it does not give then it never will.
	if err := tooWeak(stack, a, loadPeak(stack), a.Start(nil)); err != nil {
		return nil, err
	}
	start := warmed(a, guessRise)
	even, err := settle(ctx, heatingAlike(stack), c, model.Mesh{})
	var none *NoAnswerError
	switch {
	case err == nil:
		copy(start[:a.Network.Nodes()], even.x)
		connect(a, 0, start)
	case !errors.As(err, &none):
		return nil, err
	default:
		// The cycle is sought from afar, unless a first period already passes what
		// the figures hold for: no later one is cooler than that from cold.
		if err := fromCold(ctx, stack, a); err != nil {
			return nil, err
		}
	}
	period := stack.Period()
	breaks := breaksBefore(stack, period)
	out := &cycle{stack: stack, assembly: a, names: rowNames(a)}
	if err := tooWeak(stack, a, loadPeak(stack), start); err != nil {
		return nil, err
	}
	out.result, err = solver.Periodic(ctx, a.Network, solver.PeriodicOptions{
		Period: period, Breaks: breaks, MaxSteps: stepsFor(breaks), Start: start, Times: dutyTimes(period, breaks), Ceilings: a.Network.Ceilings()})
	if err != nil {
		return nil, noCycle(ctx, stack, a, err)
	}
	if powered(stack) {
		sags := sagging(a, start)
		for i, t := range out.result.Times {
			if sags(t, out.result.States[i]) > 0 {
				return nil, &NoAnswerError{Text: "no lasting cycle: of a period, " + (&circuitEnd{t}).Error()}
			}
		}
	}
	return out, nil
}

// fromCold follows one period from the temperature of the air, and says in words
// where it ends early.
func fromCold(ctx context.Context, stack *model.Stack, a *model.Assembly) error {
	r := &run{stack: stack, assembly: a, soaker: solver.NewSoaker(a.Network), start: a.Start(nil)}
	res, err := r.run(ctx, stack.Period(), nil, nil)
	if err != nil || res.End >= stack.Period() {
		return err
	}
	return &NoAnswerError{Text: "no lasting cycle: from cold " + r.endedBy(res)}
}

// noCycle puts the solver's error into words.
func noCycle(ctx context.Context, stack *model.Stack, a *model.Assembly, err error) error {
	if ctx.Err() != nil {
		return err
	}
	var cycle *solver.CycleError
	if errors.As(err, &cycle) {
		text := "no lasting cycle: each period ends hotter than it began"
		if cycle.Node >= 0 && cycle.Ceiling > 0 {
			text = fmt.Sprintf("no lasting cycle below %.0f °C: %s passes the temperature up to which its figures hold",
				cycle.Ceiling-celsius, a.Network.NodeName(nodeID(cycle.Node)))
		}
		return &NoAnswerError{Text: text, Err: err}
	}
	var small *solver.StepTooSmallError
	if errors.As(err, &small) && powered(stack) {
		end := &circuitEnd{small.Time}
		return &NoAnswerError{Text: "no lasting cycle: of a period, " + end.Error(), Err: err}
	}
	return &NoAnswerError{Text: "no answer: the search for the lasting cycle found none (" + err.Error() + ")", Err: err}
}

// dutyTimes are the times of the rows.
func dutyTimes(period float64, breaks []float64) []float64 {
	rows := dutyRows
	if len(breaks) > mostBreaks {
		rows, breaks = fineRows, nil
	}
	times := []float64{0}
	for i := 1; i < rows; i++ {
		times = append(times, period*float64(i)/float64(rows))
	}
	for _, b := range breaks {
		if b > 0 && b < period {
			times = append(times, math.Nextafter(b, 0), b)
		}
	}
	times = append(times, math.Nextafter(period, 0))
	slices.Sort(times)
	return slices.Compact(times)
}

// peak is the highest temperature of a row and when it has it.
func (c *cycle) peak(row int) (temp, at float64) {
	r := c.assembly.Rows[row]
	temp = math.Inf(-1)
	for _, n := range r.Nodes {
		if p := c.result.Peak[n]; p > temp {
			temp, at = p, c.result.PeakTime[n]
		}
	}
	return temp, at
}

// mean is that of the node of a row that is hottest on the whole.
func (c *cycle) mean(row int) float64 {
	mean := math.Inf(-1)
	for _, n := range c.assembly.Rows[row].Nodes {
		mean = max(mean, c.result.Mean[n])
	}
	return mean
}

// hottest is the row of the terminal with the highest peak.
func (c *cycle) hottest() (int, error) {
	best, most := -1, math.Inf(-1)
	for _, row := range c.assembly.Terminals() {
		if t, _ := c.peak(row); t > most {
			best, most = row, t
		}
	}
	if best < 0 {
		return 0, &NoAnswerError{Text: "the stack has no terminal: there is nothing that a thermocouple could sit on"}
	}
	return best, nil
}

// left is what is left to a bound where that is least, and the bound and the air
// there, K. In moving air it is looked for at the times of the rows.
func (c *cycle) left(b bound) (left, limit, air float64) {
	if c.stack.Course == nil || b.rise == 0 {
		t, _ := c.peak(b.row)
		return b.temp - t, b.temp, b.air
	}
	left = math.Inf(1)
	for i, t := range c.result.Times {
		a := airAt(c.stack, t)
		l := b.in(a)
		if d := l - c.assembly.RowTemp(b.row, c.result.States[i]); d < left {
			left, limit, air = d, l, a
		}
	}
	return left, limit, air
}
