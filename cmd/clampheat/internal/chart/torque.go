package chart

import (
	"fmt"
	"math"
	"strings"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Torque is a sheet for teaching: what a nut's torque does to its clamp force,
// the clamp to the resistance of the faces, and that to the temperature of the
// stack. The three panels share their axis of torques, and the same torques
// are marked in all of them.
func Torque(r *study.Torque) *Figure {
	s := scaleOf(r.Conditions)
	own := r.OwnCurve()
	units := []string{"N·m", "in·lb"}
	if strings.Contains(r.TorqueUnit, "lb") {
		units[0], units[1] = units[1], units[0]
	}
	// In its own current's terms, which need not be the whole.
	through, amps := r.Current, quantity.Format(quantity.Current, r.Current, "A", 0)
	if r.Through > 0 {
		through, amps = r.Through, quantity.Number(r.Through, 3)+" A"
	}
	sheet := &Sheet{
		Title: r.Title,
		Subtitle: fmt.Sprintf("%s, %s, %s. Heavy line: faces as in the file.",
			r.Nut, r.Fastener, conditions(drawn(r.Conditions), r.Conditions, s)),
		XLabel: "torque on the nut",
		XMax:   r.Highest,
		Beyond: r.Stated,
		Panels: []Panel{
			{Head: "torque → clamp", YLabel: "clamp force, kN", Unit: "kN", Whole: true},
			{Head: "clamp → resistance", YLabel: "all faces under the nut, µΩ", Unit: "µΩ", Log: true,
				Right: "mV at " + amps, PerUnit: through * 1e-3},
			{Head: "resistance → heat", YLabel: "hottest terminal, " + s.unit, Unit: s.unit, Least: 10, Degrees: true},
		},
	}
	reads := []func(study.TorquePoint) float64{
		func(p study.TorquePoint) float64 { return p.Clamp / 1e3 },
		func(p study.TorquePoint) float64 { return p.Resistance * 1e6 },
		func(p study.TorquePoint) float64 { return s.of(p.Hottest) },
	}
	for k := range sheet.Panels {
		panel := &sheet.Panels[k]
		for i, c := range r.Curves {
			if k == 0 && i != r.Own {
				continue // the clamp does not know the faces
			}
			line := Line{Name: c.Faces, Hot: i == r.Own}
			for _, p := range c.Points {
				if p.Lasts() {
					line.X, line.Y = append(line.X, p.Torque), append(line.Y, reads[k](p))
				}
			}
			panel.Lines = append(panel.Lines, line)
			if k > 0 {
				panel.Styles = append(panel.Styles, i)
			}
		}
		for i, b := range r.Bands {
			if b.Loose.Lasts() && b.Tight.Lasts() {
				panel.Spans = append(panel.Spans, Span{X: r.Stated, Low: reads[k](b.Tight), High: reads[k](b.Loose), Heavy: i == 0})
			}
		}
	}
	for _, p := range own.Points {
		name := ""
		switch p.Name {
		case study.FingerTight:
			name = "fingers"
		case study.HalfTorque:
			name = "half"
		case study.StatedTorque:
			name = "stated"
		default:
			continue
		}
		m := Mark{Name: name, X: p.Torque, Bold: p.Name == study.StatedTorque,
			Texts: []string{torqueTick(p.Torque, units[0]), torqueTick(p.Torque, units[1])}}
		for k := range sheet.Panels {
			value := math.NaN()
			if p.Lasts() {
				value = reads[k](p)
			}
			m.Y = append(m.Y, value)
		}
		sheet.Marks = append(sheet.Marks, m)
	}
	last := &sheet.Panels[2]
	if own.Least > 0 && !own.Always {
		last.Alarm = own.Least
	}
	if own.Enough > own.Points[0].Torque && own.Enough < r.Stated {
		last.Enough = own.Enough
	}
	sheet.limit(r, s)
	sheet.remarks(r, s)
	return &Figure{Sheet: sheet}
}

// torqueTick is a torque without noughts at its end.
func torqueTick(nm float64, unit string) string {
	number, u, _ := strings.Cut(quantity.Format(quantity.Torque, nm, unit, 2), " ")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + u
}

// limit draws the tightest limit where it lies near the curves, and names it
// under the picture where it does not.
func (sh *Sheet) limit(r *study.Torque, s scale) {
	m := r.Tightest
	if m == nil || m.Verdict == study.Unknown {
		return
	}
	last := &sh.Panels[2]
	low, high := last.reach()
	level := Level{Name: fmt.Sprintf("limit %.0f %s", s.of(m.Limit), s.unit), Value: s.of(m.Limit)}
	if level.Value < high+2*math.Max(high-low, last.Least) && level.Value > low-math.Max(high-low, last.Least) {
		last.Levels = append(last.Levels, level)
		return
	}
	where := "above"
	if level.Value < low {
		where = "below"
	}
	sh.Foot = append(sh.Foot, fmt.Sprintf("Limit, %s the picture: %.0f %s, %s.", where, s.of(m.Limit), s.unit, m.Name))
}

// signed is a difference to a tenth with its sign, nought as +0.0.
func signed(x float64) string {
	text := fmt.Sprintf("%+.1f", x)
	if text == "-0.0" {
		return "+0.0"
	}
	return text
}

// remarks are the lines under the picture.
func (sh *Sheet) remarks(r *study.Torque, s scale) {
	var bands []string
	for i, b := range r.Bands {
		stroke := "thick"
		if i > 0 {
			stroke = "thin"
		}
		bands = append(bands, fmt.Sprintf("%s −%.0f … +%.0f %% (%s bar)", b.Name, 100*(1-b.Low), 100*(b.High-1), stroke))
	}
	sh.Foot = append(sh.Foot, "Clamp at the stated torque: "+strings.Join(bands, ", ")+".")
	var spoiled []string
	for _, sp := range r.Spoiled {
		if sp.Breaks == "" && sp.Point.Lasts() {
			change := sp.Change
			unit := "K"
			if s.unit == "°F" {
				change, unit = change*1.8, "°F"
			}
			spoiled = append(spoiled, fmt.Sprintf("%s %s %s", sp.Name, signed(change), unit))
		}
	}
	sh.Foot = append(sh.Foot, "Spoiled, same current: "+strings.Join(spoiled, "; ")+".",
		"Never above the stated torque; the maker's figure comes first. Disconnect before a nut is touched.")
}
