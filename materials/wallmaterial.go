package materials

// This file holds what boxes and conduits are made of.

// WallMaterial is what the wall of a box or a conduit is made of.
type WallMaterial struct {
	Name           string
	Aliases        []string
	Conductivity   Range   // W/(m·K)
	Density        float64 // kg/m³
	SpecificHeat   float64 // J/(kg·K)
	UsualThickness Range   // m, of boxes
	Finish         string  // usual one, a name for LookupFinish
	Provenance
}

var wallMaterials = newCatalogue("wall", "wallmaterials.csv",
	func(m *WallMaterial) labels { return labels{m.Name, &m.Aliases, &m.Also} },
	func(r *row) WallMaterial {
		return WallMaterial{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Conductivity:   r.spread("conductivity"),
			Density:        r.number("density"),
			SpecificHeat:   r.number("specific heat"),
			UsualThickness: r.spread("usual thickness"),
			Finish:         r.text("finish"),
			Provenance:     r.provenance(),
		}
	})

// LookupWallMaterial returns the wall material of a name or alias, else an
// *UnknownError.
func LookupWallMaterial(name string) (WallMaterial, error) { return wallMaterials.find(name) }

// WallMaterials lists all wall materials in the order of their table.
func WallMaterials() []WallMaterial { return wallMaterials.all() }
