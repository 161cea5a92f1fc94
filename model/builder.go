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
	way    *circuit
	joined map[Port]bool
	ohms   map[Section][]network.Resistor // between neighbouring ports, where a wire is like a part
	bodies map[*Body]stood                // those with a mass, once placed
	limits map[int][]Limit                // the user's own, by part
	parts  []placed
	box    *box      // nil for none
	boxed  []bool    // which parts are in it
	cover  []int     // the cover over each part, −1 for none
	below  [][]under // by cover
	beside []Row     // rows of bodies, after those of the path
}

// stood is where a body stands.
type stood struct {
	node  network.NodeID
	boxed bool
}

// placed is what a part left behind.
type placed struct {
	ports     []port
	sections  [][]network.ResistorID // of a long part, between its ports
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
	if at.Part < 0 || at.Part >= len(b.parts) || at.Port < 0 {
		return port{}, &StackError{Where: asker, Reason: fmt.Sprintf("there is no port %d of a part %d", at.Port, at.Part)}
	}
	if err := b.s.checkPort(asker, at); err != nil {
		return port{}, err
	}
	return b.parts[at.Part].ports[at.Port], nil
}

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

// resist adds a resistor of a part that carries one current from end to end. It
// returns what it added: nothing where no current can flow.
func (b *builder) resist(part int, s Source, r network.Resistor) []network.ResistorID {
	return b.resistIn(part, 0, s, r)
}

// resistIn adds a resistor of a section of a part.
func (b *builder) resistIn(part, sec int, s Source, r network.Resistor) []network.ResistorID {
	p := &b.parts[part]
	p.figures.Resistance += r.R20 + r.Film
	if b.ohms != nil {
		at := Section{part, sec, sec + 1}
		b.ohms[at] = append(b.ohms[at], r)
	}
	ids := b.carry(b.way.first[part]+sec, s, r)
	if r.A == r.B {
		p.resistors[r.A] = append(p.resistors[r.A], ids...)
	}
	return ids
}

// carry adds a resistor that carries the current of an element of the circuit.
func (b *builder) carry(element int, s Source, r network.Resistor) []network.ResistorID {
	if r.Branch = b.way.branch(element); r.Branch == NoBranch {
		return nil
	}
	id := b.n.AddResistor(r)
	b.a.made = append(b.a.made, maker{id, s})
	return []network.ResistorID{id}
}

// hold adds a way into a body that keeps its temperature.
func (b *builder) hold(body string, n network.NodeID, conductance, temp float64) network.HoldID {
	id := b.n.AddHold(body, n, conductance, temp)
	b.a.lost = append(b.a.lost, way{body, id})
	return id
}

// holdToAir adds a way into a body at the temperature of the room's air.
func (b *builder) holdToAir(body string, n network.NodeID, conductance float64) network.HoldID {
	if b.s.Course == nil {
		return b.hold(body, n, conductance, b.s.Surroundings.Air)
	}
	id := b.n.AddHoldToAir(body, n, conductance)
	b.a.lost = append(b.a.lost, way{body, id})
	return id
}

// body adds what leads from a node to a body that takes heat from it, and the
// body where it has a mass and is not there yet. It stands in the box or in the
// room; of what hangs on one body, all does.
func (b *builder) body(part int, d *Body, from network.NodeID, boxed bool) error {
	toAir := func(n network.NodeID, conductance float64) {
		if boxed {
			b.a.Box.bodies = append(b.a.Box.bodies, b.n.AddLink(d.Name, n, b.box.air, conductance))
		} else {
			b.holdToAir(d.Name, n, conductance)
		}
	}
	switch {
	case d.To.Likely == 0:
	case d.Capacity == 0:
		toAir(from, d.To.Likely)
	default:
		at, placed := b.bodies[d]
		if placed && at.boxed != boxed {
			return &StackError{Where: d.Name, Reason: "it stands in the box for one of the parts on it and outside for another, " + b.s.Parts[part].Name()}
		}
		if !placed {
			at = stood{b.node(-1, d.Name, d.Capacity, 0), boxed}
			b.bodies[d] = at
		}
		b.n.AddLink(d.Name, from, at.node, d.To.Likely)
		if placed {
			return nil
		}
		if d.Loss > 0 {
			toAir(at.node, d.Loss)
		}
		b.beside = append(b.beside, b.row(BodyRow, d.Name, part, at.node))
	}
	return nil
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
	sheltered           bool // air that moves does not reach it
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

// expose gives a node of a part a surface: towards the cover over the part, else
// towards the box that it is in or the room.
func (b *builder) expose(part int, n network.NodeID, name string, e exposure) {
	if e.area == 0 {
		return
	}
	p := &b.parts[part]
	p.figures.Surface += e.area
	if v := b.cover[part]; v >= 0 {
		b.below[v] = append(b.below[v], under{n, name, e})
		return
	}
	p.surfaces[n] = append(p.surfaces[n], b.face(n, name, e, b.boxed[part]))
}

// face adds a surface that faces the box or the room.
func (b *builder) face(n network.NodeID, name string, e exposure, boxed bool) network.SurfaceID {
	s := network.Surface{Name: name, Area: e.area, Emissivity: e.emissivity, Shape: e.shape}
	if v := b.s.Surroundings.AirSpeed; v > 0 && e.shape != nil && !e.sheltered && !boxed {
		s.Shape = network.MovingAir{Speed: v, Length: e.flowLength, Kind: e.flow, Over: e.shape}
	}
	if boxed {
		s.In = b.box.space
		s.Emissivity = b.box.exchange(e.area, e.emissivity)
	}
	id := b.n.AddSurface(n, s)
	b.a.exposed = append(b.a.exposed, exposed{id: id, node: n, name: name, area: e.area,
		depth: e.depth, conductivity: e.conductivity, layered: e.layered, boxed: boxed})
	return id
}

// row makes a row of nodes with the resistors and surfaces that they have by
// now.
func (b *builder) row(kind RowKind, name string, part int, nodes ...network.NodeID) Row {
	row := Row{Kind: kind, Name: name, Part: part, Joint: -1, Bolt: -1, Branch: NoBranch, Nodes: nodes, Terminal: kind == TerminalRow}
	if part >= 0 && kind != BodyRow {
		row.Branch = b.way.branch(b.way.first[part])
		for _, n := range nodes {
			row.Resistors = append(row.Resistors, b.parts[part].resistors[n]...)
			row.Surfaces = append(row.Surfaces, b.parts[part].surfaces[n]...)
		}
	}
	return row
}

// addRow puts a row into the path, with the user's own limits of its part.
func (b *builder) addRow(part int, row Row) {
	row.Limits = append(row.Limits, b.limits[part]...)
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
