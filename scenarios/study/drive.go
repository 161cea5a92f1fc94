package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file says what drives a stack, a current or a power that may change,
// in air that may change, and what it is left on at: its largest load, in its
// hottest air.

// powered says whether a stack has a power drawn from it in place of a current.
func powered(stack *model.Stack) bool {
	return slices.ContainsFunc(stack.Draws, func(d model.Draw) bool { return d.Power != nil })
}

// loadAt is what is drawn from a stack at a time, s: A, or W where power is.
func loadAt(stack *model.Stack, t float64) float64 {
	if !powered(stack) {
		return stack.Supply.Current(t)
	}
	sum := 0.0
	for _, d := range stack.Draws {
		if d.Power != nil {
			sum += d.Power.Current(t)
		}
	}
	return sum
}

// loads are the supplies that make up the load of a stack.
func loads(stack *model.Stack) []model.Supply {
	list := []model.Supply{stack.Supply}
	for _, d := range stack.Draws {
		if d.Current != nil {
			list = append(list, d.Current)
		}
		if d.Power != nil {
			list = append(list, d.Power)
		}
	}
	return list
}

// loadPeak is a time at which the load of a stack is largest, s. Of loads that
// repeat it is one of the first period.
func loadPeak(stack *model.Stack) float64 {
	best, time := loadAt(stack, 0), 0.0
	for _, b := range model.Sum(loads(stack)...).Breaks() {
		// A ramp is largest just before its end.
		for _, t := range []float64{math.Nextafter(b, 0), b} {
			if l := loadAt(stack, t); l > best {
				best, time = l, t
			}
		}
	}
	return time
}

// loadVaries says whether the load of a stack changes with time.
func loadVaries(stack *model.Stack) bool { return len(model.Sum(loads(stack)...).Breaks()) > 0 }

// hottestAir is the highest temperature of the room's air, K.
func hottestAir(stack *model.Stack) float64 {
	if stack.Course == nil {
		return stack.Surroundings.Air
	}
	// The course runs straight between its breaks.
	hottest := stack.Course.Current(0)
	for _, b := range stack.Course.Breaks() {
		hottest = max(hottest, stack.Course.Current(math.Nextafter(b, 0)), stack.Course.Current(b))
	}
	return hottest
}

// coolestAir is the lowest temperature of air that changes, K, else 0.
func coolestAir(stack *model.Stack) float64 {
	if stack.Course == nil {
		return 0
	}
	mirrored := *stack
	mirrored.Course = model.Scaled(stack.Course, -1)
	return -hottestAir(&mirrored)
}

// airAt is the temperature of the room's air at a time, K.
func airAt(stack *model.Stack, t float64) float64 {
	if stack.Course == nil {
		return stack.Surroundings.Air
	}
	return stack.Course.Current(t)
}

// still is a stack left on: at the largest of its load, in the hottest of its
// air. Draws of their own are taken at the time at which all together are
// largest.
func still(stack *model.Stack) *model.Stack {
	return frozen(stack, loadPeak(stack), hottestAir(stack))
}

// frozen is a stack whose load stays as it is at a time, s, in air that stays at
// a temperature, K.
func frozen(stack *model.Stack, t, air float64) *model.Stack {
	return driven(stack, air, func(s model.Supply) model.Supply { return model.Constant(s.Current(t)) })
}

// driven is a stack in air that stays at a temperature, K, with each of its
// loads changed.
func driven(stack *model.Stack, air float64, change func(model.Supply) model.Supply) *model.Stack {
	s := *stack
	s.Surroundings.Air, s.Course = air, nil
	s.Supply = change(s.Supply)
	s.Draws = slices.Clone(s.Draws)
	for i := range s.Draws {
		d := &s.Draws[i]
		if d.Current != nil {
			d.Current = change(d.Current)
		}
		if d.Power != nil {
			d.Power = change(d.Power)
		}
	}
	return &s
}

// unchanging are the remarks about a stack that changes with time and was taken
// as it is left on.
func unchanging(stack, left *model.Stack) []string {
	var out []string
	if loadVaries(stack) {
		what := "current"
		if powered(stack) {
			what = "power"
		}
		text := fmt.Sprintf("the %s changes with time; this is the state of its largest value, %s, left on", what, loadText(left, 1))
		if repeats(stack) {
			text += "; clampheat duty finds the state in which it repeats"
		}
		out = append(out, text)
	}
	if stack.Course != nil {
		out = append(out, fmt.Sprintf("the air changes with time; this is the state in its hottest, %.0f °C", left.Surroundings.Air-celsius))
	}
	return out
}

// repeats says whether all that drives a stack begins anew after a time.
func repeats(stack *model.Stack) bool {
	period := stack.Period()
	return period > 0 && !math.IsInf(period, 1)
}

// loadText writes the load of a stack that does not change, times a share, with
// its unit.
func loadText(left *model.Stack, share float64) string {
	unit := "A"
	if powered(left) {
		unit = "W"
	}
	return figure(share*loadAt(left, 0)) + " " + unit
}

// figure writes a number to four digits, whole digits all and no nought at the
// end of decimals.
func figure(x float64) string {
	text := quantity.Number(x, 4)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// loadName is what the load of a stack is.
func loadName(stack *model.Stack) string {
	if powered(stack) {
		return "power"
	}
	return "current"
}

// currentOf is what flows through all draws of a stack together, A, or the
// supply's where nothing draws one of its own, at a state of time t, s.
func currentOf(stack *model.Stack, a *model.Assembly, t float64, x []float64) float64 {
	if len(a.Draws) == 0 {
		return stack.Supply.Current(t)
	}
	sum := 0.0
	for _, d := range a.Draws {
		sum += a.Network.ReadDraw(d, t, x).Current
	}
	return sum
}
