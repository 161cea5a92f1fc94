package cli

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// soakText is the screen of a stack over time, its table of times at each multiple
// of a time, s; 0 leaves the choice of rows to the table.
func soakText(r *study.Soak, every float64, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, amps(r), soaked(d, r)), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s after %s, %s above air: %s",
		d.both(r.Hottest.Temp), duration(r.Until), d.difference(r.Hottest.Rise), r.Hottest.Place)))
	b.WriteString(labelled("Likely range", likelyRange(d, r.Hottest)))
	if p := r.Peak; p.Temp-r.Hottest.Temp > 0.5 {
		b.WriteString(labelled("Hottest on the way", fmt.Sprintf("%s after %s: %s", d.both(p.Temp), duration(p.Time), p.Place)))
	}
	b.WriteString(labelled("Left on", leftOn(d, r)))
	b.WriteString(boxDoubts(r.Box))
	b.WriteByte('\n')
	b.WriteString(timesTable(d, r, every))
	if len(r.Limits) > 0 {
		b.WriteByte('\n')
		b.WriteString(crossings(d, r))
	}
	if len(r.Measured) > 0 {
		b.WriteByte('\n')
		b.WriteString(differences(d, r))
	}
	b.WriteByte('\n')
	b.WriteString(boxLines(d, r.Box))
	b.WriteString(texttable.Wrap("  Heat     ", fmt.Sprintf("made %s, given off %s, stored %s",
		joules(r.Made), joules(r.Lost), joules(r.Stored)), width))
	b.WriteString(notes(r.Warnings))
	b.WriteString(texttable.Wrap("  Balance  ", audit(d, r.Numerics), width))
	b.WriteString(cautionLines(soakCautions(r), more...))
	return b.String()
}

// amps is the current, or the highest where it varies.
func amps(r *study.Soak) string {
	if r.Power > 0 {
		upTo := ""
		if varies(r) {
			upTo = "Up to "
		}
		return fmt.Sprintf("%s%s (up to %s)", upTo, quantity.Format(quantity.Power, r.Power, "W", 0), current3(r.Current))
	}
	if varies(r) {
		return "Up to " + current(slices.Max(r.Currents))
	}
	return current(r.Current)
}

func varies(r *study.Soak) bool {
	return slices.ContainsFunc(r.Currents, func(a float64) bool { return a != r.Currents[0] })
}

// soaked says how long and from where.
func soaked(d dress, r *study.Soak) string {
	text := duration(r.Until)
	hottest := startOf(r)
	switch {
	case hottest < 0:
		return text
	case math.Abs(float64(r.Series[hottest].Temps[0]-r.Air)) < 0.1:
		return text + " from cold"
	}
	return fmt.Sprintf("%s from %s at the hottest terminal", text, d.temperature(r.Series[hottest].Temps[0]))
}

// startOf is the terminal that is hottest at the start; -1 without one.
func startOf(r *study.Soak) int {
	best := -1
	for i, s := range r.Series {
		if s.Terminal && len(s.Temps) > 0 && (best < 0 || s.Temps[0] > r.Series[best].Temps[0]) {
			best = i
		}
	}
	return best
}

func leftOn(d dress, r *study.Soak) string {
	if r.Period > 0 {
		return fmt.Sprintf("a period of %s, again and again, does not settle; clampheat duty finds where it comes to", duration(r.Period))
	}
	if !r.Lasting {
		return "no lasting state: the temperatures do not settle at this current"
	}
	text := "settles at " + d.both(r.Final)
	if r.To90 > 0 {
		text += "; 90 % of the way after " + duration(r.To90)
	}
	if r.To99 > 0 {
		text += ", 99 % after " + duration(r.To99)
	}
	if r.Settled > 0 {
		text += ", slower than 1 K an hour after " + duration(r.Settled)
	}
	return text
}

func joules(j float64) string {
	switch {
	case math.Abs(j) >= 999.5e3:
		return quantity.Number(j/1e6, 3) + " MJ"
	case math.Abs(j) >= 999.5:
		return quantity.Number(j/1e3, 3) + " kJ"
	}
	return quantity.Number(j, 3) + " J"
}

// Most rows and the head's width of the table of times; more rows where the
// user has said how far they are apart.
const (
	mostTimes  = 20
	mostAsked  = 61 // an hour by the minute
	headWidth  = 11
	timesRoom  = width - 2
	steadyWord = 8 // room of the columns of times and current
)

