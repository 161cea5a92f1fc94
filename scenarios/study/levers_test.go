package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

func levers(t *testing.T, sc *scenarios.Scenario) *Levers {
	t.Helper()
	r, err := RunLevers(context.Background(), sc)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// lever finds one by a part of its name.
func lever(t *testing.T, list []Lever, name string) Lever {
	t.Helper()
	for _, l := range list {
		if strings.Contains(l.Name, name) {
			return l
		}
	}
	t.Fatalf("no lever is called %q", name)
	return Lever{}
}

// Each lever is what the file with the change written into it gives.
func TestLeversAsWritten(t *testing.T) {
	base := read(t, with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    cover: closed\n"))
	before := steady(t, base)
	r := levers(t, base)
	text := with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    cover: closed\n")
	for _, c := range []struct {
		list     []Lever
		name     string
		old, new string
	}{
		{r.Cool, "less current", "current: 140 A", "current: 126 A"},
		{r.Cool, "5 K cooler", "air: 25 °C", "air: 20 °C"},
		{r.Cool, "air moved", "air: 25 °C", "air: 25 °C\nair speed: 1 m/s"},
		{r.Cool, "next cable size", "1/0 AWG", "2/0 AWG"},
		{r.Cool, "same fuse rating", "fuse: 300 A", "fuse: 300 A\n    fuse drop: 60 mV at 300 A"},
		{r.Cool, "no cover", "cover: closed", "cover: none"},
		{r.Cool, "faces of compact holder", "cover: closed", "cover: closed\n    faces: brushed"},
		{r.Hurt, "15 K warmer", "air: 25 °C", "air: 40 °C"},
		{r.Hurt, "half the torque: compact holder", "8.5 N·m", "4.25 N·m"},
	} {
		t.Run(c.name, func(t *testing.T) {
			after := steady(t, read(t, strings.Replace(text, c.old, c.new, 1)))
			l := lever(t, c.list, c.name)
			if want := float64(after.Hottest.Temp - before.Hottest.Temp); math.Abs(l.Change-want) > 1e-5 {
				t.Errorf("the lever says %.6f K, the file with %q says %.6f K", l.Change, c.new, want)
			}
			if want := float64(after.Hottest.Careless - before.Hottest.Careless); l.Careless == nil || math.Abs(*l.Careless-want) > 1e-5 {
				t.Errorf("the lever says %v for careless assembly, the file %.6f K", l.Careless, want)
			}
			if math.Abs(float64(l.Temp-after.Hottest.Temp)) > 1e-5 || l.Where != after.Hottest.Place {
				t.Errorf("the lever ends at %.5f K, %s; the file at %.5f K, %s", l.Temp, l.Where, after.Hottest.Temp, after.Hottest.Place)
			}
		})
	}
	t.Run("a second bar/twice the thickness", func(t *testing.T) {
		data, err := scenarios.Example("high-capacity")
		if err != nil {
			t.Fatal(err)
		}
		sc := read(t, string(data))
		l := lever(t, levers(t, sc).Cool, "second link bar")
		after := steady(t, read(t, strings.Replace(string(data), "30 × 5 mm", "30 × 10 mm", 1)))
		if want := float64(after.Hottest.Temp - steady(t, sc).Hottest.Temp); math.Abs(l.Change-want) > 1e-5 {
			t.Errorf("the lever says %.6f K, the file %.6f K", l.Change, want)
		}
		if l.Write != "section: 30.0 × 10.0 mm" {
			t.Errorf("the file would say %q", l.Write)
		}
	})
}

// No step goes past a stated torque, raises a fuse's rating, or adds a fuse; and
// none leaves its mark on the scenario.
func TestLeversKeepWithinBounds(t *testing.T) {
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			sc := open(t, e.Name)
			untouched := open(t, e.Name)
			base, err := sc.Stack(nil)
			if err != nil {
				t.Fatal(err)
			}
			ratings := func(s *model.Stack) (list []float64) {
				for _, p := range s.Parts {
					if f, ok := p.(*model.Fuse); ok {
						list = append(list, f.Rated)
					}
				}
				return list
			}
			settled, err := settle(context.Background(), still(base), model.Likely, model.Mesh{})
			if err != nil {
				t.Fatal(err)
			}
			cool, hurt := possible(sc, settled)
			for _, c := range append(cool, hurt...) {
				s, err := c.stack(sc)
				if err != nil {
					t.Errorf("%s: %v", c.name, err)
					continue
				}
				for i, b := range s.Bolts {
					if b.Torque > base.Bolts[i].Torque {
						t.Errorf("%s: %s at %.3g N·m, stated %.3g", c.name, b.Name, b.Torque, base.Bolts[i].Torque)
					}
				}
				if got, want := ratings(s), ratings(base); !reflect.DeepEqual(got, want) {
					t.Errorf("%s: fuses of %v A, in the file %v A", c.name, got, want)
				}
				if len(s.Joints) != len(base.Joints) || len(s.Parts) != len(base.Parts) {
					t.Errorf("%s: %d joints and %d parts, in the file %d and %d", c.name, len(s.Joints), len(s.Parts), len(base.Joints), len(base.Parts))
				}
			}
			again, err := sc.Stack(nil)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(again, base) || !reflect.DeepEqual(sc.File, untouched.File) {
				t.Error("the scenario is not what it was")
			}
		})
	}
}

