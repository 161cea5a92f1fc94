package model_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"clampheat/model"

	"pgregory.net/rapid"
)

func mustCycle(t testing.TB, pieces ...model.Piece) *model.Cycle {
	t.Helper()
	c, err := model.NewCycle(pieces...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCycle(t *testing.T) {
	// 5 min on, 1 min down, 9 min off.
	c := mustCycle(t, model.Piece{From: 180, To: 180, For: 300}, model.Piece{From: 180, To: 0, For: 60}, model.Piece{For: 540})
	if c.Period() != 900 {
		t.Errorf("period %g s", c.Period())
	}
	for _, p := range []struct{ t, current, slope float64 }{
		{-5, 180, 0}, {0, 180, 0}, {299, 180, 0}, {300, 180, -3}, {330, 90, -3}, {360, 0, 0}, {899, 0, 0}, {900, 180, 0},
		{9000 + 330, 90, -3}, {900e6 + 330, 90, -3},
	} {
		if got, slope := c.Current(p.t), c.Slope(p.t); math.Abs(got-p.current) > 1e-9 || slope != p.slope {
			t.Errorf("at %g s: %g A, %g A/s; want %g, %g", p.t, got, slope, p.current, p.slope)
		}
	}
	if got := c.Breaks(); !slices.Equal(got, []float64{300, 360, 900}) {
		t.Errorf("breaks %v", got)
	}
	if got := c.BreaksUntil(2100); !slices.Equal(got, []float64{300, 360, 900, 1200, 1260, 1800, 2100}) {
		t.Errorf("breaks %v", got)
	}
	t.Run("refused", func(t *testing.T) {
		for _, pieces := range [][]model.Piece{nil, {{From: 1, To: 1, For: math.Inf(1)}}, {{From: -1, For: 1}}, {{From: math.NaN(), For: 1}}} {
			_, err := model.NewCycle(pieces...)
			var bad *model.SupplyError
			if !errors.As(err, &bad) {
				t.Errorf("%v: %v", pieces, err)
			}
		}
	})
}

// TestCycleRepeats: at any time the value is that of the same place in the first
// period; at every break it is the one after it, and between two breaks it runs
// straight.
func TestCycleRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []model.Piece
		for range rapid.IntRange(1, 5).Draw(t, "pieces") {
			amps := rapid.Float64Range(0, 500)
			pieces = append(pieces, model.Piece{From: amps.Draw(t, "from"), To: amps.Draw(t, "to"), For: rapid.Float64Range(0.1, 5000).Draw(t, "for")})
		}
		c, err := model.NewCycle(pieces...)
		if err != nil {
			t.Fatal(err)
		}
		until := c.Period() * rapid.Float64Range(0.1, 20).Draw(t, "periods")
		at := 0.0
		for i, b := range c.BreaksUntil(until) {
			p := pieces[(i+1)%len(pieces)]
			if got := c.Current(b); math.Abs(got-p.From) > 1e-6*(1+p.From) {
				t.Fatalf("after the break at %g s %g A, the piece starts at %g A", b, got, p.From)
			}
			p = pieces[i%len(pieces)]
			if got, want := c.Current((at+b)/2), (p.From+p.To)/2; math.Abs(got-want) > 1e-6*(1+want) {
				t.Fatalf("in the middle before %g s %g A, want %g A", b, got, want)
			}
			at = b
		}
		if at > until || until-at > c.Period() {
			t.Fatalf("the breaks end at %g s of %g s", at, until)
		}
	})
}

func TestSum(t *testing.T) {
	a := mustCycle(t, model.Piece{From: 100, To: 100, For: 300}, model.Piece{For: 600})
	b, err := model.NewSchedule(model.Piece{From: 0, To: 50, For: 1000})
	if err != nil {
		t.Fatal(err)
	}
	s := model.Sum(a, model.Scaled(b, 2), model.Constant(5))
	for at, want := range map[float64]float64{0: 105, 500: 55, 1000: 205, 1300: 105} {
		if got := s.Current(at); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %g s %g A, want %g A", at, got, want)
		}
	}
	if got := s.Slope(500); got != 0.1 {
		t.Errorf("slope %g A/s", got)
	}
	if got := s.Breaks(); !slices.Equal(got, []float64{300, 900, 1000}) {
		t.Errorf("breaks %v", got)
	}
	if got := model.BreaksUntil(s, 2000); !slices.Equal(got, []float64{300, 900, 1000, 1200, 1800}) {
		t.Errorf("breaks %v", got)
	}
}

// TestPeriod: a stack repeats with the shortest time that holds whole periods of
// all that drives it.
func TestPeriod(t *testing.T) {
	duty := mustCycle(t, model.Piece{From: 100, To: 100, For: 300}, model.Piece{For: 600})
	day := mustCycle(t, model.Piece{From: 288, To: 303, For: 43200}, model.Piece{From: 303, To: 288, For: 43200})
	odd := mustCycle(t, model.Piece{From: 1, To: 2, For: 600 * math.Pi})
	once, err := model.NewSchedule(model.Piece{From: 0, To: 50, For: 1000})
	if err != nil {
		t.Fatal(err)
	}
	draw := func(s model.Supply) []model.Draw { return []model.Draw{{Current: s}} }
	for _, c := range []struct {
		name  string
		stack model.Stack
		want  float64
	}{
		{"constant", model.Stack{Supply: model.Constant(3)}, 0},
		{"duty", model.Stack{Supply: duty}, 900},
		{"duty/in a day's air", model.Stack{Supply: duty, Course: day}, 86400},
		{"scaled", model.Stack{Supply: model.Scaled(model.Sum(duty, model.Constant(1)), 2)}, 900},
		{"draws of unlike period", model.Stack{Supply: model.Constant(0), Draws: append(draw(duty), draw(mustCycle(t, model.Piece{From: 5, To: 6, For: 600}))...)}, 1800},
		{"never together", model.Stack{Supply: duty, Course: odd}, math.Inf(1)},
		{"once only", model.Stack{Supply: duty, Course: once}, math.Inf(1)},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.stack.Period(); got != c.want {
				t.Errorf("%g s, want %g s", got, c.want)
			}
		})
	}
}
