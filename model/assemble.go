package model

import (
	"fmt"
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model/network"
)

// usualCell is the largest cell over the fin length where the mesh says
// nothing; finestCell bounds what may be asked for.
const (
	usualCell  = 0.2
	finestCell = 1e-4
)

// Assemble turns the stack into a heat network with the ohms of joints and
// fuse at a condition.
//
// Errors: *StackError for a field that no figure can be made from, *YieldError
// for a bolt past its yield figure, *BranchError where the current would part.
func (s *Stack) Assemble(c Condition, m Mesh) (*Assembly, error) {
	if c != Likely && c != Careful && c != Careless {
		return nil, &StackError{Reason: fmt.Sprintf("there is no condition %d", c)}
	}
	if m.Cell == 0 {
		m.Cell = usualCell
	}
	if !finite(m.Cell) || m.Cell < finestCell {
		return nil, &StackError{Reason: fmt.Sprintf("cells of %g fin lengths are too fine to be cut", m.Cell)}
	}
	b, way, err := s.builder(c, m)
	if err != nil {
		return nil, err
	}
	for i := range s.Bolts {
		f, err := s.BoltFigures(i)
		if err != nil {
			return nil, err
		}
		b.a.Warnings = append(b.a.Warnings, f.Warnings...)
	}
	if err := b.placeParts(); err != nil {
		return nil, err
	}
	for k := range s.Covers {
		if err := b.placeCover(&s.Covers[k], b.below[k]); err != nil {
			return nil, err
		}
	}
	if err := b.follow(way); err != nil {
		return nil, err
	}
	b.a.Rows = append(b.a.Rows, b.beside...)
	b.n.SetSupply(s.Supply, s.Ripple)
	if err := b.n.Finish(); err != nil {
		return nil, fmt.Errorf("the stack cannot be worked out: %w", err)
	}
	b.a.Network = b.n
	if err := b.a.proportion(s); err != nil {
		return nil, err
	}
	for i := range b.parts {
		f := b.parts[i].figures
		if !finite(f.Mass) || !finite(f.Capacity) || !finite(f.Surface) || !finite(f.Resistance) {
			return nil, &StackError{Where: s.Parts[i].Name(), Reason: "its figures are out of all proportion"}
		}
		b.a.Parts = append(b.a.Parts, f)
	}
	return b.a, nil
}

// proportion tells figures that are sound one by one and overflow together,
// by the balance of the stack at the temperature of the air and its current
// at each break.
func (a *Assembly) proportion(s *Stack) error {
	x := a.Start(nil)
	f := make([]float64, len(x))
	for _, t := range append([]float64{0}, s.Supply.Breaks()...) {
		flow := a.Network.Balance(t, x, f)
		if !finite(flow.Made) || !finite(flow.Lost) {
			return &StackError{Reason: "its figures are out of all proportion"}
		}
		for i, v := range f {
			if !finite(v) {
				return &StackError{Where: a.Network.NodeName(network.NodeID(i)), Reason: "its figures are out of all proportion"}
			}
		}
	}
	return nil
}

// builder checks what belongs to the stack as a whole and makes an empty
// network for it.
func (s *Stack) builder(c Condition, m Mesh) (*builder, []step, error) {
	if len(s.Parts) == 0 {
		return nil, nil, &StackError{Reason: "it has no parts"}
	}
	for i, p := range s.Parts {
		if missing(p) {
			return nil, nil, &StackError{Reason: fmt.Sprintf("its part %d is missing", i)}
		}
	}
	pressure, err := s.Surroundings.check()
	if err != nil {
		return nil, nil, err
	}
	if err := s.checkSupply(); err != nil {
		return nil, nil, err
	}
	at, err := s.ends()
	if err != nil {
		return nil, nil, err
	}
	way, err := s.path(at)
	if err != nil {
		return nil, nil, err
	}
	b := &builder{
		s: s, c: c, cell: m.Cell,
		n: network.New(network.Surroundings{
			Air: s.Surroundings.Air, Radiant: s.Surroundings.Radiant, Pressure: pressure}),
		a:      &Assembly{Condition: c, air: s.Surroundings.Air},
		joined: make(map[Port]bool, len(at)),
		parts:  make([]placed, len(s.Parts)),
		cover:  make([]int, len(s.Parts)),
		below:  make([][]under, len(s.Covers)),
	}
	for p := range at {
		b.joined[p] = true
	}
	for i := range b.parts {
		b.cover[i] = -1
		b.parts[i].resistors = map[network.NodeID][]network.ResistorID{}
		b.parts[i].surfaces = map[network.NodeID][]network.SurfaceID{}
	}
	for k := range s.Covers {
		if err := s.Covers[k].check(len(s.Parts)); err != nil {
			return nil, nil, err
		}
		for _, p := range s.Covers[k].Parts {
			if b.cover[p] >= 0 && b.cover[p] != k {
				return nil, nil, &StackError{Where: s.Parts[p].Name(), Reason: "it lies under two covers"}
			}
			b.cover[p] = k
		}
	}
	return b, way, nil
}

// missing tells a part that is not there, as an interface or as a pointer.
func missing(p Part) bool {
	switch p := p.(type) {
	case *Cable:
		return p == nil
	case *Bar:
		return p == nil
	case *Post:
		return p == nil
	case *Block:
		return p == nil
	case *Fuse:
		return p == nil
	case *Washer:
		return p == nil
	case *Base:
		return p == nil
	}
	return p == nil
}

