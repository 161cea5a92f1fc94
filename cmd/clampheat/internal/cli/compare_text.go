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

// compareText is the screen of a comparison: the verdict, the stacks side by
// side, why they differ, what is not alike, two cautions.
func compareText(r *study.Compare) string {
	d := dressed(r.Columns[0].Conditions)
	var b strings.Builder
	for _, line := range verdictLines(d, r) {
		b.WriteString(texttable.Wrap("", line, width))
	}
	b.WriteByte('\n')
	if len(r.Columns) <= mostBeside {
		b.WriteString(sideBySide(d, r))
	} else {
		b.WriteString(oneBelowTheOther(d, r))
	}
	b.WriteString(whyLines(d, r))
	b.WriteByte('\n')
	b.WriteString(notAlike(r))
	b.WriteString(rules(r))
	b.WriteString(notes(r.Warnings))
	b.WriteString(cautionLines(compareCautions(r)))
	return b.String()
}

// indistinct is a difference, K, that nobody can feel or measure with a
// thermocouple (IEC 60584-1, class 1: 1.5 K).
const indistinct = 0.5

// verdictLines are the answer.
func verdictLines(d dress, r *study.Compare) []string {
	v := r.Verdict
	if v == nil {
		return []string{"Only one of the stacks has a lasting state at its current: there is nothing to choose between."}
	}
	best, next := columnOf(r, v.Coolest), columnOf(r, v.Next)
	at := fmt.Sprintf("%s against %s at the hottest terminal", d.both(best.Hottest.Temp), d.both(next.Hottest.Temp))
	than := "than " + v.Next
	if len(r.Columns) > 2 {
		than = fmt.Sprintf("than the next, %s", v.Next)
	}
	var lines []string
	switch {
	case v.TooClose:
		lines = append(lines, fmt.Sprintf("Too close to call: %s is %s cooler %s (%s), but in %d of %d conditions only.",
			v.Coolest, d.fine(v.By), than, at, v.Agree, v.Tried))
	case v.By < indistinct:
		lines = append(lines, fmt.Sprintf("%s and %s run alike: %s apart (%s), though the same way round in all %d conditions tried.",
			v.Coolest, v.Next, d.fine(v.By), at, v.Tried))
	default:
		lines = append(lines, fmt.Sprintf("%s runs %s cooler %s: %s.", v.Coolest, d.fine(v.By), than, at),
			fmt.Sprintf("Cooler in every condition tried, the same in both (%d of %d).", v.Agree, v.Tried))
	}
	lines[len(lines)-1] += " " + limitsTold(r)
	return append(lines, roomTold(d, r))
}

func columnOf(r *study.Compare, label string) study.Column {
	return r.Columns[slices.IndexFunc(r.Columns, func(c study.Column) bool { return c.Label == label })]
}

// limitsTold says whether the limits hold.
func limitsTold(r *study.Compare) string {
	var passed, unknown []string
	for _, c := range r.Columns {
		is := map[study.Verdict]bool{}
		for _, m := range c.Margins {
			is[m.Verdict] = true
		}
		if is[study.Passed] {
			passed = append(passed, c.Label)
		}
		if is[study.Unknown] {
			unknown = append(unknown, c.Label)
		}
	}
	switch {
	case len(passed) > 0:
		return "LIMIT passed by " + strings.Join(passed, ", ") + "."
	case len(unknown) > 0:
		return "A limit is UNKNOWN, which is no pass, in " + strings.Join(unknown, ", ") + "."
	}
	return "All limits hold at the likely values."
}

