package solver

import "slices"

// How the unknowns are parted into twigs, pieces and core.

const (
	// smallCore is the share of the nodes up to which what the twigs leave is
	// eliminated as core as it is: below it little is to be gained.
	smallCore = 0.25
	// hubDegree is the least number of neighbours of a node that is put in the
	// core for these alone.
	hubDegree = 9
	// mostTied bounds to how many unknowns of the core a piece may be tied, but
	// for one knot more: its cost grows with their square.
	mostTied = 6
	// leastPiece is the number of nodes from which on a piece is worth its ties;
	// below it its nodes join the core.
	leastPiece = 8
)

// Where a node is eliminated: in the core, among the twigs, or in the piece of
// that number.
const (
	inCore  = -1
	inTwigs = -2
)

// forest parts the unknowns.
type forest struct {
	s      Structure
	adj    adjacency
	core   []bool // an unknown each
	gone   []bool // in a tree already
	left   []int  // neighbours that are neither gone nor, but in the first peel, in the core
	parent []int  // an unknown of a tree each: the one it hangs on, −1 for none
	link   []int  // the link to it
	place  []int  // an unknown each: inCore, inTwigs or a piece
	tied   [][]int
	chains []int // scratch of schedule: an unknown's chain
}

func newForest(s Structure) *forest {
	size := s.Nodes + s.Globals
	ints := make([]int, 5*size)
	next := func() []int {
		v := ints[:size:size]
		ints = ints[size:]
		return v
	}
	f := &forest{s: s, adj: make(adjacency, size), core: make([]bool, size), gone: make([]bool, size),
		left: next(), parent: next(), link: next(), place: next(), chains: next()}
	for i := range size {
		f.parent[i], f.link[i], f.place[i], f.chains[i] = -1, -1, inCore, -1
		f.core[i] = i >= s.Nodes
	}
	ends := make([]int, 2*len(s.Links))
	for _, p := range s.Links {
		f.left[p[0]]++
		f.left[p[1]]++
	}
	for i, n := range f.left {
		f.adj[i], ends = ends[:0:n], ends[n:]
	}
	for l, p := range s.Links {
		f.adj[p[0]] = append(f.adj[p[0]], l)
		f.adj[p[1]] = append(f.adj[p[1]], l)
	}
	return f
}

// peel takes nodes that have one neighbour left, or none, as long as there are
// any, and returns them, ends first. Where keep is given it puts those that it
// says into the core instead.
func (f *forest) peel(keep func(i int) bool) []int {
	order := make([]int, 0, f.s.Nodes)
	for i := range f.s.Nodes {
		if !f.gone[i] && !f.core[i] && f.left[i] <= 1 {
			order = append(order, i)
		}
	}
	taken := order[:0]
	for k := 0; k < len(order); k++ {
		i := order[k]
		if keep != nil && keep(i) {
			f.core[i] = true
		} else {
			f.gone[i] = true
			taken = append(taken, i) // never ahead of k
		}
		for _, l := range f.adj[i] {
			q := other(f.s.Links[l], i)
			if f.gone[q] || f.core[q] && keep != nil {
				continue
			}
			if f.gone[i] {
				f.parent[i], f.link[i] = q, l
			}
			if f.left[q]--; f.left[q] == 1 && !f.core[q] {
				order = append(order, q)
			}
		}
	}
	return taken
}

// chooseCore puts into the core what leaves trees when it is out: hubs, and in
// what is then still ringed the knots at which ways meet.
func (f *forest) chooseCore() {
	rest := 0
	for i := range f.s.Nodes {
		if f.gone[i] {
			continue
		}
		rest++
		for _, l := range f.adj[i] {
			if f.core[other(f.s.Links[l], i)] {
				f.left[i]--
			}
		}
	}
	if float64(rest) <= smallCore*float64(f.s.Nodes) {
		for i := range f.s.Nodes {
			f.core[i] = f.core[i] || !f.gone[i]
		}
		return
	}
	ringed := f.ringed()
	for _, least := range [...]int{hubDegree, 3, 2} {
		f.cut(ringed, least)
	}
	f.recount()
}

