package scenarios

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clampheat/scenarios/quantity"
)

// onlyReader names the broken files whose mistake no JSON Schema can see, with
// the reason.
var onlyReader = map[string]string{
	"out-of-bounds.yaml":         "patterns do not compare numbers",
	"below-absolute-zero.yaml":   "patterns do not compare numbers",
	"duplicate-keys.yaml":        "no JSON holds a key twice",
	"two-documents.yaml":         "a schema judges one document",
	"empty.yaml":                 "there is nothing to judge",
	"merge-and-tag.yaml":         "resolved before a schema sees them",
	"tabs.yaml":                  "no YAML",
	"anchors.yaml":               "resolved before a schema sees them",
	"not-utf8.yaml":              "no text",
	"control-character.yaml":     "no YAML",
	"no-blank-after-colon.yaml":  "no YAML",
	"indent.yaml":                "no YAML",
	"open-quote.yaml":            "no YAML",
	"open-bracket.yaml":          "no YAML",
	"odd-first-sign.yaml":        "no YAML",
	"duty-and-day.yaml":          "patterns do not add times",
	"log-alone.yaml":             "a schema opens no other file",
	"power-alone.yaml":           "patterns do not know which entry is the last",
	"power-without-voltage.yaml": "the voltage may be one of batteries far below",
}

// Each broken file beside the exact text of its complaints.
func TestParse_broken(t *testing.T) {
	for _, name := range filesIn(t, filepath.Join("testdata", "broken"), ".yaml") {
		base := filepath.Base(name)
		t.Run(strings.TrimSuffix(base, ".yaml"), func(t *testing.T) {
			f, err := Parse(base, readFile(t, name))
			var problems *Problems
			if !errors.As(err, &problems) {
				t.Fatalf("accepted: %v, %v", f, err)
			}
			got := problems.Error() + "\n"
			golden := strings.TrimSuffix(name, ".yaml") + ".txt"
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if want := string(readFile(t, golden)); got != want {
				t.Errorf("complaints:\n%swant:\n%s", got, want)
			}
			for _, line := range strings.Split(got, "\n") {
				if len([]rune(line)) > 100 {
					t.Errorf("wider than 100 columns: %s", line)
				}
			}
		})
	}
}

// A file with six mistakes tells six, in their order.
func TestParse_sixMistakes(t *testing.T) {
	_, err := Parse("six.yaml", readFile(t, filepath.Join("testdata", "broken", "six-mistakes.yaml")))
	var problems *Problems
	if !errors.As(err, &problems) {
		t.Fatal(err)
	}
	var lines []int
	for _, p := range problems.List {
		lines = append(lines, p.Line)
	}
	if want := []int{2, 4, 7, 9, 11, 14}; !reflect.DeepEqual(lines, want) {
		t.Errorf("mistakes in lines %v, want %v", lines, want)
	}
	var one Problem
	if !errors.As(err, &one) || one.Line != 2 || one.Column != 10 || one.Length != 3 || one.Kind != Mistake {
		t.Errorf("the first is %+v", one)
	}
}

