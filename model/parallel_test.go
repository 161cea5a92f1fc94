package model_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"clampheat/model"
)

// sideBySide is a bar on edge of which there are some, with a gap between.
func sideBySide(count int, gap float64) *model.Bar {
	return &model.Bar{Label: "bars", Metal: copper, Plating: tin, Finish: finish,
		Width: 0.04, Thickness: 0.005, Length: 0.5, Exposed: 1, Count: count, Gap: gap}
}

// given is what bars give off at 60 K above the air, W.
func given(t interface{ Fatal(...any) }, p *model.Bar) float64 {
	s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(0), Parts: []model.Part{p}}
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	x := a.Start(map[int]float64{0: 298.15 + 60})
	return a.Network.Balance(0, x, make([]float64, len(x))).Lost
}

// One bar is what no count is, exactly, whatever the gap.
func TestOneBar(t *testing.T) {
	for _, lies := range []model.Lie{model.Horizontal, model.Flat, model.Vertical} {
		t.Run(fmt.Sprintf("lies %d", lies), func(t *testing.T) {
			none, one := sideBySide(0, 0), sideBySide(1, 0.01)
			none.Lies, one.Lies = lies, lies
			stack := func(p model.Part) *model.Stack {
				return &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(300), Parts: []model.Part{p}}
			}
			sameNetwork(t, stack(none), stack(one))
		})
	}
}

// Bars far apart give off what as many single bars do, as near as the relation for
// 0.59 El^¼ over the width and that of Churchill and Chu over width and thickness
// agree, 12 % of the convection here; bars that almost touch, what their outside does.
func TestBarsAtTheLimits(t *testing.T) {
	one := given(t, sideBySide(1, 0))
	for _, n := range []int{2, 4} {
		if apart := given(t, sideBySide(n, 10)); math.Abs(apart-float64(n)*one) > 0.10*float64(n)*one {
			t.Errorf("%d bars far apart give off %g W, %d single ones %g W", n, apart, n, float64(n)*one)
		}
		together, share := given(t, sideBySide(n, 1e-6)), (0.04+float64(n)*0.005)/(0.04+0.005)
		if math.Abs(together-share*one) > 1e-3*together {
			t.Errorf("%d bars that almost touch give off %g W, their outside %g W", n, together, share*one)
		}
	}
}

// A wider gap and another bar give off more; current has more metal.
func TestMoreBars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "bars")
		gap := math.Exp(rapid.Float64Range(math.Log(1e-3), math.Log(0.1)).Draw(t, "gap"))
		lies := rapid.SampledFrom([]model.Lie{model.Horizontal, model.Vertical}).Draw(t, "lies")
		bars := func(n int, gap float64) *model.Bar {
			p := sideBySide(n, gap)
			p.Lies = lies
			return p
		}
		here := given(t, bars(n, gap))
		if more := given(t, bars(n+1, gap)); more <= here {
			t.Fatalf("%d bars give off %g W, %d give off %g W", n, here, n+1, more)
		}
		if wider := given(t, bars(n, gap*1.5)); n > 1 && wider <= here {
			t.Fatalf("%d bars at %g m give off %g W, further apart %g W", n, gap, here, wider)
		}
	})
}

// Two bars have twice the metal and half the ohms of one, and are between one bar
// at half the current and one at all of it.
func TestTwoBars(t *testing.T) {
	assemble := func(p model.Part) *model.Assembly {
		a, err := (&model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(1), Parts: []model.Part{p}}).Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	one, two := assemble(sideBySide(1, 0)).Parts[0], assemble(sideBySide(2, 0.005)).Parts[0]
	if math.Abs(two.Mass-2*one.Mass) > 1e-12 || math.Abs(two.Capacity-2*one.Capacity) > 1e-9 || math.Abs(2*two.Resistance-one.Resistance) > 1e-18 {
		t.Errorf("two bars %+v, one %+v", two, one)
	}
	if want := 2 * (0.04 + 0.005) * 2 * 0.5; math.Abs(two.Surface-want) > 1e-12 {
		t.Errorf("surface %g m², want that of two bars, %g m²", two.Surface, want)
	}
	half, pair, all := hot(t, sideBySide(1, 0), 300), hot(t, sideBySide(2, 0.005), 600), hot(t, sideBySide(1, 0), 600)
	if !(half < pair && pair < all) {
		t.Errorf("one at 300 A %g K, two at 600 A %g K, one at 600 A %g K", half, pair, all)
	}
}

// Air that moves takes heat from the outside alone, and a cover from what looks at it.
func TestBetweenBars(t *testing.T) {
	between := func(change func(*model.Stack)) (area, film float64) {
		s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(1), Parts: []model.Part{sideBySide(2, 0.005)}}
		change(s)
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range a.Detail(a.Start(map[int]float64{0: 340})) {
			if d.Name == "bars, between the bars" {
				area, film = area+d.Area, d.Convection
			}
		}
		return area, film
	}
	area, still := between(func(*model.Stack) {})
	if want := 2 * 0.04 * 0.5; math.Abs(area-want) > 1e-12 {
		t.Errorf("faces between the bars %g m², want %g m²", area, want)
	}
	if _, moving := between(func(s *model.Stack) { s.Surroundings.AirSpeed = 3 }); moving != still {
		t.Errorf("moving air %g W/(m²K), still %g", moving, still)
	}
	area, _ = between(func(s *model.Stack) {
		s.Covers = []model.Cover{{Label: "cover", Parts: []int{0}, Gap: 0.02, Inside: 0.9, Outside: 0.9, Exposed: 0.2, Height: 0.1}}
	})
	if area != 0 {
		t.Errorf("faces between the bars below a cover: %g m²", area)
	}
}

func TestBarsRefused(t *testing.T) {
	for name, change := range map[string]func(*model.Bar){
		"fewer than none": func(p *model.Bar) { p.Count = -1 },
		"too many":        func(p *model.Bar) { p.Count = 11 },
		"no gap":          func(p *model.Bar) { p.Gap = 0 },
		"level":           func(p *model.Bar) { p.Lies = model.Flat },
	} {
		t.Run(name, func(t *testing.T) {
			p := sideBySide(2, 0.005)
			change(p)
			refused(t, &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(1), Parts: []model.Part{p}})
		})
	}
}
