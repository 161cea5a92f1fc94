package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// rateText is the screen of a rating: the current carried for good, what sets
// it, over the air, and for how long a current above it flows.
func rateText(r *study.Rate, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, "How much "+map[string]string{"A": "current", "W": "power"}[loadUnit(r)], "for good"), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Carries for good", carries(d, r.Likely)))
	b.WriteString(labelled("Likely range", fmt.Sprintf("%s careful assembly … %s careless assembly", loadText(r.Careful), loadText(r.Careless))))
	if r.Likely.Place != "" {
		b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s there: %s", d.both(r.Likely.Temp), r.Likely.Place)))
	}
	own := "The file's current"
	if r.Power > 0 {
		own = "The file's power"
	}
	b.WriteString(labelled(own, inHand(r)))
	b.WriteString(labelled("End", r.EndText))
	for _, text := range unjudged(r.Unknown) {
		b.WriteString(labelled("UNKNOWN", text+", which is not a pass"))
	}
	if len(r.Currents) > 0 {
		b.WriteString("\n" + currentsTable(d, r.Currents))
	}
	b.WriteString("\n" + limitsTable(d, r))
	b.WriteString("\n" + airTable(d, r))
	if len(r.OverTime) > 0 {
		b.WriteString("\n" + timeTable(r))
		b.WriteString(texttable.Wrap("  ", fmt.Sprintf("At the start %s. The times are likely ones, shorter if assembled carelessly. The limits are those for good: a standard may allow more for a while.", r.StartText), width))
	}
	for _, f := range r.Fuses {
		b.WriteString("\n" + fuseTable(f))
	}
	b.WriteString(notes(r.Warnings))
	b.WriteString(cautionLines([2]string{cautionHotJoint, cautionEstimate}, more...))
	return b.String()
}

// roundAmps is a current to the whole ampere, or to a tenth where that is much.
func roundAmps(a float64) string {
	if a > 0 && a < 20 {
		return fmt.Sprintf("%.1f A", a)
	}
	return fmt.Sprintf("%.0f A", a)
}

// loadText is a rating as it is drawn: a current, or a power with its current.
func loadText(r study.Rated) string {
	if r.Power > 0 {
		return fmt.Sprintf("%s (%s)", roundWatts(r.Power), roundAmps(r.Current))
	}
	return roundAmps(r.Current)
}

// roundWatts is a power to the whole watt.
func roundWatts(w float64) string { return fmt.Sprintf("%.0f W", w) }

func carries(d dress, r study.Rated) string {
	switch {
	case r.Set == study.ByFold:
		return loadText(r) + ": beyond it there is no lasting state, and no limit is reached before"
	case r.Set == study.ByCeiling:
		return fmt.Sprintf("%s: %s reaches %s, where the figures of its material end; no limit is reached before", loadText(r), r.By.Place, d.temperature(r.By.Limit))
	case r.Current == 0:
		return fmt.Sprintf("nothing: without any current %s is %s past %s (%s)", r.By.Place, d.difference(-r.By.Left), r.By.Name, r.By.Source)
	}
	text := fmt.Sprintf("%s: %s reaches %s", loadText(r), r.By.Place, r.By.Name)
	if at := d.temperature(r.By.Limit); !strings.Contains(r.By.Name, at) {
		text += ", " + at
	}
	return text + " (" + r.By.Source + ")"
}

// inHand sets the current of the file against the rating.
func inHand(r *study.Rate) string {
	left := r.Likely.Current - r.Current
	careless := r.Careless.Current - r.Current
	own, round := current(r.Current), roundAmps
	if r.Power > 0 {
		left, careless = r.Likely.Power-r.Power, r.Careless.Power-r.Power
		own, round = quantity.Format(quantity.Power, r.Power, "W", 0), roundWatts
	}
	switch {
	case left < 0:
		return fmt.Sprintf("%s is %s too much", own, round(-left))
	case careless < 0:
		return fmt.Sprintf("%s leaves %s; if assembled carelessly it is %s too much", own, round(left), round(-careless))
	}
	return fmt.Sprintf("%s leaves %s, %s if assembled carelessly", own, round(left), round(careless))
}

// unjudged lists limits that cannot be judged, those of one name together.
func unjudged(list []study.Margin) []string {
	var order []string
	places := map[string][]string{}
	for _, m := range list {
		name := m.Name + " (" + m.Source + ")"
		if _, ok := places[name]; !ok {
			order = append(order, name)
		}
		places[name] = append(places[name], m.Place)
	}
	for i, name := range order {
		order[i] = name + ", at " + strings.Join(places[name], "; ")
	}
	return order
}

func limitsTable(d dress, r *study.Rate) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: "Each limit just holds at"}, {Head: loadUnit(r), Align: texttable.Right}, {Head: "limit"}, {Head: d.temp, Align: texttable.Right}, {Head: "of"}}}
	for _, l := range r.Limits {
		load := l.Current
		if l.Power > 0 {
			load = l.Power
		}
		t.Row(l.By.Place, whole(load), l.By.Name, d.degrees(l.By.Limit), l.By.Source)
	}
	return t.String(width)
}

