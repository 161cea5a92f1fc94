package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"clampheat/materials"
	"clampheat/scenarios"
)

func compare(t *testing.T, scs ...*scenarios.Scenario) *Compare {
	t.Helper()
	var list []Candidate
	for i, sc := range scs {
		list = append(list, Candidate{Label: string(rune('A' + i)), Scenario: sc})
	}
	c, err := RunCompare(context.Background(), list)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// bolted is the feed with another kind of holder.
var bolted = with(`  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m
`, `  - cable: 1/0 AWG
    length: 0.3 m
    insulation: 105 °C
  - high-capacity holder: generic
    fuse: 300 A
    nuts: 21.5 N·m
`)

// pairs that differ in one way, in many, and not at all.
var pairs = []struct {
	name, first, second string
	only                string  // the only cause, "" where there are several
	stray               float64 // share of the difference that may go to others
}{
	{"same", feed, feed, "none", 0},
	{"fuse drop", feed, with("fuse: 300 A", "fuse: 300 A\n    fuse drop: 95 mV at 300 A"), "fuse watts", 1e-3},
	{"faces", feed, with("nut: 8.5 N·m", "nut: 8.5 N·m\n    faces: corroded"), "", 0},
	{"measured joint", feed, with("nut: 8.5 N·m", "nut: 8.5 N·m\n    measured: 40 µΩ"), "joint watts", 1e-3},
	{"surface", feed, with("nut: 8.5 N·m", "nut: 8.5 N·m\n    surface: 20 cm²"), "surface", 0.1}, // its W/K are taken at one rise
	{"jacket", feed, with("insulation: 105 °C", "insulation: 105 °C\n    wall: 3 mm"), "cable", 1e-3},
	{"far nut", feed, with("inverter terminal: M8\n    nut: 12 N·m", "inverter terminal: M8\n    nut: 6 N·m"), "neighbours", 0},
	{"air", feed, with("air: 25 °C", "air: 40 °C"), "current and room", 1e-3},
	{"current", feed, with("current: 140 A", "current: 100 A"), "current and room", 1e-3},
	{"cover", bolted, strings.Replace(bolted, "nuts: 21.5 N·m", "nuts: 21.5 N·m\n    cover: open", 1), "", 0},
	{"holder", feed, bolted, "", 0},
	{"fuse or none", feed, with("  - compact holder: generic\n    fuse: 300 A\n    nut: 8.5 N·m\n", ""), "", 0},
}

func TestCompare_why(t *testing.T) {
	for _, p := range pairs {
		t.Run(p.name, func(t *testing.T) {
			a, b := read(t, p.first), read(t, p.second)
			forth, back := compare(t, a, b), compare(t, b, a)
			why := forth.Against[0].Why
			if why.Missing != "" {
				t.Fatal(why.Missing)
			}
			settled := float64(steady(t, b).Hottest.Temp - steady(t, a).Hottest.Temp)
			sum := 0.0
			for _, c := range why.Causes {
				sum += c.Worth
			}
			if math.Abs(sum-settled) > 1e-6 || math.Abs(why.Total-settled) > 1e-6 {
				t.Errorf("causes add up to %g K, said to be %g K, settled states differ by %g K", sum, why.Total, settled)
			}
			other := map[string]float64{}
			for _, c := range back.Against[0].Why.Causes {
				other[c.Name] = c.Worth
			}
			for _, c := range why.Causes {
				// The room of the first is that of both when surfaces are held
				// against each other, so that a pair with unlike rooms is not
				// quite the same both ways.
				if math.Abs(c.Worth+other[c.Name]) > 1e-3 {
					t.Errorf("%s: %g K forth, %g K back", c.Name, c.Worth, other[c.Name])
				}
				if p.only != "" && c.Name != p.only && math.Abs(c.Worth) > p.stray*math.Abs(settled)+1e-6 {
					t.Errorf("%s is given %g K of %g K, but only %s differs", c.Name, c.Worth, settled, p.only)
				}
			}
		})
	}
}

// The cases at both ends are the two stacks, whatever lies between.
func TestExplain_ends(t *testing.T) {
	ctx := context.Background()
	for _, p := range pairs {
		t.Run(p.name, func(t *testing.T) {
			var sides [2]*side
			for i, text := range []string{p.first, p.second} {
				c, err := newContender(ctx, Candidate{Label: "x", Scenario: read(t, text)})
				if err != nil {
					t.Fatal(err)
				}
				sides[i] = c.side
			}
			e := &explanation{sides: sides, frame: map[[4]int]*frame{}}
			for i, s := range sides {
				e.room[i] = s.core.ways(s.state.assembly, s.stack, 30)
				e.sum[i] = reach(e.room[i], s.state)
			}
			if err := e.compare(); err != nil {
				t.Fatal(err)
			}
			for i, set := range []int{0, 1<<len(e.alive) - 1} {
				got, err := e.solve(ctx, set)
				if err != nil {
					t.Fatal(err)
				}
				if d := got - sides[i].hottest(); math.Abs(d) > 1e-6 {
					t.Errorf("end %d is %g K from its stack", i, d)
				}
			}
		})
	}
}

// Efficiency, null player, symmetry and additivity: the four properties that
// have no other solution (Shapley 1953, theorem of section 3; from memory).
func TestShapley_properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(t, "n")
		draw := func(name string) []float64 {
			return rapid.SliceOfN(rapid.Float64Range(-100, 100), 1<<n, 1<<n).Draw(t, name)
		}
		v, w := draw("v"), draw("w")
		// A null player and, where there are three, two alike.
		null, alike := 0, n >= 3
		for set := range v {
			if set&1 == 1 {
				v[set] = v[set&^1]
			}
			if alike && set>>1&3 == 2 {
				v[set] = v[set&^6|2]
			}
		}
		both := make([]float64, len(v))
		for i := range both {
			both[i] = v[i] + w[i]
		}
		of, ow, ob := Shapley(n, v), Shapley(n, w), Shapley(n, both)
		sum := 0.0
		for g := range of {
			sum += of[g]
			if math.Abs(of[g]+ow[g]-ob[g]) > 1e-9 {
				t.Fatalf("not additive at %d", g)
			}
		}
		if math.Abs(sum-(v[len(v)-1]-v[0])) > 1e-9 {
			t.Fatalf("shares add up to %g, not %g", sum, v[len(v)-1]-v[0])
		}
		if math.Abs(of[null]) > 1e-9 {
			t.Fatalf("what changes nothing is given %g", of[null])
		}
		if alike && math.Abs(of[1]-of[2]) > 1e-9 {
			t.Fatalf("two that do the same are given %g and %g", of[1], of[2])
		}
	})
}

