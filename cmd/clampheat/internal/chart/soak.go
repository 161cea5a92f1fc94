package chart

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Soak is the picture of a stack over time: every terminal, each place that
// was measured, the limits, and the measured points over the curves.
func Soak(r *study.Soak) *Figure {
	s := scaleOf(r.Conditions)
	unit, seconds := clock(r.Until)
	amps := drawn(r.Conditions)
	if r.Period > 0 {
		amps = "up to " + amps
	} else if r.Power == 0 && len(r.Currents) > 0 && slices.Min(r.Currents) != slices.Max(r.Currents) {
		amps = "up to " + quantity.Format(quantity.Current, slices.Max(r.Currents), "A", 0)
	}
	f := &Figure{
		Title:    r.Title,
		Subtitle: conditions(amps, r.Conditions, s) + ", terminals over time",
		XLabel:   "time, " + unit, YLabel: s.unit, ticks: true,
	}
	x := make([]float64, len(r.Times))
	for i, t := range r.Times {
		x[i] = t / seconds
	}
	at := map[string]int{}
	ends := ending(r)
	for i, series := range r.Series {
		if !series.Terminal && i != ends && !measured(r, series.Name) {
			continue
		}
		y := make([]float64, len(series.Temps))
		for i, t := range series.Temps {
			y[i] = s.of(t)
		}
		at[series.Name] = len(f.Lines)
		name := series.Name
		if i == ends {
			name += " (inside)"
		}
		f.Lines = append(f.Lines, Line{Name: name, X: x, Y: y, Hot: series.Name == r.Hottest.Place})
	}
	if len(r.Measured) == 0 {
		f.thin()
	}
	for _, m := range r.Measured {
		of, ok := at[m.Place]
		if !ok {
			continue
		}
		c := Cloud{Name: "measured: " + m.Channel, Of: of}
		for i, t := range m.Times {
			c.X = append(c.X, t/seconds)
			c.Y = append(c.Y, s.of(m.Temps[i]))
		}
		f.Clouds = append(f.Clouds, c)
	}
	margins := make([]study.Margin, len(r.Limits))
	for i, l := range r.Limits {
		margins[i] = l.Margin
	}
	f.limits(f.still(margins, r.Conditions, s), s)
	return f
}

func measured(r *study.Soak, place string) bool {
	for _, m := range r.Measured {
		if m.Place == place {
			return true
		}
	}
	return false
}

// ending is the series that ends a soak without a lasting state: the hottest at
// the end, where that is no terminal, as the element of a fuse; -1 for none.
func ending(r *study.Soak) int {
	if r.Lasting || r.Period > 0 {
		return -1
	}
	hottest := -1
	for i, s := range r.Series {
		if n := len(s.Temps); n > 0 && (hottest < 0 || s.Temps[n-1] > r.Series[hottest].Temps[n-1]) {
			hottest = i
		}
	}
	if hottest >= 0 && r.Series[hottest].Terminal {
		return -1
	}
	return hottest
}

// clock is the unit of the time axis up to an end, and its size in seconds.
func clock(until float64) (unit string, seconds float64) {
	const minute, hour = 60, 3600
	switch {
	case until < 5*minute:
		return "s", 1
	case until <= 5*hour:
		return "min", minute
	}
	return "h", hour
}

func conditions(amps string, c study.Conditions, s scale) string {
	if c.AirFrom > 0 {
		return fmt.Sprintf("%s, air %.0f … %.0f %s", amps, s.of(c.AirFrom), s.of(c.Air), s.unit)
	}
	return fmt.Sprintf("%s, air %.0f %s", amps, s.of(c.Air), s.unit)
}

// limits adds the limits as levels, those of one value as one. One that lies
// so far above the curves that they would be squeezed is named under the
// picture, but for the lowest, which is always drawn.
func (f *Figure) limits(margins []study.Margin, s scale) {
	top, bottom := f.span()
	const squeeze = 2.5 // times the height of the curves
	lowest := true
	var above []string
	for _, level := range levels(margins, s) {
		if !lowest && level.Value > bottom+squeeze*(top-bottom) {
			above = append(above, f.levelName(level))
			continue
		}
		lowest = false
		f.Levels = append(f.Levels, level)
	}
	if len(above) > 0 {
		f.Foot = strings.TrimSpace(f.Foot + " Limits above the picture: " + strings.Join(above, "; "))
	}
}

// levels are the limits by value, lowest first.
func levels(margins []study.Margin, s scale) []Level {
	var list []Level
	for _, m := range margins {
		if m.Verdict == study.Unknown || m.Limit <= 0 {
			continue
		}
		v := s.of(m.Limit)
		i := 0
		for i < len(list) && list[i].Value < v {
			i++
		}
		if i < len(list) && list[i].Value == v {
			if !strings.Contains(list[i].Name, m.Name) {
				list[i].Name += ", " + m.Name
			}
			continue
		}
		list = append(list[:i], append([]Level{{m.Name, v}}, list[i:]...)...)
	}
	return list
}

// span is the highest and the lowest temperature of the curves and points.
func (f *Figure) span() (top, bottom float64) {
	first := true
	see := func(ys []float64) {
		for _, y := range ys {
			if first {
				top, bottom, first = y, y, false
			}
			top, bottom = max(top, y), min(bottom, y)
		}
	}
	for _, l := range f.Lines {
		see(l.Y)
	}
	for _, l := range f.Beside {
		see(l.Y)
	}
	for _, c := range f.Clouds {
		see(c.Y)
	}
	if f.Band != nil {
		see(f.Band.Low)
		see(f.Band.High)
	}
	return top, bottom
}
