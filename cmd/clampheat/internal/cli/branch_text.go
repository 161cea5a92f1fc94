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

// This file writes what is told of ways side by side, of a box and of what is
// drawn as a power.

// drawnText is what is drawn: a current, or a power with the current that flows.
func drawnText(c study.Conditions) string {
	if c.Power == 0 {
		return current(c.Current)
	}
	text := quantity.Format(quantity.Power, c.Power, "W", 0)
	switch {
	case c.Voltage > 0:
		text += fmt.Sprintf(" (%s at %s)", current3(c.Current), quantity.Format(quantity.Voltage, c.Voltage, "V", 3))
	case c.Current > 0:
		text += fmt.Sprintf(" (%s)", current3(c.Current))
	}
	return text
}

// branchTable is one line a way side by side.
func branchTable(d dress, branches []study.BranchLine, cold bool) string {
	if len(branches) == 0 {
		return ""
	}
	hottest, unit := "hottest terminal", d.temp
	if cold {
		hottest, unit = "", ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Side by side"}, {Head: "A", Align: texttable.Point},
		{Head: "share", Align: texttable.Right}, {Head: "mV", Align: texttable.Point}, {Head: unit, Align: texttable.Right}, {Head: hottest},
		{Head: "fuse"}, {Head: "of it", Align: texttable.Right}}}
	for _, b := range branches {
		cells := []string{b.Name, quantity.Number(b.Current, 3), shareText(b), visible(b.Drop*1e3, 3), "", "", "–", ""}
		if b.Place != "" && !cold {
			cells[4], cells[5] = d.degrees(b.Temp), strings.TrimPrefix(b.Place, b.Name+": ")
		}
		if b.Fuse != "" {
			cells[6], cells[7] = current(b.Rated), percent(b.Load)
		}
		t.Row(cells...)
	}
	return t.String(width)
}

// shareText is the share of a way in what its group carries. A circuit has a
// current of its own.
func shareText(b study.BranchLine) string {
	if b.Kind == "circuit" {
		return "own"
	}
	if b.Share < 0 || b.Share > 1 {
		return "–" // what circulates is no part of the whole
	}
	return fmt.Sprintf("%.1f %%", 100*b.Share)
}

// spreadLines say how evenly each group shares.
func spreadLines(spreads []study.Spread) string {
	var b strings.Builder
	for _, s := range spreads {
		if s.Ways < 2 {
			continue
		}
		text := fmt.Sprintf("%s carries %.1f %% of an even share", s.Largest, 100*s.OverEven)
		if s.OverEven > float64(s.Ways) {
			text = s.Largest + " carries more than is drawn"
		}
		switch {
		case s.Ratio > 0 && s.Ratio < 1+evenly:
			text = fmt.Sprintf("all %d alike", s.Ways)
		case s.Ratio > 0:
			text += fmt.Sprintf(", %s × as much as %s", quantity.Number(s.Ratio, 4), s.Smallest)
		default:
			text += fmt.Sprintf("; %s carries none or flows backwards: the others charge it", s.Smallest)
		}
		b.WriteString(texttable.Wrap("  Spread   ", text+".", width))
	}
	return b.String()
}

// evenly is the share to which currents count as alike.
const evenly = 5e-4

// circulatingLine says what flows between unlike batteries at rest.
func circulatingLine(list []study.Circulating) string {
	if len(list) == 0 {
		return ""
	}
	parts := make([]string, len(list))
	for i, c := range list {
		parts[i] = fmt.Sprintf("%s %s A", c.Name, ampsSigned(c.Current))
	}
	return texttable.Wrap("  At rest  ", "with nothing drawn these currents circulate between the batteries, at the temperatures above (+ gives, - is charged): "+strings.Join(parts, ", ")+".", width)
}

func ampsSigned(a float64) string {
	text := quantity.Number(math.Abs(a), 3)
	if a < 0 {
		return "-" + text
	}
	return "+" + text
}

