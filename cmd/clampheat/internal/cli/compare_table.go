package cli

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// This file lays stacks out side by side: a few in columns, many in lines.

// mostShared is how many shared places the screen shows; --csv has them all.
const mostShared = 8

// sideBySide is the table, a column a stack.
func sideBySide(d dress, r *study.Compare) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: ""}}}
	for _, c := range r.Columns {
		t.Columns = append(t.Columns, texttable.Column{Head: broken(c.Label)})
	}
	row := func(label string, cell func(c study.Column) string) {
		cells := []string{label}
		for _, c := range r.Columns {
			cells = append(cells, cell(c))
		}
		t.Row(cells...)
	}
	settled := func(cell func(c study.Column) string) func(c study.Column) string {
		return func(c study.Column) string {
			if c.Ends != "" {
				return "–"
			}
			return cell(c)
		}
	}
	row("hottest terminal", func(c study.Column) string {
		if c.Ends != "" {
			return "no lasting state"
		}
		return d.temperature(c.Hottest.Temp)
	})
	row("  careful … careless", settled(func(c study.Column) string {
		if c.Hottest.CarelessEnds != "" {
			return d.degrees(c.Hottest.Careful) + " … no lasting state"
		}
		return d.degrees(c.Hottest.Careful) + " … " + d.temperature(c.Hottest.Careless)
	}))
	row("  where", settled(func(c study.Column) string { return c.Hottest.Place }))
	row("15 min from cold", settled(func(c study.Column) string { return d.temperature(c.After15) }))
	row("90 % of the rise after", settled(func(c study.Column) string { return duration(c.To90) }))
	row("tightest limit", settled(func(c study.Column) string { return marginLeft(d, c.Tightest) }))
	row("worst joint 3 × as bad", settled(func(c study.Column) string { return worse(d, c.Worst) }))
	row("  which", settled(func(c study.Column) string {
		if c.Worst == nil {
			return "–"
		}
		return c.Worst.Joint
	}))
	if slices.ContainsFunc(r.Columns, func(c study.Column) bool { return len(c.Spreads) > 0 }) {
		row("largest share", settled(largestShare))
	}
	places := sharedRows(r)
	for i, place := range places {
		if i == mostShared {
			t.Row(fmt.Sprintf("%d more places: --csv", len(places)-mostShared))
			break
		}
		row(place.label, func(c study.Column) string {
			hottest := quantity.Temp(0)
			for _, p := range c.Places {
				if slices.Contains(place.names, p.Name) {
					hottest = max(hottest, p.Temp)
				}
			}
			if hottest == 0 {
				return "–"
			}
			return d.temperature(hottest)
		})
	}
	row(dropName(r), settled(func(c study.Column) string { return volts(c.Drop) }))
	row("heat made", settled(func(c study.Column) string { return power(c.Heat) + " W" }))
	row("largest lasting current", settled(func(c study.Column) string {
		if c.Largest == nil {
			return "UNKNOWN"
		}
		return wholeAmps(c.Largest.Current)
	}))
	row("  set by", settled(func(c study.Column) string {
		if c.Largest == nil {
			return "–"
		}
		return c.Largest.By.Place
	}))
	sizingTable(r, row)
	statedTable(r, row)
	return t.String(width)
}

// mostBeside is how many stacks have room beside each other.
const mostBeside = 4

