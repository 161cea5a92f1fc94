package chart

import (
	"fmt"
	"math"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Rate is the picture of a rating: the current carried for good over the air's
// temperature, and above it the time to the first limit over the current, with
// the points at which the file says that a fuse melts.
func Rate(r *study.Rate) *Figure {
	s := scaleOf(r.Conditions)
	p := &Pair{
		Title: r.Title,
		Subtitle: fmt.Sprintf("carries %s for good in air of %.0f %s (%s assembled carelessly … %s carefully)",
			ratedText(r.Likely), s.of(r.Air), s.unit, ratedText(r.Careless), ratedText(r.Careful)),
		Foot: "Set by " + r.Likely.By.Place + ": " + r.Likely.By.Name + ". Band: careless to careful assembly; line and times: likely.",
	}
	p.Plots[0] = overAir(r, s)
	p.Plots[1] = overTime(r)
	return &Figure{Title: p.Title, Subtitle: p.Subtitle, Pair: p}
}

// ratedText is a rating as it is drawn, A or W.
func ratedText(r study.Rated) string {
	if r.Power > 0 {
		return fmt.Sprintf("%.0f W", r.Power)
	}
	return fmt.Sprintf("%.0f A", r.Current)
}

// loadOf is the number of one.
func loadOf(current, power float64) float64 {
	if power > 0 {
		return power
	}
	return current
}

func overAir(r *study.Rate, s scale) Plot {
	power := r.Power > 0
	unit := "A"
	if power {
		unit = "W"
	}
	p := Plot{Head: "For good, over the air", Y: Axis{Label: unit}, X: Axis{Label: "air, " + s.unit}, Band: &Band{}}
	line := Line{Name: "likely", Hot: true}
	top := 0.0
	for _, a := range r.OverAir {
		x := s.of(a.Air)
		likely, careful, careless := a.Likely.Current, a.Careful, a.Careless
		if power {
			likely, careful, careless = a.Likely.Power, a.CarefulPower, a.CarelessPower
		}
		line.X, line.Y = append(line.X, x), append(line.Y, likely)
		p.Band.X = append(p.Band.X, x)
		p.Band.Low, p.Band.High = append(p.Band.Low, careless), append(p.Band.High, careful)
		top = math.Max(top, math.Max(careful, likely))
	}
	p.Lines = []Line{line}
	for i, a := range r.Altitudes {
		if a.Altitude == r.Altitude {
			continue // the line of the file
		}
		at := Line{Name: quantity.Format(quantity.Altitude, a.Altitude, "m", 0)}
		values := a.Currents
		if power {
			values = a.Powers
		}
		for k, c := range values {
			at.X, at.Y = append(at.X, s.of(a.Airs[k])), append(at.Y, c)
		}
		p.Lines = append(p.Lines, at)
		// Names apart along the curves, which lie close.
		k := min(1+4*i, len(at.X)-1)
		p.Notes = append(p.Notes, Note{X: at.X[k], Y: at.Y[k], Text: at.Name, Below: true})
	}
	p.X.Low, p.X.High = line.X[0], line.X[len(line.X)-1]
	p.Y.High = math.Max(1.15*top, 1)
	own := r.Current
	if power {
		own = r.Power
	}
	if own > 0 && own < p.Y.High {
		p.Across = []Level{{Name: fmt.Sprintf("%.0f %s in the file", own, unit), Value: own}}
	}
	for _, t := range ticks(p.X.Low, p.X.High) {
		p.X.Ticks = append(p.X.Ticks, Tick{t, number(t)})
	}
	for _, t := range ticks(0, p.Y.High) {
		p.Y.Ticks = append(p.Y.Ticks, Tick{t, number(t)})
	}
	return p
}

// times are the numbers of an axis of time.
var times = []Tick{{1, "1 s"}, {10, "10 s"}, {60, "1 min"}, {600, "10 min"}, {3600, "1 h"}, {36000, "10 h"}, {86400, "1 d"}}

func overTime(r *study.Rate) Plot {
	p := Plot{Head: "Above it: time to the first limit", Y: Axis{Label: "time", Log: true}, X: Axis{Label: "current, A", Log: true}}
	if r.Power > 0 {
		p.X.Label = "power, W"
	}
	good := loadOf(r.Likely.Current, r.Likely.Power)
	low, high := 0.9*good, 1.5*good
	quick, slow := 1.0, 3600.0
	line := Line{Name: "first limit", Hot: true}
	for _, t := range r.OverTime {
		if t.Time <= 0 {
			continue
		}
		load := loadOf(t.Current, t.Power)
		line.X, line.Y = append(line.X, load), append(line.Y, t.Time)
		high, slow = math.Max(high, load), math.Max(slow, t.Time)
	}
	for _, f := range r.Fuses {
		c := Cloud{Name: f.Name + " melts"}
		share := 1.0
		if f.Share > 0 {
			share = f.Share
		}
		for _, m := range f.Points {
			x := m.Current / share
			c.X, c.Y = append(c.X, x), append(c.Y, m.Melts)
			low, high = math.Min(low, 0.95*x), math.Max(high, x)
			quick, slow = math.Min(quick, m.Melts), math.Max(slow, m.Melts)
		}
		p.Dots = append(p.Dots, c)
		p.Notes = append(p.Notes, Note{X: c.X[len(c.X)-1], Y: c.Y[len(c.Y)-1], Text: c.Name, Left: true})
	}
	if len(line.X) > 0 {
		p.Lines = []Line{line}
		k := max(0, len(line.X)-3)
		p.Notes = append(p.Notes, Note{X: line.X[k], Y: line.Y[k], Text: "first limit", Left: true})
	}
	if !(low > 0) {
		low, high = 1, 10
	}
	p.X.Low, p.X.High, p.Y.Low, p.Y.High = low, 1.1*high, quick*0.8, slow*1.3
	if good > 0 {
		p.Upright = []Level{{Name: ratedText(r.Likely) + " for good", Value: good}}
	}
	for power := math.Pow(10, math.Floor(math.Log10(low))); power <= p.X.High; power *= 10 {
		for _, m := range []float64{1, 2, 3, 5} {
			if v := m * power; p.X.holds(v) {
				p.X.Ticks = append(p.X.Ticks, Tick{v, number(v)})
			}
		}
	}
	for v := 0.1; v > p.Y.Low; v /= 10 {
		p.Y.Ticks = append(p.Y.Ticks, Tick{v, number(v) + " s"})
	}
	for _, t := range times {
		if p.Y.holds(t.At) {
			p.Y.Ticks = append(p.Y.Ticks, t)
		}
	}
	return p
}
