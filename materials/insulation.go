package materials

// This file holds what cables are covered with, by temperature rating.

import "math"

// Insulation is a jacket material as the trade names it, by its temperature rating.
type Insulation struct {
	Name         string
	Aliases      []string
	Conductivity Range   // W/(m·K)
	HeatCapacity float64 // J/(m³·K), by volume
	MaxTemp      float64 // K, of the conductor in lasting use
	Emissivity   Range   // of the jacket's outside
	// AdiabaticK is the factor k of I²t = (k·S)² for copper [A·√s/m²], from
	// MaxTemp to the material's short-circuit temperature; 0 where no source
	// gives the latter.
	AdiabaticK float64
	Provenance
}

var insulations = newCatalogue("insulation", "insulations.csv",
	func(i *Insulation) labels { return labels{i.Name, &i.Aliases, &i.Also} },
	func(r *row) Insulation {
		i := Insulation{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Conductivity: r.spread("conductivity"),
			HeatCapacity: r.number("heat capacity"),
			MaxTemp:      r.number("rating"),
			Emissivity:   r.spread("emissivity"),
			Provenance:   r.provenance(),
		}
		if r.has("short circuit") {
			i.AdiabaticK = copperAdiabaticK(i.MaxTemp, r.number("short circuit"))
		}
		return i
	})

// LookupInsulation returns the insulation of a name or alias, else an *UnknownError.
func LookupInsulation(name string) (Insulation, error) { return insulations.find(name) }

// Insulations lists all insulations in the order of their table.
func Insulations() []Insulation { return insulations.all() }

// copperAdiabaticK returns k [A·√s/m²] of copper heated from one temperature
// [K] to another without loss: k = K·√ln((β+θ₂)/(β+θ₁)), θ in °C.
//
// Source: IEC 60364-5-54:2011, annex A, K = 226 A·√s/mm², β = 234.5 °C.
func copperAdiabaticK(from, to float64) float64 {
	const (
		k    = 226e6 // A·√s/m²
		beta = 234.5 // °C
	)
	return k * math.Sqrt(math.Log((beta+to-ZeroCelsius)/(beta+from-ZeroCelsius)))
}
