package scenarios

import (
	"errors"
	"math"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"clampheat/model"
)

// written is a scenario with a path, for tests.
func written(path string) []byte {
	return []byte("current: 140 A\nair: 25 °C\npath:\n" + path)
}

// understood reads a scenario that has no mistakes.
func understood(t *testing.T, data []byte) (*Scenario, *model.Stack) {
	t.Helper()
	s, err := Read("t.yaml", data)
	if err != nil {
		t.Fatal(err)
	}
	stack, err := s.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	return s, stack
}

// every is a file for each kind of part and word that the examples leave out.
var every = map[string]string{
	"shunt and block": `
  - terminal: M10
    nut: 22 N·m
  - block: copper
    section: 30 × 10 mm
    length: 40 mm
  - shunt: generic
    nuts: [20 N·m, 22 N·m]
    cover: closed
  - steel washer: M10
  - cable: 95 mm²
    length: 1 m
`,
	"reversed compact holder, aluminium": `
  - cable: 1/0 AWG
    length: 1 m
  - compact holder: generic
    fuse: 200 A
    nut: 8.5 N·m
    cover: closed
  - washer: M8
    metal: stainless 304
  - inverter terminal: M8
    nut: 12 N·m
`,
	"bronze bar and bare shunt": `
  - cable: 95 mm²
    length: 1 m
  - shunt: generic
    nuts: 20 N·m
  - bar: phosphor bronze
    section: 30 × 8 mm
    length: 300 mm
`,
	"switch under a cover, aluminium bar": `
  - battery post: M10
    nut: 22 N·m
  - bar: aluminium
    section: 40 × 6 mm
    length: 300 mm
  - battery switch: generic
    nuts: 22 N·m
    cover: closed
  - link bar: copper, silver-plated
    section: 30 × 5 mm
    length: 80 mm
  - high-capacity holder: generic
    fuse: 300 A
    nuts: 20 N·m
  - cable: 250 kcmil
    length: 1 m
    tinned: yes
`,
}

// grouped are the good files with batteries, branches, circuits, power or a box.
var grouped = []string{"four-batteries", "circuits", "branches", "duty", "closed-box", "sagging", "plain-power"}

// all gives the text of every example, of every and of grouped.
func all(t *testing.T) map[string][]byte {
	t.Helper()
	texts := map[string][]byte{}
	for _, e := range Examples() {
		data, err := Example(e.Name)
		if err != nil {
			t.Fatal(err)
		}
		texts[e.Name] = data
	}
	for name, path := range every {
		texts[name] = written(strings.TrimPrefix(path, "\n"))
	}
	for _, name := range grouped {
		texts[name] = readFile(t, filepath.Join("testdata", "good", name+".yaml"))
	}
	return texts
}

func TestResolve(t *testing.T) {
	for name, data := range all(t) {
		t.Run(name+"/assembles", func(t *testing.T) {
			s, stack := understood(t, data)
			for _, w := range s.File.Warnings {
				t.Error(w)
			}
			for _, c := range []model.Condition{model.Careful, model.Likely, model.Careless} {
				if _, err := stack.Assemble(c, model.Mesh{}); err != nil {
					t.Error(err)
				}
			}
			if len(s.PartItems) != len(stack.Parts) || len(s.BoltItems) != len(stack.Bolts) {
				t.Errorf("%d parts and %d bolts, but items for %d and %d",
					len(stack.Parts), len(stack.Bolts), len(s.PartItems), len(s.BoltItems))
			}
			names := map[string]bool{}
			for _, p := range stack.Parts {
				if _, fuse := p.(*model.Fuse); names[p.Name()] && !fuse {
					t.Errorf("two parts are called %q", p.Name())
				}
				names[p.Name()] = true
			}
		})
		t.Run(name+"/is the same twice", func(t *testing.T) {
			s, a := understood(t, data)
			b, err := s.Stack(nil)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(a, b) {
				t.Error("two stacks of one scenario differ")
			}
		})
	}
}

// Each assumption, at either end of its range, leaves a stack that can be put
// together, and changes it.
func TestVary(t *testing.T) {
	for name, data := range all(t) {
		t.Run(name, func(t *testing.T) {
			s, likely := understood(t, data)
			ids := map[string]bool{}
			for _, a := range s.Assumptions() {
				if ids[a.ID] {
					t.Errorf("%s is listed twice", a.ID)
				}
				ids[a.ID] = true
				if !a.Varies() {
					continue
				}
				for _, v := range []float64{a.Value.Low, a.Value.High} {
					if v == a.Value.Likely {
						continue
					}
					stack, err := s.Stack(map[string]float64{a.ID: v})
					if err != nil {
						t.Errorf("%s at %g: %v", a.ID, v, err)
						continue
					}
					// The width of a palm goes by its hole only where the
					// thread is large for the conductor.
					if reflect.DeepEqual(stack, likely) && a.ID != "lug.palm over hole" && a.ID != "lug.bore over conductor" {
						t.Errorf("%s at %g changes nothing", a.ID, v)
					}
					if _, err := stack.Assemble(model.Likely, coarse); err != nil {
						t.Errorf("%s at %g: %v", a.ID, v, err)
					}
				}
			}
		})
	}
}

