package study

import (
	"context"
	"math"
	"strings"
	"testing"

	"clampheat/scenarios"
)

// bank is a bank of batteries to change in tests: the studs of the bar are to be
// filled in.
const bank = `title: Test bank
current: 300 A
air: 25 °C
path:
  - batteries: NAMES
    voltage: VOLTS
    internal resistance: 2 mΩ
    each:
      - battery post: M8
        nut: 12 N·m
      - compact holder: generic
        fuse: FUSE
        nut: 8.5 N·m
      - cable: 1/0 AWG
        length: 0.5 m
        insulation: 105 °C
  - bus bar: copper, tin-plated
    section: 50 × 6 mm
    studs: STUDS
    spacing: 50 mm
    nuts: 21.5 N·m
    return: RETURN
  - cable: 4/0 AWG
    length: 2 m
    insulation: 105 °C
`

// bankOf fills in names, studs and what else is told as "WORD=value".
func bankOf(t *testing.T, names, studs string, more ...string) *scenarios.Scenario {
	t.Helper()
	text := strings.NewReplacer("NAMES", names, "STUDS", studs).Replace(bank)
	for _, m := range append(more, "VOLTS=12.8 V", "FUSE=200 A", "RETURN=none") {
		word, value, _ := strings.Cut(m, "=")
		text = strings.Replace(text, word, value, 1)
	}
	return read(t, text)
}

func branch(t *testing.T, list []BranchLine, name string) BranchLine {
	t.Helper()
	for _, b := range list {
		if b.Name == name {
			return b
		}
	}
	t.Fatalf("no way %q among %+v", name, list)
	return BranchLine{}
}

// Two ways that mirror each other share exactly, and the currents add up.
func TestBranches_symmetric(t *testing.T) {
	s := steady(t, bankOf(t, "A B", "A out B"))
	a, b := branch(t, s.Branches, "A"), branch(t, s.Branches, "B")
	if math.Abs(a.Current-150) > 1e-9 || math.Abs(b.Current-150) > 1e-9 || math.Abs(a.Share-0.5) > 1e-12 {
		t.Errorf("A carries %.12g A, B %.12g A", a.Current, b.Current)
	}
	if math.Abs(float64(a.Temp-b.Temp)) > 1e-6 {
		t.Errorf("A %v, B %v", a.Temp, b.Temp)
	}
	if len(s.Spreads) != 1 || math.Abs(s.Spreads[0].Ratio-1) > 1e-9 || math.Abs(s.Spreads[0].OverEven-1) > 1e-9 {
		t.Errorf("%+v", s.Spreads)
	}
	if s.Circulating != nil {
		t.Errorf("alike batteries circulate: %+v", s.Circulating)
	}
	if !(s.Numerics.Kirchhoff < 1e-9) {
		t.Errorf("Kirchhoff's laws hold to %g", s.Numerics.Kirchhoff)
	}
}

// Four equal batteries with their feed at one end: the nearer carries more where
// the negative leaves at the same end, and both ends are alike where it leaves at
// the other, as in the ladder of equal links in both rails.
func TestBranches_return(t *testing.T) {
	same := steady(t, bankOf(t, "A B C D", "A B C D out", "RETURN=same end"))
	for i := 1; i < 4; i++ {
		if same.Branches[i].Current <= same.Branches[i-1].Current {
			t.Errorf("%s, nearer to where the current leaves, carries %g A, %s %g A", same.Branches[i].Name, same.Branches[i].Current,
				same.Branches[i-1].Name, same.Branches[i-1].Current)
		}
	}
	sum := 0.0
	for _, b := range same.Branches {
		sum += b.Current
	}
	if math.Abs(sum-300) > 1e-9*300 {
		t.Errorf("%g A in all", sum)
	}
	opposite := steady(t, bankOf(t, "A B C D", "A B C D out", "RETURN=opposite end"))
	if s, o := same.Spreads[0].Ratio, opposite.Spreads[0].Ratio; o >= s {
		t.Errorf("opposite ends share no better: %g, %g at the same end", o, s)
	}
}

// A file with a way opened is one without it.
func TestOpened_equalsAFileWithoutIt(t *testing.T) {
	s := steady(t, bankOf(t, "A B C", "A B C out"))
	less := steady(t, bankOf(t, "A B", "A B C out"))
	var c OpenedCase
	for _, o := range s.Opened {
		if o.Name == "C" {
			c = o
		}
	}
	if c.Name == "" || len(s.Opened) != 3 {
		t.Fatalf("%+v", s.Opened)
	}
	if math.Abs(float64(c.Temp-less.Hottest.Temp)) > 1e-6 || c.Place != less.Hottest.Place {
		t.Errorf("opened %v at %s, without it %v at %s", c.Temp, c.Place, less.Hottest.Temp, less.Hottest.Place)
	}
	for _, name := range []string{"A", "B"} {
		if got, want := branch(t, c.Branches, name).Current, branch(t, less.Branches, name).Current; math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %g A opened, %g A without", name, got, want)
		}
	}
	if c.Largest == nil || c.Current != 300 || len(c.Branches) != 2 {
		t.Errorf("%+v", c)
	}
	if len(c.Fuses) != 0 {
		t.Errorf("150 A through 200 A: %+v", c.Fuses)
	}
}