// check gives the pressure of the air, Pa.
func (r *Surroundings) check() (pressure float64, err error) {
	c := checks{where: "the surroundings"}
	c.positive("temperature of the air", r.Air)
	c.notNegative("radiant temperature", r.Radiant)
	c.notNegative("air speed", r.AirSpeed)
	if !finite(r.Altitude) {
		c.fail("altitude", "must be finite, not %g", r.Altitude)
	}
	if c.err != nil {
		return 0, c.err
	}
	if pressure, err = materials.PressureAt(r.Altitude); err != nil {
		return 0, fmt.Errorf("the surroundings: the air's pressure is unknown: %w", err)
	}
	if _, err = materials.DryAir(r.Air, pressure); err != nil {
		return 0, fmt.Errorf("the surroundings: the air's figures are unknown: %w", err)
	}
	return pressure, nil
}

func (s *Stack) checkSupply() error {
	c := checks{where: "the supply"}
	if s.Supply == nil {
		c.fail("current", "is missing")
		return c.err
	}
	for _, t := range append([]float64{0}, s.Supply.Breaks()...) {
		if !finite(t) {
			c.fail("time of a change", "must be finite, not %g", t)
		}
		c.notNegative("current", s.Supply.Current(t))
	}
	c.notNegative("ripple", s.Ripple)
	return c.err
}

// placeParts places the parts that carry current and then those that touch
// them.
func (b *builder) placeParts() error {
	for _, touching := range [2]bool{false, true} {
		for i, p := range b.s.Parts {
			if _, base := p.(*Base); base != touching {
				continue
			}
			if err := p.place(b, i); err != nil {
				return err
			}
		}
	}
	return nil
}

// follow puts rows and places in the order of the current and adds the joints
// between the parts.
func (b *builder) follow(way []step) error {
	along := 0.0
	for k, w := range way {
		if w.joint >= 0 {
			before := way[k-1]
			from := Port{before.part, 1 - before.enter}
			if err := b.join(w.joint, from, Port{w.part, w.enter}); err != nil {
				return err
			}
		}
		p := &b.parts[w.part]
		rows, path := slices.Clone(p.rows), slices.Clone(p.path)
		if w.enter == 1 {
			slices.Reverse(rows)
			slices.Reverse(path)
			for i := range path {
				path[i].Along = p.length - path[i].Along
			}
		}
		for _, at := range path {
			at.Along += along
			b.a.Path = append(b.a.Path, at)
		}
		along += p.length
		b.a.Rows = append(b.a.Rows, rows...)
	}
	return nil
}

// join adds the joint with index i between two ports, in the order of the
// current.
func (b *builder) join(i int, from, to Port) error {
	j := &b.s.Joints[i]
	f, err := b.s.JointFigures(i)
	if err != nil {
		return err
	}
	b.a.Warnings = append(b.a.Warnings, f.Warnings...)
	left, right := b.parts[from.Part].ports[from.Port], b.parts[to.Part].ports[to.Port]
	link := b.n.AddLink(j.Name, left.node, right.node, b.c.against(f.Conductance))
	row := Row{Kind: JointRow, Name: j.Name, Part: -1, Joint: i, Bolt: -1,
		Nodes: []network.NodeID{left.node, right.node}, Links: []network.LinkID{link}}
	if j.Kind == Bolted {
		row.Bolt = j.Bolt
	}
	for _, r := range j.resistors(f, b.c, [2]materials.Metal{left.metal, right.metal}) {
		r.A, r.B = left.node, right.node
		row.Resistors = append(row.Resistors, b.resist(-1, JointSource, r))
	}
	b.a.Rows = append(b.a.Rows, row)
	return nil
}

// resistors makes the resistors of a joint at a condition. What the condition
// adds to the likely ohms, or a measured value, falls on spots and film alike;
// the crowding through an overlap is of geometry and stays.
func (j *Joint) resistors(f JointFigures, c Condition, metals [2]materials.Metal) []network.Resistor {
	ohm := c.at(f.Resistance)
	switch j.Kind {
	case Crimped:
		// Cold-welded or soldered metal follows its metals' temperature.
		return []network.Resistor{{Name: j.Name, R20: ohm, Alpha: (metals[0].Alpha20 + metals[1].Alpha20) / 2}}
	case Fixed:
		return []network.Resistor{{Name: j.Name, Film: ohm}}
	}
	m := j.Face.Metals
	alpha := (m[0].Resistivity20*m[0].Alpha20 + m[1].Resistivity20*m[1].Alpha20) /
		(m[0].Resistivity20 + m[1].Resistivity20)
	// The crowding through the overlap is of geometry and stays, but it is never
	// more than its predicted share of what was measured.
	bulk := math.Min(f.Bulk, ohm*f.Bulk/(f.Bulk+f.Constriction+f.Film))
	share := (ohm - bulk) / (f.Constriction + f.Film)
	out := []network.Resistor{{Name: j.Name, R20: f.Constriction * share, Alpha: alpha,
		Film: f.Film * share, Constriction: true}}
	if bulk > 0 {
		out = append(out, network.Resistor{Name: j.Name + ", overlap", R20: bulk, Alpha: alpha})
	}
	return out
}

// Start is a state to start a search or a soak from: all at the temperature
// of the air, but for the parts whose temperature [K] is given by their index
// in Stack.Parts.
func (a *Assembly) Start(parts map[int]float64) []float64 {
	x := make([]float64, a.Network.Nodes())
	for i := range x {
		x[i] = a.air
		if t, ok := parts[a.nodePart[i]]; ok && finite(t) {
			x[i] = math.Max(t, 0)
		}
	}
	return x
}