func TestLevers(t *testing.T) {
	t.Run("order/best first, worst first, the same each time", func(t *testing.T) {
		r := levers(t, read(t, feed))
		for i := range r.Cool[1:] {
			if r.Cool[i].Change > r.Cool[i+1].Change+slight {
				t.Errorf("%s (%.3f K) stands before %s (%.3f K)", r.Cool[i].Name, r.Cool[i].Change, r.Cool[i+1].Name, r.Cool[i+1].Change)
			}
		}
		for i := range r.Hurt[1:] {
			if r.Hurt[i].Change < r.Hurt[i+1].Change-slight {
				t.Errorf("%s (%.3f K) stands before %s (%.3f K)", r.Hurt[i].Name, r.Hurt[i].Change, r.Hurt[i+1].Name, r.Hurt[i+1].Change)
			}
		}
		a, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		b, err := json.Marshal(levers(t, read(t, feed)))
		if err != nil || string(a) != string(b) {
			t.Errorf("a second run differs: %v", err)
		}
	})
	t.Run("a joint/ten times is worse than three times, neither cools", func(t *testing.T) {
		r := levers(t, read(t, feed))
		times := map[string]map[string]float64{}
		for _, l := range r.Hurt {
			if strings.HasPrefix(l.Kind, "joint") {
				if times[l.Place] == nil {
					times[l.Place] = map[string]float64{}
				}
				times[l.Place][l.Kind] = l.Change
			}
		}
		if len(times) != 6 {
			t.Errorf("%d joints, the stack has 4 faces and 2 crimps", len(times))
		}
		for place, l := range times {
			// A worse joint also keeps heat from a neighbour.
			if !(l["joint × 10"] >= l["joint × 3"]-1e-9 && l["joint × 3"] > -0.1) {
				t.Errorf("%s: × 3 does %.3f K, × 10 does %.3f K", place, l["joint × 3"], l["joint × 10"])
			}
		}
	})
	t.Run("a nut short of its torque/its own lever, worth its clamp", func(t *testing.T) {
		text := with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    clamp kept: 30 %\n    faces: corroded\n")
		l := lever(t, levers(t, read(t, text)).Cool, "tighten to the stated torque: compact holder")
		after := steady(t, read(t, strings.Replace(text, "clamp kept: 30 %", "clamp kept: 100 %\n    tightened: torque wrench", 1)))
		want := float64(after.Hottest.Temp - steady(t, read(t, text)).Hottest.Temp)
		if math.Abs(l.Change-want) > 1e-5 || l.Change > -0.1 {
			t.Errorf("the lever says %.6f K, the file %.6f K", l.Change, want)
		}
		if r := levers(t, read(t, feed)); strings.Contains(names(r.Cool), "tighten to the stated torque") {
			t.Error("a nut of which the file says nothing has a lever of its own")
		}
	})
	t.Run("a measured joint/not brushed, but loosened in proportion", func(t *testing.T) {
		text := with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    measured: 30 µΩ\n")
		r := levers(t, read(t, text))
		if strings.Contains(names(r.Cool), "faces of compact holder") {
			t.Error("what brushing does to a measured joint is not known")
		}
		sc := read(t, text)
		stack, err := sc.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		before := predicted(t, sc, 1)
		if err := loosen(stack, 1, halfTorque); err != nil {
			t.Fatal(err)
		}
		found, all := 0, 0.0 // faces under the nut, and what they have predicted together
		for i, j := range stack.Joints {
			if j.Measured != nil {
				found++
				all += before[i]
			}
		}
		for i, j := range stack.Joints {
			if j.Measured == nil {
				continue
			}
			bare := *stack
			bare.Joints = append([]model.Joint(nil), stack.Joints...)
			bare.Joints[i].Measured = nil
			f, err := bare.JointFigures(i)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := j.Measured.Resistance, 30e-6*f.Resistance.Likely/all; math.Abs(got-want) > 1e-12 {
				t.Errorf("%s: %.4g Ω, in proportion %.4g Ω", j.Name, got, want)
			}
		}
		if found != 2 {
			t.Errorf("%d measured joints under one nut, want 2", found)
		}
	})
	t.Run("a measured joint that is bad/made anew, as the file without its measure", func(t *testing.T) {
		text := with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    measured: 250 µΩ\n")
		l := lever(t, levers(t, read(t, text)).Cool, "take apart, brush, grease, tighten as stated: compact holder")
		after := steady(t, read(t, strings.Replace(text, "measured: 250 µΩ", "faces: brushed", 1)))
		// The word in the file also brushes the face on the post, worth some mK.
		if want := float64(after.Hottest.Temp - steady(t, read(t, text)).Hottest.Temp); math.Abs(l.Change-want) > 0.05 || l.Change > -10 {
			t.Errorf("the lever says %.4f K, the file %.4f K", l.Change, want)
		}
		good := levers(t, read(t, strings.Replace(text, "250 µΩ", "0.1 µΩ", 1)))
		if strings.Contains(names(good.Cool), "take apart") {
			t.Error("a joint better than predicted is not to be taken apart")
		}
	})
	t.Run("a joint past bearing/said, not a number", func(t *testing.T) {
		r := levers(t, read(t, with("    nut: 8.5 N·m\n", "    nut: 8.5 N·m\n    measured: 1 mΩ\n")))
		if l := r.Hurt[0]; l.Ends == "" || l.Temp != 0 || l.Change != 0 || l.Careless != nil {
			t.Errorf("10 mΩ at 140 A: %+v", l)
		}
	})
	t.Run("no lasting state/an error", func(t *testing.T) {
		_, err := RunLevers(context.Background(), read(t, with("140 A", "1400 A")))
		var none *NoAnswerError
		if !errors.As(err, &none) {
			t.Errorf("got %v", err)
		}
	})
	t.Run("the largest cable/no next one", func(t *testing.T) {
		if r := levers(t, read(t, with("1/0 AWG", "600 kcmil\n    wall: 2.5 mm"))); strings.Contains(names(r.Cool), "next cable") {
			t.Error("a cable beyond the trade's largest")
		}
	})
}

