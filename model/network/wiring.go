package network

// This file arranges the electrical side: which unknown stands for what, and
// which of them act on one another.

// circuit is the electrical side arranged for solving. It is not written after
// Finish.
type circuit struct {
	globals    int            // currents and potentials
	potentials []int          // by JunctionID: the unknown, −1 for earth
	wires      []wire         // by BranchID − 1
	carriers   [][]ResistorID // by BranchID − 1: its resistors
	takers     []taker        // by DrawID
	ends       []endPair
}

// A wire is a branch between its two ends, at its current among the unknowns.
type wire struct {
	at        int
	from, to  int // potentials among the unknowns, −1 for earth
	emf, ohms float64
}

// A taker is a draw between its two ends. One of power has its current among
// the unknowns, at, and the pairs of that with its ends, −1 where one is earth.
type taker struct {
	at               int // −1 for a draw of current
	from, to         int
	pairFrom, pairTo int
}

// endPair is the pair of a current and the potential at one of its ends, and the
// sign of the potential in the current's residual, from which the current's in
// that of the junction is the opposite.
type endPair struct {
	pair int
	sign float64
}

// potential reads one of a state.
func potential(x []float64, at int) float64 {
	if at < 0 {
		return 0
	}
	return x[at]
}

// currentOf is the unknown that is a branch's current, −1 for the supply's.
func (n *Network) currentOf(b BranchID) int {
	if b == 0 {
		return -1
	}
	return len(n.nodes) + int(b) - 1
}

// arrangeCircuit numbers the unknowns: currents first, so that a potential,
// which is not in its own residual, comes after all that it meets.
func (n *Network) arrangeCircuit() {
	next := len(n.nodes) + len(n.branches)
	for _, d := range n.draws {
		t := taker{at: -1}
		if d.Power != nil {
			t.at = next
			next++
		}
		n.takers = append(n.takers, t)
	}
	pieces := n.pieces()
	n.potentials = make([]int, len(n.junctions))
	for j := range n.junctions {
		n.potentials[j] = -1
		if pieces.find(j) != j { // the first of a piece is its root
			n.potentials[j] = next
			next++
		}
	}
	n.globals = next - len(n.nodes)
	for i, b := range n.branches {
		n.wires = append(n.wires, wire{n.currentOf(BranchID(i + 1)), n.potentials[b.From], n.potentials[b.To], b.EMF, b.Ohms})
	}
	n.carriers = make([][]ResistorID, len(n.branches))
	for i := range n.resistors {
		if b := n.resistors[i].Branch; b != 0 {
			n.carriers[b-1] = append(n.carriers[b-1], ResistorID(i))
		}
	}
	for i, d := range n.draws {
		n.takers[i].from, n.takers[i].to = n.potentials[d.From], n.potentials[d.To]
	}
}

// circuitPairs are those of each current with the nodes of its resistors and
// with the potentials at its ends.
func (n *Network) circuitPairs() (pairs [][2]int) {
	for _, r := range n.resistors {
		if r.Branch != 0 {
			at := n.currentOf(r.Branch)
			pairs = append(pairs, [2]int{int(r.A), at}, [2]int{int(r.B), at})
		}
	}
	for _, w := range n.wires {
		if w.from == w.to {
			continue
		}
		pairs = appendEnds(pairs, w.at, w.from, w.to)
	}
	for _, t := range n.takers {
		if t.at >= 0 {
			pairs = appendEnds(pairs, t.at, t.from, t.to)
		}
	}
	return pairs
}

func appendEnds(pairs [][2]int, at int, ends ...int) [][2]int {
	for _, e := range ends {
		if e >= 0 {
			pairs = append(pairs, [2]int{at, e})
		}
	}
	return pairs
}

// arrangeEnds finds the pairs of currents with the potentials at their ends.
func (n *Network) arrangeEnds() {
	end := func(at, potential int, sign float64) int {
		if potential < 0 {
			return -1
		}
		pair := n.pairOf(at, potential)
		n.ends = append(n.ends, endPair{pair, sign})
		return pair
	}
	for _, w := range n.wires {
		if w.from != w.to {
			end(w.at, w.from, 1)
			end(w.at, w.to, -1)
		}
	}
	for i := range n.takers {
		if t := &n.takers[i]; t.at >= 0 {
			t.pairFrom, t.pairTo = end(t.at, t.from, 1), end(t.at, t.to, -1)
		}
	}
}
