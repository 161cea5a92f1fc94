package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
)

func duty(t *testing.T, text string) *Duty {
	t.Helper()
	d, err := RunDuty(context.Background(), read(t, text))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(d); err != nil {
		t.Error(err)
	}
	return d
}

const onOff = "duty: [180 A for 5 min, 0 A for 10 min]"

// The cycle is what following many periods comes to, to the tolerance of the
// steps.
func TestDuty_equalsALongSoak(t *testing.T) {
	for _, test := range []struct{ name, load string }{
		{"current", onOff},
		{"power", "bank voltage: 12.8 V\nsource resistance: 4 mΩ\nduty: [2000 W for 5 min, 100 W for 10 min]"},
	} {
		t.Run(test.name, func(t *testing.T) {
			text := with("current: 140 A", test.load)
			d := duty(t, text)
			const periods = 60
			s, err := RunSoak(context.Background(), read(t, text), SoakOptions{For: periods * d.Period, Every: 60})
			if err != nil {
				t.Fatal(err)
			}
			for _, series := range s.Series {
				peak := 0.0
				for i, at := range s.Times {
					if at >= (periods-1)*d.Period {
						peak = math.Max(peak, float64(series.Temps[i]))
					}
				}
				for _, p := range d.Places {
					// Rows are a minute apart: a peak that is no end of a step lies between.
					if p.Name == series.Name && (math.Abs(float64(p.Peak)-peak) > 0.06) {
						t.Errorf("%s: %v at its peak, followed %.6g", p.Name, p.Peak, peak)
					}
				}
			}
			if s.Period != d.Period || s.Lasting {
				t.Errorf("period %g, lasting %v", s.Period, s.Lasting)
			}
		})
	}
}

// Of a current that is on for a third of the time: rms I/√3, mean I/3.
func TestDuty_means(t *testing.T) {
	d := duty(t, with("current: 140 A", onOff))
	if math.Abs(d.Rms-180/math.Sqrt(3)) > 1e-6 || math.Abs(d.Mean-60) > 1e-6 || d.Current != 180 || d.Period != 900 {
		t.Errorf("rms %.9g A, mean %.9g A, largest %g A, period %g s", d.Rms, d.Mean, d.Current, d.Period)
	}
	ramp := duty(t, with("current: 140 A", "duty: [0 A to 120 A over 10 min, 120 A to 0 A over 10 min]"))
	if math.Abs(ramp.Rms-120/math.Sqrt(3)) > 1e-6 || math.Abs(ramp.Mean-60) > 1e-6 {
		t.Errorf("a ramp: rms %.9g A, mean %.9g A", ramp.Rms, ramp.Mean)
	}
	if math.Abs(d.Stored) > 1e-4*d.Made || math.Abs(d.Made-d.Lost) > 1e-4*d.Made {
		t.Errorf("made %g J, lost %g J, stored %g J", d.Made, d.Lost, d.Stored)
	}
}

// A cycle of one current is that current left on.
func TestDuty_even(t *testing.T) {
	d := duty(t, with("current: 140 A", "duty: [140 A for 5 min, 140 A for 10 min]"))
	s := steady(t, read(t, feed))
	if math.Abs(float64(d.Hottest.Temp-s.Hottest.Temp)) > 1e-3 || math.Abs(float64(d.Hottest.Careless-s.Hottest.Careless)) > 1e-3 {
		t.Errorf("%v … %v, left on %v … %v", d.Hottest.Temp, d.Hottest.Careless, s.Hottest.Temp, s.Hottest.Careless)
	}
	if math.Abs(d.ByRms.Short) > 1e-3 || math.Abs(d.ByMean.Short) > 1e-3 {
		t.Errorf("rules fall short by %g K and %g K", d.ByRms.Short, d.ByMean.Short)
	}
	if len(d.Margins) != len(s.Margins) {
		t.Fatalf("%d limits, %d left on", len(d.Margins), len(s.Margins))
	}
	for i, m := range d.Margins {
		if math.Abs(m.Left-s.Margins[i].Left) > 2e-3 || m.Name != s.Margins[i].Name {
			t.Errorf("%s: %g K left, left on %g K", m.Name, m.Left, s.Margins[i].Left)
		}
	}
}

