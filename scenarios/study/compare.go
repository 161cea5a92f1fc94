package study

import (
	"context"
	"errors"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file compares stacks: each at its largest current, left on, and all
// under the same conditions.

// Candidate is a scenario with what outputs call it.
type Candidate struct {
	Label    string
	Scenario *scenarios.Scenario
}

// RunCompare holds stacks side by side. A schedule of current is taken at its
// largest value, left on. The verdict rests on the same conditions in both
// stacks of a pair (grid.go), not on the likely values alone.
//
// A stack without a lasting state keeps its place in the result. Errors:
// *InputError for fewer than two stacks, *NoAnswerError where none has a lasting
// state, else those of RunSteady.
func RunCompare(ctx context.Context, candidates []Candidate) (*Compare, error) {
	if len(candidates) < 2 {
		return nil, &InputError{Text: "a comparison needs at least two stacks"}
	}
	all := make([]*contender, len(candidates))
	err := abreast(len(candidates), func(i int) error {
		var err error
		all[i], err = newContender(ctx, candidates[i])
		return err
	})
	if err != nil {
		return nil, err
	}
	out := &Compare{Against: []Against{}, Places: []string{}, Warnings: []string{}, Tried: gridSize}
	var lasting []*contender
	until := quarterHour
	for _, c := range all {
		if c.state != nil {
			lasting = append(lasting, c)
			until = math.Max(until, c.until)
		}
	}
	if len(lasting) == 0 {
		return nil, &NoAnswerError{Text: "none of the stacks has a lasting state: " + all[0].out.Ends}
	}
	if out.Times, err = rowTimes(until, 0, []float64{quarterHour}); err != nil {
		return nil, err
	}
	if err := abreast(len(lasting), func(i int) error { return lasting[i].overlay(ctx, out.Times) }); err != nil {
		return nil, err
	}
	out.Warnings = append(out.Warnings, takenAs(all)...)
	for _, c := range all {
		out.Columns = append(out.Columns, c.out)
		for _, w := range c.warnings {
			out.Warnings = append(out.Warnings, c.out.Label+": "+w)
		}
	}
	out.Places = sharedPlaces(out.Columns)
	out.verdict(lasting)
	out.Against = make([]Against, len(lasting)-1)
	err = abreast(len(lasting)-1, func(i int) error {
		var err error
		out.Against[i], err = against(ctx, lasting[0], lasting[i+1])
		return err
	})
	return out, err
}

// quarterHour, s, is when people look at a stack that was switched on.
const quarterHour = 15 * 60.0

// contender is a stack on its way into a comparison.
type contender struct {
	sc       *scenarios.Scenario
	changing *model.Stack // as its file has it
	state    *state       // settled, likely; nil where there is none
	side     *side
	grid     []float64
	soak     *run
	until    float64 // s, when it has settled
	warnings []string
	taken    []string // what was made of a load or an air that changes
	out      Column
}

func newContender(ctx context.Context, from Candidate) (*contender, error) {
	sc := from.Scenario
	changing, err := resolved(sc, nil)
	if err != nil {
		return nil, err
	}
	stack := still(changing)
	c := &contender{sc: sc, changing: changing, taken: unchanging(changing, stack), out: Column{Label: from.Label, Margins: []Margin{}, Places: []PlaceTemp{}, Soak: nil,
		Conditions: conditions(sc, stack, ownCurrent(stack)), Stated: stated(sc)}}
	c.state, err = settle(ctx, stack, model.Likely, model.Mesh{})
	var none *NoAnswerError
	if errors.As(err, &none) {
		c.out.Ends = none.Text
		cold, err := atAir(stack)
		if err != nil {
			return nil, err
		}
		c.out.Sizing = sizing(sc, cold)
		return c, nil
	}
	if err != nil {
		return nil, err
	}
	for _, part := range []func(context.Context) error{c.settled, c.times3, c.largest, c.fromCold} {
		if err := part(ctx); err != nil {
			return nil, err
		}
	}
	if c.grid, err = grid(ctx, sc, c.state); err != nil {
		return nil, err
	}
	c.side, err = newSide(sc, c.state)
	return c, err
}

// leftOn is the stack of a scenario at its largest load for good.
func leftOn(sc *scenarios.Scenario, vary map[string]float64) (*model.Stack, error) {
	stack, err := resolved(sc, vary)
	if err != nil {
		return nil, err
	}
	return still(stack), nil
}

// takenAs says what was made of loads and airs that change, once where it is the
// same of all.
func takenAs(all []*contender) []string {
	alike := !slices.ContainsFunc(all, func(c *contender) bool { return !slices.Equal(c.taken, all[0].taken) })
	var out []string
	for _, c := range all {
		for _, text := range c.taken {
			if alike {
				text = "each: " + text
			} else {
				text = c.out.Label + ": " + text
			}
			out = append(out, text)
		}
		if alike {
			break
		}
	}
	return out
}

// atAir is a stack that was never switched on.
func atAir(stack *model.Stack) (*state, error) {
	a, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return nil, err
	}
	return &state{stack: stack, assembly: a, x: a.Start(nil)}, nil
}

