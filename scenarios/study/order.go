package study

import (
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file puts parts and rows of a stack whose current divides in the order of
// the current: one way after the other, each from where its current comes in. (A
// stack lists the lugs of a cable behind it.)

// inOrder are all parts in the order of the current.
func inOrder(stack *model.Stack, ways []scenarios.WayInfo) []int {
	var pieces [][]int
	placed := map[int]bool{}
	for _, w := range ways {
		rest := slices.Clone(w.Parts)
		for len(rest) > 0 {
			piece := chain(stack, rest)
			pieces = append(pieces, piece)
			rest = slices.DeleteFunc(rest, func(p int) bool { return slices.Contains(piece, p) })
		}
	}
	slices.SortStableFunc(pieces, func(a, b []int) int { return slices.Min(a) - slices.Min(b) })
	out := slices.Concat(pieces...)
	for _, p := range out {
		placed[p] = true
	}
	for i := range stack.Parts { // what lies on no way
		if !placed[i] {
			out = append(out, i)
		}
	}
	return out
}

// chain follows joints through some of the parts of a stack, from the first part
// where the current comes in: one that is joined to a part before all of them,
// else the first.
func chain(stack *model.Stack, own []int) []int {
	first := slices.Min(own)
	next := func(part int) (inside []int, before bool) {
		for _, j := range stack.Joints {
			a, b := j.A.Part, j.B.Part
			if b == part {
				a, b = b, a
			}
			if a != part {
				continue
			}
			if slices.Contains(own, b) {
				inside = append(inside, b)
			}
			before = before || b < first
		}
		return inside, before
	}
	begin := first
	// The piece that the first part is on.
	piece := reached(first, func(p int) []int { in, _ := next(p); return in })
	for _, p := range piece {
		if _, before := next(p); before {
			begin = p
			break
		}
	}
	return reached(begin, func(p int) []int { in, _ := next(p); return in })
}

// reached are all that neighbours lead to from the first, in the order met.
func reached(first int, near func(int) []int) []int {
	out := []int{first}
	for i := 0; i < len(out); i++ {
		for _, n := range near(out[i]) {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// rowOrder are the rows of an assembly in the order of the current, those beside
// the path last.
func rowOrder(s *state, ways []scenarios.WayInfo) []int {
	rows := s.assembly.Rows
	out := make([]int, 0, len(rows))
	if len(s.assembly.Draws) == 0 {
		for i := range rows {
			out = append(out, i)
		}
		return out
	}
	parts := inOrder(s.stack, ways)
	place := make([]int, len(parts))
	for k, p := range parts {
		place[p] = k
	}
	of, partWays := rowWays(s, ways), wayOf(ways, len(s.stack.Parts))
	// A joint stands before the later of its two parts, or behind the earlier one
	// where it is of that one's way only.
	before, behind := make([][]int, len(parts)), make([][]int, len(parts))
	for i, r := range rows {
		if r.Kind != model.JointRow {
			continue
		}
		a, b := s.stack.Joints[r.Joint].A.Part, s.stack.Joints[r.Joint].B.Part
		if place[a] > place[b] {
			a, b = b, a
		}
		if partWays[b] != of[i] {
			behind[a] = append(behind[a], i)
		} else {
			before[b] = append(before[b], i)
		}
	}
	for _, p := range parts {
		out = append(out, before[p]...)
		for i, r := range rows {
			if r.Part == p && r.Kind != model.BodyRow {
				out = append(out, i)
			}
		}
		out = append(out, behind[p]...)
	}
	for i, r := range rows {
		if r.Kind == model.BodyRow {
			out = append(out, i)
		}
	}
	return out
}
