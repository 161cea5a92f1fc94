package study

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

func torque(t *testing.T, sc *scenarios.Scenario, nut string) *Torque {
	t.Helper()
	r, err := RunTorque(context.Background(), sc, TorqueOptions{Nut: nut})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// dirty is a stack in which a loose nut matters.
func dirty(more string) string {
	return strings.NewReplacer("140 A", "190 A", "nut: 8.5 N·m", "nut: 8.5 N·m\n    faces: corroded"+more).Replace(feed)
}

func TestTorque_examples(t *testing.T) {
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			sc := open(t, e.Name)
			r := torque(t, sc, "")
			if want := steady(t, sc).Hottest; r.Hottest != want {
				t.Errorf("headline %+v, settled stack %+v", r.Hottest, want)
			}
			if d := float64(r.OwnCurve().Stated().Hottest - r.Hottest.Temp); math.Abs(d) > 1e-6 {
				t.Errorf("the sweep's stated torque is %g K off the headline", d)
			}
			for _, o := range r.Others {
				for _, c := range r.Changes {
					if c.Name == HalfTorque && o.Half > c.Change+1e-9 {
						t.Errorf("half the torque of %s costs %g K, of the nut chosen %g K", o.Nut, o.Half, c.Change)
					}
				}
			}
			one, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			if two, _ := json.Marshal(torque(t, sc, "")); string(one) != string(two) {
				t.Error("two runs differ")
			}
		})
	}
}

// More torque never raises the ohms of the faces, and never the hottest
// terminal by more than a tenth of a kelvin: a colder joint also conducts
// better, so that a neighbour may warm a little.
func TestTorque_moreTorque(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		current := rapid.IntRange(20, 220).Draw(rt, "current, A")
		faces := rapid.SampledFrom([]string{"brushed", "as received", "tarnished", "corroded"}).Draw(rt, "faces")
		text := strings.NewReplacer("140 A", fmt.Sprintf("%d A", current), "nut: 8.5 N·m", "nut: 8.5 N·m\n    faces: "+faces).Replace(feed)
		sc, err := scenarios.Read("drawn", []byte(text))
		if err != nil {
			rt.Fatal(err)
		}
		stack, err := sc.Stack(nil)
		if err != nil {
			rt.Fatal(err)
		}
		q := &torqueQuestion{sc: sc, stack: stack, bolt: rapid.IntRange(0, len(stack.Bolts)-1).Draw(rt, "nut")}
		low := rapid.Float64Range(0.5, 18).Draw(rt, "torque, N·m")
		at := func(torque float64) TorquePoint {
			p, err := q.try(context.Background(), q.with(q.bolt, func(b *model.Bolt) { b.Torque = torque }, nil))
			if err != nil {
				rt.Fatal(err)
			}
			return p
		}
		less, more := at(low), at(low*rapid.Float64Range(1.001, 1.1).Draw(rt, "times"))
		if !less.Lasts() {
			return
		}
		if !more.Lasts() {
			rt.Fatalf("%g N·m lasts, %g N·m does not: %s", less.Torque, more.Torque, more.Ends)
		}
		if more.Resistance > less.Resistance || more.FaceResistance > less.FaceResistance {
			rt.Fatalf("%g Ω after %g Ω", more.Resistance, less.Resistance)
		}
		if more.Hottest > less.Hottest+0.1 {
			rt.Fatalf("%v after %v", more.Hottest, less.Hottest)
		}
	})
}