// Any mixture of values within the ranges makes a stack or an error, never a
// panic; and nearly always a stack.
func TestVaryTogether(t *testing.T) {
	s, _ := understood(t, all(t)["high-capacity"])
	rapid.Check(t, func(t *rapid.T) {
		vary := map[string]float64{}
		for _, a := range s.Assumptions() {
			if a.Varies() {
				vary[a.ID] = rapid.Float64Range(a.Value.Low, a.Value.High).Draw(t, a.ID)
			}
		}
		stack, err := s.Stack(vary)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := stack.Assemble(model.Likely, coarse); err != nil {
			t.Fatal(err)
		}
	})
}

func TestVaryUnknown(t *testing.T) {
	s, _ := understood(t, all(t)["compact"])
	for id, want := range map[string]string{
		"compact holder.base widht": `nothing is assumed under the name "compact holder.base widht"; did you mean "compact holder.base width"?`,
		"nonsense":                  `nothing is assumed under the name "nonsense"`,
		"joints.faces":              `nothing is assumed under the name "joints.faces"`, // in words: no number takes its place
	} {
		_, err := s.Stack(map[string]float64{id: 1})
		var unknown *UnknownAssumptionError
		if !errors.As(err, &unknown) || err.Error() != want {
			t.Errorf("%s: %v; want %s", id, err, want)
		}
	}
}

func TestConcurrentDraws(t *testing.T) {
	s, want := understood(t, all(t)["compact"])
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			got, err := s.Stack(nil)
			if err != nil || !reflect.DeepEqual(got, want) {
				t.Error("a stack made beside others differs", err)
			}
		})
	}
	wg.Wait()
}

// path gives the names of the rows along the current.
func path(t *testing.T, stack *model.Stack) []string {
	t.Helper()
	a, err := stack.Assemble(model.Likely, coarse)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, r := range a.Rows {
		if r.Kind != model.BodyRow {
			names = append(names, r.Name)
		}
	}
	return names
}

func TestJoins(t *testing.T) {
	tests := []struct {
		name, path string
		want       []string // rows along the current
		bolts      []int    // joints under each bolt
	}{
		{"one nut of a compact holder clamps two joints", `
  - battery post: M8
    nut: 12 N·m
  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m
  - cable: 1/0 AWG
    length: 1 m
`, []string{
			"battery post M8", "battery post M8 to compact holder, base", "compact holder, base",
			"compact holder, base to fuse 300 A, base side", "fuse 300 A, base side", "fuse 300 A", "fuse 300 A, nut side",
			"fuse 300 A, nut side to lug on compact holder", "lug on compact holder", "lug on compact holder, crimp", "cable 1/0 AWG",
		}, []int{1, 2}},
		{"a compact holder turns its base to the post", `
  - cable: 1/0 AWG
    length: 1 m
  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m
  - battery post: M8
    nut: 12 N·m
`, []string{
			"cable 1/0 AWG", "lug on compact holder, crimp", "lug on compact holder", "lug on compact holder to fuse 300 A, nut side",
			"fuse 300 A, nut side", "fuse 300 A", "fuse 300 A, base side", "compact holder, base to fuse 300 A, base side",
			"compact holder, base", "compact holder, base to battery post M8", "battery post M8",
		}, []int{2, 1}},
		{"a washer has a joint on either side under the same bolt", `
  - battery post: M8
    nut: 12 N·m
  - steel washer: M8
  - link bar: copper
    section: 25 × 3 mm
    length: 60 mm
`, []string{
			"battery post M8", "battery post M8 to steel washer M8", "steel washer M8", "steel washer M8 to link bar", "link bar",
		}, []int{2}},
		{"a cable without lugs is a cable alone", `
  - cable: 1/0 AWG
    length: 1 m
`, []string{"cable 1/0 AWG"}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, stack := understood(t, written(strings.TrimPrefix(test.path, "\n")))
			if got := path(t, stack); !slices.Equal(got, test.want) {
				t.Errorf("rows %q\nwant %q", got, test.want)
			}
			var bolts []int
			for i := range stack.Bolts {
				n := 0
				for _, j := range stack.Joints {
					if j.Kind == model.Bolted && j.Bolt == i {
						n++
					}
				}
				bolts = append(bolts, n)
			}
			if !slices.Equal(bolts, test.bolts) {
				t.Errorf("joints of the bolts %v, want %v", bolts, test.bolts)
			}
		})
	}
}

func TestSupply(t *testing.T) {
	_, stack := understood(t, all(t)["bench"])
	for at, want := range map[float64]float64{0: 0, 30: 50, 61: 100, 1900: 160, 1e5: 0} {
		if got := stack.Supply.Current(at); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g A at %g s, want %g A", got, at, want)
		}
	}
	_, stack = understood(t, all(t)["compact"])
	if stack.Supply != model.Constant(140) {
		t.Errorf("supply %v, want 140 A", stack.Supply)
	}
}

func TestTouches(t *testing.T) {
	s, _ := understood(t, all(t)["bench"])
	if len(s.Touches) != 1 || s.Touches[0].Item != -1 || s.Touches[0].Contact != 4 {
		t.Errorf("touches %+v, want 4 s anywhere", s.Touches)
	}
}
