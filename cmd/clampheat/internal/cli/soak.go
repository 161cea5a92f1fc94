package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/cmd/clampheat/internal/progress"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func (s *session) soakCommand() *ucli.Command {
	return &ucli.Command{
		Name: "soak", Usage: "how fast it gets there, and when a limit is passed",
		UsageText: "clampheat soak [FLAGS] FILE",
		Description: `Follows the temperatures over time, from the start that the file gives (the
air's temperature where it gives none) until settled or for the time asked.

  clampheat soak example:compact
  clampheat soak my.yaml --for 15min --every 30s
  clampheat soak my.yaml --plot my.svg
  clampheat soak my.yaml --measured bench.csv --plot compare.png

A time has its unit: 90s, 15min, 1.5h. A log of measured temperatures is a CSV
whose first row names a column of times and columns of places, each with its
unit: time_s,lug_C or time_min,"holder base [°F]". Its points are drawn over
the curves and the differences printed; nothing is fitted.

Exit status 1: a limit is passed on the way.
`,
		Flags: append(append([]ucli.Flag{
			&ucli.StringFlag{Name: "for", Usage: "how long, as `TIME`; until settled where not given"},
			&ucli.StringFlag{Name: "every", Usage: "time between two rows of the result, as `TIME`"},
			&ucli.StringFlag{Name: "measured", Usage: "hold the curves against a log of measured temperatures, `FILE`.csv"},
		}, formatFlags()...), plotFlags()...),
		Action: func(c *ucli.Context) error {
			name, err := argument(c, wantFile)
			if err != nil {
				return err
			}
			options, err := s.soakOptions(c)
			if err != nil {
				return err
			}
			sc, err := s.read(name)
			if err != nil {
				return err
			}
			var r *study.Soak
			line := progress.New(s.statusLine(), "soak")
			options.Progress = line.Show
			r, err = study.RunSoak(c.Context, sc, options)
			line.Done()
			if err != nil {
				return err
			}
			err = s.put(c, answer{
				text:  func() string { return soakText(r, options.Every, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return soakTable(r) },
				draw:  func() *chart.Figure { return chart.Soak(r) },
			})
			if err != nil {
				return err
			}
			margins := make([]study.Margin, len(r.Limits))
			for i, l := range r.Limits {
				margins[i] = l.Margin
			}
			return s.verdicts(margins)
		},
	}
}

func (s *session) soakOptions(c *ucli.Context) (o study.SoakOptions, err error) {
	if err := checkFormat(c); err != nil {
		return o, err
	}
	if o.For, err = timeFlag(c, "for"); err != nil {
		return o, err
	}
	if o.Every, err = timeFlag(c, "every"); err != nil {
		return o, err
	}
	if o.For > 0 && o.Every > o.For {
		return o, &usageError{fmt.Sprintf("--every %s is longer than --for %s", c.String("every"), c.String("for")), ""}
	}
	if file := c.String("measured"); file != "" {
		f, err := os.Open(file)
		if err != nil {
			if errors.Is(err, fs.ErrNotExist) {
				return o, &inputError{"there is no file " + file, "--measured reads a log of temperatures as CSV", err}
			}
			return o, unreadable(file, err)
		}
		defer f.Close()
		if o.Measured, err = study.ReadMeasured(file, f); err != nil {
			return o, err
		}
	}
	return o, nil
}

// timeFlag reads a time with its unit, as a scenario file would have it; 0
// where the flag is not given.
func timeFlag(c *ucli.Context, name string) (float64, error) {
	text := c.String(name)
	if text == "" {
		return 0, nil
	}
	v, err := quantity.Parse(quantity.Time, text)
	if err != nil {
		return 0, &usageError{fmt.Sprintf("--%s: %v", name, err), "write a time with its unit: 90s, 15min, 1.5h"}
	}
	if v.SI <= 0 {
		return 0, &usageError{fmt.Sprintf("--%s %s is no time to wait for", name, text), "write a time above zero: 90s, 15min, 1.5h"}
	}
	return v.SI, nil
}

// statusLine is where progress may be shown: stderr where it is a terminal.
func (s *session) statusLine() *os.File {
	if f, ok := s.stderr.(*os.File); ok && terminal(f) {
		return f
	}
	return nil
}

// soakHeader names the columns of the CSV of soak.
var soakHeader = []column{
	{"time_s", "since the start"},
	{"current_A", "at that time"},
	{"<place>_C", "one column a place: its temperature"},
}

func soakTable(r *study.Soak) [][]string {
	header := []string{"time_s", "current_A"}
	for _, s := range r.Series {
		header = append(header, columnName(s.Name)+"_C")
	}
	rows := [][]string{header}
	for i, t := range r.Times {
		row := []string{exact(t), exact(r.Currents[i])}
		for _, s := range r.Series {
			row = append(row, exact(s.Temps[i].Celsius()))
		}
		rows = append(rows, row)
	}
	return rows
}

// columnName makes one word of a place: "fuse 300 A, nut side" becomes
// fuse_300_a_nut_side.
func columnName(place string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(place), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	}), "_")
}