func TestTorque_sweep(t *testing.T) {
	r := torque(t, read(t, feed), "compact holder")
	t.Run("torques/from finger-tight to half as much again", func(t *testing.T) {
		points := r.OwnCurve().Points
		// A tip pinch of 78 N (Mathiowetz et al. 1985) across the 11.63 mm bearing
		// face of M8 (ISO 4014).
		if first := points[0]; first.Name != FingerTight || math.Abs(first.Torque-78*11.63e-3) > 1e-9 {
			t.Errorf("%+v", first)
		}
		if last := points[len(points)-1]; math.Abs(last.Torque-12.75) > 1e-9 || r.Highest != last.Torque {
			t.Errorf("ends at %g N·m", last.Torque)
		}
		for _, c := range r.Curves {
			for i, p := range c.Points {
				if p.Torque != points[i].Torque || (i > 0 && p.Torque <= points[i-1].Torque) {
					t.Fatalf("%s: torques %g and %g", c.Faces, points[max(i-1, 0)].Torque, p.Torque)
				}
			}
		}
	})
	t.Run("faces/dirtier is worse", func(t *testing.T) {
		if r.OwnCurve().Faces != "as received" || len(r.Curves) != 3 {
			t.Fatalf("%d curves, the file's is %s", len(r.Curves), r.OwnCurve().Faces)
		}
		for i := 1; i < len(r.Curves); i++ {
			for k, p := range r.Curves[i].Points {
				if better := r.Curves[i-1].Points[k]; p.Resistance <= better.Resistance || p.Hottest <= better.Hottest {
					t.Errorf("%s at %g N·m: %+v, before %+v", r.Curves[i].Faces, p.Torque, p, better)
				}
			}
		}
	})
	t.Run("meter/drop is current times ohms", func(t *testing.T) {
		p := r.OwnCurve().Stated()
		if math.Abs(p.Drop-140*p.Resistance) > 1e-12 || math.Abs(p.Heat-140*p.Drop) > 1e-9 || p.FaceDrop != r.Meter || r.MeterCareless <= r.Meter {
			t.Errorf("%+v, meter %g … %g V", p, r.Meter, r.MeterCareless)
		}
	})
	t.Run("yield/ends the sweep", func(t *testing.T) {
		// M8 of class 5.8 yields at less than half as much again as 16 N·m, and
		// at less than a fifth more than 18 N·m.
		for _, nut := range []string{"16", "18"} {
			r := torque(t, read(t, with("nut: 8.5 N·m", "nut: "+nut+" N·m")), "compact holder")
			if r.Highest != r.Yield || r.Share >= 1 {
				t.Errorf("%s N·m: swept to %g N·m, yield %g N·m", nut, r.Highest, r.Yield)
			}
			fifth := false
			for _, c := range r.Changes {
				fifth = fifth || c.Name == AFifthMore
			}
			if fifth != (nut == "16") {
				t.Errorf("%s N·m: 20 %% more is told: %v", nut, fifth)
			}
		}
	})
	t.Run("little torque/fingers give as much", func(t *testing.T) {
		r := torque(t, read(t, with("nut: 8.5 N·m", "nut: 1.5 N·m")), "compact holder")
		if r.Finger != 0 || r.OwnCurve().Points[0].Torque != 1.5/4 {
			t.Errorf("finger-tight %g N·m, sweep from %g N·m", r.Finger, r.OwnCurve().Points[0].Torque)
		}
	})
	t.Run("faces in the file/a curve of their own", func(t *testing.T) {
		r := torque(t, read(t, dirty("")), "compact holder")
		if len(r.Curves) != 4 || r.OwnCurve().Faces != "corroded" {
			t.Errorf("%d curves, the file's is %q", len(r.Curves), r.OwnCurve().Faces)
		}
	})
	t.Run("measured/told, and kept in proportion", func(t *testing.T) {
		r := torque(t, read(t, with("nut: 8.5 N·m", "nut: 8.5 N·m\n    measured: 50 µΩ")), "compact holder")
		if len(r.Warnings) == 0 || !strings.Contains(r.Warnings[0], "measured 50 µΩ") {
			t.Errorf("warnings %q", r.Warnings)
		}
		stated := r.OwnCurve().Stated()
		if math.Abs(float64(stated.Hottest-r.Hottest.Temp)) > 1e-6 || math.Abs(stated.Resistance/50e-6-1) > 0.2 {
			t.Errorf("at the stated torque %g Ω and %v, the file gives 50 µΩ and %v", stated.Resistance, stated.Hottest, r.Hottest.Temp)
		}
		for _, p := range r.OwnCurve().Points {
			if p.Torque < stated.Torque && p.FaceResistance < stated.FaceResistance {
				t.Errorf("%g N·m has %g Ω, less than the stated torque's %g Ω", p.Torque, p.FaceResistance, stated.FaceResistance)
			}
		}
		for _, c := range r.Curves {
			if c.Faces == "brushed" && c.Stated().FaceResistance > 10e-6 {
				t.Errorf("brushed faces keep the measured %g Ω", c.Stated().FaceResistance)
			}
		}
	})
}

// The clamp force goes with the torque, so that the ends of a wrench's scatter
// are the states of that share of the torque; and a thread's nut factor acts
// as a torque by the ratio.
func TestTorque_scatter(t *testing.T) {
	sc := read(t, dirty(""))
	r := torque(t, sc, "compact holder")
	if len(r.Bands) != 2 {
		t.Fatalf("%d bands", len(r.Bands))
	}
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range r.Bands {
		for factor, p := range map[float64]TorquePoint{b.Low: b.Loose, b.High: b.Tight} {
			s := changedNut(stack, 1, func(b *model.Bolt) { b.Torque *= factor }, nil)
			got, err := settle(context.Background(), s, model.Likely, model.Mesh{})
			if err != nil {
				t.Fatal(err)
			}
			want := got.temp(got.assembly.HottestTerminal(got.x))
			if math.Abs(float64(p.Hottest)-want) > 1e-6 {
				t.Errorf("%s, factor %g: %v, at that torque %g K", b.Name, factor, p.Hottest, want)
			}
		}
	}
	// A lot of screws on a wrench scatters by ±30 %: R. T. Barrett, Fastener
	// Design Manual, NASA RP-1228 (1990), and articles on coated screws; by feel
	// is taken wider.
	if b := r.Bands[0]; b.Low != 0.7 || b.High != 1.3 {
		t.Errorf("%+v", b)
	}
}

