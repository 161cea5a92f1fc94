package cli

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"clampheat/scenarios/study"
)

func narrow(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if n := utf8.RuneCountInString(line); n > width {
			t.Errorf("%d characters: %q", n, line)
		}
		if strings.TrimRight(line, " ") != line {
			t.Errorf("blanks at the end: %q", line)
		}
	}
}

func has(t *testing.T, text string, wants ...string) {
	t.Helper()
	for _, w := range wants {
		if !strings.Contains(text, w) {
			t.Errorf("%q is missing in\n%s", w, text)
		}
	}
}

func TestSteadyText(t *testing.T) {
	t.Run("holds", func(t *testing.T) {
		text := steadyText(sampleSteady())
		narrow(t, text)
		has(t, text, "66 °C (151 °F), 41 K above air: fuse 300 A, nut side", "60 °C careful assembly … 78 °C careless assembly",
			"24 K left (12 K if careless): tin-plated terminal, 65 K rise (IEC 60947-1)", "nut 12 N·m, 7.5 kN", "same nut", "->", "16.4 W: cable 10.4", "117 mV, battery post to inverter terminal",
			"fuse drop 75 mV at 300 A (6 K)", "11 more: clampheat check compact.yaml", "element is near 118 °C", "clampheat cautions")
		if n := strings.Count(text, "->"); n != 1 {
			t.Errorf("%d places are marked as the hottest", n)
		}
		if strings.Contains(text, "LIMIT") {
			t.Errorf("a limit is said to be passed in\n%s", text)
		}
	})
	t.Run("limit passed", func(t *testing.T) {
		r := sampleSteady()
		for _, m := range []*study.Margin{r.Tightest, &r.Margins[0], r.Rows[6].Limit} {
			m.Left, m.Careless, m.Verdict = -0.3, kelvins(-15), study.Passed
		}
		text := steadyText(r)
		narrow(t, text)
		has(t, text, "LIMIT PASSED by 0.3 K (15 K past it if careless)", "-0.3 K  LIMIT", "never cured by a higher rating")
	})
	t.Run("no careless state", func(t *testing.T) {
		r := sampleSteady()
		r.Hottest.CarelessEnds, r.Hottest.Careless = "no lasting state below 200 °C", 0
		has(t, steadyText(r), "60 °C careful assembly … careless assembly: no lasting state below 200 °C")
	})
	t.Run("fahrenheit and inch pounds", func(t *testing.T) {
		r := sampleSteady()
		r.TempUnit, r.TorqueUnit = "°F", "in·lb"
		has(t, steadyText(r), "151 °F (66 °C), 74 °F above air", "nut 106 in·lb", "nut 75.2 in·lb", "+117 °F", "221 °F", "by less than 0.1 °F.")
	})
	t.Run("next to nothing", func(t *testing.T) {
		r := sampleSteady()
		r.Rows[1].Heat = 8.6e-9
		text := steadyText(r)
		has(t, text, "<0.001")
		if strings.Contains(text, "0.0000") {
			t.Errorf("noughts fill\n%s", text)
		}
	})
	t.Run("washer in the path", func(t *testing.T) {
		if strings.Contains(steadyText(sampleSteady()), "No washer between faces") {
			t.Error("a stack without a washer is warned of one")
		}
		text := steadyText(sampleSteady(), cautionWasher)
		narrow(t, text)
		has(t, text, "No washer between faces", "An estimate, not a certificate")
	})
	t.Run("long names", func(t *testing.T) {
		r := sampleSteady()
		for i := range r.Rows {
			r.Rows[i].Name += strings.Repeat(" and more", 9)
		}
		narrow(t, steadyText(r))
	})
}

