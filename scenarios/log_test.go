package scenarios

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"clampheat/scenarios/quantity"
)

const logged = "air: 25 °C\nlog: a.csv\nbank voltage: 12 V\npath:\n  - cable: 25 mm²\n    length: 2 m\n"

// readLogged reads a scenario with a log of that text.
func readLogged(text string) (*Scenario, error) {
	return ReadFrom(func(name string) ([]byte, error) {
		if name != "a.csv" {
			return nil, fs.ErrNotExist
		}
		return []byte(text), nil
	}, "dir/s.yaml", []byte(logged))
}

func TestLog_rows(t *testing.T) {
	type step = [3]float64
	for _, test := range []struct {
		name, text string
		kind       quantity.Kind
		want       []step // from, to, for
	}{
		{"plain/two rows", "0,10\n60,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"header/without units", "time,current\n0,10\n60,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"header/units in round brackets", "Time (min),I (kA)\n0,0.01\n1,0.02\n", quantity.Current, []step{{10, 20, 60}}},
		{"header/units in square brackets", "t [h],I [A]\n0,10\n1,20\n", quantity.Current, []step{{10, 20, 3600}}},
		{"header/watts by unit", "t (s),load (kW)\n0,1\n60,2\n", quantity.Power, []step{{1000, 2000, 60}}},
		{"header/watts by word", "time,Power\n0,1\n60,2\n", quantity.Power, []step{{1, 2, 60}}},
		{"start/not at 0", "1000,10\n1060,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"columns/more than two", "0,10,25.3,ok\n60,20,25.4,ok\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/byte order mark and carriage returns", "\ufefftime,current\r\n0,10\r\n60,20\r\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/remarks and blanks", "# of a kitchen\n 0, 10\n\n 60, 20\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/quoted", "\"0\",\"10\"\n\"60\",\"20\"\n", quantity.Current, []step{{10, 20, 60}}},
		{"thinned/straight rows", "0,0\n10,10\n20,20\n30,30\n40,30\n50,30\n60,0\n", quantity.Current, []step{{0, 30, 30}, {30, 30, 20}, {30, 0, 10}}},
		{"thinned/not quite straight", "0,0\n10,10\n20,20.001\n", quantity.Current, []step{{0, 10, 10}, {10, 20.001, 10}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			s, err := readLogged(test.text)
			if err != nil {
				t.Fatal(err)
			}
			log := s.File.Log
			if log.Kind != test.kind || log.Name != "a.csv" || len(log.Steps) != len(test.want) {
				t.Fatalf("%s in %d steps: %v", log.Kind, len(log.Steps), log.Steps)
			}
			for i, step := range log.Steps {
				for k, got := range [3]float64{step.From, step.To, step.For} {
					if math.Abs(got-test.want[i][k]) > 1e-12*math.Abs(test.want[i][k]) {
						t.Errorf("step %d is %v, want %v", i, step, test.want[i])
					}
				}
			}
		})
	}
}

func TestLog_mistakes(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"row/no number", "time,current\n0,10\n60,none\n", `dir/a.csv:3:4 "none" is no number for the current`},
		{"row/no value", "0,10\n60,\n", `dir/a.csv:2:4 the current is missing here`},
		{"row/one column", "0,10\n60\n", `dir/a.csv:2:1 this row has one column`},
		{"row/wide signs before the place", "\"0\",10\n60, µ20\n", `dir/a.csv:2:5 "µ20" is no number for the current`},
		{"row/not later", "0,10\n60,20\n60,30\n", `dir/a.csv:3:1 this row is not later than the one before it`},
		{"row/other direction", "0,10\n60,-2\n", `dir/a.csv:2:4 the current must be between 0 A and 10 kA; it is -2 A`},
		{"row/too much", "0,10\n60,2e4\n", `dir/a.csv:2:4 the current must be between 0 A and 10 kA; it is 20000 A`},
		{"row/endless", "0,10\n1e300,2\n", `dir/a.csv:2:1 a log lasts at most a year`},
		{"row/quotation mark", "0,10\n6\"0,2\n", `dir/a.csv:2:2 this row cannot be read: a quotation mark stands where none belongs`},
		{"header/one column", "time\n0\n", `dir/a.csv:1:1 a log has two columns`},
		{"header/unit of another kind", "t (A),I\n0,1\n", `dir/a.csv:1:1 A is a current; a time is wanted`},
		{"header/unknown unit", "t,I (furlong)\n0,1\n", `dir/a.csv:1:3 "furlong" is no unit of current`},
		{"whole/empty", "", `dir/a.csv:1:1 a log needs two rows at least`},
		{"whole/one row", "time,current\n0,1\n", `dir/a.csv:1:1 a log needs two rows at least`},
		{"whole/nothing flows", "0,0\n1,0\n", `dir/s.yaml:2:6 no current flows at all`},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := readLogged(test.text)
			var problems *Problems
			if !errors.As(err, &problems) || len(problems.List) != 1 {
				t.Fatalf("told %v, want one problem", err)
			}
			p := problems.List[0]
			if got := fmt.Sprintf("%s:%d:%d %s", filepath.ToSlash(p.File), p.Line, p.Column, p.Message); got != test.want {
				t.Errorf("told %s\nwant %s", got, test.want)
			}
		})
	}
	t.Run("whole/too many rows", func(t *testing.T) {
		var b strings.Builder
		for i := range mostRows + 1 {
			fmt.Fprintf(&b, "%d,%d\n", i, i%7)
		}
		if _, err := readLogged(b.String()); err == nil || !strings.Contains(err.Error(), "a.csv:100001:1: the log has more than 100000 rows") {
			t.Errorf("%.200v", err)
		}
	})
}

