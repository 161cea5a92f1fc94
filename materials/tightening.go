package materials

// This file holds what lies between a torque and a clamp force: the strength
// of the fastener, the friction, and the hand that tightens.

// PropertyClass is a fastener's strength.
type PropertyClass struct {
	Name    string
	Aliases []string
	Rp02    float64 // Pa, yield figure, least value of the standard
	Provenance
}

var propertyClasses = newCatalogue("property class", "propertyclasses.csv",
	func(c *PropertyClass) labels { return labels{c.Name, &c.Aliases, &c.Also} },
	func(r *row) PropertyClass {
		return PropertyClass{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Rp02:       r.number("yield"),
			Provenance: r.provenance(),
		}
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
	Provenance
}

var threadConditions = newCatalogue("thread condition", "threadconditions.csv",
	func(c *ThreadCondition) labels { return labels{c.Name, &c.Aliases, &c.Also} },
	func(r *row) ThreadCondition {
		return ThreadCondition{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			NutFactor:  r.spread("nut factor"),
			Provenance: r.provenance(),
		}
	})

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
	func(t *Tightening) labels { return labels{t.Name, &t.Aliases, &t.Also} },
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
