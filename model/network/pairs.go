package network

// This file arranges the pairs of unknowns that act on one another, and finds
// them again.

import (
	"cmp"
	"slices"
)

func ordered(a, b NodeID) [2]int {
	return [2]int{int(min(a, b)), int(max(a, b))}
}

func byLower(x, y [2]int) int {
	return cmp.Or(cmp.Compare(x[0], y[0]), cmp.Compare(x[1], y[1]))
}

func byHigher(x, y [2]int) int {
	return cmp.Or(cmp.Compare(x[1], y[1]), cmp.Compare(x[0], y[0]))
}

// arrangePairs puts the pairs in their order, each once, and the chains in
// theirs.
func (n *Network) arrangePairs() {
	n.pairs = sortedPairs(n.joinedPairs(), func(x, y [2]int) int {
		near := func(p [2]int) int {
			if p[1] == p[0]+1 {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(near(x), near(y)), byLower(x, y))
	})
	n.joined = len(n.pairs)
	for i, p := range n.pairs {
		if p[1] != p[0]+1 {
			break
		}
		n.loose = i + 1
		if k := len(n.chains) - 1; k >= 0 && n.pairs[i-1][1] == p[0] {
			n.chains[k].to = i + 1
		} else {
			n.chains = append(n.chains, run{p[0], i, i + 1})
		}
	}
	for _, p := range sortedPairs(n.facingPairs(), byLower) {
		if n.joinedPair(p) < 0 {
			n.pairs = append(n.pairs, p)
		}
	}
	n.fixed = make([]float64, len(n.pairs))
	n.pairs = append(n.pairs, sortedPairs(n.circuitPairs(), byHigher)...)
}

func sortedPairs(pairs [][2]int, by func(x, y [2]int) int) [][2]int {
	slices.SortFunc(pairs, by)
	return slices.Compact(pairs)
}

// joinedPairs are those that links, resistors and gaps join.
func (n *Network) joinedPairs() (pairs [][2]int) {
	for _, l := range n.links {
		if l.a != l.b {
			pairs = append(pairs, ordered(l.a, l.b))
		}
	}
	for _, r := range n.resistors {
		if r.A != r.B && !r.Elsewhere {
			pairs = append(pairs, ordered(r.A, r.B))
		}
	}
	for _, g := range n.gaps {
		pairs = append(pairs, ordered(g.a, g.b))
	}
	return pairs
}

// pairOf finds the pair of two unknowns, −1 where they do not act on one
// another.
func (n *Network) pairOf(a, b int) int {
	p := [2]int{min(a, b), max(a, b)}
	if p[1] >= len(n.nodes) {
		return n.within(len(n.fixed), len(n.pairs), p, byHigher)
	}
	if k := n.joinedPair(p); k >= 0 {
		return k
	}
	return n.within(n.joined, len(n.fixed), p, byLower)
}

func (n *Network) joinedPair(p [2]int) int {
	if p[1] == p[0]+1 {
		return n.within(0, n.loose, p, byLower)
	}
	return n.within(n.loose, n.joined, p, byLower)
}

// within finds a pair in a part of the pairs that is in order.
func (n *Network) within(from, to int, p [2]int, by func(x, y [2]int) int) int {
	if k, found := slices.BinarySearchFunc(n.pairs[from:to], p, by); found {
		return from + k
	}
	return -1
}
