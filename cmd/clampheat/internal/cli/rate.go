package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func (s *session) rateCommand() *ucli.Command {
	return &ucli.Command{
		Name: "rate", Usage: "how much current it carries, for good and for a while",
		UsageText: "clampheat rate [FLAGS] FILE",
		Description: `Finds the largest current at which every limit holds for good, and which limit
sets it; the same over the temperature of the air; and above it, how long until
the first limit is passed. The current in the file plays no part.

  clampheat rate example:compact
  clampheat rate my.yaml --currents 50,100,140A
  clampheat rate my.yaml --altitude 0,2000m
  clampheat rate my.yaml --plot my.pdf

A fuse whose file gives points of its curve (melts: 600 A in 30 s; 900 A in 2 s)
has them beside the times to a limit. The chart has two panels: current over air,
with the band from careful to careless assembly, and time over current.

A rating passes no limit, so that the exit status is never 1.
`,
		Flags: append(append([]ucli.Flag{
			&ucli.StringFlag{Name: "currents", Usage: "tell how hot at each of these too, `LIST` such as 50,100,140A"},
			&ucli.StringFlag{Name: "altitude", Usage: "rate at these heights above the sea too, `LIST` such as 0,2000m"},
		}, formatFlags()...), plotFlags()...),
		Action: func(c *ucli.Context) error {
			name, err := argument(c, wantFile)
			if err != nil {
				return err
			}
			if err := checkFormat(c); err != nil {
				return err
			}
			var opt study.RateOptions
			if opt.Currents, err = listFlag(c, "currents", quantity.Current, 0, 10e3); err != nil {
				return err
			}
			// The bounds of the key "altitude" of a scenario.
			if opt.Altitudes, err = listFlag(c, "altitude", quantity.Altitude, -500, 11000); err != nil {
				return err
			}
			sc, err := s.read(name)
			if err != nil {
				return err
			}
			r, err := study.RunRate(c.Context, sc, opt)
			if err != nil {
				return err
			}
			return s.put(c, answer{
				text:  func() string { return rateText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return rateTable(r) },
				draw:  func() *chart.Figure { return chart.Rate(r) },
			})
		},
	}
}

// mostListed is how many values a list of a flag may have.
const mostListed = 50

// listFlag reads a list of quantities, of which one without a unit takes that
// of the next that has one: 50,100,140A. nil where the flag is not given.
func listFlag(c *ucli.Context, name string, kind quantity.Kind, least, most float64) ([]float64, error) {
	if !c.IsSet(name) {
		return nil, nil
	}
	parts := strings.Split(c.String(name), ",")
	if len(parts) > mostListed {
		return nil, &usageError{fmt.Sprintf("--%s lists %d values; at most %d can be", name, len(parts), mostListed), ""}
	}
	out := make([]float64, len(parts))
	unit := ""
	for i := len(parts) - 1; i >= 0; i-- {
		text := strings.TrimSpace(parts[i])
		if text != "" && strings.Trim(text, "0123456789.+-") == "" {
			text += " " + unit
		}
		v, err := quantity.Parse(kind, text)
		if err != nil {
			return nil, &usageError{fmt.Sprintf("--%s: %v", name, err), "put the unit behind the last value, as in " + listSample[name]}
		}
		if v.SI < least || v.SI > most || (kind == quantity.Current && v.SI == 0) {
			return nil, &usageError{fmt.Sprintf("--%s: %s cannot be meant", name, quantity.Format(kind, v.SI, v.Unit, 0)),
				fmt.Sprintf("it lies between %s and %s", quantity.Format(kind, least, v.Unit, 0), quantity.Format(kind, most, v.Unit, 0))}
		}
		out[i], unit = v.SI, v.Unit
	}
	return out, nil
}

var listSample = map[string]string{"currents": "50,100,140A", "altitude": "0,2000m"}

// rateHeader names the columns of the CSV of rate, each with its unit.
var rateHeader = []column{
	{"of", "limit, end, air, altitude, time, fuse or current: what the row tells of"},
	{"current_A", "the current"},
	{"careful_A", "of air: if assembled carefully"},
	{"careless_A", "of air: if assembled carelessly"},
	{"air_C", "of the air"},
	{"altitude_m", "above the sea"},
	{"time_s", "until the first limit is passed; empty where none is"},
	{"melts_s", "of fuse: until it melts, as the file says"},
	{"place", "where the limit is reached; of current: the hottest terminal"},
	{"limit", "the limit that sets the current or is passed first"},
	{"limit_C", "that limit"},
	{"terminal_C", "hottest terminal at that current"},
	{"power_W", "where power is drawn: the power at which that current flows"},
}

func rateTable(r *study.Rate) [][]string {
	rows := [][]string{names(rateHeader)}
	air, height := exact(r.Air.Celsius()), exact(r.Altitude)
	rated := func(of string, x study.Rated) {
		rows = append(rows, []string{of, exact(x.Current), "", "", air, height, "", "", x.By.Place, x.By.Name, exact(x.By.Limit.Celsius()), exact(x.Temp.Celsius()), nonzero(x.Power)})
	}
	for _, l := range r.Limits {
		rated("limit", l)
	}
	rated("end", r.End)
	for _, a := range r.OverAir {
		l := a.Likely
		rows = append(rows, []string{"air", exact(l.Current), exact(a.Careful), exact(a.Careless), exact(a.Air.Celsius()), height, "", "",
			l.By.Place, l.By.Name, exact(l.By.Limit.Celsius()), exact(l.Temp.Celsius()), nonzero(l.Power)})
	}
	for _, a := range r.Altitudes {
		for i, c := range a.Currents {
			power := ""
			if a.Powers != nil {
				power = nonzero(a.Powers[i])
			}
			rows = append(rows, []string{"altitude", exact(c), "", "", exact(a.Airs[i].Celsius()), exact(a.Altitude), "", "", "", "", "", "", power})
		}
	}
	for _, t := range r.OverTime {
		rows = append(rows, []string{"time", exact(t.Current), "", "", air, height, exact(t.Time), "", t.Place, t.Limit, "", "", nonzero(t.Power)})
	}
	for _, f := range r.Fuses {
		for _, p := range f.Points {
			rows = append(rows, []string{"fuse", exact(p.Current), "", "", air, height, nonzero(p.Limit), exact(p.Melts), f.Name, "", "", "", ""})
		}
	}
	for _, a := range r.Currents {
		row := []string{"current", exact(a.Current), "", "", air, height, nonzero(a.Passed), "", "", "", "", "", ""}
		if a.Hottest != nil {
			row[8], row[11] = a.Hottest.Place, exact(a.Hottest.Temp.Celsius())
		}
		if a.Tightest != nil {
			row[9], row[10] = a.Tightest.Name, exact(a.Tightest.Limit.Celsius())
		}
		rows = append(rows, row)
	}
	return rows
}
