package scenarios

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

// This file is the only one that knows the YAML library. It turns bytes into a
// tree of plain nodes with places, and the library's complaints into ours.
// Anchors, aliases, merge keys and tags are refused: a scenario says each
// thing where it belongs.

// shape is what a node is.
type shape int

const (
	scalar shape = iota
	mapping
	list
)

// node is a value of the file: the text of a scalar as written, whatever YAML
// would make of it; the pairs of a mapping; the items of a list.
type node struct {
	shape shape
	text  string
	empty bool // nothing stands there
	told  bool // what stands there has been refused already
	pairs []pair
	items []*node
	pos   Pos
}

type pair struct{ key, value *node }

const (
	mostBytes = 1 << 20
	mostWidth = 1000 // characters of a line
	mostDepth = 20
)

// decode reads the one document of data. The root is nil where there is
// nothing to go on with.
func (f *File) decode(data []byte) (root *node, problems []Problem) {
	if len(data) > mostBytes {
		return nil, []Problem{f.problemAt(Pos{}, "the file is larger than 1 MB; a scenario has a few kB")}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // Windows editors put it there
	f.lines = splitLines(string(data))
	if problems = f.checkText(data); len(problems) > 0 {
		return nil, problems
	}
	loader, err := yaml.NewLoader(bytes.NewReader(data))
	if err != nil {
		return nil, []Problem{f.syntaxProblem(err)}
	}
	var document, second yaml.Node
	switch err := loader.Load(&document); {
	case errors.Is(err, io.EOF):
		return nil, []Problem{f.problemAt(Pos{}, "the file is empty").hint(`a scenario has at least "current", "air" and "path"`)}
	case err != nil:
		return nil, []Problem{f.syntaxProblem(err)}
	}
	switch err := loader.Load(&second); {
	case errors.Is(err, io.EOF):
	case err != nil:
		problems = append(problems, f.syntaxProblem(err))
	default:
		problems = append(problems, f.problemAt(Pos{Line: second.Line, Column: second.Column, Length: 3},
			"a second document begins here; a file holds one scenario").hint("put each scenario into a file of its own"))
	}
	if len(document.Content) != 1 {
		return nil, problems
	}
	c := converter{file: f, problems: problems}
	root = c.convert(document.Content[0], 0)
	return root, c.problems
}

// checkText finds what keeps the text from being read at all: bytes that are
// no UTF-8, control characters, and tabs that indent.
func (f *File) checkText(data []byte) (problems []Problem) {
	if !utf8.Valid(data) {
		for i, line := range f.lines {
			if column := strings.IndexRune(strings.ToValidUTF8(line, "\ufffd"), utf8.RuneError); column >= 0 && !utf8.ValidString(line) {
				f.lines[i] = strings.ToValidUTF8(line, "\ufffd")
				at := Pos{Line: i + 1, Column: len([]rune(f.lines[i][:column])) + 1, Length: 1}
				problems = append(problems, f.problemAt(at, "this character is not UTF-8").hint("save the file as UTF-8; signs such as µ, Ω and ° may also be typed u, ohm and deg"))
			}
		}
		return problems
	}
	for i, line := range f.lines {
		text := []rune(line)
		if len(text) > mostWidth {
			f.lines[i] = string(text[:mostWidth])
			problems = append(problems, f.problemAt(Pos{Line: i + 1, Column: mostWidth, Length: 1}, "a line is longer than %d characters", mostWidth))
			continue
		}
		indent := len(text) - len([]rune(strings.TrimLeft(line, " \t")))
		blank := strings.TrimSpace(line) == "" || strings.HasPrefix(strings.TrimSpace(line), "#")
		for j, r := range text {
			switch {
			case r == '\t' && j < indent && !blank:
				problems = append(problems, f.problemAt(Pos{Line: i + 1, Column: j + 1, Length: 1}, "a tab cannot indent here").hint("use blanks, two for each step; most editors can turn tabs into blanks"))
			case r != '\t' && unicode.IsControl(r):
				problems = append(problems, f.problemAt(Pos{Line: i + 1, Column: j + 1, Length: 1}, "a control character (U+%04X) cannot stand here", r).hint("delete it"))
			default:
				continue
			}
			break
		}
	}
	return problems
}

// splitLines cuts text where YAML counts a new line.
func splitLines(text string) []string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n").Replace(text)
	return strings.Split(strings.TrimSuffix(text, "\n"), "\n")
}

