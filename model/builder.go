package model

import (
	"fmt"
	"math"
	"strings"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file is what the kinds of parts place themselves with.

// builder gathers the network and the tables beside it.
type builder struct {
	s      *Stack
	c      Condition
	cell   float64 // largest cell of a long part over its fin length
	n      *network.Network
	a      *Assembly
	joined map[Port]bool
	parts  []placed
	cover  []int     // the cover over each part, −1 for none
	below  [][]under // by cover
	beside []Row     // rows of bodies, after those of the path
}

// placed is what a part left behind.
type placed struct {
	ports     [2]port
	rows      []Row
	path      []Place // Along counts from the part's port 0
	length    float64 // m along the current
	figures   PartFigures
	resistors map[network.NodeID][]network.ResistorID
	surfaces  map[network.NodeID][]network.SurfaceID
}

// port is where a joint presses, and the metal it presses on.
type port struct {
	node  network.NodeID
	metal materials.Metal
}

// port finds the node of a port that was placed.
func (b *builder) port(asker string, at Port) (port, error) {
	if at.Part < 0 || at.Part >= len(b.parts) || at.Port < 0 || at.Port > 1 {
		return port{}, &StackError{Where: asker, Reason: fmt.Sprintf("there is no port %d of a part %d", at.Port, at.Part)}
	}
	if !b.parts[at.Part].carries() {
		return port{}, &StackError{Where: asker, Reason: fmt.Sprintf("%s carries no current", b.s.Parts[at.Part].Name())}
	}
	return b.parts[at.Part].ports[at.Port], nil
}

// carries says whether a part has its place in the path of the current.
func (p *placed) carries() bool { return len(p.path) > 0 }

// node adds a node that belongs to a part, −1 for none.
func (b *builder) node(part int, name string, capacity, validTo float64) network.NodeID {
	if part >= 0 {
		b.parts[part].figures.Capacity += capacity
	}
	b.a.nodePart = append(b.a.nodePart, part)
	return b.n.AddNode(network.Node{Name: name, Capacity: capacity, ValidTo: validTo})
}

// lump adds the node of a volume [m³] of metal.
func (b *builder) lump(part int, name string, m materials.Metal, volume float64) network.NodeID {
	mass := m.Density * volume
	b.parts[part].figures.Mass += mass
	return b.node(part, name, mass*m.SpecificHeat, m.ValidTo)
}

// resist adds a resistor of a part, which carries the current of the path.
func (b *builder) resist(part int, s Source, r network.Resistor) network.ResistorID {
	id := b.n.AddResistor(r)
	b.a.made = append(b.a.made, maker{id, s})
	if part >= 0 {
		p := &b.parts[part]
		p.figures.Resistance += r.R20 + r.Film
		if r.A == r.B {
			p.resistors[r.A] = append(p.resistors[r.A], id)
		}
	}
	return id
}

// hold adds a way into a body that keeps its temperature.
func (b *builder) hold(body string, n network.NodeID, conductance, temp float64) {
	b.a.lost = append(b.a.lost, way{body, b.n.AddHold(body, n, conductance, temp)})
}

// body adds a body that takes heat from a node.
func (b *builder) body(part int, d *Body, from network.NodeID) {
	switch {
	case d.To.Likely == 0:
	case d.Capacity == 0:
		b.hold(d.Name, from, d.To.Likely, b.s.Surroundings.Air)
	default:
		n := b.node(-1, d.Name, d.Capacity, 0)
		b.n.AddLink(d.Name, from, n, d.To.Likely)
		if d.Loss > 0 {
			b.hold(d.Name, n, d.Loss, b.s.Surroundings.Air)
		}
		b.beside = append(b.beside, b.row(BodyRow, d.Name, part, n))
	}
}

// exposure is a surface of a part before it is known what it faces.
type exposure struct {
	area, emissivity float64
	shape            network.Shape   // in still air
	flow             network.AirFlow // how moving air meets it, over flowLength m
	flowLength       float64
	// depth, m, that heat crosses inside to reach the surface, and the
	// conductivity, W/(m K), that it crosses it with: for the Biot number.
	depth, conductivity float64
	layered             bool // what lies below it has a node of its own
}

// compact is the surface of a share of a compact lump of metal that has an area
// [m²] and a volume [m³]. The air flows around the whole of it.
func compact(area, share float64, f materials.Finish, m materials.Metal, volume float64) exposure {
	l := math.Sqrt(area)
	e := exposure{
		area: area * share, emissivity: f.Emissivity.Likely,
		shape: network.Block{SqrtArea: l}, flow: network.Along, flowLength: l,
		conductivity: m.Conductivity,
	}
	if area > 0 {
		e.depth = volume / area
	}
	return e
}

// expose gives a node a surface: towards the cover over its part, else towards
// the room.
func (b *builder) expose(part int, n network.NodeID, name string, e exposure) {
	if e.area == 0 {
		return
	}
	if part >= 0 {
		b.parts[part].figures.Surface += e.area
		if v := b.cover[part]; v >= 0 {
			b.below[v] = append(b.below[v], under{n, name, e})
			return
		}
	}
	shape := e.shape
	if v := b.s.Surroundings.AirSpeed; v > 0 && shape != nil {
		shape = network.MovingAir{Speed: v, Length: e.flowLength, Kind: e.flow, Over: e.shape}
	}
	id := b.n.AddSurface(n, network.Surface{Name: name, Area: e.area, Emissivity: e.emissivity, Shape: shape})
	b.a.exposed = append(b.a.exposed, exposed{id, n, name, e.area, e.depth, e.conductivity, e.layered})
	if part >= 0 {
		p := &b.parts[part]
		p.surfaces[n] = append(p.surfaces[n], id)
	}
}

// row makes a row of nodes with the resistors and surfaces that they have by
// now.
func (b *builder) row(kind RowKind, name string, part int, nodes ...network.NodeID) Row {
	row := Row{Kind: kind, Name: name, Part: part, Joint: -1, Bolt: -1, Nodes: nodes, Terminal: kind == TerminalRow}
	if part >= 0 && kind != BodyRow {
		for _, n := range nodes {
			row.Resistors = append(row.Resistors, b.parts[part].resistors[n]...)
			row.Surfaces = append(row.Surfaces, b.parts[part].surfaces[n]...)
		}
	}
	return row
}

// addRow puts a row into the path, with the user's own limits of its part.
func (b *builder) addRow(part int, row Row) {
	for _, l := range b.s.Limits {
		if l.Part == part {
			row.Limits = append(row.Limits, l.Limit)
		}
	}
	b.parts[part].rows = append(b.parts[part].rows, row)
}

func (b *builder) warn(where, text string) {
	b.a.Warnings = append(b.a.Warnings, Warning{where, text})
}

// platingLimits is the limit that the outermost metal of a terminal sets.
func platingLimits(p materials.Plating) []Limit {
	if !(p.RiseLimit > 0) {
		return nil
	}
	name := p.Name
	if !strings.HasPrefix(name, "bare ") && !strings.HasSuffix(name, "plated") {
		name += "-plated"
	}
	return []Limit{{
		Name:   fmt.Sprintf("%s terminal, %.0f K rise", name, p.RiseLimit),
		Source: "IEC 60947-1", Rise: p.RiseLimit,
	}}
}

// plasticLimits is the limit of a plastic, none where it is 0.
func plasticLimits(temp float64) []Limit {
	if temp == 0 {
		return nil
	}
	return []Limit{{Name: "plastic", Source: "rating of the plastic", Temp: temp}}
}

// checkLump complains about figures of a metal that a lump or a long part
// needs.
func checkLump(c *checks, m materials.Metal) {
	checkMetal(c, "metal", m)
	c.positive("metal's density", m.Density)
	c.positive("metal's specific heat", m.SpecificHeat)
	c.notNegative("metal's ceiling", m.ValidTo)
}
