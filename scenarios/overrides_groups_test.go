package scenarios

import (
	"math"
	"testing"

	"clampheat/model"
)

// What the good files state of bars, bundles, conduits, boxes and sources reaches
// the stack.
func TestOverrides_groups(t *testing.T) {
	stacks := map[string]*model.Stack{}
	for _, name := range grouped {
		_, stacks[name] = understood(t, readFile(t, "testdata/good/"+name+".yaml"))
	}
	part := func(file, name string) model.Part {
		for _, p := range stacks[file].Parts {
			if p.Name() == name {
				return p
			}
		}
		t.Fatalf("%s has no part %q", file, name)
		return nil
	}
	cable := func(file, name string) *model.Cable { return part(file, name).(*model.Cable) }
	bar := func(file, name string) *model.Bar { return part(file, name).(*model.Bar) }
	box := func(file string) *model.Enclosure { return stacks[file].Enclosure }
	wires := func(file, name string) (out []model.Wire) {
		for _, w := range stacks[file].Wires {
			if w.Name == name {
				out = append(out, w)
			}
		}
		return out
	}
	for _, test := range []struct {
		name      string
		got, want any
	}{
		{"bundle/in a row", *cable("circuits", "cable 50 mm²").Bundle, model.Bundle{Count: 2, Arrangement: model.FlatRow}},
		{"bundle/in a bunch", *cable("circuits", "heater: cable 16 mm²").Bundle, model.Bundle{Count: 3, Arrangement: model.RoundBunch}},
		{"conduit/outer", cable("circuits", "fridge: cable 6 mm²").Conduit.Outer, 0.025},
		{"conduit/one cable", cable("circuits", "fridge: cable 6 mm²").Conduit.Count, 1},
		{"conduit/of plastic", cable("circuits", "fridge: cable 6 mm²").Conduit.Kind, model.FibreConduit},
		{"conduit/two cables", cable("closed-box", "cable 50 mm²").Conduit.Count, 2},
		{"conduit/of metal", cable("sagging", "cable 25 mm²").Conduit.Kind, model.MetalConduit},
		{"bars/number", bar("branches", "bar").Count, 2},
		{"bars/gap", bar("branches", "bar").Gap, 0.005},
		{"bars/gap as thick as a bar", bar("closed-box", "bus bar").Gap, 0.004},
		{"bars/on edge where not stated", bar("closed-box", "bus bar").Lies, model.Horizontal},
		{"studs/stated length", bar("circuits", "bus bar").Studs, []float64{0.03, 0.07, 0.11, 0.15}},
		{"studs/names", bar("circuits", "bus bar").StudNames, []string{"in", "fridge", "heater", "spare"}},
		{"studs/own torques", [2]float64{stacks["circuits"].Bolts[0].Torque, stacks["circuits"].Bolts[3].Torque}, [2]float64{12, 11}},
		{"box/sizes", [3]float64{box("circuits").Width, box("circuits").Height, box("circuits").Depth}, [3]float64{0.4, 0.3, 0.15}},
		{"box/wall", box("circuits").Wall.Thickness, 0.003},
		{"box/emissivity", box("circuits").Outside, 0.9},
		{"box/vents", [3]float64{box("circuits").Inlet, box("circuits").Outlet, box("circuits").VentRise}, [3]float64{20e-4, 30e-4, 0.2}},
		{"box/vents alike", [2]float64{box("sagging").Inlet, box("sagging").Outlet}, [2]float64{20e-4, 20e-4}},
		{"box/fan", box("circuits").Fan, 5.0 / 3600},
		{"box/other heat", box("circuits").Heat, 5.0},
		{"box/mounting", []model.Mounting{box("circuits").Mounting, box("sagging").Mounting, box("closed-box").Mounting}, []model.Mounting{model.OnBulkhead, model.Insulated, model.OnBulkhead}},
		// The bar with its lug, and each holder with fuse and lug: not the cables,
		// nor the terminal with its lug.
		{"box/holds", box("circuits").Parts, []int{1, 2, 3, 4, 6, 7, 8, 10}},
		{"source/voltage and ohms", [2]float64{wires("branches", "the source")[0].EMF, wires("branches", "the source")[0].Resistance}, [2]float64{12.8, 4e-3}},
		{"batteries/own voltages", [2]float64{wires("four-batteries", "A")[0].EMF, wires("four-batteries", "C")[0].EMF}, [2]float64{13.3, 13.2}},
		{"batteries/internal resistance", wires("four-batteries", "D")[0].Resistance, 2e-3},
		{"negative/a twin of each section", len(wires("four-batteries", "bus bar, negative")), 4},
		{"negative/a cable for each battery", *wires("four-batteries", "B: cable 1/0 AWG, negative")[0].Like, model.Section{Part: 9, From: 0, To: 1}},
		{"power/steps", stacks["branches"].Draws[0].Power.Current(400), 1000.0 * 100 / 300},
	} {
		t.Run(test.name, func(t *testing.T) {
			if !alike(test.got, test.want) && !near9(test.got, test.want) {
				t.Errorf("got %v, want %v", test.got, test.want)
			}
		})
	}
	t.Run("return cable/ohms at the air's temperature", func(t *testing.T) {
		// 0.206 mΩ/m for 95 mm² of class 5 at 20 °C (IEC 60228:2004, Table 3), and
		// 0.00393 1/K of copper (IEC 60028).
		want := 0.206e-3 * 3 * (1 + 0.00393*5)
		if got := wires("branches", "the return cable")[0].Resistance; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%g Ω, want %g Ω", got, want)
		}
	})
}

// near9 compares lists of numbers to nine digits.
func near9(a, b any) bool {
	x, y := numbers(a), numbers(b)
	if len(x) != len(y) || len(x) == 0 {
		return false
	}
	for i := range x {
		if math.Abs(x[i]-y[i]) > 1e-9*math.Abs(y[i]) {
			return false
		}
	}
	return true
}

func numbers(v any) []float64 {
	switch v := v.(type) {
	case []float64:
		return v
	case [2]float64:
		return v[:]
	case [3]float64:
		return v[:]
	}
	return nil
}
