package scenarios

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"clampheat/materials"
	"clampheat/model"
)

// Whatever metal the tables know can be put in the way of the current with
// whatever plating they know: its surface has a finish.
func TestEveryMetalHasAFinish(t *testing.T) {
	platings := []string{""}
	for _, p := range materials.Platings() {
		platings = append(platings, p.Name)
	}
	for _, metal := range materials.Metals() {
		for _, name := range append([]string{metal.Name}, metal.Aliases...) {
			for _, plating := range platings {
				washer, bar := "    metal: "+name+"\n", name
				if plating != "" {
					washer += "    plating: " + plating + "\n"
					bar += ", " + plating
				}
				data := written("  - battery post: M8\n    nut: 12 N·m\n  - washer: M8\n" + washer +
					"  - bar: " + bar + "\n    section: 25 × 3 mm\n    length: 100 mm\n")
				if _, err := Read("t.yaml", data); err != nil {
					t.Errorf("%s with %q: %v", name, plating, err)
				}
			}
		}
	}
}

// A metal that is sold plated has that plating.
func TestMetalNamedByItsPlating(t *testing.T) {
	_, stack := understood(t, written("  - battery post: M8\n    nut: 12 N·m\n  - washer: M8\n    metal: zinc-plated steel\n"+
		"  - bar: zinc-plated steel\n    section: 25 × 3 mm\n    length: 100 mm\n  - terminal: M8\n    nut: 12 N·m\n"))
	for _, p := range stack.Parts {
		var metal, plating string
		switch p := p.(type) {
		case *model.Washer:
			metal, plating = p.Metal.Name, p.Plating.Name
		case *model.Bar:
			metal, plating = p.Metal.Name, p.Plating.Name
		default:
			continue
		}
		if metal != "carbon steel" || plating != "zinc" {
			t.Errorf("%s is of %s with %s, want zinc on carbon steel", p.Name(), metal, plating)
		}
	}
}

// A row that the words of an item lead to and no table has is told at the item.
func TestMissingRowHasAPlace(t *testing.T) {
	f, err := Parse("t.yaml", written("  - battery post: M8\n    nut: 12 N·m\n  - cable: 1/0 AWG\n    length: 1 m\n"))
	if err != nil {
		t.Fatal(err)
	}
	r := newResolver(f, nil)
	r.names = f.names()
	o := r.owner(1)
	o.finishOn(materials.Plating{Name: "bare unobtainium"})
	r.settle(1)
	if r.err != nil || len(r.problems) != 1 {
		t.Fatalf("problems %v, fault %v; want one problem", r.problems, r.err)
	}
	if p := r.problems[0]; p.Line != f.Path[1].Pos.Line || p.Column != f.Path[1].Pos.Column || !strings.Contains(p.Message, `"unobtainium"`) {
		t.Errorf("%v; want the word at %+v", p, f.Path[1].Pos)
	}
}

// A meter shows all faces under a nut together: their ohms add up to its
// reading, in the shares of the prediction.
func TestMeasuredIsForTheWholeNut(t *testing.T) {
	const reading = "30 µΩ"
	for name, path := range map[string]string{
		"one face": "  - battery post: M8\n    nut: 12 N·m\n%s  - cable: 1/0 AWG\n    length: 1 m\n",
		"washer":   "  - battery post: M8\n    nut: 12 N·m\n%s  - steel washer: M8\n  - cable: 1/0 AWG\n    length: 1 m\n",
		"compact holder": "  - battery post: M8\n    nut: 12 N·m\n  - compact holder: generic\n    fuse: 300 A\n    nut: 8.5 N·m\n%s" +
			"  - cable: 1/0 AWG\n    length: 1 m\n",
	} {
		t.Run(name, func(t *testing.T) {
			_, before := understood(t, written(fmt.Sprintf(path, "")))
			_, after := understood(t, written(fmt.Sprintf(path, "    measured: "+reading+"\n")))
			sum, all, faces, share := 0.0, 0.0, 0, []float64{}
			for i, j := range after.Joints {
				if j.Measured == nil {
					continue
				}
				predicted, err := before.JointFigures(i)
				if err != nil {
					t.Fatal(err)
				}
				faces++
				sum += j.Measured.Resistance
				all += predicted.Resistance.Likely
				share = append(share, j.Measured.Resistance/predicted.Resistance.Likely)
			}
			if want := map[string]int{"one face": 1, "washer": 2, "compact holder": 2}[name]; faces != want {
				t.Fatalf("%d faces are measured, want %d", faces, want)
			}
			if math.Abs(sum/30e-6-1) > 1e-9 {
				t.Errorf("the faces have %.4g µΩ together, the meter showed 30 µΩ", sum*1e6)
			}
			for _, s := range share {
				if math.Abs(s*all/30e-6-1) > 1e-9 {
					t.Errorf("a face has %.4g of its prediction, all have %.4g", s, 30e-6/all)
				}
			}
		})
	}
}