// timesTable is a choice of times against the terminals.
func timesTable(d dress, r *study.Soak, every float64) string {
	unit, scale := clock(r.Until)
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: unit, Align: texttable.Point}}}
	steps := varies(r)
	room := timesRoom - steadyWord
	if steps {
		t.Columns = append(t.Columns, texttable.Column{Head: "A", Align: texttable.Right})
		room -= steadyWord
	}
	shown, left := roomFor(r, room)
	for _, i := range shown {
		t.Columns = append(t.Columns, texttable.Column{Head: texttable.Narrow(r.Series[i].Name, headWidth), Align: texttable.Right})
	}
	chosen := chosenTimes(r.Times, mostTimes)
	if every > 0 {
		chosen = askedTimes(r.Times, every)
	} else if steps || len(r.Airs) > 0 {
		chosen = withTime(r.Times, chosen, r.Peak.Time)
	}
	labels := timeLabels(r.Times, chosen, scale)
	for n, k := range chosen {
		row := []string{labels[n]}
		if steps {
			row = append(row, quantity.Number(r.Currents[k], 3))
		}
		for _, i := range shown {
			row = append(row, d.degrees(r.Series[i].Temps[k]))
		}
		t.Row(row...)
	}
	rest := "every part"
	if left > 0 {
		rest = fmt.Sprintf("%d terminals that stay cooler and every part", left)
		if left == 1 {
			rest = "1 terminal that stays cooler and every part"
		}
	}
	foot := d.temp + "; " + rest + ": --csv"
	if rows := leftOut(chosen, len(r.Times)); rows != "" {
		if r.Period > 0 {
			rows += ", what swings between them is not in the table"
		}
		foot = fmt.Sprintf("%s; %s; all: --csv, with %s", d.temp, rows, rest)
	}
	return t.String(width) + texttable.Wrap("  ", foot, width)
}

// leftOut says which rows are shown where not all are.
func leftOut(chosen []int, all int) string {
	if len(chosen) == all || len(chosen) < 2 {
		return ""
	}
	step := chosen[1] - chosen[0]
	for i := 1; i < len(chosen)-1; i++ { // the last row ends the table wherever it lies
		if chosen[i]-chosen[i-1] != step {
			return "not every row shown"
		}
	}
	return fmt.Sprintf("every %s row shown", ordinal(step))
}

// ordinal is 2nd, 3rd, 4th, 11th, 21st …
func ordinal(n int) string {
	ending := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			ending = "st"
		case 2:
			ending = "nd"
		case 3:
			ending = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, ending)
}

// roomFor chooses the terminals that fit beside each other, those that get the
// hottest on the way where not all do, in the order of the path.
func roomFor(r *study.Soak, room int) (shown []int, left int) {
	var terminals []int
	for i, s := range r.Series {
		if s.Terminal && len(s.Temps) == len(r.Times) && len(s.Temps) > 0 {
			terminals = append(terminals, i)
		}
	}
	hottest := slices.Clone(terminals)
	slices.SortStableFunc(hottest, func(a, b int) int {
		return cmp.Compare(r.Series[b].Highest, r.Series[a].Highest)
	})
	for _, i := range hottest {
		const gap = 2
		need := gap
		for _, line := range strings.Split(texttable.Narrow(r.Series[i].Name, headWidth), "\n") {
			need = max(need, gap+utf8.RuneCountInString(line))
		}
		if room -= need; room < 0 {
			break
		}
		shown = append(shown, i)
	}
	slices.Sort(shown)
	return shown, len(terminals) - len(shown)
}

// alike are the limits of one name, one figure and one verdict, of which the
// table shows the place with the least left.
type alike struct {
	study.Crossing
	places int
	first  float64 // s; when the first of them is passed
}

func grouped(d dress, limits []study.Crossing) []alike {
	var list []alike
	at := map[string]int{}
	for _, l := range limits {
		key := strings.Join([]string{l.Name, limitText(d, l.Margin), string(l.Verdict), fmt.Sprint(l.Reached)}, "\n")
		i, ok := at[key]
		if !ok {
			at[key] = len(list)
			list = append(list, alike{l, 1, l.Time})
			continue
		}
		g := &list[i]
		g.places++
		g.first = min(g.first, l.Time)
		if l.Left < g.Left {
			g.Crossing = l
		}
	}
	return list
}

// crossings is the table of limits with when each is passed, one row for all
// places where it is the same with the same verdict.
func crossings(d dress, r *study.Soak) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Limit"}, {Head: "tightest at"}, {Head: "", Align: texttable.Right},
		{Head: "least left", Align: texttable.Right}, {Head: "passed after", Align: texttable.Right}, {Head: ""}}}
	for _, g := range grouped(d, r.Limits) {
		passed, sign, left := "not passed", "", d.difference(g.Left)
		switch {
		case g.Verdict == study.Unknown:
			passed, left = "UNKNOWN", ""
		case g.Reached:
			passed, sign = duration(g.first), "LIMIT"
		}
		place := g.Place
		if g.places > 1 {
			place += fmt.Sprintf(" (%d places)", g.places)
		}
		figure := limitText(d, g.Margin)
		if g.Verdict == study.Unknown {
			figure = ""
		}
		t.Row(g.Name, place, figure, left, passed, sign)
	}
	return t.String(width)
}

// differences is the table of measured channels against the prediction.
func differences(d dress, r *study.Soak) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Predicted − measured"}, {Head: "held against"},
		{Head: "points", Align: texttable.Right}, {Head: "mean", Align: texttable.Right}, {Head: "rms", Align: texttable.Right},
		{Head: "largest", Align: texttable.Right}, {Head: "at", Align: texttable.Right}}}
	for _, m := range r.Measured {
		t.Row(m.Channel, m.Place, fmt.Sprint(len(m.Times)), d.fine(m.Mean), d.fine(m.Rms), d.fine(m.Largest), duration(m.At))
	}
	return t.String(width)
}

// fine is a difference to a tenth.
func (d dress) fine(k float64) string {
	if d.temp == "°F" {
		k *= 1.8
	}
	text := fmt.Sprintf("%.1f", k)
	if text == "-0.0" {
		text = "0.0"
	}
	return text + " " + d.riseUnit()
}
