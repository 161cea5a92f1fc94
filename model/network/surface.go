package network

import "clampheat/materials"

// This file holds surfaces and gaps as their maker states them.

// Surface is where a node loses heat to the room: by convection to its air,
// by radiation to what the surface sees. In a space it loses heat to that space's
// air and wall instead; one of the wall itself, to the air alone.
type Surface struct {
	Name       string
	Area       float64 // m², that is exposed
	Emissivity float64 // 0…1; in a space, of surface and wall together
	Shape      Shape   // nil = no convection
	Radiant    float64 // K, of what it sees; 0 = that of the room
	In         SpaceID // 0 = the room
}

// Gap is an enclosed layer of air between two upright faces, by eq. (18), with
// radiation across it.
type Gap struct {
	Area       float64 // m²
	Distance   float64 // m, between the faces
	Height     float64 // m, of the layer
	Emissivity float64 // effective, of both faces together: 1/(1/ε₁ + 1/ε₂ − 1) for wide faces
	// Rising, where it is not zero, is all that crosses the gap, as a standard
	// states it. Of the other figures only the area counts, to read it by.
	Rising Rising
}

// Rising is a conductance that grows evenly with the mean temperature of both
// sides, as far as the figures of air reach.
type Rising struct {
	At0    float64 // W/K at 0 °C
	Growth float64 // W/K²
}

// at is the conductance at a mean temperature, K.
func (r Rising) at(mean float64) float64 { return r.At0 + r.Growth*(mean-materials.ZeroCelsius) }

func (s *Surface) check() string {
	switch {
	case !notNegative(s.Area):
		return "has an area that is negative or not a number"
	case !notNegative(s.Emissivity) || s.Emissivity > 1:
		return "has an emissivity outside 0…1"
	case !notNegative(s.Radiant):
		return "sees a temperature that is negative or not a number"
	case s.In != 0 && s.Radiant != 0:
		return "lies in a space and sees its wall: no other temperature can be given"
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
	case g.Rising != Rising{}:
		if !notNegative(g.Rising.at(filmFrom)) || !notNegative(g.Rising.Growth) {
			return "has a conductance that is negative where air is coldest, or not a number"
		}
		return ""
	}
	return lengths(g.Distance, g.Height)
}