func TestCompare(t *testing.T) {
	c := compare(t, read(t, feed), read(t, bolted))
	t.Run("headline/as steady", func(t *testing.T) {
		for i, text := range []string{feed, bolted} {
			s := steady(t, read(t, text))
			if got := c.Columns[i]; got.Hottest != s.Hottest || got.Drop != s.Drop || got.Heat != s.Heat {
				t.Errorf("%+v, want %+v", got.Hottest, s.Hottest)
			}
		}
	})
	t.Run("15 min/as soak", func(t *testing.T) {
		s, err := RunSoak(context.Background(), read(t, feed), SoakOptions{For: 900})
		if err != nil {
			t.Fatal(err)
		}
		if d := float64(c.Columns[0].After15 - s.Hottest.Temp); math.Abs(d) > 0.02 {
			t.Errorf("%g K from the soak", d)
		}
		if d := c.Columns[0].To90 - s.To90; math.Abs(d) > 0.01*s.To90 {
			t.Errorf("90 %% at %g s, soak %g s", c.Columns[0].To90, s.To90)
		}
	})
	t.Run("largest current/as rating", func(t *testing.T) {
		for _, col := range c.Columns {
			if col.Largest == nil || col.Largest.Current < 140 {
				t.Errorf("%+v", col.Largest)
			}
		}
	})
	t.Run("worst joint/no cooler", func(t *testing.T) {
		for _, col := range c.Columns {
			if col.Worst == nil || col.Worst.Temp < col.Hottest.Temp {
				t.Errorf("%+v", col.Worst)
			}
		}
	})
	t.Run("verdict/coolest of the columns", func(t *testing.T) {
		v := c.Verdict
		if v.By < 0 || v.Tried != 27 || v.TooClose != (v.Agree < v.Tried) {
			t.Errorf("%+v", v)
		}
	})
	t.Run("unlike/parts named", func(t *testing.T) {
		if text := strings.Join(c.Against[0].Parts, "; "); !strings.Contains(text, "0.3 m more of cable in the second") || !strings.Contains(text, "compact holder in the first only") {
			t.Error(text)
		}
	})
	t.Run("json/finite", func(t *testing.T) {
		if _, err := json.Marshal(c); err != nil {
			t.Error(err)
		}
	})
	t.Run("same twice/alike", func(t *testing.T) {
		c := compare(t, read(t, feed), read(t, feed))
		if a := c.Against[0]; a.Cooler != 0 || a.Agree != a.Tried || len(a.Room)+len(a.Parts) != 0 {
			t.Errorf("%+v", a)
		}
	})
}

// Which of two wins can hang on what nobody knows: a fuse with a stated drop
// between the ends of the generic range is cooler only against the worse of them.
func TestCompare_tooClose(t *testing.T) {
	c := compare(t, read(t, feed), read(t, with("fuse: 300 A", "fuse: 300 A\n    fuse drop: 80 mV at 300 A")))
	if a := c.Against[0]; !a.TooClose || a.Agree == 0 || a.Agree == a.Tried {
		t.Errorf("%d of %d agree", a.Agree, a.Tried)
	}
}

