package model

import (
	"fmt"
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file places a box: its air and wall, and the ways by which these lose
// heat. The wall has a node for its inner and one for its outer face.

// box is an enclosure as it is placed.
type box struct {
	e                 *Enclosure
	air, inner, outer network.NodeID
	space             network.SpaceID
	// facing is the surface, m², of what is in the box as it is placed, and
	// inside all of it, as an earlier placing found it.
	facing, inside float64
}

func (e *Enclosure) check(parts int) error {
	c := checks{where: e.Label}
	c.positive("width", e.Width)
	c.positive("height", e.Height)
	c.positive("depth", e.Depth)
	c.positive("wall's thickness", e.Wall.Thickness)
	c.positive("wall's conductivity", e.Wall.Conductivity)
	c.positive("wall's density", e.Wall.Density)
	c.positive("wall's specific heat", e.Wall.SpecificHeat)
	if least := min(e.Width, e.Height, e.Depth); 2*e.Wall.Thickness >= least {
		c.fail("wall's thickness", "of %g m leaves no room in a box of %g m", e.Wall.Thickness, least)
	}
	c.share("emissivity inside", e.Inside)
	c.share("emissivity outside", e.Outside)
	c.notNegative("inlet", e.Inlet)
	c.notNegative("outlet", e.Outlet)
	c.notNegative("height between the vents", e.VentRise)
	if vents := [3]bool{e.Inlet > 0, e.Outlet > 0, e.VentRise > 0}; vents[0] != vents[1] || vents[1] != vents[2] {
		c.fail("vents", "must be two and one higher than the other: air that goes out comes in elsewhere")
	}
	if e.VentRise > e.Height {
		c.fail("height between the vents", "must be within the box's %g m, not %g m", e.Height, e.VentRise)
	}
	c.notNegative("fan's flow", e.Fan)
	c.notNegative("other heat", e.Heat)
	switch e.Mounting {
	case Free, Insulated:
	case OnBulkhead:
		c.positive("conductance to the bulkhead", e.Bulkhead)
	default:
		c.fail("mounting", "is unknown: %d", e.Mounting)
	}
	for _, p := range e.Parts {
		if p < 0 || p >= parts {
			c.fail("list of parts", "names none of the stack's: %d", p)
		}
	}
	return c.err
}

// A side is a kind of face of a box: upright, top or bottom.
type side struct {
	name string
	area float64
	// shape of its outer and of its inner face
	out, in    network.Shape
	flowLength float64
}

// sides are those faces of a box of the given dimensions, m, that air meets on
// the one side or the other, less the back where it is not one of them.
func sides(width, height, depth float64, back bool) []side {
	upright := 2*height*depth + height*width
	if back {
		upright += height * width
	}
	level := width * depth
	l := level / (2 * (width + depth))
	return []side{
		{"sides", upright, network.VerticalPlate{H: height}, network.VerticalPlate{H: height}, width},
		// The ceiling has the air of the box below it, and the floor above.
		{"top", level, network.FaceUp{L: l}, network.FaceDown{L: l}, depth},
		{"bottom", level, network.FaceDown{L: l}, network.FaceUp{L: l}, depth},
	}
}

// inner are the inner dimensions, m.
func (e *Enclosure) inner() (width, height, depth float64) {
	t := 2 * e.Wall.Thickness
	return e.Width - t, e.Height - t, e.Depth - t
}

// shape is the wall's conduction shape factor, m: area over thickness of its
// faces, and what its edges and corners add, 0.54 of an edge's length and 0.15 of
// a corner's thickness (Incropera et al., Fundamentals of Heat and Mass Transfer,
// 6th ed. 2007, Table 4.1, cases 7 to 9). A back against insulation takes no
// part, and its edges neither.
func (e *Enclosure) shape() float64 {
	w, h, d := e.inner()
	area, edges, corners := 2*(w*h+h*d+w*d), 4*(w+h+d), 8.0
	if e.Mounting == Insulated {
		area, edges, corners = area-w*h, edges-2*(w+h), 4
	}
	return area/e.Wall.Thickness + 0.54*edges + 0.15*corners*e.Wall.Thickness
}

// exchange is the emissivity that counts between a surface in the box and its
// wall: that of a body inside a shell, as under a cover.
func (x *box) exchange(area, emissivity float64) float64 {
	x.facing += area
	w, h, d := x.e.inner()
	shell := 2 * (w*h + h*d + w*d)
	if x.e.Mounting == Insulated {
		shell -= w * h
	}
	return enclosed(emissivity, x.e.Inside, x.inside/shell)
}

// openBox adds the nodes of the box, for the parts to be placed in it.
func (b *builder) openBox(inside float64) error {
	e := b.s.Enclosure
	if e == nil {
		return nil
	}
	if err := e.check(len(b.s.Parts)); err != nil {
		return err
	}
	for i := range b.boxed {
		b.boxed[i] = e.Parts == nil || slices.Contains(e.Parts, i)
	}
	room, err := b.roomAir()
	if err != nil {
		return err
	}
	w, h, d := e.inner()
	volume := w * h * d
	wall := e.Wall.Density * e.Wall.SpecificHeat * (e.Width*e.Height*e.Depth - volume)
	x := &box{e: e, inside: inside}
	x.air = b.node(-1, e.Label+", air", room.Density*room.SpecificHeat*volume, 0)
	x.inner = b.node(-1, e.Label+", wall inside", wall/2, 0)
	x.outer = b.node(-1, e.Label+", wall outside", wall/2, 0)
	x.space = b.n.AddSpace(e.Label, x.air, x.inner)
	b.n.AddLink(e.Label+", wall", x.inner, x.outer, e.Wall.Conductivity*e.shape())
	b.box, b.a.Box = x, &Box{Air: x.air, Inner: x.inner, Outer: x.outer}
	b.a.sources = append(b.a.sources, b.n.AddSource("other heat in "+e.Label, x.air, e.Heat))
	b.vent(room)
	return nil
}

// roomAir is the room's air, at its temperature and height.
func (b *builder) roomAir() (materials.Air, error) {
	pressure, err := materials.PressureAt(b.s.Surroundings.Altitude)
	if err != nil {
		return materials.Air{}, err
	}
	return materials.DryAir(b.s.Surroundings.Air, pressure)
}

// discharge is the share of its area that counts for the flow through a vent: a
// sharp-edged opening.
//
// Source: CIBSE Guide A and ASHRAE Handbook of Fundamentals, both in their
// chapters on infiltration and natural ventilation, 0.6 to 0.65; from memory.
const discharge = 0.6

// vent adds what air carries out of the box. Between a low and a high opening
// warm air drives itself by the height between them, eq. (11) of the package
// comment: the stack effect, ASHRAE Handbook of Fundamentals and CIBSE Guide A; from
// memory. A fan's flow comes on top.
func (b *builder) vent(room materials.Air) {
	e := b.s.Enclosure
	carries := room.Density * room.SpecificHeat // J/(m³ K)
	v := network.Vent{Name: "vents of " + e.Label, Node: b.box.air, Flow: carries * e.Fan}
	if e.VentRise > 0 {
		area := 1 / math.Hypot(1/e.Inlet, 1/e.Outlet)
		v.Buoyant = carries * discharge * area * math.Sqrt(2*materials.Gravity*e.VentRise)
	}
	if v.Flow > 0 || v.Buoyant > 0 {
		b.a.vents = append(b.a.vents, b.n.AddVent(v))
	}
}

// closeBox adds the surfaces of the wall, once all that lies in the box is
// placed, and its rows.
func (b *builder) closeBox() {
	if b.box == nil {
		return
	}
	x, e := b.box, b.s.Enclosure
	w, h, d := e.inner()
	for _, s := range sides(w, h, d, e.Mounting != Insulated) {
		name := e.Label + ", " + s.name + " inside"
		id := b.n.AddSurface(x.inner, network.Surface{Name: name, Area: s.area, Shape: s.in, In: x.space})
		b.a.exposed = append(b.a.exposed, exposed{id: id, node: x.inner, name: name, area: s.area, boxed: true, wall: true})
	}
	for _, s := range sides(e.Width, e.Height, e.Depth, e.Mounting == Free) {
		b.a.Box.outside = append(b.a.Box.outside, b.face(x.outer, e.Label+", "+s.name, exposure{area: s.area,
			emissivity: e.Outside, shape: s.out, flow: network.Along, flowLength: s.flowLength}, false))
	}
	if e.Mounting == OnBulkhead {
		b.a.Box.bulkhead = append(b.a.Box.bulkhead, b.holdToAir("the bulkhead", x.outer, e.Bulkhead*e.Width*e.Height))
	}
	b.beside = append(b.beside,
		b.row(BodyRow, e.Label+", air", -1, x.air),
		b.row(BodyRow, e.Label+", wall", -1, x.outer))
	if shell := 2 * (w*h + h*d + w*d); x.facing > shell {
		b.warn(e.Label, fmt.Sprintf("the surfaces in it, %.3g m², are more than the %.3g m² of its wall: they see one another and lose less than worked out",
			x.facing, shell))
	}
}
