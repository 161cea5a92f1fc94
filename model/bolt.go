package model

import (
	"fmt"

	"clampheat/materials"
)

// A Bolt clamps a list of faces with one clamp force: each bolted joint names
// the bolt that presses it.
type Bolt struct {
	Name       string
	Fastener   materials.Fastener
	Class      materials.PropertyClass
	Thread     materials.ThreadCondition
	Torque     float64 // N·m
	Tightening materials.Tightening
	// Kept is the share of the clamp force that is left after settling,
	// creep and thermal cycling: 1 when new.
	Kept materials.Range
	// Bearing is the outer diameter, m, of what presses on the outermost
	// part; 0 means the fastener's flat washer.
	Bearing float64
}

// BoltFigures is what follows from a bolt's torque.
type BoltFigures struct {
	Clamp materials.Range // N, from the ranges of nut factor, wrench and kept share
	// Yield is the torque, N·m, at which the fastener's thread reaches its
	// yield figure at the likely friction (utilisation 1).
	Yield float64
	// Utilisation is the von Mises stress in the thread over Rp0.2 at the
	// likely friction; Least the same at the highest friction of the range.
	Utilisation, Least float64
	Warnings           []Warning
}

// nearYield is the utilisation above which a bolt earns a warning: the share
// of Rp0.2 that VDI 2230-1:2015 tightens to, and plans no more than.
const nearYield = 0.9

// BoltFigures works out the clamp force of the bolt with index i, by the short
// form F = T/(K·d), and how near its thread comes to yielding. The friction in
// the thread is the one that the nut factor asks for.
//
// The error is a *YieldError where the thread passes its yield figure even at
// the highest friction, else a *StackError.
func (s *Stack) BoltFigures(i int) (BoltFigures, error) {
	if i < 0 || i >= len(s.Bolts) {
		return BoltFigures{}, &StackError{Reason: fmt.Sprintf("it has no bolt %d", i)}
	}
	b := &s.Bolts[i]
	if err := b.check(); err != nil {
		return BoltFigures{}, err
	}
	use := func(nutFactor float64) float64 {
		return b.Torque / YieldTorque(b.Fastener, b.Class.Rp02, nutFactor)
	}
	k := b.Thread.NutFactor
	figures := BoltFigures{
		Clamp: combine([]materials.Range{k, b.Tightening.ClampFactor, b.Kept}, func(x []float64) float64 {
			return ClampShort(b.Torque, x[0], b.Fastener.Diameter) * x[1] * x[2]
		}),
		Yield:       YieldTorque(b.Fastener, b.Class.Rp02, k.Likely),
		Utilisation: use(k.Likely),
		Least:       use(k.High),
	}
	if !positive(figures.Clamp) || !finite(figures.Utilisation) || !finite(figures.Least) {
		return BoltFigures{}, &StackError{Where: b.Name, Reason: "its figures are out of all proportion"}
	}
	if figures.Least > 1 {
		return BoltFigures{}, &YieldError{Bolt: b.Name, Fastener: b.Fastener.Name, Class: b.Class.Name,
			Thread: b.Thread.Name, Torque: b.Torque, Yield: YieldTorque(b.Fastener, b.Class.Rp02, k.High)}
	}
	if figures.Utilisation > nearYield {
		figures.Warnings = append(figures.Warnings, Warning{b.Name, fmt.Sprintf(
			"%.3g N·m takes the thread to %.0f %% of its yield figure if it is %s (nut factor %.2g, friction %.2g)",
			b.Torque, 100*figures.Utilisation, b.Thread.Name, k.Likely, FrictionFor(k.Likely, b.Fastener))})
	}
	return figures, nil
}

func (b *Bolt) check() error {
	c := checks{where: b.Name}
	f := b.Fastener
	c.positive("torque", b.Torque)
	c.positive("fastener's diameter", f.Diameter)
	c.positive("fastener's pitch", f.Pitch)
	c.positive("fastener's pitch diameter", f.PitchDiameter)
	c.positive("fastener's stress area", f.StressArea)
	c.positive("fastener's head", f.HeadDiameter)
	c.positive("fastener's hole", f.HoleDiameter)
	c.positive("diameter under the nut", b.bearing())
	c.positive("yield figure", b.Class.Rp02)
	for _, r := range []struct {
		field string
		r     materials.Range
	}{{"nut factor", b.Thread.NutFactor}, {"scatter of tightening", b.Tightening.ClampFactor}, {"share of clamp kept", b.Kept}} {
		if !positive(r.r) {
			c.fail(r.field, "must be a range above zero, low to high, not %g … %g … %g", r.r.Low, r.r.Likely, r.r.High)
		}
	}
	return c.err
}

// bearing is the outer diameter of what presses, m.
func (b *Bolt) bearing() float64 {
	if b.Bearing != 0 {
		return b.Bearing
	}
	return b.Fastener.WasherDiameter
}
