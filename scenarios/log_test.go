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
		{"names/behind a line", "time_s,current_A\n0,10\n60,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/units in round brackets", "Time (min),I (kA)\n0,0.01\n1,0.02\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/units in square brackets", "t [h],I [A]\n0,10\n1,20\n", quantity.Current, []step{{10, 20, 3600}}},
		{"names/units behind a blank or a stroke", "time/min,current A\n0,10\n1,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/units alone", "min,A\n0,10\n1,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/of one's own", "since start [s],fridge [A]\n0,10\n60,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/other order", "current_A,time_s\n10,0\n20,60\n", quantity.Current, []step{{10, 20, 60}}},
		{"names/watts", "t (s),load (kW)\n0,1\n60,2\n", quantity.Power, []step{{1000, 2000, 60}}},
		{"start/not at 0", "s,A\n1000,10\n1060,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"columns/more than two", "s,A,lug_C,state\n0,10,25.3,ok\n60,20,25.4,ok\n", quantity.Current, []step{{10, 20, 60}}},
		{"columns/the name tells", "time_s,battery_A,current_A\n0,1,10\n60,2,20\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/byte order mark and carriage returns", "\ufefftime_s,current_A\r\n0,10\r\n60,20\r\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/remarks and blanks", "# of a kitchen\n s, A\n 0, 10\n\n 60, 20\n", quantity.Current, []step{{10, 20, 60}}},
		{"text/quoted", "\"s\",\"A\"\n\"0\",\"10\"\n\"60\",\"20\"\n", quantity.Current, []step{{10, 20, 60}}},
		{"thinned/straight rows", "s,A\n0,0\n10,10\n20,20\n30,30\n40,30\n50,30\n60,0\n", quantity.Current, []step{{0, 30, 30}, {30, 30, 20}, {30, 0, 10}}},
		{"thinned/not quite straight", "s,A\n0,0\n10,10\n20,20.001\n", quantity.Current, []step{{0, 10, 10}, {10, 20.001, 10}}},
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
		{"row/no number", "time_s,current_A\n0,10\n60,none\n", `dir/a.csv:3:4 "none" is no number for the current`},
		{"row/a clock", "time_s,current_A\n12:00,10\n12:01,20\n", `dir/a.csv:2:1 "12:00" is no number for the time`},
		{"row/no value", "s,A\n0,10\n60,\n", `dir/a.csv:3:4 the current is missing here`},
		{"row/one column", "s,A\n0,10\n60\n", `dir/a.csv:3:1 the current is missing in this row`},
		{"row/decimal commas", "s,A\n0,10,5\n60,20,5\n", `dir/a.csv:2:6 this row has 3 columns, the first row names 2`},
		{"row/decimal commas in quotes", "s,A\n\"0,5\",10\n", `dir/a.csv:2:1 "0,5" is no number for the time`},
		{"row/wide signs before the place", "s,A\n\"0\",10\n60, µ20\n", `dir/a.csv:3:5 "µ20" is no number for the current`},
		{"row/not later", "s,A\n0,10\n60,20\n60,30\n", `dir/a.csv:4:1 this row is not later than the one before it`},
		{"row/other direction", "s,A\n0,10\n60,-2\n", `dir/a.csv:3:4 the current must be between 0 A and 10 kA; it is -2 A`},
		{"row/too much", "s,A\n0,10\n60,2e4\n", `dir/a.csv:3:4 the current must be between 0 A and 10 kA; it is 20000 A`},
		{"row/endless", "s,A\n0,10\n1e300,2\n", `dir/a.csv:3:1 a log lasts at most a year`},
		{"row/quotation mark", "s,A\n0,10\n6\"0,2\n", `dir/a.csv:3:2 this row cannot be read: a quotation mark stands where none belongs`},
		{"names/none", "0,10\n60,20\n", `dir/a.csv:1:1 the first row of this log does not name its columns`},
		{"names/one column", "time\n0\n", `dir/a.csv:1:1 a log has two columns at least`},
		{"names/no unit of the time", "time,current_A\n0,1\n", `dir/a.csv:1:1 the column "time" has no unit`},
		{"names/no unit of the current", "time_s,current\n0,1\n", `dir/a.csv:1:8 the column "current" has no unit`},
		{"names/volts", "time_s,volts\n0,12\n60,13\n", `dir/a.csv:1:1 no column of this log is a current or a power`},
		{"names/two currents", "time_s,battery_A,solar_A\n0,12,3\n60,13,2\n", `dir/a.csv:1:18 two columns may be the current or the power: "battery_A" and "solar_A"`},
		{"names/current and power", "time_s,current_A,power_W\n0,12,3\n60,13,2\n", `dir/a.csv:1:18 two columns may be the current or the power: "current_A" and "power_W"`},
		{"names/two times", "time_s,time_min,A\n0,12,3\n60,13,2\n", `dir/a.csv:1:8 two columns may be the time: "time_s" and "time_min"`},
		{"names/unit of another kind", "t (A),I (A)\n0,1\n", `dir/a.csv:1:1 A is a current; a time is wanted`},
		{"names/unknown unit", "t (s),I (furlong)\n0,1\n", `dir/a.csv:1:7 "furlong" is no unit of current`},
		{"signs/semicolons", "time_s;current_A\n0;10\n", `dir/a.csv:1:1 the columns of this log are parted by semicolons`},
		{"signs/semicolons and decimal commas", "0,5;10,5\n", `dir/a.csv:1:1 the columns of this log are parted by semicolons`},
		{"signs/tabs", "time_s\tcurrent_A\n0\t10\n", `dir/a.csv:1:1 the columns of this log are parted by tabs`},
		{"whole/empty", "", `dir/a.csv:1:1 a log needs two rows of numbers at least`},
		{"whole/one row", "s,A\n0,1\n", `dir/a.csv:1:1 a log needs two rows of numbers at least`},
		{"whole/nothing flows", "s,A\n0,0\n1,0\n", `dir/s.yaml:2:6 no current flows at all`},
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
		b.WriteString("s,A\n")
		for i := range mostRows + 1 {
			fmt.Fprintf(&b, "%d,%d\n", i, i%7)
		}
		if _, err := readLogged(b.String()); err == nil || !strings.Contains(err.Error(), "a.csv:100002:1: the log has more than 100000 rows") {
			t.Errorf("%.200v", err)
		}
	})
}