// settled reads the settled state and its range.
func (c *contender) settled(ctx context.Context) error {
	s := c.state
	hot, err := s.hottest()
	if err != nil {
		return err
	}
	names := rowNames(s.assembly)
	air := s.stack.Surroundings.Air
	out := &c.out
	out.Conditions = s.conditions(c.sc)
	out.Hottest = Span{Place: names[hot], Temp: temp(s.temp(hot)), Rise: s.temp(hot) - air}
	careful, err := settle(ctx, s.stack, model.Careful, model.Mesh{})
	if err != nil {
		return err
	}
	out.Hottest.Careful = temp(careful.temp(careful.assembly.HottestTerminal(careful.x)))
	careless, err := settle(ctx, s.stack, model.Careless, model.Mesh{})
	var none *NoAnswerError
	carelessTemp := func(int) float64 { return math.Inf(1) }
	switch {
	case errors.As(err, &none):
		out.Hottest.CarelessEnds = none.Text
	case err != nil:
		return err
	default:
		out.Hottest.Careless = temp(careless.temp(careless.assembly.HottestTerminal(careless.x)))
		carelessTemp = careless.temp
	}
	_, out.Margins = tightest(bounds(c.sc, s.assembly, air), func(i int) string { return names[i] }, s.temp, carelessTemp)
	out.Tightest = least(out.Margins)
	ways := c.sc.Ways()
	_, out.Spreads = branchLines(s, ways)
	of := rowWays(s, ways)
	for _, i := range rowOrder(s, ways) {
		if r := s.assembly.Rows[i]; r.Kind != model.JointRow && r.Kind != model.BodyRow {
			p := PlaceTemp{Name: names[i], Terminal: r.Terminal, Temp: temp(s.temp(i))}
			if of[i] >= 0 {
				p.Way = ways[of[i]].Name
			}
			out.Places = append(out.Places, p)
		}
	}
	out.Drop, out.Heat = s.assembly.Drop(0, s.x), s.result.Flow.Made
	out.Sizing = sizing(c.sc, s)
	out.Touch = touchCaution(s.temp(hot))
	c.warnings = warnings(s)
	return nil
}

// threeTimes is how much worse the worst joint is made: what people meet most
// is one bad joint in a stack that is cold otherwise.
const threeTimes = 3

