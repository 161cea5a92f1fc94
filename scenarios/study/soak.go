package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

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
	stack, err := sc.Stack(nil)
	if err != nil {
		return nil, err
	}
	likely, err := newRun(ctx, sc, stack, model.Likely)
	if err != nil {
		return nil, err
	}
	likely.final, err = settle(ctx, stack, model.Likely, model.Mesh{}, supplyEnd(stack.Supply))
	if err != nil && !errors.As(err, &likely.none) {
		return nil, err
	}
	out := &Soak{Conditions: conditions(sc, stack, stack.Supply.Current(supplyPeak(stack.Supply))), Limits: []Crossing{}}
	out.Lasting = likely.final != nil
	out.Warnings = append(overloaded(stack, out.Current), touchOpinions(sc)...)

	// First until settled, for the times of settling.
	out.Until = opt.For
	if out.Lasting {
		end, err := likely.settling(ctx, out)
		if err != nil {
			return nil, err
		}
		if out.Until == 0 {
			out.Until = end
		}
	} else {
		out.Warnings = append(out.Warnings, likely.none.Text)
		if out.Until == 0 {
			out.Until = longestSoak
		}
	}
	if out.Until == 0 || math.IsNaN(out.Until) || math.IsInf(out.Until, 0) {
		return nil, &InputError{Text: "the soak has no length"}
	}

	// Then over the time asked for. One that runs away ends before it, so its
	// rows are only known afterwards.
	seen, events := likely.watch(bounds(sc, likely.assembly, stack.Surroundings.Air))
	ended, err := likely.run(ctx, out.Until, nil, opt.Progress, events...)
	if err != nil {
		return nil, err
	}
	seen.read(ended.Events)
	if ended.End < out.Until {
		out.Until = ended.End
		out.Warnings = append(out.Warnings, likely.endedBy(ended))
	}
	times, err := rowTimes(out.Until, opt.Every, stack.Supply.Breaks())
	if err != nil {
		return nil, err
	}
	r, err := likely.run(ctx, out.Until, times, nil)
	if err != nil {
		return nil, err
	}
	out.fill(likely, r)

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

// InputError says which options do not fit.
type InputError struct{ Text string }

func (e *InputError) Error() string { return e.Text }

// run is a stack at one condition made ready to be soaked.
type run struct {
	stack    *model.Stack
	assembly *model.Assembly
	soaker   *solver.Soaker
	start    []float64
	// final is the settled state, sought for the likely condition alone; nil
	// where there is none, which none then explains.
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
	switch {
	case !start.Set:
	case !start.Terminal:
		for i := range x {
			x[i] = start.Temp
		}
	default:
		s, err := settle(ctx, r.stack, c, model.Mesh{}, supplyPeak(r.stack.Supply))
		if err != nil {
			return nil, fmt.Errorf("the settled profile that the start is scaled from: %w", err)
		}
		hot, err := s.hottest()
		if err != nil {
			return nil, err
		}
		air := r.stack.Surroundings.Air
		rise := s.temp(hot) - air
		if rise < 1e-3 {
			return nil, &NoAnswerError{Text: "the start cannot be scaled from the settled profile, which is at the air's temperature"}
		}
		for i := range x {
			x[i] = air + (s.x[i]-air)*(start.Temp-air)/rise
		}
	}
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

const ceilingEvent = "ceiling"

// endedBy says which part ended a soak.
func (r *run) endedBy(res *solver.SoakResult) string {
	worst, past := 0, math.Inf(-1)
	for i, l := range r.assembly.Network.Ceilings() {
		if d := res.X[i] - l; d > past {
			worst, past = i, d
		}
	}
	return fmt.Sprintf("the soak ends after %s: %s passes %.0f °C, up to which its figures hold; a fuse whose element does opens",
		quantity.Scaled(quantity.Time, res.End, 3), r.assembly.Network.NodeName(nodeID(worst)), res.X[worst]-celsius)
}

// maxLeft stands, K, for further than any limit.
const maxLeft = 9999

// watched are the highest temperature of each row over a soak, and when each
// bound was passed, both from every step and not from the rows of the output.
type watched struct {
	peaks  []float64       // a row each, K
	passed map[int]float64 // a bound each that was passed, s
	bounds []bound
}

// watch makes the events that fill a watched.
func (r *run) watch(bounds []bound) (*watched, []solver.Event) {
	w := &watched{peaks: make([]float64, len(r.assembly.Rows)), passed: map[int]float64{}, bounds: bounds}
	events := []solver.Event{{Name: "peaks", Value: func(_ float64, x []float64) float64 {
		for i := range w.peaks {
			w.peaks[i] = math.Max(w.peaks[i], r.assembly.RowTemp(i, x))
		}
		return -1 // never happens: it only looks
	}}}
	for i, b := range bounds {
		events = append(events, solver.Event{Name: boundEvent + strconv.Itoa(i), Value: func(_ float64, x []float64) float64 {
			if math.IsNaN(b.temp) || math.IsInf(b.temp, 0) {
				return -1
			}
			// A hair before it, so that a limit at which the soak itself ends counts.
			return r.assembly.RowTemp(b.row, x) - b.temp + 1e-6
		}})
	}
	return w, events
}

const boundEvent = "bound "

// read takes over when the bounds were passed.
func (w *watched) read(hits []solver.EventHit) {
	for _, hit := range hits {
		if number, ok := strings.CutPrefix(hit.Name, boundEvent); ok {
			if i, err := strconv.Atoi(number); err == nil {
				w.passed[i] = hit.Time
			}
		}
	}
}

// peak is the highest temperature of a row, K.
func (w *watched) peak(row int) float64 { return w.peaks[row] }

func (r *run) run(ctx context.Context, until float64, times []float64, progress func(float64), events ...solver.Event) (*solver.SoakResult, error) {
	opt := solver.SoakOptions{Start: r.start, Until: until, Times: times,
		Breaks: breaksBefore(r.stack.Supply, until), Events: append([]solver.Event{r.ceilings()}, events...)}
	if progress != nil {
		opt.Progress = func(t float64) { progress(t / until) }
	}
	res, err := r.soaker.Run(ctx, opt)
	if err != nil {
		if ctx.Err() != nil {
			return nil, err
		}
		return nil, &NoAnswerError{Text: "no answer: " + err.Error(), Err: err}
	}
	return res, nil
}

func breaksBefore(s model.Supply, until float64) []float64 {
	var out []float64
	for _, b := range s.Breaks() {
		if b < until {
			out = append(out, b)
		}
	}
	return out
}

// settling soaks until settled and notes when the terminal that ends hottest
// has 90 % and 99 % of its way behind it. The share of the way means something
// only under one current.
func (r *run) settling(ctx context.Context, out *Soak) (end float64, err error) {
	hot, err := r.final.hottest()
	if err != nil {
		return 0, err
	}
	out.Final = temp(r.final.temp(hot))
	events := []solver.Event{{Name: "settled", Rate: settledRate, Stop: true}}
	steady := len(r.stack.Supply.Breaks()) == 0
	from, to := r.assembly.RowTemp(hot, r.start), r.final.temp(hot)
	if way := to - from; steady && math.Abs(way) > 0.1 {
		for name, share := range map[string]float64{"90": 0.90, "99": 0.99} {
			events = append(events, solver.Event{Name: name, Value: func(_ float64, x []float64) float64 {
				return (r.assembly.RowTemp(hot, x)-from)/way - share
			}})
		}
		sort.SliceStable(events, func(i, j int) bool { return events[i].Name < events[j].Name })
	}
	res, err := r.run(ctx, longestSoak, nil, nil, events...)
	if err != nil {
		return 0, err
	}
	for _, hit := range res.Events {
		switch hit.Name {
		case "90":
			out.To90 = hit.Time
		case "99":
			out.To99 = hit.Time
		case "settled":
			out.Settled = hit.Time
		}
	}
	if steady && out.To99 == 0 && out.Settled > 0 {
		// Settled before: go on to the 99 %.
		if out.To99, err = r.passing(ctx, hot, from+0.99*(to-from), to > from); err != nil {
			return 0, err
		}
	}
	return math.Max(res.End, 60), nil
}

// passing is when a row reaches a level, 0 where it does not.
func (r *run) passing(ctx context.Context, row int, level float64, upwards bool) (float64, error) {
	sign := 1.0
	if !upwards {
		sign = -1
	}
	res, err := r.run(ctx, longestSoak, nil, nil, solver.Event{Name: "level", Stop: true,
		Value: func(_ float64, x []float64) float64 { return sign * (r.assembly.RowTemp(row, x) - level) }})
	if err != nil {
		return 0, err
	}
	for _, hit := range res.Events {
		if hit.Name == "level" {
			return hit.Time, nil
		}
	}
	return 0, nil
}

// roundTimes are the steps between rows that a person would choose, s.
var roundTimes = []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 43200, 86400}

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

