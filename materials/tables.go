package materials

// This file lists every table as text, for people to read beside its sources.

import (
	"strconv"
	"strings"
)

// Table is one table as text.
type Table struct {
	Kind    string   // short name: "metals"
	Title   string   // what it holds
	Columns []string // heading with unit
	Rows    []TableRow
}

// TableRow is one line of a Table, with its source.
type TableRow struct {
	Cells []string
	Provenance
}

// listed names the data files in the order in which they are shown.
var listed = []struct{ kind, file, title string }{
	{"metals", "metals.csv", "Metals at 20 °C"},
	{"platings", "platings.csv", "Outermost metal of a contact face"},
	{"faces", "facestates.csv", "State of a contact face"},
	{"finishes", "finishes.csv", "Emissivity of surfaces"},
	{"walls", "wallmaterials.csv", "Walls of boxes and conduits"},
	{"insulations", "insulations.csv", "Cable insulations by rating"},
	{"jackets", "jackets.csv", "Nominal wall of insulation on single cores"},
	{"conductors", "", "Copper conductors, plain"},
	{"strands", "strands.csv", "What stranding and tinning add to a solid wire"},
	{"fasteners", "", "Fasteners"},
	{"classes", "propertyclasses.csv", "Strength of fasteners"},
	{"threads", "threadconditions.csv", "Nut factor by condition of the thread"},
	{"tightening", "tightenings.csv", "Clamp reached over clamp aimed at"},
	{"touch", "touch.csv", "Burn thresholds of touched surfaces"},
	{"burns", "burns.csv", "Times to a burn on bare metal, a second opinion"},
	{"ampacities", "ampacities.csv", "Published currents of single copper conductors in free air"},
}

// Tables lists all tables for display, figures as their files hold them; those
// that follow from formulas, conductors and thread geometry, as computed.
// A spread reads "likely (low … high)".
func Tables() []Table {
	list := make([]Table, 0, len(listed))
	for _, l := range listed {
		t := Table{Kind: l.kind, Title: l.title}
		switch {
		case l.kind == "conductors":
			t.conductors()
		case l.kind == "fasteners":
			t.fasteners()
		default:
			t.fromFile(l.file)
		}
		list = append(list, t)
	}
	return list
}

// fromFile shows a data file: its columns less those of the source, spreads drawn together.
func (t *Table) fromFile(file string) {
	rows, err := readRows(file)
	if err != nil {
		return
	}
	for i := range rows {
		r := &rows[i]
		line := TableRow{Provenance: r.provenance()}
		for c, name := range r.names {
			if name == "basis" || name == "source" || name == "ground" || name == "note" ||
				strings.HasSuffix(name, " low") || strings.HasSuffix(name, " high") {
				continue
			}
			cell := r.cells[c]
			stem, spread := strings.CutSuffix(name, " likely")
			if spread && r.has(stem+" low") {
				cell += " (" + r.text(stem+" low") + " … " + r.text(stem+" high") + ")"
			}
			if i == 0 {
				t.Columns = append(t.Columns, heading(stem, r.units[c]))
			}
			line.Cells = append(line.Cells, cell)
		}
		t.Rows = append(t.Rows, line)
	}
}

func heading(name, unit string) string {
	if unit == "" || unit == "1" {
		return name
	}
	return name + " [" + unit + "]"
}

func (t *Table) conductors() {
	t.Columns = []string{"name", "area [mm²]", "resistance at 20 °C [mΩ/m]", "diameter over strands [mm]"}
	for _, c := range Conductors() {
		d := c.Diameter
		t.Rows = append(t.Rows, TableRow{Provenance: c.Provenance, Cells: []string{
			c.Name, digits(c.Area * 1e6), digits(c.Resistance20 * 1e3),
			digits(d.Likely*1e3) + " (" + digits(d.Low*1e3) + " … " + digits(d.High*1e3) + ")",
		}})
	}
}

func (t *Table) fasteners() {
	t.Columns = []string{"name", "diameter [mm]", "pitch [mm]", "pitch diameter [mm]", "minor diameter [mm]",
		"stress area [mm²]", "bearing face [mm]", "hole [mm]", "washer [mm]"}
	for _, f := range Fasteners() {
		t.Rows = append(t.Rows, TableRow{Provenance: f.Provenance, Cells: []string{
			f.Name, digits(f.Diameter * 1e3), digits(f.Pitch * 1e3), digits(f.PitchDiameter * 1e3), digits(f.MinorDiameter * 1e3),
			digits(f.StressArea * 1e6), digits(f.HeadDiameter * 1e3), digits(f.HoleDiameter * 1e3), digits(f.WasherDiameter * 1e3),
		}})
	}
}

// digits writes four figures, as far as any of the tables is good for.
func digits(x float64) string {
	return strconv.FormatFloat(x, 'g', 4, 64)
}