func names(list []Lever) string {
	var all []string
	for _, l := range list {
		all = append(all, l.Name)
	}
	return strings.Join(all, "\n")
}

// predicted are the ohms of all joints without their measures.
func predicted(t *testing.T, sc *scenarios.Scenario, bolt int) map[int]float64 {
	t.Helper()
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	out := map[int]float64{}
	for i := range stack.Joints {
		stack.Joints[i].Measured = nil
		f, err := stack.JointFigures(i)
		if err != nil {
			t.Fatal(err)
		}
		out[i] = f.Resistance.Likely
	}
	return out
}

// The next size is that of the trade: ASTM B258 counts 1/0, 2/0 … 4/0, after
// which the trade goes on in thousands of circular mils; IEC 60228 has 50, 70,
// 95 mm².
func TestNextConductor(t *testing.T) {
	for name, want := range map[string]string{
		"4 AWG": "3 AWG", "1 AWG": "1/0 AWG", "1/0 AWG": "2/0 AWG", "4/0 AWG": "250 kcmil",
		"1/0 AWG tinned": "2/0 AWG tinned", "600 kcmil": "",
		"50 mm²": "70 mm²", "70 mm² class 2": "95 mm² class 2",
	} {
		c, err := materials.LookupConductor(name)
		if err != nil {
			t.Fatal(err)
		}
		got := nextConductor(c)
		if got == want {
			continue
		}
		g, err := materials.LookupConductor(got)
		if err != nil {
			t.Errorf("after %s comes %q, want %q: %v", name, got, want, err)
			continue
		}
		if w, err := materials.LookupConductor(want); err != nil || w.Name != g.Name {
			t.Errorf("after %s comes %q, want %q", name, got, want)
		}
	}
}

