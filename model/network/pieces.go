package network

// This file finds what hangs together.

// pieces are the sets of things that are joined; each has its first thing for
// root.
type pieces []int

func apart(n int) pieces {
	p := make(pieces, n)
	for i := range p {
		p[i] = i
	}
	return p
}

func (p pieces) find(i int) int {
	for p[i] != i {
		p[i] = p[p[i]]
		i = p[i]
	}
	return i
}

// join joins the sets of two things; false where they were one already.
func (p pieces) join(a, b int) bool {
	x, y := p.find(a), p.find(b)
	p[max(x, y)] = min(x, y)
	return x != y
}

// pieces are the junctions that branches join.
func (n *Network) pieces() pieces {
	p := apart(len(n.junctions))
	for _, b := range n.branches {
		p.join(int(b.From), int(b.To))
	}
	return p
}
