package solver

import (
	"context"
	"errors"
	"math"
	"testing"
)

func TestStructureRefused(t *testing.T) {
	for name, p := range map[string]*lumps{
		"no nodes":          {},
		"link out of range": {c: []float64{1, 1}, links: [][2]int{{0, 2}}},
		"link below range":  {c: []float64{1, 1}, links: [][2]int{{-1, 0}}},
		"link to itself":    {c: []float64{1, 1}, links: [][2]int{{1, 1}}},
		"link twice":        {c: []float64{1, 1, 1}, links: [][2]int{{0, 1}, {1, 2}, {1, 0}}},
	} {
		t.Run(name, func(t *testing.T) {
			var input *InputError
			if _, err := Soak(context.Background(), p, SoakOptions{Start: uniform(len(p.c), 300), Until: 1}); !errors.As(err, &input) {
				t.Errorf("soak: %v", err)
			}
			if _, err := Steady(context.Background(), p, SteadyOptions{Start: uniform(len(p.c), 300)}); !errors.As(err, &input) {
				t.Errorf("steady: %v", err)
			}
		})
	}
	for name, c := range map[string]float64{"capacity negative": -1, "capacity no number": math.NaN(), "capacity without end": math.Inf(1)} {
		t.Run(name, func(t *testing.T) {
			var input *InputError
			if _, err := Soak(context.Background(), lump(c, 1, 300, given(1)), SoakOptions{Start: []float64{300}, Until: 1}); !errors.As(err, &input) {
				t.Errorf("got %v", err)
			}
		})
	}
}
