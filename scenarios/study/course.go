package study

import (
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file tells loads and airs apart by how they change with time: stacks that
// are left on at the same largest load need not be loaded alike.

// unlikeCourses names what changes with time in two stacks in unlike ways.
func unlikeCourses(first, second *model.Stack) []string {
	var out []string
	for _, of := range []struct {
		name string
		list func(*model.Stack) []model.Supply
	}{{"load over time", loads}, {"air over time", courses}} {
		a, b := model.Sum(of.list(first)...), model.Sum(of.list(second)...)
		switch one, other := courseText(first, a), courseText(second, b); {
		case one != other:
			out = append(out, fmt.Sprintf("%s: %s and %s", of.name, one, other))
		case !sameShape(a, b):
			out = append(out, fmt.Sprintf("%s: %s in both, but in unlike steps", of.name, one))
		}
	}
	return out
}

// courses are the supplies that make up the course of the room's air.
func courses(stack *model.Stack) []model.Supply {
	if stack.Course == nil {
		return nil
	}
	return []model.Supply{stack.Course}
}

// courseText says in few words how a supply of a stack changes.
func courseText(stack *model.Stack, s model.Supply) string {
	switch {
	case len(s.Breaks()) == 0:
		return "constant"
	case repeats(stack):
		return "periods of " + quantity.Scaled(quantity.Time, stack.Period(), 2)
	}
	return "changing"
}

// sameShape says whether two supplies change at the same times by the same shares
// of their largest value. A level alone is no difference: it is told as one of the
// current, the power or the air.
func sameShape(a, b model.Supply) bool {
	scale := func(s model.Supply) float64 {
		largest := math.Abs(s.Current(0))
		for _, t := range s.Breaks() {
			largest = max(largest, math.Abs(s.Current(math.Nextafter(t, 0))), math.Abs(s.Current(t)))
		}
		if largest == 0 {
			return 1
		}
		return largest
	}
	one, other := scale(a), scale(b)
	for _, t := range slices.Concat([]float64{0}, a.Breaks(), b.Breaks()) {
		for _, at := range []float64{math.Nextafter(t, 0), t} {
			if !alike(a.Current(at)/one, b.Current(at)/other) {
				return false
			}
		}
	}
	return true
}
