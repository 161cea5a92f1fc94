package scenarios

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"clampheat/model"
	"clampheat/scenarios/quantity"
)

const varied = `title: Feed
current: 140 A
air: 25 °C
path:
  - battery post: M8
    nut: 12 N·m
  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m
  - cable: 1/0 AWG
    length: 1.5 m
    insulation: 105 °C
  - inverter terminal: M8
    nut: 12 N·m
variants:
`

func readVaried(t *testing.T, variants string) []*Scenario {
	t.Helper()
	all, err := ReadAll("varied.yaml", []byte(varied+variants))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestReadAll(t *testing.T) {
	all := readVaried(t, `  - name: half torque
    compact holder:
      nut: 4.25 N·m
      faces: tarnished
  - name: warm and thick
    air: 40 °C
    cable 1/0 AWG: 2/0 AWG
  - name: other holder
    compact holder:
      replace with:
        - cable: 1/0 AWG
          length: 0.3 m
          insulation: 105 °C
        - high-capacity holder: generic
          fuse: 300 A
          nuts: 21.5 N·m
`)
	if len(all) != 4 {
		t.Fatalf("%d scenarios", len(all))
	}
	holder := func(i int) Item { return all[i].File.Path[1] }
	t.Run("base/as it is", func(t *testing.T) {
		if all[0].Variant != "" || holder(0).Nut.Value != 8.5 || holder(0).Faces.Set || all[0].File.Air.Value != 298.15 {
			t.Errorf("%+v", holder(0))
		}
	})
	t.Run("keys/changed and added", func(t *testing.T) {
		if all[1].Variant != "half torque" || holder(1).Nut.Value != 4.25 || holder(1).Faces.Text != "tarnished" || holder(1).Fuse.Value != 300 {
			t.Errorf("%q %+v", all[1].Variant, holder(1))
		}
	})
	t.Run("top/changed", func(t *testing.T) {
		if all[2].File.Air.Value != 313.15 {
			t.Errorf("air %v", all[2].File.Air.Value)
		}
	})
	t.Run("own value/changed", func(t *testing.T) {
		if c := all[2].File.Path[2]; c.Of.Text != "2/0 AWG" || c.Length.Value != 1.5 {
			t.Errorf("%+v", c)
		}
	})
	t.Run("parts/replaced", func(t *testing.T) {
		if p := all[3].File.Path; len(p) != 5 || p[1].Kind != "cable" || p[2].Kind != "high-capacity holder" || p[3].Length.Value != 1.5 {
			t.Errorf("%+v", p)
		}
		stack, err := all[3].Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := stack.Assemble(model.Likely, model.Mesh{}); err != nil {
			t.Error(err)
		}
	})
	t.Run("read/base alone without a warning", func(t *testing.T) {
		sc, err := Read("varied.yaml", []byte(varied+"  - name: x\n    air: 30 °C\n"))
		if err != nil || len(sc.File.Warnings) != 0 || sc.File.Air.Value != 298.15 {
			t.Errorf("%v, %v", sc, err)
		}
	})
	t.Run("part/left out", func(t *testing.T) {
		text := strings.Replace(varied, "  - cable", "  - steel washer: M8\n  - cable", 1)
		all, err := ReadAll("washer.yaml", []byte(text+"  - name: clean\n    steel washer: {replace with: []}\n"))
		if err != nil {
			t.Fatal(err)
		}
		if len(all[0].File.Path) != 5 || len(all[1].File.Path) != 4 {
			t.Errorf("%d and %d parts", len(all[0].File.Path), len(all[1].File.Path))
		}
	})
}

// What a variant spoils is told in the variant, what it shares with the file
// once.
func TestReadAll_complaints(t *testing.T) {
	for _, c := range []struct {
		name, variants string
		line           int
		message        string
	}{
		{"own place/torque past yield", "  - name: brute\n    compact holder: {nut: 900 N·m}\n", 17, "900"},
		{"elsewhere/names the variant", "  - name: gone\n    compact holder: {replace with: []}\n  - name: odd\n    compact holder: {replace with: [{battery switch: generic, nuts: 20 N·m}]}\n",
			19, "two studs meet here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ReadAll("varied.yaml", []byte(varied+c.variants))
			var problems *Problems
			if !errors.As(err, &problems) {
				t.Fatalf("accepted: %v", err)
			}
			if p := problems.List[0]; p.Line != c.line || !strings.Contains(p.Message, c.message) {
				t.Errorf("%d: %s", p.Line, p.Message)
			}
			if _, err := Read("varied.yaml", []byte(varied+c.variants)); err != nil {
				t.Errorf("the file without its variants: %v", err)
			}
		})
	}
	t.Run("outside/prefixed", func(t *testing.T) {
		_, err := ReadAll("varied.yaml", []byte(varied+"  - name: short\n    inverter terminal: {replace with: []}\n    compact holder: {replace with: []}\n    cable 1/0 AWG: {replace with: []}\n"))
		if err == nil || !strings.Contains(err.Error(), `in the variant "short": `) {
			t.Errorf("%v", err)
		}
	})
	t.Run("shared/told once", func(t *testing.T) {
		_, err := ReadAll("varied.yaml", []byte(strings.Replace(varied, "1.5 m", "1.5", 1)+"  - name: a\n    air: 30 °C\n  - name: b\n    air: 31 °C\n"))
		var problems *Problems
		if !errors.As(err, &problems) || len(problems.List) != 1 {
			t.Errorf("%v", err)
		}
	})
}