// roomTold names current and air, once where all have the same.
func roomTold(d dress, r *study.Compare) string {
	first := r.Columns[0]
	text := fmt.Sprintf("%s, air %s, left on until settled.", current(first.Current), d.temperature(first.Air))
	var unlike []string
	for _, a := range r.Against {
		if len(a.Room) > 0 {
			unlike = append(unlike, fmt.Sprintf("%s and %s: %s", a.First, a.Second, strings.Join(a.Room, ", ")))
		}
	}
	if len(unlike) > 0 {
		return "NOT the same supply and surroundings. " + strings.Join(unlike, "; ") + "."
	}
	return text
}

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
	for i, place := range r.Places {
		if i == mostShared {
			t.Row(fmt.Sprintf("%d more places: --csv", len(r.Places)-mostShared))
			break
		}
		row(place, func(c study.Column) string {
			for _, p := range c.Places {
				if p.Name == place {
					return d.temperature(p.Temp)
				}
			}
			return "–"
		})
	}
	row("drop, end to end", settled(func(c study.Column) string { return volts(c.Drop) }))
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
		{Head: "bears\nA", Align: texttable.Right}, {Head: "limit\nleft", Align: texttable.Right}, {Head: "fuse\nloaded", Align: texttable.Right}, {Head: ""}}}
	for _, c := range r.Columns {
		cells := []string{c.Label, "none"}
		if c.Ends == "" {
			careless, joint, bears := "none", "none", "UNKNOWN"
			if c.Hottest.CarelessEnds == "" {
				careless = d.degrees(c.Hottest.Careless)
			}
			if c.Worst != nil && c.Worst.Ends == "" {
				joint = d.degrees(c.Worst.Temp)
			}
			if c.Largest != nil {
				bears = whole(c.Largest.Current)
			}
			cells = []string{c.Label, d.degrees(c.Hottest.Temp), d.degrees(c.Hottest.Careful) + " … " + careless, d.degrees(c.After15),
				duration(c.To90), joint, whole(c.Drop * 1e3), power(c.Heat), bears, "UNKNOWN", "", ""}
			if m := c.Tightest; m != nil {
				cells[9] = d.difference(m.Left)
				if m.Left < 0 {
					cells[11] = "LIMIT"
				}
			}
		}
		loaded := ""
		for _, f := range c.Sizing.Fuses {
			loaded = percent(f.Loaded)
		}
		cells = append(cells, make([]string, len(t.Columns)-len(cells))...)
		cells[10] = loaded
		t.Row(cells...)
	}
	return t.String(width) + "  none: no lasting state. Every place, limit and size: --csv\n"
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
		var parts []string
		for _, f := range c.Sizing.Fuses {
			parts = append(parts, fmt.Sprintf("%s of %s", percent(f.Loaded), current(f.Usable)))
		}
		return orNone(parts)
	})
	row("  interrupting rating", func(c study.Column) string {
		var parts []string
		for _, f := range c.Sizing.Fuses {
			if f.Interrupting == 0 {
				parts = append(parts, "UNKNOWN")
				continue
			}
			parts = append(parts, interrupting(f))
		}
		return orNone(parts)
	})
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

func orNone(parts []string) string {
	if len(parts) == 0 {
		return "–"
	}
	return strings.Join(parts, ", ")
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

// whyLines share the differences out, as bars for one pair and on one line
// each for several.
func whyLines(d dress, r *study.Compare) string {
	if len(r.Against) == 1 {
		a := r.Against[0]
		head := fmt.Sprintf("Why %s is %s %s than %s", a.Second, d.fine(math.Abs(a.Why.Total)), hotterOrCooler(a.Why.Total), a.First)
		if a.Why.Missing != "" {
			return "\n" + texttable.Wrap("  ", head+", is not known: "+a.Why.Missing, width)
		}
		return "\n" + texttable.Wrap("  ", head, width) + bars(d, a.Why.Causes)
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Against " + r.Columns[0].Label}, {Head: d.riseUnit(), Align: texttable.Right},
		{Head: "agree", Align: texttable.Right}, {Head: "why"}}}
	for _, a := range r.Against {
		var parts []string
		for _, c := range a.Why.Causes {
			if math.Abs(c.Worth) >= 0.05 {
				parts = append(parts, c.Name+" "+d.signed(c.Worth))
			}
		}
		why := strings.Join(parts, " | ")
		if a.Why.Missing != "" {
			why = "not known: " + a.Why.Missing
		}
		t.Row(a.Second, d.signed(a.Why.Total), fmt.Sprintf("%d/%d", a.Agree, a.Tried), why)
	}
	if t.Rows() == 0 {
		return ""
	}
	return "\n" + t.String(width)
}

