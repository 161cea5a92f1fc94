package model

import (
	"fmt"
	"slices"
)

// This file follows the current from part to part.

// step is a part on the way of the current, entered at one of its ports, and
// the joint by which it is entered, −1 for the first.
type step struct {
	part, joint, enter int
}

// ends checks the ports of all joints and gives the joint of each port.
func (s *Stack) ends() (map[Port]int, error) {
	at := make(map[Port]int, 2*len(s.Joints))
	for i, j := range s.Joints {
		for _, p := range [2]Port{j.A, j.B} {
			if p.Part < 0 || p.Part >= len(s.Parts) || p.Port < 0 || p.Port > 1 {
				return nil, &StackError{Where: j.Name, Reason: fmt.Sprintf("there is no port %d of a part %d", p.Port, p.Part)}
			}
			name := s.Parts[p.Part].Name()
			if _, ok := s.Parts[p.Part].(*Base); ok {
				return nil, &StackError{Where: j.Name, Reason: name + " carries no current"}
			}
			if other, taken := at[p]; taken {
				return nil, &BranchError{Part: name, Joints: [2]string{s.Joints[other].Name, j.Name}}
			}
			at[p] = i
		}
		if j.A.Part == j.B.Part {
			return nil, &StackError{Where: j.Name, Reason: "it joins " + s.Parts[j.A.Part].Name() + " to itself"}
		}
	}
	return at, nil
}

// path gives the parts in the order of the current. All parts that carry
// current must lie on one way.
func (s *Stack) path(at map[Port]int) ([]step, error) {
	first, enter, carriers := -1, 0, 0
	for i, p := range s.Parts {
		if _, ok := p.(*Base); ok {
			continue
		}
		carriers++
		_, in := at[Port{i, 0}]
		_, out := at[Port{i, 1}]
		switch {
		case !in && (first < 0 || enter == 1):
			first, enter = i, 0
		case !out && first < 0:
			first, enter = i, 1
		}
	}
	if carriers == 0 {
		return nil, &StackError{Reason: "no part of it carries current"}
	}
	if first < 0 {
		return nil, &StackError{Reason: "its joints close a ring: the current has no place to come in"}
	}
	way := []step{{first, -1, enter}}
	for {
		last := way[len(way)-1]
		leave := Port{last.part, 1 - last.enter}
		j, ok := at[leave]
		if !ok {
			break
		}
		next := s.Joints[j].A
		if next == leave {
			next = s.Joints[j].B
		}
		way = append(way, step{next.Part, j, next.Port})
	}
	if len(way) == carriers {
		return way, nil
	}
	for i, p := range s.Parts {
		_, base := p.(*Base)
		if !base && !slices.ContainsFunc(way, func(w step) bool { return w.part == i }) {
			return nil, &StackError{Where: p.Name(), Reason: fmt.Sprintf(
				"no joint leads to it from %s, where the current comes in", s.Parts[first].Name())}
		}
	}
	return way, nil
}