// Whether the fuses of the others follow, and after how long.
func TestOpened_fusesFollow(t *testing.T) {
	for _, test := range []struct {
		fuse    string
		loaded  bool
		follows bool
		melts   bool
	}{
		{"200 A", false, false, false},
		{"175 A", true, false, false},
		{"125 A", true, true, false},
		{"125 A\n        melts: [140 A in 60 min, 250 A in 30 s]", true, true, true},
	} {
		t.Run(test.fuse, func(t *testing.T) {
			sc := bankOf(t, "A B C", "A B C out", "FUSE="+test.fuse)
			list, err := opened(context.Background(), sc, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, o := range list {
				if (len(o.Fuses) == 2) != test.loaded {
					t.Fatalf("%+v", o.Fuses)
				}
				for _, f := range o.Fuses {
					if f.Follows != test.follows || (f.Melts > 0) != test.melts || f.Way == "" || f.Way == o.Name {
						t.Errorf("%+v", f)
					}
					if math.Abs(f.Current-150) > 2 || f.Load <= usable {
						t.Errorf("%g A, %g of its rating", f.Current, f.Load)
					}
				}
			}
		})
	}
}

// A curve is straight between its points in the logarithms of both.
func TestMeltsAfter(t *testing.T) {
	points := []scenarios.Melt{{Current: 900, Time: 1}, {Current: 400, Time: 400}, {Current: 600, Time: 30}}
	for _, test := range []struct{ current, want float64 }{
		{300, 0}, {400, 400}, {600, 30}, {900, 1}, {2000, 1},
		{math.Sqrt(400 * 600), math.Sqrt(400 * 30)}, {math.Sqrt(600 * 900), math.Sqrt(30)},
	} {
		if got := meltsAfter(points, test.current); math.Abs(got-test.want) > 1e-9*test.want {
			t.Errorf("%g A melt after %g s, want %g", test.current, got, test.want)
		}
	}
	if meltsAfter(nil, 100) != 0 {
		t.Error("no points, no time")
	}
}

// Between two unlike batteries at rest flows their difference of voltage over all
// ohms of the ring: I = (E1 − E2)/(2 r + R1 + R2 + R of the bar between).
func TestCirculating(t *testing.T) {
	s := steady(t, bankOf(t, "A B", "A B out", "VOLTS=[12.9 V, 12.7 V]"))
	if len(s.Circulating) != 2 {
		t.Fatalf("%+v", s.Circulating)
	}
	a, b := s.Circulating[0].Current, s.Circulating[1].Current
	if math.Abs(a+b) > 1e-9*a || a <= 0 {
		t.Errorf("%g A and %g A", a, b)
	}
	ring := 2 * 2e-3
	for _, l := range s.Branches {
		ring += l.Drop / l.Current
	}
	for _, r := range s.Rows {
		if r.Name == "bus bar, A to B" {
			ring += r.Resistance
		}
	}
	if want := 0.2 / ring; math.Abs(a-want) > 0.005*want {
		t.Errorf("%g A circulate, by the ohms of the ring %g A", a, want)
	}
	if l := branch(t, s.Branches, "A"); l.Current <= branch(t, s.Branches, "B").Current {
		t.Errorf("the battery of more voltage carries less: %+v", s.Branches)
	}
}

// Two alike cables in parallel carry half each and drop as much as one with half
// the current.
func TestBranches_cables(t *testing.T) {
	const two = `title: Two cables
current: 280 A
air: 25 °C
path:
  - battery post: M10
    nut: 22 N·m
  - branches:
      one: [{cable: 1/0 AWG, length: 1 m, insulation: 105 °C}]
      other: [{cable: 1/0 AWG, length: 1 m, insulation: 105 °C}]
  - inverter terminal: M10
    nut: 22 N·m
`
	s := steady(t, read(t, two))
	one, other := branch(t, s.Branches, "one"), branch(t, s.Branches, "other")
	if math.Abs(one.Current+other.Current-280) > 1e-9*280 {
		t.Errorf("%g A and %g A", one.Current, other.Current)
	}
	// Lug lies on lug: the outer one has one more face in its way.
	if math.Abs(one.Share-0.5) > 0.02 {
		t.Errorf("shares %g and %g", one.Share, other.Share)
	}
	if math.Abs(one.Drop-other.Drop) > 0.02*one.Drop {
		t.Errorf("drops %g V and %g V", one.Drop, other.Drop)
	}
	if len(s.Opened) != 2 || s.Opened[0].Largest == nil || math.Abs(s.Opened[0].Largest.Current-280) > 1e-9 {
		t.Errorf("%+v", s.Opened)
	}
}

const circuits = `title: Circuits
air: 25 °C
path:
  - cable: 50 mm²
    length: 2 m
    insulation: 90 °C
  - bus bar: copper
    section: 25 × 5 mm
    studs: [in, fridge, heater]
    spacing: 40 mm
    nuts: 11 N·m
    stud: M8
  - circuits:
      fridge: {current: 15 A, path: [{cable: 6 mm², length: 3 m, insulation: 90 °C}]}
      heater: {current: 60 A, path: [{cable: 16 mm², length: 3 m, insulation: 90 °C}]}
`

// Circuits have currents of their own: they share nothing, and none is opened.
func TestBranches_circuits(t *testing.T) {
	s := steady(t, read(t, circuits))
	if s.Current != 75 || branch(t, s.Branches, "fridge").Current != 15 || branch(t, s.Branches, "heater").Current != 60 {
		t.Errorf("%g A in all, %+v", s.Current, s.Branches)
	}
	if len(s.Spreads) != 0 || len(s.Opened) != 0 {
		t.Errorf("%+v %+v", s.Spreads, s.Opened)
	}
	// The cable that feeds both has the whole.
	for _, r := range s.Rows {
		if r.Name == "cable 50 mm²" && r.Current != 75 {
			t.Errorf("the feed carries %g A", r.Current)
		}
	}
	r := rate(t, read(t, circuits), RateOptions{})
	if !(r.Likely.Current > 75) {
		t.Errorf("rated %g A", r.Likely.Current)
	}
	// Each keeps its proportion: at the rating the first limit just holds.
	hot := at(t, read(t, circuits), r.Likely.Current, 0)
	if d := hot.temp(rowNamed(t, hot, r.Likely.By.Place)) - float64(r.Likely.By.Limit); math.Abs(d) > 0.01 {
		t.Errorf("%g K from the limit", d)
	}
}

// The rows of a way stand in the order of its current, each once.
func TestRows_order(t *testing.T) {
	s := steady(t, bankOf(t, "A B", "A B out"))
	seen := map[string]bool{}
	var a []string
	for _, r := range s.Rows {
		if seen[r.Kind+r.Name] {
			t.Errorf("%s twice", r.Name)
		}
		seen[r.Kind+r.Name] = true
		if r.Way == "A" && (r.Kind == "part" || r.Kind == "terminal" || r.Kind == "element") {
			a = append(a, strings.TrimPrefix(r.Name, "A: "))
		}
	}
	want := "battery post M8 | compact holder, base | fuse 200 A, base side | fuse 200 A | fuse 200 A, nut side | " +
		"lug on compact holder | cable 1/0 AWG | lug on bus bar, stud A"
	if got := strings.Join(a, " | "); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	// The profile runs from a post to the end of the last cable, always forwards.
	for i := 1; i < len(s.Profile); i++ {
		if s.Profile[i].Along < s.Profile[i-1].Along {
			t.Fatalf("the profile goes back at %g m", s.Profile[i].Along)
		}
	}
	if len(s.Beside) != 1 || len(s.Aside) != 1 {
		t.Errorf("%d ways beside, %v aside", len(s.Beside), s.Aside)
	}
}

// A way keeps its drop when the first of the ways in it is opened: the voltage
// over those that still carry is more than before, not none.
func TestOpened_dropRunsAlongAWayThatCarries(t *testing.T) {
	s := steady(t, read(t, `title: Nested
current: 120 A
air: 25 °C
path:
  - battery post: M8
    nut: 12 N·m
  - branches:
      P:
        - branches:
            p1: [{cable: 4 AWG, length: 1 m}]
            p2: [{cable: 2 AWG, length: 1 m}]
      Q: [{cable: 2 AWG, length: 1 m}]
  - inverter terminal: M8
    nut: 12 N·m
`))
	for _, c := range s.Opened {
		if c.Name != "p1" && c.Name != "p2" {
			continue
		}
		rest := map[string]string{"p1": "p2", "p2": "p1"}[c.Name]
		outer, inner := branch(t, c.Branches, "P").Drop, branch(t, c.Branches, rest).Drop
		if inner <= 0 || outer < inner || outer <= branch(t, s.Branches, "P").Drop {
			t.Errorf("%s opened: %g V over P, of which %g V over %s; %g V with both", c.Name, outer, inner, rest, branch(t, s.Branches, "P").Drop)
		}
	}
}
