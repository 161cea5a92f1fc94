package study

import (
	"fmt"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file lists what can happen to a stack.

// looser: each nut at half its torque.
func (p *steps) looser() {
	for i := range p.stack.Bolts {
		b := p.stack.Bolts[i]
		p.add(change{kind: "half torque", place: b.Name, name: "half the torque: " + b.Name,
			part: func(s *model.Stack) error { return loosen(s, i, halfTorque) }})
	}
}

// badJoints: each joint several times as bad as predicted or measured.
func (p *steps) badJoints() {
	for _, times := range worseJoints {
		for i := range p.stack.Joints {
			name := p.stack.Joints[i].Name
			p.add(change{kind: fmt.Sprintf("joint × %.0f", times), place: name, name: fmt.Sprintf("one joint × %.0f: %s", times, name),
				part: func(s *model.Stack) error {
					worsen(&s.Joints[i], times)
					return nil
				}})
		}
	}
}

// lidsOn: covers on all parts that can have one.
func (p *steps) lidsOn() {
	var open []int
	for i := range p.f.Path {
		if slices.Contains(lidded, p.f.Path[i].Kind) && !p.hasLid(i) {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return
	}
	name := "covers closed over " + p.label(open[0])
	if n := len(open) - 1; n > 0 {
		name += fmt.Sprintf(" and %d more", n)
	}
	p.add(change{kind: "cover closed", name: name, write: "cover: " + coverClosed,
		file: func(f *scenarios.File) {
			for _, i := range open {
				word(&f.Path[i].Cover, f.Path[i].Pos, coverClosed)
			}
		}})
}

func (p *steps) hasLid(item int) bool {
	for _, c := range p.stack.Covers {
		for _, part := range c.Parts {
			if p.sc.PartItems[part] == item {
				return true
			}
		}
	}
	return false
}

// warmer: the air of a closed locker or a summer's day.
func (p *steps) warmer() {
	p.add(change{kind: "air", name: fmt.Sprintf("air %.0f K warmer", warmerAir), write: "air: " + p.air(warmerAir),
		file: func(f *scenarios.File) { f.Air.Value += warmerAir }})
}
