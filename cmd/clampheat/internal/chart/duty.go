package chart

import (
	"fmt"
	"slices"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Duty is the picture of one period of what repeats: the current, or the power,
// above, and below it every terminal and the hottest element of a fuse, with the
// temperature that the rms current would settle at.
func Duty(r *study.Duty) *Figure {
	s := scaleOf(r.Conditions)
	unit, seconds := clock(r.Period)
	f := &Figure{
		Title:    r.Title,
		Subtitle: conditions("up to "+drawn(r.Conditions), r.Conditions, s) + ", one period of what repeats",
		XLabel:   "time in the period, " + unit, YLabel: s.unit, ticks: true, peaks: true,
	}
	x := make([]float64, len(r.Times))
	for i, t := range r.Times {
		x[i] = t / seconds
	}
	f.Above = &Strip{Label: "A", X: x, Y: r.Currents}
	if r.ByRms.None == "" {
		f.Above.Across = Level{Name: fmt.Sprintf("heats as much: %s A", quantity.Number(r.Rms, 3)), Value: r.Rms}
		f.Foot = fmt.Sprintf("%s A left on would leave the hottest terminal at %.0f %s; its peak is %.0f %s.",
			quantity.Number(r.Rms, 3), s.of(r.ByRms.Temp), s.unit, s.of(r.Hottest.Temp), s.unit)
	}
	for _, series := range r.Series {
		element := r.Element != nil && series.Name == r.Element.Name
		if !series.Terminal && !element {
			continue
		}
		y := make([]float64, len(series.Temps))
		for i, t := range series.Temps {
			y[i] = s.of(t)
		}
		name := series.Name
		if element {
			name += " (inside)"
		}
		f.Lines = append(f.Lines, Line{Name: name, X: x, Y: y, Hot: series.Name == r.Hottest.Place})
	}
	f.thin()
	if len(r.Airs) > 0 {
		air := Line{Name: "air", X: x}
		for _, t := range r.Airs {
			air.Y = append(air.Y, s.of(t))
		}
		f.Lines = append(f.Lines, air)
	}
	f.limits(lowest(f.still(r.Margins, r.Conditions, s)), s)
	return f
}

// lowest are the limits of each name at their lowest: in moving air each place
// has its own.
func lowest(margins []study.Margin) []study.Margin {
	var out []study.Margin
	for _, m := range margins {
		i := slices.IndexFunc(out, func(o study.Margin) bool { return o.Name == m.Name && m.Rise > 0 })
		switch {
		case i < 0:
			out = append(out, m)
		case m.Limit < out[i].Limit:
			out[i].Limit = m.Limit
		}
	}
	return out
}

// drawn is what is drawn, a current or a power.
func drawn(c study.Conditions) string {
	if c.Power > 0 {
		return quantity.Format(quantity.Power, c.Power, "W", 0)
	}
	return quantity.Format(quantity.Current, c.Current, "A", 0)
}

// mostCurves is how many curves a picture can name beside itself.
const mostCurves = 14

// thin leaves the curves with the lowest peaks out where there are too many to be
// told apart, and says so.
func (f *Figure) thin() {
	if len(f.Lines) <= mostCurves {
		return
	}
	peak := func(l Line) float64 {
		p := l.Y[0]
		for _, y := range l.Y {
			p = max(p, y)
		}
		return p
	}
	left := 0
	for len(f.Lines) > mostCurves {
		coolest := 0
		for i, l := range f.Lines {
			if peak(l) < peak(f.Lines[coolest]) {
				coolest = i
			}
		}
		f.Lines = append(f.Lines[:coolest], f.Lines[coolest+1:]...)
		left++
	}
	if f.Foot != "" {
		f.Foot += " "
	}
	f.Foot += fmt.Sprintf("%d cooler places are left out.", left)
}
