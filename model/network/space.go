package network

// This file holds what surrounds the nodes besides the room at rest, as it is
// put together: enclosed air, vents to the room, heat of other things, and the
// room's air over time.

// The handles of spaces, vents and sources. Spaces count from 1, so that a
// surface that names none faces the room; the others count from 0.
type (
	SpaceID  int
	VentID   int
	SourceID int
)

type space struct {
	name      string
	air, wall NodeID
}

// Vent is an opening by which a node, the air of a space, gives heat to the
// room's air, eq. (22). Flow is that of a fan, W/K, its heat capacity flow.
// Buoyant is for air that moves by its own warmth, W/K: the flow that it would
// have if the difference of temperature were as large as the temperature.
type Vent struct {
	Name    string
	Node    NodeID
	Flow    float64
	Buoyant float64
}

type source struct {
	name  string
	node  NodeID
	watts float64
}

// AddSpace adds enclosed air of one temperature: surfaces in it give heat to the
// node air by convection and to the node wall by radiation.
func (n *Network) AddSpace(name string, air, wall NodeID) SpaceID {
	n.spaces = append(n.spaces, space{name, air, wall})
	return SpaceID(len(n.spaces))
}

// AddVent adds an opening to the room.
func (n *Network) AddVent(v Vent) VentID {
	n.vents = append(n.vents, v)
	return VentID(len(n.vents) - 1)
}

// AddSource adds heat, W, that something else makes in a node whatever the load
// is. It counts as made.
func (n *Network) AddSource(name string, node NodeID, watts float64) SourceID {
	n.sources = append(n.sources, source{name, node, watts})
	return SourceID(len(n.sources) - 1)
}

// SetAir gives the temperature of the room's air over time, K, in the place of
// Surroundings.Air; nil is that again. It must stay above 0 K. What the surfaces
// see follows it where no radiant temperature was given. It may be called
// again after Finish.
func (n *Network) SetAir(course Supply) { n.course = course }

// Air is the temperature of the room's air at time t, K.
func (n *Network) Air(t float64) float64 { return n.ambient(t).air }

// ambient is the room at one time.
type ambient struct {
	air, radiant float64 // K
	// How fast they move, K/s.
	airRate, radiantRate float64
}

func (n *Network) ambient(t float64) ambient {
	a := ambient{air: n.room.Air, radiant: n.room.Radiant}
	if n.course != nil {
		a.air = n.course.Current(t)
		if n.follows {
			a.radiant = a.air
		}
	}
	return a
}

// moving is ambient with its rates.
func (n *Network) moving(t float64) ambient {
	a := n.ambient(t)
	if n.course != nil {
		a.airRate = n.course.Slope(t)
		if n.follows {
			a.radiantRate = a.airRate
		}
	}
	return a
}
