package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// sampleTorque is a made-up answer in which the torque matters.
func sampleTorque() *study.Torque {
	names := map[float64]string{1: study.FingerTight, 4: study.HalfTorque, 8: study.StatedTorque, 9.6: study.AFifthMore}
	r := &study.Torque{Conditions: study.Conditions{Title: "Sample", Current: 100, Air: 298.15, TempUnit: "°C", TorqueUnit: "N·m"},
		Nut: "holder, nut", Fastener: "M8", Stated: 8, Highest: 12, Finger: 1, Own: 1}
	for i, faces := range []string{"brushed", "as received", "tarnished"} {
		c := study.TorqueCurve{Faces: faces, Least: 2, Enough: 5}
		for _, torque := range []float64{1, 2, 4, 8, 9.6, 12} {
			c.Points = append(c.Points, study.TorquePoint{Name: names[torque], Torque: torque, Clamp: 600 * torque,
				Resistance: float64(i+1) * 10e-6 / torque, Hottest: quantity.Temp(320 + 40*float64(i+1)/torque)})
		}
		r.Curves = append(r.Curves, c)
	}
	own := r.Curves[1].Points
	r.Bands = []study.TorqueBand{{Name: "torque wrench", Low: 0.7, High: 1.3, Loose: own[2], Tight: own[5]}, {Name: "by feel", Low: 0.55, High: 1.45, Loose: own[1], Tight: own[5]}}
	r.Tightest = &study.Margin{Name: "plate", Limit: 350, Verdict: study.Holds}
	r.Spoiled = []study.SpoiledJoint{{Name: "corroded", Change: 12.3, Point: own[0]}, {Name: "lubricated", Breaks: "yields"}}
	return r
}

func TestTorque(t *testing.T) {
	sh := Torque(sampleTorque()).Sheet
	t.Run("panels/one chain", func(t *testing.T) {
		if len(sh.Panels) != 3 || len(sh.Panels[0].Lines) != 1 || len(sh.Panels[1].Lines) != 3 || len(sh.Panels[2].Lines) != 3 {
			t.Fatalf("%+v", sh.Panels)
		}
		for k, want := range []float64{4.8, 2.5, 56.85} { // kN, µΩ, °C at the stated torque
			p := sh.Panels[k]
			var own Line
			for _, l := range p.Lines {
				if l.Hot {
					own = l
				}
			}
			if math.Abs(own.Y[3]-want) > 1e-9 {
				t.Errorf("panel %d: %g at the stated torque, want %g", k, own.Y[3], want)
			}
			if stated := sh.Marks[2]; stated.X != 8 || !stated.Bold || math.Abs(stated.Y[k]-want) > 1e-9 {
				t.Errorf("panel %d: mark %+v", k, stated)
			}
			if len(p.Spans) != 2 || !p.Spans[0].Heavy || p.Spans[1].Heavy {
				t.Errorf("panel %d: %+v", k, p.Spans)
			}
		}
	})
	t.Run("voltage axis/current times ohms", func(t *testing.T) {
		// 10 µΩ carry 1 mV at 100 A.
		if got := 10 * sh.Panels[1].PerUnit; math.Abs(got-1) > 1e-12 {
			t.Errorf("%g mV", got)
		}
	})
	t.Run("turns", func(t *testing.T) {
		if last := sh.Panels[2]; last.Alarm != 2 || last.Enough != 5 || len(last.Levels) != 1 || sh.Beyond != 8 {
			t.Errorf("%+v", last)
		}
	})
	t.Run("limit far above/named below the picture", func(t *testing.T) {
		r := sampleTorque()
		r.Tightest.Limit = 900
		sh := Torque(r).Sheet
		if len(sh.Panels[2].Levels) != 0 || !strings.Contains(sh.Foot[0], "above the picture: 627 °C") {
			t.Errorf("%+v, %q", sh.Panels[2].Levels, sh.Foot)
		}
	})
	t.Run("units of the file", func(t *testing.T) {
		r := sampleTorque()
		r.TempUnit, r.TorqueUnit = "°F", "in·lb"
		sh := Torque(r).Sheet
		if m := sh.Marks[2]; m.Texts[0] != "71 in·lb" || m.Texts[1] != "8 N·m" || math.Abs(m.Y[2]-134.33) > 1e-9 {
			t.Errorf("%+v", m)
		}
	})
	t.Run("no lasting state/the curve begins later", func(t *testing.T) {
		r := sampleTorque()
		for i := range r.Curves {
			r.Curves[i].Points[0] = study.TorquePoint{Name: study.FingerTight, Torque: 1, Ends: "none"}
		}
		sh := Torque(r).Sheet
		if l := sh.Panels[2].Lines[1]; len(l.X) != 5 || !math.IsNaN(sh.Marks[0].Y[2]) {
			t.Errorf("%+v, %+v", l, sh.Marks[0])
		}
	})
	for _, format := range Formats() {
		t.Run("format/"+format, func(t *testing.T) {
			var one, two bytes.Buffer
			if err := Torque(sampleTorque()).Write(&one, format); err != nil {
				t.Fatal(err)
			}
			if err := Torque(sampleTorque()).Write(&two, format); err != nil {
				t.Fatal(err)
			}
			if one.Len() == 0 || (format != "pdf" && !bytes.Equal(one.Bytes(), two.Bytes())) {
				t.Errorf("%d and %d bytes", one.Len(), two.Len())
			}
		})
	}
	t.Run("words", func(t *testing.T) {
		var b bytes.Buffer
		if err := Torque(sampleTorque()).Write(&b, "svg"); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"do not", "fingers", "stated", "limit passed below this", "faces tarnished", "corroded +12.3 K", "mV at 100"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%q is not in the picture", want)
			}
		}
		if strings.Contains(b.String(), "NaN") {
			t.Error("a place is no number")
		}
	})
}
