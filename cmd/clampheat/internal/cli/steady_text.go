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

// steadyText is the screen of a settled stack: the answer, the way of the
// current, where the heat is made and goes, what was assumed, two cautions.
func steadyText(r *study.Steady, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, drawnText(r.Conditions), "left on until settled"), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s, %s above air: %s", d.both(r.Hottest.Temp), d.difference(r.Hottest.Rise), r.Hottest.Place)))
	b.WriteString(labelled("Likely range", likelyRange(d, r.Hottest)))
	if r.Tightest != nil {
		b.WriteString(labelled("Tightest limit", tightest(d, *r.Tightest)))
	}
	for _, m := range asked(r.Margins, r.Tightest) {
		b.WriteString(labelled("Limit asked for", tightest(d, m)))
	}
	b.WriteString(boxDoubts(r.Box))
	b.WriteByte('\n')
	if len(r.Branches) > 0 {
		b.WriteString(branchTable(d, r.Branches, false))
		b.WriteString(spreadLines(r.Spreads))
		b.WriteString(circulatingLine(r.Circulating))
		b.WriteByte('\n')
	}
	if len(r.Opened) > 0 {
		b.WriteString(openedTable(d, r.Opened) + "\n")
	}
	b.WriteString(pathTable(d, r))
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  Made     ", watts(r.Heat, r.Made), width))
	b.WriteString(texttable.Wrap("  Lost     ", watts(total(r.Lost), r.Lost), width))
	b.WriteString(boxLines(d, r.Box))
	b.WriteString(texttable.Wrap("  Drop     ", dropText(r.Drop, ", "+r.From+" to "+r.To, len(r.Branches) > 0, r.Conditions, r.DropParts), width))
	b.WriteString(texttable.Wrap("  Assumed  ", "most telling first: "+telling(d, r), width))
	if r.Element != nil {
		b.WriteString(texttable.Wrap("  ", fmt.Sprintf("Inside %s the element is near %s (not a terminal).", r.Element.Name, d.temperature(r.Element.Temp)), width))
	}
	b.WriteString(notes(r.Warnings))
	b.WriteString(texttable.Wrap("  Balance  ", audit(d, r.Numerics), width))
	b.WriteString(cautionLines(steadyCautions(r), more...))
	return b.String()
}

// asked are the limits that the file asks for, of each name the one with the
// least left, without the tightest of all, which has its own line.
func asked(margins []study.Margin, t *study.Margin) []study.Margin {
	var list []study.Margin
	for _, m := range margins {
		if !m.Asked || (t != nil && (m.Name == t.Name || (m.Place == t.Place && m.Limit == t.Limit))) {
			continue
		}
		i := slices.IndexFunc(list, func(other study.Margin) bool { return other.Name == m.Name })
		switch {
		case i < 0:
			list = append(list, m)
		case m.Verdict == study.Unknown || m.Left < list[i].Left:
			list[i] = m
		}
	}
	return list
}

// labelled is one line of the answer.
func labelled(label, text string) string {
	return texttable.Wrap(fmt.Sprintf("  %-18s ", label), text, width)
}

func likelyRange(d dress, s study.Span) string {
	if s.CarelessEnds != "" {
		return fmt.Sprintf("%s careful assembly … careless assembly: %s", d.temperature(s.Careful), s.CarelessEnds)
	}
	return fmt.Sprintf("%s careful assembly … %s careless assembly", d.temperature(s.Careful), d.temperature(s.Careless))
}

// tightest says what is left to a limit, and which it is.
func tightest(d dress, m study.Margin) string {
	which := m.Name
	if at := limitText(d, m); !strings.Contains(which, at) {
		which += ", " + at
		if m.Rise > 0 && !m.Capped && !strings.HasPrefix(at, "+") {
			which += " rise"
		}
	}
	if m.Source != "" {
		which += " (" + m.Source + ")"
	}
	if m.Place != "" {
		which += ", at " + m.Place
	}
	switch m.Verdict {
	case study.Unknown:
		return "UNKNOWN, which is not a pass: " + which
	case study.Passed:
		return fmt.Sprintf("LIMIT PASSED by %s (%s): %s", d.difference(-m.Left), ifCareless(d, m), which)
	}
	return fmt.Sprintf("%s left (%s): %s", d.difference(m.Left), ifCareless(d, m), which)
}

func ifCareless(d dress, m study.Margin) string {
	switch {
	case m.Careless == nil:
		return "no lasting state if careless"
	case *m.Careless < 0:
		return d.difference(-*m.Careless) + " past it if careless"
	}
	return d.difference(*m.Careless) + " if careless"
}

// limitText is the limit as it is stated: a rise, or a temperature. Where both
// have one unit, a rise has a sign. A capped one is the temperature that binds.
func limitText(d dress, m study.Margin) string {
	if m.Capped {
		return d.temperature(m.Limit)
	}
	if m.Rise > 0 && d.temp == d.riseUnit() {
		return "+" + d.difference(m.Rise)
	}
	if m.Rise > 0 {
		return d.difference(m.Rise)
	}
	return d.temperature(m.Limit)
}

// pathTable is the way of the current, one line a place.
func pathTable(d dress, r *study.Steady) string {
	ohms, ohmUnit := ohmColumn(r.Rows)
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: "Along the path"}, {Head: ""}, {Head: d.temp, Align: texttable.Right}, {Head: "rise", Align: texttable.Right},
		{Head: ohmUnit, Align: texttable.Point}, {Head: "mV", Align: texttable.Point}, {Head: "W", Align: texttable.Point},
		{Head: "limit", Align: texttable.Right}, {Head: "left", Align: texttable.Right}, {Head: ""}}}
	hidden := hiddenWays(r.Aside)
	beside := false
	for _, row := range r.Rows {
		if hidden(row.Way) {
			continue
		}
		if row.Kind == "body" && !beside {
			beside = true
			t.Row("Beside the path")
		}
		t.Row(pathRow(d, r, row, ohms)...)
	}
	return t.String(width) + otherWays(r.Aside)
}