// fill copies the states at the rows' times into series.
func (s *Soak) fill(r *run, res *solver.SoakResult) {
	s.Times = res.Times
	for _, t := range res.Times {
		s.Currents = append(s.Currents, r.stack.Supply.Current(t))
	}
	for _, row := range r.places {
		series := Series{Name: r.names[row], Terminal: r.assembly.Rows[row].Terminal}
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
	air := stack.Surroundings.Air
	hot := likely.assembly.HottestTerminal(res.X)
	if hot < 0 {
		return &NoAnswerError{Text: "the stack has no terminal: there is nothing that a thermocouple could sit on"}
	}
	at := likely.assembly.RowTemp(hot, res.X)
	s.Hottest = Span{Place: likely.names[hot], Temp: temp(at), Rise: at - air}
	careful, _, err := endOf(ctx, sc, stack, model.Careful, s.Until)
	if err != nil {
		return err
	}
	s.Hottest.Careful = temp(careful)
	careless, peaks, err := endOf(ctx, sc, stack, model.Careless, s.Until)
	var none *NoAnswerError
	switch {
	case errors.As(err, &none):
		s.Hottest.CarelessEnds = none.Text
		peaks = func(int) float64 { return math.Inf(1) }
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
		c := Crossing{Margin: b.judge(likely.names[b.row], seen.peak(b.row), peaks(b.row))}
		if c.Time, c.Reached = seen.passed[i]; c.Reached {
			c.Verdict = Passed
		}
		s.Limits = append(s.Limits, c)
	}
	if likely.final != nil {
		s.Warnings = append(s.Warnings, warnings(likely.final)...)
	}
	return nil
}

// endOf soaks at another condition: the hottest terminal at the end, and the
// highest temperature of each row.
func endOf(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, c model.Condition, until float64) (float64, func(int) float64, error) {
	r, err := newRun(ctx, sc, stack, c)
	if err != nil {
		return 0, nil, err
	}
	seen, events := r.watch(nil)
	res, err := r.run(ctx, until, nil, nil, events...)
	if err != nil {
		return 0, nil, err
	}
	if res.End < until {
		return 0, nil, &NoAnswerError{Text: fmt.Sprintf("a part passes the temperature up to which its figures hold after %.0f s", res.End)}
	}
	return r.assembly.RowTemp(r.assembly.HottestTerminal(res.X), res.X), seen.peak, nil
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
