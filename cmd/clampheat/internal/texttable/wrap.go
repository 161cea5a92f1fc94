package texttable

import (
	"strings"
	"unicode/utf8"
)

// Wrap breaks text at blanks into lines of at most width characters. The first
// line begins with first, the others with as many blanks. A word that is
// longer than a line stands alone on its own. Every line ends with a newline.
func Wrap(first, text string, width int) string {
	indent := utf8.RuneCountInString(first)
	room := max(width-indent, 1)
	var b strings.Builder
	b.WriteString(first)
	used := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+n > room:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += n
	}
	b.WriteByte('\n')
	if used == 0 {
		return strings.TrimRight(b.String(), " \n") + "\n"
	}
	return b.String()
}

// Narrow breaks text at blanks into lines of about width characters, joined by
// "\n": the head of a narrow column.
func Narrow(text string, width int) string {
	return strings.TrimSuffix(Wrap("", text, width), "\n")
}
