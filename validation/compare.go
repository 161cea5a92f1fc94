package validation

import (
	"context"
	"fmt"

	"clampheat/scenarios/study"
)

// This file holds what a comparison rests on against the outside: the way in
// which a difference is shared out among its causes, and the factor that brings
// a tabled current to the air of a hot space.

func compareCases() ([]Case, error) { return append(airportCases(), hotSpaceCases()...), nil }

// airportCases share the cost of a runway among aeroplanes that need more or
// less of it. A group of them pays for the longest of its own, and the shares
// have a closed form: each stretch of runway is paid for in equal parts by all
// that need it.
func airportCases() []Case {
	const unit = "unit of cost"
	costs := []float64{1, 2, 4, 7, 11}
	var cases []Case
	for player := range costs {
		want, before := 0.0, 0.0
		for k := 0; k <= player; k++ {
			want += (costs[k] - before) / float64(len(costs)-k)
			before = costs[k]
		}
		c := Case{
			Group: "compare", Name: fmt.Sprintf("shares/runway, aeroplane %d of %d", player+1, len(costs)), Kind: Analytic,
			Claim:  "share of one cause in an outcome, averaged over all orders of the causes",
			Source: "S. C. Littlechild, G. Owen, A Simple Expression for the Shapley Value in a Special Case, Management Science 20 (1973) 370, theorem" + fromMemory,
			Inputs: Inputs{unit: 1}, Unit: "1", Want: want, Tol: Rel(want, 1e-9), Why: "arithmetic",
			Breaks: unit, Exact: true,
			Got: func(_ context.Context, in Inputs) (float64, error) {
				scaled := make([]float64, len(costs))
				for i, cost := range costs {
					scaled[i] = cost * in[unit]
				}
				return study.Shapley(len(scaled), runway(scaled))[player], nil
			},
		}
		cases = append(cases, c)
	}
	return cases
}

// runway is what each group of aeroplanes, by the bits of its index, pays.
func runway(costs []float64) []float64 {
	outcome := make([]float64, 1<<len(costs))
	for set := range outcome {
		for i, cost := range costs {
			if set>>i&1 == 1 {
				outcome[set] = max(outcome[set], cost)
			}
		}
	}
	return outcome
}

// hotSpaceCases bring a current from the table's air to that of an engine
// space.
func hotSpaceCases() []Case {
	const conductor, air, tabled = "conductor, °C", "air, °C", "air of the table, °C"
	var cases []Case
	for _, row := range []struct {
		rated, factor float64
		found         bool
	}{
		{60, 0.58, false}, {75, 0.75, false}, {80, 0.78, false}, {90, 0.82, false}, {105, 0.85, true}, {125, 0.89, false},
	} {
		c := Case{
			Group: "compare", Name: fmt.Sprintf("hot space/conductor %.0f °C", row.rated), Kind: Published,
			Claim:  "current allowed in an engine space, at 50 °C, over that of the table",
			Source: "33 CFR 183.425, Table 5, note 1", Unit: "1", Want: row.factor, Tol: Abs(0.01, ""),
			Why:    "printed to two decimals, rounded down or to the nearest",
			Inputs: Inputs{conductor: row.rated, air: 50, tabled: 30}, Breaks: air,
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return study.AmbientFactor(in[conductor]+celsius, in[air]+celsius, in[tabled]+celsius), nil
			},
		}
		if !row.found {
			c.Source += fromMemory
		}
		cases = append(cases, c)
	}
	return cases
}
