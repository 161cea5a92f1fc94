package study

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"clampheat/scenarios"
)

// MeasuredLog is a log of thermocouples: one column of times and a column a
// place. It is read from CSV whose first row names each column with its unit,
// as "time_s", "time [min]", "lug_C" or "fuse 300 A, nut side [°F]". A blank
// cell is a gap. Columns of the current and of the air are passed over.
type MeasuredLog struct {
	File     string
	Times    []float64 // s, rising
	Channels []Channel
	// Ignored are the headers of the columns that loggers write besides and that
	// no place of the stack answers to: the current and the air.
	Ignored []string
}

// Channel is one column: temperatures in K, NaN in a gap.
type Channel struct {
	Name, Header string
	Temps        []float64
	column       int
}

// header takes a column's name and unit apart.
var header = regexp.MustCompile(`^\s*(.*?)[\s_]*[\[(]?\s*(°?[CcFfKk]|s|sec|min|h)\s*[\])]?\s*$`)

// currentHeader is a column of the current, "current_A".
var currentHeader = regexp.MustCompile(`^\s*(?i:current)[\s_]*[\[(]?\s*A\s*[\])]?\s*$`)

// airColumn is the name of a column of the air's temperature.
const airColumn = "air"

// coldest and warmest, K, bound what a log can mean: a figure beyond them, −100
// °C and 1000 °C, is an open thermocouple or of another unit.
const (
	leastLogged = celsius - 100
	mostLogged  = celsius + 1000
	logSlack    = 1e-9 // K, rounding of the conversion
)

var seconds = map[string]float64{"s": 1, "sec": 1, "min": 60, "h": 3600}

// ReadMeasured reads a log. Its error is *scenarios.Problems, with every
// complaint of the file.
func ReadMeasured(name string, r io.Reader) (*MeasuredLog, error) {
	c := csv.NewReader(r)
	c.TrimLeadingSpace = true
	c.Comment = '#'
	c.FieldsPerRecord = -1
	var complaints scenarios.Problems
	complain := func(line, column int, hint, format string, a ...any) {
		complaints.List = append(complaints.List, scenarios.Problem{
			File: name, Line: line, Column: column, Message: fmt.Sprintf(format, a...), Hint: hint})
	}

	head, err := c.Read()
	if err != nil {
		complain(1, 1, `write for example: time_s,lug_C`, "the log has no row that names its columns")
		return nil, &complaints
	}
	if len(head) == 1 && strings.Contains(head[0], ";") {
		complain(1, 1, "write commas between the columns, and points in the numbers", "the columns are separated by semicolons")
		return nil, &complaints
	}
	log := &MeasuredLog{File: name}
	scale, clock := 0.0, -1
	units := make([]string, len(head))
	for i, text := range head {
		line, column := c.FieldPos(i)
		text = strings.TrimPrefix(text, "\ufeff")
		if currentHeader.MatchString(text) {
			log.Ignored = append(log.Ignored, text)
			continue
		}
		m := header.FindStringSubmatch(text)
		if m == nil {
			complain(line, column, `write for example "time_s" or "lug_C"`, "the column %q names no unit", text)
			continue
		}
		unit := strings.ToUpper(strings.TrimPrefix(m[2], "°"))
		if s, ok := seconds[strings.ToLower(m[2])]; ok {
			if clock >= 0 {
				complain(line, column, "", "the column %q is a second one of times", text)
			}
			scale, clock = s, i
			continue
		}
		name := plain(m[1])
		if name == airColumn {
			log.Ignored = append(log.Ignored, text)
			continue
		}
		if earlier := slices.IndexFunc(log.Channels, func(c Channel) bool { return plain(c.Name) == name }); earlier >= 0 {
			complain(line, column, "leave one of them out", "the column %q is of the same place as %q", text, log.Channels[earlier].Header)
			continue
		}
		units[i] = unit
		log.Channels = append(log.Channels, Channel{Name: strings.TrimSpace(m[1]), Header: text, column: i})
	}
	if clock < 0 && len(complaints.List) == 0 {
		complain(1, 1, `name it "time_s" or "time_min"`, "the log has no column of times")
	}
	if len(log.Channels) == 0 && len(complaints.List) == 0 {
		complain(1, 1, `name one for example "lug_C"`, "the log has no column of temperatures")
	}
	if len(complaints.List) > 0 {
		return nil, &complaints
	}

	for {
		row, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			line := 1
			var parse *csv.ParseError
			if errors.As(err, &parse) {
				line = parse.Line
			}
			complain(line, 1, "", "the row cannot be read: %v", errors.Unwrap(err))
			break
		}
		number := func(i int) (float64, bool) {
			if i >= len(row) || strings.TrimSpace(row[i]) == "" {
				return math.NaN(), true
			}
			v, err := strconv.ParseFloat(strings.TrimSpace(row[i]), 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				line, column := c.FieldPos(i)
				complain(line, column, "", "%q is not a number", row[i])
				return 0, false
			}
			return v, true
		}
		t, ok := number(clock)
		if !ok {
			continue
		}
		line, _ := c.FieldPos(0)
		if t *= scale; math.IsNaN(t) || (len(log.Times) > 0 && t <= log.Times[len(log.Times)-1]) {
			complain(line, 1, "", "the times must rise from row to row")
			continue
		}
		log.Times = append(log.Times, t)
		for k := range log.Channels {
			ch := &log.Channels[k]
			v, ok := number(ch.column)
			if !ok {
				v = math.NaN()
			}
			kelvins := kelvin(v, units[ch.column])
			if kelvins < leastLogged-logSlack || kelvins > mostLogged+logSlack {
				line, column := c.FieldPos(ch.column)
				complain(line, column, "leave the cell empty where the reading failed, and see that the column has its right unit",
					"%s in the column %q is no temperature from −100 °C to 1000 °C", strings.TrimSpace(row[ch.column]), ch.Header)
			}
			ch.Temps = append(ch.Temps, kelvins)
		}
	}
	if len(log.Times) == 0 && len(complaints.List) == 0 {
		complain(2, 1, "", "the log has no readings")
	}
	if len(complaints.List) > 0 {
		return nil, &complaints
	}
	return log, nil
}

