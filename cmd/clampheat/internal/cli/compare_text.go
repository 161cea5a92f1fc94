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
func compareText(r *study.Compare, more ...string) string {
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
	b.WriteString(cautionLines(compareCautions(r), more...))
	return b.String()
}

// indistinct is a difference, K, that nobody can feel or measure with a
// thermocouple (IEC 60584-1, class 1: 1.5 K).
const indistinct = 0.5

// same is a difference, K, that is one of rounding.
const same = 1e-3

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
	case v.By < same:
		lines = append(lines, fmt.Sprintf("%s and %s are alike (%s).", v.Coolest, v.Next, at))
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
	var passed, unknown, ends []string
	for _, c := range r.Columns {
		if c.Ends != "" {
			ends = append(ends, c.Label)
		}
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
	case len(ends) > 0:
		told := "NO LASTING STATE in " + strings.Join(ends, "; ") + "."
		if len(passed) > 0 {
			told += " LIMIT passed by " + strings.Join(passed, "; ") + "."
		}
		return told
	case len(passed) == len(r.Columns):
		return "LIMIT passed by each of them."
	case len(passed) > 0:
		return "LIMIT passed by " + strings.Join(passed, "; ") + "."
	case len(unknown) > 0:
		return "A limit is UNKNOWN, which is no pass, in " + strings.Join(unknown, "; ") + "."
	}
	return "All limits hold at the likely values."
}

// roomTold names current and air, once where all have the same.
func roomTold(d dress, r *study.Compare) string {
	first := r.Columns[0]
	text := fmt.Sprintf("%s, air %s, left on until settled.", drawnText(first.Conditions), d.temperature(first.Air))
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

// whyLines share the differences out, as bars for one pair and on one line
// each for several.
func whyLines(d dress, r *study.Compare) string {
	if len(r.Against) == 1 {
		a := r.Against[0]
		head := fmt.Sprintf("Why %s is %s %s than %s", a.Second, d.fine(math.Abs(a.Why.Total)), hotterOrCooler(a.Why.Total), a.First)
		if a.Why.Missing != "" {
			return "\n" + texttable.Wrap("  ", "The difference is not split into causes: "+a.Why.Missing+".", width)
		}
		return "\n" + texttable.Wrap("  ", head, width) + bars(d, a.Why.Causes)
	}
	var missing []string
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
			why = "not known"
			missing = append(missing, a.Why.Missing)
		}
		if a.TooClose {
			why = "too close to call; " + why
		}
		t.Row(a.Second, d.signed(a.Why.Total), fmt.Sprintf("%d/%d", a.Agree, a.Tried), why)
	}
	if t.Rows() == 0 {
		return ""
	}
	slices.Sort(missing)
	text := "\n" + t.String(width)
	for _, m := range slices.Compact(missing) {
		text += texttable.Wrap("  ", "Not known: "+m+".", width)
	}
	return text
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
