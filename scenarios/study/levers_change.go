package study

import (
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// This file makes changes of a scenario: of its file where a key says the
// change, so that everything that hangs on it follows, else of its stack.

// change is one step away from the scenario as the file gives it.
type change struct {
	name, kind, place string
	write             string // what the file would say
	vary              map[string]float64
	file              func(*scenarios.File)
	part              func(*model.Stack) error
}

// stack makes the changed stack; that of the file stays as it is.
func (c *change) stack(sc *scenarios.Scenario) (*model.Stack, error) {
	changed := *sc
	if c.file != nil {
		f := *sc.File
		f.Path = slices.Clone(f.Path)
		c.file(&f)
		changed.File = &f
	}
	stack, err := leftOn(&changed, c.vary)
	if err != nil {
		return nil, err
	}
	if c.part != nil {
		if err := c.part(stack); err != nil {
			return nil, err
		}
	}
	return stack, nil
}

// aside is a place that no value of the file has: the reader of values keeps
// its books by their places.
func aside(at scenarios.Pos, k int) scenarios.Pos {
	const beyond = 1 << 20 // columns, more than a line may have
	return scenarios.Pos{Line: at.Line, Column: beyond + k, Length: 1}
}

// word sets a word of the file.
func word(w *scenarios.Word, at scenarios.Pos, text string) {
	*w = scenarios.Word{Text: text, Set: true, Pos: aside(at, len(text))}
}

// scaleLoad multiplies all that a stack is asked for.
func scaleLoad(stack *model.Stack, by float64) {
	*stack = *driven(stack, stack.Surroundings.Air, func(s model.Supply) model.Supply { return model.Scaled(s, by) })
}

// scaleFuse multiplies what the data of a fuse say.
func scaleFuse(item *scenarios.Item, by float64) {
	d := &item.FuseDrop
	d.Drop, d.Power, d.Resistance = d.Drop*by, d.Power*by, d.Resistance*by
}

// clean brushes the faces of joints.
func clean(stack *model.Stack, which func(*model.Joint) bool) error {
	state, err := materials.LookupFaceState("brushed")
	if err != nil {
		return err
	}
	for i := range stack.Joints {
		if j := &stack.Joints[i]; j.Kind == model.Bolted && j.Measured == nil && which(j) {
			j.Face.State = state
		}
	}
	return nil
}

// tighten sets a bolt to its torque with a wrench, with all of its clamp kept.
func tighten(b *model.Bolt) error {
	wrench, err := materials.LookupTightening("torque wrench")
	if err != nil {
		return err
	}
	if wrench.ClampFactor.Low > b.Tightening.ClampFactor.Low {
		b.Tightening = wrench
	}
	b.Kept = materials.Exactly(1)
	return nil
}

// renewed is a stack whose joints under a bolt are no longer as measured, but
// clean and tight; the stack itself stays as it is.
func renewed(stack *model.Stack, bolt int) (*model.Stack, error) {
	fresh := *stack
	fresh.Joints, fresh.Bolts = slices.Clone(stack.Joints), slices.Clone(stack.Bolts)
	under := func(j *model.Joint) bool { return j.Kind == model.Bolted && j.Bolt == bolt }
	for i := range fresh.Joints {
		if j := &fresh.Joints[i]; under(j) {
			j.Measured = nil
		}
	}
	if err := clean(&fresh, under); err != nil {
		return nil, err
	}
	return &fresh, tighten(&fresh.Bolts[bolt])
}

// loosen turns a bolt to a share of its torque. A measured joint keeps its
// measure for as much as the prediction changes.
func loosen(stack *model.Stack, bolt int, share float64) error {
	before := map[int]float64{}
	measured := func(do func(i int, predicted float64)) error {
		for i := range stack.Joints {
			j := stack.Joints[i]
			if j.Kind != model.Bolted || j.Bolt != bolt || j.Measured == nil {
				continue
			}
			ohm, err := asPredicted(stack, i)
			if err != nil {
				return err
			}
			do(i, ohm)
		}
		return nil
	}
	if err := measured(func(i int, ohm float64) { before[i] = ohm }); err != nil {
		return err
	}
	stack.Bolts[bolt].Torque *= share
	return measured(func(i int, ohm float64) {
		m := *stack.Joints[i].Measured
		m.Resistance *= ohm / before[i]
		stack.Joints[i].Measured = &m
	})
}

// worsen multiplies the ohms of a joint and divides its conductance.
func worsen(j *model.Joint, by float64) {
	if j.WorseBy == 0 {
		j.WorseBy = 1
	}
	j.WorseBy *= by
}

// enlarge gives a part more metal surface; false where it has none of its own.
func enlarge(p model.Part, by float64) bool {
	switch p := p.(type) {
	case *model.Block:
		p.Exposed *= by
		return p.Exposed > 0
	case *model.Fuse:
		p.CapExposed *= by
		return p.CapExposed > 0
	}
	return false
}

// coat gives the metal of a part another finish; false where it is as dull
// already, or no metal shows.
func coat(p model.Part, f materials.Finish) bool {
	put := func(on *materials.Finish, shows bool) bool {
		if !shows || on.Emissivity.Likely >= f.Emissivity.Likely {
			return false
		}
		*on = f
		return true
	}
	switch p := p.(type) {
	case *model.Block:
		return put(&p.Finish, p.Exposed > 0)
	case *model.Fuse:
		return put(&p.Finish, p.CapExposed > 0)
	case *model.Bar:
		return put(&p.Finish, p.Exposed > 0)
	case *model.Post:
		return put(&p.Finish, p.Exposed > 0)
	}
	return false
}

// nextConductor is the next larger conductor of the trade in the same system,
// with the stranding and tin of the one given; "" where there is none.
func nextConductor(c materials.Conductor) string {
	family := func(name string) string {
		switch {
		case strings.Contains(name, "class 2"):
			return "class 2"
		case strings.Contains(name, "mm²"):
			return "class 5"
		}
		return "gauge and circular mils"
	}
	next := materials.Conductor{}
	for _, other := range materials.Conductors() {
		// Sizes that differ by rounding are one size.
		const same = 1.02
		if family(other.Name) == family(c.Name) && other.Area > c.Area*same && (next.Name == "" || other.Area < next.Area) {
			next = other
		}
	}
	if next.Name != "" && strings.Contains(c.Name, "tinned") {
		return next.Name + " tinned"
	}
	return next.Name
}

// firstLine is what an error says, without the lines of the file.
func firstLine(err error) string {
	text, _, _ := strings.Cut(err.Error(), "\n")
	return text
}
