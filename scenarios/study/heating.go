package study

import (
	"math"

	"clampheat/model"
)

// This file takes means over the period of what repeats.

// means are the mean and the root mean square of a supply over a period from 0,
// exact for one that runs straight between its breaks.
func means(s model.Supply, period float64) (mean, rms float64) {
	sum, squares, from := 0.0, 0.0, 0.0
	for _, to := range append(model.BreaksUntil(s, period), period) {
		length := to - from
		if length <= 0 {
			continue
		}
		a, b := s.Current(from), s.Current(math.Nextafter(to, 0))
		sum += length * (a + b) / 2
		squares += length * (a*a + a*b + b*b) / 3
		from = to
	}
	return sum / period, math.Sqrt(squares / period)
}

// heatingAlike is a stack whose loads stay at their root mean squares over its
// period, in the mean of its air: the rule by which a duty is often reckoned. Of
// a power it is that of the power.
func heatingAlike(stack *model.Stack) *model.Stack {
	period := stack.Period()
	return driven(stack, meanAir(stack), func(s model.Supply) model.Supply {
		_, rms := means(s, period)
		return model.Constant(rms)
	})
}

// meanAir is the mean temperature of the air over the period of a stack, K.
func meanAir(stack *model.Stack) float64 {
	if stack.Course == nil {
		return stack.Surroundings.Air
	}
	mean, _ := means(stack.Course, stack.Period())
	return mean
}
