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

// This file finds the settled state of a scenario under one condition, and
// says in words why there is none.

// NoAnswerError says that a question has no answer, or that none was found,
// in words for the user.
type NoAnswerError struct {
	Text string
	Err  error
}

func (e *NoAnswerError) Error() string { return e.Text }
func (e *NoAnswerError) Unwrap() error { return e.Err }

// state is a stack at a settled state. Its load and its air do not change with
// time, so that it is read at the time 0.
type state struct {
	stack    *model.Stack
	assembly *model.Assembly
	x        []float64
	result   *solver.SteadyResult
}

// current is what flows through the stack, or through all its draws together, A.
func (s *state) current() float64 { return currentOf(s.stack, s.assembly, 0, s.x) }

// temp is the temperature of a row, K.
func (s *state) temp(row int) float64 { return s.assembly.RowTemp(row, s.x) }

// hottest is the row of the hottest terminal.
func (s *state) hottest() (int, error) {
	row := s.assembly.HottestTerminal(s.x)
	if row < 0 {
		return 0, &NoAnswerError{Text: "the stack has no terminal: there is nothing that a thermocouple could sit on"}
	}
	return row, nil
}

// guessRise is where a search starts, K above the air: within the rises that
// people build for, and away from zero, where still air has no slope.
const guessRise = 30

// settle solves for the lasting state of a stack whose load and air do not change.
func settle(ctx context.Context, stack *model.Stack, c model.Condition, mesh model.Mesh) (*state, error) {
	return settleFrom(ctx, stack, c, mesh, nil)
}

// settleFrom is settle with a state near by, of a stack with as many unknowns, to
// search from.
func settleFrom(ctx context.Context, stack *model.Stack, c model.Condition, mesh model.Mesh, near *state) (*state, error) {
	a, err := stack.Assemble(c, mesh)
	if err != nil {
		return nil, err
	}
	var start []float64
	if near != nil && len(near.x) == a.Network.Unknowns() {
		start = near.x
	} else {
		start = warmed(a, guessRise)
	}
	r, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: start, Ceilings: a.Network.Ceilings()})
	if err != nil {
		return nil, noAnswer(stack, a, err)
	}
	return &state{stack: stack, assembly: a, x: r.X, result: r}, nil
}

// warmed is a state at one rise above the air, K, with the currents that flow
// there.
func warmed(a *model.Assembly, rise float64) []float64 {
	x := a.Start(nil)
	for i := range a.Network.Nodes() {
		x[i] += rise
	}
	connect(a, 0, x)
	return x
}

// connect fills in the currents of a state from its temperatures. Where a draw
// of power finds none, those without it are filled in, and the search itself
// tells how much power has a state.
func connect(a *model.Assembly, t float64, x []float64) {
	if a.Network.Unknowns() > a.Network.Nodes() {
		_ = a.Network.Connect(t, x)
	}
}

// noAnswer puts the solver's error into words.
func noAnswer(stack *model.Stack, a *model.Assembly, err error) error {
	var ceiling *solver.CeilingError
	var fold *solver.FoldError
	switch {
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.As(err, &ceiling), errors.As(err, &fold):
		if gives := circuitGives(stack, a, 0, warmed(a, 0)); gives < 1 {
			return noPower(stack, a, err, gives)
		}
	}
	switch {
	case ceiling != nil:
		return &NoAnswerError{Err: err, Text: fmt.Sprintf(
			"no lasting state below %.0f °C at %s: %s passes the temperature up to which its figures hold; highest %s that has one: %s",
			ceiling.Ceiling-celsius, loadText(stack, 1), a.Network.NodeName(nodeID(ceiling.Node)), loadName(stack), loadText(stack, ceiling.Load)) + fuseOpens(stack, a)}
	case fold != nil:
		why := "the heat made grows faster than the heat lost"
		if matched(stack, a, fold) {
			why = circuitFold
		}
		return &NoAnswerError{Err: err, Text: fmt.Sprintf("no lasting state at %s: %s; highest %s that has one: %s",
			loadText(stack, 1), why, loadName(stack), loadText(stack, fold.Load)) + fuseOpens(stack, a)}
	}
	return &NoAnswerError{Err: err, Text: "no answer: the search for the lasting state found none (" + err.Error() + ")"}
}

// noPower says that no current gives the power that is drawn, be the stack as cold
// as its air, and which power has a lasting state.
func noPower(stack *model.Stack, a *model.Assembly, err error, gives float64) error {
	text := fmt.Sprintf("no lasting state at %s: no current gives that power, for cold the circuit ends at %s, where %s",
		loadText(stack, 1), loadText(stack, gives), circuitFold)
	var ceiling *solver.CeilingError
	var fold *solver.FoldError
	switch {
	case errors.As(err, &ceiling):
		text += fmt.Sprintf("; highest power that has one: %s, at which %s reaches %.0f °C, up to which its figures hold",
			loadText(stack, ceiling.Load), a.Network.NodeName(nodeID(ceiling.Node)), ceiling.Ceiling-celsius)
	case errors.As(err, &fold):
		text += "; highest power that has one: " + loadText(stack, fold.Load)
	}
	return &NoAnswerError{Err: err, Text: text}
}

