package model

import (
	"fmt"
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
// Errors: *StackError for a field that no figure can be made from and for a
// current that has no way, *YieldError for a bolt past its yield figure.
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
	b, err := s.place(c, m, 0)
	if err != nil {
		return nil, err
	}
	if b.box != nil {
		// How much surface a box holds is known once all is in it, and counts
		// for how each piece of it exchanges radiation with the wall.
		if b, err = s.place(c, m, b.box.facing); err != nil {
			return nil, err
		}
	}
	for i := range s.Bolts {
		f, err := s.BoltFigures(i)
		if err != nil {
			return nil, err
		}
		b.a.Warnings = append(b.a.Warnings, f.Warnings...)
	}
	if err := b.arrange(); err != nil {
		return nil, err
	}
	b.a.Rows = append(b.a.Rows, b.beside...)
	b.placeWires()
	b.n.SetSupply(s.Supply, s.Ripple)
	if s.Course != nil {
		b.n.SetAir(s.Course)
	}
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

// place makes a network and places in it all but the joints; inside is the
// surface, m², of what the box is known to hold.
func (s *Stack) place(c Condition, m Mesh, inside float64) (*builder, error) {
	b, err := s.builder(c, m)
	if err != nil {
		return nil, err
	}
	b.placeBranches()
	if err := b.openBox(inside); err != nil {
		return nil, err
	}
	if err := b.placeParts(); err != nil {
		return nil, err
	}
	for k := range s.Covers {
		if err := b.placeCover(&s.Covers[k], b.below[k]); err != nil {
			return nil, err
		}
	}
	b.closeBox()
	return b, nil
}

// builder checks what belongs to the stack as a whole and makes an empty
// network for it.
func (s *Stack) builder(c Condition, m Mesh) (*builder, error) {
	if len(s.Parts) == 0 {
		return nil, &StackError{Reason: "it has no parts"}
	}
	for i, p := range s.Parts {
		if missing(p) {
			return nil, &StackError{Reason: fmt.Sprintf("its part %d is missing", i)}
		}
	}
	pressure, err := s.Surroundings.check()
	if err != nil {
		return nil, err
	}
	if err := s.checkDrives(); err != nil {
		return nil, err
	}
	way, err := s.circuit()
	if err != nil {
		return nil, err
	}
	b := &builder{
		s: s, c: c, cell: m.Cell, way: way,
		n: network.New(network.Surroundings{
			Air: s.Surroundings.Air, Radiant: s.Surroundings.Radiant, Pressure: pressure}),
		a:      &Assembly{Condition: c, supply: s.Supply},
		joined: make(map[Port]bool, 2*len(s.Joints)),
		bodies: map[*Body]stood{},
		limits: map[int][]Limit{},
		parts:  make([]placed, len(s.Parts)),
		cover:  make([]int, len(s.Parts)),
		boxed:  make([]bool, len(s.Parts)),
		below:  make([][]under, len(s.Covers)),
	}
	if slices.ContainsFunc(s.Wires, func(w Wire) bool { return w.Like != nil }) {
		b.ohms = map[Section][]network.Resistor{}
	}
	for _, l := range s.Limits {
		b.limits[l.Part] = append(b.limits[l.Part], l.Limit)
	}
	for _, j := range s.Joints {
		b.joined[j.A], b.joined[j.B] = true, true
	}
	for i := range b.parts {
		b.cover[i] = -1
		b.parts[i].resistors = map[network.NodeID][]network.ResistorID{}
		b.parts[i].surfaces = map[network.NodeID][]network.SurfaceID{}
	}
	for k := range s.Covers {
		if err := s.Covers[k].check(len(s.Parts)); err != nil {
			return nil, err
		}
		for _, p := range s.Covers[k].Parts {
			if b.cover[p] >= 0 && b.cover[p] != k {
				return nil, &StackError{Where: s.Parts[p].Name(), Reason: "it lies under two covers"}
			}
			b.cover[p] = k
		}
	}
	return b, nil
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
