package study

import (
	"context"
	"math"
	"strings"
	"testing"
)

const boxed = `enclosure:
  width: 300 mm
  height: 250 mm
  depth: 150 mm
  wall: polycarbonate
  mounting: on bulkhead
  vents: 10 cm²
  other heat: 5 W
current: 140 A`

// What goes into a box comes out of it, and its air is between the room's and the
// parts'.
func TestBox(t *testing.T) {
	s := steady(t, read(t, with("current: 140 A", boxed)))
	b := s.Box
	if b == nil {
		t.Fatal("no box")
	}
	if in, out := b.Parts+b.Other, b.Wall+b.Bulkhead+b.Vents; math.Abs(in-out) > 1e-6*in || b.Other != 5 {
		t.Errorf("%g W in, %g W out", in, out)
	}
	if !(s.Air < b.Outer && b.Outer <= b.Inner && b.Inner < b.Air && b.Air < b.Top && b.Air < s.Hottest.Temp) {
		t.Errorf("room %v, wall %v, %v, air %v, top %v, hottest %v", s.Air, b.Outer, b.Inner, b.Air, b.Top, s.Hottest.Temp)
	}
	if open := steady(t, read(t, feed)); s.Hottest.Temp <= open.Hottest.Temp {
		t.Errorf("%v in the box, %v without", s.Hottest.Temp, open.Hottest.Temp)
	}
	c, err := RunCheck(context.Background(), read(t, with("current: 140 A", boxed)), Options{})
	if err != nil || c.Box == nil || c.Box.Width != 0.3 || len(c.Box.Holds) == 0 || c.Box.Inlet != 10e-4 {
		t.Errorf("%+v, %v", c.Box, err)
	}
	soak, err := RunSoak(context.Background(), read(t, with("current: 140 A", boxed)), SoakOptions{For: 48 * 3600})
	if err != nil || soak.Box == nil || math.Abs(float64(soak.Box.Air-b.Air)) > 0.05 {
		t.Errorf("%+v, %v", soak.Box, err)
	}
}

// Without a box none is told of.
func TestBox_none(t *testing.T) {
	if s := steady(t, read(t, feed)); s.Box != nil {
		t.Errorf("%+v", s.Box)
	}
}

// Boxes are told apart beside each other, and no share of the causes is made up.
func TestCompare_box(t *testing.T) {
	c, err := RunCompare(context.Background(), []Candidate{{"open", read(t, feed)}, {"boxed", read(t, with("current: 140 A", boxed))}})
	if err != nil {
		t.Fatal(err)
	}
	a := c.Against[0]
	if a.Why.Missing == "" || !strings.Contains(strings.Join(a.Room, "; "), "box: none and 300 × 250 × 150 mm") {
		t.Errorf("%+v", a)
	}
}

// Conductors side by side are listed, and no table for a single cable is held
// against them.
func TestCheck_sideBySide(t *testing.T) {
	c, err := RunCheck(context.Background(), read(t, with("length: 1.5 m", "length: 1.5 m\n    bundle: 3 touching")), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Runs) != 1 || !strings.Contains(c.Runs[0].Text, "3 alike touching in a row") {
		t.Errorf("%+v", c.Runs)
	}
	if len(c.Sizing.Cables) != 1 || !strings.Contains(c.Sizing.Cables[0].Unknown, "bundle") {
		t.Errorf("%+v", c.Sizing.Cables)
	}
}

// A box that what it is to hold does not go into is doubted where the answer stands.
func TestBox_tooSmall(t *testing.T) {
	small := strings.NewReplacer("300 mm", "30 mm", "250 mm", "25 mm", "150 mm", "20 mm", "  vents: 10 cm²\n", "").Replace(boxed)
	if s := steady(t, read(t, with("current: 140 A", small))); len(s.Box.Doubts) == 0 {
		t.Error("no doubt about a box of 30 × 25 × 20 mm")
	}
	if s := steady(t, read(t, with("current: 140 A", boxed))); len(s.Box.Doubts) > 0 {
		t.Errorf("%v", s.Box.Doubts)
	}
}
