package scenarios

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"clampheat/model"
	"clampheat/solver"
)

// settled solves a stack and gives its assembly and state.
func settled(t *testing.T, stack *model.Stack) (*model.Assembly, []float64) {
	t.Helper()
	a, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Tol: 1e-8})
	if err != nil {
		t.Fatal(err)
	}
	return a, r.X
}

// currentOf is the current of the first part of a way that has a row.
func currentOf(t *testing.T, s *Scenario, a *model.Assembly, x []float64, way string) float64 {
	t.Helper()
	for _, w := range s.Ways() {
		if w.Name != way {
			continue
		}
		for i, r := range a.Rows {
			if r.Kind != model.BodyRow && r.Kind != model.JointRow && slices.Contains(w.Parts, r.Part) {
				return a.RowCurrent(i, 0, x)
			}
		}
	}
	t.Fatalf("no row of %q", way)
	return 0
}

// Four equal batteries on a thin bar whose sections have the internal resistance
// of a battery share as the ladder of nodal analysis does. Feed and return at
// the same end: with links x = r in both rails, the mesh equations of the three
// loops give 41, 11, 3 and 1 in 56. At opposite ends, by symmetry A = D and
// B = C, and A r = B r + x (I/4 …) gives 3, 1, 1 and 3 in 8. All in one point of the
// negative side: 13, 5, 2 and 1 in 21, a ladder with links in one rail only.
func TestLadder(t *testing.T) {
	const text = `current: 1 A
air: 20 °C
path:
  - batteries: A B C D
    voltage: 12.8 V
    internal resistance: %g mΩ
    each: [{battery post: M8, nut: 12 N·m, resistance: 0.01 µΩ}, {link bar: copper, section: 20 × 10 mm, length: 1 mm, resistance: 0.01 µΩ, measured: 1 µΩ}]
  - bus bar: annealed copper
    section: 20 × 0.5 mm
    studs: %s
    spacing: 2 m
    nuts: 20 N·m
    measured: 0.01 µΩ
    return: %s
  - cable: 1/0 AWG
    length: 1 m
`
	// The sections' resistance at 20 °C by ρl/A with IEC 60028's 1/58 Ω·mm²/m.
	const section = 2.0 / 58 / 10 * 1e3 // mΩ
	for _, test := range []struct {
		name, studs, back string
		over              float64 // internal resistance over that of a section
		want              [4]float64
	}{
		{"same end/equal", "A B C D out", "same end", 1, [4]float64{1. / 56, 3. / 56, 11. / 56, 41. / 56}},
		{"same end/the other way round", "out A B C D", "same end", 1, [4]float64{41. / 56, 11. / 56, 3. / 56, 1. / 56}},
		{"opposite end/equal", "A B C D out", "opposite end", 1, [4]float64{3. / 8, 1. / 8, 1. / 8, 3. / 8}},
		{"opposite end/ten times", "A B C D out", "opposite end", 10, [4]float64{3. / 11, 2.5 / 11, 2.5 / 11, 3. / 11}},
		{"none/equal", "A B C D out", "none", 1, [4]float64{1. / 21, 2. / 21, 5. / 21, 13. / 21}},
	} {
		t.Run(test.name, func(t *testing.T) {
			file := strings.Replace(fmt.Sprintf(text, section*test.over, test.studs, test.back), ", measured: 1 µΩ", "", 1)
			s, stack := understood(t, []byte(file))
			for i := range stack.Joints {
				stack.Joints[i].Measured = &model.Measured{Resistance: 1e-9}
			}
			a, x := settled(t, stack)
			for k, way := range []string{"A", "B", "C", "D"} {
				// The posts' and links' own ohms are a hundred-thousandth of the ladder's.
				if got := currentOf(t, s, a, x, way); math.Abs(got-test.want[k]) > 1e-4 {
					t.Errorf("%s carries %.5f, want %.5f", way, got, test.want[k])
				}
			}
		})
	}
}

