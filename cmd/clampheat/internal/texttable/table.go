// Package texttable lays out tables of plain text for a screen of a given
// width. Cells are strings: units and digits are the caller's choice.
//
// Widths count characters, so that "µΩ" and "°C" take two columns each.
package texttable

import (
	"strings"
	"unicode/utf8"
)

// Align says how the cells of a column stand.
type Align int

const (
	Left  Align = iota
	Right       // cells end at the same place
	Point       // numbers stand with their decimal points under each other
)

// Column is one column. A head of several lines has them apart by "\n".
type Column struct {
	Head  string
	Align Align
}

// Table is a table with its rows so far.
type Table struct {
	Columns []Column
	// Indent stands before every line, in spaces.
	Indent int
	rows   [][]string
}

// gap is the space between columns.
const gap = 2

// Row adds a row. Cells beyond the columns are dropped, missing ones are empty.
func (t *Table) Row(cells ...string) {
	row := make([]string, len(t.Columns))
	copy(row, cells)
	t.rows = append(t.rows, row)
}

// Rows is the number of rows so far.
func (t *Table) Rows() int { return len(t.rows) }

// String lays the table out in at most width characters, each line ended by a
// newline. Where it is wider, cells of left-aligned columns are broken at
// blanks, those of the widest column first; a word without a blank is cut
// short with an ellipsis.
func (t *Table) String(width int) string {
	cells, widths := t.shape()
	shorten(t.Columns, widths, width-t.Indent)
	var b strings.Builder
	all := make([]int, len(t.Columns))
	for i := range all {
		all[i] = i
	}
	t.block(&b, cells, widths, all)
	return b.String()
}

// Folded lays the table out as String, but carries columns that do not fit on
// in further blocks, each of which begins with the first column.
func (t *Table) Folded(width int) string {
	cells, widths := t.shape()
	if len(widths) == 0 {
		return ""
	}
	// The first column may not take more than a third of the screen, no other
	// more than what is left beside it.
	widths[0] = min(widths[0], width/3)
	room := width - t.Indent - widths[0] - gap
	for i := 1; i < len(widths); i++ {
		widths[i] = min(widths[i], room)
	}
	var b strings.Builder
	for from := 1; from < len(widths) || from == 1; {
		block, used := []int{0}, 0
		for from < len(widths) && (len(block) == 1 || used+widths[from]+gap <= room+gap) {
			used += widths[from] + gap
			block = append(block, from)
			from++
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		t.block(&b, cells, widths, block)
		if len(widths) == 1 {
			break
		}
	}
	return b.String()
}

// shape pads the numbers of Point columns and measures every column.
func (t *Table) shape() (cells [][]string, widths []int) {
	cells = make([][]string, len(t.rows))
	for i, row := range t.rows {
		cells[i] = append([]string(nil), row...)
	}
	widths = make([]int, len(t.Columns))
	for c, column := range t.Columns {
		if column.Align == Point {
			alignPoints(cells, c)
		}
		for _, line := range strings.Split(column.Head, "\n") {
			widths[c] = max(widths[c], utf8.RuneCountInString(line))
		}
		for _, row := range cells {
			widths[c] = max(widths[c], utf8.RuneCountInString(row[c]))
		}
	}
	return cells, widths
}

// alignPoints adds blanks behind the numbers of a column so that, right
// aligned, their points stand under each other. What is no plain number keeps
// its place at the right.
func alignPoints(cells [][]string, c int) {
	behind := 0
	for _, row := range cells {
		behind = max(behind, fraction(row[c]))
	}
	for _, row := range cells {
		if n := fraction(row[c]); n >= 0 {
			row[c] += strings.Repeat(" ", behind-n)
		}
	}
}

// fraction is the number of characters from the decimal point on; -1 for what
// is no number.
func fraction(cell string) int {
	if cell == "" || strings.Trim(cell, "+-0123456789.") != "" || !strings.ContainsAny(cell, "0123456789") {
		return -1
	}
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return len(cell) - i
	}
	return 0
}

// narrowest is what a column is never cut below.
const narrowest = 8

func shorten(columns []Column, widths []int, room int) {
	total := gap * (len(widths) - 1)
	for _, w := range widths {
		total += w
	}
	for total > room {
		widest := -1
		for i, w := range widths {
			if columns[i].Align == Left && w > narrowest && (widest < 0 || w > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		widths[widest]--
		total--
	}
}

// block writes the chosen columns with their heads.
func (t *Table) block(b *strings.Builder, cells [][]string, widths, chosen []int) {
	heads := 0
	for _, c := range chosen {
		if t.Columns[c].Head != "" {
			heads = max(heads, strings.Count(t.Columns[c].Head, "\n")+1)
		}
	}
	line := make([]string, len(t.Columns))
	for h := range heads {
		for _, c := range chosen {
			lines := strings.Split(t.Columns[c].Head, "\n")
			line[c] = ""
			// Heads stand on the line above the cells.
			if i := h - (heads - len(lines)); i >= 0 {
				line[c] = lines[i]
			}
		}
		t.line(b, line, widths, chosen)
	}
	for _, row := range cells {
		t.line(b, row, widths, chosen)
	}
}

// line writes one row, on as many lines as its broken cells take.
func (t *Table) line(b *strings.Builder, cells []string, widths, chosen []int) {
	broken := make([][]string, len(cells))
	height := 1
	for _, c := range chosen {
		broken[c] = t.broken(c, cells[c], widths[c])
		height = max(height, len(broken[c]))
	}
	for h := range height {
		var l strings.Builder
		l.WriteString(strings.Repeat(" ", t.Indent))
		for i, c := range chosen {
			if i > 0 {
				l.WriteString(strings.Repeat(" ", gap))
			}
			cell := ""
			if h < len(broken[c]) {
				cell = broken[c][h]
			}
			pad := strings.Repeat(" ", widths[c]-utf8.RuneCountInString(cell))
			if t.Columns[c].Align == Left {
				l.WriteString(cell + pad)
			} else {
				l.WriteString(pad + cell)
			}
		}
		b.WriteString(strings.TrimRight(l.String(), " "))
		b.WriteByte('\n')
	}
}

// broken breaks a cell of a left-aligned column at its blanks, and keeps the
// blanks that it begins with on every line.
func (t *Table) broken(c int, cell string, width int) []string {
	if utf8.RuneCountInString(cell) <= width {
		return []string{cell}
	}
	if t.Columns[c].Align != Left {
		return []string{cut(cell, width)}
	}
	first := cell[:len(cell)-len(strings.TrimLeft(cell, " "))]
	lines := strings.Split(strings.TrimSuffix(Wrap(first, cell, width), "\n"), "\n")
	for i := range lines {
		lines[i] = cut(lines[i], width)
	}
	return lines
}

// cut shortens a cell to width characters, the last being an ellipsis.
func cut(cell string, width int) string {
	if utf8.RuneCountInString(cell) <= width {
		return cell
	}
	r := []rune(cell)
	return strings.TrimRight(string(r[:max(0, width-1)]), " ") + "…"
}
