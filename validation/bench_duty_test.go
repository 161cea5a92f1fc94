package validation

import (
	"context"
	"math"
	"testing"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// What the search for the state that repeats saves over following the duty
// period by period, on a shipped example whose battery takes hours to warm. Both
// start from the settled state of the rms current, and from cold.

// dutyExample is an example under 5 min on and 10 min off of twice its current.
func dutyExample(tb testing.TB, name string) (n *network.Network, wave *model.Cycle, start []float64) {
	tb.Helper()
	a, supply, _ := exampleSoak(tb, name)
	amps := 2 * supply.Current(0)
	wave, err := model.NewCycle(model.Piece{From: amps, To: amps, For: 300}, model.Piece{For: 600})
	if err != nil {
		tb.Fatal(err)
	}
	a.Network.SetSupply(network.Constant(amps/math.Sqrt(3)), 0)
	settled, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil)})
	if err != nil {
		tb.Fatal(err)
	}
	a.Network.SetSupply(wave, 0)
	return a.Network, wave, settled.X
}

const (
	cycledTol = 1e-3 // K, of a step
	cycledOff = 1e-4 // K, from the state that repeats, at which cycling ends
)

func lastingExample(tb testing.TB, n *network.Network, wave *model.Cycle, start []float64) *solver.PeriodicResult {
	tb.Helper()
	res, err := solver.Periodic(context.Background(), n, solver.PeriodicOptions{
		Period: wave.Period(), Breaks: wave.Breaks(), Tol: cycledTol, Start: start})
	if err != nil {
		tb.Fatal(err)
	}
	return res
}

// cycled follows the duty until the beginning of a period is within cycledOff of
// the state that repeats, and returns the number of periods.
func cycled(tb testing.TB, soaker *solver.Soaker, wave *model.Cycle, start, lasts []float64) int {
	tb.Helper()
	var res solver.SoakResult
	x := append([]float64(nil), start...)
	for periods := 0; ; periods++ {
		worst := 0.0
		for i, v := range lasts {
			worst = math.Max(worst, math.Abs(x[i]-v))
		}
		if worst <= cycledOff {
			return periods
		}
		if periods == 10000 {
			tb.Fatalf("still %g K off after %d periods", worst, periods)
		}
		opt := solver.SoakOptions{Tol: cycledTol, Start: x, Until: wave.Period(), Breaks: wave.Breaks()}
		if err := soaker.RunInto(context.Background(), opt, &res); err != nil {
			tb.Fatal(err)
		}
		copy(x, res.X)
	}
}

func BenchmarkDuty(b *testing.B) {
	n, wave, warm := dutyExample(b, "compact")
	lasts := lastingExample(b, n, wave, warm).X
	for _, from := range []struct {
		name  string
		start []float64
	}{{"warm", warm}, {"cold", even(n, n.Room().Air)}} {
		b.Run("sought/"+from.name, func(b *testing.B) {
			periods := 0
			for b.Loop() {
				periods = lastingExample(b, n, wave, from.start).Periods
			}
			b.ReportMetric(float64(periods), "periods")
		})
		b.Run("cycled/"+from.name, func(b *testing.B) {
			soaker, periods := solver.NewSoaker(n), 0
			for b.Loop() {
				periods = cycled(b, soaker, wave, from.start, lasts)
			}
			b.ReportMetric(float64(periods), "periods")
		})
	}
}

// Seeking the state that repeats and following the duty lead to the same.
func TestDutyCycled(t *testing.T) {
	if testing.Short() {
		t.Skip("some tens of periods")
	}
	n, wave, start := dutyExample(t, "compact")
	lasts := lastingExample(t, n, wave, start)
	if periods := cycled(t, solver.NewSoaker(n), wave, start, lasts.X); periods <= lasts.Periods {
		t.Errorf("%d periods followed and %d for the search", periods, lasts.Periods)
	}
}
