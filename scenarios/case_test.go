package scenarios

import (
	"fmt"
	"slices"
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
	t.Run("batteries/holders of each on one base", func(t *testing.T) {
		const each = "  - batteries: A B\n    each:\n      - {battery post: M8, nut: 12 N·m, case: tray}\n      - {link bar: copper, section: 30 × 5 mm, length: 80 mm}\n" +
			"      - {high-capacity holder: generic, fuse: 200 A, nuts: 20 N·m%s}\n      - {cable: 50 mm², length: 1 m}\n" +
			"  - bus bar: copper\n    section: 30 × 5 mm\n    studs: A out B\n    spacing: 60 mm\n    nuts: 20 N·m\n  - cable: 70 mm²\n    length: 1 m\n"
		_, own := understood(t, written(fmt.Sprintf(each, "")))
		_, shared := understood(t, written(fmt.Sprintf(each, ", case: twin base")))
		base := slices.IndexFunc(shared.Parts, func(p model.Part) bool { return p.Name() == "twin base" })
		if base < 0 || len(shared.Parts) != len(own.Parts)-1 || len(shared.Parts[base].(*model.Base).Carries) != 4 {
			t.Fatalf("%d parts, %d with a base each", len(shared.Parts), len(own.Parts))
		}
		settled(t, shared)
	})
	t.Run("post and holder/refused", func(t *testing.T) {
		const both = "  - terminal: M8\n    nut: 12 N·m\n    case: box\n  - link bar: copper\n    section: 30 × 5 mm\n    length: 80 mm\n" +
			"  - high-capacity holder: generic\n    fuse: 200 A\n    nuts: 20 N·m\n    case: box\n  - cable: 50 mm²\n    length: 1 m\n"
		tells(t, written(both), []string{"13:11 the case \"box\" is that of a terminal already: a high-capacity holder cannot be on it too | " +
			"a post stands on a body, a holder is screwed to a base: give each a name of its own; the other is in line 6"})
	})
	t.Run("path/stated at odds", func(t *testing.T) {
		_, err := Read("t.yaml", written(path+"    body takes: 3 W/K\n"))
		if err == nil || !strings.Contains(err.Error(), "t.yaml:12:17: the case \"box\" takes another heat") {
			t.Errorf("%v", err)
		}
	})
}
