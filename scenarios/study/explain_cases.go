package study

import (
	"context"
	"slices"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file makes and solves the cases between two stacks.

// at makes the frame of a case, once.
func (e *explanation) at(frameOf, fuse, cable, room int) (*frame, error) {
	key := [4]int{frameOf, fuse, cable, room}
	if f, ok := e.frame[key]; ok {
		return f, nil
	}
	own := e.sides[frameOf]
	stack := *own.stack
	stack.Parts = slices.Clone(stack.Parts)
	if fuse != frameOf {
		other := e.sides[fuse]
		for i := range min(len(own.fuses), len(other.fuses)) {
			at := own.fuses[i]
			c, err := exchangeElement(stack.Parts[at].(*model.Fuse), other.stack.Parts[other.fuses[i]].(*model.Fuse))
			if err != nil {
				return nil, err
			}
			stack.Parts[at] = c
		}
	}
	if cable != frameOf {
		other := e.sides[cable]
		for k := range 2 {
			for i := range min(len(own.core.cables[k]), len(other.core.cables[k])) {
				at := own.core.cables[k][i]
				stack.Parts[at] = exchangeCable(stack.Parts[at].(*model.Cable), other.stack.Parts[other.core.cables[k][i]].(*model.Cable))
			}
		}
	}
	if room != frameOf {
		other := e.sides[room].stack
		stack.Surroundings, stack.Supply, stack.Ripple = other.Surroundings, other.Supply, other.Ripple
	}
	f := &frame{stack: &stack, assembly: own.state.assembly}
	if fuse != frameOf || cable != frameOf || room != frameOf {
		a, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			return nil, err
		}
		f.assembly = a
	}
	f.system = &exchanged{n: f.assembly.Network.Clone(), air: stack.Surroundings.Air}
	f.solver = solver.NewSteadySolver(f.system)
	f.start = warmed(f.assembly, guessRise)
	if f.assembly == own.state.assembly {
		f.start = own.state.x
	}
	e.frame[key] = f
	return f, nil
}

// solve is the hottest terminal, K, of the case in which the groups of a set,
// by their place in alive, are those of the second stack.
func (e *explanation) solve(ctx context.Context, set int) (float64, error) {
	var from [causes]int // whose figures each group has
	for i, g := range e.alive {
		from[g] = set >> i & 1
	}
	// Groups without a difference go with the frame.
	of := from[byNeighbours]
	for g := range from {
		if !slices.Contains(e.alive, g) {
			from[g] = of
		}
	}
	f, err := e.at(of, from[byFuse], from[byCable], from[byRoom])
	if err != nil {
		return 0, err
	}
	s := f.system
	s.heats, s.swaps, s.links, s.rooms = s.heats[:0], s.swaps[:0], s.links[:0], s.rooms[:0]
	own, other := e.sides[of], e.sides[1-of]
	if from[byJoints] != of {
		e.joints(f, own, other)
	}
	if from[byClamp] != of {
		e.clamps(f, own, e.factors(inverse(own.conductances), inverse(other.conductances)))
	}
	if from[bySurface] != of {
		e.surfaces(f, of)
	}
	r, err := f.solver.Solve(ctx, solver.SteadyOptions{Start: f.start, Ceilings: f.assembly.Network.Ceilings()})
	if err != nil {
		return 0, err
	}
	f.start = r.X
	return f.assembly.RowTemp(f.assembly.HottestTerminal(r.X), r.X), nil
}

// joints exchanges what the core's contacts make.
func (e *explanation) joints(f *frame, own, other *side) {
	factors := e.factors(own.joints, other.joints)
	paired := e.oneKind() && len(own.joints) == len(other.joints)
	var from *network.Network
	if paired {
		from = other.state.assembly.Network.Clone()
		from.SetSupply(f.stack.Supply, f.stack.Ripple)
	}
	for _, r := range f.assembly.Rows {
		i := slices.Index(own.core.joints, r.Joint)
		switch {
		case r.Kind != model.JointRow || i < 0:
		case paired:
			there := other.jointRow(other.core.joints[i])
			f.system.swaps = append(f.system.swaps, swapTerm{own: r.Resistors, other: there.Resistors, nodes: r.Nodes,
				from: from, sides: there.Nodes, x: slices.Clone(other.state.x)})
		default:
			for _, id := range r.Resistors {
				f.system.heats = append(f.system.heats, heatTerm{id, r.Nodes, factors[i] - 1})
			}
		}
	}
}

