package study

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/quantity"
)

// This file lists the steps that RunLevers tries. How large a realistic step
// is, is common practice without a source, but for the sizes of conductors,
// which are those of the trade.
const (
	fuseShare   = 0.8  // times the drop of a fuse of the same rating: 60 mV where 75 are usual
	movingAir   = 1.0  // m/s, a draught or a small fan
	moreSurface = 1.5  // times the metal surface
	lessLoad    = 0.9  // times the current or power
	coolerAir   = 5.0  // K
	warmerAir   = 15.0 // K
	halfTorque  = 0.5  // times the torque
	linkBars    = 2    // where one was
)

// Words of a file that steps are told by or made of.
const (
	dullFinish  = "painted"
	coverClosed = "closed"
	cableKind   = "cable"
	linkBarKind = "link bar"
	barKind     = "bar"
	assumedDrop = "fuse.drop" // the assumption that a fuse without data rests on
)

// worseJoints are the factors on one joint: a bad one, and one that is failing.
var worseJoints = []float64{3, 10}

// lidded are the kinds of part that can have a cover.
var lidded = []string{"compact holder", "high-capacity holder", "battery switch", "shunt"}

// possible lists what can be done about a stack, and what can happen to it.
func possible(sc *scenarios.Scenario, likely *state) (cool, hurt []change) {
	stack := likely.stack
	p := &steps{sc: sc, f: sc.File, stack: stack, cooler: coolerJoints(likely, sc.Ways())}
	p.tightening()
	p.faces()
	p.measured()
	p.cables()
	p.fuses()
	p.bars()
	p.lids()
	p.surfaces()
	p.surroundings()
	cool = p.list
	p.list = nil
	p.looser()
	p.badJoints()
	p.lidsOn()
	p.warmer()
	return cool, p.list
}

// steps gathers changes.
type steps struct {
	sc    *scenarios.Scenario
	f     *scenarios.File
	stack *model.Stack
	// cooler marks joints of batteries that have a hotter one beside them.
	cooler []bool
	list   []change
}

func (p *steps) add(c change) { p.list = append(p.list, c) }

// nuts are the bolts that press on a joint that is not measured.
func (p *steps) nuts() []int {
	var list []int
	for i := range p.stack.Bolts {
		if slices.ContainsFunc(p.stack.Joints, func(j model.Joint) bool {
			return j.Kind == model.Bolted && j.Bolt == i && j.Measured == nil
		}) {
			list = append(list, i)
		}
	}
	return list
}

// label is what outputs call an item: the name that its bolt or its first part
// begins with.
func (p *steps) label(item int) string {
	if i := slices.Index(p.sc.BoltItems, item); i >= 0 {
		name, _, _ := strings.Cut(p.stack.Bolts[i].Name, ", nut")
		return name
	}
	return p.stack.Parts[slices.Index(p.sc.PartItems, item)].Name()
}

// tightening: nuts of which the file says that they are not as tight as
// stated, each; and all of them together, for those of which it says nothing.
func (p *steps) tightening() {
	nuts := p.nuts()
	for _, i := range nuts {
		b := p.stack.Bolts[i]
		item := &p.f.Path[p.sc.BoltItems[i]]
		if !item.Tightened.Set && b.Kept.Likely == 1 || !p.first(p.sc.BoltItems[i]) {
			continue
		}
		items := p.alike(p.sc.BoltItems[i])
		name := p.together(b.Name, items)
		p.add(change{kind: "tighten", place: name, name: "tighten to the stated torque: " + name,
			write: "clamp kept: 100 %; tightened: torque wrench",
			part: func(s *model.Stack) error {
				for _, k := range siblings(p.sc.BoltItems, i, items) {
					if err := tighten(&s.Bolts[k]); err != nil {
						return err
					}
				}
				return nil
			}})
	}
	if len(nuts) == 0 {
		return
	}
	p.add(change{kind: "tighten all", name: "every nut at its stated torque, by wrench, none settled",
		write: "clamp kept: 100 %; tightened: torque wrench",
		part: func(s *model.Stack) error {
			for i := range s.Bolts {
				if err := tighten(&s.Bolts[i]); err != nil {
					return err
				}
			}
			return nil
		}})
}

