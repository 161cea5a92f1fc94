package study

import (
	"math"
	"slices"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/scenarios"
)

// This file reads the ways side by side at a state: which carries how much, and
// how hot it gets.

// sideBySide says whether a way stands beside others and has parts.
func sideBySide(ways []scenarios.WayInfo, way int) bool {
	if ways[way].Kind == scenarios.MainWay {
		return false
	}
	for i, w := range ways {
		if len(w.Parts) > 0 && within(ways, i, way) {
			return true
		}
	}
	return false
}

// within says whether a way is another or lies in it.
func within(ways []scenarios.WayInfo, way, outer int) bool {
	for ; way >= 0; way = ways[way].Parent {
		if way == outer {
			return true
		}
	}
	return false
}

// wayOf gives each part the index of its way, −1 for a part of none.
func wayOf(ways []scenarios.WayInfo, parts int) []int {
	of := slices.Repeat([]int{-1}, parts)
	for i, w := range ways {
		for _, p := range w.Parts {
			of[p] = i
		}
	}
	return of
}

// rowWays gives each row of an assembly the index of its way, −1 for a row of
// none. A joint between two ways is of the inner one, and where neither lies in
// the other, of that of the later part.
func rowWays(s *state, ways []scenarios.WayInfo) []int {
	parts := wayOf(ways, len(s.stack.Parts))
	out := make([]int, len(s.assembly.Rows))
	for i, r := range s.assembly.Rows {
		out[i] = -1
		switch {
		case r.Part >= 0:
			out[i] = parts[r.Part]
		case r.Joint >= 0:
			j := s.stack.Joints[r.Joint]
			a, b := parts[min(j.A.Part, j.B.Part)], parts[max(j.A.Part, j.B.Part)]
			if within(ways, a, b) {
				out[i] = a
			} else {
				out[i] = b
			}
		}
	}
	return out
}

// lanes reads the currents of ways from the rows of an assembly.
type lanes struct {
	*state
	ways []scenarios.WayInfo
	rows []int // of each row its way
}

func newLanes(s *state, ways []scenarios.WayInfo) *lanes {
	return &lanes{s, ways, rowWays(s, ways)}
}

// current is that of a way, A: of the first of its own parts that carries one, or
// of all ways side by side that it consists of.
func (l *lanes) current(way int) float64 { return l.currentAt(way, 0, l.x) }

// currentAt is that at another state and its time.
func (l *lanes) currentAt(way int, t float64, x []float64) float64 {
	for i, r := range l.assembly.Rows {
		if r.Part >= 0 && l.rows[i] == way && r.Branch != model.NoBranch && len(r.Resistors) > 0 {
			return l.assembly.RowCurrent(i, t, x)
		}
	}
	sum := 0.0
	for _, inner := range l.firstGroup(way) {
		sum += l.currentAt(inner, t, x)
	}
	return sum
}

// firstGroup are the ways of the first group that lies in a way.
func (l *lanes) firstGroup(way int) []int {
	var out []int
	for i, w := range l.ways {
		if w.Parent == way && (len(out) == 0 || w.Group == l.ways[out[0]].Group) {
			out = append(out, i)
		}
	}
	return out
}

// drop is the voltage over the parts and joints of a way, V, with that of ways
// side by side in it once, since all of those that carry have the same. It is taken between
// the points where the ways meet: a face by which a stack of lugs lies on a stud
// carries the current of all, and is none of one way's own.
func (l *lanes) drop(way int) float64 {
	own := map[network.BranchID]bool{}
	for i, r := range l.assembly.Rows {
		if l.rows[i] == way && r.Part >= 0 && len(r.Resistors) > 0 {
			own[r.Branch] = true
		}
	}
	sum := 0.0
	for i, row := range l.rows {
		if row == way && own[l.assembly.Rows[i].Branch] {
			sum += math.Abs(l.assembly.RowDrop(i, 0, l.x))
		}
	}
	counted := map[int]bool{}
	for i, w := range l.ways {
		if w.Parent == way && w.Kind == scenarios.BranchWay && !counted[w.Group] {
			inner := l.drop(i)
			counted[w.Group] = inner > 0 // one that is opened has none
			sum += inner
		}
	}
	return sum
}

