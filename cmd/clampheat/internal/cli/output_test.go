package cli

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"clampheat/scenarios/quantity"
)

// Colour adds to the signs and takes nothing away.
func TestPaint(t *testing.T) {
	r := sampleSteady()
	text := steadyText(r)
	coloured := painted(text)
	if coloured == text {
		t.Error("nothing is coloured")
	}
	if plain := regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(coloured, ""); plain != text {
		t.Error("without its colours the text is another")
	}
	s := &session{stdout: &bytes.Buffer{}}
	if s.paint(text) != text {
		t.Error("colours are written to what is no terminal")
	}
}

func TestMarshal(t *testing.T) {
	for name, v := range map[string]any{"steady": sampleSteady(), "soak": sampleSoak(), "check": sampleCheck()} {
		t.Run(name, func(t *testing.T) {
			text, err := marshal(v)
			if err != nil {
				t.Fatal(err)
			}
			if !json.Valid([]byte(text)) || !strings.HasSuffix(text, "}\n") {
				t.Errorf("is no JSON:\n%s", text)
			}
		})
	}
	r := sampleSteady()
	r.Rows[0].Rise = math.NaN()
	if _, err := marshal(r); err == nil {
		t.Error("a NaN is written")
	}
	r = sampleSteady()
	r.Hottest.Temp = quantity.Temp(math.Inf(1))
	if _, err := marshal(r); err == nil {
		t.Error("an infinite temperature is written")
	}
}

// Every row of a CSV has a cell a column.
func TestTables(t *testing.T) {
	for name, rows := range map[string][][]string{"steady": steadyTable(sampleSteady()), "soak": soakTable(sampleSoak()), "check": checkTable(sampleCheck())} {
		t.Run(name, func(t *testing.T) {
			if len(rows) < 2 {
				t.Fatal("no rows")
			}
			for _, row := range rows {
				if len(row) != len(rows[0]) {
					t.Errorf("%d cells under %d columns: %q", len(row), len(rows[0]), row)
				}
			}
		})
	}
}

func TestWriteWhole(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.txt")
	if err := writeWhole(file, []byte("one"), false, ""); err != nil {
		t.Fatal(err)
	}
	if err := writeWhole(file, []byte("two"), false, ""); err == nil {
		t.Error("a file is written over")
	}
	if err := writeWhole(file, []byte("three"), true, ""); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(file); err != nil || string(got) != "three" {
		t.Errorf("the file holds %q (%v)", got, err)
	}
	// A folder in the way: nothing is left behind.
	if err := writeWhole(dir, []byte("four"), true, ""); err == nil {
		t.Error("a folder is written over")
	}
	for _, parent := range []string{dir, filepath.Dir(dir)} {
		left, err := filepath.Glob(filepath.Join(parent, ".*.*"))
		if err != nil || len(left) > 0 {
			t.Errorf("left behind: %v (%v)", left, err)
		}
	}
}

func TestNear(t *testing.T) {
	known := []string{"steady", "soak", "check"}
	for word, want := range map[string]string{"stedy": "steady", "Soak": "soak", "chekc": "", "xyz": "", "chek": "check"} {
		if got := near(word, known); got != want {
			t.Errorf("near %q is %q, want %q", word, got, want)
		}
	}
}

func TestNotes(t *testing.T) {
	got := notes([]string{"bar: Ra 11.5 is low", "bar: Ra 12 is low", "other"})
	want := "  Note     bar: Ra 11.5 is low (and 1 more like it)\n  Note     other\n"
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}
