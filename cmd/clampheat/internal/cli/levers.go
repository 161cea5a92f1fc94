package cli

import (
	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/scenarios/study"
)

func (s *session) leversCommand() *ucli.Command {
	return &ucli.Command{
		Name: "levers", Usage: "what would cool the hottest terminal, and what would hurt it",
		UsageText: "clampheat levers [FLAGS] FILE",
		Description: `Changes one thing at a time by a realistic step, solves the stack anew, and
ranks the changes by what they do to the hottest terminal.

  clampheat levers example:compact
  clampheat levers my.yaml --plot levers.png
  clampheat levers my.yaml --json | jq .sensitivities

No step goes past a torque that the file states, raises the rating of a fuse or
puts a second fuse beside it. Steps do not simply add up: make one, write it
into the file and ask again. "write" in --json and --csv names the key and its
value, "place" the part that it belongs to; without a place, each part that has
the key.

--json also holds the first-order answer to a small change of anything: of the
current, the air, the ohms, the conductance and the surface of each row.

Exit status 3: there is no lasting state at that current. Never 1.
`,
		Flags: append(formatFlags(), plotFlags()...),
		Action: func(c *ucli.Context) error {
			sc, err := s.scenario(c)
			if err != nil {
				return err
			}
			r, err := study.RunLevers(c.Context, sc)
			if err != nil {
				return err
			}
			return s.put(c, answer{
				text:  func() string { return leversText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return leversTable(r) },
				draw:  func() *chart.Figure { return chart.Levers(r) },
			})
		},
	}
}

// leversHeader names the columns of the CSV of levers.
var leversHeader = []column{
	{"list", "cooler for what an owner could do, hotter for what could happen"},
	{"name", "the change"},
	{"kind", "changes of one kind differ in their place only"},
	{"place", "where it is made; empty where everywhere"},
	{"change_K", "of the hottest terminal, wherever it is before and after"},
	{"change_careful_K", "the same for careful assembly"},
	{"change_careless_K", "the same for careless assembly; empty where it has no lasting state"},
	{"hottest_terminal_C", "with the change"},
	{"hottest_place", "where that is"},
	{"ends", "why there is no lasting state with the change"},
	{"write", "what the file would say"},
}

func leversTable(r *study.Levers) [][]string {
	rows := [][]string{names(leversHeader)}
	for _, list := range []struct {
		name   string
		levers []study.Lever
	}{{"cooler", r.Cool}, {"hotter", r.Hurt}} {
		for _, l := range list.levers {
			cells := []string{list.name, l.Name, l.Kind, l.Place, "", "", "", "", l.Where, l.Ends, l.Write}
			if l.Ends == "" {
				cells[4], cells[7] = exact(l.Change), exact(l.Temp.Celsius())
			}
			if l.Careful != nil {
				cells[5] = exact(*l.Careful)
			}
			if l.Careless != nil {
				cells[6] = exact(*l.Careless)
			}
			rows = append(rows, cells)
		}
	}
	return rows
}