// What is wrong with a value decides what there is to do about it.
func TestLog_hints(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"row/other direction", "s,A\n0,10\n60,-2\n", "write 0 for what flows back"},
		{"row/too much", "s,A\n0,10\n60,99999\n", "check that the column's unit is the one that its name says"},
		{"row/decimal commas", "s,A\n0,10,5\n", pointsHint},
		{"signs/semicolons", "time_s;current_A\n0;10\n", pointsHint},
		{"names/none", "0,10\n60,20\n", `"time_s,current_A"`},
		{"names/no unit", "time_s,current\n0,10\n", `"current_A" or "current [A]"`},
		{"names/two currents", "time_s,battery_A,solar_A\n0,12,3\n", `call the one that is meant "current"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := readLogged(test.text)
			var p Problem
			if !errors.As(err, &p) || !strings.Contains(p.Hint, test.want) {
				t.Errorf("hint %q, want %q", p.Hint, test.want)
			}
		})
	}
}

// A column that is not read is told at its place.
func TestLog_unused(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"one", "time_s,volts,current_A\n0,12,10\n60,13,20\n", `dir/a.csv:1:8: warning: this column of the log is not used: "volts"`},
		{"several", "battery_A,time_s,current_A,remark\n1,0,10,a\n2,60,20,b\n", `dir/a.csv:1:1: warning: these columns of the log are not used: "battery_A", "remark"`},
		{"air", "time [min],current [A],air [°F]\n0,10,50\n1,20,\n", `dir/a.csv:1:24: warning: this column of the log is not used: "air [°F]"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			s, err := readLogged(test.text)
			if err != nil {
				t.Fatal(err)
			}
			if w := s.File.Warnings; len(w) != 1 || !strings.HasPrefix(filepath.ToSlash(w[0].Error()), test.want) ||
				(test.name == "air") != strings.Contains(w[0].Hint, "air: from log") {
				t.Errorf("warned %v, want %s", w, test.want)
			}
		})
	}
}