// syntaxProblem says in our words where the layout of the file is broken.
func (f *File) syntaxProblem(err error) Problem {
	var broken *yaml.LoadError
	if !errors.As(err, &broken) {
		return f.problemAt(Pos{}, "the layout of this file cannot be read")
	}
	at := Pos{Line: broken.Mark.Line, Column: broken.Mark.Column, Length: 1}
	from := Pos{Line: broken.ContextMark.Line, Column: broken.ContextMark.Column, Length: 1}
	text := broken.Message
	switch {
	case strings.Contains(text, "mapping values are not allowed"), strings.Contains(text, "could not find expected ':'"):
		return f.colonProblem(at)
	case strings.Contains(text, "cannot start any token"):
		return f.problemAt(at, "a value cannot begin with this character").hint("put the value in quotes")
	case strings.Contains(text, "',' or ']'"):
		return f.problemAt(from, `this "[" is not closed`).hint(`write "]" at the end of the list, and commas between its entries`)
	case strings.Contains(text, "',' or '}'"):
		return f.problemAt(from, `this "{" is not closed`).hint(`write "}" at the end, and commas between the entries`)
	case strings.Contains(text, "unexpected end of stream"), strings.Contains(text, "unexpected document indicator"):
		return f.problemAt(from, "this quotation mark is not closed")
	case strings.Contains(text, "expected '-' indicator"):
		return f.problemAt(at, "this line does not fit the list above").hint(`a new entry begins with "- "; the keys of one entry stand exactly below each other`)
	case strings.Contains(text, "expected key"):
		return f.problemAt(at, "this does not fit the lines around it").hint("the keys of one part stand exactly below each other; nothing may follow a closing quotation mark")
	case strings.Contains(text, "unknown escape"):
		return f.problemAt(at, `a backslash means something else between "…"`).hint("use single quotes: '…'")
	case strings.Contains(text, "unknown anchor"):
		return f.problemAt(at, refusedAlias).hint(repeatHint)
	}
	return f.problemAt(at, "the layout cannot be read from here on").hint("compare indent, colons and quotation marks with an example: clampheat new --list")
}

// colonProblem finds the likely cause where YAML stumbles over a colon, or
// over a line without one: the cause is often in the line above.
func (f *File) colonProblem(at Pos) Problem {
	const colonHint = `write "key: value", with a blank after the colon`
	last := min(at.Line, len(f.lines))
	for n := last; n >= max(1, last-1); n-- {
		if place := tightColon.FindStringIndex(f.lines[n-1]); place != nil {
			column := len([]rune(f.lines[n-1][:place[1]])) - 1
			return f.problemAt(Pos{Line: n, Column: column, Length: 1}, "a blank is missing after this colon").hint(colonHint)
		}
	}
	if last >= 2 {
		above, here := keyColumn(f.lines[last-2]), keyColumn(f.lines[last-1])
		if above > 0 && here > above {
			return f.problemAt(Pos{Line: last, Column: here, Length: 1}, "this line is indented deeper than the line above, which has a value already").hint("the keys of one part stand exactly below each other")
		}
	}
	return f.problemAt(at, `a ":" is missing before this place, or cannot stand here`).hint(colonHint + "; a text with a colon needs quotes")
}

// tightColon is a key whose colon is followed by its value at once.
var tightColon = regexp.MustCompile(`^\s*(?:- +)?[A-Za-z][A-Za-z -]*:[^\s:/]`)

// keyColumn is where the key of a line begins, behind the mark of a list; 0
// for a line without one.
func keyColumn(line string) int {
	rest := strings.TrimLeft(line, " ")
	rest = strings.TrimLeft(strings.TrimPrefix(rest, "- "), " ")
	if rest == "" || rest[0] == '#' {
		return 0
	}
	return len(line) - len(rest) + 1
}

const (
	refusedAlias = `a reference ("*name") cannot be used here`
	repeatHint   = "write the value out where it belongs"
)

// converter turns the library's nodes into ours.
type converter struct {
	file     *File
	problems []Problem
}

func (c *converter) refuse(pos Pos, format string, args ...any) {
	c.problems = append(c.problems, c.file.problemAt(pos, format, args...).hint(repeatHint))
}

func (c *converter) convert(n *yaml.Node, depth int) *node {
	out := &node{pos: Pos{Line: n.Line, Column: n.Column, Length: 1}}
	if depth > mostDepth {
		out.empty, out.told = true, true
		c.problems = append(c.problems, c.file.problemAt(out.pos, "lists and entries are nested too deep here"))
		return out
	}
	if n.Anchor != "" {
		c.refuse(out.pos, `a mark for reuse ("&%s") cannot be used here`, n.Anchor)
	}
	if n.Style&yaml.TaggedStyle != 0 {
		c.refuse(out.pos, `a tag ("%s") cannot be used here`, n.Tag)
	}
	switch n.Kind {
	case yaml.AliasNode:
		c.refuse(out.pos, refusedAlias)
		out.empty, out.told = true, true
	case yaml.MappingNode:
		out.shape = mapping
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := c.convert(n.Content[i], depth+1)
			value := c.convert(n.Content[i+1], depth+1)
			out.pairs = append(out.pairs, pair{key, value})
		}
	case yaml.SequenceNode:
		out.shape = list
		for _, item := range n.Content {
			out.items = append(out.items, c.convert(item, depth+1))
		}
	default:
		out.text = n.Value
		out.empty = n.Tag == "!!null" && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0
		out.pos.Length = c.file.lengthOf(out.pos, n.Value)
	}
	return out
}

// lengthOf is the number of characters of a scalar on its first line: the
// value where it stands there as it is, quoted or not, else the rest of the
// line.
func (f *File) lengthOf(pos Pos, value string) int {
	if pos.Line < 1 || pos.Line > len(f.lines) {
		return 1
	}
	line := []rune(f.lines[pos.Line-1])
	if pos.Column < 1 || pos.Column > len(line) {
		return 1
	}
	rest := string(line[pos.Column-1:])
	width := len([]rune(value))
	if strings.HasPrefix(rest, value) {
		return max(1, width)
	}
	if strings.HasPrefix(strings.TrimLeft(rest, `"'`), value) {
		return width + 2
	}
	return max(1, len([]rune(strings.TrimRight(rest, " \t"))))
}
