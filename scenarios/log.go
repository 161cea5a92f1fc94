package scenarios

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"clampheat/scenarios/quantity"
)

// This file reads a log: a CSV file with a row for each time and current, or
// power, and with the air's temperature where the scenario takes it from there.
// A logger samples what runs on between its rows, so that straight lines join
// them; a step shows as a line between the rows around it. Which column is what
// is in log_header.go.

// Files opens a file by the name that a scenario gives it. The error is as that
// of the file system.
type Files func(name string) ([]byte, error)

// Beside opens the files that stand beside a scenario file, or below its
// folder.
func Beside(scenario string) Files {
	dir := filepath.Dir(scenario)
	return func(name string) ([]byte, error) {
		if !filepath.IsLocal(name) {
			return nil, errOutside
		}
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		defer f.Close() //nolint:errcheck // nothing was written
		return io.ReadAll(io.LimitReader(f, mostLogBytes+1))
	}
}

var errOutside = errors.New("it stands outside the folder of the scenario")

// Bounds of a log: a row a second for a day, with columns that are not read.
const (
	mostRows     = 100_000
	mostLogBytes = 16 << 20
)

const logHint = `the first row names the columns with their units: "time_s,current_A" or "time [min],current [A]"; each row below it has their numbers: "60,140"`

// logName reads the name of a log, which is opened once the whole file is known.
func (r *reader) logName(n *node) Log {
	name, ok := r.text(n)
	if !ok {
		return Log{}
	}
	return Log{Name: name, Supply: Supply{Pos: n.pos}}
}

// fromLog is the word for air whose temperature the log has.
const fromLog = "from log"

// openLog reads the log that the file names, and the air where it is to come from
// there.
func (r *reader) openLog(root *node) {
	f := r.file
	air := &f.Air
	if f.Log.Name == "" {
		if air.FromLog && root.get("log") == nil {
			r.mistake(air.Pos, "%q goes with %q, which is missing", "air: "+fromLog, "log").hint("write the temperature of the air, or name the log")
		}
		return
	}
	name, pos := f.Log.Name, f.Log.Pos
	data, ok := r.logData(name, pos)
	if !ok {
		return
	}
	table := logTable{wantsAir: air.FromLog,
		file: &File{Name: beside(f.Name, name), lines: splitLines(string(bytes.TrimPrefix(data, []byte("\ufeff"))))}}
	load, course, problem := table.read()
	for _, w := range table.warnings {
		r.note(w)
	}
	switch {
	case problem != nil:
		r.note(*problem)
		return
	case air.FromLog && !table.air.has:
		r.mistake(air.Pos, "the log %q has no column of the air's temperature", name).hint("name it in the log's first row, for example \"air [°C]\", or write the temperature here")
		return
	}
	load.Pos = pos
	f.Log.Supply = load
	f.Log.Repeats = f.Repeats.Text == "yes"
	if air.FromLog {
		course.Pos, course.Repeats = air.Pos, f.Log.Repeats
		air.Value, air.Unit, air.Course = course.highest(), course.Unit, course
	}
}

// logData is what a log holds.
func (r *reader) logData(name string, pos Pos) ([]byte, bool) {
	if r.file.files == nil {
		r.mistake(pos, "the log %q cannot be opened from here", name).hint("a scenario from a file or an example can have a log beside it; else write the steps as a list")
		return nil, false
	}
	data, err := r.file.files(name)
	switch {
	case errors.Is(err, errOutside):
		r.mistake(pos, "the log %q does not stand beside the scenario", name).hint("put it into the same folder, or one below it")
	case err != nil:
		r.mistake(pos, "the log %q cannot be opened", name).hint("it is looked for in the folder of the scenario: %s", reason(err))
	case len(data) > mostLogBytes:
		r.mistake(pos, "the log %q is larger than 16 MB", name)
	default:
		return data, true
	}
	return nil, false
}

// reason is what a file system says, without the place that it looked at.
func reason(err error) string {
	for {
		next := errors.Unwrap(err)
		if next == nil {
			return err.Error()
		}
		err = next
	}
}

// beside names a file in the folder of another one.
func beside(scenario, name string) string {
	if strings.HasPrefix(scenario, ExamplePrefix) {
		return ExamplePrefix + name
	}
	return filepath.Join(filepath.Dir(scenario), name)
}

// logTable is a log that is being read.
type logTable struct {
	file     *File
	reader   *csv.Reader
	wantsAir bool
	columns  int // that the first row names
	time     column
	load     column
	air      column
	warnings []Problem
}

// sample is one row of a column.
type sample struct{ at, value float64 } // s; A, W or K

// read reads the rows and makes straight lines of them.
func (t *logTable) read() (load, air Supply, problem *Problem) {
	t.reader = csv.NewReader(strings.NewReader(strings.Join(t.file.lines, "\n")))
	t.reader.FieldsPerRecord = -1
	t.reader.ReuseRecord = true
	t.reader.TrimLeadingSpace = true
	t.reader.Comment = '#'
	var loads, airs []sample
	for {
		record, err := t.reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return load, air, t.broken(err)
		}
		if t.columns == 0 {
			if problem = t.header(record); problem != nil {
				return load, air, problem
			}
			continue
		}
		at, problem := t.row(record)
		if problem != nil {
			return load, air, problem
		}
		if len(loads) > 0 && !(at > loads[len(loads)-1].at) {
			return load, air, t.problem(t.time.index, "this row is not later than the one before it").hinted("times rise from row to row; for a step write two rows a little apart")
		}
		if len(loads) == mostRows {
			return load, air, t.problem(0, "the log has more than %d rows", mostRows).hinted("keep every second row, or those where the current changes")
		}
		value, problem := t.value(record, &t.load)
		if problem != nil {
			return load, air, problem
		}
		loads = append(loads, sample{at, value})
		if t.wantsAir && t.air.has {
			if value, problem = t.value(record, &t.air); problem != nil {
				return load, air, problem
			}
			airs = append(airs, sample{at, value})
		}
	}
	if len(loads) < 2 {
		p := t.file.problemAt(Pos{Line: 1}, "a log needs two rows of numbers at least").hint("%s", logHint)
		return load, air, &p
	}
	load = supplyOf(&t.load, loads)
	if len(airs) > 0 {
		air = supplyOf(&t.air, airs)
	}
	return load, air, nil
}