// A log is opened beside the scenario, and nowhere else.
func TestLog_place(t *testing.T) {
	file := func(log string) []byte {
		return []byte("air: 25 °C\nlog: " + log + "\npath:\n  - cable: 25 mm²\n    length: 2 m\n")
	}
	files := Beside(filepath.Join("testdata", "good", "logged.yaml"))
	t.Run("beside/opened", func(t *testing.T) {
		s, err := ReadFrom(files, "testdata/good/logged.yaml", readFile(t, "testdata/good/logged.yaml"))
		if err != nil {
			t.Fatal(err)
		}
		stack, err := s.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		for at, want := range map[float64]float64{0: 20, 90: 140, 180: 260, 210: 140, 400: 20, 600 + 90: 140} {
			if got := stack.Supply.Current(at); math.Abs(got-want) > 1e-9 {
				t.Errorf("%g A at %g s, want %g A", got, at, want)
			}
		}
		if stack.Period() != 600 {
			t.Errorf("repeats after %g s, want 600 s", stack.Period())
		}
	})
	for name, test := range map[string]struct {
		files Files
		log   string
		want  string
	}{
		"beside/none of the name": {files, "other.csv", `the log "other.csv" cannot be opened`},
		"above/refused":           {files, "../broken/empty.yaml", `the log "../broken/empty.yaml" does not stand beside the scenario`},
		"elsewhere/refused":       {files, "/etc/hostname", `the log "/etc/hostname" does not stand beside the scenario`},
		"nothing to open with":    {nil, "logged.csv", `the log "logged.csv" cannot be opened from here`},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := ReadFrom(test.files, "s.yaml", file(test.log)); err == nil || !strings.HasPrefix(err.Error(), "s.yaml:2:6: "+test.want) {
				t.Errorf("told %v, want %s", err, test.want)
			}
		})
	}
}

// Thinning changes no value at any time.
func TestLog_thinning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows []sample
		at := 0.0
		for range rapid.IntRange(2, 30).Draw(t, "rows") {
			rows = append(rows, sample{at, float64(rapid.IntRange(0, 3).Draw(t, "value"))})
			at += float64(rapid.IntRange(1, 3).Draw(t, "wait"))
		}
		value := func(rows []sample, at float64) float64 {
			for i := 1; i < len(rows); i++ {
				if a, b := rows[i-1], rows[i]; at <= b.at {
					return a.value + (b.value-a.value)*(at-a.at)/(b.at-a.at)
				}
			}
			return rows[len(rows)-1].value
		}
		thin := straight(rows)
		for _, r := range rows {
			if got := value(thin, r.at); math.Abs(got-r.value) > 1e-12 {
				t.Fatalf("%g at %g s, want %g", got, r.at, r.value)
			}
		}
		for i := 1; i < len(thin)-1; i++ {
			a, b, c := thin[i-1], thin[i], thin[i+1]
			if (b.value-a.value)*(c.at-b.at) == (c.value-b.value)*(b.at-a.at) {
				t.Fatalf("%v is left between %v and %v", b, a, c)
			}
		}
	})
}

func FuzzLog(f *testing.F) {
	for _, text := range []string{"time,current\n0,10\n60,20\n", "t [min],P (kW)\n0,1\n1,2\n2,3\n", "0,1\n1,\"2\n", "\ufeff#\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := readLogged(text)
		if err != nil {
			var problems *Problems
			if !errors.As(err, &problems) {
				t.Fatalf("%v is about no place", err)
			}
			return
		}
		for _, step := range s.File.Log.Steps {
			if !(step.For > 0) || math.IsInf(step.For, 0) || !(step.From >= 0) || !(step.To >= 0) || math.IsInf(step.From+step.To, 0) {
				t.Fatalf("a step of %+v", step)
			}
		}
	})
}