// What is quick follows the peaks: the longer the period, the more the rms rule
// falls short, and never at the slowest body more than at the element.
func TestDuty_rule(t *testing.T) {
	short := duty(t, with("current: 140 A", "duty: [180 A for 2 s, 0 A for 4 s]"))
	long := duty(t, with("current: 140 A", "duty: [180 A for 30 min, 0 A for 60 min]"))
	if !(short.ByRms.Short < long.ByRms.Short) || short.ByRms.Short < -0.1 {
		t.Errorf("short by %g K within seconds, %g K within 90 min", short.ByRms.Short, long.ByRms.Short)
	}
	for _, d := range []*Duty{short, long} {
		if d.Element == nil || float64(d.Element.Peak-d.Element.Rms) < d.ByRms.Short-1e-9 || d.ByRms.Worst < d.ByRms.Short {
			t.Errorf("element %+v, rule %+v", d.Element, d.ByRms)
		}
		for _, p := range d.Places {
			if p.Lowest > p.Mean || p.Mean > p.Peak {
				t.Errorf("%s: %v … %v … %v", p.Name, p.Lowest, p.Mean, p.Peak)
			}
		}
	}
	// Within seconds even the terminals stay near the rms rule: heat adds up
	// with the square of the current.
	if math.Abs(short.ByRms.Short) > 1 {
		t.Errorf("short by %g K", short.ByRms.Short)
	}
}

func TestDuty_without(t *testing.T) {
	_, err := RunDuty(context.Background(), read(t, feed))
	var input *InputError
	if !errors.As(err, &input) || !strings.Contains(input.Hint, "duty:") {
		t.Errorf("%v", err)
	}
	swings := strings.NewReplacer("current: 15 A", "current: [15 A for 10 min, 5 A]",
		"air: 25 °C", "air: [15 °C to 25 °C over 1 h, 25 °C to 15 °C over 1 h]").Replace(circuits)
	if _, err = RunDuty(context.Background(), read(t, swings)); !errors.As(err, &input) || !strings.Contains(input.Text, "not all") {
		t.Errorf("a current that ends in air that repeats is no cycle: %v", err)
	}
	s, err := RunSoak(context.Background(), read(t, swings), SoakOptions{})
	if err != nil || s.Lasting || s.Until != restlessSoak || len(s.Airs) != len(s.Times) {
		t.Errorf("followed for %g s, lasting %v, %v", s.Until, s.Lasting, err)
	}
}

// A cycle whose peaks no material stands is an answer in words.
func TestDuty_runsAway(t *testing.T) {
	_, err := RunDuty(context.Background(), read(t, with("current: 140 A", "duty: [900 A for 5 min, 0 A for 5 min]")))
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "no lasting cycle") {
		t.Errorf("%v", err)
	}
}

// In air that swings the rises count from the air of the moment.
func TestDuty_air(t *testing.T) {
	day := strings.NewReplacer("current: 140 A", "duty: [140 A for 10 min, 140 A for 5 min]",
		"air: 25 °C", "air:\n  - 15 °C to 35 °C over 12 h\n  - 35 °C to 15 °C over 12 h").Replace(feed)
	d := duty(t, day)
	if d.Period != 24*3600 || math.Abs(d.AirFrom.Celsius()-15) > 1e-9 || math.Abs(d.Air.Celsius()-35) > 1e-9 {
		t.Errorf("period %g s, air %v … %v", d.Period, d.AirFrom, d.Air)
	}
	hot := steady(t, read(t, strings.Replace(feed, "air: 25 °C", "air: 35 °C", 1)))
	// A day is slow for the stack: it nearly reaches the state of the hottest air,
	// later than that.
	if late := d.PeakAt - 12*3600; late < 0 || late > 2*3600 || math.Abs(float64(d.Hottest.Temp-hot.Hottest.Temp)) > 1.5 || d.Hottest.Temp > hot.Hottest.Temp+0.01 {
		t.Errorf("%v at %g s, left on in the hottest air %v", d.Hottest.Temp, d.PeakAt, hot.Hottest.Temp)
	}
	s := steady(t, read(t, day))
	if math.Abs(float64(s.Hottest.Temp-hot.Hottest.Temp)) > 1e-6 {
		t.Errorf("steady takes %v, in the hottest air it is %v", s.Hottest.Temp, hot.Hottest.Temp)
	}
	told := strings.Join(s.Warnings, "\n")
	if !strings.Contains(told, "clampheat duty") || !strings.Contains(told, "the air changes") {
		t.Errorf("not told: %s", told)
	}
}

// A duty of branches: each shares as it does left on.
func TestDuty_branched(t *testing.T) {
	sc := bankOf(t, "A B", "A out B", "current: 300 A=duty: [300 A for 5 min, 30 A for 5 min]")
	d, err := RunDuty(context.Background(), sc)
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Sqrt((300*300 + 30*30) / 2.0); math.Abs(d.Rms-want) > 1e-6 {
		t.Errorf("rms %g A, want %g", d.Rms, want)
	}
	peak := map[string]float64{}
	for _, p := range d.Places {
		peak[p.Name] = float64(p.Peak)
	}
	if a, b := peak["A: fuse 200 A"], peak["B: fuse 200 A"]; math.Abs(a-b) > 1e-3 || a == 0 {
		t.Errorf("A %g K, B %g K", a, b)
	}
}