func TestParse_values(t *testing.T) {
	f, err := Parse("every-key.yaml", readFile(t, filepath.Join("testdata", "good", "every-key.yaml")))
	if err != nil {
		t.Fatal(err)
	}
	close := func(t *testing.T, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("got %v, want %v", got, want)
		}
	}
	t.Run("supply/steps", func(t *testing.T) {
		want := [][3]float64{{0, 140, 300}, {140, 140, 900}, {100, 100, math.Inf(1)}}
		for i, s := range f.Current.Steps {
			if got := [3]float64{s.From, s.To, s.For}; got != want[i] {
				t.Errorf("step %d is %v, want %v", i, got, want[i])
			}
		}
		if len(f.Current.Steps) != len(want) || f.Current.Unit != "A" {
			t.Errorf("%d steps in %s", len(f.Current.Steps), f.Current.Unit)
		}
	})
	t.Run("temperature/fahrenheit", func(t *testing.T) { close(t, f.Air.Value, 298.15) })
	t.Run("start/hottest terminal", func(t *testing.T) {
		close(t, f.Start.Temp, 313.15)
		if !f.Start.Terminal {
			t.Error("read as a start of every part")
		}
	})
	t.Run("limits/each form", func(t *testing.T) {
		want := []Limit{{Temp: 363.15}, {Rise: 50}, {Rise: 50}, {Touch: 4}}
		for i, l := range f.Limits {
			close(t, l.Temp, want[i].Temp)
			close(t, l.Rise, want[i].Rise)
			close(t, l.Touch, want[i].Touch)
		}
		if len(f.Limits) != len(want) {
			t.Errorf("%d limits", len(f.Limits))
		}
	})
	cable, holder, bar, end := f.Path[0], f.Path[1], f.Path[2], f.Path[6]
	t.Run("share", func(t *testing.T) { close(t, cable.Exposed.Value, 0.8) })
	t.Run("word/letter case", func(t *testing.T) {
		if cable.Strands.Text != "class 5" {
			t.Errorf("read as %q", cable.Strands.Text)
		}
	})
	t.Run("nuts/list with two units", func(t *testing.T) {
		close(t, holder.Nuts[0].Value, 21.5)
		close(t, holder.Nuts[1].Value, 190*0.0254*0.45359237*9.80665)
		if holder.Nuts[1].Unit != "in·lb" {
			t.Errorf("unit %q", holder.Nuts[1].Unit)
		}
	})
	t.Run("measured/voltage", func(t *testing.T) { close(t, holder.MeasuredAt.Resistance, 15e-6) })
	t.Run("measured/resistance", func(t *testing.T) { close(t, end.MeasuredAt.Resistance, 12e-6) })
	t.Run("fuse drop", func(t *testing.T) {
		close(t, holder.FuseDrop.Drop, 0.075)
		close(t, holder.FuseDrop.Current, 300)
	})
	t.Run("melts/list and semicolons", func(t *testing.T) {
		want := [][2]float64{{600, 30}, {900, 2}, {2000, 0.1}}
		if len(holder.Melts) != len(want) {
			t.Fatalf("%d points", len(holder.Melts))
		}
		for i, m := range holder.Melts {
			close(t, m.Current, want[i][0])
			close(t, m.Time, want[i][1])
		}
	})
	t.Run("section/no blanks", func(t *testing.T) {
		close(t, bar.Section.Width, 0.03)
		close(t, bar.Section.Thickness, 0.005)
	})
	t.Run("place/after wide signs", func(t *testing.T) {
		if want := (Pos{Line: 67, Column: 15, Length: 5}); end.MeasuredAt.Pos != want {
			t.Errorf("%+v, want %+v", end.MeasuredAt.Pos, want)
		}
	})
	t.Run("warnings/not yet", func(t *testing.T) {
		var keys []string
		for _, w := range f.Warnings {
			keys = append(keys, strings.Fields(w.Message)[0])
		}
		if want := []string{`"spreads"`}; !reflect.DeepEqual(keys, want) {
			t.Errorf("warned of %v, want %v", keys, want)
		}
	})
	t.Run("vocabulary/each key used", func(t *testing.T) {
		var all strings.Builder
		for _, name := range filesIn(t, filepath.Join("testdata", "good"), ".yaml") {
			all.Write(readFile(t, name))
		}
		text := all.String()
		for _, field := range slices.Concat(fileFields(), itemFields(), boxFields(), circuitFields(), returnFields()) {
			if !strings.Contains(text, field.key+":") && !(field.also != "" && strings.Contains(text, field.also+":")) {
				t.Errorf("%q is in no good file", field.key)
			}
		}
	})
}