// A branch that is taken out leaves the stack of a file that never had it, but
// for what parts are called.
func TestOpened(t *testing.T) {
	four := string(readFile(t, "testdata/good/four-batteries.yaml"))
	// Three branches of each kind, for one alone is none.
	three := strings.NewReplacer("            up:", "            over: [{cable: 16 mm², length: 1 m}]\n            up:",
		"  - inverter terminal", "      middle: [{cable: 35 mm², length: 1 m}]\n  - inverter terminal").Replace(string(readFile(t, "testdata/good/branches.yaml")))
	for _, test := range []struct{ name, file, way, without string }{
		{"battery", four, "C", strings.NewReplacer("batteries: A B C D", "batteries: A B D", "13.3 V, 13.2 V, 13.3 V]", "13.3 V, 13.3 V]").Replace(four)},
		{"branch/its lug lies below another", three, "left", three[:strings.Index(three, "      left:")] + three[strings.Index(three, "      right:"):]},
		{"branch/nested", three, "right: up", strings.Replace(three, "            up: [{cable: 16 mm², length: 50 cm}]\n", "", 1)},
	} {
		t.Run(test.name, func(t *testing.T) {
			s, _ := understood(t, []byte(test.file))
			way := slices.IndexFunc(s.Ways(), func(w WayInfo) bool { return w.Name == test.way })
			_, got, err := s.Opened(way)
			if err != nil {
				t.Fatal(err)
			}
			_, want := understood(t, []byte(test.without))
			if !reflect.DeepEqual(got, want) {
				t.Error("not the stack of a file without it")
			}
		})
	}
	t.Run("main/refused", func(t *testing.T) {
		s, _ := understood(t, []byte(four))
		for _, way := range []int{-1, 0, 99} {
			var wrong *WayError
			if _, _, err := s.Opened(way); !errors.As(err, &wrong) || wrong.Way != way {
				t.Errorf("way %d: %v", way, err)
			}
		}
	})
	t.Run("others lie on its stud/refused", func(t *testing.T) {
		s, _ := understood(t, written(`  - cable: 25 mm²
    length: 1 m
  - branches:
      a: [{battery switch: generic, nuts: 20 N·m}]
      b: [{cable: 25 mm², length: 1 m}]
  - cable: 25 mm²
    length: 1 m
`))
		if _, _, err := s.Opened(1); err == nil || !strings.Contains(err.Error(), "no stud clamps these") {
			t.Errorf("%v", err)
		}
	})
}

// Lugs on one stud lie on each other in the order of the file; the joint to the
// stud carries all.
func TestStackOfLugs(t *testing.T) {
	s, stack := understood(t, written(`  - battery post: M8
    nut: 12 N·m
  - steel washer: M8
  - branches:
      a: [{cable: 16 mm², length: 1 m}]
      b: [{steel washer: M8}, {cable: 16 mm², length: 1 m}]
      c: [{cable: 16 mm², length: 1 m}]
  - inverter terminal: M8
    nut: 10 N·m
`))
	var got []string
	for _, j := range stack.Joints {
		if j.Kind == model.Bolted {
			got = append(got, j.Name)
		}
	}
	want := []string{
		"battery post M8 to steel washer M8",
		"steel washer M8 to a: lug on battery post M8",
		"a: lug on battery post M8 to b: steel washer M8",
		"b: steel washer M8 to b: lug on battery post M8",
		"b: lug on battery post M8 to c: lug on battery post M8",
		"a: lug on inverter terminal M8 to inverter terminal M8",
		"b: lug on inverter terminal M8 to a: lug on inverter terminal M8",
		"c: lug on inverter terminal M8 to b: lug on inverter terminal M8",
	}
	if !slices.Equal(got, want) {
		t.Errorf("joints %q\nwant %q", got, want)
	}
	a, x := settled(t, stack)
	for i, r := range a.Rows {
		if r.Kind == model.JointRow && stack.Joints[r.Joint].Name == want[0] {
			if got := a.RowCurrent(i, 0, x); math.Abs(got-140) > 1e-6 {
				t.Errorf("the joint to the stud carries %g A, want all 140 A", got)
			}
		}
	}
	ways := s.Ways()
	for k, joints := range []int{1, 4, 5, 4} { // of each way, crimps among them
		if got := len(ways[k].Joints); got != joints {
			t.Errorf("the way %q has %d joints, want %d", ways[k].Name, got, joints)
		}
	}
}

