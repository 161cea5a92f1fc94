package cli

import (
	"fmt"
	"path/filepath"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/scenarios"
	"clampheat/scenarios/study"
)

func (s *session) compareCommand() *ucli.Command {
	return &ucli.Command{
		Name: "compare", Usage: "stacks side by side: which runs cooler, and why",
		UsageText: "clampheat compare [FLAGS] FILE…",
		Description: `Holds stacks against each other: two or more files, or one file with variants,
which change a few of its lines:

  variants:
    - name: half torque
      compact holder: {nut: 4.2 N·m}      a part, by its name or its kind
    - name: thicker cable, warm room
      cable: 2/0 AWG                      what stands behind the part's own word
      air: 40 °C                          a key of the file
    - name: other holder
      compact holder:
        replace with:                     other parts in its place
          - cable: 1/0 AWG
            length: 0.3 m
            insulation: 105 °C
          - high-capacity holder: generic
            fuse: 300 A
            nuts: 21.5 N·m

  clampheat compare example:compact example:high-capacity
  clampheat compare example:holders --plot holders.png
  clampheat compare a.yaml b.yaml --json | jq .against_the_first

The verdict rests on 27 conditions, each the same in both stacks: joints put
together carefully … carelessly, faces brushed … tarnished where the file does not
say, the fuse at the low … high end of its ohms. Where they do not agree it is
too close to call. "Why" exchanges one group of figures at a time and solves
anew; the parts add up to the difference. "neighbours" is what the current meets
besides, and how the holder is built. The chart lays the soaks over each other.

Exit status 1: a limit is passed, or one that a file asks for is UNKNOWN.
Exit status 3: a stack has no lasting state at its current.
`,
		Flags: append(formatFlags(), plotFlags()...),
		Action: func(c *ucli.Context) error {
			if c.Args().Len() == 0 {
				return &usageError{"compare needs scenarios: two FILEs or more, or one with variants", "for example: clampheat compare example:compact example:high-capacity"}
			}
			if err := checkFormat(c); err != nil {
				return err
			}
			candidates, err := s.candidates(c.Args().Slice())
			if err != nil {
				return err
			}
			if len(candidates) < 2 {
				return &usageError{fmt.Sprintf("%s alone holds nothing to compare: it has no variants", c.Args().First()),
					"name a second file, or write \"variants:\" into this one; clampheat help compare shows how"}
			}
			var more []string
			for i := 0; i < len(candidates) && more == nil; i++ {
				more = further(candidates[i].Scenario)
			}
			r, err := study.RunCompare(c.Context, candidates)
			if err != nil {
				return err
			}
			err = s.put(c, answer{
				text:  func() string { return compareText(r, more...) },
				value: func() any { return r },
				table: func() [][]string { return compareTable(r) },
				draw:  func() *chart.Figure { return chart.Compare(r) },
			})
			if err != nil {
				return err
			}
			return s.compareStatus(r)
		},
	}
}

// compareStatus names on stderr what asks for an exit status.
func (s *session) compareStatus(r *study.Compare) error {
	var margins []study.Margin
	for _, column := range r.Columns {
		if column.Ends != "" {
			complain(s.stderr, column.Label+": "+column.Ends, "")
		}
		for _, m := range column.Margins {
			m.Place = column.Label + ", " + m.Place
			margins = append(margins, m)
		}
	}
	err := s.verdicts(margins)
	if r.Exit() == exitNoAnswer {
		return &statusError{exitNoAnswer}
	}
	return err
}

// asWritten is what a file with variants is called beside them.
const asWritten = "as written"

// candidates reads scenarios with their variants and gives each a name of its
// own.
func (s *session) candidates(names []string) ([]study.Candidate, error) {
	var out []study.Candidate
	used := map[string]int{}
	for _, name := range names {
		data, shown, err := s.load(name)
		if err != nil {
			return nil, err
		}
		all, err := scenarios.ReadAllFrom(beside(name, shown), shown, data)
		if err != nil {
			return nil, err
		}
		for _, w := range all[0].File.Warnings {
			fmt.Fprintln(s.stderr, w.Error())
		}
		for _, sc := range all {
			label := labelOf(shown, sc.Variant, len(names) > 1, len(all) > 1)
			if used[label]++; used[label] > 1 {
				label = fmt.Sprintf("%s #%d", label, used[label])
			}
			out = append(out, study.Candidate{Label: label, Scenario: sc})
		}
	}
	return out, nil
}

// labelOf names a stack by its file, its variant, or both where it takes both.
func labelOf(file, variant string, files, variants bool) string {
	name := strings.TrimPrefix(file, scenarios.ExamplePrefix)
	name = strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	switch {
	case !variants:
		return name
	case variant == "":
		variant = asWritten
	}
	if files {
		return name + ": " + variant
	}
	return variant
}

// compareHeader names the columns of the CSV of compare: one row a figure.
var compareHeader = []column{
	{"stack", "its label"},
	{"of", "stack, place, limit, soak, fuse, cable, stated, against or cause"},
	{"name", "which place, limit, fuse, cable, part, other stack or cause"},
	{"what", "the figure"},
	{"unit", "of the value"},
	{"value", "the number; empty where it is UNKNOWN or a text"},
	{"text", "a text, or a word about the number"},
}

