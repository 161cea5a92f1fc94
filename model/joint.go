package model

import (
	"fmt"

	"clampheat/materials"
)

// JointKind says how two ports are connected.
type JointKind int

const (
	Bolted  JointKind = iota // pressed by a bolt
	Crimped                  // a crimped or soldered sleeve
	Fixed                    // ohms and W/K are given
)

// A Joint connects two ports, electrically and thermally.
type Joint struct {
	Name string
	A, B Port
	Kind JointKind
	Bolt int  // index in Stack.Bolts, for Bolted
	Face Face // for Bolted
	// Resistance [Ω at 20 °C] and Conductance [W/K] are those of a Crimped or
	// Fixed joint. A conductance of zero on a crimped joint means that it
	// follows from the resistance by Wiedemann–Franz.
	Resistance, Conductance materials.Range
	// Measured, where not nil, replaces the predicted ohms as source of heat.
	Measured *Measured
	// WorseBy multiplies the predicted ohms and divides the conductance of the
	// contact, for what-if cases; 0 means 1.
	WorseBy float64
}

// Measured is a resistance taken on the real joint.
type Measured struct {
	Resistance  float64 // Ω, at the temperature of the test, taken as at 20 °C
	Conductance float64 // W/K; 0 = predicted
}

// JointFigures is what follows for a joint from its clamp and faces.
type JointFigures struct {
	Clamp        materials.Range // N
	Clamped      float64         // m², apparent area under clamp, likely
	Contact      float64         // m², true contact area, likely
	Constriction float64         // Ω at 20 °C, likely
	Film         float64         // Ω, likely
	Bulk         float64         // Ω at 20 °C, crowding through the overlap
	Resistance   materials.Range // Ω at 20 °C, all of it
	Conductance  materials.Range // W/K; Low belongs to the highest resistance
	Softening    float64         // V, of the softer face
	Predicted    bool            // false where a measured value replaces the ohms
	Warnings     []Warning
}

// JointFigures works out the resistance and the thermal conductance of the
// joint with index i.
//
// The range of a bolted joint's figures follows from the ranges of clamp,
// hardness, film, gap and cone by JCGM 100:2008 §5.1.2 (see combine). The error
// is a *StackError or, for the bolt, a *YieldError.
func (s *Stack) JointFigures(i int) (JointFigures, error) {
	if i < 0 || i >= len(s.Joints) {
		return JointFigures{}, &StackError{Reason: fmt.Sprintf("it has no joint %d", i)}
	}
	j := &s.Joints[i]
	if err := j.check(); err != nil {
		return JointFigures{}, err
	}
	var figures JointFigures
	var err error
	switch j.Kind {
	case Bolted:
		figures, err = s.boltedFigures(j)
	case Crimped, Fixed:
		figures = JointFigures{Resistance: j.Resistance, Conductance: j.Conductance, Predicted: true}
		if j.Kind == Crimped && j.Conductance.Likely == 0 {
			figures.Conductance = materials.Range{
				Low:    MetallicConductance(j.Resistance.High),
				Likely: MetallicConductance(j.Resistance.Likely),
				High:   MetallicConductance(j.Resistance.Low),
			}
		}
		figures.Conductance = scale(figures.Conductance, 1/j.worseBy())
	default:
		err = &StackError{Where: j.Name, Reason: fmt.Sprintf("there is no kind of joint %d", j.Kind)}
	}
	if err != nil {
		return JointFigures{}, err
	}
	figures.Resistance = scale(figures.Resistance, j.worseBy())
	figures.Constriction *= j.worseBy()
	figures.Film *= j.worseBy()
	if m := j.Measured; m != nil {
		figures.Predicted = false
		figures.Resistance = materials.Exactly(m.Resistance * j.worseBy())
		if m.Conductance > 0 {
			figures.Conductance = materials.Exactly(m.Conductance / j.worseBy())
		}
	}
	if !positive(figures.Resistance) || !positive(figures.Conductance) {
		return JointFigures{}, &StackError{Where: j.Name, Reason: "its figures are out of all proportion"}
	}
	return figures, nil
}

func (s *Stack) boltedFigures(j *Joint) (JointFigures, error) {
	if j.Bolt < 0 || j.Bolt >= len(s.Bolts) {
		return JointFigures{}, &StackError{Where: j.Name, Field: "bolt", Reason: fmt.Sprintf("is none of the stack's: %d", j.Bolt)}
	}
	b := &s.Bolts[j.Bolt]
	bolt, err := s.BoltFigures(j.Bolt)
	if err != nil {
		return JointFigures{}, err
	}
	f := &j.Face
	bulk, bulkThermal, err := f.overlap()
	if err != nil {
		return JointFigures{}, fmt.Errorf("%s: the overlap's resistance is unknown: %w", j.Name, err)
	}
	air, err := materials.DryAir(materials.ReferenceTemp, materials.StandardPressure)
	if err != nil {
		return JointFigures{}, fmt.Errorf("%s: %w", j.Name, err)
	}
	in := f.ranges(bolt.Clamp)
	likely := make([]float64, len(in))
	for k, r := range in {
		likely[k] = r.Likely
	}
	c := f.contactAt(b, air.Conductivity, likely)
	if !finite(c.clamped) || c.clamped <= 0 {
		return JointFigures{}, &StackError{Where: j.Name, Reason: "nothing of its faces lies under the nut or washer"}
	}
	return JointFigures{
		Clamp: bolt.Clamp, Clamped: c.clamped, Contact: c.touching,
		Constriction: c.constriction, Film: c.film, Bulk: bulk,
		Resistance: combine(in, func(x []float64) float64 {
			c := f.contactAt(b, air.Conductivity, x)
			return c.constriction + c.film + bulk/j.worseBy() // WorseBy is for the contact
		}),
		Conductance: combine(in, func(x []float64) float64 {
			c := f.contactAt(b, air.Conductivity, x)
			return 1 / (1/(c.spots/j.worseBy()+c.gap) + bulkThermal)
		}),
		Softening: f.Platings[f.softer()].Softening,
		Predicted: true,
		Warnings:  f.thickPlating(j.Name, c.touching),
	}, nil
}

func (j *Joint) worseBy() float64 {
	if j.WorseBy == 0 {
		return 1
	}
	return j.WorseBy
}

func (j *Joint) check() error {
	c := checks{where: j.Name}
	c.positive("factor of the what-if case", j.worseBy())
	if j.Kind == Bolted {
		j.Face.check(&c)
	} else {
		if !positive(j.Resistance) {
			r := j.Resistance
			c.fail("resistance", "must be a range above zero, not %g … %g … %g", r.Low, r.Likely, r.High)
		}
		if g := j.Conductance; !positive(g) && !(j.Kind == Crimped && g == materials.Range{}) {
			c.fail("conductance", "must be a range above zero, not %g … %g … %g", g.Low, g.Likely, g.High)
		}
	}
	if j.Measured != nil {
		c.positive("measured resistance", j.Measured.Resistance)
		c.notNegative("measured conductance", j.Measured.Conductance)
	}
	return c.err
}

func scale(r materials.Range, by float64) materials.Range {
	return materials.Range{Low: r.Low * by, Likely: r.Likely * by, High: r.High * by}
}
