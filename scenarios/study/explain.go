package study

import (
	"context"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file splits the difference between the hottest terminals of two stacks
// into causes, by exchanging one group of figures at a time and solving anew.
//
// A case says of each group whose figures it has, the first stack's or the
// second's:
//
//	neighbours   the frame: whose parts the current meets, and in which order.
//	             What no other group names goes with it, the build of the
//	             holder among it.
//	cable        of the cables before and after the core, counted from it
//	             outwards: size, insulation, length and how it lies. One without
//	             a counterpart stays with the frame.
//	fuse watts   the elements of the fuses, in their order: ohms and ways to cap
//	             and body. One without a counterpart stays.
//	joint watts  the ohms of the core's joints: each its counterpart's where the
//	             cores are of one kind and have as many, else all scaled to the
//	             other's sum.
//	clamp        the heat conductance across the core's joints: the same, with
//	             the sum of their thermal resistances.
//	surface      the W/K from the core to the room, at one rise and in one room
//	             for both: the same, scaled to what the other's hottest terminal
//	             has of them (core.go).
//	room         current, ripple and surroundings, where they differ.
//
// The core is the part that owns the hottest terminal, with its joints and the
// lugs on it (core.go). A frame with its own figures in every group is that
// stack as it is: no group taken over is the first, all are the second, exactly.
// What lies between are cases of no real part, solved like any other.
//
// The shares are Shapley's (shapley.go). Groups in which the two do not differ
// have no case of their own and no share.

// The groups, by their place in causeNames.
const (
	byFuse = iota
	byJoints
	bySurface
	byClamp
	byCable
	byNeighbours
	byRoom
	causes
)

var causeNames = [causes]string{"fuse watts", "joint watts", "surface", "clamp", "cable", "neighbours", "current and room"}

// side is one of the two stacks of a comparison, ready to be taken apart.
type side struct {
	sc    *scenarios.Scenario
	stack *model.Stack // at its largest current, left on
	state *state       // settled, likely
	core  *core
	fuses []int // in Stack.Parts
	// Of the core's joints: Ω and W/K.
	joints, conductances []float64
}

func newSide(sc *scenarios.Scenario, s *state) (*side, error) {
	out := &side{sc: sc, stack: s.stack, state: s}
	var err error
	if out.core, err = coreOf(sc, s); err != nil {
		return nil, err
	}
	for i, p := range s.stack.Parts {
		if _, fuse := p.(*model.Fuse); fuse {
			out.fuses = append(out.fuses, i)
		}
	}
	for _, j := range out.core.joints {
		f, err := s.stack.JointFigures(j)
		if err != nil {
			return nil, err
		}
		out.joints = append(out.joints, f.Resistance.Likely)
		out.conductances = append(out.conductances, f.Conductance.Likely)
	}
	return out, nil
}

func (s *side) hottest() float64 {
	return s.state.temp(s.state.assembly.HottestTerminal(s.state.x))
}

// explanation is the work on one pair.
type explanation struct {
	sides [2]*side
	room  [2][]way   // of the cores at the common rise
	sum   [2]float64 // W/K
	frame map[[4]int]*frame
	alive []int // groups in which the two differ
}

// frame is an assembly with a solver that is used again.
type frame struct {
	stack    *model.Stack
	assembly *model.Assembly
	system   *exchanged
	solver   *solver.SteadySolver
	start    []float64
}

// explain splits the difference. Where a case has no lasting state it says so
// in the result.
func explain(ctx context.Context, first, second *side) (Why, error) {
	e := &explanation{sides: [2]*side{first, second}, frame: map[[4]int]*frame{}}
	rise := 0.0
	for _, s := range e.sides {
		rise += (s.hottest() - s.stack.Surroundings.Air) / 2
	}
	why := Why{Total: second.hottest() - first.hottest(), Causes: []Cause{}}
	if why.Missing = unsplittable(first, second); why.Missing != "" {
		return why, nil
	}
	for i, s := range e.sides {
		// Both in the first one's room: still air of another temperature is
		// another coefficient, and no other surface.
		f, err := e.at(i, i, i, 0)
		if err != nil {
			return why, err
		}
		e.room[i] = s.core.ways(f.assembly, s.stack, math.Max(rise, leastRise))
		e.sum[i] = reach(e.room[i], s.state)
	}
	if err := e.compare(); err != nil {
		return why, err
	}
	outcome := make([]float64, 1<<len(e.alive))
	for set := range outcome {
		t, err := e.solve(ctx, set)
		if err != nil {
			if ctx.Err() != nil {
				return why, err
			}
			why.Missing = "a case between the two has no lasting state, so that the difference cannot be shared out"
			return why, nil
		}
		outcome[set] = t
	}
	for i, share := range Shapley(len(e.alive), outcome) {
		why.Causes = append(why.Causes, Cause{Name: causeNames[e.alive[i]], Worth: share})
	}
	slices.SortStableFunc(why.Causes, func(a, b Cause) int {
		switch x, y := math.Abs(a.Worth), math.Abs(b.Worth); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return why, nil
}

// unsplittable says in words why nothing can be exchanged between two stacks:
// the cases take one current for all parts, and one room around all.
func unsplittable(sides ...*side) string {
	for _, s := range sides {
		switch {
		case powered(s.stack):
			return "what is drawn is a power, whose current moves with every exchange"
		case len(s.state.assembly.Branches) > 0:
			return "the current divides, and what part of it meets a figure would move with every exchange"
		case s.stack.Enclosure != nil:
			return "a box stands between the parts and the room"
		}
	}
	return ""
}

// leastRise, K, keeps still air's coefficients away from a rise of zero.
const leastRise = 5

// alike says whether two figures are the same but for rounding.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// compare finds the groups in which the two differ.
func (e *explanation) compare() error {
	a, b := e.sides[0], e.sides[1]
	differ := [causes]bool{
		byJoints:     !slices.EqualFunc(a.joints, b.joints, alike),
		bySurface:    !slices.EqualFunc(e.room[0], e.room[1], func(x, y way) bool { return alike(x.conductance, y.conductance) }),
		byClamp:      !slices.EqualFunc(a.conductances, b.conductances, alike),
		byNeighbours: true,
		byRoom: a.stack.Surroundings != b.stack.Surroundings || a.stack.Ripple != b.stack.Ripple ||
			a.stack.Supply.Current(0) != b.stack.Supply.Current(0),
	}
	for k := range 2 {
		for i := range min(len(a.core.cables[k]), len(b.core.cables[k])) {
			x := a.stack.Parts[a.core.cables[k][i]].(*model.Cable)
			y := b.stack.Parts[b.core.cables[k][i]].(*model.Cable)
			differ[byCable] = differ[byCable] || !sameCable(x, y)
		}
	}
	for i := range min(len(a.fuses), len(b.fuses)) {
		own := a.stack.Parts[a.fuses[i]].(*model.Fuse)
		mine, err := exchangeElement(own, own)
		if err != nil {
			return err
		}
		theirs, err := exchangeElement(own, b.stack.Parts[b.fuses[i]].(*model.Fuse))
		if err != nil {
			return err
		}
		differ[byFuse] = differ[byFuse] || !sameElement(mine, theirs)
	}
	for g, is := range differ {
		if is {
			e.alive = append(e.alive, g)
		}
	}
	return nil
}
