package solver

import (
	"context"
	"errors"
	"testing"
)

// unready is a system that says why it cannot be solved.
type unready struct{ *lumps }

var errUnready = errors.New("it is not put together yet")

func (unready) Ready() error { return errUnready }

// A solver without a system answers with an error, whatever it is asked.
func TestUnmade(t *testing.T) {
	ctx := context.Background()
	for name, s := range map[string]*SteadySolver{"zero value": {}, "no system": NewSteadySolver(nil)} {
		_, solve := s.Solve(ctx, SteadyOptions{})
		_, rate := s.Rate(ctx, RateOptions{})
		for what, err := range map[string]error{"solve": solve, "rate": rate, "adjoint": s.Adjoint(0, nil, nil, nil)} {
			var input *InputError
			if !errors.As(err, &input) {
				t.Errorf("%s/%s: %v, want an InputError", name, what, err)
			}
		}
	}
	for name, s := range map[string]*Soaker{"zero value": {}, "no system": NewSoaker(nil)} {
		var input *InputError
		if _, err := s.Run(ctx, SoakOptions{}); !errors.As(err, &input) {
			t.Errorf("soak/%s: %v, want an InputError", name, err)
		}
	}
}

func TestNotReady(t *testing.T) {
	sys := unready{lump(1, 1, 300, func(_, _, _ float64) (q, dT, dt, dLoad float64) { return 0, 0, 0, 0 })}
	if _, err := Steady(context.Background(), sys, SteadyOptions{Start: []float64{300}}); !errors.Is(err, errUnready) {
		t.Errorf("steady: %v", err)
	}
	if _, err := Soak(context.Background(), sys, SoakOptions{Start: []float64{300}, Until: 1}); !errors.Is(err, errUnready) {
		t.Errorf("soak: %v", err)
	}
}