// The derivatives of a result agree to 1e-6 with central differences of stacks
// put together and solved anew.
func TestSensitivitiesAgainstDifferences(t *testing.T) {
	for _, example := range []string{"compact", "high-capacity", "long-bar"} {
		t.Run(example, func(t *testing.T) { againstDifferences(t, open(t, example)) })
	}
}

func againstDifferences(t *testing.T, sc *scenarios.Scenario) {
	assemble := func(change func(*model.Stack)) *model.Assembly {
		stack, err := sc.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		change(stack)
		a, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	hot := -1
	solve := func(change func(*model.Stack)) float64 {
		a := assemble(change)
		start := a.Start(nil)
		for i := range start {
			start[i] += guessRise
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: start, Tol: solver.MinSteadyTol})
		if err != nil {
			t.Fatal(err)
		}
		if hot < 0 {
			hot = a.HottestTerminal(r.X)
		}
		return a.RowTemp(hot, r.X)
	}
	solve(func(*model.Stack) {})
	r := levers(t, sc)
	s := r.Sensitivities
	const step = 1e-4
	check := func(what string, got float64, change func(*model.Stack, float64)) {
		t.Helper()
		end := func(by float64) float64 { return solve(func(stack *model.Stack) { change(stack, by) }) }
		if want := (end(step) - end(-step)) / (2 * step); math.Abs(got-want) > 1e-6*(math.Abs(want)+1) {
			t.Errorf("%s: %.10g, by a central difference %.10g", what, got, want)
		}
	}
	check("current", s.Current*r.Current, func(stack *model.Stack, by float64) {
		stack.Supply = model.Constant(r.Current * (1 + by))
	})
	check("air, walls and bodies", 100*s.Around, func(stack *model.Stack, by float64) {
		stack.Surroundings.Air += 100 * by
		stack.Surroundings.Radiant += 100 * by
	})
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, j := range stack.Joints {
		f, err := stack.JointFigures(i)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range s.Rows {
			if row.Kind != "joint" || row.Name != j.Name || j.Kind != model.Bolted {
				continue
			}
			check("ohms of "+j.Name, row.Ohms/percent, func(stack *model.Stack, by float64) {
				stack.Joints[i].Measured = &model.Measured{Resistance: f.Resistance.Likely * (1 + by)}
			})
			check("conductance of "+j.Name, row.Conductance/percent, func(stack *model.Stack, by float64) {
				stack.Joints[i].Measured = &model.Measured{Resistance: f.Resistance.Likely, Conductance: f.Conductance.Likely * (1 + by)}
			})
		}
	}
}
