package materials

// This file holds what a contact face shows to its partner: the outermost
// metal, and the state that its surface is in.

// Plating is the outermost metal of a contact face.
type Plating struct {
	Name      string
	Aliases   []string
	Hardness  Range   // contact hardness, Pa
	Thickness Range   // m; zero for a bare face
	Softening float64 // V over the constriction at which the spots soften
	Melting   float64 // V over the constriction at which the spots melt
	RiseLimit float64 // K, rise allowed at a terminal so faced, IEC 60947-1 table 2
	Provenance
}

var platings = newCatalogue("plating", "platings.csv",
	func(p *Plating) labels { return labels{p.Name, &p.Aliases, &p.Also} },
	func(r *row) Plating {
		return Plating{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Hardness:   r.spread("hardness"),
			Thickness:  r.spread("thickness"),
			Softening:  r.number("softening"),
			Melting:    r.number("melting"),
			RiseLimit:  r.number("rise limit"),
			Provenance: r.provenance(),
		}
	})

// LookupPlating returns the plating of a name or alias, else an *UnknownError.
func LookupPlating(name string) (Plating, error) { return platings.find(name) }

// Platings lists all platings in the order of their table.
func Platings() []Plating { return platings.all() }

// FaceState is the state of a contact surface.
type FaceState struct {
	Name    string
	Aliases []string
	Film    Range // areal resistance σ of the film over the spots, Ω·m²
	Gap     Range // mean gap between the faces inside the clamped area, m
	Provenance
}

var faceStates = newCatalogue("face state", "facestates.csv",
	func(f *FaceState) labels { return labels{f.Name, &f.Aliases, &f.Also} },
	func(r *row) FaceState {
		return FaceState{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Film:       r.spread("film"),
			Gap:        r.spread("gap"),
			Provenance: r.provenance(),
		}
	})

// LookupFaceState returns the face state of a name or alias, else an *UnknownError.
func LookupFaceState(name string) (FaceState, error) { return faceStates.find(name) }

// FaceStates lists all face states, from the best to the worst.
func FaceStates() []FaceState { return faceStates.all() }
