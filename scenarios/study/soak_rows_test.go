package study

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
)

// inDuty is the feed in a duty of 15 min, which divides the round times of rows.
func inDuty(duty string) string {
	return strings.Replace(feed, "current: 140 A", "duty: ["+duty+"]", 1)
}

func soakFor(t *testing.T, text string, hours float64) *Soak {
	t.Helper()
	s, err := RunSoak(context.Background(), read(t, text), SoakOptions{For: hours * 3600})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Rows at multiples of the period all fall on the coolest point of it. The peak is
// told all the same, it is the one of a soak whose rows are close, and has a row.
func TestSoak_peakBetweenRows(t *testing.T) {
	const period, on = 15 * 60, 5 * 60
	text := inDuty("200 A for 5 min, 0 A for 10 min")
	long, short := soakFor(t, text, 72), soakFor(t, text, 12)
	if at := math.Mod(long.Peak.Time, period); math.Abs(at-on) > 1 {
		t.Errorf("hottest %g s into a period, the load ends after %d s", at, on)
	}
	if long.Peak.Temp-long.Hottest.Temp < 10 {
		t.Errorf("hottest on the way %v, at the end %v", long.Peak.Temp, long.Hottest.Temp)
	}
	if math.Abs(float64(long.Peak.Temp-short.Peak.Temp)) > 0.1 {
		t.Errorf("hottest %v over 72 h, %v over 12 h: it repeats after one", long.Peak.Temp, short.Peak.Temp)
	}
	for _, s := range []*Soak{long, short} {
		row := 0.0
		for _, series := range s.Series {
			if series.Name == s.Peak.Place {
				row = float64(slices.Max(series.Temps))
				if series.Highest != s.Peak.Temp {
					t.Errorf("%s gets %v hot, and %v on the way", series.Name, series.Highest, s.Peak.Temp)
				}
			}
			if high := slices.Max(series.Temps); float64(high-series.Highest) > 0.1 {
				t.Errorf("%s: a row of %v, and never above %v", series.Name, high, series.Highest)
			}
		}
		if math.Abs(row-float64(s.Peak.Temp)) > 0.1 {
			t.Errorf("the hottest row of %d is %g K, the peak %g K", len(s.Times), row, float64(s.Peak.Temp))
		}
	}
}

func TestBreakRows(t *testing.T) {
	every := func(step float64, n int) (list []float64) {
		for i := range n {
			list = append(list, float64(i+1)*step)
		}
		return list
	}
	for _, c := range []struct {
		name   string
		breaks []float64
		period float64
		want   int // rows
	}{
		{"few", every(300, 100), 900, 100},
		{"many that repeat", every(300, 900), 900, 900},
		{"many of one course", every(60, 900), math.Inf(1), 0},
		{"many in a period", every(60, 3000), 86400, 0},
		{"too many that repeat", every(300, mostRepeated+1), 900, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			rows := breakRows(c.breaks, c.period)
			if len(rows) != c.want {
				t.Errorf("%d rows of %d breaks, want %d", len(rows), len(c.breaks), c.want)
			}
		})
	}
}

// Stacks that are left on at one current, of loads that are unlike over time.
func TestCompare_unlikeDuties(t *testing.T) {
	const duty = "140 A for 5 min, 0 A for 10 min"
	for _, c := range []struct {
		name, first, second, room string
		taken                     []string // what warnings of a load begin with
	}{
		{"alike", inDuty(duty), inDuty(duty), "", []string{"each: "}},
		{"other period", inDuty(duty), inDuty("140 A for 5 min, 0 A for 5 min"), "load over time: periods of 15 min and periods of 10 min", []string{"each: "}},
		{"other steps", inDuty(duty), inDuty("140 A for 10 min, 0 A for 5 min"), "load over time: periods of 15 min in both, but in unlike steps", []string{"each: "}},
		{"other level", inDuty(duty), inDuty("100 A for 5 min, 0 A for 10 min"), "current 140 A and 100 A", []string{"a: ", "b: "}},
		{"against a constant", inDuty(duty), feed, "load over time: periods of 15 min and constant", []string{"a: "}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := RunCompare(context.Background(), []Candidate{{"a", read(t, c.first)}, {"b", read(t, c.second)}})
			if err != nil {
				t.Fatal(err)
			}
			if got := strings.Join(r.Against[0].Room, "; "); got != c.room {
				t.Errorf("unlike in %q, want %q", got, c.room)
			}
			var taken []string
			for _, w := range r.Warnings {
				if before, _, ok := strings.Cut(w, "the current changes with time"); ok {
					taken = append(taken, before)
				}
			}
			if !slices.Equal(taken, c.taken) {
				t.Errorf("told of %q, want %q: %q", taken, c.taken, r.Warnings)
			}
		})
	}
}
