package validation

import (
	"context"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
)

// spread are the mean, the least and the largest of the ratios of predicted
// over printed figures of one table: how the prediction lies to it as a whole.
// They are reported.
func spread(group, name, source, note string, ratios func(context.Context) ([]float64, error)) []Case {
	var cases []Case
	for _, figure := range []struct {
		name string
		of   func([]float64) float64
	}{
		{"mean", func(r []float64) float64 { return stat.Mean(r, nil) }},
		{"least", floats.Min},
		{"largest", floats.Max},
	} {
		cases = append(cases, Case{
			Group: group, Name: name + "/" + figure.name, Kind: Published, Reported: true,
			Claim: "predicted over printed, " + figure.name, Source: source, Unit: "1", Want: 1, Note: note,
			Got: func(ctx context.Context, _ Inputs) (float64, error) {
				all, err := ratios(ctx)
				if err != nil {
					return 0, err
				}
				return figure.of(all), nil
			},
		})
	}
	return cases
}
