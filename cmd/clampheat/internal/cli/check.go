package cli

import (
	ucli "github.com/urfave/cli/v2"

	"clampheat/scenarios/study"
)

func (s *session) checkCommand() *ucli.Command {
	return &ucli.Command{
		Name: "check", Usage: "the stack as understood, with every assumption",
		UsageText: "clampheat check [FLAGS] FILE",
		Description: `Reads a scenario and shows what was made of it, before any temperature counts:
each part's mass, surface and resistance; each bolt's clamp force and share of
what it stands; each joint's resistance, low, likely and high, and what a meter
should show across it at the current; and every value that the file left open,
with its source or its ground.

  clampheat check example:compact
  clampheat check my.yaml --detail
  clampheat check my.yaml --csv > assumptions.csv

All mistakes of a file are reported in one run, each with its line.
`,
		Flags: append([]ucli.Flag{
			&ucli.BoolFlag{Name: "detail", Usage: "show how each node gives off its heat, too"},
		}, formatFlags()...),
		Action: func(c *ucli.Context) error {
			sc, err := s.scenario(c)
			if err != nil {
				return err
			}
			r, err := study.RunCheck(c.Context, sc, study.Options{Detail: c.Bool("detail")})
			if err != nil {
				return err
			}
			return s.put(c, answer{
				text:  func() string { return checkText(r, further(sc)...) },
				value: func() any { return r },
				table: func() [][]string { return checkTable(r) },
			})
		},
	}
}

// checkHeader names the columns of the CSV of check: one row a quantity.
var checkHeader = []column{
	{"of", "part, bolt, joint, fuse, node or assumption"},
	{"name", "which"},
	{"what", "the quantity"},
	{"unit", "of the numbers that follow"},
	{"low", "empty where there is no range"},
	{"likely", "the value"},
	{"high", "empty where there is no range"},
	{"text", "of an assumption: the value with its unit, or the word"},
	{"basis", "published or assumed"},
	{"source", "where it comes from"},
	{"ground", "of an assumption: why"},
}

func checkTable(r *study.Check) [][]string {
	rows := [][]string{names(checkHeader)}
	add := func(of, name, what, unit, low, likely, high string) {
		rows = append(rows, []string{of, name, what, unit, low, likely, high, "", "", "", ""})
	}
	one := func(of, name, what, unit string, v float64) { add(of, name, what, unit, "", exact(v), "") }
	for _, p := range r.Parts {
		one("part", p.Name, "mass", "kg", p.Mass)
		one("part", p.Name, "heat capacity", "J/K", p.Capacity)
		one("part", p.Name, "surface", "m2", p.Area)
		one("part", p.Name, "resistance at 20 °C", "ohm", p.Resistance)
	}
	for _, b := range r.Bolts {
		one("bolt", b.Name, "torque", "Nm", b.Torque)
		add("bolt", b.Name, "clamp", "N", exact(b.Clamp.Low), exact(b.Clamp.Likely), exact(b.Clamp.High))
		one("bolt", b.Name, "yield torque", "Nm", b.Yield)
		one("bolt", b.Name, "share of yield", "1", b.Utilisation)
	}
	for _, j := range r.Joints {
		add("joint", j.Name, "resistance at 20 °C", "ohm", exact(j.Resistance.Low), exact(j.Resistance.Likely), exact(j.Resistance.High))
		add("joint", j.Name, "drop", "V", exact(j.Drop.Low), exact(j.Drop.Likely), exact(j.Drop.High))
		one("joint", j.Name, "heat conductance", "W/K", j.Conductance)
	}
	for _, f := range r.Fuses {
		one("fuse", f.Name, "rated current", "A", f.Rated)
		add("fuse", f.Name, "cold resistance", "ohm", exact(f.Cold.Low), exact(f.Cold.Likely), exact(f.Cold.High))
		add("fuse", f.Name, "element rise at rated current", "K", exact(f.ElementRise.Low), exact(f.ElementRise.Likely), exact(f.ElementRise.High))
	}
	for _, n := range r.Nodes {
		one("node", n.Name, "temperature", "C", n.Temp.Celsius())
		one("node", n.Name, "surface", "m2", n.Area)
		one("node", n.Name, "convection", "W/m2K", n.Convection)
		one("node", n.Name, "radiation", "W/m2K", n.Radiation)
		one("node", n.Name, "to the room", "W/K", n.Conductance)
		one("node", n.Name, "Biot number", "1", n.Biot)
	}
	for _, a := range r.Assumptions {
		rows = append(rows, []string{"assumption", a.Where, a.What, "", "", "", "", a.Value, a.Basis, a.Source, a.Ground})
	}
	return rows
}