// What editors on other systems do to a file changes nothing.
func TestParse_editors(t *testing.T) {
	text := string(readFile(t, filepath.Join("testdata", "good", "every-key.yaml")))
	want, err := Parse("x", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for name, changed := range map[string]string{
		"byte order mark":     "\ufeff" + text,
		"carriage returns":    strings.ReplaceAll(text, "\n", "\r\n"),
		"no last line break":  strings.TrimSuffix(text, "\n"),
		"document mark":       "---\n" + text,
		"Greek mu, ohm sign":  strings.ReplaceAll(text, "µΩ", "μ\u2126"),
		"kind not first":      strings.Replace(text, "  - steel washer: M10\n    length: 2 mm\n", "  - length: 2 mm\n    steel washer: M10\n", 1),
		"blanks at line ends": strings.ReplaceAll(text, "\n", "  \n"),
	} {
		t.Run(name, func(t *testing.T) {
			got, err := Parse("x", []byte(changed))
			if err != nil {
				t.Fatal(err)
			}
			if len(got.Path) != len(want.Path) || got.Path[6].MeasuredAt.Resistance != want.Path[6].MeasuredAt.Resistance || got.Path[4].Length.Value != want.Path[4].Length.Value || got.Title.Text != want.Title.Text {
				t.Errorf("read as %+v", got)
			}
		})
	}
}

func TestParse_size(t *testing.T) {
	_, err := Parse("big.yaml", []byte("title: "+strings.Repeat("x", mostBytes)))
	if err == nil || err.Error() != "big.yaml:1:1: the file is larger than 1 MB; a scenario has a few kB" {
		t.Errorf("%.200v", err)
	}
	var many strings.Builder
	for range 1000 {
		many.WriteString("odd: 1\n")
	}
	_, err = Parse("many.yaml", []byte(many.String()))
	var problems *Problems
	if !errors.As(err, &problems) || len(problems.List) != mostProblems || !strings.HasSuffix(problems.List[mostProblems-1].Hint, "903 more mistakes follow") {
		t.Errorf("%d problems, the last of which hints %q", len(problems.List), problems.List[mostProblems-1].Hint)
	}
}

// A file of the largest size that is odd throughout is still told of at once.
func TestParse_oddThroughout(t *testing.T) {
	fill := func(line string) []byte { return []byte(strings.Repeat(line, mostBytes/len(line))) }
	for name, data := range map[string][]byte{
		"unknown keys":  fill("curent: 1\n"),
		"parts":         append([]byte("path:\n"), fill("- cabel: 1\n  lenght: 2\n")[:mostBytes-10]...),
		"one long line": append([]byte("a: ["), fill("1, ")[:mostBytes-10]...),
		"long lines":    fill("k" + strings.Repeat("x", mostWidth-5) + ": 1\n"),
		"anchors":       fill("- &a b\n"),
		"brackets":      fill("["),
		"colons":        fill(": "),
	} {
		t.Run(name, func(t *testing.T) {
			begun := time.Now()
			if _, err := Parse("odd.yaml", data); err == nil {
				t.Error("accepted")
			}
			// Well under a second on its own; generous for the race detector on a
			// busy machine. Work that grows with the square of the size would take
			// many minutes.
			if spent := time.Since(begun); spent > 30*time.Second {
				t.Errorf("took %v", spent)
			}
		})
	}
}

// The tags and the table of kinds say nothing that the code cannot read.
func TestVocabulary(t *testing.T) {
	known := map[string]bool{"text": true, "word": true, "torques": true, "section": true, "supply": true, "start": true, "limits": true, "measured": true, "at rated": true, "melts": true, "path": true, "return": true, "variants": true, "anything": true,
		"power supply": true, "duty": true, "log": true, "air": true, "enclosure": true, "vents": true, "bunch": true, "pipe": true, "count": true, "names": true, "labels": true, "voltages": true, "resistances": true}
	for _, k := range quantity.Kinds() {
		known[string(k)] = true
	}
	for _, f := range slices.Concat(fileFields(), itemFields(), boxFields(), circuitFields(), returnFields()) {
		if !known[f.is] {
			t.Errorf("%q is a %q, which nothing reads", f.key, f.is)
		}
		kind := kindOfQuantity(f.is)
		if f.is == "section" {
			kind = quantity.Length
		}
		for _, b := range []string{f.above, f.least, f.most} {
			if b == "" {
				continue
			}
			if _, err := quantity.Parse(kind, b); err != nil {
				t.Errorf("bound of %q: %v", f.key, err)
			}
		}
		if f.is == "word" && f.words == nil && lookUps[f.from] == nil {
			t.Errorf("%q is looked up in %q, which is no table", f.key, f.from)
		}
		if f.doc == "" || !strings.HasSuffix(f.doc, ".") {
			t.Errorf("%q has no sentence for its hint: %q", f.key, f.doc)
		}
	}
	for _, k := range kinds {
		for _, key := range append(keys(k.need), k.keys...) {
			if _, ok := fieldNamed(itemFields(), key); !ok {
				t.Errorf("%s has the key %q, which is none", k.name, key)
			}
		}
	}
	for _, f := range itemFields() {
		if len(goesWith(f.key)) == 0 {
			t.Errorf("%q goes with no kind of part", f.key)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, dir := range []string{filepath.Join("testdata", "broken"), filepath.Join("testdata", "good"), "examples"} {
		names, err := filepath.Glob(filepath.Join(dir, "*.yaml"))
		if err != nil {
			f.Fatal(err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Parse("f.yaml", data)
		var all []Problem
		if err != nil {
			var problems *Problems
			if !errors.As(err, &problems) || len(problems.List) == 0 || file != nil {
				t.Fatalf("an error without problems: %v", err)
			}
			all = problems.List
		} else {
			all = file.Warnings
			if file.Load() == nil && !file.hasCircuits() || !file.Air.Set || len(file.Path) == 0 {
				t.Fatal("accepted without what is needed")
			}
		}
		text := strings.TrimPrefix(strings.ToValidUTF8(string(data), "\ufffd"), "\ufeff")
		lines := splitLines(text)
		for i, p := range all {
			if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Length < 1 || p.Message == "" {
				t.Fatalf("a problem outside the file: %+v", p)
			}
			if width := len([]rune(p.LineText)); p.Column+p.Length > width+2 {
				t.Fatalf("a mark outside the line: %+v", p)
			}
			if i > 0 && (p.Line < all[i-1].Line || p.Line == all[i-1].Line && p.Column < all[i-1].Column) {
				t.Fatalf("problems out of order: %v after %v", p, all[i-1])
			}
		}
	})
}
