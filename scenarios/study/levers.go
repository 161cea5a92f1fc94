package study

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// RunLevers answers what would cool the hottest terminal most, and what would
// hurt it most: each change by a realistic step, solved anew. No change goes
// beyond a torque that the file states, nor touches a fuse's rating or number.
//
// Its errors are those of RunSteady.
func RunLevers(ctx context.Context, sc *scenarios.Scenario) (*Levers, error) {
	stack, err := leftOn(sc, nil)
	if err != nil {
		return nil, err
	}
	base := newTrial(ctx, stack)
	if base.err != nil {
		return nil, base.err
	}
	likely := base.states[0]
	if likely == nil {
		return nil, base.none[0]
	}
	if base.states[1] == nil {
		return nil, base.none[1]
	}
	out := &Levers{
		Conditions: likely.conditions(sc),
		Warnings:   warnings(likely),
		Touch:      touchCaution(likely.temp(base.rows[0])),
	}
	names := rowNames(likely.assembly)
	out.Hottest = Span{Place: names[base.rows[0]], Temp: temp(base.temp(0)), Rise: base.temp(0) - stack.Surroundings.Air,
		Careful: temp(base.temp(1))}
	if base.states[2] != nil {
		out.Hottest.Careless = temp(base.temp(2))
	} else {
		out.Hottest.CarelessEnds = base.none[2].Text
	}
	for _, p := range stack.Parts {
		if _, ok := p.(*model.Fuse); ok {
			out.Fuses++
		}
	}
	if out.Sensitivities, err = sensitivities(likely, base.rows[0], names); err != nil {
		return nil, err
	}
	cool, hurt := possible(sc, likely)
	if out.Cool, err = out.try(ctx, sc, base, cool); err != nil {
		return nil, err
	}
	if out.Hurt, err = out.try(ctx, sc, base, hurt); err != nil {
		return nil, err
	}
	slices.SortStableFunc(out.Cool, func(a, b Lever) int { return byWorth(a, b) })
	slices.SortStableFunc(out.Hurt, func(a, b Lever) int { return byWorth(b, a) })
	return out, nil
}

// byWorth puts what cools most first, by the likely state and then by the
// careless one; what has no lasting state comes last.
func byWorth(a, b Lever) int {
	ends := func(l Lever) int {
		if l.Ends != "" {
			return 1
		}
		return 0
	}
	careless := func(l Lever) float64 {
		if l.Careless == nil {
			return 0
		}
		return *l.Careless
	}
	near := func(l Lever) float64 { return math.Round(l.Change / slight) }
	return cmp.Or(cmp.Compare(ends(a), ends(b)), cmp.Compare(near(a), near(b)), cmp.Compare(careless(a), careless(b)))
}

// slight, K: changes nearer to each other than this are told apart by what they
// do to careless assembly.
const slight = 0.01

// trial is a stack settled at the likely, careful and careless condition; a
// state is nil where there is no lasting one, which none then explains.
type trial struct {
	states [3]*state
	none   [3]*NoAnswerError
	rows   [3]int // the hottest terminals
	err    error
}

var conditionsTried = [3]model.Condition{model.Likely, model.Careful, model.Careless}

func newTrial(ctx context.Context, stack *model.Stack) trial {
	var t trial
	for i, c := range conditionsTried {
		s, err := settle(ctx, stack, c, model.Mesh{})
		if errors.As(err, &t.none[i]) {
			continue
		}
		if err == nil {
			t.rows[i], err = s.hottest()
		}
		if err != nil {
			t.err = err
			return t
		}
		t.states[i] = s
	}
	return t
}

func (t *trial) temp(i int) float64 { return t.states[i].temp(t.rows[i]) }

// try solves each change anew. Those that the stack cannot have are listed as
// left out.
func (out *Levers) try(ctx context.Context, sc *scenarios.Scenario, base trial, changes []change) ([]Lever, error) {
	levers := make([]*Lever, len(changes))
	reasons := make([]string, len(changes))
	err := abreast(len(changes), func(i int) error {
		stack, err := changes[i].stack(sc)
		if err != nil {
			// The generic parts do not go together with the change.
			reasons[i] = firstLine(err)
			return nil
		}
		t := newTrial(ctx, stack)
		var odd *model.StackError
		switch {
		case errors.As(t.err, &odd):
			reasons[i] = firstLine(t.err)
			return nil
		case t.err != nil:
			return fmt.Errorf("%s: %w", changes[i].name, t.err)
		}
		levers[i] = changes[i].lever(base, t)
		return nil
	})
	if err != nil {
		return nil, err
	}
	list := []Lever{}
	for i, l := range levers {
		if l == nil {
			out.LeftOut = append(out.LeftOut, LeftOut{Name: changes[i].name, Why: reasons[i]})
			continue
		}
		list = append(list, *l)
	}
	return list, nil
}

// lever compares a changed stack with the one of the file.
func (c *change) lever(base, t trial) *Lever {
	l := &Lever{Name: c.name, Kind: c.kind, Place: c.place, Write: c.write}
	if t.states[0] == nil {
		l.Ends = t.none[0].Text
		return l
	}
	l.Change, l.Temp = t.temp(0)-base.temp(0), temp(t.temp(0))
	l.Where = rowNames(t.states[0].assembly)[t.rows[0]]
	for i, to := range []**float64{1: &l.Careful, 2: &l.Careless} {
		if to != nil && t.states[i] != nil && base.states[i] != nil {
			d := t.temp(i) - base.temp(i)
			*to = &d
		}
	}
	return l
}

// sensitivities differentiates the hottest terminal of a settled state.
func sensitivities(s *state, hot int, names []string) (Sensitivities, error) {
	a := s.assembly
	worth := make([]float64, a.Network.Unknowns())
	worth[a.HottestNode(hot, s.x)] = 1
	if err := solver.NewSteadySolver(a.Network).Adjoint(0, s.x, worth, worth); err != nil {
		return Sensitivities{}, fmt.Errorf("the sensitivities: %w", err)
	}
	all := a.Sensitivities(0, s.x, worth)
	out := Sensitivities{Of: names[hot], Air: all.Air, Around: all.Around}
	switch load := loadAt(s.stack, 0); {
	case !(load > 0):
	case powered(s.stack):
		out.Power = all.Current / load
	default:
		out.Current = all.Current / load
	}
	for i, r := range all.Rows {
		out.Rows = append(out.Rows, RowSensitivity{Name: names[i], Kind: kinds[a.Rows[i].Kind], Watt: r.Watt,
			Ohms: r.Ohms * percent, Added: r.Added * microohm, Conductance: r.Conductance * percent, Surface: r.Surface * percent})
	}
	return out, nil
}

// The units of the derivatives in a result.
const (
	percent  = 0.01
	microohm = 1e-6
)
