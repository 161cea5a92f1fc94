package validation

import (
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// This file reads the tables copied from published sources, which testdata
// holds one a file with a status and a source on every row.

//go:embed testdata/adiabatic_k.csv testdata/ambient_factors.csv testdata/awg.csv
//go:embed testdata/cfr_33_183_425_factors.csv testdata/cfr_33_183_425_table_5.csv
//go:embed testdata/copper_bar_ampacity.csv testdata/copper_bar_emissivity.csv testdata/copper_for_busbars.csv
//go:embed testdata/din_43671_bare_dc.csv testdata/dry_air.csv testdata/heat_transfer_examples.csv
//go:embed testdata/holm.csv testdata/iec_60228.csv testdata/iec_60228_temperature_factor.csv
//go:embed testdata/copper_bar_groups.csv testdata/crowding.json testdata/din_43671_two_bars.csv testdata/iec_60287_groups.csv
//go:embed testdata/iec_60364_5_52_groups.csv testdata/nec_310_16.csv testdata/nec_more_conductors.csv
//go:embed testdata/nec_310_17.csv testdata/nec_chapter9_table8.csv testdata/nut_factor_examples.csv
//go:embed testdata/streamline.json testdata/streamline_factors.csv testdata/vdi_2230.csv
var tables embed.FS

// sheet is a copied table. A cell that cannot be read leaves its error in err,
// so that cases can be written without a check a cell.
type sheet struct {
	name string
	rows []sheetRow
	err  error
}

type sheetRow struct {
	sheet *sheet
	line  int
	cells map[string]string
}

// openSheet reads a table of testdata by its name without folder and ending.
func openSheet(name string) (*sheet, error) {
	file, err := tables.Open("testdata/" + name + ".csv")
	if err != nil {
		return nil, fmt.Errorf("validation table %s: %w", name, err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("validation table %s: %w", name, err)
	}
	s := &sheet{name: name}
	for i, record := range records[1:] {
		cells := make(map[string]string, len(record))
		for k, cell := range record {
			cells[records[0][k]] = cell
		}
		s.rows = append(s.rows, sheetRow{s, i + 2, cells})
	}
	return s, nil
}

// text is a cell as it stands.
func (r sheetRow) text(column string) string {
	cell, ok := r.cells[column]
	if !ok && r.sheet.err == nil {
		r.sheet.err = fmt.Errorf("validation table %s has no column %q", r.sheet.name, column)
	}
	return cell
}

// has says whether a cell holds anything.
func (r sheetRow) has(column string) bool { return r.text(column) != "" }

// number is a cell as a number.
func (r sheetRow) number(column string) float64 {
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil && r.sheet.err == nil {
		r.sheet.err = fmt.Errorf("validation table %s, line %d, column %q: %w", r.sheet.name, r.line, column, err)
	}
	return v
}

// inputs are the numbers of a cell of the form "a=1 b=2"; what is no number
// there, such as a size, is left out.
func (r sheetRow) inputs(column string) Inputs {
	in := Inputs{}
	for _, field := range strings.Fields(r.text(column)) {
		name, text, _ := strings.Cut(field, "=")
		if v, err := strconv.ParseFloat(text, 64); err == nil {
			in[name] = v
		}
	}
	return in
}

// source is the document of the row, marked where the figure is quoted from
// memory.
func (r sheetRow) source(document string) string {
	if r.text("status") == "memory-high" {
		return document + fromMemory
	}
	return document
}

// printedWhy is the reason of a tolerance by printed.
const printedWhy = "the share, or half of the last digit printed where that is more"

// printed accepts ± share of a figure, or half of its last printed digit
// where that is more: a table cannot be followed more closely than it prints.
func (r sheetRow) printed(column string, share float64, unit string) Tolerance {
	text := r.text(column)
	_, decimals, _ := strings.Cut(text, ".")
	half := 0.5 * math.Pow(10, -float64(len(decimals)))
	want := r.number(column)
	if half > share*math.Abs(want) {
		return Abs(half, unit)
	}
	return Rel(want, share)
}
