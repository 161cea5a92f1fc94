package model_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"clampheat/model"
)

func TestSchedule(t *testing.T) {
	s, err := model.NewSchedule(model.Piece{From: 140, To: 140, For: 900}, model.Piece{From: 0, To: 200, For: 100}, model.Piece{From: 50, To: 50, For: math.Inf(1)})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ at, current, slope float64 }{
		{-1, 140, 0}, {0, 140, 0}, {math.Nextafter(900, 0), 140, 0},
		{900, 0, 2}, // continuous from the right
		{950, 100, 2}, {1000, 50, 0}, {1e9, 50, 0},
	} {
		if i, d := s.Current(c.at), s.Slope(c.at); i != c.current || d != c.slope {
			t.Errorf("at %g s: %g A, %g A/s; want %g and %g", c.at, i, d, c.current, c.slope)
		}
	}
	if got := s.Breaks(); !slices.Equal(got, []float64{900, 1000}) {
		t.Errorf("breaks %v", got)
	}
	t.Run("last ramp/its end stays", func(t *testing.T) {
		s, err := model.NewSchedule(model.Piece{From: 0, To: 140, For: 300})
		if err != nil {
			t.Fatal(err)
		}
		if s.Current(300) != 140 || s.Current(1e6) != 140 || s.Slope(300) != 0 || s.Slope(299) == 0 {
			t.Errorf("%g A, %g A/s", s.Current(300), s.Slope(300))
		}
	})
	t.Run("pieces/refused", func(t *testing.T) {
		for _, p := range [][]model.Piece{
			nil, {{From: -1, To: 1, For: 1}}, {{From: 1, To: math.NaN(), For: 1}}, {{From: 1, To: 1}}, {{From: 1, To: 1, For: math.NaN()}},
			{{From: 1, To: 2, For: math.Inf(1)}}, {{From: 1, To: 1, For: math.Inf(1)}, {From: 1, To: 1, For: 1}},
			{{From: 1, To: 1, For: 1e300}, {From: 2, To: 2, For: 1}},
		} {
			var e *model.SupplyError
			if _, err := model.NewSchedule(p...); !errors.As(err, &e) {
				t.Errorf("%v: got %v", p, err)
			}
		}
	})
}