func TestWays(t *testing.T) {
	s, stack := understood(t, readFile(t, "testdata/good/branches.yaml"))
	want := []WayInfo{
		{Name: "", Kind: MainWay, Parent: -1, Group: -1, Draw: -1},
		{Name: "left", Kind: BranchWay, Parent: 0, Draw: -1},
		{Name: "right", Kind: BranchWay, Parent: 0, Draw: -1},
		{Name: "right: up", Kind: BranchWay, Parent: 2, Draw: -1},
		{Name: "right: down", Kind: BranchWay, Parent: 2, Draw: -1},
	}
	got := s.Ways()
	parts, joints := 0, 0
	for i := range got {
		parts, joints = parts+len(got[i].Parts), joints+len(got[i].Joints)
		got[i].Parts, got[i].Joints = nil, nil
	}
	if parts != len(stack.Parts) || joints != len(stack.Joints) {
		t.Errorf("%d parts and %d joints, but %d and %d in the ways", len(stack.Parts), len(stack.Joints), parts, joints)
	}
	if got[1].Group != got[2].Group || got[3].Group != got[4].Group || got[1].Group == got[3].Group {
		t.Errorf("groups %v", got)
	}
	for i := range got {
		got[i].Group = want[i].Group
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("ways %+v\nwant %+v", got, want)
	}
}

// Each circuit draws its own current; together they are what the stack carries.
func TestCircuits(t *testing.T) {
	s, stack := understood(t, readFile(t, "testdata/good/circuits.yaml"))
	if got := stack.Supply.Current(0); got != 75 {
		t.Errorf("the circuits carry %g A at first, want 75 A", got)
	}
	if got := stack.Supply.Current(601); got != 65 {
		t.Errorf("the circuits carry %g A after 10 min, want 65 A", got)
	}
	for way, want := range map[int]float64{1: 15, 2: 60} {
		w := s.Ways()[way]
		if w.Draw < 0 || stack.Draws[w.Draw].Name != w.Name || stack.Draws[w.Draw].Current.Current(0) != want {
			t.Errorf("%s draws by %d, want %g A", w.Name, w.Draw, want)
		}
	}
	a, x := settled(t, stack)
	for way, want := range map[string]float64{"fridge": 15, "heater": 60, "": 75} {
		if got := currentOf(t, s, a, x, way); math.Abs(got-want) > 1e-9 {
			t.Errorf("%q carries %g A, want %g A", way, got, want)
		}
	}
}

// With no load the currents of unlike batteries go round, and heat what they pass:
// one of 13.4 V feeds the other two of 13.2 V, all with the same ohms R, so that it
// gives (13.4 − 13.2)/(1.5 R) and each of the others takes half of that. The return
// in one point and the studs at the fed one leave but the links' ohms besides.
func TestCirculating(t *testing.T) {
	s, stack := understood(t, []byte(`current: 0 A
air: 20 °C
path:
  - batteries: A B C
    voltage: [13.2 V, 13.4 V, 13.2 V]
    internal resistance: 10 mΩ
    each: [{battery post: M8, nut: 12 N·m}, {cable: 50 mm², length: 1 m}]
  - bus bar: copper
    section: 40 × 10 mm
    studs: A B C out
    spacing: 40 mm
    nuts: 20 N·m
    return: none
  - cable: 50 mm²
    length: 1 m
`))
	a, x := settled(t, stack)
	gives, takes := currentOf(t, s, a, x, "B"), [2]float64{currentOf(t, s, a, x, "A"), currentOf(t, s, a, x, "C")}
	if math.Abs(gives+takes[0]+takes[1]) > 1e-9*gives {
		t.Errorf("currents %v and %v do not add up to 0 A", gives, takes)
	}
	ohms := 0.2 / 1.5 / gives // of each way
	cable := 0.36e-3          // Ω, of 1 m of 50 mm² at 20 °C by 1/58 Ω·mm²/m, rounded up
	if ohms < 10e-3 || ohms > 10e-3+2*cable || math.Abs(takes[0]+gives/2) > 1e-3*gives {
		t.Errorf("%v A go round and part into %v A: %v Ω in each way", gives, takes, ohms)
	}
	hottest := 0.0
	for _, r := range a.Rows {
		hottest = max(hottest, x[r.Nodes[0]])
	}
	if hottest < 293.2 {
		t.Errorf("nothing is warmer than %v K in air of 293.15 K", hottest)
	}
}

// A power draws the current that goes with the voltage that is left: with all of
// the path's drop in R, I = (E − √(E² − 4 P R))/(2 R).
func TestPower(t *testing.T) {
	_, stack := understood(t, readFile(t, "testdata/good/plain-power.yaml"))
	a, x := settled(t, stack)
	r := a.Network.ReadBranch(a.Branches[0].ID, 0, x)
	const e, p = 24.0, 1500.0
	want := (e - math.Sqrt(e*e-4*p*r.Ohm)) / (2 * r.Ohm)
	if math.Abs(r.Current-want) > 1e-6*want || !(want > p/e) {
		t.Errorf("draws %.6f A over %g Ω, want %.6f A", r.Current, r.Ohm, want)
	}
	if got := stack.Supply.Current(0); got != p/e {
		t.Errorf("the headline is %g A, want %g A", got, p/e)
	}
}