// nearHalf is how near to half of its voltage at rest a draw stands where the
// circuit alone sets the most power: at the fold of P = V (E − V)/R it is half
// exactly, and where the resistance grows with the heat the fold comes before
// half of it is reached.
const nearHalf = 0.55

// circuitFold says that the circuit sets the most power and no temperature.
const circuitFold = "half of the voltage is lost in the source and on the way to what draws the power"

// matched says whether a fold is that of the circuit: a source gives no more
// than E²/4R.
func matched(stack *model.Stack, a *model.Assembly, fold *solver.FoldError) bool {
	if !powered(stack) || len(fold.X) != a.Network.Unknowns() {
		return false
	}
	rest := slices.Clone(fold.X)
	a.Network.SetLoad(0)
	err := a.Network.Connect(0, rest)
	a.Network.SetLoad(1)
	if err != nil {
		return false
	}
	for _, d := range a.Draws {
		if a.Network.ReadDraw(d, 0, fold.X).Voltage < nearHalf*a.Network.ReadDraw(d, 0, rest).Voltage {
			return true
		}
	}
	return false
}

// circuitGives is the share of its power that a stack's circuit gives at the
// temperatures of a state, 1 where it gives all.
func circuitGives(stack *model.Stack, a *model.Assembly, t float64, x []float64) float64 {
	n := a.Network.Clone()
	y := slices.Clone(x)
	if !powered(stack) || n.Connect(t, y) == nil {
		return 1
	}
	gives, refuses := 0.0, 1.0
	for range 30 {
		half := (gives + refuses) / 2
		n.SetLoad(half)
		if n.Connect(t, y) == nil {
			gives = half
		} else {
			refuses = half
		}
	}
	return gives
}

// tooWeak says that a circuit does not give the power that is drawn at a time, nil
// where it does at the temperatures of a state.
func tooWeak(stack *model.Stack, a *model.Assembly, t float64, x []float64) error {
	share := circuitGives(stack, a, t, x)
	if share == 1 {
		return nil
	}
	return &NoAnswerError{Text: fmt.Sprintf("the circuit does not give %s W: as warm as it begins it ends at %s W, for %s",
		figure(loadAt(stack, t)), figure(share*loadAt(stack, t)), circuitFold)}
}

// fuseOpens adds that a fuse would end it before.
func fuseOpens(stack *model.Stack, a *model.Assembly) string {
	if len(overloaded(stack, a, 0, warmed(a, 0))) == 0 {
		return ""
	}
	return "; above its rating a fuse opens sooner or later, whatever that figure says"
}

// overloaded warns of each fuse that carries more than its rating at a state.
func overloaded(stack *model.Stack, a *model.Assembly, t float64, x []float64) []string {
	var out []string
	for i, p := range stack.Parts {
		f, ok := p.(*model.Fuse)
		if !ok {
			continue
		}
		if current := partCurrent(a, i, t, x); current > f.Rated {
			out = append(out, fmt.Sprintf(
				"%s carries %s A, %.0f %% of its rating: it may open, and nothing here says when; its maker's time-current curve does",
				f.Name(), figure(current), 100*current/f.Rated))
		}
	}
	return out
}

// partCurrent is the largest current in any row of a part at a state, A.
func partCurrent(a *model.Assembly, part int, t float64, x []float64) float64 {
	most := 0.0
	for i, r := range a.Rows {
		if r.Part == part {
			most = max(most, math.Abs(a.RowCurrent(i, t, x)))
		}
	}
	return most
}

// lastBreak is the time, s, from which all that drives a stack stays as it is.
func lastBreak(stack *model.Stack) float64 {
	breaks := stack.Breaks()
	if len(breaks) == 0 {
		return 0
	}
	return breaks[len(breaks)-1]
}

// resolved makes the stack of a scenario.
func resolved(sc *scenarios.Scenario, vary map[string]float64) (*model.Stack, error) {
	stack, err := sc.Stack(vary)
	if err == nil && stack.Supply == nil {
		stack.Supply = model.Constant(0) // all that flows is drawn
	}
	return stack, err
}

// conditions are what every result says of the file; the stack does not change.
func conditions(sc *scenarios.Scenario, stack *model.Stack, current float64) Conditions {
	c := Conditions{
		Title: stack.Title, File: sc.Name, Current: current,
		Air: temp(stack.Surroundings.Air), Altitude: stack.Surroundings.Altitude,
		TempUnit: sc.File.Air.Unit, Ripple: sc.File.Ripple.Value,
	}
	if powered(stack) {
		c.Power = loadAt(stack, 0)
	}
	for _, item := range sc.File.Path {
		torques := slices.Clone(item.Nuts)
		if item.Nut.Set {
			torques = append(torques, item.Nut)
		}
		if len(torques) > 0 {
			c.TorqueUnit = torques[0].Unit
			break
		}
	}
	return c
}

// conditions are those of a settled state.
func (s *state) conditions(sc *scenarios.Scenario) Conditions {
	c := conditions(sc, s.stack, s.current())
	for i, d := range s.stack.Draws {
		if d.Power != nil {
			c.Voltage = s.assembly.Network.ReadDraw(s.assembly.Draws[i], 0, s.x).Voltage
			break
		}
	}
	return c
}
