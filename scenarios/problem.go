package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// This file is how mistakes of a scenario file are told: each with its place,
// the line, what is allowed there and a hint; all of one file together.

// ProblemKind is the weight of a problem.
type ProblemKind string

const (
	// Mistake keeps the file from being used.
	Mistake ProblemKind = "error"
	// Warning is odd, but may be meant.
	Warning ProblemKind = "warning"
)

// Problem is one mistake or warning about a place in a file.
type Problem struct {
	File         string
	Line, Column int // from 1, in characters
	Length       int // in characters, at least 1
	Kind         ProblemKind
	Message      string
	Allowed      []string // what may stand there; nil where a list says nothing
	Hint         string   // what to do; "" for none
	LineText     string   // the line of the file
}

// textWidth is the room that a line of the file has in a message, in
// characters; longer lines are shown in part.
const textWidth = 84

// Error writes the problem as file:line:column, the message, the line with a
// mark under the place, what is allowed and the hint.
func (p Problem) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: ", p.File, p.Line, p.Column)
	if p.Kind == Warning {
		b.WriteString("warning: ")
	}
	b.WriteString(p.Message)
	if p.LineText != "" {
		text, column := window([]rune(p.LineText), p.Column)
		length := max(1, min(p.Length, len(text)-column+1))
		fmt.Fprintf(&b, "\n%5d | %s", p.Line, string(text))
		fmt.Fprintf(&b, "\n      | %s%s", strings.Repeat(" ", column-1), strings.Repeat("^", length))
	}
	if len(p.Allowed) > 0 {
		b.WriteString(wrapped("allowed: ", p.Allowed, ","))
	}
	if p.Hint != "" {
		b.WriteString(wrapped("hint: ", strings.Fields(p.Hint), ""))
	}
	return b.String()
}

// window cuts a long line to the part around a column and makes it safe to
// print: a tab, which would move the mark, and other control characters become
// one blank each.
func window(line []rune, column int) (part []rune, at int) {
	column = max(1, column)
	from := 0
	if len(line) > textWidth {
		from = max(0, min(column-1-textWidth/2, len(line)-textWidth))
	}
	part = slices.Clone(line[from:min(len(line), from+textWidth)])
	for i, r := range part {
		if !unicode.IsPrint(r) {
			part[i] = ' '
		}
	}
	if from > 0 {
		part[0] = '…'
	}
	if from+textWidth < len(line) {
		part[len(part)-1] = '…'
	}
	return part, column - from
}

// wrapped writes words after a head, parted by a sign and a blank, and broken
// into lines.
func wrapped(head string, words []string, sign string) string {
	const indent, width = "        ", 96
	var b strings.Builder
	line := indent + head
	for i, word := range words {
		if i < len(words)-1 {
			word += sign
		}
		if len([]rune(line))+len([]rune(word)) > width {
			b.WriteString("\n" + strings.TrimRight(line, " "))
			line = indent + strings.Repeat(" ", len(head))
		}
		line += word + " "
	}
	b.WriteString("\n" + strings.TrimRight(line, " "))
	return b.String()
}

// allow adds what may stand at the place.
func (p Problem) allow(words ...string) Problem {
	p.Allowed = words
	return p
}

// hint adds what to do.
func (p Problem) hint(format string, args ...any) Problem {
	p.Hint = fmt.Sprintf(format, args...)
	return p
}

// Problems are all mistakes of a file, in the order of their places.
type Problems struct{ List []Problem }

// Error writes one problem after the other.
func (p *Problems) Error() string {
	texts := make([]string, len(p.List))
	for i, problem := range p.List {
		texts[i] = problem.Error()
	}
	return strings.Join(texts, "\n")
}

// Unwrap lets errors.As find a Problem.
func (p *Problems) Unwrap() []error {
	errs := make([]error, len(p.List))
	for i, problem := range p.List {
		errs[i] = problem
	}
	return errs
}

// problemAt makes a mistake about a place in the file.
func (f *File) problemAt(pos Pos, format string, args ...any) Problem {
	return f.tell(Mistake, pos, fmt.Sprintf(format, args...))
}

// warningAt makes a warning about a place in the file.
func (f *File) warningAt(pos Pos, format string, args ...any) Problem {
	return f.tell(Warning, pos, fmt.Sprintf(format, args...))
}

// tell places a message; a place outside the file moves to its nearest edge.
func (f *File) tell(kind ProblemKind, pos Pos, message string) Problem {
	p := Problem{File: f.Name, Kind: kind, Message: message, Line: max(1, pos.Line), Column: max(1, pos.Column), Length: max(1, pos.Length)}
	if len(f.lines) == 0 {
		p.Line, p.Column, p.Length = 1, 1, 1
		return p
	}
	p.Line = min(p.Line, len(f.lines))
	p.LineText = f.lines[p.Line-1]
	width := len([]rune(p.LineText))
	p.Column = min(p.Column, width+1)
	p.Length = max(1, min(p.Length, width-p.Column+1))
	return p
}

// sortOut sorts problems by place, drops those said twice, and parts mistakes
// from warnings.
func sortOut(all []Problem) (mistakes, warnings []Problem) {
	slices.SortStableFunc(all, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Message, b.Message))
	})
	for i, p := range all {
		if i > 0 && p.Line == all[i-1].Line && p.Column == all[i-1].Column && p.Message == all[i-1].Message {
			continue
		}
		if p.Kind == Warning {
			warnings = append(warnings, p)
		} else {
			mistakes = append(mistakes, p)
		}
	}
	return mistakes, warnings
}

// mostProblems is how many mistakes of one file are worth reading.
const mostProblems = 100

// asError returns the mistakes as an error, nil where there is none.
func asError(mistakes []Problem) error {
	if len(mistakes) == 0 {
		return nil
	}
	if extra := len(mistakes) - mostProblems; extra > 0 {
		mistakes = mistakes[:mostProblems]
		last := &mistakes[mostProblems-1]
		last.Hint = strings.TrimPrefix(last.Hint+fmt.Sprintf("; %d more mistakes follow", extra), "; ")
	}
	return &Problems{List: mistakes}
}
