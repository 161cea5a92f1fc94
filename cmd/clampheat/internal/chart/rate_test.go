package chart

import (
	"bytes"
	"math"
	"testing"

	"clampheat/scenarios/study"
)

func rated(a float64) study.Rated { return study.Rated{Current: a, Set: study.ByLimit} }

func rating() *study.Rate {
	r := &study.Rate{Conditions: study.Conditions{Title: "A title", Current: 140, Air: celsius(25), TempUnit: "°F"},
		Likely: rated(200), Careful: rated(220), Careless: rated(170)}
	for c := -20.0; c <= 60; c += 20 {
		r.OverAir = append(r.OverAir, study.AirRating{Air: celsius(c), Likely: rated(200 - c), Careful: 220 - c, Careless: 170 - c})
	}
	r.OverTime = []study.TimeRating{{Current: 201, Time: 7200}, {Current: 300, Time: 120}, {Current: 600, Time: 4}}
	r.Fuses = []study.FuseCurve{{Name: "fuse", Points: []study.MeltPoint{{Current: 150, Melts: 36000}, {Current: 900, Melts: 0.5}}}}
	return r
}

func TestRateData(t *testing.T) {
	p := Rate(rating()).Pair
	air, time := p.Plots[0], p.Plots[1]
	if x, y := air.Lines[0].X[0], air.Lines[0].Y[0]; math.Abs(x+4) > 1e-9 || y != 220 {
		t.Errorf("the curve begins at %g °F, %g A, want -4 °F, 220 A", x, y)
	}
	if air.Band.Low[4] != 110 || air.Band.High[4] != 160 {
		t.Errorf("band at its end %g … %g A", air.Band.Low[4], air.Band.High[4])
	}
	for _, c := range append([]Cloud{{X: time.Lines[0].X, Y: time.Lines[0].Y}}, time.Dots...) {
		for i := range c.X {
			if !time.X.holds(c.X[i]) || !time.Y.holds(c.Y[i]) {
				t.Errorf("%g A, %g s lies off the axes %+v, %+v", c.X[i], c.Y[i], time.X, time.Y)
			}
		}
	}
	if s := time.X.share(math.Sqrt(time.X.Low * time.X.High)); math.Abs(float64(s)-0.5) > 1e-9 {
		t.Errorf("the middle of a logarithmic axis is at %g", s)
	}
}

func TestRateDraws(t *testing.T) {
	nothing := &study.Rate{OverAir: rating().OverAir}
	for name, r := range map[string]*study.Rate{"whole": rating(), "nothing carried": nothing} {
		for _, format := range Formats() {
			t.Run(name+"/"+format, func(t *testing.T) {
				var first, second bytes.Buffer
				if err := Rate(r).Write(&first, format); err != nil || first.Len() == 0 {
					t.Fatalf("%d bytes, %v", first.Len(), err)
				}
				if err := Rate(r).Write(&second, format); err != nil || (format == "svg" && !bytes.Equal(first.Bytes(), second.Bytes())) {
					t.Errorf("drawn twice, it differs: %v", err)
				}
			})
		}
	}
}
