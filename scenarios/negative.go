package scenarios

import (
	"slices"

	"clampheat/model"
)

// This file wires the negative side of batteries side by side like the positive
// one, for it decides with it how they share: each battery has its own cables
// once more, and the bar on which they meet has a twin, which the negative of
// the load leaves at the same end as the positive leaves the bar, or at the
// opposite one. Holders and lugs have no twin, nor have cables of branches within
// a battery's path.

// negative is the negative side: points outside the stack.
type negative struct {
	of  map[int]model.Port // of each battery
	out model.Port         // by which the load's current comes back
	at  map[int]model.Port // by which that of a circuit does, where it is another point
}

// to is the point by which the current of a circuit comes back, 0 for that of
// the main way.
func (n negative) to(circuit int) model.Port {
	if p, own := n.at[circuit]; own {
		return p
	}
	return n.out
}

// negative makes the negative side.
func (r *resolver) negative(pieces []piece, points *outside) negative {
	f := r.file
	var ways []int
	for w := range f.Ways {
		if f.Ways[w].Kind == BatteryWay && !f.taken[w] {
			ways = append(ways, w)
		}
	}
	bar := r.batteriesOn()
	how := ""
	switch {
	case bar < 0:
		r.defaultWord("batteries", "battery", "negative side")
	case f.Path[bar].Return.Set:
		r.use(f.Path[bar].Return.Pos)
		how = f.Path[bar].Return.Text
	default:
		how = r.defaultWord(r.names.where[bar], "bus bar", "return")
	}
	out := negative{of: map[int]model.Port{}, at: map[int]model.Port{}}
	if bar < 0 || how == "none" {
		out.out = points.point()
		for _, w := range ways {
			out.of[w] = out.out
			if bar < 0 {
				out.of[w] = r.ownCables(w, out.out, points)
			}
		}
		return out
	}
	twin := r.twin(bar, how, pieces, points)
	for _, w := range ways {
		stud := studNamed(f.Path[bar].Studs.List, f.Ways[w].Name)
		out.of[w] = r.ownCables(w, twin[stud], points)
	}
	left := false
	for _, m := range r.order.meetings {
		if len(m.before) != 1 || m.before[0].item != bar {
			continue
		}
		at := twin[m.before[0].stud]
		for _, s := range m.after {
			circuit := r.drawnBy(f.Path[s.item].Way)
			if circuit > 0 {
				out.at[circuit] = at
			} else if !left {
				out.out, left = at, true
			}
		}
	}
	return out
}

// batteriesOn is the bus bar on which the batteries meet, −1 where they meet
// elsewhere.
func (r *resolver) batteriesOn() int {
	for _, m := range r.order.meetings {
		if len(m.after) != 1 || !r.order.busBar(m.after[0]) {
			continue
		}
		for _, s := range m.before {
			if r.batteryOf(r.file.Path[s.item].Way) > 0 {
				return m.after[0].item
			}
		}
	}
	return -1
}

// ownCables leads from a point to the negative of a battery, through as much
// cable as its positive side has.
func (r *resolver) ownCables(way int, at model.Port, points *outside) model.Port {
	for part, item := range r.partItem {
		if _, cable := r.stack.Parts[part].(*model.Cable); !cable || r.file.Path[item].Way != way {
			continue
		}
		next := points.point()
		r.wire(model.Wire{Name: r.names.labels[item] + ", negative", A: at, B: next, Like: &model.Section{Part: part, From: 0, To: 1}})
		at = next
	}
	return at
}

// twin makes the twin of a bar and gives the point of each of its studs, in the
// order of those of the bar.
//
// At the same end the twin is a copy of the bar. At the opposite end it is
// turned around, so that the studs by which the current leaves lie as far from its
// other end; all others keep their order on what is left.
func (r *resolver) twin(bar int, how string, pieces []piece, points *outside) []model.Port {
	studs := r.file.Path[bar].Studs.List
	last := len(studs) - 1
	turned := func(k int) int { return k }
	if how == "opposite end" {
		turned = func(k int) int { return last - k }
	}
	rail := make([]model.Port, len(studs))
	for k := range rail {
		rail[k] = points.point()
	}
	part := pieces[bar].studs[0].port.Part
	for k := range last {
		r.wire(model.Wire{Name: r.names.labels[bar] + ", negative", A: rail[k], B: rail[k+1],
			Like: &model.Section{Part: part, From: turned(k), To: turned(k + 1)}})
	}
	leaves := make([]bool, len(studs))
	for _, m := range r.order.meetings {
		if len(m.before) == 1 && m.before[0].item == bar {
			leaves[m.before[0].stud] = true
		}
	}
	out := make([]model.Port, len(studs))
	taken := make([]bool, len(studs))
	for k := range studs {
		if leaves[k] {
			out[k], taken[turned(k)] = rail[turned(k)], true
		}
	}
	for k := range studs {
		if !leaves[k] {
			free := slices.Index(taken, false)
			out[k], taken[free] = rail[free], true
		}
	}
	return out
}
