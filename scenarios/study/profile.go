package study

import (
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file reads the temperature along the way of the current. Where the current
// divides, it is the way on which the hottest terminal lies, on to what draws the
// current, with those side by side with it for comparison.

// profiler reads places of one assembly at its three conditions.
type profiler struct {
	likely, careful, careless *state         // careless is nil where it has no lasting state
	names                     map[int]string // of the terminals, by their hottest node
}

// profiles is the profile along the ways marked, and those beside it.
func profiles(likely, careful, careless *state, names []string, ways []scenarios.WayInfo, on []bool) ([]Point, []WayProfile) {
	p := profiler{likely, careful, careless, map[int]string{}}
	for i, r := range likely.assembly.Rows {
		if r.Terminal {
			p.names[int(likely.assembly.HottestNode(i, likely.x))] = names[i]
		}
	}
	if len(likely.assembly.Draws) == 0 {
		out := make([]Point, len(likely.assembly.Path))
		for i, at := range likely.assembly.Path {
			out[i] = p.point(at)
		}
		return out, nil
	}
	return p.branched(ways, on)
}

func (p *profiler) point(at model.Place) Point {
	out := Point{Along: at.Along, Temp: temp(p.likely.x[at.Node]), Careful: temp(p.careful.x[at.Node]), Name: p.names[int(at.Node)]}
	if p.careless != nil {
		out.Careless = temp(p.careless.x[at.Node])
	}
	return out
}

// hottestWays says which ways a profile runs along: of each group side by side
// the hottest one, by the temperatures of an assembly's rows.
func hottestWays(rows []model.Row, of []int, ways []scenarios.WayInfo, temp func(row int) float64) []bool {
	hottest := func(way int) float64 {
		t := 0.0
		for i, r := range rows {
			if r.Terminal && within(ways, of[i], way) {
				t = max(t, temp(i))
			}
		}
		return t
	}
	best := map[int]int{} // by group
	for i := range ways {
		if !sideBySide(ways, i) {
			continue
		}
		if b, ok := best[ways[i].Group]; !ok || hottest(i) > hottest(b) {
			best[ways[i].Group] = i
		}
	}
	on := make([]bool, len(ways))
	for i := range ways {
		on[i] = true
		for way := i; way >= 0; way = ways[way].Parent {
			if b, ok := best[ways[way].Group]; ok && ways[way].Kind != scenarios.MainWay && b != way {
				on[i] = false
			}
		}
	}
	return on
}

// leftAside are the names of the ways that a profile does not run along.
func leftAside(ways []scenarios.WayInfo, on []bool) []string {
	var out []string
	for i := range ways {
		if sideBySide(ways, i) && !on[i] {
			out = append(out, ways[i].Name)
		}
	}
	return out
}

// branched follows the hottest ways.
func (p *profiler) branched(ways []scenarios.WayInfo, on []bool) ([]Point, []WayProfile) {
	of := wayOf(ways, len(p.likely.stack.Parts))
	var parts []int
	order := inOrder(p.likely.stack, ways)
	for _, i := range order {
		if of[i] >= 0 && on[of[i]] {
			parts = append(parts, i)
		}
	}
	ordered := func(own []int) (list []int) {
		for _, i := range order {
			if slices.Contains(own, i) {
				list = append(list, i)
			}
		}
		return list
	}
	var beside []WayProfile
	rows := rowWays(p.likely, ways)
	for i, w := range ways {
		if sideBySide(ways, i) && !on[i] && (w.Parent < 0 || on[w.Parent]) {
			along := ""
			for k, o := range ways {
				if o.Group == w.Group && on[k] {
					along = o.Name
				}
			}
			beside = append(beside, WayProfile{Name: w.Name, Along: along, Points: p.along(ordered(p.through(ways, rows, i)), nil)})
		}
	}
	return p.along(parts, func(part int) string { return ways[of[part]].Name }), beside
}

// through are the parts of a way and, of ways side by side in it, of the hottest:
// one way from end to end.
func (p *profiler) through(ways []scenarios.WayInfo, rows []int, way int) []int {
	parts := slices.Clone(ways[way].Parts)
	hottest := map[int]int{} // by group
	temps := make([]float64, len(ways))
	for i, w := range ways {
		if w.Parent != way || !sideBySide(ways, i) {
			continue
		}
		for k, r := range p.likely.assembly.Rows {
			if r.Terminal && within(ways, rows[k], i) {
				temps[i] = max(temps[i], p.likely.temp(k))
			}
		}
		if h, ok := hottest[w.Group]; !ok || temps[i] > temps[h] {
			hottest[w.Group] = i
		}
	}
	for _, inner := range hottest {
		parts = append(parts, p.through(ways, rows, inner)...)
	}
	return parts
}

// along puts parts one behind the other. A bar is followed between the studs that
// the others lie on.
func (p *profiler) along(parts []int, way func(part int) string) []Point {
	var out []Point
	at := 0.0
	for k, part := range parts {
		var places []model.Place
		for _, place := range p.likely.assembly.Path {
			if place.Part == part {
				places = append(places, place)
			}
		}
		if bar, ok := p.likely.stack.Parts[part].(*model.Bar); ok && len(bar.Studs) > 0 {
			places = p.between(places, part, parts[:k], parts[k+1:])
		}
		if len(places) == 0 {
			continue
		}
		from := places[0].Along
		for _, place := range places {
			point := p.point(place)
			point.Along = at + max(place.Along-from, from-place.Along)
			if way != nil {
				point.Way = way(part)
			}
			out = append(out, point)
		}
		at = out[len(out)-1].Along
	}
	return out
}

// between are the places of a part from where it touches a part before it to
// where it touches one behind it.
func (p *profiler) between(places []model.Place, part int, before, behind []int) []model.Place {
	index := func(others []int) int {
		for _, r := range p.likely.assembly.Rows {
			if r.Kind != model.JointRow {
				continue
			}
			j := p.likely.stack.Joints[r.Joint]
			for side, port := range [2]model.Port{j.A, j.B} {
				other := [2]model.Port{j.B, j.A}[side]
				if port.Part == part && slices.Contains(others, other.Part) {
					return slices.IndexFunc(places, func(at model.Place) bool { return slices.Contains(r.Nodes, at.Node) })
				}
			}
		}
		return -1
	}
	from, to := index(before), index(behind)
	if from < 0 {
		from = 0
	}
	if to < 0 {
		to = len(places) - 1
	}
	if from <= to {
		return places[from : to+1]
	}
	back := slices.Clone(places[to : from+1])
	slices.Reverse(back)
	return back
}
