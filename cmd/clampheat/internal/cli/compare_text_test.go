package cli

import (
	"strings"
	"testing"
	"unicode/utf8"

	"clampheat/scenarios/study"
)

// sampleCompare is a comparison of stacks that end at some temperatures, °C.
func sampleCompare(ends ...float64) *study.Compare {
	r := &study.Compare{Tried: 27, Times: []float64{0, 900}}
	for i, end := range ends {
		c := study.Column{Conditions: sampleConditions(), Label: string(rune('a' + i)),
			Hottest: study.Span{Place: "lug", Temp: celsius(end), Rise: end - 25, Careful: celsius(end - 5), Careless: celsius(end + 9)},
			To90:    1500, After15: celsius(end - 8), Tightest: sampleMargin("lug", end), Drop: 0.11, Heat: 15.4}
		if c.Tightest.Left < 0 {
			c.Tightest.Verdict = study.Passed
		}
		c.Margins = []study.Margin{*c.Tightest}
		c.Sizing.Fuses = []study.FuseSizing{{Name: "fuse", Rated: 300, Usable: 240, Sustained: 140, Loaded: 140.0 / 240}}
		r.Columns = append(r.Columns, c)
		if i > 0 {
			r.Against = append(r.Against, study.Against{First: "a", Second: c.Label, Cooler: ends[0] - end, Agree: 27, Tried: 27,
				Why: study.Why{Total: end - ends[0], Causes: []study.Cause{{Name: "surface", Worth: end - ends[0]}}}})
		}
	}
	r.Verdict = &study.Verdicts{Coolest: "b", Next: "a", By: ends[0] - ends[1], Agree: 27, Tried: 27, Holds: true}
	return r
}

func TestCompareText(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(r *study.Compare)
		ends   []float64
		want   []string
	}{
		{"clear", func(*study.Compare) {}, []float64{66, 58}, []string{
			"b runs 8.0 K cooler than a: 58 °C (136 °F) against 66 °C (151 °F)", "(27 of 27)", "All limits hold",
			"140 A, air 25 °C, left on", "Why b is 8.0 K cooler than a", "surface  -8.0  " + strings.Repeat("-", barRoom)}},
		{"too close", func(r *study.Compare) { r.Verdict.TooClose, r.Verdict.Agree = true, 19 }, []float64{66, 58},
			[]string{"Too close to call: b is 8.0 K cooler than a", "in 19 of 27 conditions only"}},
		{"alike", func(*study.Compare) {}, []float64{66, 65.8}, []string{"b and a run alike: 0.2 K apart"}},
		{"limit passed", func(*study.Compare) {}, []float64{96, 58}, []string{"LIMIT passed by a.", "never cured by a higher rating"}},
		{"limit unknown", func(r *study.Compare) { r.Columns[1].Margins[0].Verdict = study.Unknown }, []float64{66, 58},
			[]string{"A limit is UNKNOWN, which is no pass, in b."}},
		{"unlike rooms", func(r *study.Compare) { r.Against[0].Room = []string{"air 25 °C and 40 °C"} }, []float64{66, 58},
			[]string{"NOT the same supply and surroundings. a and b: air 25 °C and 40 °C."}},
		{"no state", func(r *study.Compare) {
			r.Verdict, r.Against, r.Columns[0].Ends = nil, nil, "no lasting state below 500 °C"
		}, []float64{66, 58}, []string{"Only one of the stacks has a lasting state", "hottest terminal      no lasting state  58 °C"}},
		{"many", func(r *study.Compare) {
			r.Columns[2].Ends, r.Against[0].TooClose, r.Against[2].Why.Missing = "none below 500 °C", true, "it runs away"
		}, []float64{66, 58, 59, 60, 61}, []string{"b runs 8.0 K cooler than the next, a", "c           none", "too close to call; surface -8.0", "Not known: it runs away"}},
		{"a stack called none", func(r *study.Compare) { r.Columns[3].Label = "none" }, []float64{66, 58, 59, 60, 61}, []string{"Every place"}},
		{"other rating", func(r *study.Compare) { r.Columns[1].Sizing.Fuses[0].Rated = 400 }, []float64{66, 58}, []string{"never cured by a higher rating"}},
		{"interrupting rating", func(*study.Compare) {}, []float64{66, 58}, []string{"UNKNOWN is not a pass"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := sampleCompare(c.ends...)
			c.change(r)
			text := compareText(r)
			for _, want := range c.want {
				if !strings.Contains(strings.Join(strings.Fields(text), " "), strings.Join(strings.Fields(want), " ")) {
					t.Errorf("lacks %q:\n%s", want, text)
				}
			}
			for line := range strings.Lines(text) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
					t.Errorf("%d columns: %q", n, line)
				}
			}
		})
	}
}

func TestCompareText_fahrenheit(t *testing.T) {
	r := sampleCompare(66, 58)
	for i := range r.Columns {
		r.Columns[i].TempUnit = "°F"
	}
	if text := compareText(r); !strings.Contains(text, "b runs 14.4 °F cooler than a: 136 °F (58 °C)") {
		t.Error(text)
	}
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0.583: "58 %", 1.2: "120 %", 0.0231: "2.3 %", 0: "0 %"} {
		if got := percent(share); got != want {
			t.Errorf("%g is written %q, want %q", share, got, want)
		}
	}
}
