package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"clampheat/scenarios/study"
)

func levers() *study.Levers {
	some := func(v float64) *float64 { return &v }
	return &study.Levers{
		Conditions: study.Conditions{Title: "A title", Current: 140, Air: celsius(25), TempUnit: "°F"},
		Hottest:    study.Span{Place: "lug", Temp: celsius(50)},
		Cool: []study.Lever{
			{Name: "moving air", Kind: "air", Change: -10, Careless: some(-12), Temp: celsius(40)},
			{Name: "faces of one", Kind: "brush", Change: -0.02, Careless: some(-3), Temp: celsius(50)},
			{Name: "faces of another", Kind: "brush", Change: -0.02, Careless: some(-2), Temp: celsius(50)},
			{Name: "nothing", Kind: "nut", Change: -0.01, Careless: some(-0.05), Temp: celsius(50)},
		},
		Hurt: []study.Lever{
			{Name: "runs away", Kind: "joint × 10", Ends: "no lasting state"},
			{Name: "warmer", Kind: "air", Change: 15, Temp: celsius(65)},
		},
	}
}

// Of each kind the strongest is drawn, where likely or careless assembly feels
// it and there is a state to draw; a file in °F has its changes in °F.
func TestLeversData(t *testing.T) {
	f := Levers(levers())
	if !strings.HasPrefix(f.Foot, "No lasting state, and no bar: runs away.") {
		t.Errorf("foot: %q", f.Foot)
	}
	want := []Bar{
		{Name: "moving air", Value: -18, Careless: -21.6, Text: "-18.0 °F, 104 °F"},
		{Name: "faces of one", Value: -0.036, Careless: -5.4, Text: "0.0 °F, 122 °F"},
		{Name: "warmer", Value: 27, Careless: 27, Text: "+27.0 °F, 149 °F"},
	}
	if len(f.Bars.List) != len(want) || f.Bars.Apart != 2 {
		t.Fatalf("bars: %+v", f.Bars)
	}
	for i, b := range f.Bars.List {
		if w := want[i]; b.Name != w.Name || b.Text != w.Text || math.Abs(b.Value-w.Value) > 1e-9 || math.Abs(b.Careless-w.Careless) > 1e-9 {
			t.Errorf("bar %d: %+v, want %+v", i, b, w)
		}
	}
}

func TestLeversDrawn(t *testing.T) {
	empty := levers()
	empty.Cool, empty.Hurt = nil, nil
	for name, r := range map[string]*study.Levers{"some": levers(), "none": empty} {
		for _, format := range Formats() {
			var b bytes.Buffer
			if err := Levers(r).Write(&b, format); err != nil || b.Len() == 0 {
				t.Errorf("%s, %s: %d bytes, %v", name, format, b.Len(), err)
			}
		}
	}
}