func TestSoakText(t *testing.T) {
	t.Run("constant current", func(t *testing.T) {
		text := soakText(sampleSoak(), 0)
		narrow(t, text)
		has(t, text, "54 °C (129 °F) after 15 min, 29 K above air: fuse 300 A, nut side", "settles at 66 °C (151 °F); 90 % of the way after 28 min",
			"lug_C", "not passed", "made 14.4 kJ, given off 9.00 kJ, stored 5.40 kJ", "stay with it")
	})
	t.Run("steps and limits passed", func(t *testing.T) {
		r := sampleSoak()
		for i := range r.Currents {
			r.Currents[i] = float64(10 * i)
		}
		r.Limits[0].Reached, r.Limits[0].Time, r.Limits[0].Verdict = true, 500, study.Passed
		r.Lasting = false
		text := soakText(r, 0)
		narrow(t, text)
		has(t, text, "8.3 min  LIMIT", "no lasting state")
	})
	t.Run("one limit at many places", func(t *testing.T) {
		r := sampleSoak()
		for i, left := range []float64{31, 12, 57} {
			m := *sampleMargin([]string{"post", "lug", "pad"}[i], 60)
			m.Left = left
			r.Limits = append(r.Limits, study.Crossing{Margin: m})
		}
		text := soakText(r, 0)
		narrow(t, text)
		has(t, text, "lug (4 places)", "12 K")
		if n := strings.Count(text, "tin-plated terminal"); n != 1 {
			t.Errorf("the limit has %d rows in\n%s", n, text)
		}
		// Those that are passed are apart, with the earliest time.
		for i, after := range []float64{600, 300} {
			l := &r.Limits[len(r.Limits)-1-i]
			l.Reached, l.Time, l.Verdict, l.Left = true, after, study.Passed, float64(-5-i)
		}
		has(t, soakText(r, 0), "lug (2 places)", "5 min  LIMIT", "fuse 300 A, nut side (2 places)", "not passed")
	})
	t.Run("rises in fahrenheit", func(t *testing.T) {
		r := sampleSoak()
		r.TempUnit = "°F"
		has(t, soakText(r, 0), "+117 °F", "221 °F", " °F.")
	})
	t.Run("rows left out", func(t *testing.T) {
		has(t, soakText(sampleSoak(), 0), "every 4th row shown; all: --csv")
		if text := soakText(sampleSoak(), 15); strings.Contains(text, "row shown") {
			t.Errorf("all 61 rows are shown, and yet it says in\n%s", text)
		}
	})
	t.Run("asked times alone", func(t *testing.T) {
		// Breaks of a cycle lie between the multiples of what was asked for.
		var times []float64
		for h := range 24 {
			times = append(times, float64(h)*3600, float64(h)*3600+900, float64(h)*3600+1500)
		}
		times = append(times, 24*3600)
		chosen := askedTimes(times, 3*3600)
		want := []string{"0", "3", "6", "9", "12", "15", "18", "21", "24"}
		got := timeLabels(times, chosen, 3600)
		if !slices.Equal(got, want) {
			t.Errorf("the rows of --every 3h read %v, not %v", got, want)
		}
	})
	t.Run("labels tell apart", func(t *testing.T) {
		times := []float64{0, 750, 3600, 4350, 7200}
		if got, want := timeLabels(times, []int{0, 1, 2, 3, 4}, 3600), []string{"0.0", "0.2", "1.0", "1.2", "2.0"}; !slices.Equal(got, want) {
			t.Errorf("the rows read %v, not %v", got, want)
		}
	})
	t.Run("many terminals", func(t *testing.T) {
		r := sampleSoak()
		r.Series = append(append(r.Series, r.Series...), r.Series...)
		text := soakText(r, 0)
		narrow(t, text)
		has(t, text, "terminals that stay cooler")
	})
	t.Run("columns by the peak", func(t *testing.T) {
		// The lug gets the hottest, long before an end at which it is the coolest.
		r := sampleSoak()
		i := slices.IndexFunc(r.Series, func(s study.Series) bool { return s.Name == "lug" })
		r.Series[i].Highest = celsius(180)
		r.Series[i].Temps[len(r.Times)-1] = celsius(25)
		const lugAlone = 6
		if shown, left := roomFor(r, lugAlone); !slices.Equal(shown, []int{i}) || left == 0 {
			t.Errorf("series %v are shown and %d not, want %d alone", shown, left, i)
		}
	})
	t.Run("hottest on the way", func(t *testing.T) {
		r := sampleSoak()
		if text := soakText(r, 0); strings.Contains(text, "on the way") {
			t.Errorf("the end is the hottest, and yet it says in\n%s", text)
		}
		r.Period = 60
		r.Peak = study.Moment{Place: "lug", Time: 435, Temp: celsius(75)}
		r.Currents[0] = 10
		text := soakText(r, 0)
		narrow(t, text)
		has(t, text, "Hottest on the way", "75 °C (167 °F) after 7.2 min: lug", " 7.25   140", "what swings between them is not in the table")
	})
}

func TestCheckText(t *testing.T) {
	text := checkText(sampleCheck())
	narrow(t, text)
	has(t, text, "7.5  (5.2 … 9.8)", "48 %", "9.3", "2 values that the file left open", "0.07 W/K (0.03 … 0.2 W/K)", "above what is usual")
}

func TestChosenTimes(t *testing.T) {
	for _, c := range []struct {
		name       string
		until, dt  float64
		most, step float64
	}{
		{"all", 300, 30, 20, 30}, {"quarter of an hour", 900, 15, 20, 60}, {"three hours", 10800, 30, 20, 600},
	} {
		t.Run(c.name, func(t *testing.T) {
			var times []float64
			for x := 0.0; x <= c.until; x += c.dt {
				times = append(times, x)
			}
			got := chosenTimes(times, mostTimes)
			if len(got) > mostTimes || got[0] != 0 || got[len(got)-1] != len(times)-1 {
				t.Fatalf("chose %v", got)
			}
			if d := times[got[1]] - times[got[0]]; d != c.step {
				t.Errorf("rows every %g s, want %g", d, c.step)
			}
		})
	}
}
