package solver

import (
	"container/heap"
	"slices"
)

// The order of an elimination depends only on who touches whom, so it is
// worked out once for a Structure, in three parts:
//
//   - The forest: nodes that have one neighbour left when their turn comes.
//     Ends are taken round by round from all sides, so that two ends of a
//     line meet in its middle. Without fill.
//   - The core: what is left once no ends are left, by minimum degree, ties by
//     number, with the fill that this brings.
//   - The border: nodes that touch very many others (the air in a box) or
//     whose removal leaves a forest (one of a ring), taken last, and the
//     globals after them.
//
// Where a branch of the forest runs through nodes and links whose numbers are
// evenly spaced (all cells of a part, or every other one where conductor and
// jacket take turns) it is a chain, which is eliminated in a tight loop; two chains that do not wait
// for each other are eliminated side by side, because each of them alone is a
// row of operations that wait for each other.

// chain is a stretch of the forest: nodes first, first+step, … length of
// them, each hanging on the next and the last one on parent.
type chain struct {
	first, step    int
	length, parent int
	link, linkStep int  // links to the next node: link, link+linkStep, …
	turned         bool // the links run from the next node to this one
}

func (c *chain) last() int { return c.first + (c.length-1)*c.step }

// leaf is a chain of one node; parent −1 stands for none.
type leaf struct {
	node, parent, link int
	turned             bool
}

// round is one part of the forest's schedule: what has no other wait for.
type round struct {
	pairs  [][2]chain
	solos  []chain
	leaves []leaf
}

// coreNode is a node of the core: its neighbours at its turn are
// plan.near[from:to].
type coreNode struct{ node, from, to, pairs int }

// plan is the whole order. The core's off-diagonals live in an array of their
// own, two directed values an entry: 2e holds M[p,q], 2e+1 holds M[q,p].
type plan struct {
	structure Structure
	rounds    []round
	core      []coreNode
	near      []int    // neighbours of the core's nodes
	nearAt    []int    // a neighbour each: place of M[node, neighbour]
	targets   []int    // a pair of neighbours a < b each: place of M[a, b]
	coreLinks [][2]int // link and its entry
	entries   int
	hubs      []int     // nodes of the border
	hubAt     []int     // a node each: its place in hubs, or −1
	stars     [][2]star // a hub each: links that run to it and links that run from it
	hubHub    []int     // links between two hubs
}

const (
	// borderMost bounds the border: each of its nodes costs a solve a
	// factorisation and two passes a solve, which pays against fill for a few.
	borderMost = 6
	// smallCore is the share of the nodes up to which a core is eliminated as
	// it is: a node of the border costs passes over all nodes.
	smallCore = 0.25
	// hubDegree is how many nodes of the core a hub touches at least where
	// taking it out does not leave a forest.
	hubDegree = 9
)

type adjacency [][]int // a node each: indices of its links

func other(link [2]int, node int) int { return link[0] + link[1] - node }

func newPlan(s Structure) *plan {
	p := &plan{structure: s, hubAt: make([]int, s.Nodes)}
	for i := range p.hubAt {
		p.hubAt[i] = -1
	}
	adj := make(adjacency, s.Nodes)
	for l, pair := range s.Links {
		adj[pair[0]] = append(adj[pair[0]], l)
		adj[pair[1]] = append(adj[pair[1]], l)
	}
	f := p.peel(adj)
	for p.chooseHubs(adj, f) {
		f = p.peel(adj)
	}
	p.listHubLinks()
	p.schedule(f)
	p.orderCore(f)
	return p
}

// forest is the outcome of peeling: nodes in order, ends first.
type forest struct {
	order  []int
	parent []int // a node each: the node that it hangs on, −1 for none
	link   []int // the link to it
	left   []int // a node each: neighbours not yet eliminated when peeling stopped
	gone   []bool
}