// line reads one way.
func (l *lanes) line(way int, names []string) BranchLine {
	w := l.ways[way]
	out := BranchLine{Name: w.Name, Kind: string(w.Kind), Group: w.Group, Current: l.current(way), Drop: l.drop(way)}
	hot := -1
	for i, r := range l.assembly.Rows {
		if r.Terminal && within(l.ways, l.rows[i], way) && (hot < 0 || l.temp(i) > l.temp(hot)) {
			hot = i
		}
	}
	if hot >= 0 {
		out.Place, out.Temp = names[hot], temp(l.temp(hot))
	}
	for i, p := range l.stack.Parts {
		f, ok := p.(*model.Fuse)
		if !ok || !within(l.ways, l.partWay(i), way) || !(f.Rated > 0) {
			continue
		}
		if load := l.fuseCurrent(i) / f.Rated; out.Fuse == "" || load > out.Load {
			out.Fuse, out.Rated, out.Load = f.Name(), f.Rated, load
		}
	}
	return out
}

func (l *lanes) partWay(part int) int {
	return slices.IndexFunc(l.ways, func(w scenarios.WayInfo) bool { return slices.Contains(w.Parts, part) })
}

// fuseCurrent is what heats a part, with the ripple, A.
func (l *lanes) fuseCurrent(part int) float64 {
	return partCurrent(l.assembly, part, 0, l.x) * math.Sqrt(1+l.stack.Ripple*l.stack.Ripple)
}

// branchLines are the ways side by side at a state, in the order of the file, and
// how evenly each group shares.
func branchLines(s *state, ways []scenarios.WayInfo) ([]BranchLine, []Spread) {
	if len(ways) < 2 {
		return nil, nil
	}
	l := newLanes(s, ways)
	names := rowNames(s.assembly)
	var lines []BranchLine
	for i := range ways {
		if sideBySide(ways, i) {
			lines = append(lines, l.line(i, names))
		}
	}
	return lines, shareOut(lines)
}

// shareOut fills in the shares of each group and says how even they are. Circuits
// have currents of their own and share nothing.
func shareOut(lines []BranchLine) []Spread {
	groups := map[int][]int{}
	var order []int
	for i, b := range lines {
		if groups[b.Group] == nil {
			order = append(order, b.Group)
		}
		groups[b.Group] = append(groups[b.Group], i)
	}
	var out []Spread
	for _, g := range order {
		members := groups[g]
		sum := 0.0
		most, least := members[0], members[0]
		for _, i := range members {
			sum += lines[i].Current
			if lines[i].Current > lines[most].Current {
				most = i
			}
			if lines[i].Current < lines[least].Current {
				least = i
			}
		}
		if sum == 0 {
			continue
		}
		for _, i := range members {
			lines[i].Share = lines[i].Current / sum
		}
		if lines[most].Kind == string(scenarios.CircuitWay) {
			continue
		}
		s := Spread{Group: g, Kind: lines[most].Kind, Ways: len(members), Largest: lines[most].Name, Smallest: lines[least].Name,
			OverEven: lines[most].Share * float64(len(members))}
		if lines[least].Current > 0 {
			s.Ratio = lines[most].Current / lines[least].Current
		}
		out = append(out, s)
	}
	return out
}

// leastCirculating, A, is too little to tell.
const leastCirculating = 1e-3

// circulating is what flows in the batteries when nothing is drawn; nothing where
// they are alike.
func circulating(s *state, ways []scenarios.WayInfo) []Circulating {
	if !slices.ContainsFunc(ways, func(w scenarios.WayInfo) bool { return w.Kind == scenarios.BatteryWay }) {
		return nil
	}
	rest := *s
	rest.x = s.assembly.Open(0, s.x)
	l := newLanes(&rest, ways)
	var out []Circulating
	most := 0.0
	for i, w := range ways {
		if w.Kind == scenarios.BatteryWay {
			c := Circulating{w.Name, l.current(i)}
			most = max(most, math.Abs(c.Current))
			out = append(out, c)
		}
	}
	if most < leastCirculating {
		return nil
	}
	return out
}
