package model

import "fmt"

// This file lays the stack out as the current sees it: points, and what lies
// between two of them.

// An element lies between two points of the circuit and carries a current from
// its a to its b.
type element struct {
	kind elementKind
	// index is that of the part, joint or wire; a section lies between the
	// ports section and section+1 of its part.
	index, section int
	a, b           int // points
}

type elementKind int

const (
	section elementKind = iota // what lies between two neighbouring ports of a part
	joint
	wire
)

// circuit is a stack's points and elements, and then what branches.go finds in
// them.
type circuit struct {
	s        *Stack
	at       map[Port]int // point of each port
	ports    []Port       // one of each point
	elements []element
	first    []int   // of each part, the element of its first section
	joints   int     // the element of the first joint; the others follow
	meet     [][]int // of each point, the elements that end there

	draws []drawn
	found
}

// drawn is a draw with its points.
type drawn struct {
	Draw
	from, to int
}

// ports is the number of ports of a part.
func ports(p Part) int {
	switch p := p.(type) {
	case *Base:
		return 0
	case *Bar:
		if len(p.Studs) > 0 {
			return len(p.Studs)
		}
	}
	return 2
}

// points numbers the points of the stack's ports and lists its elements. A wire
// without voltage and ohms is no element: its ends are one point.
func (s *Stack) points() (*circuit, error) {
	c := &circuit{s: s, at: map[Port]int{}, first: make([]int, len(s.Parts))}
	for i, p := range s.Parts {
		for k := range ports(p) {
			c.add(Port{i, k})
		}
	}
	for i := range s.Joints {
		j := &s.Joints[i]
		for _, p := range [2]Port{j.A, j.B} {
			if p.Part == Outside {
				return nil, &StackError{Where: j.Name, Reason: "a joint needs a part on either side"}
			}
			if err := s.checkPort(j.Name, p); err != nil {
				return nil, err
			}
		}
		if j.A.Part == j.B.Part {
			return nil, &StackError{Where: j.Name, Reason: "it joins " + s.Parts[j.A.Part].Name() + " to itself"}
		}
	}
	for i := range s.Wires {
		w := &s.Wires[i]
		if err := s.checkWire(w); err != nil {
			return nil, err
		}
		c.add(w.A)
		c.add(w.B)
	}
	for i := range s.Draws {
		d := &s.Draws[i]
		for _, p := range [2]Port{d.From, d.To} {
			if err := s.checkPort(d.Name, p); err != nil {
				return nil, err
			}
			c.add(p)
		}
	}
	one := apart(len(c.ports))
	for _, w := range s.Wires {
		if w.ideal() {
			one.join(c.at[w.A], c.at[w.B])
		}
	}
	for p, i := range c.at {
		c.at[p] = one.root(i)
	}
	c.list()
	for _, d := range s.Draws {
		c.draws = append(c.draws, drawn{d, c.at[d.From], c.at[d.To]})
	}
	return c, nil
}

// add numbers a port that has no number yet.
func (c *circuit) add(p Port) {
	if _, ok := c.at[p]; !ok {
		c.at[p] = len(c.ports)
		c.ports = append(c.ports, p)
	}
}

// list fills the elements, sections first and in the order of the stack.
func (c *circuit) list() {
	for i, p := range c.s.Parts {
		c.first[i] = len(c.elements)
		for k := range ports(p) - 1 {
			c.elements = append(c.elements, element{section, i, k, c.at[Port{i, k}], c.at[Port{i, k + 1}]})
		}
	}
	c.joints = len(c.elements)
	for i, j := range c.s.Joints {
		c.elements = append(c.elements, element{joint, i, 0, c.at[j.A], c.at[j.B]})
	}
	for i, w := range c.s.Wires {
		if !w.ideal() {
			c.elements = append(c.elements, element{wire, i, 0, c.at[w.A], c.at[w.B]})
		}
	}
	c.meet = make([][]int, len(c.ports))
	for i, e := range c.elements {
		c.meet[e.a] = append(c.meet[e.a], i)
		if e.b != e.a {
			c.meet[e.b] = append(c.meet[e.b], i)
		}
	}
}

// joint is the element of a joint.
func (c *circuit) joint(i int) int { return c.joints + i }

// other is the point of an element that is not the given one.
func (e *element) other(point int) int {
	if e.a == point {
		return e.b
	}
	return e.a
}

// name is what the user calls a point.
func (c *circuit) name(point int) string {
	p := c.ports[point]
	if p.Part == Outside {
		return fmt.Sprintf("point %d outside the stack", p.Port)
	}
	part := c.s.Parts[p.Part]
	if bar, ok := part.(*Bar); ok && len(bar.Studs) > 0 {
		return part.Name() + ", stud " + bar.stud(p.Port)
	}
	return part.Name()
}

// ideal says whether a wire has neither voltage nor ohms.
func (w *Wire) ideal() bool { return w.EMF == 0 && w.Resistance == 0 && w.Like == nil }

// checkPort complains about a port that does not exist or carries no current.
func (s *Stack) checkPort(asker string, p Port) error {
	if p.Part == Outside && p.Port >= 0 {
		return nil
	}
	if p.Part < 0 || p.Part >= len(s.Parts) {
		return &StackError{Where: asker, Reason: fmt.Sprintf("there is no port %d of a part %d", p.Port, p.Part)}
	}
	n := ports(s.Parts[p.Part])
	if n == 0 {
		return &StackError{Where: asker, Reason: s.Parts[p.Part].Name() + " carries no current"}
	}
	if p.Port < 0 || p.Port >= n {
		return &StackError{Where: asker, Reason: fmt.Sprintf("there is no port %d of a part %d", p.Port, p.Part)}
	}
	return nil
}

func (s *Stack) checkWire(w *Wire) error {
	c := checks{where: w.Name}
	if !finite(w.EMF) {
		c.fail("voltage", "must be finite, not %g", w.EMF)
	}
	c.notNegative("resistance", w.Resistance)
	if c.err != nil {
		return c.err
	}
	for _, p := range [2]Port{w.A, w.B} {
		if err := s.checkPort(w.Name, p); err != nil {
			return err
		}
	}
	if l := w.Like; l != nil {
		for _, k := range [2]int{l.From, l.To} {
			if l.Part == Outside {
				return &StackError{Where: w.Name, Reason: "it can be like a part only"}
			}
			if err := s.checkPort(w.Name, Port{l.Part, k}); err != nil {
				return err
			}
		}
		if l.From == l.To {
			return &StackError{Where: w.Name, Reason: "it is like a section without length"}
		}
	}
	return nil
}

// sets are points that hang together; each set has its first point for root.
type sets []int

func apart(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = i
	}
	return s
}

func (s sets) root(i int) int {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

func (s sets) join(a, b int) {
	a, b = s.root(a), s.root(b)
	s[max(a, b)] = min(a, b)
}

// together are the points as some of the elements join them.
func (c *circuit) together(use func(element int) bool) sets {
	s := apart(len(c.ports))
	for i, e := range c.elements {
		if use(i) {
			s.join(e.a, e.b)
		}
	}
	return s
}

// unjoined is the first part that carries current and whose points are not where
// some are, −1 for none.
func (c *circuit) unjoined(there func(point int) bool) int {
	for i, p := range c.s.Parts {
		if ports(p) > 0 && !there(c.at[Port{i, 0}]) {
			return i
		}
	}
	return -1
}