// faces: those of each part with a nut, and all.
func (p *steps) faces() {
	var items []int
	for _, i := range p.nuts() {
		if item := p.sc.BoltItems[i]; !slices.Contains(items, item) && p.first(item) {
			items = append(items, item)
		}
	}
	for _, item := range items {
		alike := p.alike(item)
		label := p.together(p.label(item), alike)
		p.add(change{kind: "brush", place: label, name: "brush and grease the faces of " + label, write: "faces: brushed",
			part: func(s *model.Stack) error {
				return clean(s, func(j *model.Joint) bool {
					return slices.Contains(alike, p.sc.BoltItems[j.Bolt]) || slices.Contains(alike, p.sc.PartItems[j.A.Part]) ||
						slices.Contains(alike, p.sc.PartItems[j.B.Part])
				})
			}})
	}
	if len(items) > 1 {
		p.add(change{kind: "brush all", name: "brush and grease all faces", write: "faces: brushed",
			part: func(s *model.Stack) error { return clean(s, func(*model.Joint) bool { return true }) }})
	}
}

// measured: joints that a meter showed to be worse than clean faces under the
// stated torque would be, made anew.
func (p *steps) measured() {
	for i := range p.stack.Bolts {
		worse := false
		fresh, err := renewed(p.stack, i)
		if err != nil {
			continue // what cannot be made anew is no lever
		}
		for k, j := range p.stack.Joints {
			if j.Kind != model.Bolted || j.Bolt != i || j.Measured == nil {
				continue
			}
			if f, err := fresh.JointFigures(k); err == nil && f.Resistance.Likely < j.Measured.Resistance {
				worse = true
			}
		}
		if !worse {
			continue
		}
		name := p.stack.Bolts[i].Name
		p.add(change{kind: "renew", place: name, name: "take apart, brush, grease, tighten as stated: " + name,
			write: "faces: brushed, in place of measured",
			part: func(s *model.Stack) error {
				fresh, err := renewed(s, i)
				if err == nil {
					*s = *fresh
				}
				return err
			}})
	}
}

// cables: the next size, of each.
func (p *steps) cables() {
	for part, of := range p.stack.Parts {
		cable, ok := of.(*model.Cable)
		if !ok || !p.first(p.sc.PartItems[part]) {
			continue
		}
		items := p.alike(p.sc.PartItems[part])
		label := p.together(cable.Label, items)
		name := "next cable size: " + label
		next := nextConductor(cable.Conductor)
		if next == "" {
			continue
		}
		bare := cable.Label // without the name of its way, which outputs put before it
		if way := p.sc.Ways()[p.f.Path[items[0]].Way].Name; way != "" {
			bare = strings.TrimPrefix(bare, way+": ")
		}
		p.add(change{kind: "cable", place: label, name: fmt.Sprintf("%s to %s", name, next), write: "cable: " + next,
			file: func(f *scenarios.File) {
				for _, item := range items {
					i := &f.Path[item]
					if !i.Label.Set { // outputs go on calling it as they did
						word(&i.Label, i.Pos, bare)
					}
					word(&i.Of, i.Pos, next)
				}
			}})
	}
}

// fuses: the same rating with less drop.
func (p *steps) fuses() {
	assumed := false
	for i := range p.f.Path {
		item := &p.f.Path[i]
		switch {
		case !item.Fuse.Set:
		case item.FuseDrop.Set && p.first(i):
			items := p.alike(i)
			label := p.together(p.label(i), items)
			p.add(change{kind: "fuse", place: label, name: fmt.Sprintf("same fuse rating, %.0f %% less drop: %s", 100*(1-fuseShare), label),
				file: func(f *scenarios.File) {
					for _, k := range items {
						scaleFuse(&f.Path[k], fuseShare)
					}
				}})
		case item.FuseDrop.Set:
		default:
			assumed = true
		}
	}
	if !assumed {
		return
	}
	for _, a := range p.sc.Assumptions() {
		if a.ID != assumedDrop {
			continue
		}
		drop := a.Value.Likely * fuseShare
		text := quantity.Format(quantity.Voltage, drop, "mV", 2)
		p.add(change{kind: "fuse", name: fmt.Sprintf("same fuse rating, %s of drop instead of %s", text, a.Likely()),
			write: "fuse drop: " + text, vary: map[string]float64{assumedDrop: drop}})
	}
}