func hotterOrCooler(k float64) string {
	if k > 0 {
		return "hotter"
	}
	return "cooler"
}

// barRoom is how many characters the longest bar has.
const barRoom = 40

// bars draws causes in characters, all to one scale.
func bars(d dress, causes []study.Cause) string {
	longest := 0.0
	for _, c := range causes {
		longest = math.Max(longest, math.Abs(c.Worth))
	}
	t := texttable.Table{Indent: 4, Columns: []texttable.Column{{}, {Align: texttable.Right}, {}}}
	for _, c := range causes {
		n := 0
		if longest > 0 {
			n = int(math.Round(barRoom * math.Abs(c.Worth) / longest))
		}
		sign := "+"
		if c.Worth < 0 {
			sign = "-"
		}
		t.Row(c.Name, d.signed(c.Worth), strings.Repeat(sign, n))
	}
	return t.String(width)
}

// rules says where the sizing figures come from, once.
func rules(r *study.Compare) string {
	var fuse string
	var tables []string
	for _, c := range r.Columns {
		for _, f := range c.Sizing.Fuses {
			fuse = f.Rule
		}
		for _, cable := range c.Sizing.Cables {
			if cable.Table != "" {
				text := fmt.Sprintf("%s, %s: %s × %.2f for the air", cable.Table, cable.Row, current(cable.Tabled), cable.Factor)
				if !slices.Contains(tables, text) {
					tables = append(tables, text)
				}
			}
		}
	}
	var b strings.Builder
	if fuse != "" {
		b.WriteString(texttable.Wrap("  Fuse     ", "0.8 × rated: "+fuse, width))
	}
	if slices.ContainsFunc(r.Columns, func(c study.Column) bool {
		return slices.ContainsFunc(c.Sizing.Fuses, func(f study.FuseSizing) bool { return f.Interrupting == 0 })
	}) {
		b.WriteString(texttable.Wrap("           ", "UNKNOWN is not a pass: an interrupting rating is not in the file.", width))
	}
	if len(tables) > 0 {
		b.WriteString(texttable.Wrap("  Cable    ", strings.Join(tables, "; "), width))
	}
	return b.String()
}

// notAlike names what the paths do not have in common.
func notAlike(r *study.Compare) string {
	var b strings.Builder
	for _, a := range r.Against {
		if len(a.Parts) == 0 {
			continue
		}
		who := ""
		if len(r.Against) > 1 {
			who = a.Second + ": "
		}
		text := strings.NewReplacer("the first", a.First, "the second", a.Second).Replace(strings.Join(a.Parts, "; "))
		b.WriteString(texttable.Wrap("  Unlike   ", who+text, width))
	}
	return b.String()
}

// compareCautions are the touch of the hottest stack and what a limit passed
// at a fuse does not call for.
func compareCautions(r *study.Compare) [2]string {
	var touch *study.TouchCaution
	hottest := quantity.Temp(0)
	fuse, ratings := false, map[float64]bool{}
	for _, c := range r.Columns {
		if c.Ends == "" && c.Hottest.Temp > hottest {
			hottest, touch = c.Hottest.Temp, c.Touch
		}
		for _, f := range c.Sizing.Fuses {
			fuse, ratings[f.Rated] = true, true
		}
	}
	// A larger fuse always runs cooler, which is no reason to fit it.
	if (r.Exit() != exitFine && fuse) || len(ratings) > 1 {
		return [2]string{touchOr(touch, cautionIsolate), cautionRating}
	}
	return [2]string{touchOr(touch, cautionIsolate), cautionEstimate}
}