func TestCompare_noState(t *testing.T) {
	mad := read(t, with("current: 140 A", "current: 3000 A"))
	c := compare(t, mad, read(t, feed))
	if c.Columns[0].Ends == "" || c.Columns[1].Ends != "" || c.Verdict != nil || c.Exit() != 3 || len(c.Against) != 0 {
		t.Errorf("%+v", c)
	}
	if _, err := json.Marshal(c); err != nil {
		t.Error(err)
	}
	_, err := RunCompare(context.Background(), []Candidate{{"a", mad}, {"b", mad}})
	var none *NoAnswerError
	if !errors.As(err, &none) {
		t.Errorf("%v", err)
	}
	_, err = RunCompare(context.Background(), []Candidate{{"a", mad}})
	var input *InputError
	if !errors.As(err, &input) {
		t.Errorf("%v", err)
	}
}

// Worse joints, worse faces and a worse fuse never cool the hottest terminal by
// more than a colder joint's better conduction can explain.
func TestGrid_ordered(t *testing.T) {
	ctx := context.Background()
	c, err := newContender(ctx, Candidate{Label: "x", Scenario: read(t, feed)})
	if err != nil {
		t.Fatal(err)
	}
	if len(c.grid) != gridSize {
		t.Fatalf("%d conditions", len(c.grid))
	}
	for i, at := range c.grid {
		for _, step := range []int{1, 3, 9} {
			if (i/step)%3 < 2 && c.grid[i+step] < at-0.1 {
				t.Errorf("condition %d: %g K, worse by one step in %d: %g K", i, at, step, c.grid[i+step])
			}
		}
	}
	if c.grid[1]-c.grid[0] < 0.5 {
		t.Errorf("the fuse's range moves the hottest terminal by %g K only", c.grid[1]-c.grid[0])
	}
}

func TestSizing(t *testing.T) {
	text := with("air: 25 °C", "air: 50 °C\nbank voltage: 12.8 V\nreturn: {cable: 1/0 AWG, length: 1.5 m}\nripple: 50 %")
	text = strings.Replace(text, "fuse: 300 A", "fuse: 300 A\n    interrupting rating: 10 kA", 1)
	sc := read(t, text)
	check, err := RunCheck(context.Background(), sc, Options{})
	if err != nil {
		t.Fatal(err)
	}
	s := check.Sizing
	near := func(t *testing.T, got, want, tol float64) {
		t.Helper()
		if math.Abs(got-want) > tol*math.Abs(want) {
			t.Errorf("got %g, want %g", got, want)
		}
	}
	rms := 140 * math.Sqrt(1.25)
	t.Run("fuse/rms of 0.8 rated", func(t *testing.T) {
		near(t, s.Fuses[0].Loaded, rms/240, 1e-9)
		near(t, s.Fuses[0].Interrupting, 10e3, 1e-9)
	})
	t.Run("cable/row and factor", func(t *testing.T) {
		// 33 CFR 183.425 Table 5: 1/0 AWG at 105 °C, 285 A outside engine
		// spaces, and 0.85 within them, at 50 °C.
		near(t, s.Cables[0].Tabled, 285, 1e-9)
		near(t, s.Cables[0].Factor, 0.85, 0.01)
		near(t, s.Cables[0].Loaded, rms/s.Cables[0].Allowed, 1e-9)
	})
	t.Run("drop/return and bank", func(t *testing.T) {
		c, err := materials.LookupConductor("1/0 AWG")
		if err != nil {
			t.Fatal(err)
		}
		cold := 140 * 1.5 * c.Resistance20
		if s.Drop.Return < 1.1*cold || s.Drop.Return > 1.4*cold {
			t.Errorf("return %g V, cold %g V", s.Drop.Return, cold)
		}
		near(t, s.Drop.Total, s.Drop.Path+s.Drop.Return, 1e-12)
		near(t, s.Drop.Share, s.Drop.Total/12.8, 1e-12)
	})
	t.Run("cable/no row", func(t *testing.T) {
		check, err := RunCheck(context.Background(), read(t, with("cable: 1/0 AWG", "cable: 50 mm²")), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if c := check.Sizing.Cables[0]; c.Unknown == "" || c.Allowed != 0 {
			t.Errorf("%+v", c)
		}
		if d := check.Sizing.Drop; d.Return != 0 || d.Share != 0 {
			t.Errorf("%+v", d)
		}
	})
}

// Ten stacks, which the program is to compare in half a second, its start and
// the chart included.
func BenchmarkCompare(b *testing.B) {
	var list []Candidate
	for i := range 5 {
		for _, text := range []string{feed, bolted} {
			sc, err := scenarios.Read("b.yaml", []byte(strings.Replace(text, "current: 140 A", "current: "+string(rune('1'+i))+"50 A", 1)))
			if err != nil {
				b.Fatal(err)
			}
			list = append(list, Candidate{text[:3], sc})
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := RunCompare(context.Background(), list); err != nil {
			b.Fatal(err)
		}
	}
}
