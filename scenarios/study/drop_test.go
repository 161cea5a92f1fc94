package study

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"clampheat/scenarios"
)

// What a power sees is E − P/I: source, path and return cable add up to it, each
// once.
func TestDrop_power(t *testing.T) {
	text := with("current: 140 A", drawn+"\nreturn: {cable: 70 mm², length: 1.5 m}")
	c, err := RunCheck(context.Background(), read(t, text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	s := steady(t, read(t, text))
	d := c.Sizing.Drop
	want := 12.8 - 2000/s.Conditions.Current
	for _, got := range []float64{d.Source + d.Path + d.Return, d.Total, s.Drop} {
		if math.Abs(got-want) > 1e-6 {
			t.Errorf("drop %g V, E − P/I is %g V: %+v", got, want, d)
		}
	}
	if source := 4e-3 * s.Conditions.Current; math.Abs(d.Source-source) > 1e-9 || d.Return <= 0 || len(d.Out) > 0 {
		t.Errorf("source %g V, by hand %g V; %+v", d.Source, source, d)
	}
}

// Two alike cables in parallel have one voltage, from where they meet to where they
// meet; what their lugs stand on carries the current of both.
func TestDrop_abreast(t *testing.T) {
	text := `
title: Two cables
current: 250 A
air: 25 °C
return: {cable: 70 mm², length: 1.5 m}
path:
  - battery post: M8
    nut: 12 N·m
  - branches:
      left: [{cable: 35 mm², length: 1.5 m, insulation: 105 °C}]
      right: [{cable: 35 mm², length: 1.5 m, insulation: 105 °C}]
  - inverter terminal: M8
    nut: 12 N·m
`
	sc := read(t, text)
	s := steady(t, sc)
	l, r := branch(t, s.Branches, "left"), branch(t, s.Branches, "right")
	if math.Abs(l.Drop-r.Drop) > 1e-9 {
		t.Errorf("left %g V, right %g V", l.Drop, r.Drop)
	}
	if p := s.DropParts; len(p.In) != 1 || p.Return != 0 || len(p.Out) != 1 || !strings.Contains(p.Out[0], "return cable") {
		t.Errorf("%+v", p)
	}
}

// What lies in the drop of batteries is told by what the file wires.
func TestDrop_holds(t *testing.T) {
	for _, test := range []struct {
		name, end string
		in        []string
	}{
		{"return none", "none", []string{innerOhms, positiveSide}},
		{"return at an end", "same end", []string{innerOhms, positiveSide, mirroredCables, mirroredBar}},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := steady(t, bankOf(t, "A B", "A B out", "RETURN="+test.end))
			if p := s.DropParts; !slices.Equal(p.In, test.in) || !slices.Equal(p.Out, []string{wayBack}) || p.Path != s.Drop {
				t.Errorf("%+v of %g V", p, s.Drop)
			}
		})
	}
}

// The drop of circuits is that of the one that loses the most.
func TestDrop_circuits(t *testing.T) {
	sc := read(t, circuits)
	s := steady(t, sc)
	if !slices.ContainsFunc(sc.Ways(), func(w scenarios.WayInfo) bool { return w.Name == s.DropParts.Draw }) {
		t.Errorf("the circuit with the largest drop is %q", s.DropParts.Draw)
	}
}