// ringed tells the nodes that lie on rings or between them; f.left then counts
// neighbours of that kind.
func (f *forest) ringed() []bool {
	in := make([]bool, f.s.Nodes)
	for i := range in {
		in[i] = !f.gone[i]
	}
	for i := range in {
		f.unring(in, i)
	}
	return in
}

// unring takes away from the ringed a node that is an end, and what becomes one
// by that.
func (f *forest) unring(in []bool, i int) {
	ends := []int{i}
	for len(ends) > 0 {
		i, ends = ends[len(ends)-1], ends[:len(ends)-1]
		if in[i] && f.left[i] <= 1 {
			ends = f.drop(in, i, ends)
		}
	}
}

// drop takes a node away from the ringed and adds its ringed neighbours to ends.
func (f *forest) drop(in []bool, i int, ends []int) []int {
	in[i] = false
	for _, l := range f.adj[i] {
		if q := other(f.s.Links[l], i); q < len(in) && in[q] {
			f.left[q]--
			ends = append(ends, q)
		}
	}
	return ends
}

// cut puts ringed nodes into the core that have at least so many ringed
// neighbours: hubs one by one, those of most first; of knots all that there are
// now; and of each ring without a knot the first.
func (f *forest) cut(in []bool, least int) {
	var found []int
	for i := range in {
		if in[i] && f.left[i] >= least {
			found = append(found, i)
		}
	}
	if least >= hubDegree {
		slices.SortStableFunc(found, func(a, b int) int { return f.left[b] - f.left[a] })
	}
	for _, i := range found {
		if !in[i] || least != 3 && f.left[i] < least {
			continue
		}
		f.core[i] = true
		for _, q := range f.drop(in, i, nil) {
			if least != 3 {
				f.unring(in, q)
			}
		}
	}
	if least == 3 {
		for i := range in {
			f.unring(in, i)
		}
	}
}

// recount makes f.left count the neighbours that are neither gone nor in the core.
func (f *forest) recount() {
	for i := range f.s.Nodes {
		f.left[i] = 0
		for _, l := range f.adj[i] {
			if q := other(f.s.Links[l], i); !f.gone[q] && !f.core[q] {
				f.left[i]++
			}
		}
	}
	f.tied = make([][]int, len(f.core))
}

// knots says of a node about to be taken whether it must be in the core instead:
// where the tree that ends in it would be tied to too many unknowns, or where
// trees meet that are tied to unlike ones. It notes the ties.
func (f *forest) knots(i int) bool {
	var ties []int
	most, parts := 0, 0
	join := func(more []int) {
		for _, q := range more {
			if !slices.Contains(ties, q) {
				ties = append(ties, q)
			}
		}
		most = max(most, len(more))
		if len(more) > 0 {
			parts++
		}
	}
	var own []int
	for _, l := range f.adj[i] {
		q := other(f.s.Links[l], i)
		switch {
		case f.core[q]:
			own = append(own, q)
		case f.gone[q] && f.parent[q] == i && f.tied[q] != nil:
			join(f.tied[q])
		}
	}
	join(own)
	if len(ties) > mostTied || parts > 1 && len(ties) > most+1 {
		return true
	}
	f.tied[i] = ties
	return false
}

// share notes where each node is eliminated. The nodes of pieces that are not
// worth their ties go to the core.
func (f *forest) share(twigs, rest []int) {
	for _, i := range twigs {
		f.place[i] = inTwigs
	}
	var sizes []int
	for k := len(rest) - 1; k >= 0; k-- { // parents first
		i := rest[k]
		if q := f.parent[i]; q >= 0 && !f.core[q] {
			f.place[i] = f.place[q]
			sizes[f.place[i]]++
			continue
		}
		f.parent[i] = -1
		f.place[i] = len(sizes)
		sizes = append(sizes, 1)
	}
	number := 0
	for k, n := range sizes {
		if sizes[k] = inCore; n >= leastPiece {
			sizes[k] = number
			number++
		}
	}
	for _, i := range rest {
		if f.place[i] = sizes[f.place[i]]; f.place[i] == inCore {
			f.core[i], f.parent[i] = true, -1
		}
	}
}
