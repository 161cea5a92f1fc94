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
// power. A logger samples what runs on between its rows, so that straight lines
// join them; a step shows as a line between the rows around it.

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

const logHint = `rows are "time,current", for example "60,140"; a first row may name them: "time (min),current (A)"`

// log reads the name of a log and the log itself.
func (r *reader) log(n *node) Log {
	name, ok := r.text(n)
	if !ok {
		return Log{}
	}
	if r.file.files == nil {
		r.mistake(n.pos, "the log %q cannot be opened from here", name).hint("a scenario from a file or an example can have a log beside it; else write the steps as a list")
		return Log{}
	}
	data, err := r.file.files(name)
	switch {
	case errors.Is(err, errOutside):
		r.mistake(n.pos, "the log %q does not stand beside the scenario", name).hint("put it into the same folder, or one below it")
		return Log{}
	case err != nil:
		r.mistake(n.pos, "the log %q cannot be opened", name).hint("it is looked for in the folder of the scenario: %s", reason(err))
		return Log{}
	case len(data) > mostLogBytes:
		r.mistake(n.pos, "the log %q is larger than 16 MB", name)
		return Log{}
	}
	table := logTable{file: &File{Name: beside(r.file.Name, name), lines: splitLines(string(bytes.TrimPrefix(data, []byte("\ufeff"))))}}
	supply, problem := table.read()
	if problem != nil {
		r.note(*problem)
		return Log{}
	}
	supply.Pos = n.pos
	return Log{Supply: r.flowing(supply, logHint), Name: name}
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
	file   *File
	reader *csv.Reader
	// of the columns, 1 in SI
	second, amount float64
	kind           timed
	unit           string
}

// sample is one row.
type sample struct{ at, value float64 } // s, A or W

// read reads the rows and makes straight lines of them.
func (t *logTable) read() (Supply, *Problem) {
	t.reader = csv.NewReader(strings.NewReader(strings.Join(t.file.lines, "\n")))
	t.reader.FieldsPerRecord = -1
	t.reader.ReuseRecord = true
	t.reader.TrimLeadingSpace = true
	t.reader.Comment = '#'
	t.second, t.amount, t.kind, t.unit = 1, 1, currents, "A"
	var rows []sample
	for first := true; ; first = false {
		record, err := t.reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Supply{}, t.broken(err)
		}
		if first && !startsWithNumber(record[0]) {
			if problem := t.header(record); problem != nil {
				return Supply{}, problem
			}
			continue
		}
		row, problem := t.row(record)
		if problem != nil {
			return Supply{}, problem
		}
		if len(rows) > 0 && !(row.at > rows[len(rows)-1].at) {
			return Supply{}, t.problem(0, "this row is not later than the one before it").hinted("times rise from row to row; for a step write two rows a little apart")
		}
		if len(rows) == mostRows {
			return Supply{}, t.problem(0, "the log has more than %d rows", mostRows).hinted("keep every second row, or those where the current changes")
		}
		rows = append(rows, row)
	}
	if len(rows) < 2 {
		p := t.file.problemAt(Pos{Line: 1}, "a log needs two rows at least").hint("%s", logHint)
		return Supply{}, &p
	}
	return t.supply(straight(rows)), nil
}

// supply joins the rows by ramps; after the last its value stays.
func (t *logTable) supply(rows []sample) Supply {
	out := Supply{Kind: t.kind.kind, Unit: t.unit, Set: true, Steps: make([]Step, 0, len(rows))}
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

// header reads the names of the columns: "time (min)", "current [A]".
func (t *logTable) header(record []string) *Problem {
	if len(record) < 2 {
		return t.problem(0, "a log has two columns").hinted(logHint)
	}
	if text, given := inBrackets(record[0]); given {
		v, err := quantity.Parse(quantity.Time, "1 "+text)
		if err != nil {
			return t.wrong(0, err)
		}
		t.second = v.SI
	}
	text, given := inBrackets(record[1])
	if !given {
		if strings.Contains(strings.ToLower(record[1]), "power") {
			t.kind, t.unit = powers, "W"
		}
		return nil
	}
	v, err := quantity.Parse(quantity.Current, "1 "+text)
	if watts, other := quantity.Parse(quantity.Power, "1 "+text); other == nil {
		t.kind, v, err = powers, watts, nil
	}
	if err != nil {
		return t.wrong(1, err)
	}
	t.amount, t.unit = v.SI, v.Unit
	return nil
}

// inBrackets is the unit in the name of a column.
func inBrackets(name string) (unit string, given bool) {
	begin := strings.IndexAny(name, "([")
	end := strings.LastIndexAny(name, ")]")
	if begin < 0 || end <= begin {
		return "", false
	}
	return strings.TrimSpace(name[begin+1 : end]), true
}

func startsWithNumber(text string) bool {
	text = strings.TrimSpace(text)
	return text != "" && strings.ContainsRune("0123456789.+-−", []rune(text)[0])
}

// row reads the two numbers of a row.
func (t *logTable) row(record []string) (sample, *Problem) {
	if len(record) < 2 {
		return sample{}, t.problem(0, "this row has one column").hinted(logHint)
	}
	at, problem := t.number(record, 0, "time")
	if problem != nil {
		return sample{}, problem
	}
	value, problem := t.number(record, 1, t.kind.what)
	if problem != nil {
		return sample{}, problem
	}
	row := sample{at * t.second, value * t.amount}
	switch {
	case !(math.Abs(row.at) <= longest):
		return sample{}, t.problem(0, "a log lasts at most a year")
	case !(row.value >= t.kind.least && row.value <= t.kind.most):
		return sample{}, t.problem(1, "the %s must be %s; it is %s", t.kind.what, t.kind.bounds, quantity.Format(t.kind.kind, row.value, t.unit, 0)).
			hinted("a stack is computed for one direction of the current; leave out what flows back")
	}
	return row, nil
}

func (t *logTable) number(record []string, column int, what string) (float64, *Problem) {
	text := strings.TrimSpace(record[column])
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case text == "":
		return 0, t.problem(column, "the %s is missing here", what).hinted("leave out rows without a value; a straight line takes their place")
	case err != nil || math.IsNaN(v) || math.IsInf(v, 0):
		return 0, t.problem(column, "%q is no number for the %s", text, what).hinted(logHint)
	}
	return v, nil
}

// hintable is a problem that a hint can be added to.
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
