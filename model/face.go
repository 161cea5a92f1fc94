package model

import (
	"fmt"
	"math"

	"clampheat/materials"
)

// A Face is a pair of contact faces.
type Face struct {
	Metals   [2]materials.Metal   // base metal of either side
	Platings [2]materials.Plating // outermost metal of either side
	State    materials.FaceState
	Area     float64    // m², the smaller face less its hole: the clamped area cannot be more
	Depth    [2]float64 // m, thickness of either part, through which the clamp spreads
	// Where two bars lie one on the other the current gathers. Length along the
	// current, width across, m; zero where no bulk resistance is to be added,
	// because the lengths of the parts already count it.
	OverlapLength, OverlapWidth float64
}

func (f *Face) check(c *checks) {
	c.positive("contact face", f.Area)
	c.notNegative("overlap's length", f.OverlapLength)
	c.notNegative("overlap's width", f.OverlapWidth)
	for side := range 2 {
		checkMetal(c, "contact metal", f.Metals[side])
		c.notNegative("depth under the clamp", f.Depth[side])
		c.notNegative("plating's softening voltage", f.Platings[side].Softening)
		if h := f.Platings[side].Hardness; !positive(h) {
			c.fail("plating's hardness", "must be a range above zero, not %g … %g … %g", h.Low, h.Likely, h.High)
		}
	}
	if r := f.State.Film; !notNegative(r) {
		c.fail("film", "must be a range from zero up, not %g … %g … %g", r.Low, r.Likely, r.High)
	}
	if r := f.State.Gap; !positive(r) {
		c.fail("gap between the faces", "must be a range above zero, not %g … %g … %g", r.Low, r.Likely, r.High)
	}
	if f.OverlapLength > 0 {
		c.positive("overlap's width", f.OverlapWidth)
		c.positive("depth under the clamp", min(f.Depth[0], f.Depth[1]))
	}
}

// softer is the side whose face has the lower contact hardness.
func (f *Face) softer() int {
	if f.Platings[1].Hardness.Likely < f.Platings[0].Hardness.Likely {
		return 1
	}
	return 0
}

// contact is what follows from one set of the inputs of a pair of faces.
type contact struct {
	clamped, touching, constriction, film float64 // m², m², Ω, Ω
	spots, gap                            float64 // W/K, through metal and through air
}

// The inputs of a pair of faces, in the order in which contactAt takes them.
const (
	inClamp = iota
	inHardness
	inFilm
	inGap
	inCone
	inOuterGap
	inputs
)

// ranges lists the inputs with their spread.
func (f *Face) ranges(clamp materials.Range) []materials.Range {
	r := make([]materials.Range, inputs)
	r[inClamp] = clamp
	r[inHardness] = f.Platings[f.softer()].Hardness
	r[inFilm] = f.State.Film
	r[inGap] = f.State.Gap
	r[inCone] = coneTangent
	r[inOuterGap] = outerGap
	return r
}

// contactAt works out a pair of faces, under a bolt, for one set of inputs, by
// eqs. (4) to (6) and (8) of the package comment.
func (f *Face) contactAt(b *Bolt, airConductivity float64, x []float64) contact {
	var c contact
	ring := ClampedArea(b.bearing(), b.Fastener.HoleDiameter, min(f.Depth[0], f.Depth[1]), x[inCone])
	c.clamped = min(ring, f.Area)
	c.touching = PlasticArea(x[inClamp], x[inHardness], c.clamped)
	// A plating is thin against the spot, so that the current crowds in the
	// base metals: see thickPlating.
	m := f.Metals
	shape := Crowding(c.touching, c.clamped)
	force := c.touching * hardnessFactor * x[inHardness]
	c.constriction = HolmConstriction(force, x[inHardness], m[0].Resistivity20, m[1].Resistivity20) * shape
	c.film = x[inFilm] / c.touching
	// The same spots carry the heat, with 1/k in place of ρ.
	c.spots = 1 / (HolmConstriction(force, x[inHardness], 1/m[0].Conductivity, 1/m[1].Conductivity) * shape)
	c.gap = airConductivity * ((c.clamped-c.touching)/x[inGap] + (f.Area-c.clamped)/x[inOuterGap])
	return c
}

// overlap is the resistance, Ω at 20 °C, and the thermal resistance, K/W, of
// the crowding through an overlap of two bars: half of either bar's own over
// the length, times the streamline factor at the mean thickness, eq. (7) of the
// package comment.
func (f *Face) overlap() (ohm, thermal float64, err error) {
	if f.OverlapLength == 0 {
		return 0, 0, nil
	}
	e, err := materials.StreamlineFactor(f.OverlapLength / ((f.Depth[0] + f.Depth[1]) / 2))
	if err != nil {
		return 0, 0, err
	}
	for side := range 2 {
		squares := f.OverlapLength / (f.OverlapWidth * f.Depth[side]) / 2
		ohm += e * squares * f.Metals[side].Resistivity20
		thermal += e * squares / f.Metals[side].Conductivity
	}
	return ohm, thermal, nil
}

// thickPlating warns where a plating is thicker than the radius of one round
// spot of the whole contact area: there the current crowds in the plating and
// not in the metal below, whose resistivity the constriction is made with.
func (f *Face) thickPlating(where string, touching float64) []Warning {
	radius := math.Sqrt(touching / math.Pi)
	var w []Warning
	for side := range 2 {
		if t := f.Platings[side].Thickness.Likely; t > radius {
			w = append(w, Warning{where, fmt.Sprintf(
				"its %s plating, %.2g µm, is thick against the contact spot, %.2g µm: the plating's own resistivity would count",
				f.Platings[side].Name, t*1e6, radius*1e6)})
		}
	}
	return w
}

func checkMetal(c *checks, field string, m materials.Metal) {
	c.positive(field+"'s resistivity", m.Resistivity20)
	c.positive(field+"'s conductivity", m.Conductivity)
	if !finite(m.Alpha20) {
		c.fail(field+"'s temperature coefficient", "must be finite")
	}
}
