package cli

import (
	"errors"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/chart"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func (s *session) torqueCommand() *ucli.Command {
	return &ucli.Command{
		Name: "torque", Usage: "what the torque on one nut does, and what spoils its joint",
		UsageText: "clampheat torque [FLAGS] FILE",
		Description: `Sweeps the torque on one nut from finger-tight to half as much again as stated,
or to what its thread holds where that is less, for faces that are brushed, as
received and tarnished; then spoils the joint in other ways at the same current.

  clampheat torque example:compact
  clampheat torque my.yaml --nut "compact holder"
  clampheat torque my.yaml --plot lesson.pdf

Without --nut it takes the nut whose half torque costs most, and names the others.
On clean faces an honest sweep is nearly flat: what is stated holds the clamp for
years, over settling and cold and heat, and is not there for the last kelvin.
Torques above the stated one are shown to be compared, never to be used. The chart
is made for teaching: torque, clamp, resistance, temperature, in three panels.

A sweep never sets exit status 1. Exit status 3: there is no lasting state as the
file has it.
`,
		Flags: append(append([]ucli.Flag{&ucli.StringFlag{Name: "nut", Usage: "the `NAME` of the nut, or of the part that owns it"}},
			formatFlags()...), plotFlags()...),
		Action: func(c *ucli.Context) error {
			sc, err := s.scenario(c)
			if err != nil {
				return err
			}
			r, err := study.RunTorque(c.Context, sc, study.TorqueOptions{Nut: c.String("nut")})
			if err != nil {
				return nutError(err)
			}
			return s.put(c, answer{
				text:  func() string { return torqueText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return torqueTable(r) },
				draw:  func() *chart.Figure { return chart.Torque(r) },
			})
		},
	}
}

// nutError makes a nut that is not there a mistake on the command line, with
// the name that may have been meant.
func nutError(err error) error {
	var unknown *study.UnknownNutError
	switch {
	case !errors.As(err, &unknown):
		return err
	case len(unknown.Nuts) == 0:
		return &inputError{unknown.Error(), "write the nut below the part whose stud it is on: nut: 12 N·m", err}
	case unknown.Fits:
		return &usageError{unknown.Error(), "name one of them"}
	}
	hint := ""
	if n := near(unknown.Name, append(study.NutOwners(unknown.Nuts), unknown.Nuts...)); n != "" {
		hint = "did you mean \"" + n + "\"?"
	}
	return &usageError{unknown.Error(), hint}
}

// torqueHeader names the columns of the CSV of torque, each with its unit.
var torqueHeader = []column{
	{"kind", "sweep, scatter (of tightening, at the stated torque) or spoiled"},
	{"case", "state of the faces, way of tightening, or way of spoiling"},
	{"point", "name of the torque: stated, half torque, …"},
	{"torque_Nm", "on the nut"},
	{"torque_inlb", "the same"},
	{"clamp_N", "likely clamp force"},
	{"share_of_yield", "stress in the thread over its yield figure, 0 … 1"},
	{"faces_ohm", "of all faces under the nut, hot"},
	{"faces_V", "over all of them at the current"},
	{"faces_W", "made in them"},
	{"worst_face_ohm", "of the worst single face"},
	{"worst_face_V", "what a meter across that face shows"},
	{"hottest_terminal_C", "settled; empty where there is no lasting state"},
	{"at", "the hottest terminal"},
	{"limit", "the limit with the least left"},
	{"limit_C", "that limit"},
	{"left_K", "what is left to it; negative where it is passed"},
	{"remark", "no lasting state, or a thread that yields, in words"},
}

func torqueTable(r *study.Torque) [][]string {
	rows := [][]string{names(torqueHeader)}
	add := func(kind, name, point string, p study.TorquePoint, remark string) {
		cells := []string{kind, name, point, exact(p.Torque), inchPounds(p.Torque), nonzero(p.Clamp), nonzero(p.Share),
			nonzero(p.Resistance), nonzero(p.Drop), nonzero(p.Heat), nonzero(p.FaceResistance), nonzero(p.FaceDrop),
			"", p.Place, "", "", "", remark}
		if remark == "" {
			cells[12] = exact(p.Hottest.Celsius())
		}
		if l := p.Tightest; l != nil {
			copy(cells[14:], []string{l.Name, exact(l.Limit.Celsius()), exact(l.Left)})
		}
		rows = append(rows, cells)
	}
	for _, c := range r.Curves {
		for _, p := range c.Points {
			add("sweep", c.Faces, p.Name, p, p.Ends)
		}
	}
	for _, b := range r.Bands {
		add("scatter", b.Name, "least clamp", b.Loose, b.Loose.Ends)
		add("scatter", b.Name, "most clamp", b.Tight, b.Tight.Ends)
	}
	for _, sp := range r.Spoiled {
		add("spoiled", sp.Name, "", sp.Point, sp.Breaks+sp.Point.Ends)
	}
	return rows
}

// inchPounds is a torque in the inch unit, for machines.
func inchPounds(nm float64) string {
	one, err := quantity.Parse(quantity.Torque, "1 in·lb")
	if err != nil || one.SI == 0 {
		return ""
	}
	return exact(nm / one.SI)
}
