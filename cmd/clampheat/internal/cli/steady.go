package cli

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/study"
)

func (s *session) steadyCommand() *ucli.Command {
	return &ucli.Command{
		Name: "steady", Usage: "how hot every part gets when left on",
		UsageText: "clampheat steady [FLAGS] FILE",
		Description: `Finds the lasting state: the temperature of every part, how far it may be off,
what is left to each limit, where the heat is made and where it goes.

  clampheat steady example:compact
  clampheat steady my.yaml --plot my.png
  clampheat steady - < my.yaml
  clampheat steady my.yaml --json | jq .hottest_terminal

On top stands the hottest terminal, the kind of place that a probe is put on.
Its range is the same stack with the joints and the fuse at the good and at the
bad end of what assembly leaves open. The chart is the temperature along the
path.

Of batteries, branches or circuits side by side it tells what each carries, how
evenly they share, what circulates between unlike batteries when nothing is
drawn, and, with each opened in turn (a fuse has blown, a lug came loose), what
becomes of the others and whether their fuses would follow. Of a box it tells the
air and the wall; of a power, the current that flows. What changes with time is
taken at its largest; "soak" follows it, "duty" finds where a cycle comes to.

Exit status 1: a limit is passed, or one that the file asks for is UNKNOWN.
Exit status 3: there is no lasting state at that current.
`,
		Flags: append(append(formatFlags(),
			&ucli.BoolFlag{Name: "branches", Usage: "with --csv: the ways side by side, and each opened, in place of the rows"}), plotFlags()...),
		Action: func(c *ucli.Context) error {
			if c.Bool("branches") && !c.Bool("csv") {
				return &usageError{"--branches is about --csv, which is not given", "the text and --json have the ways side by side anyway"}
			}
			sc, err := s.scenario(c)
			if err != nil {
				return err
			}
			r, err := study.RunSteady(c.Context, sc)
			if err != nil {
				return err
			}
			err = s.put(c, answer{
				text:  func() string { return steadyText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string {
					if c.Bool("branches") {
						return branchesTable(r)
					}
					return steadyTable(r)
				},
				draw: func() *chart.Figure { return chart.Path(r) },
			})
			if err != nil {
				return err
			}
			return s.verdicts(r.Margins)
		},
	}
}

// mostPlaces is how many places a line about a limit names.
const mostPlaces = 3

// verdicts names on stderr the limits that ask for exit status 1, those of one
// name together with the places that have the least left.
func (s *session) verdicts(margins []study.Margin) error {
	var told []string
	places := map[string][]string{}
	margins = slices.Clone(margins)
	slices.SortStableFunc(margins, func(a, b study.Margin) int { return cmp.Compare(a.Left, b.Left) })
	for _, m := range margins {
		text := ""
		switch {
		case m.Verdict == study.Passed:
			text = "limit passed: " + m.Name
		case m.Verdict == study.Unknown && m.Asked:
			text = "UNKNOWN, which is not a pass: " + m.Name
		default:
			continue
		}
		if _, ok := places[text]; !ok {
			told = append(told, text)
		}
		places[text] = append(places[text], m.Place)
	}
	for _, text := range told {
		at := places[text]
		list := strings.Join(at[:min(mostPlaces, len(at))], "; ")
		if more := len(at) - mostPlaces; more > 0 {
			list += fmt.Sprintf(" and %d more", more)
		}
		fmt.Fprint(s.stderr, texttable.Wrap("clampheat: ", text+", at "+list, width))
	}
	if len(told) > 0 {
		return &statusError{exitPassed}
	}
	return nil
}

// steadyHeader names the columns of the CSV of steady, each with its unit.
var steadyHeader = []column{
	{"kind", "part, terminal, element, joint or body"},
	{"name", "the place"},
	{"terminal", "yes where a thermocouple sits"},
	{"temp_C", "temperature; of a joint, the mean of its two sides"},
	{"rise_K", "above the air"},
	{"resistance_ohm", "at that temperature; empty where the row carries none"},
	{"drop_V", "at the current"},
	{"heat_W", "made there"},
	{"bolt", "of a joint: its bolt"},
	{"torque_Nm", "of that bolt"},
	{"clamp_N", "of that bolt"},
	{"limit", "name of the tightest limit there"},
	{"limit_C", "that limit"},
	{"left_K", "what is left to it; negative where it is passed"},
	{"left_careless_K", "the same if assembled carelessly"},
	{"verdict", "holds, passed or UNKNOWN"},
	{"way", "of several side by side, the one that the row lies on"},
	{"current_A", "of the row, where the current divides; negative against the way"},
}

// branchHeader names the columns of the CSV of steady --branches.
var branchHeader = []column{
	{"opened", "the way that is opened; empty for the whole stack"},
	{"name", "the way"},
	{"kind", "battery, branch or circuit"},
	{"group", "ways of one number stand side by side"},
	{"current_A", "through it; negative where the others charge a battery"},
	{"share", "of what the group carries together"},
	{"drop_V", "over its parts and joints"},
	{"hottest_C", "its hottest terminal"},
	{"hottest_at", "where"},
	{"fuse", "the fuse that is loaded most for its rating"},
	{"fuse_share", "of its rating that flows, with the ripple"},
	{"without_load_A", "of a battery: what circulates when nothing is drawn"},
}

func branchesTable(r *study.Steady) [][]string {
	rows := [][]string{names(branchHeader)}
	rest := map[string]string{}
	for _, c := range r.Circulating {
		rest[c.Name] = exact(c.Current)
	}
	add := func(opened string, b study.BranchLine, atRest string) {
		rows = append(rows, []string{opened, b.Name, b.Kind, strconv.Itoa(b.Group), exact(b.Current), exact(b.Share), exact(b.Drop),
			exact(b.Temp.Celsius()), b.Place, b.Fuse, nonzero(b.Load), atRest})
	}
	for _, b := range r.Branches {
		add("", b, rest[b.Name])
	}
	for _, o := range r.Opened {
		for _, b := range o.Branches {
			add(o.Name, b, "")
		}
	}
	return rows
}

func steadyTable(r *study.Steady) [][]string {
	rows := [][]string{names(steadyHeader)}
	for _, row := range r.Rows {
		cells := []string{row.Kind, row.Name, yes(row.Terminal), exact(row.Temp.Celsius()), exact(row.Rise),
			nonzero(row.Resistance), nonzero(row.Drop), nonzero(row.Heat), row.Bolt, nonzero(row.Torque), nonzero(row.Clamp),
			"", "", "", "", "", row.Way, nonzero(row.Current)}
		if m := row.Limit; m != nil {
			copy(cells[11:], []string{m.Name, exact(m.Limit.Celsius()), exact(m.Left), exactly(m.Careless), string(m.Verdict)})
		}
		rows = append(rows, cells)
	}
	return rows
}

// column is one column of a CSV with what it means.
type column struct{ name, means string }

func names(header []column) []string {
	list := make([]string, len(header))
	for i, c := range header {
		list[i] = c.name
	}
	return list
}

// exact writes a number for machines: seven significant digits, which is more
// than any of them is known to.
func exact(x float64) string { return strconv.FormatFloat(x+0, 'g', 7, 64) }

func nonzero(x float64) string {
	if x == 0 {
		return ""
	}
	return exact(x)
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

// exactly writes a number that may be missing.
func exactly(v *float64) string {
	if v == nil {
		return ""
	}
	return exact(*v)
}