// The air's course is that of the log where the file says so. 50 °F and 86 °F are
// 10 °C and 30 °C exactly.
func TestLog_air(t *testing.T) {
	read := func(text, repeats string) (*Scenario, error) {
		file := strings.Replace(logged, "air: 25 °C\n", "air: from log\n"+repeats, 1)
		return ReadFrom(func(string) ([]byte, error) { return []byte(text), nil }, "dir/s.yaml", []byte(file))
	}
	const rows = "time [min],current [A],air [°F]\n0,10,50\n1,20,86\n2,20,86\n3,10,50\n"
	for _, repeats := range []string{"", "repeats: yes\n"} {
		s, err := read(rows, repeats)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.File.Warnings) > 0 || math.Abs(s.File.Air.Value-303.15) > 1e-9 {
			t.Errorf("highest air %v K, warned %v", s.File.Air.Value, s.File.Warnings)
		}
		stack, err := s.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		after := 283.15 // at the end it stays
		if repeats != "" {
			after = 293.15
		}
		for at, want := range map[float64]float64{0: 283.15, 30: 293.15, 90: 303.15, 150: 293.15, 210: after} {
			if got := stack.Course.Current(at); math.Abs(got-want) > 1e-9 {
				t.Errorf("air of %v K at %g s, want %v K", got, at, want)
			}
		}
	}
	for _, test := range []struct{ name, text, want string }{
		{"no such column", "s,A,lug_C\n0,10,20\n60,20,20\n", `dir/s.yaml:1:6: the log "a.csv" has no column of the air's temperature`},
		{"no number", "s,A,air_C\n0,10,20\n60,20,warm\n", `dir/a.csv:3:7: "warm" is no number for the temperature of the air`},
		{"too hot", "s,A,air_C\n0,10,20\n60,20,2000\n", `dir/a.csv:3:7: the temperature of the air must be between -100 °C and 200 °C; it is 2000 °C`},
		{"no unit", "s,A,air\n0,10,20\n60,20,20\n", `dir/a.csv:1:5: the column "air" has no unit`},
		{"two", "s,A,air in_C,air out_C\n0,10,20,20\n60,20,20,20\n", `dir/a.csv:1:14: two columns may be the temperature of the air: "air in_C" and "air out_C"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, err := read(test.text, ""); err == nil || !strings.HasPrefix(filepath.ToSlash(err.Error()), test.want) {
				t.Errorf("told %v, want %s", err, test.want)
			}
		})
	}
	t.Run("from elsewhere", func(t *testing.T) {
		_, err := Read("s.yaml", []byte("air: from the log\ncurrent: 10 A\npath:\n  - cable: 25 mm²\n    length: 2 m\n"))
		if err == nil || !strings.HasPrefix(err.Error(), `s.yaml:1:6: the air cannot be "from the log"`) {
			t.Errorf("told %v", err)
		}
	})
	t.Run("no log", func(t *testing.T) {
		_, err := Read("s.yaml", []byte("air: from log\ncurrent: 10 A\npath:\n  - cable: 25 mm²\n    length: 2 m\n"))
		if err == nil || !strings.HasPrefix(err.Error(), `s.yaml:1:6: "air: from log" goes with "log", which is missing`) {
			t.Errorf("told %v", err)
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
	for _, text := range []string{"time_s,current_A\n0,10\n60,20\n", "t [min],P (kW),air [°F]\n0,1,50\n1,2,60\n2,3,70\n", "s,A\n0,1\n1,\"2\n", "\ufeff#\n", "time;A\n0,5;1\n"} {
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