// times3 finds the joint that does most harm when it is three times as bad.
func (c *contender) times3(ctx context.Context) error {
	s := c.state
	most := math.Inf(-1)
	for j := range s.stack.Joints {
		stack := *s.stack
		stack.Joints = slices.Clone(stack.Joints)
		stack.Joints[j].WorseBy = threeTimes
		worse := &WorseJoint{Joint: stack.Joints[j].Name}
		bad, err := settle(ctx, &stack, model.Likely, model.Mesh{})
		var none *NoAnswerError
		switch {
		case errors.As(err, &none):
			worse.Ends = none.Text
		case err != nil:
			return err
		default:
			hot := bad.assembly.HottestTerminal(bad.x)
			names := rowNames(bad.assembly)
			worse.Place, worse.Temp = names[hot], temp(bad.temp(hot))
			_, margins := tightest(bounds(c.sc, bad.assembly, stack.Surroundings.Air), func(i int) string { return names[i] }, bad.temp, bad.temp)
			if m := least(margins); m != nil && m.Verdict == Passed {
				worse.Passing = m
			}
		}
		at := float64(worse.Temp)
		if worse.Ends != "" {
			at = math.Inf(1)
		}
		if at > most {
			most, c.out.Worst = at, worse
		}
	}
	return nil
}

func (c *contender) largest(ctx context.Context) error {
	current, by, err := Rating(ctx, c.sc, model.Likely)
	var none *NoAnswerError
	switch {
	case errors.As(err, &none):
		return nil
	case err != nil:
		return err
	}
	c.out.Largest = &Bearing{Current: current, By: by}
	return nil
}

// fromCold soaks until settled, from the temperature of the air.
func (c *contender) fromCold(ctx context.Context) error {
	s := c.state
	r := &run{stack: s.stack, assembly: s.assembly, soaker: solver.NewSoaker(s.assembly.Network), start: s.assembly.Start(nil), final: s}
	c.soak = r
	hot, _ := s.hottest()
	from, to := s.stack.Surroundings.Air, s.temp(hot)
	level := from + 0.9*(to-from)
	sign := math.Copysign(1, to-from)
	res, err := r.run(ctx, longestSoak, nil, nil,
		solver.Event{Name: "90", Value: func(_ float64, x []float64) float64 { return sign * (s.assembly.RowTemp(hot, x) - level) }},
		solver.Event{Name: "settled", Rate: settledRate, Stop: true})
	if err != nil {
		return err
	}
	c.until = res.End
	for _, hit := range res.Events {
		if hit.Name == "90" {
			c.out.To90 = hit.Time
		}
	}
	if c.out.To90 == 0 && to != from {
		if c.out.To90, err = r.passing(ctx, hot, level, to > from); err != nil {
			return err
		}
	}
	return nil
}

// overlay soaks again over the times that all have in common.
func (c *contender) overlay(ctx context.Context, times []float64) error {
	res, err := c.soak.run(ctx, times[len(times)-1], times, nil)
	if err != nil {
		return err
	}
	for i, x := range res.States {
		// The hottest terminal at the time, which need not be the settled one.
		hot := temp(c.state.assembly.RowTemp(c.state.assembly.HottestTerminal(x), x))
		c.out.Soak = append(c.out.Soak, hot)
		if res.Times[i] == quarterHour {
			c.out.After15 = hot
		}
	}
	return nil
}

// stated is what a file says of price, size and mass.
func stated(sc *scenarios.Scenario) []Stated {
	var out []Stated
	for _, item := range sc.File.Path {
		if item.Price.Set || item.Size.Set || item.Mass.Set {
			name := item.Kind
			if item.Label.Set {
				name = item.Label.Text
			}
			out = append(out, Stated{Part: name, Price: item.Price.Text, Size: item.Size.Text, Mass: item.Mass.Text})
		}
	}
	return out
}

// sharedPlaces are the places that more than one stack has.
func sharedPlaces(columns []Column) []string {
	count := map[string]int{}
	for _, c := range columns {
		for _, p := range c.Places {
			count[p.Name]++
		}
	}
	out := []string{}
	for _, c := range columns {
		for _, p := range c.Places {
			if count[p.Name] > 1 {
				out = append(out, p.Name)
				count[p.Name] = 0
			}
		}
	}
	return out
}
