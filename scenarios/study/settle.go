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

// state is a stack at a settled state.
type state struct {
	stack    *model.Stack
	assembly *model.Assembly
	time     float64 // s, at which the supply was taken
	x        []float64
	result   *solver.SteadyResult
}

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

// settle solves for the lasting state of a stack at the supply of a time.
func settle(ctx context.Context, stack *model.Stack, c model.Condition, mesh model.Mesh, time float64) (*state, error) {
	a, err := stack.Assemble(c, mesh)
	if err != nil {
		return nil, err
	}
	current := stack.Supply.Current(time)
	guess := a.Start(nil)
	for i := range guess {
		guess[i] += guessRise
	}
	r, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: guess, Time: time, Ceilings: a.Network.Ceilings()})
	if err != nil {
		return nil, noAnswer(stack, a, current, err)
	}
	return &state{stack: stack, assembly: a, time: time, x: r.X, result: r}, nil
}

// noAnswer puts the solver's error into words.
func noAnswer(stack *model.Stack, a *model.Assembly, current float64, err error) error {
	var ceiling *solver.CeilingError
	var fold *solver.FoldError
	switch {
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.As(err, &ceiling):
		return &NoAnswerError{Err: err, Text: fmt.Sprintf(
			"no lasting state below %.0f °C at %.4g A: %s passes the temperature up to which its figures hold; highest current that has one: %.4g A",
			ceiling.Ceiling-celsius, current, a.Network.NodeName(nodeID(ceiling.Node)), ceiling.Load*current) + fuseOpens(stack, current)}
	case errors.As(err, &fold):
		return &NoAnswerError{Err: err, Text: fmt.Sprintf(
			"no lasting state at %.4g A: the heat made grows faster than the heat lost; highest current that has one: %.4g A",
			current, fold.Load*current) + fuseOpens(stack, current)}
	}
	return &NoAnswerError{Err: err, Text: "no answer: " + err.Error()}
}

// fuseOpens adds that a fuse would end it before.
func fuseOpens(stack *model.Stack, current float64) string {
	if len(overloaded(stack, current)) == 0 {
		return ""
	}
	return "; above its rating a fuse opens sooner or later, whatever that figure says"
}

// overloaded warns of each fuse that carries more than its rating.
func overloaded(stack *model.Stack, current float64) []string {
	var out []string
	for _, p := range stack.Parts {
		if f, ok := p.(*model.Fuse); ok && current > f.Rated {
			out = append(out, fmt.Sprintf(
				"%s carries %.4g A, %.0f %% of its rating: it may open, and nothing here says when; its maker's time-current curve does",
				f.Name(), current, 100*current/f.Rated))
		}
	}
	return out
}

// supplyEnd is the time from which the supply stays as it is.
func supplyEnd(s model.Supply) float64 {
	breaks := s.Breaks()
	if len(breaks) == 0 {
		return 0
	}
	return breaks[len(breaks)-1]
}

// supplyPeak is a time at which the supply is largest.
func supplyPeak(s model.Supply) float64 {
	best, time := s.Current(0), 0.0
	for _, b := range s.Breaks() {
		// A ramp is largest just before its end.
		for _, t := range []float64{math.Nextafter(b, 0), b} {
			if c := s.Current(t); c > best {
				best, time = c, t
			}
		}
	}
	return time
}

// conditions are what every result says of the file.
func conditions(sc *scenarios.Scenario, stack *model.Stack, current float64) Conditions {
	c := Conditions{
		Title: stack.Title, File: sc.Name, Current: current,
		Air: temp(stack.Surroundings.Air), Altitude: stack.Surroundings.Altitude,
		TempUnit: sc.File.Air.Unit, Ripple: sc.File.Ripple.Value,
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
