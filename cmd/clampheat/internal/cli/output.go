package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	ucli "github.com/urfave/cli/v2"
	"golang.org/x/term"

	"clampheat/cmd/clampheat/internal/chart"
)

// width is the most that a line of text takes.
const width = 100

// answer is a result in its forms. Each is made only when asked for.
type answer struct {
	text  func() string
	value func() any
	table func() [][]string    // rows of CSV with the header first
	draw  func() *chart.Figure // nil where there is no chart
}

// Flags of every command that has a result.
func formatFlags() []ucli.Flag {
	return []ucli.Flag{
		&ucli.BoolFlag{Name: "json", Usage: "print the result as JSON"},
		&ucli.BoolFlag{Name: "csv", Usage: "print the result as CSV"},
	}
}

// Flags of every command that has a chart.
func plotFlags() []ucli.Flag {
	return []ucli.Flag{
		&ucli.StringFlag{Name: "plot", Usage: "draw the chart into `FILE`: .png, .svg or .pdf"},
		&ucli.BoolFlag{Name: "force", Usage: "let --plot replace a file that is there already"},
	}
}

// checkFormat finds mistakes in the flags of the output before anything is
// computed.
func checkFormat(c *ucli.Context) error {
	if c.Bool("json") && c.Bool("csv") {
		return &usageError{"--json and --csv cannot both go to standard output", "run twice, with one each"}
	}
	plot := c.String("plot")
	if plot == "" {
		if c.Bool("force") {
			return &usageError{"--force is about --plot, which is not given", ""}
		}
		return nil
	}
	if format := chartFormat(plot); !slices.Contains(chart.Formats(), format) {
		return &usageError{fmt.Sprintf("--plot does not know how to draw %q", plot), "end its name with ." + strings.Join(chart.Formats(), ", .")}
	}
	return free(plot, c.Bool("force"), plotTaken)
}

const plotTaken = "add --force to replace it, or give another name"

func chartFormat(name string) string {
	return strings.TrimPrefix(strings.ToLower(filepath.Ext(name)), ".")
}

// put writes an answer in the form that the flags ask for.
func (s *session) put(c *ucli.Context, a answer) error {
	if plot := c.String("plot"); plot != "" {
		var picture bytes.Buffer
		if err := a.draw().Write(&picture, chartFormat(plot)); err != nil {
			return fmt.Errorf("the chart cannot be drawn: %w", err)
		}
		if err := writeWhole(plot, picture.Bytes(), c.Bool("force"), plotTaken); err != nil {
			return err
		}
		fmt.Fprintf(s.stderr, "clampheat: wrote %s\n", plot)
	}
	switch {
	case c.Bool("json"):
		text, err := marshal(a.value())
		if err != nil {
			return err
		}
		return s.print(text)
	case c.Bool("csv"):
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		if err := w.WriteAll(a.table()); err != nil {
			return fmt.Errorf("the table cannot be written as CSV: %w", err)
		}
		return s.print(b.String())
	}
	return s.print(s.paint(a.text()))
}

// marshal writes JSON with two blanks a level, its numbers to the digits of
// digits.go. A number that is none is an error of its own, never a null.
func marshal(v any) (string, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return "", fmt.Errorf("the result cannot be written as JSON: %w", err)
	}
	return rounded(b.String())
}

// print writes a result to standard output in one go.
func (s *session) print(text string) error {
	if _, err := s.stdout.Write([]byte(text)); err != nil {
		return &writeError{fmt.Sprintf("the result cannot be written: %v", cause(err)), "", err}
	}
	return nil
}

// Signs that are coloured on a terminal. The sign itself says everything; the
// colour only helps to find it.
var signs = []struct{ sign, colour string }{
	{"LIMIT", "\x1b[1;31m"}, {"MISS", "\x1b[1;31m"}, {"UNKNOWN", "\x1b[1;33m"}, {"CAUTION", "\x1b[1;33m"}, {"->", "\x1b[1m"},
}

// paint colours the signs of a text where standard output is a terminal and
// the user has not said NO_COLOR (no-color.org).
func (s *session) paint(text string) string {
	if !terminal(s.stdout) || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return text
	}
	return painted(text)
}

func painted(text string) string {
	for _, p := range signs {
		text = strings.ReplaceAll(text, p.sign, p.colour+p.sign+"\x1b[0m")
	}
	return text
}

// terminal says whether a stream is one.
func terminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