// oneBelowTheOther is the table of many stacks, a line each.
func oneBelowTheOther(d dress, r *study.Compare) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: ""},
		{Head: "hottest\n" + d.temp, Align: texttable.Right}, {Head: "careful …\ncareless", Align: texttable.Right},
		{Head: "15 min\n" + d.temp, Align: texttable.Right}, {Head: "90 %\nafter", Align: texttable.Right},
		{Head: "joint × 3\n" + d.temp, Align: texttable.Right}, {Head: "mV", Align: texttable.Right}, {Head: "W", Align: texttable.Right},
		{Head: "bears\nA", Align: texttable.Right}, {Head: "limit\nleft", Align: texttable.Right}, {Head: ""}}}
	ends := false // whether some figure is of no lasting state
	for _, c := range r.Columns {
		cells := []string{c.Label, "none"}
		ends = ends || c.Ends != "" || c.Hottest.CarelessEnds != "" || (c.Worst != nil && c.Worst.Ends != "")
		if c.Ends == "" {
			careless, joint, bears := "none", "none", "UNKNOWN"
			if c.Hottest.CarelessEnds == "" {
				careless = d.degrees(c.Hottest.Careless)
			}
			switch {
			case c.Worst == nil:
				joint = "–"
			case c.Worst.Ends == "":
				joint = d.degrees(c.Worst.Temp)
			}
			if c.Largest != nil {
				bears = whole(c.Largest.Current)
			}
			cells = []string{c.Label, d.degrees(c.Hottest.Temp), d.degrees(c.Hottest.Careful) + " … " + careless, d.degrees(c.After15),
				duration(c.To90), joint, whole(c.Drop * 1e3), power(c.Heat), bears, "UNKNOWN", ""}
			if m := c.Tightest; m != nil {
				cells[9] = d.difference(m.Left)
				if m.Left < 0 {
					cells[10] = "LIMIT"
				}
			}
		}
		t.Row(cells...)
	}
	text := t.String(width)
	if ends {
		text += "  none: no lasting state\n"
	}
	return text + "  Every place, limit and size: --csv\n"
}

// broken breaks a label into lines that a column can bear.
func broken(label string) string {
	const room = 22
	return strings.TrimSuffix(texttable.Wrap("", label, room), "\n")
}

func marginLeft(d dress, m *study.Margin) string {
	switch {
	case m == nil:
		return "UNKNOWN"
	case m.Left < 0:
		return "LIMIT passed by " + d.difference(-m.Left)
	}
	return d.difference(m.Left) + " left"
}

func worse(d dress, w *study.WorseJoint) string {
	switch {
	case w == nil:
		return "–"
	case w.Ends != "":
		return "no lasting state"
	case w.Passing != nil:
		return d.temperature(w.Temp) + ", LIMIT passed"
	}
	return d.temperature(w.Temp)
}

// sizingTable adds the sizing figures. Of several cables the most loaded counts.
func sizingTable(r *study.Compare, row func(string, func(study.Column) string)) {
	row("fuse loaded, 0.8 × rated", func(c study.Column) string {
		return counted(c.Sizing.Fuses, func(f study.FuseSizing) string { return fmt.Sprintf("%s of %s", percent(f.Loaded), current(f.Usable)) })
	})
	row("  interrupting rating", func(c study.Column) string { return counted(c.Sizing.Fuses, interrupting) })
	row("cable loaded, its table", func(c study.Column) string {
		most, unknown := study.CableSizing{}, false
		for _, cable := range c.Sizing.Cables {
			unknown = unknown || cable.Unknown != ""
			if cable.Unknown == "" && cable.Loaded >= most.Loaded {
				most = cable
			}
		}
		switch {
		case unknown:
			return "UNKNOWN"
		case most.Allowed == 0:
			return "–"
		}
		return fmt.Sprintf("%s of %s", percent(most.Loaded), wholeAmps(most.Allowed))
	})
	if slices.ContainsFunc(r.Columns, func(c study.Column) bool { return c.Sizing.Drop.Return > 0 || c.Sizing.Drop.Bank > 0 }) {
		row("drop of the circuit", func(c study.Column) string {
			s := c.Sizing.Drop
			text := volts(s.Total)
			if s.Bank > 0 {
				text += ", " + percent(s.Share)
			}
			return text
		})
	}
}

// dropName is what a row of drops is called: of circuits that are closed around the
// path more lies in it.
func dropName(r *study.Compare) string {
	if slices.ContainsFunc(r.Columns, func(c study.Column) bool {
		d := c.Sizing.Drop
		return len(d.In) > 1 || d.Source > 0
	}) {
		return "drop, as check lists it"
	}
	return "drop, end to end"
}

