package scenarios

import (
	"errors"
	"strings"
	"testing"

	"clampheat/model"
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
