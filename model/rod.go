package model

import (
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
)

// This file cuts long parts into cells. Each cell has its node in its middle
// but for the two at the ends, which are half a cell with the node on the face
// that the joint presses, so that a port has a temperature and a mass of its
// own and no half-cell resistance stands beside it.

// rod is a long part, all of it per metre.
type rod struct {
	length     float64 // m
	perimeter  float64 // m
	conduction float64 // k·A, W·m/K
	capacity   float64 // J/(m K)
	resistance float64 // Ω/m at 20 °C
	metal      materials.Metal
	source     Source
	ends       [2]End
}

// meshFilm is the coefficient of heat loss, W/(m²K), that the fin length of a
// mesh is worked out with: the order of natural convection and radiation
// together. It decides how fine the cells are, not what they compute.
const meshFilm = 10

// firstCell is the size of the cells at the ends over the largest, and
// mostCells how many a part may have. From an end to one fin length off it the
// size grows evenly, so that finer meshes are the same one scaled down and
// their differences shrink by the order of the method.
const (
	firstCell = 0.25
	mostCells = 20_000
)

// grid cuts a length into cells of at most cell fin lengths, the same from
// either end. With s(x) the size wanted at x, u = ∫ dx/s counts cells: the nodes
// are even in u.
func grid(length, fin, cell float64) ([]float64, error) {
	const growth = 1 - firstCell
	largest := cell * fin
	if !(largest > 0) || length/largest > mostCells {
		return nil, fmt.Errorf("it would take more than %d cells", mostCells)
	}
	graded := math.Log(1/firstCell) / (cell * growth) // u at one fin length
	half := length / 2
	whole := graded + (half-fin)/largest
	if half < fin {
		whole = math.Log(1+growth/firstCell*half/fin) / (cell * growth)
	}
	n := max(1, int(math.Ceil(whole)))
	cells := make([]float64, 2*n)
	before := 0.0
	for i := range n {
		u := whole * float64(i+1) / float64(n)
		x := fin + (u-graded)*largest
		if u < graded {
			x = fin * firstCell / growth * math.Expm1(cell*growth*u)
		}
		if i == n-1 {
			x = half
		}
		cells[i], cells[len(cells)-1-i] = x-before, x-before
		before = x
	}
	return cells, nil
}

// rod adds a long part's nodes, links, resistors and ends. It returns the
// nodes in the order of the current and the length that each stands for.
func (b *builder) rod(part int, r rod) ([]network.NodeID, []float64, error) {
	name := b.s.Parts[part].Name()
	fin := math.Sqrt(r.conduction / (meshFilm * r.perimeter))
	cells, err := grid(r.length, fin, b.cell)
	if err != nil {
		return nil, nil, &StackError{Where: name, Field: "length", Reason: fmt.Sprintf("of %g m cannot be cut into cells: %v", r.length, err)}
	}
	p := &b.parts[part]
	p.length = r.length

	nodes := make([]network.NodeID, len(cells)+1)
	widths := make([]float64, len(cells)+1)
	at := 0.0
	for i := range nodes {
		if i > 0 {
			widths[i] += cells[i-1] / 2
			at += cells[i-1]
		}
		if i < len(cells) {
			widths[i] += cells[i] / 2
		}
		nodes[i] = b.node(part, name, r.capacity*widths[i], r.metal.ValidTo)
		p.path = append(p.path, Place{nodes[i], part, at})
	}
	for i, h := range cells {
		b.n.AddLink(name, nodes[i], nodes[i+1], r.conduction/h)
	}
	for i, n := range nodes {
		b.resist(part, r.source, network.Resistor{Name: name, A: n, B: n, R20: r.resistance * widths[i], Alpha: r.metal.Alpha20})
	}
	for side, n := range [2]network.NodeID{nodes[0], nodes[len(nodes)-1]} {
		p.ports[side] = port{n, r.metal}
		if b.joined[Port{part, side}] {
			continue
		}
		end := r.ends[side]
		if end.Held > 0 {
			b.hold("the held end of "+name, n, heldStiffness*r.conduction/cells[0], end.Held)
		}
		if end.Body != nil {
			b.body(part, end.Body, n)
		}
	}
	return nodes, widths, nil
}
