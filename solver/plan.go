package solver

// The order of an elimination depends only on who touches whom, so it is
// worked out once for a Structure. The unknowns fall into three parts:
//
//   - Twigs: trees of nodes that hang on the rest by one link, or on nothing.
//     Their ends are taken round by round from all sides, so that two ends of a
//     line meet in its middle. Without fill. A single line of nodes is all twig.
//   - The core: globals, nodes that touch very many others (the air in a box)
//     and knots, nodes in which several ways meet (core.go).
//   - Pieces: the trees that are left between unknowns of the core, such as the
//     cells of a branch between the studs that it joins. Each is tied to few of
//     them: its ends, its current, the air around it (piece.go).
//
// Where a tree runs through nodes and links whose numbers are evenly spaced (all
// cells of a part, or every other one where conductor and jacket take turns) it
// is a chain, which is eliminated in a tight loop; two chains that do not wait
// for each other are eliminated side by side, because each of them alone is a
// row of operations that wait for each other.

// chain is a stretch of a tree: nodes first, first+step, … length of them, each
// hanging on the next and the last one on parent.
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

// round is one part of a tree's schedule: what has no other wait for.
type round struct {
	pairs  [][2]chain
	solos  []chain
	leaves []leaf
}

// plan is the whole order.
type plan struct {
	structure Structure
	twigs     []round
	pieces    []piece
	mostTies  int // of a piece
	shortRows int // entries of rows that are kept as lists
	core
}

// adjacency holds the indices of its links for each unknown.
type adjacency [][]int

func other(link [2]int, i int) int { return link[0] + link[1] - i }

func newPlan(s Structure) *plan {
	p := &plan{structure: s}
	f := newForest(s)
	twigs := f.peel(nil)
	f.chooseCore()
	rest := f.peel(f.knots)
	f.share(twigs, rest)
	p.twigs = f.schedule(twigs, inTwigs)
	p.tiePieces(f, rest)
	p.orderCore(f)
	return p
}
