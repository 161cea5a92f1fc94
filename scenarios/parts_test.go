package scenarios

import (
	"fmt"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// Every value of a generic part is used by some scenario, under its name: data
// that nothing reads would be shown to nobody.
func TestPartsAreUsed(t *testing.T) {
	used := map[string]bool{}
	for _, data := range all(t) {
		s, _ := understood(t, data)
		for _, a := range s.Assumptions() {
			used[a.What+"|"+a.Ground] = true
		}
	}
	parts, err := generic()
	if err != nil {
		t.Fatal(err)
	}
	for part, values := range parts {
		for what, d := range values {
			if bound := what == "smallest fuse" || what == "largest fuse"; !bound && !used[what+"|"+d.ground] {
				t.Errorf("%s.%s is used by none", part, what)
			}
		}
	}
}

func TestReadParts(t *testing.T) {
	for text, want := range map[string]string{
		"a:\n  b:\n    range: 1 mm\n":                               "the generic a cannot be used: its b needs a value and either a source or a ground",
		"a:\n  b:\n    ground: x\n":                                 "the generic a cannot be used: its b needs a value and either a source or a ground",
		"a:\n  b:\n    range: 1 mm\n    source: y\n    ground: x\n": "the generic a cannot be used: its b needs a value and either a source or a ground",
		"a:\n  b:\n    value: 1 mm\n    ground: x\n":                "the generic a cannot be used: its b has an unknown key \"value\"",
		"cable:\n  b:\n    range: 1 mm\n    ground: x\n":            "the generic cable cannot be used: its name stands in the data twice",
	} {
		err := readParts("p", []byte(text), map[string]map[string]datum{"cable": {}})
		if err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

func TestSpan(t *testing.T) {
	tests := []struct {
		text string
		kind quantity.Kind
		want materials.Range
		bad  bool
	}{
		{"18 … 20 … 25 mm", quantity.Length, materials.Range{Low: 0.018, Likely: 0.02, High: 0.025}, false},
		{"1.6 mm", quantity.Length, materials.Exactly(0.0016), false},
		{"1 … 1.5 … 2", number, materials.Range{Low: 1, Likely: 1.5, High: 2}, false},
		{"1 … 1.5 … 2 m", number, materials.Range{}, true},
		{"20 … 18 … 25 mm", quantity.Length, materials.Range{}, true},
		{"18 … 25 mm", quantity.Length, materials.Range{}, true},
		{"18 … 20 … 25", quantity.Length, materials.Range{}, true},
		{"18 … 20 … 25 K", quantity.Length, materials.Range{}, true},
	}
	for _, test := range tests {
		got, _, err := datum{text: test.text}.span(test.kind)
		if (err != nil) != test.bad || !test.bad && !alike(got, test.want) {
			t.Errorf("%q: %v, %v; want %v", test.text, got, err, test.want)
		}
	}
}

// partRange reads a value of the generic parts.
func partRange(t *testing.T, part, what string, kind quantity.Kind) materials.Range {
	t.Helper()
	d, err := lookGeneric(part, what)
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := d.span(kind)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The rise of an element whose heat leaves at its ends follows from its drop
// alone: T_peak² = T_end² + U²/(4L), whatever its shape, and the mean over its
// heat is two thirds of the peak where it is small against T. Source:
// Kohlrausch 1900, in Holm, Electric Contacts, 4th ed. 1967, §13.
func TestElementRise(t *testing.T) {
	caps := partRange(t, "fuse", "rig caps", quantity.Temperature).Likely
	drop := partRange(t, "fuse", "drop", quantity.Voltage)
	rise := partRange(t, "fuse", "element rise", quantity.Rise)
	mean := func(u float64) float64 { return 2. / 3 * (model.SpotTemperature(caps, u) - caps) }
	if got := mean(drop.Likely); math.Abs(got-rise.Likely) > 1 {
		t.Errorf("%.1f K at the likely drop, %.1f K assumed", got, rise.Likely)
	}
	if low, high := mean(drop.Low), mean(drop.High); rise.Low > low || rise.High < high-2 {
		t.Errorf("%.1f … %.1f K for the drops, %.1f … %.1f K assumed", low, high, rise.Low, rise.High)
	}
}

// At its data's current, in the rig that they come from, a fuse of a scenario
// has the rise and the drop that were put in.
func TestFuseGivesItsData(t *testing.T) {
	for name, data := range map[string]string{
		"drop":       "75 mV at 300 A",
		"power":      "22.5 W",
		"resistance": "0.2 mΩ",
	} {
		t.Run(name, func(t *testing.T) {
			_, stack := understood(t, written("  - battery post: M8\n    nut: 12 N·m\n  - compact holder: generic\n    fuse: 300 A\n    nut: 8.5 N·m\n"+
				"    fuse element rise: 50 K\n    fuse drop: "+data+"\n  - cable: 1/0 AWG\n    length: 1 m\n"))
			fuse := stack.Parts[2].(*model.Fuse)
			figures, err := fuse.FuseFigures()
			if err != nil {
				t.Fatal(err)
			}
			if name == "resistance" {
				if figures.Cold.Likely != 0.2e-3 {
					t.Errorf("cold %g Ω, want 0.2 mΩ", figures.Cold.Likely)
				}
				return
			}
			if got := figures.ElementRise.Likely; math.Abs(got-50) > 0.1 {
				t.Errorf("rise %.2f K, want the 50 K that were put in", got)
			}
			// 250 µΩ hot at a mean of 70 + 50 °C: cold by IEC 60028's 0.00393 1/K.
			want := 250e-6 / (1 + 0.00393*100)
			if got := figures.Cold.Likely; math.Abs(got/want-1) > 0.05 {
				t.Errorf("cold %.1f µΩ, want about %.1f µΩ", got*1e6, want*1e6)
			}
		})
	}
}

// A fuse is the same fuse whether its data state the drop in the rig or the
// cold resistance that goes with it.
func TestFuseStatedTwoWays(t *testing.T) {
	for _, holder := range []string{"compact holder", "high-capacity holder"} {
		t.Run(holder, func(t *testing.T) {
			stated := func(data string) *model.Fuse {
				t.Helper()
				nut := map[string]string{"compact holder": "nut: 8.5 N·m", "high-capacity holder": "nuts: 21.5 N·m"}[holder]
				front := map[string]string{"compact holder": "  - battery post: M8\n    nut: 12 N·m\n", "high-capacity holder": "  - cable: 1/0 AWG\n    length: 1 m\n"}[holder]
				_, stack := understood(t, written(front+"  - "+holder+": generic\n    fuse: 300 A\n    "+nut+
					"\n    fuse element rise: 50 K\n    fuse drop: "+data+"\n  - cable: 1/0 AWG\n    length: 1 m\n"))
				for _, p := range stack.Parts {
					if fuse, ok := p.(*model.Fuse); ok {
						return fuse
					}
				}
				t.Fatal("no fuse")
				return nil
			}
			drop := stated("75 mV at 300 A")
			figures, err := drop.FuseFigures()
			if err != nil {
				t.Fatal(err)
			}
			cold := stated(fmt.Sprintf("%.9g µΩ", figures.Cold.Likely*1e6))
			for what, pair := range map[string][2]float64{
				"to each cap":   {cold.ToCap.Likely, drop.ToCap.Likely},
				"low":           {cold.ToCap.Low, drop.ToCap.Low},
				"high":          {cold.ToCap.High, drop.ToCap.High},
				"to the body":   {cold.ToBody, drop.ToBody},
				"heat capacity": {cold.ElementCapacity, drop.ElementCapacity},
			} {
				if math.Abs(pair[0]/pair[1]-1) > 1e-3 {
					t.Errorf("%s: %.5g by its cold resistance, %.5g by its drop", what, pair[0], pair[1])
				}
			}
		})
	}
}

// Grounds that state a sum hold it. Copper conducts 390 W/(m K) (C11000,
// handbook value, from memory).
func TestGrounds(t *testing.T) {
	const copper = 390.0
	strap := func(width, thick, length float64) float64 { return copper * width * thick / length }
	battery := partRange(t, "battery post", "body takes", quantity.Conductance)
	inverter := partRange(t, "inverter terminal", "body takes", quantity.Conductance)
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{"battery/strap", battery.Likely, strap(0.02, 0.002, 0.1)},
		{"battery/lead", battery.Low, copper * 16e-6 / 0.15},
		{"battery/short strap", battery.High, strap(0.02, 0.003, 0.06)},
		{"inverter/bar", inverter.Likely, strap(0.02, 0.003, 0.08)},
		{"tag/load", 300 / (partRange(t, "high-capacity holder", "tag width", quantity.Length).Likely *
			partRange(t, "high-capacity holder", "tag thickness", quantity.Length).Likely), 4e6},
	} {
		if math.Abs(test.got/test.want-1) > 0.05 {
			t.Errorf("%s: %.3g, but its ground says %.3g", test.name, test.got, test.want)
		}
	}
}
