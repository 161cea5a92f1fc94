package model

import (
	"fmt"

	"clampheat/model/network"
)

// This file holds what a bar with studs has besides: a row for each stud and
// one for each section between two of them, whose currents differ.

func (p *Bar) checkStuds(c *checks) {
	switch {
	case len(p.Studs) == 0:
		return
	case len(p.Studs) == 1:
		c.fail("studs", "must be two or more: a current comes in at one and leaves at another")
	}
	before := 0.0
	for i, x := range p.Studs {
		switch {
		case !finite(x) || x < 0 || x > p.Length:
			c.fail("place of stud "+p.stud(i), "must lie on its %g m, not at %g m", p.Length, x)
		case i > 0 && x <= before:
			c.fail("place of stud "+p.stud(i), "must be beyond that of stud %s, not at %g m", p.stud(i-1), x)
		}
		before = x
	}
}

// stud is the name of a stud: its own, or a letter.
func (p *Bar) stud(i int) string {
	if i < len(p.StudNames) && p.StudNames[i] != "" {
		return p.StudNames[i]
	}
	if i < 26 {
		return string(rune('A' + i))
	}
	return fmt.Sprint(i + 1)
}

// rows adds the rows of the studs and sections. What sticks out beyond an outer
// stud counts with that.
func (p *Bar) rows(b *builder, part int, nodes []network.NodeID) {
	placed := &b.parts[part]
	surfaces := func(from, to network.NodeID) (out []network.SurfaceID) {
		for n := from; n <= to; n++ {
			out = append(out, placed.surfaces[n]...)
		}
		return out
	}
	for i, at := range placed.ports {
		row := b.row(TerminalRow, p.Label+", stud "+p.stud(i), part, at.node)
		row.Branch, row.Resistors = NoBranch, nil
		from, to := at.node, at.node
		if i == 0 {
			from = nodes[0]
		}
		if i == len(placed.ports)-1 {
			to = nodes[len(nodes)-1]
		}
		row.Surfaces = surfaces(from, to)
		row.Limits = platingLimits(p.Plating)
		b.addRow(part, row)
		if i == len(placed.ports)-1 {
			break
		}
		first, last := at.node, placed.ports[i+1].node
		between := b.row(PartRow, fmt.Sprintf("%s, %s to %s", p.Label, p.stud(i), p.stud(i+1)), part,
			nodes[first-nodes[0]:last-nodes[0]+1]...)
		between.Branch = b.way.branch(b.way.first[part] + i)
		between.Resistors = placed.sections[i]
		between.Surfaces = surfaces(first+1, last-1)
		b.addRow(part, between)
	}
}
