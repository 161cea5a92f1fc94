package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/quantity"
	"clampheat/solver"
)

// SoakOptions say how long a soak is and how often it is read.
type SoakOptions struct {
	For      float64 // s; 0 = until settled
	Every    float64 // s; 0 = a round time that gives one to two hundred rows
	Measured *MeasuredLog
	// Progress, where not nil, is told which share of the soak is done.
	Progress func(done float64)
}

// A soak is settled when no node changes faster than 1 K an hour (IEC
// 61439-1, 10.10.2; IEC 60947-1, 8.3.3.3; from memory).
const settledRate = 1.0 / 3600

const (
	// longestSoak, s, ends a search for the settled state that has none.
	longestSoak = 14 * 24 * 3600
	// mostRows is how many rows a soak may have.
	mostRows = 20000
)

// RunSoak answers how hot a stack gets over time.
//
// Its errors are those of RunSteady, and *InputError for options that do not
// fit each other. A stack without a lasting state is soaked all the same, up
// to the temperature at which its figures end, if a time is given or not.
func RunSoak(ctx context.Context, sc *scenarios.Scenario, opt SoakOptions) (*Soak, error) {
	stack, err := resolved(sc, nil)
	if err != nil {
		return nil, err
	}
	likely, err := newRun(ctx, sc, stack, model.Likely)
	if err != nil {
		return nil, err
	}
	if err := tooWeak(stack, likely.assembly, loadPeak(stack), likely.start); err != nil {
		return nil, err
	}
	left := still(stack)
	out := &Soak{Conditions: conditions(sc, left, ownCurrent(left)), Limits: []Crossing{}}
	out.AirFrom = temp(coolestAir(stack))
	out.Warnings = append(likely.overloads(), touchOpinions(sc)...)
	out.Until = opt.For
	if repeats(stack) {
		out.Period = stack.Period()
		if out.Until == 0 {
			if out.Until, err = likely.periods(ctx); err != nil {
				return nil, err
			}
		}
	} else if err := likely.toSettle(ctx, out); err != nil {
		return nil, err
	}
	if out.Until == 0 || math.IsNaN(out.Until) || math.IsInf(out.Until, 0) {
		return nil, &InputError{Text: "the soak has no length"}
	}

	// Then over the time asked for. One that runs away ends before it, so its
	// rows are only known afterwards.
	seen, events := likely.watch(bounds(sc, likely.assembly, stack.Surroundings.Air))
	ended, err := likely.run(ctx, out.Until, nil, opt.Progress, events...)
	var gone *circuitEnd
	if errors.As(err, &gone) {
		out.Until = gone.at * shortBefore
		out.Warnings = append(out.Warnings, gone.ends())
		seen, events = likely.watch(seen.bounds)
		ended, err = likely.run(ctx, out.Until, nil, nil, events...)
	}
	if err != nil {
		return nil, err
	}
	seen.read(ended.Events)
	if ended.End < out.Until {
		out.Until = ended.End
		out.Warnings = append(out.Warnings, likely.endedBy(ended))
	}
	changes := stack.BreaksUntil(out.Until)
	breaks := breakRows(changes, out.Period)
	missed := len(breaks) < len(changes)
	if hot := seen.hottest(likely.assembly.Terminals()); hot >= 0 {
		out.Peak = Moment{Place: likely.names[hot], Time: seen.when[hot], Temp: temp(seen.peak(hot))}
		if loadVaries(stack) || stack.Course != nil {
			breaks = append(breaks, out.Peak.Time) // so that the rows miss no peak of what changes
		}
	}
	times, err := rowTimes(out.Until, opt.Every, breaks)
	if err != nil {
		return nil, err
	}
	if missed {
		out.Warnings = append(out.Warnings, farApart(times))
	}
	r, err := likely.run(ctx, out.Until, times, nil)
	if err != nil {
		return nil, err
	}
	out.fill(likely, r, seen)

	if err := out.judge(ctx, sc, stack, likely, r, seen); err != nil {
		return nil, err
	}
	if opt.Measured != nil {
		if out.Measured, err = likely.against(ctx, opt.Measured, out); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// InputError says which options do not fit, and where that is known what to do.
type InputError struct{ Text, Hint string }

func (e *InputError) Error() string { return e.Text }

// roundTimes are the steps between rows that a person would choose, s.
var roundTimes = []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 43200, 86400}

// mostBreaks is how many breaks of what drives a stack have rows of their own: a
// log has more than a reader wants.
const mostBreaks = 400

// noCurrent, A, is what rounding leaves of a current where nothing is drawn.
const noCurrent = 1e-9

// mostRepeated is how many breaks have rows of their own where few of them repeat:
// rows at round times alone would fall on the same point of each period.
const mostRepeated = 4000

// breakRows are the breaks that have rows: all or, where they are too many, none.
func breakRows(breaks []float64, period float64) []float64 {
	if len(breaks) <= mostBreaks {
		return slices.Clone(breaks)
	}
	few := period > 0 && float64(len(breaks))*period <= mostBreaks*breaks[len(breaks)-1]
	if few && len(breaks) <= mostRepeated {
		return slices.Clone(breaks)
	}
	return nil
}

// farApart tells of rows that do not follow each change of what drives a stack.
func farApart(times []float64) string {
	gap := 0.0
	for i := 1; i < len(times); i++ {
		gap = max(gap, times[i]-times[i-1])
	}
	return fmt.Sprintf("the rows stand up to %s apart and not at each change of what drives the stack: all peaks but the highest may lie between them",
		quantity.Scaled(quantity.Time, gap, 2))
}

// rowTimes are the times of the rows: from 0, at each multiple of every, at
// each break and at the end.
func rowTimes(until, every float64, breaks []float64) ([]float64, error) {
	if every == 0 {
		every = until / 120
		for _, r := range roundTimes {
			if r >= every || r == roundTimes[len(roundTimes)-1] {
				every = r
				break
			}
		}
	}
	if !(every > 0) || until/every > mostRows {
		return nil, &InputError{Text: fmt.Sprintf("a row every %.4g s of %.4g s would be more than %d rows", every, until, mostRows)}
	}
	var times []float64
	for i := 0; float64(i)*every < until; i++ {
		times = append(times, float64(i)*every)
	}
	for _, b := range breaks {
		if b < until {
			times = append(times, b)
		}
	}
	times = append(times, until)
	sort.Float64s(times)
	distinct := times[:1]
	for _, t := range times[1:] {
		if t-distinct[len(distinct)-1] > 1e-9*until {
			distinct = append(distinct, t)
		}
	}
	distinct[len(distinct)-1] = until
	return distinct, nil
}

// fill copies the states at the rows' times into series, with what was seen between
// them.
func (s *Soak) fill(r *run, res *solver.SoakResult, seen *watched) {
	s.Times = res.Times
	for _, t := range res.Times {
		s.Currents = append(s.Currents, r.stack.Supply.Current(t))
	}
	if len(r.assembly.Draws) > 0 {
		s.Currents = s.Currents[:0]
		for i, t := range res.Times {
			current := currentOf(r.stack, r.assembly, t, res.States[i])
			if math.Abs(current) < noCurrent {
				current = 0
			}
			s.Currents = append(s.Currents, current)
		}
		if powered(r.stack) {
			s.Current = slices.Max(s.Currents)
		}
	}
	if r.stack.Course != nil {
		for _, t := range res.Times {
			s.Airs = append(s.Airs, temp(airAt(r.stack, t)))
		}
	}
	for _, row := range r.places {
		series := Series{Name: r.names[row], Terminal: r.assembly.Rows[row].Terminal, Highest: temp(seen.peak(row))}
		for _, x := range res.States {
			series.Temps = append(series.Temps, temp(r.assembly.RowTemp(row, x)))
		}
		s.Series = append(s.Series, series)
	}
	s.Made, s.Lost, s.Stored = res.Made, res.Lost, res.Stored
	s.Numerics = Numerics{Nodes: r.assembly.Network.Nodes(), Steps: res.Stats.Steps,
		Bookkeeping: res.Audit.Bookkeeping, Quadrature: res.Audit.Quadrature}
}

// judge finds the hottest terminal at the end with its range, and when each
// limit is passed.
func (s *Soak) judge(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, likely *run, res *solver.SoakResult, seen *watched) error {
	air := airAt(stack, s.Until)
	hot := likely.assembly.HottestTerminal(res.X)
	if hot < 0 {
		return &NoAnswerError{Text: "the stack has no terminal: there is nothing that a thermocouple could sit on"}
	}
	at := likely.assembly.RowTemp(hot, res.X)
	s.Hottest = Span{Place: likely.names[hot], Temp: temp(at), Rise: at - air}
	careful, _, err := endOf(ctx, sc, stack, model.Careful, s.Until, nil)
	if err != nil {
		return err
	}
	s.Hottest.Careful = temp(careful)
	careless, worst, err := endOf(ctx, sc, stack, model.Careless, s.Until, seen.bounds)
	var none *NoAnswerError
	switch {
	case errors.As(err, &none):
		s.Hottest.CarelessEnds = none.Text
	case err != nil:
		return err
	default:
		s.Hottest.Careless = temp(careless)
	}

	warmest := at
	for _, row := range likely.assembly.Terminals() {
		warmest = math.Max(warmest, seen.peak(row))
	}
	s.Touch = touchCaution(warmest)
	for i, b := range seen.bounds {
		carelessLeft := math.Inf(-1)
		if worst != nil {
			carelessLeft = worst.left[i]
		}
		if b.judgeable() {
			// Where the air moves, the bound is that of the moment with the least left.
			b.temp, b.air = seen.at[i], seen.airs[i]
		}
		c := Crossing{Margin: b.judge(likely.names[b.row], b.temp-seen.left[i], b.temp-carelessLeft)}
		if c.Time, c.Reached = seen.passed[i]; c.Reached {
			c.Verdict = Passed
		}
		s.Limits = append(s.Limits, c)
	}
	if likely.final != nil {
		s.Warnings = append(s.Warnings, warnings(likely.final)...)
	}
	if s.Box, err = boxState(stack, likely.assembly, s.Until, res.X); err != nil {
		return err
	}
	return nil
}

// endOf soaks at another condition: the hottest terminal at the end, and what was
// seen of the bounds.
func endOf(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, c model.Condition, until float64, bounds []bound) (float64, *watched, error) {
	r, err := newRun(ctx, sc, stack, c)
	if err != nil {
		return 0, nil, err
	}
	seen, events := r.watch(bounds)
	res, err := r.run(ctx, until, nil, nil, events...)
	if err != nil {
		return 0, nil, err
	}
	if res.End < until {
		return 0, nil, &NoAnswerError{Text: r.endedBy(res)}
	}
	return r.assembly.RowTemp(r.assembly.HottestTerminal(res.X), res.X), seen, nil
}

// against reads the soak at the times of a log and compares.
func (r *run) against(ctx context.Context, log *MeasuredLog, s *Soak) ([]Difference, error) {
	var times []float64
	for _, t := range log.Times {
		if t >= 0 && t <= s.Until {
			times = append(times, t)
		}
	}
	res, err := r.run(ctx, s.Until, times, nil)
	if err != nil {
		return nil, err
	}
	return log.compare(s, func(series int, t float64) (float64, bool) {
		i := sort.SearchFloat64s(res.Times, t)
		if i == len(res.Times) || res.Times[i] != t {
			return 0, false
		}
		return r.assembly.RowTemp(r.places[series], res.States[i]), true
	})
}