// loadUnit is the unit of what is drawn.
func loadUnit(r *study.Rate) string {
	if r.Power > 0 {
		return "W"
	}
	return "A"
}

// printedAirs are the temperatures, °C, that the table over the air shows
// beside that of the file; the chart has more.
var printedAirs = []float64{-20, 0, 25, 40, 50, 60}

func airTable(d dress, r *study.Rate) string {
	unit := loadUnit(r)
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: "Air\n" + d.temp, Align: texttable.Right}, {Head: "careful\n" + unit, Align: texttable.Right}, {Head: "likely\n" + unit, Align: texttable.Right},
		{Head: "careless\n" + unit, Align: texttable.Right}}}
	for _, a := range r.Altitudes {
		t.Columns = append(t.Columns, texttable.Column{Head: "likely at\n" + quantity.Format(quantity.Altitude, a.Altitude, "m", 0), Align: texttable.Right})
	}
	t.Columns = append(t.Columns, texttable.Column{}, texttable.Column{Head: "\nset by"})
	last := ""
	for i, a := range r.OverAir {
		own := math.Abs(float64(a.Air-r.Air)) < 0.01
		if !own && !slices.ContainsFunc(printedAirs, func(p float64) bool { return math.Abs(a.Air.Celsius()-p) < 0.01 }) {
			continue
		}
		cells := []string{d.degrees(a.Air), whole(a.Careful), whole(a.Likely.Current), whole(a.Careless)}
		if r.Power > 0 {
			copy(cells[1:], []string{whole(a.CarefulPower), whole(a.Likely.Power), whole(a.CarelessPower)})
		}
		for _, h := range r.Altitudes {
			if r.Power > 0 {
				cells = append(cells, whole(h.Powers[i]))
				continue
			}
			cells = append(cells, whole(h.Currents[i]))
		}
		mark := ""
		if own {
			mark = "<- file"
		}
		by := a.Likely.By.Place + ": " + a.Likely.By.Name
		if by == last {
			t.Row(append(cells, mark, "the same")...)
			continue
		}
		last = by
		t.Row(append(cells, mark, by)...)
	}
	return t.String(width)
}

func timeTable(r *study.Rate) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: "Above it\n" + loadUnit(r), Align: texttable.Right}, {Head: "a limit is\npassed after", Align: texttable.Right}, {Head: "\nthe first"}}}
	for _, p := range r.OverTime {
		if p.Round {
			load := p.Current
			if p.Power > 0 {
				load = p.Power
			}
			t.Row(whole(load), duration(p.Time), strings.TrimPrefix(p.Place+": "+p.Limit, ": "))
		}
	}
	return t.String(width)
}

func fuseTable(f study.FuseCurve) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: f.Name + "\nA", Align: texttable.Right}, {Head: "melts\nafter", Align: texttable.Right},
		{Head: "a limit is\npassed after", Align: texttable.Right}, {Head: ""}}}
	for _, p := range f.Points {
		limit, first := "never", "the fuse opens what the stack would carry"
		if p.Limit > 0 {
			limit, first = duration(p.Limit), "the fuse is first"
			switch {
			case p.Element:
				first = "by the generic element here, which is no curve of this fuse"
			case p.Limit < p.Melts:
				first = "the limit is passed first: the fuse does not protect it"
			}
		}
		t.Row(whole(p.Current), duration(p.Melts), limit, first)
	}
	if f.Share > 0 {
		return t.String(width) + texttable.Wrap("  ", fmt.Sprintf("Through it flow, cold, %s of the whole, which is what the limits are sought for.", percent(f.Share)), width)
	}
	return t.String(width)
}

func currentsTable(d dress, list []study.AtCurrent) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: "Left on at\nA", Align: texttable.Right}, {Head: "hottest\n" + d.temp, Align: texttable.Right}, {Head: "careful …\ncareless"},
		{Head: "\nterminal"}, {Head: "\nleft", Align: texttable.Right}, {Head: "\ntightest limit"}, {Head: "passed\nafter", Align: texttable.Right}}}
	for _, a := range list {
		cells := []string{quantity.Number(a.Current, 3), "none", "", "no lasting state", "", "", "no"}
		if a.Hottest != nil {
			cells[1], cells[3] = d.degrees(a.Hottest.Temp), a.Hottest.Place
			cells[2] = d.degrees(a.Hottest.Careful) + " … " + d.degrees(a.Hottest.Careless)
			if a.Hottest.CarelessEnds != "" {
				cells[2] = d.degrees(a.Hottest.Careful) + " … none"
			}
		}
		if a.Tightest != nil {
			cells[4], cells[5] = d.difference(a.Tightest.Left), a.Tightest.Name
			if a.Hottest == nil || a.Tightest.Place != a.Hottest.Place {
				cells[5] += ", " + a.Tightest.Place
			}
		}
		if a.Passed > 0 {
			cells[6] = duration(a.Passed)
		}
		t.Row(cells...)
	}
	return t.String(width)
}
