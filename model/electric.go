package model

import (
	"fmt"
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file turns the branches of a circuit into those of the network.

// placeBranches adds junctions, branches and draws, before any resistor.
func (b *builder) placeBranches() {
	c := b.way
	if c.plain {
		return
	}
	at := make([]network.JunctionID, len(c.ports))
	for p, is := range c.junction {
		if is {
			at[p] = b.n.AddJunction(c.name(p))
		}
	}
	for _, r := range c.runs {
		branch := Branch{Name: c.runName(r)}
		for _, i := range r.elements {
			e := c.elements[i]
			switch e.kind {
			case section:
				branch.Parts = append(branch.Parts, e.index)
			case joint:
				branch.Joints = append(branch.Joints, e.index)
			case wire:
				branch.Wires = append(branch.Wires, e.index)
			}
		}
		for _, list := range [][]int{branch.Parts, branch.Joints, branch.Wires} {
			slices.Sort(list)
		}
		branch.Parts = slices.Compact(branch.Parts) // a part has as many as it has sections here
		branch.ID = b.n.AddBranch(network.Branch{Name: branch.Name,
			From: at[r.from], To: at[r.to], EMF: r.emf, Ohms: r.ohm})
		b.a.Branches = append(b.a.Branches, branch)
	}
	for _, d := range c.draws {
		out := network.Draw{Name: d.Name, From: at[d.from], To: at[d.to]}
		switch {
		case d.Power != nil:
			out.Power = d.Power
		case d.Current != nil:
			out.Current = d.Current
		default:
			out.Current = b.s.Supply
		}
		b.a.Draws = append(b.a.Draws, b.n.AddDraw(out))
	}
}

// runName names a branch by what lies on it: its first and last part, else its
// first joint or wire.
func (c *circuit) runName(r run) string {
	var first, last string
	for _, i := range r.elements {
		if e := c.elements[i]; e.kind == section {
			last = c.s.Parts[e.index].Name()
			if bar, ok := c.s.Parts[e.index].(*Bar); ok && len(bar.Studs) > 0 {
				last += ", " + bar.stud(e.section) + " to " + bar.stud(e.section+1)
			}
			if first == "" {
				first = last
			}
		}
	}
	switch e := c.elements[r.elements[0]]; {
	case first != "" && first != last:
		return first + " … " + last
	case first != "":
		return first
	case e.kind == joint:
		return c.s.Joints[e.index].Name
	default:
		return c.s.Wires[e.index].Name
	}
}

// placeWires adds the ohms of wires that are like a section of a part. Their
// heat is made outside the stack.
func (b *builder) placeWires() {
	for i, e := range b.way.elements {
		if e.kind != wire || !b.way.live[i] {
			continue
		}
		w := &b.s.Wires[e.index]
		if w.Like == nil {
			continue
		}
		for k := min(w.Like.From, w.Like.To); k < max(w.Like.From, w.Like.To); k++ {
			for _, r := range b.ohms[Section{w.Like.Part, k, k + 1}] {
				r.Name, r.Branch, r.Elsewhere = w.Name, b.way.branch(i), true
				b.n.AddResistor(r)
			}
		}
	}
}

// checkDrives complains about supplies that cannot drive the stack.
func (s *Stack) checkDrives() error {
	c := checks{where: "the supply"}
	drawn := len(s.Draws) == 0
	for _, d := range s.Draws {
		drawn = drawn || d.Current == nil && d.Power == nil
	}
	switch {
	case s.Supply != nil:
		checkCourse(&c, "current", s.Supply, 0)
	case drawn:
		c.fail("current", "is missing")
	}
	c.notNegative("ripple", s.Ripple)
	for _, d := range s.Draws {
		if c.err != nil {
			break
		}
		c.where = d.Name
		switch {
		case d.Current != nil && d.Power != nil:
			c.fail("", "it takes a current or a power, not both")
		case d.Current != nil:
			checkCourse(&c, "current", d.Current, -math.MaxFloat64)
		case d.Power != nil:
			checkCourse(&c, "power", d.Power, 0)
		}
	}
	if s.Course != nil {
		s.checkAir(&c)
	}
	return c.err
}

// checkAir complains about a course of the air in which the air's figures are
// unknown.
func (s *Stack) checkAir(c *checks) {
	c.where = "the air's course"
	checkCourse(c, "temperature", s.Course, 0)
	for _, t := range append([]float64{0}, s.Course.Breaks()...) {
		if _, err := materials.DryAir(s.Course.Current(t), materials.StandardPressure); err != nil && c.err == nil {
			c.err = fmt.Errorf("the air's course: the air's figures are unknown: %w", err)
		}
	}
}
