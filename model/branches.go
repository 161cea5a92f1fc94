package model

import (
	"fmt"
	"slices"

	"clampheat/model/network"
)

// This file finds in a circuit where a current can flow, and cuts that into
// branches: ways of one current from one junction to another.

// found is what the circuit turns out to be.
type found struct {
	live     []bool // of each element: a current can flow in it
	junction []bool // of each point
	runs     []run
	runOf    []int // of each element its run, −1 for none
	// plain says that the whole is one way of the supply's current, and way is
	// then the parts in its order.
	plain bool
	way   []step
}

// run is a branch: elements one after another, in the direction in which its
// current counts, which is that of its first section in the order of the parts,
// else of its first joint or wire.
type run struct {
	from, to int // points
	elements []int
	reverse  []bool // of each element: it is passed from b to a
	emf, ohm float64
}

// step is a part on the way of the current and the joint by which it is entered,
// −1 for the first.
type step struct {
	part, joint int
	reverse     bool // the current runs from the part's higher port to its lower
}

// circuit lays out the stack and finds its branches.
func (s *Stack) circuit() (*circuit, error) {
	c, err := s.points()
	if err != nil {
		return nil, err
	}
	if !slices.ContainsFunc(s.Parts, func(p Part) bool { return ports(p) > 0 }) {
		return nil, &StackError{Reason: "no part of it carries current"}
	}
	if len(s.Draws) == 0 {
		err = c.through()
	} else {
		err = c.drawnFrom()
	}
	if err != nil {
		return nil, err
	}
	c.prune()
	if err := c.checkDraws(); err != nil {
		return nil, err
	}
	if c.plain = c.follow(); c.plain {
		return c, nil
	}
	return c, c.cut()
}

// through finds the two free ends between which the supply's current flows where
// nothing draws one. A last stud of a bar that no joint takes is an end only
// where there is no other.
func (c *circuit) through() error {
	first := c.begin()
	if first.Part < 0 {
		return &StackError{Reason: "its joints close a ring: the current has no place to come in"}
	}
	from := c.at[first]
	all := c.together(func(int) bool { return true })
	if i := c.unjoined(func(point int) bool { return all.root(point) == all.root(from) }); i >= 0 {
		return &StackError{Where: c.s.Parts[i].Name(), Reason: fmt.Sprintf(
			"no joint leads to it from %s, where the current comes in", c.s.Parts[first.Part].Name())}
	}
	var ends, studs []int
	for p, near := range c.meet {
		if p == from || len(near) != 1 {
			continue
		}
		if at := c.ports[p]; at.Part != Outside && c.stud(at) {
			studs = append(studs, p)
		} else {
			ends = append(ends, p)
		}
	}
	if len(ends) == 0 {
		ends = studs
	}
	if len(ends) != 1 {
		return &StackError{Where: c.name(from), Reason: fmt.Sprintf(
			"the current comes in there and has %d places to go out: a stack that branches has to say what draws the current", len(ends))}
	}
	c.draws = []drawn{{Draw{Name: "the supply", Current: c.s.Supply}, ends[0], from}}
	return nil
}

// stud says whether a port is a stud of a bar.
func (c *circuit) stud(p Port) bool {
	bar, ok := c.s.Parts[p.Part].(*Bar)
	return ok && len(bar.Studs) > 0
}

// begin is the port at which a current comes in that flows by itself: the first
// free port 0 of a part, else the first free port of another number. Its part is
// Outside where there is none.
func (c *circuit) begin() Port {
	best := Port{Outside, 0}
	for i, p := range c.s.Parts {
		for k := range ports(p) {
			at := Port{i, k}
			if len(c.meet[c.at[at]]) != 1 {
				continue
			}
			better := best.Part == Outside || best.Port > 0 && k == 0
			if c.stud(at) { // only where no other end is free
				better = best.Part == Outside
			} else if best.Part != Outside && c.stud(best) {
				better = true
			}
			if better {
				best = at
			}
		}
	}
	return best
}

// drawnFrom checks that every part is where a draw or a voltage could drive a
// current.
func (c *circuit) drawnFrom() error {
	all := c.together(func(int) bool { return true })
	driven := make([]bool, len(c.ports)) // by root
	mark := func(point int) { driven[all.root(point)] = true }
	for _, d := range c.draws {
		mark(d.from)
		mark(d.to)
	}
	for _, e := range c.elements {
		if e.kind == wire && c.s.Wires[e.index].EMF != 0 {
			mark(e.a)
		}
	}
	if i := c.unjoined(func(point int) bool { return driven[all.root(point)] }); i >= 0 {
		return &StackError{Where: c.s.Parts[i].Name(), Reason: "no joint leads to it from where a current is drawn"}
	}
	return nil
}

// prune takes away the elements in which no current can flow, because they lead
// to nowhere.
func (c *circuit) prune() {
	ends := make([]int, len(c.ports)) // of live elements and draws at each point
	c.live = make([]bool, len(c.elements))
	for i, e := range c.elements {
		if e.a != e.b {
			c.live[i] = true
			ends[e.a]++
			ends[e.b]++
		}
	}
	for _, d := range c.draws {
		ends[d.from] += 2 // a draw keeps its point
		ends[d.to] += 2
	}
	for p := range ends {
		for ends[p] == 1 {
			i := slices.IndexFunc(c.meet[p], func(e int) bool { return c.live[e] })
			e := c.meet[p][i]
			c.live[e] = false
			ends[p]--
			p = c.elements[e].other(p)
			ends[p]--
		}
	}
}

