package study

import (
	"context"
	"errors"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// RunCheck answers how a file was understood. Its errors are
// *scenarios.Problems for a file that cannot be used, or the context's. It
// needs no settled state: only the list of nodes is read at one, where there
// is one, and at the air's temperature otherwise.
func RunCheck(ctx context.Context, sc *scenarios.Scenario, opt Options) (*Check, error) {
	stack, err := leftOn(sc, nil)
	if err != nil {
		return nil, err
	}
	a, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return nil, err
	}
	cold := &state{stack: stack, assembly: a, x: a.Start(nil)}
	out := &Check{Conditions: cold.conditions(sc), Warnings: []string{}}
	out.Drop, out.DropParts = a.Drop(0, cold.x), dropParts(sc, cold)
	for i, p := range stack.Parts {
		f := a.Parts[i]
		out.Parts = append(out.Parts, PartCheck{Name: p.Name(), Mass: f.Mass, Capacity: f.Capacity, Area: f.Surface, Resistance: f.Resistance})
		if fuse, ok := p.(*model.Fuse); ok {
			figures, err := fuse.FuseFigures()
			if err != nil {
				return nil, err
			}
			out.Fuses = append(out.Fuses, FuseCheck{Name: fuse.Name(), Rated: fuse.Rated, Cold: figures.Cold, ElementRise: figures.ElementRise})
		}
	}
	if err := out.joints(cold); err != nil {
		return nil, err
	}
	for _, s := range sc.Assumptions() {
		out.Assumptions = append(out.Assumptions, AssumptionCheck{ID: s.ID, Where: s.Where, What: s.What,
			Value: s.String(), Basis: s.Basis.String(), Source: s.Source, Ground: s.Ground})
	}

	hot, err := settle(ctx, stack, model.Likely, model.Mesh{})
	var none *NoAnswerError
	switch {
	case errors.As(err, &none):
		if circuitGives(stack, a, 0, cold.x) < 1 {
			return nil, none // nor are there cold figures
		}
		hot = cold
		out.Warnings = append(out.Warnings, none.Text)
	case err != nil:
		return nil, err
	}
	out.Warnings = append(out.Warnings, warnings(hot)...)
	out.Sizing = sizing(sc, hot)
	ways := sc.Ways()
	out.Branches, out.Spreads = branchLines(cold, ways)
	if out.Box, err = boxCheck(stack); err != nil {
		return nil, err
	}
	if stack.Enclosure != nil {
		out.Warnings = append(out.Warnings, tooSmall(stack, a)...)
	}
	out.Runs = runs(stack)
	if opt.Detail {
		for _, d := range hot.assembly.Detail(hot.x) {
			out.Nodes = append(out.Nodes, NodeCheck{Name: d.Name, Temp: temp(d.Temp), Area: d.Area, Convection: d.Convection,
				Radiation: d.Radiation, Conductance: d.Conductance, Biot: d.Biot, Warnings: d.Warnings})
		}
	}
	return out, nil
}

// joints fills in the bolts and joints, each joint with what a meter shows at the
// current that is its own while the stack is cold.
func (c *Check) joints(cold *state) error {
	stack := cold.stack
	currents := make([]float64, len(stack.Joints))
	for i, r := range cold.assembly.Rows {
		if r.Kind == model.JointRow {
			currents[r.Joint] = math.Abs(cold.assembly.RowCurrent(i, 0, cold.x))
		}
	}
	for i, b := range stack.Bolts {
		f, err := stack.BoltFigures(i)
		if err != nil {
			return fmt.Errorf("the clamp force of %s: %w", b.Name, err)
		}
		c.Bolts = append(c.Bolts, BoltCheck{Name: b.Name, Fastener: b.Fastener.Name, Torque: b.Torque,
			Clamp: f.Clamp, Yield: f.Yield, Utilisation: f.Utilisation})
	}
	for i, j := range stack.Joints {
		f, err := stack.JointFigures(i)
		if err != nil {
			return fmt.Errorf("the resistance of %s: %w", j.Name, err)
		}
		current := currents[i]
		check := JointCheck{Name: j.Name, Resistance: f.Resistance, Conductance: f.Conductance.Likely,
			Drop: materials.Range{Low: f.Resistance.Low * current, Likely: f.Resistance.Likely * current, High: f.Resistance.High * current}}
		switch {
		case j.Measured != nil:
			check.Kind = "measured"
		case j.Kind == model.Bolted:
			check.Kind = "bolted"
		case j.Kind == model.Crimped:
			check.Kind = "crimped"
		default:
			check.Kind = "fixed"
		}
		if j.Kind == model.Bolted {
			check.Bolt = stack.Bolts[j.Bolt].Name
		}
		c.Joints = append(c.Joints, check)
	}
	return nil
}

// assumptionText names an assumption with its likely value, for one line.
func assumptionText(a scenarios.Assumption) string {
	return a.Where + ": " + a.What + " " + a.Likely()
}
