package cli

import (
	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/scenarios/study"
)

func (s *session) dutyCommand() *ucli.Command {
	return &ucli.Command{
		Name: "duty", Usage: "how hot it gets under a load that repeats",
		UsageText: "clampheat duty [FLAGS] FILE",
		Description: `Finds the state in which each period of a repeating load is like the one before,
without following hundreds of periods: of every part the peak, the mean and the
lowest temperature, and when it peaks. The limits are judged at the peaks.

  clampheat duty example:kitchen
  clampheat duty my.yaml --plot my.png

What repeats is said in the file: "duty: [180 A for 5 min, 0 A for 10 min]", all
in A or all in W, or a log with "repeats: yes".

The current that heats as much on the whole, the root of its mean square, is told
with the temperature that it would settle at, and by how much that rule falls
short: what is quick, the element of a fuse before all, follows the peaks. The
chart is one period, the current above and the terminals below.

Exit status 1: a limit is passed at a peak.
Exit status 3: there is no lasting cycle.
`,
		Flags: append(formatFlags(), plotFlags()...),
		Action: func(c *ucli.Context) error {
			sc, err := s.scenario(c)
			if err != nil {
				return err
			}
			r, err := study.RunDuty(c.Context, sc)
			if err != nil {
				return err
			}
			err = s.put(c, answer{
				text:  func() string { return dutyText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return dutyTable(r) },
				draw:  func() *chart.Figure { return chart.Duty(r) },
			})
			if err != nil {
				return err
			}
			return s.verdicts(r.Margins)
		},
	}
}

// dutyHeader names the columns of the CSV of duty, each with its unit.
var dutyHeader = []column{
	{"kind", "part, terminal, element or body; battery, branch or circuit of a way side by side"},
	{"name", "the place"},
	{"terminal", "yes where a thermocouple sits"},
	{"way", "of several side by side, the one that it lies on"},
	{"peak_C", "highest temperature of a period"},
	{"peak_at_s", "when it has it, since the period began"},
	{"mean_C", "mean over the period"},
	{"lowest_C", "lowest temperature of a period"},
	{"settled_at_rms_C", "left on at the current that heats as much; empty where that has no lasting state"},
	{"settled_at_mean_C", "left on at the mean current; likewise"},
	{"largest_current_A", "of a way; negative where a battery is charged"},
	{"rms_current_A", "of a way: the root of the mean square over the period"},
	{"mean_current_A", "of a way"},
}

func dutyTable(r *study.Duty) [][]string {
	rows := [][]string{names(dutyHeader)}
	for _, p := range r.Places {
		row := []string{p.Kind, p.Name, yes(p.Terminal), p.Way, exact(p.Peak.Celsius()), exact(p.PeakAt), exact(p.Mean.Celsius()), exact(p.Lowest.Celsius()), "", "", "", "", ""}
		if p.Rms > 0 {
			row[8] = exact(p.Rms.Celsius())
		}
		if p.Even > 0 {
			row[9] = exact(p.Even.Celsius())
		}
		rows = append(rows, row)
	}
	for _, w := range r.Ways {
		rows = append(rows, []string{w.Kind, w.Name, "", w.Name, "", "", "", "", "", "", exact(w.Largest), exact(w.Rms), exact(w.Mean)})
	}
	return rows
}
