package study

import (
	"context"
	"errors"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file follows currents above the continuous one until the first limit
// is passed.

// shares of the largest continuous current at which its time curve is worked
// out: close to it the times grow without end, far above it they are seconds.
var shares = []float64{1.0005, 1.001, 1.002, 1.005, 1.01, 1.02, 1.035, 1.07, 1.15, 1.35, 1.7, 2.4, 3.5, 4, 6, 7, 8, 10, 13, 16, 20, 25, 32, 40}

// shown are the shares near which a table has a round current.
var shown = []float64{1.05, 1.1, 1.25, 1.5, 2, 3, 5}

const (
	// briefest, s, is where the curve ends: a part that warms within less is no
	// longer a lump at one temperature.
	briefest = 1.0
)

// overTime adds the time curve, the fuses' own and the currents asked for.
func (out *Rate) overTime(ctx context.Context, sc *scenarios.Scenario, likely *borne, asked []float64) error {
	base, err := newRacer(ctx, sc, likely)
	var none *NoAnswerError
	if errors.As(err, &none) {
		out.Warnings = append(out.Warnings, "no times to a limit: "+none.Text)
		base, err = nil, nil
	}
	if err != nil {
		return err
	}
	if base != nil {
		out.StartText = base.startText
		if err := out.timeCurve(ctx, base); err != nil {
			return err
		}
		if out.Fuses, err = fuseCurves(ctx, sc, likely, base, out.Likely.load()); err != nil {
			return err
		}
	}
	out.Currents = make([]AtCurrent, len(asked))
	return abreast(len(asked), func(i int) error {
		at, err := atCurrent(ctx, sc, likely.stack, asked[i])
		// A power asks for more current as its voltage falls, so that one current
		// tells nothing of the time.
		if err == nil && base != nil && !powered(likely.stack) && asked[i] > out.Likely.Current {
			var t TimeRating
			if t, _, err = base.clone().toLimit(ctx, asked[i]); err == nil {
				at.Passed = t.Time
			}
		}
		out.Currents[i] = at
		return err
	})
}

// racer soaks a stack from its start until the first limit is passed. It is
// used by one goroutine.
type racer struct {
	*borne
	net       *network.Network
	soaker    *solver.Soaker
	start     []float64
	startText string
	ceilings  []float64
}

func newRacer(ctx context.Context, sc *scenarios.Scenario, b *borne) (*racer, error) {
	r := &racer{borne: b, net: b.assembly.Network, soaker: solver.NewSoaker(b.assembly.Network), ceilings: b.assembly.Network.Ceilings()}
	start := sc.File.Start
	switch {
	case !start.Set:
		r.startText = "all at the air's temperature"
	case start.Terminal:
		r.startText = "the settled profile scaled as the file says"
	default:
		r.startText = "all at the temperature that the file says"
	}
	from := &run{stack: b.stack, assembly: b.assembly}
	var err error
	r.start, err = from.startState(ctx, sc, model.Likely)
	return r, err
}

// clone is a racer for another goroutine.
func (r *racer) clone() *racer {
	c := *r
	c.net = r.net.Clone()
	c.soaker = solver.NewSoaker(c.net)
	return &c
}

// over is how far a state is past the first of the limits or of the bounds of
// the materials' figures, K, and which of the limits that is, −1 for a bound.
func (r *racer) over(x []float64) (worst float64, which int) {
	worst, which = math.Inf(-1), -1
	for k, l := range r.known {
		if d := r.assembly.RowTemp(l.row, x) - l.temp; d > worst {
			worst, which = d, k
		}
	}
	for i, c := range r.ceilings {
		if d := x[i] - c; d > worst {
			worst, which = d, -1
		}
	}
	return max(worst, -maxLeft), which
}

// toLimit is when a load, A or W, passes the first limit; false where it never
// does.
func (r *racer) toLimit(ctx context.Context, load float64) (TimeRating, bool, error) {
	out := TimeRating{Current: load}
	x, gaveOut := r.start, false
	if d, _ := r.over(x); d < 0 {
		r.ask(load)
		if !r.flows() {
			return out, false, nil // more than the circuit gives at all
		}
		events := []solver.Event{{
			Name: "limit", Stop: true, Value: func(_ float64, x []float64) float64 { d, _ := r.over(x); return d }}}
		if powered(r.stack) {
			events = append(events, solver.Event{Name: circuitEvent, Stop: true, Value: sagging(r.on(), r.start)})
		}
		res, err := r.soaker.Run(ctx, solver.SoakOptions{Start: r.start, Until: longestSoak, Events: events})
		switch {
		case ctx.Err() != nil:
			return out, false, ctx.Err()
		case err != nil:
			return out, false, &NoAnswerError{Err: err, Text: "no answer: " + err.Error()}
		case len(res.Events) == 0:
			return out, false, nil
		}
		out.Time, x = res.End, res.X
		gaveOut = res.Events[len(res.Events)-1].Name == circuitEvent
	}
	if powered(r.stack) {
		out.Power, out.Current = load, currentOf(r.stack, r.on(), out.Time, x)
	}
	if gaveOut {
		out.Limit = "the circuit does not give it any more"
		return out, true, nil
	}
	out.Place, out.Limit = "", "end of a material's figures"
	if _, k := r.over(x); k >= 0 {
		row := r.known[k].row
		out.Place, out.Limit = r.names[row], r.known[k].name
		out.element = r.assembly.Rows[row].Kind == model.ElementRow
	}
	return out, true, nil
}

// ask sets the load, A or W. All draws keep their proportion.
func (r *racer) ask(load float64) {
	if len(r.assembly.Draws) == 0 {
		r.net.SetSupply(network.Constant(load), r.stack.Ripple)
		return
	}
	r.net.SetLoad(load / r.reference)
}

// on is the assembly with the network of this racer.
func (r *racer) on() *model.Assembly {
	a := *r.assembly
	a.Network = r.net
	return &a
}

// flows says whether the circuit gives the load that is asked for at the start.
func (r *racer) flows() bool {
	if len(r.assembly.Draws) == 0 {
		return true
	}
	return r.net.Connect(0, slices.Clone(r.start)) == nil
}

// timeCurve soaks at loads above the largest continuous one.
func (out *Rate) timeCurve(ctx context.Context, base *racer) error {
	largest := out.Likely.load()
	round := map[float64]bool{}
	var loads []float64
	for _, s := range shown {
		c := roundUp(s * largest)
		round[c] = true
		loads = append(loads, c)
	}
	for _, s := range shares {
		loads = append(loads, s*largest)
	}
	slices.Sort(loads)
	loads = slices.Compact(loads)
	if largest == 0 {
		return nil // above a limit without any current
	}
	all := make([]TimeRating, len(loads))
	reached := make([]bool, len(loads))
	err := abreast(len(loads), func(i int) (err error) {
		all[i], reached[i], err = base.clone().toLimit(ctx, loads[i])
		var none *NoAnswerError
		if powered(base.stack) && errors.As(err, &none) {
			// The circuit gives that power no longer once it is warm.
			reached[i], err = false, nil
		}
		return err
	})
	if err != nil {
		return err
	}
	for i, t := range all {
		if !reached[i] || loads[i] <= largest || (t.Time < briefest && t.Time > 0) {
			continue
		}
		t.Round = round[loads[i]]
		out.OverTime = append(out.OverTime, t)
	}
	return nil
}

// roundUp rounds up to two digits.
func roundUp(x float64) float64 {
	if x == 0 {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Ceil(x/unit-1e-9) * unit
}

// fuseCurves sets the melting of each fuse beside the first limit passed. Where
// the current divides, the load is taken at which the fuse carries the current
// of a point while the stack is cold.
func fuseCurves(ctx context.Context, sc *scenarios.Scenario, likely *borne, base *racer, rated float64) ([]FuseCurve, error) {
	var out []FuseCurve
	for i, p := range likely.stack.Parts {
		if _, ok := p.(*model.Fuse); !ok {
			continue
		}
		melts := sc.File.Path[sc.PartItems[i]].Melts
		if len(melts) == 0 {
			continue
		}
		share := 1.0 // of the fuse in the load
		if len(likely.assembly.Draws) > 0 {
			share = partCurrent(likely.assembly, i, 0, likely.assembly.Start(nil)) / likely.reference
		}
		if powered(likely.stack) || !(share > 0) {
			continue
		}
		c := FuseCurve{Name: p.Name(), Points: make([]MeltPoint, len(melts))}
		if share != 1 {
			c.Share = share
		}
		err := abreast(len(melts), func(k int) error {
			c.Points[k] = MeltPoint{Current: melts[k].Current, Melts: melts[k].Time}
			load := melts[k].Current / share
			if load <= rated {
				return nil
			}
			t, reached, err := base.clone().toLimit(ctx, load)
			if reached {
				c.Points[k].Limit, c.Points[k].Element = t.Time, t.element
			}
			return err
		})
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

// carrying is a stack that carries a current, A, in all; draws keep their
// proportion, and one of power becomes one of current.
func carrying(stack *model.Stack, current float64) *model.Stack {
	if len(stack.Draws) == 0 || powered(stack) {
		s := *stack
		s.Supply, s.Draws = model.Constant(current), slices.Clone(stack.Draws)
		for i := range s.Draws {
			s.Draws[i].Current, s.Draws[i].Power = nil, nil // it takes the supply
		}
		return &s
	}
	stack, load := scalable(stack)
	return driven(stack, stack.Surroundings.Air, func(s model.Supply) model.Supply { return model.Scaled(s, current/load) })
}

// atCurrent settles the stack at one current, at the three conditions.
func atCurrent(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, current float64) (AtCurrent, error) {
	out := AtCurrent{Current: current}
	s := carrying(stack, current)
	var none *NoAnswerError
	likely, err := settle(ctx, s, model.Likely, model.Mesh{})
	if errors.As(err, &none) {
		out.None = none.Text
		return out, nil
	}
	if err != nil {
		return out, err
	}
	hot, err := likely.hottest()
	if err != nil {
		return out, err
	}
	names := rowNames(likely.assembly)
	out.Hottest = &Span{Place: names[hot], Temp: temp(likely.temp(hot)), Rise: likely.temp(hot) - s.Surroundings.Air}
	careful, err := settle(ctx, s, model.Careful, model.Mesh{})
	if err != nil {
		return out, err
	}
	cold, err := careful.hottest()
	if err != nil {
		return out, err
	}
	out.Hottest.Careful = temp(careful.temp(cold))
	careless, err := settle(ctx, s, model.Careless, model.Mesh{})
	worst := func(int) float64 { return math.Inf(1) }
	switch {
	case errors.As(err, &none):
		out.Hottest.CarelessEnds = none.Text
	case err != nil:
		return out, err
	default:
		row, err := careless.hottest()
		if err != nil {
			return out, err
		}
		out.Hottest.Careless = temp(careless.temp(row))
		worst = careless.temp
	}
	_, margins := tightest(bounds(sc, likely.assembly, s.Surroundings.Air), func(i int) string { return names[i] }, likely.temp, worst)
	out.Tightest = least(margins)
	return out, nil
}
