package materials

// The data files are checked row by row: what a reader of a figure relies on
// without looking.

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// files names every data file that holds figures, with its loader.
var files = []struct {
	name string
	load func() error
}{
	{"metals.csv", check(metals.index)},
	{"platings.csv", check(platings.index)},
	{"facestates.csv", check(faceStates.index)},
	{"finishes.csv", check(finishes.index)},
	{"insulations.csv", check(insulations.index)},
	{"wallmaterials.csv", check(wallMaterials.index)},
	{"fasteners.csv", check(fasteners.index)},
	{"propertyclasses.csv", check(propertyClasses.index)},
	{"threadconditions.csv", check(threadConditions.index)},
	{"tightenings.csv", check(tightenings.index)},
	{"jackets.csv", check(walls)},
	{"conductors.csv", check(metricSizes)},
	{"strands.csv", check(strands)},
	{"touch.csv", check(touchThresholds)},
	{"burns.csv", check(burnTimes)},
	{"ampacities.csv", check(ampacities)},
}

func check[T any](load func() (T, error)) func() error {
	return func() error {
		_, err := load()
		return err
	}
}

func TestDataFiles(t *testing.T) {
	used := make(map[string]bool)
	for _, f := range files {
		t.Run(f.name+"/reads", func(t *testing.T) {
			if err := f.load(); err != nil {
				t.Fatal(err)
			}
		})
		rows, err := readRows(f.name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(f.name+"/headings carry units", func(t *testing.T) { headingsCarryUnits(t, rows) })
		t.Run(f.name+"/rows", func(t *testing.T) {
			seen := make(map[string]int)
			for i := range rows {
				r := &rows[i]
				for _, s := range append([]Source{r.provenance().Source}, r.provenance().Also...) {
					used[s.Key] = true
				}
				if err := sound(r); err != nil {
					t.Errorf("%s line %d: %v", f.name, r.line, err)
				}
				line := strings.Join(r.cells[:3], "|")
				if first, twice := seen[line]; twice {
					t.Errorf("%s line %d repeats line %d", f.name, r.line, first)
				}
				seen[line] = r.line
			}
		})
	}
	t.Run("sources/all used", func(t *testing.T) {
		for _, s := range Sources() {
			if !used[s.Key] && s.Key != "astm-b258" { // the gauge is a formula, without a file
				t.Errorf("no row uses the source %q", s.Key)
			}
		}
	})
	t.Run("sources/files complete", func(t *testing.T) {
		entries, err := dataFiles.ReadDir("data")
		if err != nil {
			t.Fatal(err)
		}
		if len(entries) != len(files)+1 {
			t.Errorf("%d data files, of which %d and the sources are checked", len(entries), len(files))
		}
	})
}

// headingsCarryUnits wants a unit on every column that holds nothing but numbers.
func headingsCarryUnits(t *testing.T, rows []row) {
	for c, name := range rows[0].names {
		unit := rows[0].units[c]
		if unit == "" {
			continue
		}
		if _, ok := toSI[unit]; !ok {
			t.Errorf("column %q has the unknown unit %q", name, unit)
		}
		for i := range rows {
			if rows[i].cells[c] != "" {
				rows[i].number(name)
			}
			if rows[i].err != nil {
				t.Error(rows[i].err)
			}
		}
	}
}

// sound checks the parts of a row that all tables share.
func sound(r *row) error {
	p := r.provenance()
	if r.err != nil {
		return r.err
	}
	spreads := 0
	for _, name := range r.names {
		stem, is := strings.CutSuffix(name, " likely")
		if !is || !r.has(name) {
			continue
		}
		s := r.spread(stem)
		if r.err != nil {
			return r.err
		}
		if s.Low < 0 {
			return fmt.Errorf("%s goes below zero", stem)
		}
		if s.Low < s.High {
			spreads++
		}
	}
	switch {
	case p.Basis == Assumed && spreads == 0:
		return errors.New("an assumed row shows no spread")
	case p.Basis == Assumed && p.Ground == "":
		return errors.New("an assumed row gives no ground")
	case p.Basis == Published && p.Ground != "":
		return errors.New("a published row gives a ground")
	case p.Basis == Published && p.Source.Key == "practice":
		return errors.New("common practice is no publication")
	}
	return nil
}

func TestSources(t *testing.T) {
	kinds := []string{"standard", "law", "textbook", "handbook", "paper", "practice"}
	list := Sources()
	if !slices.IsSortedFunc(list, func(a, b Source) int { return strings.Compare(a.Key, b.Key) }) {
		t.Error("the sources are not sorted by key")
	}
	for _, s := range list {
		switch {
		case s.Key == "" || strings.ContainsAny(s.Key, "; "):
			t.Errorf("the key %q cannot be listed in a cell", s.Key)
		case !slices.Contains(kinds, s.Kind):
			t.Errorf("%s is of the unknown kind %q", s.Key, s.Kind)
		case len(s.Cite) < 20:
			t.Errorf("%s cites nothing that could be found", s.Key)
		case strings.Contains(strings.ToLower(s.Cite), "clampheat"):
			t.Errorf("%s cites this project", s.Key)
		case s.Kind != "practice" && !strings.ContainsAny(s.Cite, "0123456789"):
			t.Errorf("%s names neither year nor number", s.Key)
		}
	}
}

func TestReadTable(t *testing.T) {
	bad := row{file: "x.csv", line: 7, names: []string{"a", "b", "c"}, units: []string{"mm", "furlong", "K"}, cells: []string{"NaN", "1", ""}}
	for _, column := range []string{"a", "b", "c", "d"} {
		r := bad
		r.number(column)
		if r.err == nil || !strings.Contains(r.err.Error(), "x.csv line 7") {
			t.Errorf("column %s: error %v does not say where", column, r.err)
		}
	}
	r := row{names: []string{"h low", "h likely", "h high"}, units: []string{"K", "K", "K"}, cells: []string{"2", "1", "3"}}
	if r.spread("h"); r.err == nil {
		t.Error("a spread out of order is taken")
	}
	if _, err := readTable("none.csv", func(*row) int { return 0 }); err == nil {
		t.Error("a file that is not there is read")
	}
}
