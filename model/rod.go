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
	studs      []float64 // m from its beginning, rising; none for a port at each end
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
// nodes in the order of the current and the length that each stands for. With
// studs each section between two of them is cut as a part of its own, and
// what sticks out beyond the outer ones carries no current.
func (b *builder) rod(part int, r rod) ([]network.NodeID, []float64, error) {
	name := b.s.Parts[part].Name()
	cells, marks, err := r.cells(b.cell)
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
	p.sections = make([][]network.ResistorID, len(marks)-1)
	for k := range p.sections {
		// The outer nodes of a section stand for half a cell of it.
		for i := marks[k]; i <= marks[k+1]; i++ {
			width := widths[i]
			switch i {
			case marks[k]:
				width = cells[i] / 2
			case marks[k+1]:
				width = cells[i-1] / 2
			}
			p.sections[k] = append(p.sections[k], b.resistIn(part, k, r.source, network.Resistor{
				Name: name, A: nodes[i], B: nodes[i], R20: r.resistance * width, Alpha: r.metal.Alpha20})...)
		}
	}
	for _, i := range marks {
		p.ports = append(p.ports, port{nodes[i], r.metal})
	}
	last := len(nodes) - 1
	for side, end := range [2]struct{ node, port, portNode, cell int }{
		{0, 0, marks[0], 0}, {last, len(marks) - 1, marks[len(marks)-1], len(cells) - 1},
	} {
		if end.node == end.portNode && b.joined[Port{part, end.port}] {
			continue
		}
		n, goesOn := nodes[end.node], r.ends[side]
		if goesOn.Held > 0 {
			b.hold("the held end of "+name, n, heldStiffness*r.conduction/cells[end.cell], goesOn.Held)
		}
		if goesOn.Body != nil {
			if err := b.body(part, goesOn.Body, n, false); err != nil {
				return nil, nil, err
			}
		}
	}
	return nodes, widths, nil
}

// cells cuts a long part; marks are the nodes of its ports, node i lying before
// the cell i.
func (r *rod) cells(cell float64) (cells []float64, marks []int, err error) {
	fin := math.Sqrt(r.conduction / (meshFilm * r.perimeter))
	at := 0.0
	cut := func(to float64) error {
		if to <= at {
			return nil
		}
		more, err := grid(to-at, fin, cell)
		cells, at = append(cells, more...), to
		return err
	}
	ports := r.studs
	if len(ports) == 0 {
		ports = []float64{0, r.length}
	}
	for _, x := range ports {
		if err := cut(x); err != nil {
			return nil, nil, err
		}
		marks = append(marks, len(cells))
	}
	return cells, marks, cut(r.length)
}
