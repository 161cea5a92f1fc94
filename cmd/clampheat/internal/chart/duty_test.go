package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func period() *study.Duty {
	d := &study.Duty{
		Conditions: study.Conditions{Title: "A title", Current: 180, Air: celsius(25), TempUnit: "°C"},
		Period:     900, Rms: 104, Hottest: study.Span{Place: "lug", Temp: celsius(60)},
		ByRms: study.Rule{Current: 104, Temp: celsius(45)},
		Times: []float64{0, 300, 300, 900}, Currents: []float64{180, 180, 0, 0},
		Series: []study.Series{
			{Name: "lug", Terminal: true, Temps: []quantity.Temp{celsius(30), celsius(60), celsius(60), celsius(30)}},
			{Name: "cable", Temps: []quantity.Temp{celsius(30), celsius(58), celsius(58), celsius(30)}},
			{Name: "fuse", Temps: []quantity.Temp{celsius(31), celsius(80), celsius(80), celsius(31)}},
		},
		Margins: []study.Margin{
			{Name: "tin-plated terminal", Limit: celsius(90), Rise: 65, Verdict: study.Holds},
			{Name: "tin-plated terminal", Limit: celsius(88), Rise: 65, Verdict: study.Holds}},
	}
	d.Element = &study.DutyPlace{Name: "fuse", Peak: celsius(80)}
	return d
}

func TestDutyData(t *testing.T) {
	f := Duty(period())
	if len(f.Lines) != 2 || f.Lines[0].Name != "lug" || !f.Lines[0].Hot || f.Lines[1].Name != "fuse (inside)" {
		t.Fatalf("lines: %+v", f.Lines)
	}
	if f.Above == nil || f.Above.Y[0] != 180 || f.Above.X[3] != 15 || f.Above.Across.Value != 104 {
		t.Errorf("strip: %+v", f.Above)
	}
	if len(f.Levels) != 1 || math.Abs(f.Levels[0].Value-88) > 1e-9 {
		t.Errorf("levels: %+v, want the lowest of the name", f.Levels)
	}
	if !strings.Contains(f.labels()[1].text, "peak\u00a080\u00a0°C") {
		t.Errorf("the name of the fuse tells %q", f.labels()[1].text)
	}
	if !strings.Contains(f.Foot, "104 A left on would leave the hottest terminal at 45 °C; its peak is 60 °C") {
		t.Errorf("foot: %q", f.Foot)
	}
	d := period()
	d.Airs = []quantity.Temp{celsius(20), celsius(25), celsius(25), celsius(20)}
	d.ByRms.None = "no lasting state"
	f = Duty(d)
	if f.Lines[len(f.Lines)-1].Name != "air" || f.Above.Across.Name != "" || f.Foot != "" {
		t.Errorf("air and no rule: %+v, %q", f.Above.Across, f.Foot)
	}
}

// More curves than can be named leave the coolest out, and say so.
func TestDutyThin(t *testing.T) {
	d := period()
	for i := range 20 {
		d.Series = append(d.Series, study.Series{Name: string(rune('a' + i)), Terminal: true,
			Temps: []quantity.Temp{celsius(float64(20 + i)), celsius(float64(20 + i)), celsius(20), celsius(20)}})
	}
	f := Duty(d)
	if len(f.Lines) != mostCurves || !strings.Contains(f.Foot, "8 cooler places are left out") {
		t.Errorf("%d lines, foot %q", len(f.Lines), f.Foot)
	}
	for _, l := range f.Lines {
		if l.Name == "a" {
			t.Error("the coolest is drawn")
		}
	}
}

// The profile of a way has those beside it over its own stretch.
func TestPathBeside(t *testing.T) {
	r := path()
	r.Profile[0].Way, r.Profile[1].Way = "A", "A"
	r.Beside = []study.WayProfile{{Name: "B", Along: "A", Points: []study.Point{
		{Along: 0, Temp: celsius(48), Name: "post"}, {Along: 0.5, Temp: celsius(50), Name: "end"}}}}
	f := Path(r)
	if len(f.Beside) != 1 || f.Beside[0].Name != "B" {
		t.Fatalf("beside: %+v", f.Beside)
	}
	if x := f.Beside[0].X; x[0] != 0 || math.Abs(x[1]-f.Lines[0].X[1]) > 1e-12 {
		t.Errorf("drawn from %g to %g, the way ends at %g", x[0], x[1], f.Lines[0].X[1])
	}
	if !strings.HasPrefix(f.Foot, "Along A and on") {
		t.Errorf("foot: %q", f.Foot)
	}
}

// A rating by power has watts on its axes.
func TestRatePower(t *testing.T) {
	r := rating()
	r.Power, r.Likely.Power, r.Careful.Power, r.Careless.Power = 1600, 2300, 2500, 2000
	for i := range r.OverAir {
		a := &r.OverAir[i]
		a.Likely.Power, a.CarefulPower, a.CarelessPower = 12*a.Likely.Current, 12*a.Careful, 12*a.Careless
	}
	for i := range r.OverTime {
		r.OverTime[i].Power = 12 * r.OverTime[i].Current
	}
	r.Fuses = nil
	p := Rate(r).Pair
	if p.Plots[0].Y.Label != "W" || p.Plots[0].Lines[0].Y[0] != 12*220 || p.Plots[0].Across[0].Name != "1600 W in the file" {
		t.Errorf("%+v", p.Plots[0])
	}
	if p.Plots[1].X.Label != "power, W" || p.Plots[1].Lines[0].X[0] != 12*201 || p.Plots[1].Upright[0].Name != "2300 W for good" {
		t.Errorf("%+v", p.Plots[1])
	}
}

// Every format can be written.
func TestDutyWrite(t *testing.T) {
	for _, format := range Formats() {
		var b bytes.Buffer
		if err := Duty(period()).Write(&b, format); err != nil || b.Len() == 0 {
			t.Errorf("%s: %d bytes, %v", format, b.Len(), err)
		}
	}
}
