package chart

import (
	"bytes"
	"math"
	"testing"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func compared() *study.Compare {
	column := func(label string, end float64) study.Column {
		return study.Column{Conditions: study.Conditions{Current: 140, Air: celsius(25), TempUnit: "°C"}, Label: label,
			Soak: []quantity.Temp{celsius(25), celsius(end)}, Tightest: &study.Margin{Name: "tin-plated terminal", Limit: celsius(90), Verdict: study.Holds}}
	}
	warm := column("warm", 70)
	warm.Air = celsius(40)
	return &study.Compare{Times: []float64{0, 3600}, Verdict: &study.Verdicts{Coolest: "bolted"},
		Columns: []study.Column{column("compact", 50), column("bolted", 45), warm, {Label: "mad", Ends: "no lasting state"}},
		Against: []study.Against{
			{First: "compact", Second: "bolted", Why: study.Why{Total: -5, Causes: []study.Cause{{Name: "surface", Worth: -8}, {Name: "neighbours", Worth: 3}, {Name: "clamp", Worth: 0.01}}}},
			{First: "compact", Second: "warm", Why: study.Why{Total: 20, Causes: []study.Cause{{Name: "current and room", Worth: 20}}}},
		}}
}

func TestCompareData(t *testing.T) {
	f := Compare(compared())
	if len(f.Lines) != 3 || f.Lines[0].Hot || !f.Lines[1].Hot {
		t.Fatalf("lines: %+v", f.Lines)
	}
	if l := f.Lines[0]; l.X[1] != 60 || math.Abs(l.Y[1]-50) > 1e-9 {
		t.Errorf("the curve ends at %g min, %g °C, want 60 min, 50 °C", l.X[1], l.Y[1])
	}
	if name := f.Lines[2].Name; name != "warm (140 A, air 40 °C)" {
		t.Errorf("a stack in another room is called %q", name)
	}
	if len(f.Levels) != 1 {
		t.Errorf("limits: %+v", f.Levels)
	}
	bars := f.Below.Bars.List
	if len(bars) != 3 || bars[0].Name != "bolted: surface" || bars[0].Value != -8 || bars[2].Name != "warm: current and room" {
		t.Errorf("bars: %+v", bars)
	}
	t.Run("one pair/no name before the cause", func(t *testing.T) {
		r := compared()
		r.Against = r.Against[:1]
		f := Compare(r)
		if b := f.Below.Bars.List[0]; b.Name != "surface" {
			t.Errorf("%+v", b)
		}
	})
	t.Run("no cause/no bars", func(t *testing.T) {
		r := compared()
		r.Against = nil
		if f := Compare(r); f.Below != nil {
			t.Errorf("%+v", f.Below)
		}
	})
}

func TestCompare_formats(t *testing.T) {
	for _, format := range Formats() {
		var b bytes.Buffer
		if err := Compare(compared()).Write(&b, format); err != nil || b.Len() == 0 {
			t.Errorf("%s: %d bytes, %v", format, b.Len(), err)
		}
	}
}
