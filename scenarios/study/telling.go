package study

import (
	"context"
	"errors"
	"math"
	"sort"

	"clampheat/model"
	"clampheat/scenarios"
)

// mostTelling is how many assumptions a screen names; the others are counted.
const mostTelling = 3

// telling solves again with each assumption at both ends of its range and
// ranks them by what they move the hottest terminal.
func telling(ctx context.Context, sc *scenarios.Scenario, likely *state, hot int) (first []Telling, more int, err error) {
	all := sc.Assumptions()
	var ranked []Telling
	for _, a := range all {
		worth := 0.0
		for _, v := range []float64{a.Value.Low, a.Value.High} {
			if v == a.Value.Likely {
				continue
			}
			stack, err := sc.Stack(map[string]float64{a.ID: v})
			if err != nil {
				return nil, 0, err
			}
			s, err := settle(ctx, stack, model.Likely, model.Mesh{}, likely.time)
			var none *NoAnswerError
			switch {
			case errors.As(err, &none):
				worth = maxLeft
			case err != nil:
				return nil, 0, err
			default:
				worth = math.Max(worth, math.Abs(s.temp(hot)-likely.temp(hot)))
			}
		}
		ranked = append(ranked, Telling{ID: a.ID, Text: assumptionText(a), Worth: worth})
	}
	sort.SliceStable(ranked, func(i, j int) bool { return ranked[i].Worth > ranked[j].Worth })
	n := min(mostTelling, len(ranked))
	for n > 0 && ranked[n-1].Worth < 0.05 {
		n--
	}
	return ranked[:n], len(ranked) - n, nil
}