// largestShare is that of the way that carries most for a member of its group.
func largestShare(c study.Column) string {
	if len(c.Spreads) == 0 {
		return "–"
	}
	worst := slices.MaxFunc(c.Spreads, func(a, b study.Spread) int { return cmp.Compare(a.OverEven, b.OverEven) })
	return fmt.Sprintf("%.1f %%, %s of %d", 100*worst.OverEven/float64(worst.Ways), worst.Largest, worst.Ways)
}

// mostFuses is how many unlike fuses one cell tells of.
const mostFuses = 3

// counted tells of fuses, the most loaded first, those that are alike once.
func counted(fuses []study.FuseSizing, tell func(study.FuseSizing) string) string {
	fuses = slices.Clone(fuses)
	slices.SortStableFunc(fuses, func(a, b study.FuseSizing) int { return cmp.Compare(b.Loaded, a.Loaded) })
	count := map[string]int{}
	var told []string
	for _, f := range fuses {
		text := tell(f)
		if count[text]++; count[text] == 1 {
			told = append(told, text)
		}
	}
	if len(told) == 0 {
		return "–"
	}
	for i, text := range told {
		if n := count[text]; n > 1 {
			told[i] += fmt.Sprintf(" (%d ×)", n)
		}
	}
	if more := len(told) - mostFuses; more > 0 {
		told = append(told[:mostFuses], fmt.Sprintf("%d less", more))
	}
	return strings.Join(told, ", ")
}

// sharedRow is a place that several stacks have, or the same place of ways side
// by side, of which the hottest is shown.
type sharedRow struct {
	label string
	names []string
}

// sharedRows are the shared places, those of ways side by side as one.
func sharedRows(r *study.Compare) []sharedRow {
	ways := map[string]string{} // by name of the place
	for _, c := range r.Columns {
		for _, p := range c.Places {
			if p.Way != "" {
				ways[p.Name] = p.Way
			}
		}
	}
	var out []sharedRow
	var first, last []string // way of the first and the last place of a row
	at := map[string]int{}
	for _, name := range r.Places {
		bare := strings.TrimPrefix(name, ways[name]+": ")
		if ways[name] != "" {
			// One row a place, whichever the way: "lug on bus bar, stud A".
			if stud, ok := strings.CutSuffix(bare, "stud "+ways[name]); ok {
				bare = stud + "its stud"
			}
		}
		i, ok := at[bare]
		if !ok || ways[name] == "" {
			at[bare] = len(out)
			out = append(out, sharedRow{name, []string{name}})
			first, last = append(first, ways[name]), append(last, ways[name])
			continue
		}
		out[i].names = append(out[i].names, name)
		last[i] = ways[name]
		out[i].label = fmt.Sprintf("%s … %s: %s", first[i], last[i], bare)
	}
	return out
}

// statedTable passes on what the files say of their parts.
func statedTable(r *study.Compare, row func(string, func(study.Column) string)) {
	for _, what := range []struct {
		name string
		of   func(study.Stated) string
	}{
		{"price", func(s study.Stated) string { return s.Price }},
		{"size", func(s study.Stated) string { return s.Size }},
		{"mass", func(s study.Stated) string { return s.Mass }},
	} {
		cells := map[string]string{}
		for _, c := range r.Columns {
			var parts []string
			for _, s := range c.Stated {
				if text := what.of(s); text != "" {
					parts = append(parts, s.Part+" "+text)
				}
			}
			cells[c.Label] = strings.Join(parts, ", ")
		}
		if slices.ContainsFunc(r.Columns, func(c study.Column) bool { return cells[c.Label] != "" }) {
			row(what.name+", as stated", func(c study.Column) string {
				if cells[c.Label] == "" {
					return "not stated"
				}
				return cells[c.Label]
			})
		}
	}
}
