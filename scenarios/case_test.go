package scenarios

import (
	"strings"
	"testing"

	"clampheat/model"
)

// Posts on one case stand on one body, holders on one base, those of each battery
// among them.
func TestCase(t *testing.T) {
	body := func(s *model.Stack, i int) *model.Body { return s.Parts[i].(*model.Post).Body }
	t.Run("batteries/one for all", func(t *testing.T) {
		_, stack := understood(t, readFile(t, "testdata/good/four-batteries.yaml"))
		if body(stack, 0) != body(stack, 6) || body(stack, 0).Name != "housing" {
			t.Errorf("bodies %+v and %+v", body(stack, 0), body(stack, 6))
		}
	})
	const path = `  - terminal: M8
    nut: 12 N·m
    case: box
  - cable: 25 mm²
    length: 1 m
  - terminal: M8
    nut: 12 N·m
    case: box
`
	t.Run("path/shared", func(t *testing.T) {
		_, stack := understood(t, written(path))
		if a, b := body(stack, 0), body(stack, 4); a != b {
			t.Errorf("bodies %+v and %+v", a, b)
		}
	})
	t.Run("holders/one base", func(t *testing.T) {
		const holder = "{high-capacity holder: generic, fuse: 200 A, nuts: 20 N·m, case: block}"
		_, stack := understood(t, written("  - cable: 50 mm²\n    length: 1 m\n"+
			"  - bus bar: copper\n    section: 30 × 5 mm\n    studs: in a b\n    spacing: 60 mm\n    nuts: 20 N·m\n"+
			"  - branches:\n      a: [{link bar: copper, section: 30 × 5 mm, length: 80 mm}, "+holder+", {link bar: copper, section: 30 × 5 mm, length: 80 mm}]\n"+
			"      b: [{link bar: copper, section: 30 × 5 mm, length: 80 mm}, "+holder+", {link bar: copper, section: 30 × 5 mm, length: 80 mm}]\n"+
			"  - inverter terminal: M10\n    nut: 20 N·m\n"))
		var bases []*model.Base
		for _, p := range stack.Parts {
			if b, ok := p.(*model.Base); ok {
				bases = append(bases, b)
			}
		}
		if len(bases) != 1 || len(bases[0].Carries) != 4 || bases[0].Housing.Capacity != 360 || bases[0].Label != "block" {
			t.Fatalf("bases %+v", bases)
		}
		settled(t, stack)
	})
	t.Run("path/stated at odds", func(t *testing.T) {
		_, err := Read("t.yaml", written(path+"    body takes: 3 W/K\n"))
		if err == nil || !strings.Contains(err.Error(), "t.yaml:12:17: the case \"box\" takes another heat") {
			t.Errorf("%v", err)
		}
	})
}
