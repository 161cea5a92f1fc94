package model_test

import (
	"errors"
	"fmt"
	"testing"

	"clampheat/materials"
	"clampheat/model"
)

// TestColdResistance: 75 mV at 300 A is 250 µΩ hot. Cold it is less by the
// element's coefficient, taken as 0.0039/K (copper and silver, Holm 1967), for
// an element that was 40, 80 or 150 K above 20 °C. An arithmetic check, with
// caps that neither resist nor get in the way.
func TestColdResistance(t *testing.T) {
	for hot, want := range map[float64]float64{40: 216, 80: 191, 150: 158} {
		t.Run(fmt.Sprintf("75 mV at 300 A/%.0f K hot", hot), func(t *testing.T) {
			f := fuse()
			f.CapLength, f.CapWidth, f.CapThickness = 1e-4, 0.1, 0.1
			f.ToBody = 0
			f.ToCap = materials.Exactly(22.5 / 2 / 10) // all heat, 10 K
			f.Hot = &model.HotFigure{Current: 300, Drop: materials.Exactly(0.075), Terminal: materials.Exactly(293.15 + hot - 10)}
			got, err := f.FuseFigures()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "cold, µΩ", got.Cold.Likely*1e6, want, 0.5/want)
			near(t, "element above the caps, K", got.ElementRise.Likely, 10, 1e-4)
		})
	}
}

func TestFuseFigures(t *testing.T) {
	t.Run("watts/same as their drop", func(t *testing.T) {
		drop, power := fuse(), fuse()
		power.Hot.Power, power.Hot.Drop = materials.Range{Low: 18, Likely: 22.5, High: 27}, materials.Range{}
		a, err := drop.FuseFigures()
		if err != nil {
			t.Fatal(err)
		}
		b, err := power.FuseFigures()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Ω", b.Cold.Likely, a.Cold.Likely, 1e-12)
		near(t, "Ω, low", b.Cold.Low, a.Cold.Low, 1e-12)
	})
	t.Run("cold/as stated", func(t *testing.T) {
		f := fuse()
		f.Cold = materials.Range{Low: 1e-4, Likely: 2e-4, High: 3e-4}
		got, err := f.FuseFigures()
		if err != nil || got.Cold != f.Cold || got.ElementRise != (materials.Range{}) {
			t.Errorf("%+v, %v", got, err)
		}
	})
	t.Run("rig/element hotter where its heat stays", func(t *testing.T) {
		f := fuse()
		before, _ := f.FuseFigures()
		f.ToCap = materials.Exactly(f.ToCap.Likely / 2)
		after, err := f.FuseFigures()
		if err != nil || after.Cold.Likely >= before.Cold.Likely || after.ElementRise.Likely <= before.ElementRise.Likely {
			t.Errorf("%+v after %+v, %v", after, before, err)
		}
	})
	t.Run("data/refused", func(t *testing.T) {
		for name, change := range map[string]func(*model.Fuse){
			"none":     func(f *model.Fuse) { f.Hot = nil },
			"tiny":     func(f *model.Fuse) { f.Hot.Drop = materials.Exactly(1e-6) },
			"negative": func(f *model.Fuse) { f.Hot.Drop = materials.Exactly(-1) },
		} {
			f := fuse()
			change(f)
			var field *model.StackError
			if _, err := f.FuseFigures(); !errors.As(err, &field) || field.Where != "fuse 300 A" {
				t.Errorf("%s: got %v", name, err)
			}
		}
	})
}

// TestRig: a fuse in a stack that holds its caps at the rig's temperature, at
// the rig's current, shows the drop that its data state. What the body loses to
// the air is cut off, as the rig leaves it out.
func TestRig(t *testing.T) {
	f := fuse()
	f.Body.Exposed = 0
	f.CapExposed = 0
	hold := func(name string) *model.Bar {
		end := model.End{Held: 338}
		return &model.Bar{Label: name, Metal: copper, Plating: tin, Finish: finish, Width: 1, Thickness: 1, Length: 0.01,
			Exposed: 0, Ends: [2]model.End{end, end}}
	}
	fixed := func(a, b int) model.Joint {
		return model.Joint{Name: "clamp", Kind: model.Fixed, A: model.Port{Part: a, Port: 1}, B: model.Port{Part: b},
			Resistance: materials.Exactly(1e-12), Conductance: materials.Exactly(1e5)}
	}
	s := &model.Stack{
		Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(300),
		Parts:  []model.Part{hold("first"), f, hold("second")},
		Joints: []model.Joint{fixed(0, 1), fixed(1, 2)},
	}
	a, x := settle(t, s, model.Likely)
	near(t, "drop, V", a.Drop(0, x), 0.075, 1e-3)
	figures, err := f.FuseFigures()
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range a.Rows {
		if r.Kind == model.ElementRow {
			near(t, "element above the caps, K", a.RowTemp(i, x)-338, figures.ElementRise.Likely, 1e-2)
		}
	}
}