func (p *plan) peel(adj adjacency) *forest {
	n := p.structure.Nodes
	f := &forest{parent: make([]int, n), link: make([]int, n), left: make([]int, n), gone: make([]bool, n)}
	for i := range n {
		f.parent[i], f.link[i] = -1, -1
		f.gone[i] = p.hubAt[i] >= 0
	}
	for i := range n {
		for _, l := range adj[i] {
			if !f.gone[other(p.structure.Links[l], i)] {
				f.left[i]++
			}
		}
	}
	var queue []int
	for i := range n {
		if !f.gone[i] && f.left[i] <= 1 {
			queue = append(queue, i)
		}
	}
	for k := 0; k < len(queue); k++ {
		i := queue[k]
		f.gone[i] = true
		for _, l := range adj[i] {
			q := other(p.structure.Links[l], i)
			if f.gone[q] {
				continue
			}
			f.parent[i], f.link[i] = q, l
			f.left[q]--
			if f.left[q] == 1 {
				queue = append(queue, q)
			}
		}
	}
	f.order = queue
	return f
}

// chooseHubs moves nodes of the core into the border and says whether it did.
func (p *plan) chooseHubs(adj adjacency, f *forest) bool {
	if len(p.hubs) > 0 {
		return false // chosen already
	}
	if core := len(f.gone) - len(f.order); float64(core) <= smallCore*float64(len(f.gone)) {
		return false
	}
	var chosen, degree []int
	gone := slices.Clone(f.gone)
	left := slices.Clone(f.left)
	for len(chosen) < borderMost {
		best := -1
		for i := range gone {
			if !gone[i] && (best < 0 || left[i] > left[best]) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		chosen, degree = append(chosen, best), append(degree, left[best])
		ends := []int{best}
		for len(ends) > 0 {
			i := ends[len(ends)-1]
			ends = ends[:len(ends)-1]
			if gone[i] {
				continue
			}
			gone[i] = true
			for _, l := range adj[i] {
				q := other(p.structure.Links[l], i)
				left[q]--
				if !gone[q] && left[q] <= 1 {
					ends = append(ends, q)
				}
			}
		}
	}
	if slices.Contains(gone, false) {
		for len(chosen) > 0 && degree[len(chosen)-1] < hubDegree {
			chosen, degree = chosen[:len(chosen)-1], degree[:len(degree)-1]
		}
	}
	slices.Sort(chosen)
	p.hubs = chosen
	for k, h := range chosen {
		p.hubAt[h] = k
	}
	return len(chosen) > 0
}

// star lists a hub's links and the nodes at their other ends.
type star struct{ links, nodes []int32 }

func (s *star) add(link, node int) {
	s.links, s.nodes = append(s.links, int32(link)), append(s.nodes, int32(node))
}

func (p *plan) listHubLinks() {
	p.stars = make([][2]star, len(p.hubs))
	for l, pair := range p.structure.Links {
		a, b := p.hubAt[pair[0]], p.hubAt[pair[1]]
		switch {
		case a >= 0 && b >= 0:
			p.hubHub = append(p.hubHub, l)
		case b >= 0:
			p.stars[b][0].add(l, pair[0])
		case a >= 0:
			p.stars[a][1].add(l, pair[1])
		}
	}
}

// schedule cuts the forest into chains and sorts them into rounds.
func (p *plan) schedule(f *forest) {
	links := p.structure.Links
	turned := func(i int) bool { return links[f.link[i]][0] != i }
	chainOf := make([]int, p.structure.Nodes)
	for i := range chainOf {
		chainOf[i] = -1
	}
	var chains []chain
	for _, i := range f.order {
		if chainOf[i] >= 0 {
			continue
		}
		c := chain{first: i, step: 1, length: 1, parent: f.parent[i], link: f.link[i], linkStep: 1}
		if c.parent >= 0 {
			c.turned = turned(i)
		}
		chainOf[i] = len(chains)
		for c.parent >= 0 {
			last, next := c.last(), c.parent
			step := next - last
			// Only the way straight on: a side branch must not take over its
			// trunk.
			if chainOf[next] >= 0 || f.parent[next] < 0 || f.parent[next] != next+step || turned(next) != c.turned {
				break
			}
			linkStep := f.link[next] - f.link[last]
			if c.length == 1 {
				c.step, c.linkStep = step, linkStep
			} else if c.step != step || c.linkStep != linkStep {
				break
			}
			chainOf[next] = len(chains)
			c.length++
			c.parent = f.parent[next]
		}
		chains = append(chains, c)
	}
	// A chain waits for those that hang on its nodes. The peeling order puts
	// every node behind all that hang on it.
	height := make([]int, len(chains))
	top := 0
	for _, i := range f.order {
		c := chainOf[i]
		if chains[c].last() != i || chains[c].parent < 0 {
			continue
		}
		if q := chainOf[chains[c].parent]; q >= 0 {
			height[q] = max(height[q], height[c]+1)
			top = max(top, height[q])
		}
	}
	if len(chains) > 0 {
		p.rounds = make([]round, top+1)
	}
	// A chain without a partner in its round waits for one as long as the
	// chain that it hangs on allows.
	order := make([]int, len(chains))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return height[a] - height[b] })
	var single *chain
	due := 0
	alone := func() {
		if single != nil {
			p.rounds[due].solos = append(p.rounds[due].solos, *single)
			single = nil
		}
	}
	for _, k := range order {
		c, h := &chains[k], height[k]
		if single != nil && due < h {
			alone()
		}
		r := &p.rounds[h]
		switch {
		case c.length == 1:
			r.leaves = append(r.leaves, leaf{c.first, c.parent, c.link, c.turned})
		case single != nil:
			r.pairs = append(r.pairs, [2]chain{*single, *c})
			single = nil
		default:
			single, due = c, top
			if q := chainOf[c.parent]; q >= 0 {
				due = height[q] - 1
			}
		}
	}
	alone()
}