// The torque below which a limit is passed, found again from both sides.
func TestTorque_limit(t *testing.T) {
	base := torque(t, read(t, dirty("")), "compact holder").OwnCurve()
	half := 0.0
	for _, p := range base.Points {
		if p.Name == HalfTorque {
			half = p.Hottest.Celsius()
		}
	}
	sc := read(t, dirty(fmt.Sprintf("\n    limit: %.2f °C", half)))
	r := torque(t, sc, "compact holder")
	c := r.OwnCurve()
	if c.Always || c.Passed == nil || !strings.Contains(c.Passed.Name, "own limit") {
		t.Fatalf("%+v", c.Passed)
	}
	// The limit was put where half the torque is, to a hundredth of a degree.
	if math.Abs(c.Least/(r.Stated/2)-1) > 0.01 {
		t.Errorf("passed below %g N·m, want %g N·m", c.Least, r.Stated/2)
	}
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	q := &torqueQuestion{sc: sc, stack: stack, bolt: 1}
	for torque, passes := range map[float64]bool{c.Least: false, c.Least * 0.99: true} {
		p, err := q.try(context.Background(), q.with(1, func(b *model.Bolt) { b.Torque = torque }, nil))
		if err != nil {
			t.Fatal(err)
		}
		if p.Passes() != passes || math.Abs(p.Tightest.Left) > 0.3 {
			t.Errorf("%g N·m: %+v", torque, p.Tightest)
		}
		if !passes && (p.Tightest.Left < 0 || p.Tightest.Left > limitTol) {
			t.Errorf("%g K are left at the torque found", p.Tightest.Left)
		}
	}
	t.Run("passed at every torque", func(t *testing.T) {
		c := torque(t, read(t, dirty("\n    limit: 30 °C")), "compact holder").OwnCurve()
		if !c.Always || c.Least != 0 {
			t.Errorf("always %v, below %g N·m", c.Always, c.Least)
		}
	})
	t.Run("never passed", func(t *testing.T) {
		c := torque(t, read(t, feed), "compact holder").OwnCurve()
		if c.Always || c.Least != 0 || c.Passed != nil {
			t.Errorf("%+v", c)
		}
	})
}

// Past the torque of little gain a tenth more gains 1 K, by solving again.
func TestTorque_enough(t *testing.T) {
	sc := read(t, strings.Replace(dirty(""), "200 A", "260 A", 1))
	r := torque(t, sc, "compact holder")
	at := r.OwnCurve().Enough
	if !(at > r.Finger && at < r.Highest) {
		t.Fatalf("little is gained past %g N·m", at)
	}
	stack, err := sc.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	q := &torqueQuestion{sc: sc, stack: stack, bolt: 1}
	hot := func(torque float64) float64 {
		p, err := q.try(context.Background(), q.with(1, func(b *model.Bolt) { b.Torque = torque }, nil))
		if err != nil {
			t.Fatal(err)
		}
		return float64(p.Hottest)
	}
	if gain := hot(at) - hot(1.1*at); math.Abs(gain-1) > 0.05 {
		t.Errorf("10 %% more than %g N·m gains %g K", at, gain)
	}
	t.Run("clean faces/from the first torque on", func(t *testing.T) {
		c := torque(t, read(t, feed), "compact holder").OwnCurve()
		if math.Abs(c.Enough/c.Points[0].Torque-1) > 1e-9 {
			t.Errorf("%g N·m", c.Enough)
		}
	})
	t.Run("end of the sweep/not before it", func(t *testing.T) {
		points := []TorquePoint{{Torque: 1, Hottest: 400}, {Torque: 2, Hottest: 380}, {Torque: 4, Hottest: 360}}
		if got := enough(points); got != 0 {
			t.Errorf("%g N·m", got)
		}
	})
}

// BenchmarkTorque is the study without reading the file.
func BenchmarkTorque(b *testing.B) {
	data, err := scenarios.Example("compact")
	if err != nil {
		b.Fatal(err)
	}
	sc, err := scenarios.Read("compact", data)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := RunTorque(context.Background(), sc, TorqueOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A finger's torque grows with the nut, and stays far below what the threads
// of the table hold.
func TestFingerTight(t *testing.T) {
	class, err := materials.LookupPropertyClass("5.8")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range materials.Fasteners() {
		if share := fingerTight(f) / model.YieldTorque(f, class.Rp02, 0.2); f.Diameter >= 5e-3 && share > 0.15 {
			t.Errorf("%s: %g of what the thread holds", f.Name, share)
		}
	}
	// Common practice, no source: some 1 N·m for M8.
	m8, err := materials.LookupFastener("M8")
	if err != nil {
		t.Fatal(err)
	}
	if got := fingerTight(m8); got < 0.5 || got > 1.5 {
		t.Errorf("%g N·m for M8", got)
	}
}