func compareTable(r *study.Compare) [][]string {
	rows := [][]string{names(compareHeader)}
	for _, c := range r.Columns {
		add := func(of, name, what, unit, value, text string) {
			rows = append(rows, []string{c.Label, of, name, what, unit, value, text})
		}
		add("stack", "", "current", "A", exact(c.Current), "")
		if c.Power > 0 {
			add("stack", "", "power", "W", exact(c.Power), "")
		}
		for _, s := range c.Spreads {
			add("stack", s.Largest, "largest share", "1", exact(s.OverEven/float64(s.Ways)), "")
		}
		add("stack", "", "air", "C", exact(c.Air.Celsius()), "")
		if c.Ends == "" {
			stackRows(c, add)
		} else {
			add("stack", "", "hottest terminal", "C", "", c.Ends)
		}
		sizingRows(c.Sizing, add)
		for _, st := range c.Stated {
			for _, what := range [][2]string{{"price", st.Price}, {"size", st.Size}, {"mass", st.Mass}} {
				if what[1] != "" {
					add("stated", st.Part, what[0], "", "", what[1])
				}
			}
		}
		for i, t := range c.Soak {
			add("soak", exact(r.Times[i])+" s", "hottest terminal from cold", "C", exact(t.Celsius()), "")
		}
	}
	for _, a := range r.Against {
		add := func(of, name, what, unit, value, text string) {
			rows = append(rows, []string{a.Second, of, name, what, unit, value, text})
		}
		add("against", a.First, "cooler by", "K", exact(a.Cooler), "")
		add("against", a.First, "conditions that agree", "1", fmt.Sprint(a.Agree), fmt.Sprintf("of %d", a.Tried))
		for _, text := range append(append([]string{}, a.Room...), a.Parts...) {
			add("against", a.First, "unlike", "", "", text)
		}
		for _, cause := range a.Why.Causes {
			add("cause", cause.Name, "hotter by", "K", exact(cause.Worth), "against "+a.First)
		}
	}
	return rows
}

func stackRows(c study.Column, add func(of, name, what, unit, value, text string)) {
	add("stack", "", "hottest terminal", "C", exact(c.Hottest.Temp.Celsius()), c.Hottest.Place)
	add("stack", "", "hottest terminal, careful", "C", exact(c.Hottest.Careful.Celsius()), "")
	if c.Hottest.CarelessEnds == "" {
		add("stack", "", "hottest terminal, careless", "C", exact(c.Hottest.Careless.Celsius()), "")
	} else {
		add("stack", "", "hottest terminal, careless", "C", "", c.Hottest.CarelessEnds)
	}
	add("stack", "", "15 min from cold", "C", exact(c.After15.Celsius()), "")
	add("stack", "", "90 % of the rise after", "s", exact(c.To90), "")
	if w := c.Worst; w != nil && w.Ends == "" {
		add("stack", "", "worst joint three times as bad", "C", exact(w.Temp.Celsius()), w.Joint)
	} else if w != nil {
		add("stack", "", "worst joint three times as bad", "C", "", w.Joint+": "+w.Ends)
	}
	add("stack", "", "drop", "V", exact(c.Drop), "")
	add("stack", "", "heat made", "W", exact(c.Heat), "")
	if c.Largest != nil {
		add("stack", "", "largest continuous current", "A", exact(c.Largest.Current), c.Largest.By.Place+": "+c.Largest.By.Name)
	}
	for _, p := range c.Places {
		add("place", p.Name, "settled", "C", exact(p.Temp.Celsius()), "")
	}
	for _, m := range c.Margins {
		value := exact(m.Left)
		if m.Verdict == study.Unknown {
			value = ""
		}
		add("limit", m.Place+": "+m.Name, "left", "K", value, string(m.Verdict))
	}
}

func sizingRows(s study.Sizing, add func(of, name, what, unit, value, text string)) {
	for _, f := range s.Fuses {
		add("fuse", f.Name, "loaded, of 0.8 × rated", "1", exact(f.Loaded), f.Rule)
		if f.Interrupting > 0 {
			add("fuse", f.Name, "interrupting rating", "A", exact(f.Interrupting), "")
		} else {
			add("fuse", f.Name, "interrupting rating", "A", "", "UNKNOWN")
		}
	}
	for _, c := range s.Cables {
		if c.Unknown != "" {
			add("cable", c.Name, "ampacity", "A", "", "UNKNOWN: "+c.Unknown)
			continue
		}
		add("cable", c.Name, "ampacity", "A", exact(c.Allowed), c.Table+", "+c.Row)
		add("cable", c.Name, "loaded", "1", exact(c.Loaded), "")
	}
	if s.Drop.Return > 0 {
		add("stack", "", "drop of the return cable", "V", exact(s.Drop.Return), "")
	}
	if s.Drop.Bank > 0 {
		add("stack", "", "drop of the bank voltage", "1", exact(s.Drop.Share), "")
	}
}