func pathRow(d dress, r *study.Steady, row study.Row, ohms float64) []string {
	cells := make([]string, 10)
	cells[0] = row.Name
	switch row.Kind {
	case "joint":
		cells[0] = "  " + jointLabel(d, row)
	case "element", "body":
		cells[0] = "  " + row.Name
	}
	if row.Terminal && row.Name == r.Hottest.Place && row.Temp == r.Hottest.Temp {
		cells[1] = "->"
	}
	if row.Kind != "joint" {
		cells[2], cells[3] = d.degrees(row.Temp), d.difference(row.Rise)
	}
	if row.Resistance != 0 {
		cells[4] = visible(row.Resistance*ohms, 2)
		cells[5] = visible(row.Drop*1e3, 2)
	}
	if row.Heat != 0 {
		digits := 3
		if row.Heat < 1 {
			digits = 2
		}
		cells[6] = visible(row.Heat, digits)
	}
	if m := row.Limit; m != nil {
		cells[7] = limitText(d, *m)
		switch m.Verdict {
		case study.Unknown:
			cells[8] = "UNKNOWN"
		case study.Passed:
			cells[8], cells[9] = d.difference(m.Left), "LIMIT"
		default:
			cells[8] = d.difference(m.Left)
		}
	}
	return cells
}

// jointLabel names a joint by what an installer sees: its nut.
func jointLabel(d dress, row study.Row) string {
	switch {
	case row.Bolt == "":
		return row.Name
	case row.SameNut:
		return "same nut"
	}
	return fmt.Sprintf("nut %s, %s", d.torqueText(row.Torque), force(row.Clamp))
}

// ohmColumn chooses one unit for a column of resistances.
func ohmColumn(rows []study.Row) (scale float64, unit string) {
	largest := 0.0
	for _, row := range rows {
		largest = max(largest, row.Resistance)
	}
	if largest > 99.9995e-3 { // six digits of µΩ
		return 1e3, "mΩ"
	}
	return 1e6, "µΩ"
}

// watts is a sum and what it is made of.
func watts(sum float64, parts []study.Watts) string {
	parts = together(parts)
	texts := make([]string, len(parts))
	for i, p := range parts {
		texts[i] = p.Name + " " + power(p.Heat)
	}
	if len(texts) == 0 {
		return power(sum) + " W"
	}
	return power(sum) + " W: " + strings.Join(texts, ", ")
}

// together adds up what goes into bodies of one kind on several ways: "into A:
// battery" and "into B: battery".
func together(parts []study.Watts) []study.Watts {
	const into = "into "
	kind := func(name string) string {
		if i := strings.LastIndex(name, ": "); i >= 0 && strings.HasPrefix(name, into) {
			return name[i+len(": "):]
		}
		return ""
	}
	count := map[string]int{}
	for _, p := range parts {
		count[kind(p.Name)]++
	}
	var out []study.Watts
	at := map[string]int{}
	for _, p := range parts {
		k := kind(p.Name)
		if k == "" || count[k] == 1 {
			out = append(out, p)
			continue
		}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, study.Watts{Name: fmt.Sprintf("%s%d × %s", into, count[k], k)})
		}
		out[i].Heat += p.Heat
	}
	return out
}

// power is one to a tenth of a watt, a small one to its first digit.
func power(w float64) string {
	const nothing = 0.0005
	switch {
	case math.Abs(w) < nothing:
		return "0"
	case math.Abs(w) < 0.05:
		return quantity.Number(w, 1)
	}
	return fmt.Sprintf("%.1f", w)
}

func total(parts []study.Watts) float64 {
	sum := 0.0
	for _, p := range parts {
		sum += p.Heat
	}
	return sum
}

func telling(d dress, r *study.Steady) string {
	texts := make([]string, len(r.Telling))
	for i, t := range r.Telling {
		worth := d.difference(t.Worth)
		if t.Ends {
			worth = "no lasting state at one end"
		}
		texts[i] = fmt.Sprintf("%s (%s)", t.Text, worth)
	}
	list := strings.Join(texts, "; ")
	if list == "" {
		list = "nothing that moves the headline"
	}
	return fmt.Sprintf("%s. %d more: clampheat check %s", list, r.More, fileArgument(r.File))
}

// fileArgument is the name of a scenario as it is typed; what came through a
// pipe has none.
func fileArgument(file string) string {
	switch {
	case file == "" || file == stdinName:
		return "FILE"
	case strings.ContainsAny(file, " '\"$&();"):
		return "'" + strings.ReplaceAll(file, "'", `'\''`) + "'"
	}
	return file
}

// audit says how well the numbers are known as numbers, apart from the
// assumptions.
func audit(d dress, n study.Numerics) string {
	closes := fmt.Sprintf("closes to %.0e of the heat", n.Bookkeeping)
	if n.Kirchhoff > 0 {
		closes += fmt.Sprintf(", the currents to %.0e", n.Kirchhoff)
	}
	if n.Steps > 0 {
		closes += fmt.Sprintf(" (step by step) and %.0e (integrated), in %d steps", n.Quadrature, n.Steps)
	}
	cut := n.Cutting
	if d.temp == "°F" {
		cut *= 1.8
	}
	cutting := "less than 0.1 " + d.riseUnit()
	if cut >= 0.1 {
		cutting = quantity.Number(cut, 1) + " " + d.riseUnit()
	}
	return fmt.Sprintf("%s; %d nodes, more would move the hottest by %s.", closes, n.Nodes, cutting)
}
