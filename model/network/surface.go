package network

// This file holds surfaces and gaps as their maker states them.

// Surface is where a node loses heat to the room: by convection to its air,
// by radiation to what the surface sees.
type Surface struct {
	Name       string
	Area       float64 // m², that is exposed
	Emissivity float64 // 0…1
	Shape      Shape   // nil = no convection
	Radiant    float64 // K, of what it sees; 0 = that of the room
}

// Gap is an enclosed layer of air between two upright faces, by eq. (18), with
// radiation across it.
type Gap struct {
	Area       float64 // m²
	Distance   float64 // m, between the faces
	Height     float64 // m, of the layer
	Emissivity float64 // effective, of both faces together: 1/(1/ε₁ + 1/ε₂ − 1) for wide faces
}

func (s *Surface) check() string {
	switch {
	case !notNegative(s.Area):
		return "has an area that is negative or not a number"
	case !notNegative(s.Emissivity) || s.Emissivity > 1:
		return "has an emissivity outside 0…1"
	case !notNegative(s.Radiant):
		return "sees a temperature that is negative or not a number"
	case s.Shape == nil:
		return ""
	}
	return checkShape(s.Shape)
}

// loses says whether heat can leave through the surface.
func (s *Surface) loses() bool {
	return s.Area > 0 && (s.Shape != nil || s.Emissivity > 0)
}

func (g *Gap) check() string {
	switch {
	case !notNegative(g.Area):
		return "has an area that is negative or not a number"
	case !notNegative(g.Emissivity) || g.Emissivity > 1:
		return "has an emissivity outside 0…1"
	}
	return lengths(g.Distance, g.Height)
}
