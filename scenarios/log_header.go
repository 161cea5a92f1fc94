package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"clampheat/scenarios/quantity"
)

// This file finds out which column of a log is what. A wrong column read in
// silence would be a wrong answer that nobody sees: each column that is read has
// its unit, and one that is not read is told.

// column is one column of a log.
type column struct {
	has    bool
	index  int
	name   string // as written
	what   string // it holds, in a message
	kind   timed  // of the load and of the air
	unit   string // as outputs write it
	factor float64
	offset float64
}

// role is what a column may be.
type role struct {
	what  string
	names []string // words of a column's name that say so
	kind  quantity.Kind
}

var (
	roleTime    = role{"time", []string{"time", "t", "elapsed"}, quantity.Time}
	roleCurrent = role{"current", []string{"current", "i"}, quantity.Current}
	rolePower   = role{"power", []string{"power", "p"}, quantity.Power}
	roleAir     = role{"temperature of the air", []string{"air", "ambient"}, quantity.Temperature}
)

// header reads the names of the columns: "time (min)", "current [A]",
// "battery_A", and says which is which.
func (t *logTable) header(record []string) *Problem {
	if line := strings.Join(record, ","); strings.ContainsAny(line, ";\t") && (len(record) == 1 || startsWithNumber(record[0])) {
		sign := "semicolons"
		if !strings.Contains(line, ";") {
			sign = "tabs"
		}
		return t.problem(0, "the columns of this log are parted by %s", sign).hinted(pointsHint)
	}
	if startsWithNumber(record[0]) {
		return t.problem(0, "the first row of this log does not name its columns").hinted(logHint)
	}
	if len(record) < 2 {
		return t.problem(0, "a log has two columns at least").hinted(logHint)
	}
	t.columns = len(record)
	names := make([]heading, len(record))
	for i, text := range record {
		names[i] = headingOf(text)
	}
	var problem *Problem
	if t.time, problem = t.choose(names, roleTime); problem != nil {
		return problem
	}
	if t.load, problem = t.choose(names, roleCurrent, rolePower); problem != nil {
		return problem
	}
	if t.load.kind = currents; t.load.what == rolePower.what {
		t.load.kind = powers
	}
	if t.wantsAir {
		if t.air, problem = t.choose(names, roleAir); problem != nil {
			return problem
		}
		t.air.kind = airs()
	}
	t.unused(names)
	return nil
}

// heading is the name of a column taken apart.
type heading struct {
	text  string
	words []string // of the name without its unit, in small letters
	unit  string   // "" where there is none
	// bracketed: what stands in brackets is a unit, whether it is known or not.
	bracketed bool
}

// headingOf takes "time [min]", "current_A", "air (°F)" or "A" apart.
func headingOf(text string) heading {
	text = strings.TrimSpace(text)
	h := heading{text: text}
	name := text
	if begin, end := strings.IndexAny(text, "(["), strings.LastIndexAny(text, ")]"); begin >= 0 && end > begin {
		name, h.unit, h.bracketed = text[:begin], strings.TrimSpace(text[begin+1:end]), true
	} else if cut := strings.LastIndexAny(text, "_/ "); isUnit(text[cut+1:]) {
		name, h.unit = text[:cut+1], text[cut+1:]
	}
	h.words = strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return !unicode.IsLetter(c) })
	return h
}

func isUnit(text string) bool {
	return slices.ContainsFunc(quantity.Kinds(), func(k quantity.Kind) bool { return isUnitOf(k, text) })
}

func isUnitOf(kind quantity.Kind, text string) bool {
	_, err := quantity.Parse(kind, "1 "+text)
	return err == nil
}

// fits says how well a heading fits a role: 0 not at all, 1 by its unit, 2 by its
// name, 3 by both. Any temperature may be that of the air only by its name.
func (h heading) fits(r role) (rank int) {
	if slices.ContainsFunc(h.words, func(w string) bool { return slices.Contains(r.names, w) }) {
		rank = 2
	}
	if h.unit != "" && isUnitOf(r.kind, h.unit) && (rank > 0 || r.kind != quantity.Temperature) {
		rank++
	}
	return rank
}

// choose finds the column that fits one of some roles best.
func (t *logTable) choose(names []heading, roles ...role) (out column, problem *Problem) {
	best, at := 0, -1
	var as role
	second := -1 // another that fits as well
	for i, h := range names {
		for _, r := range roles {
			switch rank := h.fits(r); {
			case rank > best:
				best, at, as, second = rank, i, r, -1
			case rank == best && rank > 0 && i != at && second < 0:
				second = i
			}
		}
	}
	var whats []string
	for _, r := range roles {
		whats = append(whats, r.what)
	}
	what := strings.Join(whats, " or a ")
	switch {
	case at < 0 && roles[0].kind == roleAir.kind:
		return out, nil // told where the file asks for it
	case at < 0:
		return out, t.problem(0, "no column of this log is a %s", what).hinted(logHint)
	case second >= 0:
		a, b := names[at].text, names[second].text
		p := t.problem(second, "two columns may be the %s: %q and %q", strings.Join(whats, " or the "), a, b)
		if best < 2 {
			return out, p.hinted(fmt.Sprintf("call the one that is meant %q, for example %q", as.what, as.what+" ["+names[at].unit+"]"))
		}
		return out, p.hinted("leave one of them out of the log")
	}
	h := names[at]
	if h.unit == "" {
		unit := quantity.Units(as.kind)[0]
		return out, t.problem(at, "the column %q has no unit", h.text).hinted(fmt.Sprintf("write it behind the name, for example %q or %q", h.text+"_"+unit, h.text+" ["+unit+"]"))
	}
	one, err := quantity.Parse(as.kind, "1 "+h.unit)
	if err != nil {
		return out, t.wrong(at, err)
	}
	zero, err := quantity.Parse(as.kind, "0 "+h.unit)
	if err != nil {
		return out, t.wrong(at, err)
	}
	return column{has: true, index: at, name: h.text, what: as.what, unit: one.Unit, factor: one.SI - zero.SI, offset: zero.SI}, nil
}

// unused warns of columns that are not read.
func (t *logTable) unused(names []heading) {
	var left []string
	first, air := -1, false
	for i, h := range names {
		if i == t.time.index || i == t.load.index || t.air.has && i == t.air.index || h.text == "" {
			continue
		}
		if first < 0 {
			first = i
		}
		left = append(left, fmt.Sprintf("%q", h.text))
		air = air || h.fits(roleAir) > 0
	}
	if first < 0 {
		return
	}
	is := "this column of the log is not used: "
	if len(left) > 1 {
		is = "these columns of the log are not used: "
	}
	p := t.problem(first, "%s", is+strings.Join(left, ", "))
	p.Kind = Warning
	if air && !t.wantsAir {
		p.hinted("to take the air's temperature from the log write \"air: " + fromLog + "\"")
	}
	t.warnings = append(t.warnings, *p)
}

func startsWithNumber(text string) bool {
	text = strings.TrimSpace(text)
	return text != "" && strings.ContainsRune("0123456789.+-−", []rune(text)[0])
}
