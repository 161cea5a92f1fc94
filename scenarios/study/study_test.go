package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"clampheat/scenarios"
)

func open(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	data, err := scenarios.Example(name)
	if err != nil {
		t.Fatal(err)
	}
	return read(t, string(data))
}

func read(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	sc, err := scenarios.Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// feed is a short stack to change in tests.
const feed = `title: Test feed
current: 140 A
air: 25 °C
path:
  - battery post: M8
    nut: 12 N·m
  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m
  - cable: 1/0 AWG
    length: 1.5 m
    insulation: 105 °C
  - inverter terminal: M8
    nut: 12 N·m
`

func with(old, new string) string { return strings.Replace(feed, old, new, 1) }

func steady(t *testing.T, sc *scenarios.Scenario) *Steady {
	t.Helper()
	s, err := RunSteady(context.Background(), sc)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func sum(w []Watts) float64 {
	total := 0.0
	for _, x := range w {
		total += x.Heat
	}
	return total
}

func TestSteady(t *testing.T) {
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			s := steady(t, open(t, e.Name))
			if made, lost := sum(s.Made), sum(s.Lost); math.Abs(made-lost) > 1e-6*math.Max(made, 1e-3) || math.Abs(made-s.Heat) > 1e-9+1e-9*made {
				t.Errorf("made %g W, lost %g W, flow %g W", made, lost, s.Heat)
			}
			if s.Hottest.Careful > s.Hottest.Temp || s.Hottest.Temp > s.Hottest.Careless {
				t.Errorf("range %v … %v … %v is not in order", s.Hottest.Careful, s.Hottest.Temp, s.Hottest.Careless)
			}
			hottest, drop, heat := 0.0, 0.0, 0.0
			for _, r := range s.Rows {
				if r.Terminal {
					hottest = math.Max(hottest, float64(r.Temp))
				}
				drop += r.Drop
				heat += r.Heat
			}
			if hottest != float64(s.Hottest.Temp) {
				t.Errorf("headline %v, hottest terminal of the rows %v", s.Hottest.Temp, hottest)
			}
			if s.Box != nil {
				heat += s.Box.Other
			}
			if len(s.Branches) > 0 || s.Power > 0 {
				drop = s.Drop // of a circuit it is no sum of the rows
			}
			if math.Abs(drop-s.Drop) > 1e-9 || math.Abs(heat-s.Heat) > 1e-9*math.Max(heat, 1) {
				t.Errorf("rows add up to %g V and %g W, headline %g V and %g W", drop, heat, s.Drop, s.Heat)
			}
			if s.Numerics.Cutting > 0.1 {
				t.Errorf("half the cells change the hottest terminal by %g K", s.Numerics.Cutting)
			}
			if _, err := json.Marshal(s); err != nil {
				t.Error(err)
			}
		})
	}
}

// A soak left on long enough ends where the settled state is.
func TestSoak_endsAtSteady(t *testing.T) {
	sc := read(t, feed)
	s, err := RunSoak(context.Background(), sc, SoakOptions{For: 48 * 3600})
	if err != nil {
		t.Fatal(err)
	}
	settled := steady(t, sc)
	if d := float64(s.Hottest.Temp - settled.Hottest.Temp); math.Abs(d) > 1e-3 {
		t.Errorf("soak ends %g K from the settled state", d)
	}
	if s.Hottest.Place != settled.Hottest.Place || s.Final != settled.Hottest.Temp {
		t.Errorf("soak: %s %v, settled: %s %v", s.Hottest.Place, s.Final, settled.Hottest.Place, settled.Hottest.Temp)
	}
	if !(0 < s.To90 && s.To90 < s.To99) || !(s.Settled > s.To90) {
		t.Errorf("90 %% at %g s, 99 %% at %g s, settled at %g s", s.To90, s.To99, s.Settled)
	}
	if r := s.Made - s.Lost - s.Stored; math.Abs(r) > 1e-3*s.Made {
		t.Errorf("energy: made %g J, lost %g J, stored %g J", s.Made, s.Lost, s.Stored)
	}
	at := func(time float64) float64 {
		for i, v := range s.Times {
			if v >= time {
				for _, series := range s.Series {
					if series.Name == s.Hottest.Place {
						return float64(series.Temps[i])
					}
				}
			}
		}
		return math.NaN()
	}
	if air := 298.15; at(s.To90)-air < 0.895*(float64(s.Final)-air) {
		t.Errorf("at %g s the terminal has %g K of %g K", s.To90, at(s.To90)-air, float64(s.Final)-air)
	}
}

