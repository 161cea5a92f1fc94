package study

import (
	"context"
	"errors"
	"fmt"
	"math"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file finds the currents that a stack bears for good: for each limit the
// one at which it just holds, and the one above which there is no lasting
// state.

// Rating is the largest continuous current, A, at which every limit of a
// scenario holds at one condition, in the air of the file, and the limit that
// binds there. Where several circuits draw currents it is all of them together,
// each in its proportion; where power is drawn it is the current that flows at
// the largest power. Limits that cannot be judged are left out: they are no pass.
// Where no limit is reached before the lasting states end, that end is the
// answer. Of the margin, what is left in careless assembly is not worked out.
//
// Its errors are those of RunSteady.
func Rating(ctx context.Context, sc *scenarios.Scenario, cond model.Condition) (current float64, by Margin, err error) {
	stack, err := leftOn(sc, nil)
	if err != nil {
		return 0, Margin{}, err
	}
	b, err := bear(ctx, sc, stack, cond, true)
	if err != nil {
		return 0, Margin{}, err
	}
	r := b.rated()
	return r.Current, r.By, nil
}

// borne is what a stack bears at one condition.
type borne struct {
	stack     *model.Stack
	assembly  *model.Assembly
	names     []string
	known     []bound
	unknown   []bound
	reference float64 // A, or W where power is drawn; loads are shares of it
	result    *solver.RateResult
}

// usualLoad, A or W, is scaled where the file's own is zero.
const usualLoad = 100

// scalable is a stack with a load that can be scaled, and that load.
func scalable(stack *model.Stack) (*model.Stack, float64) {
	if load := loadAt(stack, 0); load != 0 {
		return stack, load
	}
	return driven(stack, stack.Surroundings.Air, func(model.Supply) model.Supply { return model.Constant(usualLoad) }), usualLoad
}

// bear searches along the load of a stack that is left on, up to the first limit
// or to the end of the lasting states.
func bear(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, cond model.Condition, first bool) (*borne, error) {
	stack, reference := scalable(stack)
	a, err := stack.Assemble(cond, model.Mesh{})
	if err != nil {
		return nil, err
	}
	b := &borne{stack: stack, assembly: a, names: rowNames(a), reference: reference}
	var targets []solver.Target
	for _, l := range bounds(sc, a, stack.Surroundings.Air) {
		if !l.judgeable() {
			b.unknown = append(b.unknown, l)
			continue
		}
		b.known = append(b.known, l)
		targets = append(targets, solver.Target{Nodes: nodesOf(a, l.row), Temp: l.temp})
	}
	b.result, err = solver.NewSteadySolver(a.Network).Rate(ctx, solver.RateOptions{
		Start: a.Start(nil), Ceilings: a.Network.Ceilings(), Targets: targets, First: first})
	switch {
	case err == nil:
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return nil, err
	default:
		return nil, &NoAnswerError{Err: err, Text: "no answer: " + err.Error()}
	}
	return b, nil
}

// nodesOf are the nodes whose hottest is the temperature of a row.
func nodesOf(a *model.Assembly, row int) []int {
	var out []int
	for _, n := range a.Rows[row].Nodes {
		out = append(out, int(n))
	}
	return out
}

// rated is the largest current and what sets it.
func (b *borne) rated() Rated {
	if len(b.result.Reached) > 0 {
		return b.reached(b.result.Reached[0])
	}
	return b.end()
}

// reached is the current at which a limit just holds.
func (b *borne) reached(r solver.Reach) Rated {
	l := b.known[r.Target]
	by := l.judge(b.names[l.row], l.temp, math.Inf(1))
	out := b.at(r.Load, r.X)
	out.By, out.Set = by, ByLimit
	if r.Load == 0 {
		// The air alone may be above the limit.
		out.By = l.judge(b.names[l.row], b.assembly.RowTemp(l.row, r.X), math.Inf(1))
	}
	return out
}

// at is what flows at a share of the load with its state, and the hottest
// terminal there.
func (b *borne) at(load float64, x []float64) Rated {
	out := Rated{Current: load * b.reference}
	if powered(b.stack) {
		out.Power = out.Current
		b.assembly.Network.SetLoad(load)
		out.Current = currentOf(b.stack, b.assembly, 0, x)
		b.assembly.Network.SetLoad(1)
	}
	if row := b.assembly.HottestTerminal(x); row >= 0 {
		out.Place, out.Temp = b.names[row], temp(b.assembly.RowTemp(row, x))
	}
	return out
}

// end is where the lasting states end.
func (b *borne) end() Rated {
	var ceiling *solver.CeilingError
	var fold *solver.FoldError
	switch {
	case errors.As(b.result.End, &ceiling):
		out := b.at(ceiling.Load, ceiling.X)
		out.Set, out.By = ByCeiling, Margin{
			Place: b.assembly.Network.NodeName(nodeID(ceiling.Node)), Name: "end of the material's figures",
			Source: "figures of the material", Limit: temp(ceiling.Ceiling), Verdict: Holds}
		return out
	case errors.As(b.result.End, &fold):
		out := b.at(fold.Load, fold.X)
		out.Set = ByFold
		out.By = Margin{Place: out.Place, Name: "no lasting state beyond", Source: "heat balance", Limit: out.Temp, Verdict: Holds}
		return out
	}
	return Rated{}
}

// inAir is the stack in air of another temperature, K, and at another
// altitude, m. Walls that are warmer or colder than the air stay so by as much.
func inAir(stack *model.Stack, air, altitude float64) *model.Stack {
	s := *stack
	if s.Surroundings.Radiant != 0 {
		s.Surroundings.Radiant += air - s.Surroundings.Air
	}
	s.Surroundings.Air, s.Surroundings.Altitude = air, altitude
	return &s
}

// endText says in words how the lasting states end.
func (b *borne) endText(r Rated) string {
	load := fmt.Sprintf("%.4g A", r.Current)
	if r.Power > 0 {
		load = fmt.Sprintf("%.4g W (%.4g A)", r.Power, r.Current)
	}
	if r.Set == ByFold {
		why := "the heat made grows faster than the heat lost"
		var fold *solver.FoldError
		if errors.As(b.result.End, &fold) && matched(b.stack, b.assembly, fold) {
			why = circuitFold
		}
		return fmt.Sprintf("above %s there is no lasting state: %s", load, why)
	}
	return fmt.Sprintf("above %s the figures of a material hold no longer: %s passes %.0f °C",
		load, r.By.Place, float64(r.By.Limit)-celsius)
}

// judgeable is false for a limit that cannot be judged for want of data.
func (b bound) judgeable() bool { return !math.IsNaN(b.temp) && !math.IsInf(b.temp, 0) }
