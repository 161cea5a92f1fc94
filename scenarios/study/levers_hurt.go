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
		item := p.sc.BoltItems[i]
		if !p.first(item) {
			continue
		}
		items := p.alike(item)
		name := p.together(p.stack.Bolts[i].Name, items)
		p.add(change{kind: "half torque", place: name, name: "half the torque: " + name,
			part: func(s *model.Stack) error {
				for _, k := range siblings(p.sc.BoltItems, i, items) {
					if err := loosen(s, k, halfTorque); err != nil {
						return err
					}
				}
				return nil
			}})
	}
}

// badJoints: each joint several times as bad as predicted or measured; of alike
// batteries those of the hottest one.
func (p *steps) badJoints() {
	for _, times := range worseJoints {
		for i := range p.stack.Joints {
			if p.cooler[i] {
				continue
			}
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