func kelvin(v float64, unit string) float64 {
	switch unit {
	case "C":
		return v + celsius
	case "F":
		return (v-32)/1.8 + celsius
	}
	return v
}

// plain brings the names of columns and places to one form.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !('a' <= r && r <= 'z' || '0' <= r && r <= '9')
	}), "_")
}

// compare holds the channels of a log against the series of a soak.
func (log *MeasuredLog) compare(s *Soak, at func(series int, t float64) (float64, bool)) ([]Difference, error) {
	var differences []Difference
	var complaints scenarios.Problems
	for _, ch := range log.Channels {
		place := -1
		names := make([]string, len(s.Series))
		for i, series := range s.Series {
			names[i] = plain(series.Name)
			if names[i] == plain(ch.Name) {
				place = i
			}
		}
		if place < 0 {
			complaints.List = append(complaints.List, scenarios.Problem{File: log.File, Line: 1, Column: 1,
				Message: fmt.Sprintf("the column %q names no place of the stack", ch.Header),
				Hint:    "the places are: " + strings.Join(names, ", ")})
			continue
		}
		d := Difference{Channel: ch.Header, Place: s.Series[place].Name}
		n, sum, squares := 0.0, 0.0, 0.0
		for k, t := range log.Times {
			predicted, ok := at(place, t)
			if !ok || math.IsNaN(ch.Temps[k]) {
				continue
			}
			diff := predicted - ch.Temps[k]
			n, sum, squares = n+1, sum+diff, squares+diff*diff
			if math.Abs(diff) > math.Abs(d.Largest) {
				d.Largest, d.At = diff, t
			}
			d.Times = append(d.Times, t)
			d.Temps = append(d.Temps, temp(ch.Temps[k]))
		}
		if n == 0 {
			complaints.List = append(complaints.List, scenarios.Problem{File: log.File, Line: 1, Column: 1,
				Message: fmt.Sprintf("the column %q has no reading within the %.0f s of the soak", ch.Header, s.Until)})
			continue
		}
		d.Mean, d.Rms = sum/n, math.Sqrt(squares/n)
		differences = append(differences, d)
	}
	if len(complaints.List) > 0 {
		return nil, &complaints
	}
	return differences, nil
}
