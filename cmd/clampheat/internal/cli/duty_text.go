package cli

import (
	"fmt"
	"math"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// dutyText is the screen of a load that repeats: the answer, what the rms rule
// would have said, the places, two cautions.
func dutyText(r *study.Duty, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, "Up to "+drawnText(r.Conditions), fmt.Sprintf("a period of %s, again and again", duration(r.Period))), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s at its peak, %s after a period begins, %s above air: %s",
		d.both(r.Hottest.Temp), duration(r.PeakAt), d.difference(r.Hottest.Rise), r.Hottest.Place)))
	b.WriteString(labelled("Likely range", likelyRange(d, r.Hottest)))
	if r.Tightest != nil {
		b.WriteString(labelled("Tightest limit", tightest(d, *r.Tightest)))
	}
	for _, m := range asked(r.Margins, r.Tightest) {
		b.WriteString(labelled("Limit asked for", tightest(d, m)))
	}
	b.WriteString(labelled("Current", fmt.Sprintf("%s at most, %s heats as much (root of the mean square), %s is the mean",
		current3(r.Current), current3(r.Rms), current3(r.Mean))))
	b.WriteString(labelled("The rms rule alone", rule(d, r.ByRms, r)))
	b.WriteString(labelled("The mean alone", rule(d, r.ByMean, r)))
	b.WriteByte('\n')
	if len(r.Ways) > 0 {
		b.WriteString(dutyWays(r.Ways) + "\n")
	}
	b.WriteString(dutyPlaces(d, r))
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  Heat     ", fmt.Sprintf("made %s, given off %s a period; %s on average", joules(r.Made), joules(r.Lost), power(r.Made/r.Period)+" W"), width))
	if e := r.Element; e != nil {
		text := fmt.Sprintf("Inside %s the element peaks near %s (not a terminal)", e.Name, d.temperature(e.Peak))
		if e.Rms > 0 {
			text += fmt.Sprintf("; the rms current would leave it at %s", d.temperature(e.Rms))
		}
		b.WriteString(texttable.Wrap("  ", text+".", width))
	}
	for _, f := range r.Fuses {
		b.WriteString(texttable.Wrap("  Fuse     ", fmt.Sprintf("%s: %s heats as much as its current of a period: %s of %s, 0.8 × its rating (%s). Whether its peaks melt it, its maker's time-current curve tells.",
			f.Name, current3(f.Sustained), percent(f.Loaded), current(f.Usable), f.Rule), width))
	}
	b.WriteString(notes(r.Warnings))
	b.WriteString(texttable.Wrap("  Balance  ", cycleAudit(d, r), width))
	b.WriteString(cautionLines([2]string{touchOr(r.Touch, cautionIsolate), cautionEstimate}, more...))
	return b.String()
}

// current3 is a worked-out current.
func current3(a float64) string { return quantity.Number(a, 3) + " A" }

// rule says what one steady current would have told.
func rule(d dress, r study.Rule, duty *study.Duty) string {
	if r.None != "" {
		return fmt.Sprintf("%s: %s", current3(r.Current), r.None)
	}
	how := "short of the peak"
	if r.Short < 0 {
		how = "above the peak"
	}
	air := ""
	if duty.AirFrom > 0 {
		air = fmt.Sprintf(" in air at %s, as it is at the peak,", d.temperature(r.Air))
	}
	text := fmt.Sprintf("%s left on%s settle at %s, %s %s", current3(r.Current), air, d.both(r.Temp), d.fine(math.Abs(r.Short)), how)
	if r.WorstAt != "" && r.WorstAt != duty.Hottest.Place && r.Worst > 0.05 {
		text += fmt.Sprintf("; short by most, %s, at %s", d.fine(r.Worst), r.WorstAt)
	}
	return text
}

// dutyWays is what each way side by side carries over a period, one line each.
func dutyWays(ways []study.DutyWay) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Side by side"}, {Head: "A at most", Align: texttable.Point},
		{Head: "A rms", Align: texttable.Point}, {Head: "A mean", Align: texttable.Point}, {Head: "fuse"}, {Head: "rms of it", Align: texttable.Right}}}
	backwards := false
	for _, w := range ways {
		backwards = backwards || w.Mean < 0 || w.Largest < 0
		cells := []string{w.Name, quantity.Number(w.Largest, 3), quantity.Number(w.Rms, 3), quantity.Number(w.Mean, 3), "–", ""}
		if w.Fuse != "" {
			cells[4], cells[5] = current(w.Rated), percent(w.Load)
		}
		t.Row(cells...)
	}
	text := t.String(width)
	if backwards {
		text += texttable.Wrap("  ", "A negative current charges the battery. A fuse is judged at the rms of its own current.", width)
	}
	return text
}

// dutyPlaces is what each place goes through, one line each.
func dutyPlaces(d dress, r *study.Duty) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: d.temp}, {Head: ""}, {Head: "peak", Align: texttable.Right},
		{Head: "after", Align: texttable.Right}, {Head: "mean", Align: texttable.Right}, {Head: "lowest", Align: texttable.Right},
		{Head: "rms rule", Align: texttable.Right}, {Head: "short", Align: texttable.Right}}}
	hidden := hiddenWays(r.Aside)
	beside := false
	for _, p := range r.Places {
		if hidden(p.Way) {
			continue
		}
		if p.Kind == "body" && !beside {
			beside = true
			t.Row("Beside the path")
		}
		name, mark, rms, short := p.Name, "", "none", ""
		if p.Kind == "body" || p.Kind == "element" {
			name = "  " + name
		}
		if p.Terminal && p.Name == r.Hottest.Place {
			mark = "->"
		}
		if p.Rms > 0 {
			rms, short = d.degrees(p.Rms), d.fine(float64(p.Peak-p.Rms))
		}
		t.Row(name, mark, d.degrees(p.Peak), duration(p.PeakAt), d.degrees(p.Mean), d.degrees(p.Lowest), rms, short)
	}
	return t.String(width) + otherWays(r.Aside)
}

// cycleAudit says how well the cycle is known as numbers.
func cycleAudit(d dress, r *study.Duty) string {
	text := fmt.Sprintf("closes to %.0e of the heat (step by step) and %.0e (integrated); the period ends within %.0e %s of where it began, after %d periods followed",
		r.Numerics.Bookkeeping, r.Numerics.Quadrature, math.Max(r.Closes, 1e-9), d.riseUnit(), r.Periods)
	if r.Settles > 1 {
		text += fmt.Sprintf("; switched on, 1 %% of the way is left after %d periods, %s", r.Settles, duration(float64(r.Settles)*r.Period))
	}
	return text + "."
}