// jointRow is the row of a joint.
func (s *side) jointRow(joint int) model.Row {
	rows := s.state.assembly.Rows
	return rows[slices.IndexFunc(rows, func(r model.Row) bool { return r.Kind == model.JointRow && r.Joint == joint })]
}

// clamps scales thermal resistances.
func (e *explanation) clamps(f *frame, own *side, factors []float64) {
	for _, r := range f.assembly.Rows {
		if r.Kind != model.JointRow {
			continue
		}
		if i := slices.Index(own.core.joints, r.Joint); i >= 0 {
			f.system.link(r.Nodes[0], r.Nodes[1], own.conductances[i]*(1/factors[i]-1))
		}
	}
}

// surfaces exchanges what carries heat from the core to the room.
func (e *explanation) surfaces(f *frame, of int) {
	own, other := e.room[of], e.room[1-of]
	paired := e.oneKind() && len(own) == len(other)
	for i, w := range own {
		more := 0.0
		switch {
		case paired:
			more = other[i].conductance - w.conductance
		case e.sum[of] > 0:
			more = w.conductance * (e.sum[1-of]/e.sum[of] - 1)
		}
		f.system.rooms = append(f.system.rooms, roomTerm{int(f.assembly.Rows[w.row].Nodes[w.place]), more})
	}
}

// oneKind says whether the two cores are of one kind, so that what they are made of
// corresponds one by one.
func (e *explanation) oneKind() bool { return e.sides[0].core.kind == e.sides[1].core.kind }

// factors are what each of the own figures is multiplied with to take the
// other's place: one by one, or so that the sum is the other's.
func (e *explanation) factors(own, other []float64) []float64 {
	factors := make([]float64, len(own))
	mine, theirs := 0.0, 0.0
	for _, x := range own {
		mine += x
	}
	for _, x := range other {
		theirs += x
	}
	for i := range own {
		factors[i] = 1
		switch {
		case e.oneKind() && len(own) == len(other):
			factors[i] = other[i] / own[i]
		case mine > 0 && theirs > 0:
			factors[i] = theirs / mine
		}
	}
	return factors
}

func inverse(list []float64) []float64 {
	out := make([]float64, len(list))
	for i, x := range list {
		out[i] = 1 / x
	}
	return out
}

// exchangeElement is a fuse with the element of the other.
func exchangeElement(own, other *model.Fuse) (*model.Fuse, error) {
	f, err := other.FuseFigures()
	if err != nil {
		return nil, err
	}
	c := *own
	c.Cold, c.Hot = f.Cold, nil
	c.ElementAlpha, c.ElementCapacity, c.ElementTo = other.ElementAlpha, other.ElementCapacity, other.ElementTo
	c.ToCap, c.ToBody = other.ToCap, other.ToBody
	return &c, nil
}

// sameElement says whether two fuses have the same element.
func sameElement(a, b *model.Fuse) bool {
	return alike(a.Cold.Likely, b.Cold.Likely) && alike(a.ToCap.Likely, b.ToCap.Likely) &&
		alike(a.ToBody, b.ToBody) && a.ElementAlpha == b.ElementAlpha
}

// exchangeCable is a cable with what the other is made of.
func exchangeCable(own, other *model.Cable) *model.Cable {
	c := *own
	c.Conductor, c.Insulation, c.Wall = other.Conductor, other.Insulation, other.Wall
	c.Length, c.Lies, c.Exposed = other.Length, other.Lies, other.Exposed
	return &c
}

// sameCable says whether an exchange of two cables would change nothing.
func sameCable(a, b *model.Cable) bool {
	return a.Conductor.Name == b.Conductor.Name && a.Conductor.Diameter == b.Conductor.Diameter &&
		a.Insulation.Name == b.Insulation.Name && a.Insulation.Emissivity == b.Insulation.Emissivity &&
		a.Wall == b.Wall && a.Length == b.Length && a.Lies == b.Lies && a.Exposed == b.Exposed
}
