package study

import (
	"context"
	"errors"
	"math"
	"sort"

	"clampheat/model"
	"clampheat/scenarios"
)

// leastTold, K, is too little to name an assumption for.
const leastTold = 0.05

// mostTelling is how many assumptions a screen names; the others are counted.
const mostTelling = 3

// telling solves again with each assumption at both ends of its range and
// ranks them by what they move the hottest terminal.
func telling(ctx context.Context, sc *scenarios.Scenario, likely *state, hot int) (first []Telling, more int, err error) {
	all := sc.Assumptions()
	ranked := make([]Telling, len(all))
	err = abreast(len(all), func(i int) error {
		a := all[i]
		ranked[i] = Telling{ID: a.ID, Text: assumptionText(a)}
		for _, v := range []float64{a.Value.Low, a.Value.High} {
			if v == a.Value.Likely {
				continue
			}
			s, err := varied(ctx, sc, map[string]float64{a.ID: v}, likely)
			var none *NoAnswerError
			var yields *model.YieldError
			switch {
			case errors.As(err, &none):
				ranked[i].Ends = true
			case errors.As(err, &yields):
				// With so little friction the torque would break the thread: no
				// state to compare with.
			case err != nil:
				return err
			default:
				ranked[i].Worth = math.Max(ranked[i].Worth, math.Abs(s.temp(hot)-likely.temp(hot)))
			}
		}
		return nil
	})
	if err != nil {
		return nil, 0, err
	}
	sort.SliceStable(ranked, func(i, j int) bool {
		if ranked[i].Ends != ranked[j].Ends {
			return ranked[i].Ends
		}
		return ranked[i].Worth > ranked[j].Worth
	})
	n := min(mostTelling, len(ranked))
	for n > 0 && !ranked[n-1].Ends && ranked[n-1].Worth < leastTold {
		n--
	}
	return ranked[:n], len(ranked) - n, nil
}

// varied settles a scenario with other values of its assumptions, searching from
// a state near by.
func varied(ctx context.Context, sc *scenarios.Scenario, vary map[string]float64, near *state) (*state, error) {
	stack, err := resolved(sc, vary)
	if err != nil {
		return nil, err
	}
	return settleFrom(ctx, still(stack), model.Likely, model.Mesh{}, near)
}