// bars: a second link bar on the first, as one of twice the thickness, which
// leaves the face between the two out; or a wider bar.
func (p *steps) bars() {
	for i := range p.f.Path {
		item := &p.f.Path[i]
		if item.Kind != linkBarKind && item.Kind != barKind || !p.first(i) {
			continue
		}
		items := p.alike(i)
		label := p.together(p.label(i), items)
		each := func(f *scenarios.File, do func(*scenarios.Section)) {
			for _, k := range items {
				do(&f.Path[k].Section)
			}
		}
		if item.Kind == linkBarKind {
			p.add(change{kind: "second bar", place: label, name: "a second link bar on the first: " + label,
				write: "section: " + section(item, 1, linkBars),
				file:  func(f *scenarios.File) { each(f, func(s *scenarios.Section) { s.Thickness *= linkBars }) }})
		}
		p.add(change{kind: "wider bar", place: label, name: "a bar half as wide again: " + label,
			write: "section: " + section(item, moreSurface, 1),
			file:  func(f *scenarios.File) { each(f, func(s *scenarios.Section) { s.Width *= moreSurface }) }})
	}
}

// section writes a section, width and thickness multiplied.
func section(item *scenarios.Item, width, thickness float64) string {
	return fmt.Sprintf("%s × %s mm", quantity.Number(1e3*item.Section.Width*width, 3), quantity.Number(1e3*item.Section.Thickness*thickness, 3))
}

// lids: each cover off.
func (p *steps) lids() {
	for k, cover := range p.stack.Covers {
		p.add(change{kind: "cover off", place: cover.Label, name: "no cover, which leaves live metal bare: " + cover.Label, write: "cover: none",
			part: func(s *model.Stack) error {
				s.Covers = slices.Delete(s.Covers, k, k+1)
				return nil
			}})
	}
}

// surfaces: more metal on each item whose parts are not given by where they
// stand, and a dull coat on all metal.
func (p *steps) surfaces() {
	for item := range p.f.Path {
		if p.f.Path[item].Kind == cableKind {
			continue // lugs come with the cable
		}
		if !p.first(item) {
			continue
		}
		items := p.alike(item)
		var parts []int
		for _, k := range items {
			parts = append(parts, p.partsOf(k)...)
		}
		label := p.together(p.label(item), items)
		if !slices.ContainsFunc(parts, func(i int) bool { return hasSurface(p.stack.Parts[i]) }) {
			continue
		}
		p.add(change{kind: "surface", place: label, name: fmt.Sprintf("%.0f %% more metal surface: %s", 100*(moreSurface-1), label),
			part: func(s *model.Stack) error {
				for _, i := range parts {
					enlarge(s.Parts[i], moreSurface)
				}
				return nil
			}})
	}
	p.add(change{kind: "finish", name: "a dull coat on all metal that shows, not on contact faces", write: "finish: " + dullFinish,
		part: func(s *model.Stack) error {
			f, err := materials.LookupFinish(dullFinish)
			if err != nil {
				return err
			}
			for _, part := range s.Parts {
				coat(part, f)
			}
			return nil
		}})
}

func (p *steps) partsOf(item int) []int {
	var list []int
	for i, of := range p.sc.PartItems {
		if of == item {
			list = append(list, i)
		}
	}
	return list
}

// hasSurface says whether a part has metal surface that could be more.
func hasSurface(p model.Part) bool {
	switch p := p.(type) {
	case *model.Block:
		return p.Exposed > 0
	case *model.Fuse:
		return p.CapExposed > 0
	}
	return false
}

// surroundings: moving air, cooler air, less current.
func (p *steps) surroundings() {
	if p.f.AirSpeed.Value < movingAir {
		text := quantity.Format(quantity.Speed, movingAir, "m/s", 1)
		p.add(change{kind: "moving air", name: "air moved at " + text, write: "air speed: " + text,
			file: func(f *scenarios.File) {
				f.AirSpeed = scenarios.Quantity{Value: movingAir, Unit: "m/s", Set: true, Pos: aside(f.Air.Pos, 1)}
			}})
	}
	what := loadName(p.stack)
	p.add(change{kind: what, name: fmt.Sprintf("%.0f %% less %s", 100*(1-lessLoad), what),
		part: func(s *model.Stack) error {
			scaleLoad(s, lessLoad)
			return nil
		}})
	p.add(change{kind: "air", name: fmt.Sprintf("air %.0f K cooler", coolerAir), write: "air: " + p.air(-coolerAir),
		file: func(f *scenarios.File) { f.Air.Value -= coolerAir }})
}

func (p *steps) air(more float64) string {
	return quantity.Format(quantity.Temperature, p.f.Air.Value+more, p.f.Air.Unit, 0)
}