// degreeHeap hands out the nodes of the core by degree, then number. An entry
// whose degree is out of date is passed over.
type degreeHeap [][2]int

func (h degreeHeap) Len() int           { return len(h) }
func (h degreeHeap) Less(a, b int) bool { return slices.Compare(h[a][:], h[b][:]) < 0 }
func (h degreeHeap) Swap(a, b int)      { h[a], h[b] = h[b], h[a] }
func (h *degreeHeap) Push(x any)        { *h = append(*h, x.([2]int)) }
func (h *degreeHeap) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

func (p *plan) orderCore(f *forest) {
	place := make(map[int]map[int]int) // node, neighbour: place of M[node, neighbour]
	for i, gone := range f.gone {
		if !gone {
			place[i] = make(map[int]int)
		}
	}
	enter := func(a, b int) int {
		at := 2 * p.entries
		place[a][b], place[b][a] = at, at+1
		p.entries++
		return at
	}
	for l, pair := range p.structure.Links {
		if !f.gone[pair[0]] && !f.gone[pair[1]] {
			p.coreLinks = append(p.coreLinks, [2]int{l, p.entries})
			enter(pair[0], pair[1])
		}
	}
	h := &degreeHeap{}
	for i := range f.gone {
		if near, ok := place[i]; ok {
			heap.Push(h, [2]int{len(near), i})
		}
	}
	for h.Len() > 0 {
		top := heap.Pop(h).([2]int)
		i := top[1]
		near, ok := place[i]
		if !ok || len(near) != top[0] {
			continue
		}
		c := coreNode{node: i, from: len(p.near), pairs: len(p.targets)}
		for q := range near {
			p.near = append(p.near, q)
		}
		c.to = len(p.near)
		around := p.near[c.from:c.to]
		slices.Sort(around)
		for _, q := range around {
			p.nearAt = append(p.nearAt, near[q])
			delete(place[q], i)
		}
		for k, a := range around {
			for _, b := range around[k+1:] {
				at, ok := place[a][b]
				if !ok {
					at = enter(a, b)
				}
				p.targets = append(p.targets, at)
			}
		}
		for _, q := range around {
			heap.Push(h, [2]int{len(place[q]), q})
		}
		delete(place, i)
		p.core = append(p.core, c)
	}
}