func TestSoak_start(t *testing.T) {
	for name, tc := range map[string]struct {
		start string
		want  float64
	}{
		"air":              {"", 298.15},
		"all at one":       {"start: 30 °C\n", 303.15},
		"hottest terminal": {"start: hottest terminal 40 °C\n", 313.15},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := RunSoak(context.Background(), read(t, tc.start+feed), SoakOptions{For: 600})
			if err != nil {
				t.Fatal(err)
			}
			hottest := 0.0
			for _, series := range s.Series {
				if series.Terminal {
					hottest = math.Max(hottest, float64(series.Temps[0]))
				}
			}
			if math.Abs(hottest-tc.want) > 1e-6 {
				t.Errorf("hottest terminal starts at %g K, want %g K", hottest, tc.want)
			}
		})
	}
}

// The steps of a supply are hit: the row at a step has the current that
// follows, and the temperature turns there.
func TestSoak_steps(t *testing.T) {
	sc := read(t, with("current: 140 A", "current:\n  - 200 A for 10 min\n  - 0 A"))
	s, err := RunSoak(context.Background(), sc, SoakOptions{For: 1200, Every: 97})
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for i, v := range s.Times {
		if v != 600 {
			continue
		}
		found = true
		if s.Currents[i] != 0 || s.Currents[i-1] != 200 {
			t.Errorf("current %g A before and %g A at the step", s.Currents[i-1], s.Currents[i])
		}
		for _, series := range s.Series {
			if series.Terminal && !(series.Temps[i] > series.Temps[i-1] && series.Temps[i] > series.Temps[len(series.Temps)-1]) {
				t.Errorf("%s does not peak at the step", series.Name)
			}
		}
	}
	if !found {
		t.Errorf("no row at the step: %v", s.Times)
	}
}

func TestNoAnswer(t *testing.T) {
	sc := read(t, with("140 A", "900 A"))
	_, err := RunSteady(context.Background(), sc)
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "highest current that has one") {
		t.Fatalf("steady: %v", err)
	}
	s, err := RunSoak(context.Background(), sc, SoakOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Lasting || s.Until > 3600 || len(s.Warnings) == 0 {
		t.Errorf("a runaway soak: lasting %v, until %g s, warnings %v", s.Lasting, s.Until, s.Warnings)
	}
}

func TestLimits(t *testing.T) {
	margin := func(s *Steady, name string) *Margin {
		for i := range s.Margins {
			if strings.Contains(s.Margins[i].Name, name) {
				return &s.Margins[i]
			}
		}
		return nil
	}
	t.Run("rise in air above 40 °C", func(t *testing.T) {
		s := steady(t, read(t, with("air: 25 °C", "air: 50 °C")))
		m := margin(s, "tin-plated")
		if m == nil || math.Abs(m.Limit.Celsius()-105) > 1e-9 {
			t.Errorf("a rise of 65 K in air of 50 °C: %+v, want a limit of 105 °C", m)
		}
	})
	t.Run("own limit passed", func(t *testing.T) {
		s := steady(t, read(t, "limits: 30 °C\n"+feed))
		if m := margin(s, "own limit"); m == nil || m.Verdict != Passed || !m.Asked || s.Exit() != 1 {
			t.Errorf("%+v, exit %d", m, s.Exit())
		}
	})
	t.Run("touch holds and passes", func(t *testing.T) {
		s := steady(t, read(t, "limits: touch 1 s\n"+feed))
		if m := margin(s, "touch 1 s"); m == nil || m.Verdict != Holds || s.Exit() != 0 {
			t.Errorf("touch 1 s: %+v, exit %d", m, s.Exit())
		}
		s = steady(t, read(t, "limits: touch 10 min\n"+feed))
		if s.Exit() != 1 {
			t.Errorf("touch 10 min at %v holds", s.Hottest.Temp)
		}
	})
	t.Run("touch longer than the table", func(t *testing.T) {
		s := steady(t, read(t, "limits: touch 100 h\n"+feed))
		if m := margin(s, "touch 100 h"); m == nil || m.Verdict != Unknown || s.Exit() != 1 {
			t.Errorf("%+v, exit %d: UNKNOWN is not a pass", m, s.Exit())
		}
	})
}