// What is added to the air is added to all of its course.
func TestAirCourse(t *testing.T) {
	s, stack := understood(t, readFile(t, "testdata/good/duty.yaml"))
	if s.File.Air.Value != 25+273.15 || stack.Surroundings.Air != 25+273.15 || stack.Surroundings.Radiant != 0 {
		t.Errorf("air %v, surroundings %+v", s.File.Air.Value, stack.Surroundings)
	}
	if stack.Period() != 3600 {
		t.Errorf("all repeats after %g s, want 3600 s", stack.Period())
	}
	file := *s.File
	file.Air.Value += 10
	warmer := *s
	warmer.File = &file
	changed, err := warmer.Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []float64{0, 600, 1800, 3000, 3600 + 600} {
		if got := changed.Course.Current(at) - stack.Course.Current(at); math.Abs(got-10) > 1e-9 {
			t.Errorf("%g K more at %g s, want 10 K", got, at)
		}
	}
}

// The end of a cable that is held at the air follows it.
func TestHeldAtAir(t *testing.T) {
	end := func(air string) float64 {
		_, stack := understood(t, []byte("current: 1 A\nair: "+air+"\npath:\n  - cable: 50 mm²\n    length: 1 m\n    goes on: held at air\n    lugs: none\n"))
		a, x := settled(t, stack)
		return x[a.Rows[0].Nodes[0]]
	}
	if still, moving := end("30 °C"), end("[30 °C for 1 h, 10 °C for 1 h]"); math.Abs(still-moving) > 1e-5 || math.Abs(still-303.15) > 0.01 {
		t.Errorf("%.6f K in still air, %.6f K in air with a course; want 303.15 K", still, moving)
	}
}

// Alike parts side by side rest on one assumption, others on their own.
func TestAssumptionsOfGroups(t *testing.T) {
	ids := func(file string) map[string]bool {
		s, _ := understood(t, readFile(t, "testdata/good/"+file+".yaml"))
		out := map[string]bool{}
		for _, a := range s.Assumptions() {
			out[a.ID] = true
		}
		return out
	}
	for file, want := range map[string][]string{
		"four-batteries": {"A … D: compact holder.base width", "A … D: battery post M8.body takes", "bus bar.end over width"},
		"circuits":       {"fridge, heater: compact holder.base width", "heater: terminal M8.body takes", "wall of polycarbonate.conductivity"},
		"branches":       {"left: cable 50 mm².exposed", "right: up: cable 16 mm².exposed", "right: shunt.across"},
		"closed-box":     {"left, middle, right: battery post M8.body takes", "batteries.internal resistance", "box.mounting", "box.holds"},
	} {
		got := ids(file)
		for _, id := range want {
			if !got[id] {
				t.Errorf("%s: nothing is assumed under %q", file, id)
			}
		}
	}
	s, _ := understood(t, readFile(t, "testdata/good/four-batteries.yaml"))
	const id = "A … D: compact holder.base width"
	stack, err := s.Stack(map[string]float64{id: 0.022})
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []int{1, 7, 13, 19} {
		if got := stack.Parts[part].(*model.Block).Width; got != 0.022 {
			t.Errorf("base %d is %g m wide, want 0.022 m", part, got)
		}
	}
}

// A part that is put in comes before the one it is put in front of, on its way.
func TestWithItem(t *testing.T) {
	s, before := understood(t, readFile(t, "testdata/good/branches.yaml"))
	at := slices.IndexFunc(s.File.Path, func(i Item) bool { return s.File.fullName(i.Way) == "right: down" })
	washer := Item{Kind: "steel washer", Of: Word{Text: "M10", Set: true}}
	stack, err := s.WithItem(at, washer).Stack(nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(stack.Parts) != len(before.Parts)+1 || len(stack.Joints) != len(before.Joints)+1 {
		t.Errorf("%d parts and %d joints, before %d and %d", len(stack.Parts), len(stack.Joints), len(before.Parts), len(before.Joints))
	}
	if !slices.ContainsFunc(stack.Parts, func(p model.Part) bool { return p.Name() == "right: down: steel washer M10" }) {
		t.Error("no washer on the way")
	}
	if again, err := s.Stack(nil); err != nil || !reflect.DeepEqual(again, before) {
		t.Errorf("the scenario itself has changed: %v", err)
	}
}