// openedTable is what becomes of the others where one way is opened.
func openedTable(d dress, list []study.OpenedCase) string {
	if len(list) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "One opened"}, {Head: "most in"}, {Head: "A", Align: texttable.Point},
		{Head: "share", Align: texttable.Right}, {Head: d.temp, Align: texttable.Right}, {Head: "hottest terminal"}, {Head: "limits"}, {Head: "fuses of the others"}}}
	none := ""
	for _, o := range list {
		if o.None != "" {
			t.Row(o.Name, "–", "", "", "", "none")
			none += texttable.Wrap("  ", o.Name+" opened: "+o.None+".", width)
			continue
		}
		cells := []string{o.Name, "–", "", "", d.degrees(o.Temp), o.Place, limitsPassed(o), followText(o)}
		if b := o.Largest; b != nil {
			cells[1], cells[2], cells[3] = b.Name, quantity.Number(b.Current, 3), shareText(*b)
		}
		t.Row(cells...)
	}
	return t.String(width) + none
}

// limitsPassed names those that are passed only with the way opened: what is passed
// with all on is told before.
func limitsPassed(o study.OpenedCase) string {
	switch {
	case len(o.Passed) == 0:
		return "hold"
	case len(o.New) == 0:
		return "none new"
	}
	worst := slices.MinFunc(o.New, func(a, b study.Margin) int {
		switch {
		case a.Left < b.Left:
			return -1
		case a.Left > b.Left:
			return 1
		}
		return 0
	})
	text := "LIMIT " + worst.Place
	if n := len(o.New) - 1; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}

// followText says whether the fuses of the others open as well, those that carry
// alike together.
func followText(o study.OpenedCase) string {
	if len(o.Fuses) == 0 {
		if !slices.ContainsFunc(o.Branches, func(b study.BranchLine) bool { return b.Fuse != "" }) {
			return "–"
		}
		return "below 80 %"
	}
	var follow, loaded []study.FollowFuse
	for _, f := range o.Fuses {
		if f.Follows {
			follow = append(follow, f)
		} else {
			loaded = append(loaded, f)
		}
	}
	var parts []string
	if n := len(follow); n > 0 {
		worst := slices.MaxFunc(follow, byLoad)
		text := fmt.Sprintf("%d FOLLOW: %s of rating", n, percent(worst.Load))
		if worst.Melts > 0 {
			text += ", melts after " + duration(worst.Melts)
		} else {
			text += ", the curve says when"
		}
		parts = append(parts, text)
	}
	if n := len(loaded); n > 0 {
		parts = append(parts, fmt.Sprintf("%d loaded over 80 %%: %s", n, percent(slices.MaxFunc(loaded, byLoad).Load)))
	}
	return strings.Join(parts, "; ")
}

func byLoad(a, b study.FollowFuse) int {
	switch {
	case a.Load < b.Load:
		return -1
	case a.Load > b.Load:
		return 1
	}
	return 0
}

// hiddenWays says whether a table of places leaves out a way: of ways side by
// side it shows the hottest.
func hiddenWays(aside []string) func(way string) bool {
	return func(way string) bool { return slices.Contains(aside, way) }
}

// otherWays says what a table of places left out.
func otherWays(aside []string) string {
	if len(aside) == 0 {
		return ""
	}
	return texttable.Wrap("  ", "Not shown: the places of "+strings.Join(aside, ", ")+"; --csv and --json have them.", width)
}

// boxDoubts stand with the answer: without a box that can be there is none.
func boxDoubts(box *study.BoxState) string {
	if box == nil {
		return ""
	}
	var b strings.Builder
	for _, text := range box.Doubts {
		b.WriteString(labelled("DOUBT", "the box: "+text))
	}
	return b.String()
}

// boxLines tell of the box around a stack.
func boxLines(d dress, box *study.BoxState) string {
	if box == nil {
		return ""
	}
	text := fmt.Sprintf("air %s, reckoned as one temperature; near its top it may have %s (%s × the rise, %s", d.temperature(box.Air),
		d.temperature(box.Top), quantity.Number(box.TopRatio, 2), box.Source)
	if !box.Within {
		text += ", whose tables are for other sizes of box"
	}
	text += fmt.Sprintf("). Wall %s inside, %s outside.", d.temperature(box.Inner), d.temperature(box.Outer))
	parts := []string{"parts " + power(box.Parts)}
	if box.Other != 0 {
		parts = append(parts, "other things "+power(box.Other))
	}
	out := []string{"wall " + power(box.Wall)}
	if box.Vents != 0 {
		out = append(out, "vents "+power(box.Vents))
	}
	if box.Bulkhead != 0 {
		out = append(out, "bulkhead "+power(box.Bulkhead))
	}
	text += fmt.Sprintf(" Heat in, W: %s; out: %s.", strings.Join(parts, ", "), strings.Join(out, ", "))
	return texttable.Wrap("  Box      ", text, width)
}
