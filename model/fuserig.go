package model

import (
	"fmt"

	"clampheat/materials"
)

// This file takes a fuse's data apart: they belong to the rig that they were
// taken in, where the caps had a temperature and the element one above it.

// A HotFigure is a drop or a power at rated current, with the element hot in
// the maker's rig.
type HotFigure struct {
	Current  float64         // A, usually the rated
	Drop     materials.Range // V, or:
	Power    materials.Range // W
	Terminal materials.Range // K, of the caps in that rig
}

// FuseFigures is what follows for a fuse from its hot figure.
type FuseFigures struct {
	Cold        materials.Range // Ω at 20 °C
	ElementRise materials.Range // K, of the element above the caps in the rig; 0 where Cold was given
}

func (p *Fuse) checkHot(c *checks) {
	h := p.Hot
	if h == nil {
		c.fail("", "it has neither a cold resistance nor a drop or power at a current")
		return
	}
	c.positive("current of its data", h.Current)
	if !positive(h.Drop) && !positive(h.Power) {
		c.fail("drop or power of its data", "must be a range above zero")
	}
	if r := h.Terminal; !positive(r) {
		c.fail("caps' temperature in the rig", "must be a range above zero, not %g … %g … %g", r.Low, r.Likely, r.High)
	}
}

// FuseFigures gives the cold resistance of a fuse: the one stated, or what
// follows from its hot figure in its rig,
//
//	T_e = T_t + U_e I/G,  R_e20 = U_e/I / (1 + α (T_e − 293.15 K))  (10)
//
// where U_e is the drop less that of the caps' metal, T_t the caps'
// temperature and G what leads from the element to both caps, straight and by
// way of the body. What the body loses to the air is left out. The range
// follows from those of drop, caps' temperature and conductance (see combine).
func (p *Fuse) FuseFigures() (FuseFigures, error) {
	if err := p.check(); err != nil {
		return FuseFigures{}, err
	}
	if p.Cold.Likely > 0 {
		return FuseFigures{Cold: p.Cold}, nil
	}
	drop := p.Hot.Drop
	if !positive(drop) {
		drop = scale(p.Hot.Power, 1/p.Hot.Current)
	}
	in := []materials.Range{drop, p.Hot.Terminal, p.ToCap}
	figures := FuseFigures{
		Cold:        combine(in, func(x []float64) float64 { ohm, _ := p.inRig(x[0], x[1], x[2]); return ohm }),
		ElementRise: combine(in, func(x []float64) float64 { _, rise := p.inRig(x[0], x[1], x[2]); return rise }),
	}
	if !positive(figures.Cold) || !positive(figures.ElementRise) {
		return FuseFigures{}, &StackError{Where: p.Label, Field: "data", Reason: fmt.Sprintf(
			"%.3g V at %.4g A, leave nothing for the element beside its caps", drop.Likely, p.Hot.Current)}
	}
	return figures, nil
}

// inRig gives the cold resistance, Ω, and the element's rise above the caps, K.
func (p *Fuse) inRig(drop, terminal, toCap float64) (ohm, rise float64) {
	caps := p.capsOhm()
	element := drop/p.Hot.Current - caps*(1+p.Metal.Alpha20*(terminal-materials.ReferenceTemp))
	ways := 2 * toCap
	if p.ToBody > 0 {
		ways += 1 / (1/p.ToBody + 1/(2*p.Body.To.Likely))
	}
	rise = element * p.Hot.Current * p.Hot.Current / ways
	return element/(1+p.ElementAlpha*(terminal+rise-materials.ReferenceTemp)) + caps, rise
}
