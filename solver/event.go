package solver

import (
	"fmt"
	"math"
)

// Event is something to watch for in a soak: the first time at which a
// quantity, below zero before, is not. One that is not below zero at the start
// happens at the start. What rises and falls back between the ends and the
// middle of a step is not seen.
//
// The quantity is Value where that is given; else, where Rate is above zero, the
// event is that every node moves slower than Rate, after the last break; else it is
// the temperature of Node less Level.
type Event struct {
	Name  string
	Value func(t float64, x []float64) float64
	Rate  float64 // K/s
	Node  int
	Level float64 // K
	Stop  bool    // the soak ends when it happens
}

// EventHit says when an event happened.
type EventHit struct {
	Name  string
	Index int     // of the event in SoakOptions.Events
	Time  float64 // s, located on the dense output
}

func (v *Event) check(nodes int) error {
	switch {
	case v.Value != nil:
		return nil
	case v.Rate < 0 || v.Rate-v.Rate != 0:
		return &InputError{"the rate", fmt.Sprintf("of event %q is %g K/s", v.Name, v.Rate)}
	case v.Rate > 0:
		return nil
	case v.Node < 0 || v.Node >= nodes:
		return &InputError{"the node", fmt.Sprintf("of event %q is %d, of %d nodes", v.Name, v.Node, nodes)}
	case math.IsNaN(v.Level):
		return &InputError{"the level", fmt.Sprintf("of event %q is no number", v.Name)}
	}
	return nil
}

// settles says whether the event is that all nodes have come to rest.
func (v *Event) settles() bool { return v.Value == nil && v.Rate > 0 }

// crossing finds where f, which is below zero at a and not at b, is zero: the
// upper end of the last bracket, by the Illinois variant of false position
// (Dowell & Jarratt, BIT 11, 1971) with a bisection whenever that is slow.
func crossing(f func(float64) float64, a, b float64) float64 {
	fa, fb := f(a), f(b)
	if !(fa < 0) {
		return a
	}
	for range 200 {
		width := b - a
		if width <= 1e-14*(math.Abs(a)+math.Abs(b)) {
			break
		}
		c := b - fb*(b-a)/(fb-fa)
		if !(c > a && c < b) {
			c = a + width/2
		}
		for range 2 {
			if fc := f(c); fc < 0 {
				a, fa = c, fc
				fb /= 2
			} else {
				b, fb = c, fc
				fa /= 2
			}
			if b-a <= width/2 {
				break
			}
			c = a + (b-a)/2
		}
	}
	return b
}
