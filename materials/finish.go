package materials

// This file holds how well surfaces radiate.

// Finish is the look of a surface.
type Finish struct {
	Name       string
	Aliases    []string
	Emissivity Range // total, hemispherical or normal as the source gives it; 0 to 1
	Provenance
}

var finishes = newCatalogue("finish", "finishes.csv",
	func(f *Finish) labels { return labels{f.Name, &f.Aliases, &f.Also} },
	func(r *row) Finish {
		return Finish{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Emissivity: r.spread("emissivity"),
			Provenance: r.provenance(),
		}
	})

// LookupFinish returns the finish of a name or alias, else an *UnknownError.
func LookupFinish(name string) (Finish, error) { return finishes.find(name) }

// Finishes lists all finishes in the order of their table.
func Finishes() []Finish { return finishes.all() }
