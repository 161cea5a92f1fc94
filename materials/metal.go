package materials

// This file holds the metals that parts and conductors are made of.

// Metal holds the figures of one metal at 20 °C.
type Metal struct {
	Name          string
	Aliases       []string
	Resistivity20 float64 // Ω·m at 293.15 K
	Alpha20       float64 // 1/K, of the resistivity, referred to 293.15 K
	Conductivity  float64 // W/(m·K), of heat
	Density       float64 // kg/m³
	SpecificHeat  float64 // J/(kg·K)
	Hardness      Range   // contact hardness, Pa
	Solidus       float64 // K, where melting begins
	ValidTo       float64 // K, up to which the linear resistance and the constant figures are claimed
	Provenance
}

// Resistivity returns the electrical resistivity [Ω·m] at temp [K] by the
// linear law ρ20·(1 + α20·(temp − 293.15)), claimed up to ValidTo. It never
// falls below zero, so that a temperature far below any use gives no
// negative resistance.
//
// Source: IEC 60028:1925 for the law.
func (m Metal) Resistivity(temp float64) float64 {
	return max(0, m.Resistivity20*(1+m.Alpha20*(temp-ReferenceTemp)))
}

var metals = newCatalogue("metal", "metals.csv",
	func(m *Metal) labels { return labels{m.Name, &m.Aliases, &m.Also} },
	func(r *row) Metal {
		return Metal{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Resistivity20: r.number("resistivity at 20 °C"),
			Alpha20:       r.number("temperature coefficient at 20 °C"),
			Conductivity:  r.number("conductivity"),
			Density:       r.number("density"),
			SpecificHeat:  r.number("specific heat"),
			Hardness:      r.spread("hardness"),
			Solidus:       r.number("solidus"),
			ValidTo:       r.number("valid to"),
			Provenance:    r.provenance(),
		}
	})

// LookupMetal returns the metal of a name or alias, else an *UnknownError.
func LookupMetal(name string) (Metal, error) { return metals.find(name) }

// Metals lists all metals in the order of their table.
func Metals() []Metal { return metals.all() }