// Variants reach into batteries, branches and circuits.
func TestReadAll_groups(t *testing.T) {
	read := func(t *testing.T, file, variants string) ([]*Scenario, error) {
		t.Helper()
		text := string(readFile(t, "testdata/good/"+file+".yaml"))
		if at := strings.Index(text, "variants:"); at >= 0 {
			text = text[:at]
		}
		return ReadAll("v.yaml", []byte(text+"variants:\n"+variants))
	}
	// each gives a figure of all parts of a kind.
	each := func(s *Scenario, kind string, figure func(*Item) float64) (out []float64) {
		for i := range s.File.Path {
			if s.File.Path[i].Kind == kind {
				out = append(out, figure(&s.File.Path[i]))
			}
		}
		return out
	}
	fuse := func(i *Item) float64 { return i.Fuse.Value }
	length := func(i *Item) float64 { return i.Length.Value }
	way := func(s *Scenario, name string) *Way {
		for w := range s.File.Ways {
			if s.File.fullName(w) == name {
				return &s.File.Ways[w]
			}
		}
		t.Fatalf("no way %q", name)
		return nil
	}
	for _, test := range []struct {
		name, file, variant string
		got                 func(*Scenario) any
		want                any
	}{
		{"batteries/a part of each by its kind", "four-batteries", "compact holder: {fuse: 150 A}",
			func(s *Scenario) any { return each(s, "compact holder", fuse) }, []float64{150, 150, 150, 150}},
		{"batteries/a part of each by its label", "four-batteries", "cable 1/0 AWG: {length: 2 m}",
			func(s *Scenario) any { return each(s, "cable", length) }, []float64{2, 2, 2, 2, 2}},
		{"batteries/the row itself", "four-batteries", "batteries: {internal resistance: 4 mΩ}",
			func(s *Scenario) any { return way(s, "C").Internal.Value }, 4e-3},
		{"batteries/fewer of them", "four-batteries", "batteries: {batteries: A B, voltage: 13 V}",
			func(s *Scenario) any { return len(each(s, "compact holder", fuse)) }, 2},
		{"bus bar/the return", "four-batteries", "bus bar: {return: none}",
			func(s *Scenario) any {
				return each(s, "bus bar", func(i *Item) float64 { return float64(len(i.Return.Text)) })
			}, []float64{4}},
		{"box/another wall", "circuits", "enclosure: {width: 40 cm, height: 30 cm, depth: 15 cm, wall: steel}",
			func(s *Scenario) any { return s.File.Enclosure.Wall.Text }, "steel"},
		{"box/one key of it", "circuits", "enclosure: {vents: 50 cm²}",
			func(s *Scenario) any { return [2]float64{s.File.Enclosure.Vents.Low, s.File.Enclosure.Fan.Value} }, [2]float64{50e-4, 5.0 / 3600}},
		{"box/none", "circuits", "enclosure: none",
			func(s *Scenario) any { return s.File.Enclosure.Set }, false},
		{"return cable/one key of it", "branches", "return: {length: 9 m}",
			func(s *Scenario) any { return [2]any{s.File.Return.Length.Value, s.File.Return.Cable.Text} }, [2]any{9.0, "95 mm²"}},
		{"load/a current for a power", "branches", "current: 90 A",
			func(s *Scenario) any { return s.File.Load().Kind }, quantity.Current},
		{"circuit/its current", "circuits", "fridge: {current: 20 A}",
			func(s *Scenario) any { return way(s, "fridge").Current.Steps[0].To }, 20.0},
		{"circuit/its parts", "circuits", "heater: [{cable: 16 mm², length: 1 m}]",
			func(s *Scenario) any { return len(way(s, "heater").Items) }, 1},
		{"circuit/a part of one", "circuits", "\"heater: cable 16 mm²\": {length: 7 m}",
			func(s *Scenario) any { return each(s, "cable", length) }, []float64{2, 3, 7}},
		{"branch/its parts", "branches", "left: [{cable: 70 mm², length: 1 m}, {shunt: generic, nuts: 20 N·m}, {cable: 70 mm², length: 1 m}]",
			func(s *Scenario) any { return len(way(s, "left").Items) }, 3},
		{"branch/nested", "branches", "up: [{cable: 70 mm², length: 9 m}]",
			func(s *Scenario) any { return s.File.Path[way(s, "right: up").Items[0]].Length.Value }, 9.0},
		{"circuits/left out for one part", "circuits", "circuits: {replace with: [{cable: 95 mm², length: 1 m}]}\n    current: 9 A\n    bus bar: {studs: in out a b}\n    enclosure: none",
			func(s *Scenario) any { return len(s.File.Ways) }, 1},
		{"load/another power", "branches", "power: 300 W",
			func(s *Scenario) any { return s.File.Load().Steps[0].To }, 300.0},
	} {
		t.Run(test.name, func(t *testing.T) {
			all, err := read(t, test.file, "  - name: x\n    "+test.variant+"\n")
			if err != nil {
				t.Fatal(err)
			}
			if got := test.got(all[1]); !reflect.DeepEqual(got, test.want) {
				t.Errorf("got %v, want %v", got, test.want)
			}
			if test.name != "load/another power" && reflect.DeepEqual(test.got(all[0]), test.want) {
				t.Error("the file has it without the variant")
			}
			stack, err := all[1].Stack(nil)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := stack.Assemble(model.Likely, model.Mesh{}); err != nil {
				t.Error(err)
			}
		})
	}
	for name, test := range map[string]struct{ file, variant, want string }{
		"battery/alone":            {"four-batteries", "\"B: compact holder\": {fuse: 150 A}", `the batteries are alike, so that "B: compact holder" cannot change alone`},
		"nothing/of that name":     {"circuits", "frige: {current: 20 A}", `did you mean "fridge"?`},
		"kind/several":             {"circuits", "cable: {length: 7 m}", `the path has 3 parts of the kind "cable"`},
		"branches/within branches": {"branches", "branches: {replace with: []}", `the path has 2 parts of the kind "branches"`},
		"branch/by a word":         {"branches", "left: 12", `"left" is changed by a list of parts`},
		"circuit/odd key":          {"circuits", "fridge: {curent: 20 A}", `unknown key "curent"`},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := read(t, test.file, "  - name: x\n    "+test.variant+"\n"); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("told %v, want %s", err, test.want)
			}
		})
	}
}
