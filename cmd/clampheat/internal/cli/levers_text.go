package cli

import (
	"fmt"
	"math"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/study"
)

// leversText is the screen of the levers: the answer, what cools, what hurts,
// how small changes count, two cautions.
func leversText(r *study.Levers, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, drawnText(r.Conditions), "left on until settled"), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s, %s above air: %s", d.both(r.Hottest.Temp), d.difference(r.Hottest.Rise), r.Hottest.Place)))
	b.WriteString(labelled("Likely range", likelyRange(d, r.Hottest)))
	if len(r.Cool) > 0 {
		b.WriteString(labelled("Cools most", bestStep(d, r.Cool[0])))
	}
	if len(r.Hurt) > 0 {
		b.WriteString(labelled("Hurts most", bestStep(d, r.Hurt[0])))
	}
	b.WriteByte('\n')
	b.WriteString(leverList(d, "What would cool it", r.Hottest.Place, thoseThatTell(r.Cool)))
	b.WriteString(worthless(r.Cool))
	b.WriteByte('\n')
	b.WriteString(leverList(d, "What would hurt it", r.Hottest.Place, thoseThatTell(worstOfKind(r.Hurt))))
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  Each     ", "one change alone, solved anew; the changes do not simply add up.", width))
	b.WriteString(texttable.Wrap("  Small    ", smallChanges(d, r), width))
	for _, l := range r.LeftOut {
		b.WriteString(texttable.Wrap("  Left out ", l.Name+": "+l.Why, width))
	}
	b.WriteString(notes(r.Warnings))
	b.WriteString(cautionLines(leversCautions(r), more...))
	return b.String()
}

// bestStep says the first lever of a list in words.
func bestStep(d dress, l study.Lever) string {
	if l.Ends != "" {
		return l.Name + ": " + l.Ends
	}
	than := "cooler"
	if l.Change > 0 {
		than = "hotter"
	}
	return fmt.Sprintf("%s: %s %s, %s", l.Name, d.difference(math.Abs(l.Change)), than, d.temperature(l.Temp))
}

// worth is the least change that is shown, K; smaller ones are only named.
const worth = 0.1

// tells says whether a lever moves anything, at the likely or the careless
// assembly.
func tells(l study.Lever) bool {
	return l.Ends != "" || math.Abs(l.Change) >= worth || l.Careless != nil && math.Abs(*l.Careless) >= worth
}

func thoseThatTell(list []study.Lever) []study.Lever {
	var out []study.Lever
	for _, l := range list {
		if tells(l) {
			out = append(out, l)
		}
	}
	return out
}

// worthless names the steps that are not worth taking here.
func worthless(list []study.Lever) string {
	var names []string
	for _, l := range list {
		if !tells(l) {
			names = append(names, l.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return texttable.Wrap("  ", "Less than 0.1 K here, even for careless assembly: "+strings.Join(names, "; ")+".", width)
}

// worstOfKind keeps of each kind the first, which is the worst, and says of how
// many it is.
func worstOfKind(list []study.Lever) []study.Lever {
	count := map[string]int{}
	for _, l := range list {
		count[l.Kind]++
	}
	var out []study.Lever
	for _, l := range list {
		n := count[l.Kind]
		if n == 0 {
			continue
		}
		count[l.Kind] = 0
		if n > 1 {
			l.Name += fmt.Sprintf(" (worst of %d)", n)
		}
		out = append(out, l)
	}
	return out
}

// leverList is one list of changes.
func leverList(d dress, head, place string, list []study.Lever) string {
	if len(list) == 0 {
		return "  " + head + ": nothing that was tried, by 0.1 K.\n"
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: head}, {Head: "likely\n" + d.riseUnit(), Align: texttable.Point}, {Head: "careless\n" + d.riseUnit(), Align: texttable.Point},
		{Head: "then\n" + d.temp, Align: texttable.Right}, {Head: ""}}}
	for _, l := range list {
		cells := []string{l.Name, "", "", "", ""}
		switch {
		case l.Ends != "":
			cells[4] = "no lasting state"
		default:
			cells[1], cells[3] = d.signed(l.Change), d.degrees(l.Temp)
			if l.Careless != nil {
				cells[2] = d.signed(*l.Careless)
			}
			if l.Where != place {
				cells[4] = "at " + l.Where
			}
		}
		t.Row(cells...)
	}
	return t.String(width)
}

// signed is a change to a tenth, with its sign.
func (d dress) signed(k float64) string {
	if d.temp == "°F" {
		k *= 1.8
	}
	if math.Abs(k) < 0.05 {
		return "0.0"
	}
	return fmt.Sprintf("%+.1f", k)
}

// smallChanges are the derivatives that a reader can use at once.
func smallChanges(d dress, r *study.Levers) string {
	s := r.Sensitivities
	unit := func(k float64) string {
		if d.temp == "°F" {
			k *= 1.8
		}
		return fmt.Sprintf("%+.2f %s", k, d.riseUnit())
	}
	load := unit(s.Current) + " for an ampere"
	if s.Power != 0 {
		load = unit(100*s.Power) + " for 100 W"
	}
	texts := []string{
		load,
		fmt.Sprintf("%+.2f for each degree of the air, %+.2f where walls and bodies follow it", s.Air, s.Around),
	}
	worst := -1
	for i, row := range s.Rows {
		if row.Kind == "joint" && (worst < 0 || row.Added > s.Rows[worst].Added) {
			worst = i
		}
	}
	if worst >= 0 {
		const added = 10 // µΩ
		texts = append(texts, fmt.Sprintf("%s for %d µΩ more at %s", unit(added*s.Rows[worst].Added), added, s.Rows[worst].Name))
	}
	return "changes count, to first order: " + strings.Join(texts, "; ") + ". All others: --json."
}

// leversCautions are the two that apply: what the hottest metal does to a hand,
// and what a fuse that runs hot does not call for.
func leversCautions(r *study.Levers) [2]string {
	second := cautionEstimate
	if r.Fuses > 0 {
		second = cautionRating
	}
	return [2]string{touchOr(r.Touch, cautionIsolate), second}
}
