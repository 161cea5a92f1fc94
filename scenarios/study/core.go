package study

import (
	"math"
	"slices"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/scenarios"
)

// This file finds what is around the hottest terminal: the parts that causes of
// a difference are looked for in.

// core is the part of the path that owns the hottest terminal, with the lugs
// bolted to it.
type core struct {
	item   int // index in the file's path
	kind   string
	parts  map[int]bool
	joints []int // joints of those parts, in the order of the rows
	// cables before the core and after it, each outwards from it, as indices in
	// Stack.Parts.
	cables [2][]int
}

// coreOf finds the core of a settled state.
func coreOf(sc *scenarios.Scenario, s *state) (*core, error) {
	hot, err := s.hottest()
	if err != nil {
		return nil, err
	}
	part := s.assembly.Rows[hot].Part
	c := &core{item: sc.PartItems[part], parts: map[int]bool{}}
	// A lug comes with its cable, but belongs to the stud that it lies on.
	if sc.File.Path[c.item].Kind == "cable" {
		for _, j := range s.stack.Joints {
			if j.Kind == model.Bolted && (j.A.Part == part || j.B.Part == part) {
				c.item = sc.BoltItems[j.Bolt]
			}
		}
	}
	c.kind = sc.File.Path[c.item].Kind
	for i, item := range sc.PartItems {
		if item == c.item || i == part {
			c.parts[i] = true
		}
	}
	own := func(p int) bool { return sc.PartItems[p] == c.item }
	for _, j := range s.stack.Joints {
		if j.Kind != model.Bolted || own(j.A.Part) == own(j.B.Part) {
			continue
		}
		for _, p := range [2]int{j.A.Part, j.B.Part} {
			if _, block := s.stack.Parts[p].(*model.Block); block && sc.File.Path[sc.PartItems[p]].Kind == "cable" {
				c.parts[p] = true
			}
		}
	}
	for _, r := range s.assembly.Rows {
		if r.Kind != model.JointRow {
			continue
		}
		if j := s.stack.Joints[r.Joint]; c.parts[j.A.Part] || c.parts[j.B.Part] {
			c.joints = append(c.joints, r.Joint)
		}
	}
	for i, p := range s.stack.Parts {
		if _, cable := p.(*model.Cable); !cable {
			continue
		}
		if sc.PartItems[i] < c.item {
			c.cables[0] = slices.Insert(c.cables[0], 0, i)
		} else {
			c.cables[1] = append(c.cables[1], i)
		}
	}
	return c, nil
}

// way is how a node of the core, by its row and its place there, gives heat to
// the room, W/K. Rows are the same however finely a cable is cut.
type way struct {
	row, place  int
	conductance float64
}

// reach is the W/K of ways as the hottest terminal has them: a way counts less
// the colder its node is when settled, for what lies behind plastic or behind a
// contact cools less than bare metal.
func reach(ways []way, s *state) float64 {
	sum := 0.0
	air := s.stack.Surroundings.Air
	top := s.temp(s.assembly.HottestTerminal(s.x)) - air
	for _, w := range ways {
		share := 1.0
		if math.Abs(top) > noticeable {
			share = math.Max(0, (s.x[s.assembly.Rows[w.row].Nodes[w.place]]-air)/top)
		}
		sum += w.conductance * share
	}
	return sum
}

// ways are those of the core at one rise above the air, K, of all metal. What
// lies under a cover passes the air below it and then the cover, which is taken
// to be half as warm.
func (c *core) ways(a *model.Assembly, stack *model.Stack, rise float64) []way {
	type owner struct{ part, row, place int }
	owners, lids := map[network.NodeID]owner{}, map[network.NodeID]bool{}
	x := warmed(a, rise)
	for row, r := range a.Rows {
		for place, n := range r.Nodes {
			if r.Part >= 0 && c.parts[r.Part] {
				owners[n] = owner{r.Part, row, place}
			}
			if r.Kind == model.BodyRow && r.Part < 0 && c.covered(stack, r.Name) {
				lids[n] = true
				x[n] -= rise / 2
			}
		}
	}
	var out, under []way
	through, outside := 0.0, 0.0
	for _, d := range a.Detail(x) {
		o, ours := owners[d.Node]
		switch {
		case lids[d.Node]:
			outside += d.Conductance
		case !ours:
		case coverOver(stack, o.part):
			under = append(under, way{o.row, o.place, d.Conductance})
			through += d.Conductance
		default:
			out = append(out, way{o.row, o.place, d.Conductance})
		}
	}
	for _, w := range under {
		out = append(out, way{w.row, w.place, w.conductance * outside / (outside + through)})
	}
	return out
}

// covered says whether a cover of that name lies over a part of the core.
func (c *core) covered(stack *model.Stack, name string) bool {
	for _, v := range stack.Covers {
		if v.Label == name && slices.ContainsFunc(v.Parts, func(p int) bool { return c.parts[p] }) {
			return true
		}
	}
	return false
}

// coverOver says whether a part lies under a cover: then none of its surfaces
// faces the room.
func coverOver(stack *model.Stack, part int) bool {
	return slices.ContainsFunc(stack.Covers, func(v model.Cover) bool { return slices.Contains(v.Parts, part) })
}