// supplyOf joins the rows by ramps; after the last its value stays.
func supplyOf(c *column, rows []sample) Supply {
	rows = straight(rows)
	out := Supply{Kind: c.kind.kind, Unit: c.unit, Set: true, Steps: make([]Step, 0, len(rows))}
	for i, row := range rows[1:] {
		out.Steps = append(out.Steps, Step{From: rows[i].value, To: row.value, For: row.at - rows[i].at})
	}
	return out
}

// straight drops the rows that lie on the straight line between their
// neighbours, to the last digit.
func straight(rows []sample) []sample {
	kept := rows[:1:1]
	for i := 1; i < len(rows)-1; i++ {
		a, b, c := kept[len(kept)-1], rows[i], rows[i+1]
		if (b.value-a.value)*(c.at-b.at) != (c.value-b.value)*(b.at-a.at) {
			kept = append(kept, b)
		}
	}
	return append(kept, rows[len(rows)-1])
}

// row reads the time of a row, s, and checks that it has the columns of the
// first row.
func (t *logTable) row(record []string) (at float64, problem *Problem) {
	if len(record) > t.columns {
		return 0, t.problem(t.columns, "this row has %d columns, the first row names %d", len(record), t.columns).hinted(pointsHint)
	}
	for _, c := range []*column{&t.time, &t.load} {
		if c.index >= len(record) {
			return 0, t.problem(0, "the %s is missing in this row", c.what).hinted(logHint)
		}
	}
	v, problem := t.number(record, &t.time)
	if problem != nil {
		return 0, problem
	}
	at = v * t.time.factor
	if !(math.Abs(at) <= longest) {
		return 0, t.problem(t.time.index, "a log lasts at most a year")
	}
	return at, nil
}

// value reads the number of a column in SI.
func (t *logTable) value(record []string, c *column) (float64, *Problem) {
	if c.index >= len(record) {
		return 0, t.problem(0, "the %s is missing in this row", c.what).hinted(logHint)
	}
	v, problem := t.number(record, c)
	if problem != nil {
		return 0, problem
	}
	v = v*c.factor + c.offset
	if v >= c.kind.least && v <= c.kind.most {
		return v, nil
	}
	p := t.problem(c.index, "the %s must be %s; it is %s", c.what, c.kind.bounds, quantity.Format(c.kind.kind, v, c.unit, 0))
	switch {
	case c.kind.kind == quantity.Temperature:
	case v < 0:
		p.hinted(oneWay + ". In a log of both write 0 for what flows back")
	default:
		p.hinted("check that the column's unit is the one that its name says")
	}
	return 0, p
}

func (t *logTable) number(record []string, c *column) (float64, *Problem) {
	text := strings.TrimSpace(record[c.index])
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case text == "":
		return 0, t.problem(c.index, "the %s is missing here", c.what).hinted("leave out rows without a value; a straight line takes their place")
	case err == nil && !math.IsNaN(v) && !math.IsInf(v, 0):
		return v, nil
	}
	p := t.problem(c.index, "%q is no number for the %s", text, c.what)
	switch {
	case strings.Contains(text, ","):
		p.hinted(pointsHint)
	case c == &t.time:
		p.hinted("times are numbers of the unit that the first row names, counted from any beginning")
	default:
		p.hinted(logHint)
	}
	return 0, p
}

const pointsHint = `commas part the columns of a log and points the decimals: "0.5,140"`

// hinted adds a hint.
func (p *Problem) hinted(text string) *Problem {
	*p = p.hint("%s", text)
	return p
}

// problem is about a column of the row that was read last.
func (t *logTable) problem(column int, format string, args ...any) *Problem {
	line, at := t.reader.FieldPos(column)
	// The CSV reader counts bytes, messages count characters.
	if line >= 1 && line <= len(t.file.lines) {
		text := t.file.lines[line-1]
		at = len([]rune(text[:min(at-1, len(text))])) + 1
	}
	p := t.file.problemAt(Pos{Line: line, Column: at}, "%s", fmt.Sprintf(format, args...))
	return &p
}

// wrong tells an error of a unit.
func (t *logTable) wrong(column int, err error) *Problem {
	p := t.problem(column, "")
	at := Pos{Line: p.Line, Column: p.Column}
	*p = t.file.quantityProblem(at, err)
	return p
}

// broken tells that a row is no CSV.
func (t *logTable) broken(err error) *Problem {
	var parse *csv.ParseError
	at := Pos{Line: 1}
	if errors.As(err, &parse) {
		at = Pos{Line: parse.Line, Column: parse.Column}
	}
	p := t.file.problemAt(at, "this row cannot be read: a quotation mark stands where none belongs").hint("%s", logHint)
	return &p
}
