package model

import (
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file puts the rows and places of the parts in order and adds the joints
// between them.

// arrange puts rows and places in the order of the current where all carry the
// supply's, else in that of the parts.
func (b *builder) arrange() error {
	if b.way.plain {
		return b.follow(b.way.way)
	}
	return b.list()
}

// follow puts rows and places in the order of the current and adds the joints
// between the parts.
func (b *builder) follow(way []step) error {
	along := 0.0
	for _, w := range way {
		if w.joint >= 0 {
			j := &b.s.Joints[w.joint]
			from, to := j.A, j.B
			if to.Part != w.part {
				from, to = to, from
			}
			if err := b.join(w.joint, from, to); err != nil {
				return err
			}
		}
		p := &b.parts[w.part]
		rows, path := slices.Clone(p.rows), slices.Clone(p.path)
		if w.reverse {
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

// list puts rows and places in the order of the parts, a joint before the later
// of its two.
func (b *builder) list() error {
	at := b.jointsOf()
	begin := b.levels(at)
	for i := range b.parts {
		for _, k := range at[i] {
			j := &b.s.Joints[k]
			if max(j.A.Part, j.B.Part) != i {
				continue
			}
			if err := b.join(k, j.A, j.B); err != nil {
				return err
			}
		}
		p := &b.parts[i]
		b.a.Rows = append(b.a.Rows, p.rows...)
		for _, at := range p.path {
			at.Along += begin[i]
			b.a.Path = append(b.a.Path, at)
		}
	}
	return nil
}

// jointsOf are the joints of each part, in their order: a part meets few of all
// that there are.
func (b *builder) jointsOf() [][]int {
	at := make([][]int, len(b.parts))
	for k := range b.s.Joints {
		j := &b.s.Joints[k]
		at[j.A.Part] = append(at[j.A.Part], k)
		if j.B.Part != j.A.Part {
			at[j.B.Part] = append(at[j.B.Part], k)
		}
	}
	return at
}

// levels is where each part begins along the stack, m, so that ports which a
// joint connects lie at one place as far as that can be: each part is put beside
// the first one that it is joined to.
func (b *builder) levels(joints [][]int) []float64 {
	begin := make([]float64, len(b.parts))
	known := make([]bool, len(b.parts))
	for first := range b.parts {
		if known[first] || len(b.parts[first].ports) == 0 {
			continue
		}
		known[first] = true
		piece := []int{first}
		for k := 0; k < len(piece); k++ {
			for _, joint := range joints[piece[k]] {
				at, other := b.s.Joints[joint].A, b.s.Joints[joint].B
				if at.Part != piece[k] {
					at, other = other, at
				}
				if known[other.Part] {
					continue
				}
				known[other.Part] = true
				begin[other.Part] = begin[at.Part] + b.along(at) - b.along(other)
				piece = append(piece, other.Part)
			}
		}
		least := 0.0
		for _, i := range piece {
			least = min(least, begin[i])
		}
		for _, i := range piece {
			begin[i] -= least
		}
	}
	return begin
}

// along is where a port lies on its part, m.
func (b *builder) along(at Port) float64 {
	p := &b.parts[at.Part]
	if bar, ok := b.s.Parts[at.Part].(*Bar); ok && len(bar.Studs) > 0 {
		return bar.Studs[at.Port]
	}
	return float64(at.Port) * p.length
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
	element := b.way.joint(i)
	row := Row{Kind: JointRow, Name: j.Name, Part: -1, Joint: i, Bolt: -1, Branch: b.way.branch(element),
		Nodes: []network.NodeID{left.node, right.node}, Links: []network.LinkID{link}}
	if j.Kind == Bolted {
		row.Bolt = j.Bolt
	}
	for _, r := range j.resistors(f, b.c, [2]materials.Metal{left.metal, right.metal}) {
		r.A, r.B = left.node, right.node
		row.Resistors = append(row.Resistors, b.carry(element, JointSource, r)...)
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