func TestCheck(t *testing.T) {
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			c, err := RunCheck(context.Background(), open(t, e.Name), Options{Detail: true})
			if err != nil {
				t.Fatal(err)
			}
			if len(c.Parts) == 0 || len(c.Joints) == 0 || len(c.Assumptions) == 0 || len(c.Nodes) == 0 {
				t.Errorf("%d parts, %d joints, %d assumptions, %d nodes", len(c.Parts), len(c.Joints), len(c.Assumptions), len(c.Nodes))
			}
			for _, j := range c.Joints {
				current := c.Current
				for _, b := range c.Branches {
					if strings.HasPrefix(j.Name, b.Name+": ") {
						current = b.Current
					}
				}
				if want := j.Resistance.Likely * current; math.Abs(j.Drop.Likely-want) > 1e-12 {
					t.Errorf("%s: %g V on the meter, want %g", j.Name, j.Drop.Likely, want)
				}
			}
			for _, a := range c.Assumptions {
				if a.Source == "" && a.Ground == "" {
					t.Errorf("%s has neither source nor ground", a.ID)
				}
			}
			if _, err := json.Marshal(c); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestMeasured(t *testing.T) {
	sc := read(t, feed)
	soak := func(log string) (*Soak, error) {
		m, err := ReadMeasured("log.csv", strings.NewReader(log))
		if err != nil {
			return nil, err
		}
		return RunSoak(context.Background(), sc, SoakOptions{For: 900, Measured: m})
	}
	t.Run("against itself", func(t *testing.T) {
		s, err := soak("time_min,battery post M8 [°C]\n0,25\n15,25\n")
		if err != nil {
			t.Fatal(err)
		}
		last := s.Series[0].Temps[len(s.Series[0].Temps)-1].Celsius()
		if d := s.Measured[0]; d.Place != s.Series[0].Name || math.Abs(d.Largest-(last-25)) > 0.01 || d.At != 900 {
			t.Errorf("%+v, want a difference of %g K", d, last-25)
		}
	})
	t.Run("fahrenheit and a gap", func(t *testing.T) {
		s, err := soak("time_s,battery_post_m8_F\n0,77\n10,\n")
		if err != nil {
			t.Fatal(err)
		}
		if d := s.Measured[0]; len(d.Times) != 1 || math.Abs(d.Mean) > 1e-9 {
			t.Errorf("%+v, want one reading that agrees", d)
		}
	})
	t.Run("current and air/passed over", func(t *testing.T) {
		const log = "time_s,current_A,battery post M8_C,air [°C]\n0,141.2,25,24.8\n10,warm,25,\n"
		m, err := ReadMeasured("log.csv", strings.NewReader(log))
		if err != nil {
			t.Fatal(err)
		}
		if want := []string{"current_A", "air [°C]"}; !slices.Equal(m.Ignored, want) || len(m.Channels) != 1 || len(m.Channels[0].Temps) != 2 {
			t.Errorf("%+v, want %v passed over", m, want)
		}
		if _, err := soak(log); err != nil {
			t.Error(err)
		}
	})
	t.Run("place of a reading", func(t *testing.T) {
		for text, want := range map[string][2]int{
			"time_s,battery post M8_C\n0,25\n1,-101\n":                 {3, 3},
			"time_s,battery post M8_C\n0,1001\n":                       {2, 3},
			"time_s,battery post M8_F\n0,1833\n":                       {2, 3},
			"time_s,battery post M8_K\n0,25\n":                         {2, 3},
			"time_s,battery post M8_C,Battery-Post M8 [K]\n0,25,298\n": {1, 26},
		} {
			_, err := ReadMeasured("log.csv", strings.NewReader(text))
			var problems *scenarios.Problems
			if !errors.As(err, &problems) || len(problems.List) != 1 || [2]int{problems.List[0].Line, problems.List[0].Column} != want {
				t.Errorf("%q: %v, want one complaint at %v", text, err, want)
			}
		}
		for _, text := range []string{"time_s,battery post M8_C\n0,-100\n", "time_s,battery post M8_C\n0,1000\n"} {
			if _, err := ReadMeasured("log.csv", strings.NewReader(text)); err != nil {
				t.Errorf("%q: %v", text, err)
			}
		}
	})
	for name, log := range map[string]string{
		"no unit":       "time_s,battery post\n0,25\n",
		"no time":       "battery post M8_C\n25\n",
		"unknown place": "time_s,engine_C\n0,25\n",
		"text":          "time_s,battery post M8_C\n0,warm\n",
		"falling times": "time_s,battery post M8_C\n5,25\n4,25\n",
		"too late":      "time_s,battery post M8_C\n5000,25\n",
		"empty":         "",
		"semicolons":    "time_s;battery post M8_C\n0;25\n",
		"no rows":       "time_s,battery post M8_C\n",
	} {
		t.Run(name, func(t *testing.T) {
			_, err := soak(log)
			var problems *scenarios.Problems
			if !errors.As(err, &problems) || len(problems.List) != 1 || problems.List[0].Line < 1 {
				t.Errorf("error %v, want one complaint with a place", err)
			}
		})
	}
}

func FuzzReadMeasured(f *testing.F) {
	f.Add("time_s,lug_C\n0,25\n1,26\n")
	f.Add("time [min];x\n")
	f.Add("\ufefftime_h,\"fuse 300 A, nut side [°F]\"\n0,77\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, err := ReadMeasured("log.csv", strings.NewReader(text))
		if err != nil {
			var problems *scenarios.Problems
			if !errors.As(err, &problems) || len(problems.List) == 0 {
				t.Fatalf("error %v without a complaint", err)
			}
			return
		}
		for _, c := range log.Channels {
			if len(c.Temps) != len(log.Times) {
				t.Fatalf("%d readings at %d times", len(c.Temps), len(log.Times))
			}
		}
	})
}
