package texttable

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestString(t *testing.T) {
	table := Table{Indent: 2, Columns: []Column{{Head: "place"}, {Head: "µΩ", Align: Point}, {Head: "left", Align: Right}}}
	table.Row("post", "9.3", "41 K")
	table.Row("a long name", "221", "9 K")
	table.Row("body", "", "")
	want := "" +
		"  place           µΩ  left\n" +
		"  post           9.3  41 K\n" +
		"  a long name  221     9 K\n" +
		"  body\n"
	if got := table.String(100); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	narrow := "" +
		"  place        µΩ  left\n" +
		"  post        9.3  41 K\n" +
		"  a long    221     9 K\n" +
		"  name\n" +
		"  body\n"
	if got := table.String(23); got != narrow {
		t.Errorf("got\n%swant\n%s", got, narrow)
	}
}

func TestFolded(t *testing.T) {
	table := Table{Columns: []Column{{Head: "name"}, {Head: "first"}, {Head: "second"}}}
	table.Row("a", strings.Repeat("x", 12), strings.Repeat("y", 12))
	want := "name  first\na     xxxxxxxxxxxx\n\nname  second\na     yyyyyyyyyyyy\n"
	if got := table.Folded(24); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// No line is wider than asked, and every column of a folded table is shown.
func TestFoldedWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 8).Draw(t, "columns")
		width := rapid.IntRange(40, 120).Draw(t, "width")
		text := rapid.StringMatching(`[a-zµΩ ]{0,60}`)
		table := Table{}
		for range columns {
			table.Columns = append(table.Columns, Column{Head: rapid.StringMatching(`[a-z]{1,9}`).Draw(t, "head")})
		}
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			cells := make([]string, columns)
			for i := range cells {
				cells[i] = text.Draw(t, "cell")
			}
			table.Row(cells...)
		}
		out := table.Folded(width)
		for line := range strings.Lines(out) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
				t.Fatalf("%d characters, asked for %d: %q", n, width, line)
			}
		}
		for _, c := range table.Columns {
			if !strings.Contains(out, c.Head) {
				t.Fatalf("column %q is missing in\n%s", c.Head, out)
			}
		}
	})
}

func TestWrap(t *testing.T) {
	for _, c := range []struct{ name, first, text, want string }{
		{"short", "A  ", "one two", "A  one two\n"},
		{"broken", "A  ", "one two three four", "A  one two\n   three four\n"},
		{"long word", "", "a incomprehensibilities b", "a\nincomprehensibilities\nb\n"},
		{"nothing", "A  ", "", "A\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Wrap(c.first, c.text, 13); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
