package materials

// This file holds what lies between a torque and a clamp force: the strength
// of the fastener, the friction, and the hand that tightens.

import "math"

// PropertyClass is a fastener's strength.
type PropertyClass struct {
	Name    string
	Aliases []string
	Rp02    float64 // Pa, yield figure, least value of the standard
	Proof   float64 // Pa, stress that leaves no lasting stretch, as the standard tests it
	Provenance
}

var propertyClasses = newCatalogue("property class", "propertyclasses.csv",
	func(c PropertyClass) []string { return named(c.Name, c.Aliases) },
	func(r *row) PropertyClass {
		c := PropertyClass{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Rp02:       r.number("yield"),
			Provenance: r.provenance(),
		}
		// Standards without a proof test for the bolt itself state the yield alone.
		c.Proof = c.Rp02
		if r.has("proof") {
			c.Proof = r.number("proof")
		}
		return c
	})

// LookupPropertyClass returns the class of a name or alias, else an *UnknownError.
func LookupPropertyClass(name string) (PropertyClass, error) { return propertyClasses.find(name) }

// PropertyClasses lists all strengths in the order of their table.
func PropertyClasses() []PropertyClass { return propertyClasses.all() }

// ThreadCondition is the friction of thread and bearing face together.
type ThreadCondition struct {
	Name      string
	Aliases   []string
	NutFactor Range // K of torque = K·d·F
	// Friction is the coefficient, the same in thread and under the head,
	// that goes with the nut factor by the long form of VDI 2230 on M10.
	Friction Range
	Provenance
}

var threadConditions = newCatalogue("thread condition", "threadconditions.csv",
	func(c ThreadCondition) []string { return named(c.Name, c.Aliases) },
	func(r *row) ThreadCondition {
		c := ThreadCondition{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			NutFactor:  r.spread("nut factor"),
			Provenance: r.provenance(),
		}
		m10, err := LookupFastener("M10")
		if err != nil {
			r.fail("nut factor", err)
			return c
		}
		c.Friction = Range{
			Low:    frictionOf(c.NutFactor.Low, m10),
			Likely: frictionOf(c.NutFactor.Likely, m10),
			High:   frictionOf(c.NutFactor.High, m10),
		}
		return c
	})

// frictionOf solves K·d = P/(2π) + μ·(d2/(2·cos 30°) + (dw + dh)/4) for μ.
//
// Source: VDI 2230-1:2015, eq. (R13/1), thread and head alike.
func frictionOf(nutFactor float64, f Fastener) float64 {
	wedge := f.PitchDiameter / (2 * math.Cos(math.Pi/6))
	rub := (f.HeadDiameter + f.HoleDiameter) / 4
	return (nutFactor*f.Diameter - f.Pitch/(2*math.Pi)) / (wedge + rub)
}

// LookupThreadCondition returns the condition of a name or alias, else an *UnknownError.
func LookupThreadCondition(name string) (ThreadCondition, error) { return threadConditions.find(name) }

// ThreadConditions lists all thread conditions in the order of their table.
func ThreadConditions() []ThreadCondition { return threadConditions.all() }

// Tightening is a way to tighten.
type Tightening struct {
	Name        string
	Aliases     []string
	ClampFactor Range // clamp force reached over the one aimed at
	Provenance
}

var tightenings = newCatalogue("way of tightening", "tightenings.csv",
	func(t Tightening) []string { return named(t.Name, t.Aliases) },
	func(r *row) Tightening {
		return Tightening{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			ClampFactor: r.spread("clamp factor"),
			Provenance:  r.provenance(),
		}
	})

// LookupTightening returns the way of tightening of a name or alias, else an *UnknownError.
func LookupTightening(name string) (Tightening, error) { return tightenings.find(name) }

// Tightenings lists all ways of tightening in the order of their table.
func Tightenings() []Tightening { return tightenings.all() }
