package study

import (
	"context"
	"fmt"
	"math"
	"sort"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/quantity"
)

// This file judges pairs of stacks.

// against holds the second stack against the first.
func against(ctx context.Context, first, second *contender) (Against, error) {
	cooler := first.side.hottest() - second.side.hottest()
	out := Against{First: first.out.Label, Second: second.out.Label, Cooler: cooler, Tried: gridSize,
		Agree: agreeing(first.grid, second.grid, cooler),
		Room:  unlikeRoom(first, second), Parts: unlikeParts(first.sc.File, second.sc.File)}
	out.TooClose = out.Agree < out.Tried
	var err error
	out.Why, err = explain(ctx, first.side, second.side)
	return out, err
}

// verdict compares the coolest with the next.
func (c *Compare) verdict(lasting []*contender) {
	if len(lasting) < 2 {
		return
	}
	order := append([]*contender(nil), lasting...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].out.Hottest.Temp < order[j].out.Hottest.Temp })
	best, next := order[0], order[1]
	by := float64(next.out.Hottest.Temp - best.out.Hottest.Temp)
	v := &Verdicts{Coolest: best.out.Label, Next: next.out.Label, By: by, Tried: gridSize,
		Agree: agreeing(next.grid, best.grid, by), Holds: len(lasting) == len(c.Columns)}
	v.TooClose = v.Agree < v.Tried
	for _, column := range c.Columns {
		for _, m := range column.Margins {
			v.Holds = v.Holds && m.Verdict == Holds
		}
	}
	c.Verdict = v
}

// unlikeRoom names differences of supply and surroundings.
func unlikeRoom(first, second *contender) []string {
	out := []string{}
	a, b := first.state.stack, second.state.stack
	differ := func(name string, kind quantity.Kind, x, y float64, unit string) {
		if !alike(x, y) {
			out = append(out, fmt.Sprintf("%s %s and %s", name, quantity.Format(kind, x, unit, 0), quantity.Format(kind, y, unit, 0)))
		}
	}
	switch one, other := powered(a), powered(b); {
	case one != other:
		out = append(out, fmt.Sprintf("what is drawn %s and %s", loadText(a, 1), loadText(b, 1)))
	case one:
		differ("power", quantity.Power, loadAt(a, 0), loadAt(b, 0), "W")
	default:
		differ("current", quantity.Current, loadAt(a, 0), loadAt(b, 0), "A")
	}
	out = append(out, unlikeCourses(first.changing, second.changing)...)
	differ("ripple", quantity.Share, a.Ripple, b.Ripple, "%")
	unit := first.sc.File.Air.Unit
	differ("air", quantity.Temperature, a.Surroundings.Air, b.Surroundings.Air, unit)
	// Walls count only where they are not as warm as the air.
	if first.sc.File.Radiant.Set || second.sc.File.Radiant.Set {
		differ("walls", quantity.Temperature, a.Surroundings.Radiant, b.Surroundings.Radiant, unit)
	}
	differ("altitude", quantity.Altitude, a.Surroundings.Altitude, b.Surroundings.Altitude, "m")
	differ("air speed", quantity.Speed, a.Surroundings.AirSpeed, b.Surroundings.AirSpeed, "m/s")
	if one, other := boxText(a.Enclosure), boxText(b.Enclosure); one != other {
		out = append(out, fmt.Sprintf("box: %s and %s", one, other))
	}
	return out
}

// boxText tells boxes apart in few words.
func boxText(e *model.Enclosure) string {
	if e == nil {
		return "none"
	}
	text := fmt.Sprintf("%.0f × %.0f × %.0f mm, %s %s mm", e.Width*1e3, e.Height*1e3, e.Depth*1e3, e.Wall.Name, quantity.Number(e.Wall.Thickness*1e3, 2))
	if e.VentRise > 0 {
		text += fmt.Sprintf(", vents %s and %s cm²", quantity.Number(e.Inlet*1e4, 2), quantity.Number(e.Outlet*1e4, 2))
	}
	if e.Fan > 0 {
		text += fmt.Sprintf(", fan %s m³/h", quantity.Number(e.Fan*3600, 2))
	}
	if e.Heat > 0 {
		text += fmt.Sprintf(", other heat %s W", quantity.Number(e.Heat, 2))
	}
	return text + ", " + mountings[e.Mounting]
}

// unlikeParts names what one path has more of than the other, by kind, and of
// cables the length.
func unlikeParts(first, second *scenarios.File) []string {
	out := []string{}
	count := map[string][2]int{}
	var kinds []string
	metres := [2]float64{}
	for k, f := range [2]*scenarios.File{first, second} {
		for _, item := range f.Path {
			n, seen := count[item.Kind]
			if !seen {
				kinds = append(kinds, item.Kind)
			}
			n[k]++
			count[item.Kind] = n
			if item.Kind == "cable" {
				metres[k] += item.Length.Value
			}
		}
	}
	which := func(more bool) string {
		if more {
			return "in the second only"
		}
		return "in the first only"
	}
	for _, kind := range kinds {
		n := count[kind]
		switch d := n[1] - n[0]; {
		case kind == "cable" && metres[0] != metres[1]:
			out = append(out, fmt.Sprintf("%.3g m more of cable %s", math.Abs(metres[1]-metres[0]), which(metres[1] > metres[0])))
		case kind == "cable" || d == 0:
		case d == 1 || d == -1:
			out = append(out, kind+" "+which(d > 0))
		default:
			out = append(out, fmt.Sprintf("%d × %s %s", max(d, -d), kind, which(d > 0)))
		}
	}
	return out
}