// checkDraws complains about a draw whose current finds no way.
func (c *circuit) checkDraws() error {
	live := c.together(func(e int) bool { return c.live[e] })
	for _, d := range c.draws {
		if d.from == d.to {
			return &StackError{Where: d.Name, Reason: "it gives its current back where it takes it"}
		}
		if live.root(d.from) != live.root(d.to) {
			return &StackError{Where: d.Name, Reason: fmt.Sprintf(
				"nothing leads the current from %s back to %s", c.name(d.to), c.name(d.from))}
		}
	}
	return nil
}

// follow follows the supply's current from part to part, and reports whether
// that is all there is to the stack: no wires, no draws, no other way.
func (c *circuit) follow() bool {
	if len(c.s.Wires) > 0 || len(c.s.Draws) > 0 {
		return false
	}
	from, to := c.draws[0].to, c.draws[0].from
	last, entered := -1, -1 // element and joint
	for p := from; p != to; {
		next := -1
		for _, e := range c.meet[p] {
			if !c.live[e] || e == last {
				continue
			}
			if next >= 0 {
				return false
			}
			next = e
		}
		e := &c.elements[next]
		if e.kind == joint {
			entered = e.index
		} else if n := len(c.way); n == 0 || c.way[n-1].part != e.index {
			c.way = append(c.way, step{e.index, entered, p == e.b})
		}
		p, last = e.other(p), next
	}
	carriers := 0
	for _, p := range c.s.Parts {
		if ports(p) > 0 {
			carriers++
		}
	}
	joints := 0
	for _, w := range c.way {
		if w.joint >= 0 {
			joints++
		}
	}
	return len(c.way) == carriers && joints == len(c.s.Joints)
}

// cut finds the junctions and the branches between them.
func (c *circuit) cut() error {
	c.way = nil
	c.junction = make([]bool, len(c.ports))
	for _, d := range c.draws {
		c.junction[d.from], c.junction[d.to] = true, true
	}
	for p, near := range c.meet {
		n := 0
		for _, e := range near {
			if c.live[e] {
				n++
			}
		}
		if n > 2 {
			c.junction[p] = true
		}
	}
	c.runOf = make([]int, len(c.elements))
	for i := range c.runOf {
		c.runOf[i] = -1
	}
	for i := range c.elements {
		if !c.live[i] {
			if err := c.shorted(i); err != nil {
				return err
			}
			continue
		}
		if c.runOf[i] >= 0 {
			continue
		}
		r := c.run(i)
		if r.from == r.to {
			// A ring, which two junctions cut into two branches.
			c.junction[r.from], c.junction[c.elements[r.elements[0]].other(r.from)] = true, true
			r = c.run(i)
		}
		if err := c.sum(&r); err != nil {
			return err
		}
		for _, e := range r.elements {
			c.runOf[e] = len(c.runs)
		}
		c.runs = append(c.runs, r)
	}
	return nil
}

// run follows an element both ways to the next junctions; around a ring without
// any it comes back to the element's a.
func (c *circuit) run(i int) run {
	r := run{from: c.elements[i].a, elements: []int{i}, reverse: []bool{false}}
	step := func(p, last int) (e, q int) {
		k := slices.IndexFunc(c.meet[p], func(e int) bool { return c.live[e] && e != last })
		e = c.meet[p][k]
		return e, c.elements[e].other(p)
	}
	e := i
	for r.to = c.elements[i].b; !c.junction[r.to] && r.to != r.from; {
		p := r.to
		e, r.to = step(p, e)
		r.elements, r.reverse = append(r.elements, e), append(r.reverse, c.elements[e].a != p)
	}
	e = i
	var before []int
	var turned []bool
	for !c.junction[r.from] && r.from != r.to {
		p := r.from
		e, r.from = step(p, e)
		before, turned = append(before, e), append(turned, c.elements[e].b != p)
	}
	slices.Reverse(before)
	slices.Reverse(turned)
	r.elements, r.reverse = append(before, r.elements...), append(turned, r.reverse...)
	return r
}

// branch is the branch of an element, 0 for the supply's current, NoBranch where
// none can flow.
func (c *circuit) branch(element int) network.BranchID {
	switch {
	case !c.live[element]:
		return NoBranch
	case c.plain:
		return 0
	}
	return network.BranchID(c.runOf[element] + 1)
}

// sum adds up what a branch has outside the stack.
func (c *circuit) sum(r *run) error {
	bare := true // without any ohms
	for k, i := range r.elements {
		e := c.elements[i]
		if e.kind != wire {
			bare = false
			continue
		}
		w := &c.s.Wires[e.index]
		r.ohm += w.Resistance
		if r.reverse[k] {
			r.emf -= w.EMF
		} else {
			r.emf += w.EMF
		}
		bare = bare && w.Resistance == 0 && w.Like == nil
	}
	if bare {
		return &StackError{Where: c.s.Wires[c.elements[r.elements[0]].index].Name, Reason: fmt.Sprintf(
			"it has a voltage and no resistance, and lies between the junctions %s and %s: it needs its inner resistance",
			c.name(r.from), c.name(r.to))}
	}
	return nil
}

// shorted complains about a wire with a voltage whose ends are one point.
func (c *circuit) shorted(i int) error {
	e := c.elements[i]
	if e.kind == wire && e.a == e.b && c.s.Wires[e.index].EMF != 0 {
		return &StackError{Where: c.s.Wires[e.index].Name, Reason: "it has a voltage, and its two ends are one point"}
	}
	return nil
}
