package materials

// This file reads the embedded data files. Each is a plain CSV table whose
// numeric columns carry their unit in the heading, "conductivity [W/(m·K)]",
// so that a reader of the file and the program see the same unit.

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

//go:embed data/*.csv
var dataFiles embed.FS

// toSI gives factor and offset of each unit that a heading may carry: SI = factor·x + offset.
var toSI = map[string]struct{ factor, offset float64 }{
	"1":          {1, 0},
	"1/K":        {1, 0},
	"K":          {1, 0},
	"°C":         {1, ZeroCelsius},
	"V":          {1, 0},
	"A":          {1, 0},
	"W/(m·K)":    {1, 0},
	"kg/m³":      {1, 0},
	"J/(kg·K)":   {1, 0},
	"MJ/(m³·K)":  {1e6, 0},
	"MPa":        {1e6, 0},
	"GPa":        {1e9, 0},
	"nΩ·m":       {1e-9, 0},
	"pΩ·m²":      {1e-12, 0},
	"Ω/km":       {1e-3, 0},
	"mm":         {1e-3, 0},
	"µm":         {1e-6, 0},
	"mm²":        {1e-6, 0},
	"s":          {1, 0},
	"threads/in": {1 / inch, 0},
}

// row is one line of a data file under its headings. Reading a cell that is
// missing or no number marks the row as bad instead of interrupting its reader.
type row struct {
	file  string
	line  int
	names []string // heading without the unit
	units []string // unit of the heading, empty for a text column
	cells []string
	err   error
}

func (r *row) fail(column string, err error) {
	r.err = errors.Join(r.err, fmt.Errorf("%s line %d, column %q: %w", r.file, r.line, column, err))
}

// text returns the cell under a heading without unit; empty if there is no such column.
func (r *row) text(column string) string {
	if i := slices.Index(r.names, column); i >= 0 {
		return r.cells[i]
	}
	return ""
}

// has reports whether the cell under a heading is filled.
func (r *row) has(column string) bool { return r.text(column) != "" }

// number returns the cell under a heading in SI units.
func (r *row) number(column string) float64 {
	i := slices.Index(r.names, column)
	if i < 0 {
		r.fail(column, errors.New("there is no such column"))
		return 0
	}
	unit, ok := toSI[r.units[i]]
	if !ok {
		r.fail(column, fmt.Errorf("the heading's unit %q is not known", r.units[i]))
		return 0
	}
	x, err := strconv.ParseFloat(r.cells[i], 64)
	if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		err = fmt.Errorf("%q is no finite number", r.cells[i])
	}
	if err != nil {
		r.fail(column, err)
		return 0
	}
	return unit.factor*x + unit.offset
}

// spread returns the three columns "x low", "x likely" and "x high" in SI
// units. Where low and high are both empty the figure has no spread.
func (r *row) spread(column string) Range {
	likely := r.number(column + " likely")
	if !r.has(column+" low") && !r.has(column+" high") {
		return Exactly(likely)
	}
	out := Range{Low: r.number(column + " low"), Likely: likely, High: r.number(column + " high")}
	if !out.Valid() {
		r.fail(column, errors.New("low, likely and high are out of order"))
	}
	return out
}

// readTable reads a data file with one value per line.
func readTable[T any](file string, read func(*row) T) ([]T, error) {
	rows, err := readRows(file)
	if err != nil {
		return nil, err
	}
	list := make([]T, 0, len(rows))
	for i := range rows {
		list = append(list, read(&rows[i]))
		if rows[i].err != nil {
			return nil, rows[i].err
		}
	}
	return list, nil
}

func readRows(file string) ([]row, error) {
	f, err := dataFiles.Open("data/" + file)
	if err != nil {
		return nil, fmt.Errorf("open the data file: %w", err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("read the data file %s: %w", file, err)
	}
	if len(records) < 2 {
		return nil, fmt.Errorf("the data file %s holds no rows", file)
	}
	names := make([]string, len(records[0]))
	units := make([]string, len(records[0]))
	for i, heading := range records[0] {
		name, rest, _ := strings.Cut(heading, " [")
		names[i], units[i] = name, strings.TrimSuffix(rest, "]")
	}
	rows := make([]row, len(records)-1)
	for i, cells := range records[1:] {
		rows[i] = row{file: file, line: i + 2, names: names, units: units, cells: cells}
	}
	return rows, nil
}
