package study

import (
	"slices"
	"strings"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file takes together what a file says once for several batteries: a step
// that is taken for one of them is taken for all, as their one line says it.

// alike are the items that stand at the same place of the file as one, itself
// among them, in the order of the path.
func (p *steps) alike(item int) []int {
	if p.sc.Ways()[p.f.Path[item].Way].Kind == scenarios.MainWay {
		return []int{item}
	}
	var list []int
	for i := range p.f.Path {
		if p.f.Path[i].Pos == p.f.Path[item].Pos && p.f.Path[i].Kind == p.f.Path[item].Kind {
			list = append(list, i)
		}
	}
	return list
}

// first says whether an item is the first of those alike.
func (p *steps) first(item int) bool { return p.alike(item)[0] == item }

// together names alike items by the name that the first of them has: "A … D:
// compact holder".
func (p *steps) together(name string, items []int) string {
	ways := p.sc.Ways()
	prefix := ways[p.f.Path[items[0]].Way].Name + ": "
	rest, ok := strings.CutPrefix(name, prefix)
	if len(items) < 2 || !ok {
		return name
	}
	names := make([]string, len(items))
	for i, item := range items {
		names[i] = ways[p.f.Path[item].Way].Name
	}
	const few = 3
	if len(names) > few {
		return names[0] + " … " + names[len(names)-1] + ": " + rest
	}
	return strings.Join(names, ", ") + ": " + rest
}

// siblings are the indices of what belongs to the items alike, by a list that
// gives each its item: of each item the one with the same place among its own.
func siblings(of []int, i int, items []int) []int {
	ordinal := func(k int) int {
		n := 0
		for _, item := range of[:k] {
			if item == of[k] {
				n++
			}
		}
		return n
	}
	var list []int
	for k := range of {
		if slices.Contains(items, of[k]) && ordinal(k) == ordinal(i) {
			list = append(list, k)
		}
	}
	return list
}

// coolerJoints marks the joints of batteries beside which there is a hotter one.
func coolerJoints(s *state, ways []scenarios.WayInfo) []bool {
	of := rowWays(s, ways)
	on := hottestWays(s.assembly.Rows, of, ways, s.temp)
	out := make([]bool, len(s.stack.Joints))
	for i, r := range s.assembly.Rows {
		if r.Kind != model.JointRow {
			continue
		}
		for w := of[i]; w >= 0; w = ways[w].Parent {
			if ways[w].Kind == scenarios.BatteryWay && !on[w] {
				out[r.Joint] = true
			}
		}
	}
	return out
}
