package model

import (
	"fmt"
	"slices"
)

// This file takes parts away from a stack: a fuse has blown, a lug came loose.

// Without is the stack with some parts, by index in Parts, taken away and with
// them all that hangs on them: joints, wires and draws at their ports, wires that
// are like them, their limits, their place under covers, in the box and on
// bases, and the covers and bases that nothing is left of. Bolts stay, so that
// their indices hold. The parts that stay are those of the stack itself, under
// indices that close up.
//
// The error, a *StackError, names an index that is no part's and a draw that
// would be the last to go: without it another current would flow than in the
// stack.
func (s *Stack) Without(parts ...int) (*Stack, error) {
	gone := make([]bool, len(s.Parts))
	for _, i := range parts {
		if i < 0 || i >= len(s.Parts) {
			return nil, &StackError{Reason: fmt.Sprintf("it has no part %d to be taken away", i)}
		}
		gone[i] = true
	}
	away := func(p Port) bool { return p.Part >= 0 && p.Part < len(gone) && gone[p.Part] }
	for i, p := range s.Parts {
		if b, ok := p.(*Base); ok && b != nil && len(b.Carries) > 0 && !slices.ContainsFunc(b.Carries, func(p Port) bool { return !away(p) }) {
			gone[i] = true
		}
	}
	out := *s
	index := make([]int, len(s.Parts)) // of each part that stays
	out.Parts = nil
	for i, p := range s.Parts {
		index[i] = len(out.Parts)
		if !gone[i] {
			out.Parts = append(out.Parts, p)
		}
	}
	moved := func(p Port) Port {
		if p.Part >= 0 && p.Part < len(index) {
			p.Part = index[p.Part]
		}
		return p
	}
	out.Joints = kept(s.Joints, func(j *Joint) bool {
		stays := !away(j.A) && !away(j.B)
		j.A, j.B = moved(j.A), moved(j.B)
		return stays
	})
	out.Wires = kept(s.Wires, func(w *Wire) bool {
		stays := !away(w.A) && !away(w.B)
		w.A, w.B = moved(w.A), moved(w.B)
		if l := w.Like; l != nil {
			stays = stays && !away(Port{Part: l.Part})
			w.Like = &Section{moved(Port{Part: l.Part}).Part, l.From, l.To}
		}
		return stays
	})
	out.Draws = kept(s.Draws, func(d *Draw) bool {
		stays := !away(d.From) && !away(d.To)
		d.From, d.To = moved(d.From), moved(d.To)
		return stays
	})
	if len(s.Draws) > 0 && len(out.Draws) == 0 {
		return nil, &StackError{Where: s.Draws[0].Name, Reason: "nothing else draws a current, and it hangs on what is taken away"}
	}
	stay := func(list []int) []int {
		if list == nil {
			return nil
		}
		left := []int{}
		for _, i := range list {
			if !away(Port{Part: i}) {
				left = append(left, moved(Port{Part: i}).Part)
			}
		}
		return left
	}
	out.Covers = kept(s.Covers, func(v *Cover) bool {
		had := len(v.Parts)
		v.Parts = stay(v.Parts)
		return len(v.Parts) > 0 || had == 0
	})
	out.Limits = kept(s.Limits, func(l *PartLimit) bool {
		stays := !away(Port{Part: l.Part})
		l.Part = moved(Port{Part: l.Part}).Part
		return stays
	})
	if s.Enclosure != nil {
		e := *s.Enclosure
		e.Parts = stay(e.Parts)
		out.Enclosure = &e
	}
	for i, p := range out.Parts {
		if b, ok := p.(*Base); ok && b != nil {
			left := *b
			left.Carries = kept(b.Carries, func(p *Port) bool {
				stays := !away(*p)
				*p = moved(*p)
				return stays
			})
			out.Parts[i] = &left
		}
	}
	return &out, nil
}

// kept lists copies of the items that a function keeps, which may change them.
func kept[T any](items []T, keep func(*T) bool) []T {
	var out []T
	for _, item := range items {
		if keep(&item) {
			out = append(out, item)
		}
	}
	return out
}
