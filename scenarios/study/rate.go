package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// RateOptions say what a rating shows beside the largest current.
type RateOptions struct {
	Currents  []float64 // A, each to be told about
	Altitudes []float64 // m, each with a rating over the air's temperature
}

// RunRate answers how much current a stack carries: for good, over the
// temperature of the air, and above that for how long.
//
// Its errors are those of RunSteady, and *InputError for options that cannot
// be.
func RunRate(ctx context.Context, sc *scenarios.Scenario, opt RateOptions) (*Rate, error) {
	for _, c := range opt.Currents {
		if !(c > 0) || math.IsInf(c, 1) {
			return nil, &InputError{Text: fmt.Sprintf("a current of %.4g A cannot be rated: it must be more than 0 A", c)}
		}
	}
	stack, err := leftOn(sc, nil)
	if err != nil {
		return nil, err
	}
	all := make([]*borne, len(threeConditions))
	err = abreast(len(all), func(i int) (err error) {
		all[i], err = bear(ctx, sc, stack, threeConditions[i], threeConditions[i] != model.Likely)
		return err
	})
	if err != nil {
		return nil, err
	}
	likely := all[0]
	out := &Rate{
		Conditions: conditions(sc, stack, ownCurrent(stack)),
		Likely:     likely.rated(), Careful: all[1].rated(), Careless: all[2].rated(),
		Limits: []Rated{}, Unknown: []Margin{}, End: likely.end(), Warnings: touchOpinions(sc),
	}
	out.EndText = likely.endText(out.End)
	for _, r := range likely.result.Reached {
		out.Limits = append(out.Limits, likely.reached(r))
	}
	for _, b := range likely.unknown {
		out.Unknown = append(out.Unknown, b.judge(likely.names[b.row], 0, math.Inf(1)))
	}
	for _, w := range likely.assembly.Warnings {
		out.Warnings = append(out.Warnings, w.String())
	}
	if changed, err := sc.Stack(nil); err == nil && changed.Course != nil {
		out.Warnings = append(out.Warnings, fmt.Sprintf("the air changes with time; this is for its hottest, %.0f °C, for good", stack.Surroundings.Air-celsius))
	}
	if len(stack.Draws) > 1 {
		out.Warnings = append(out.Warnings, "all circuits are scaled alike: the figures are of what they draw together, in the proportions of the file")
	}
	if out.OverAir, err = overAir(ctx, sc, stack); err != nil {
		return nil, err
	}
	for _, m := range opt.Altitudes {
		at, err := atAltitude(ctx, sc, stack, m, out.OverAir)
		if err != nil {
			return nil, err
		}
		out.Altitudes = append(out.Altitudes, at)
	}
	if err := out.overTime(ctx, sc, likely, opt.Currents); err != nil {
		return nil, err
	}
	return out, nil
}

// threeConditions with the likely one first.
var threeConditions = [3]model.Condition{model.Likely, model.Careful, model.Careless}

// airs are the temperatures of the air for which a stack is rated, K: from
// −20 °C to 60 °C, and the one of the file.
func airs(own float64) []float64 {
	const from, to, step = -20, 60, 5
	var out []float64
	for t := from; t <= to; t += step {
		out = append(out, float64(t)+celsius)
	}
	for _, t := range out {
		if math.Abs(t-own) < 0.01 {
			return out
		}
	}
	out = append(out, own)
	slices.Sort(out)
	return out
}

// overAir rates the stack in air of each temperature.
func overAir(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack) ([]AirRating, error) {
	list := airs(stack.Surroundings.Air)
	n := len(threeConditions)
	all := make([]Rated, len(list)*n)
	err := abreast(len(all), func(i int) error {
		b, err := bear(ctx, sc, inAir(stack, list[i/n], stack.Surroundings.Altitude), threeConditions[i%n], true)
		if err == nil {
			all[i] = b.rated()
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	out := make([]AirRating, len(list))
	for i, air := range list {
		at := all[i*n:]
		out[i] = AirRating{Air: temp(air), Likely: at[0], Careful: at[1].Current, Careless: at[2].Current,
			CarefulPower: at[1].Power, CarelessPower: at[2].Power}
	}
	return out, nil
}

// atAltitude rates the stack at an altitude in the same airs.
func atAltitude(ctx context.Context, sc *scenarios.Scenario, stack *model.Stack, altitude float64, like []AirRating) (AtAltitude, error) {
	out := AtAltitude{Altitude: altitude, Currents: make([]float64, len(like))}
	if powered(stack) {
		out.Powers = make([]float64, len(like))
	}
	for _, a := range like {
		out.Airs = append(out.Airs, a.Air)
	}
	err := abreast(len(like), func(i int) error {
		b, err := bear(ctx, sc, inAir(stack, float64(like[i].Air), altitude), model.Likely, true)
		if err == nil {
			r := b.rated()
			out.Currents[i] = r.Current
			if out.Powers != nil {
				out.Powers[i] = r.Power
			}
		}
		return err
	})
	if err != nil {
		var stackErr *model.StackError
		if errors.As(err, &stackErr) {
			return out, &InputError{Text: fmt.Sprintf("an altitude of %.4g m cannot be: %v", altitude, err)}
		}
		return out, err
	}
	return out, nil
}

// ownCurrent is the current that a file states, A; 0 for a power, whose current
// is only known with the state.
func ownCurrent(stack *model.Stack) float64 {
	if powered(stack) {
		return 0
	}
	return loadAt(stack, 0)
}
