package network

// This file holds a network as it is put together.

import (
	"math"

	"clampheat/materials"
)

// The handles by which the things of a network are named after they were
// added. They count from 0 in the order of adding.
type (
	NodeID     int
	LinkID     int
	HoldID     int
	ResistorID int
	SurfaceID  int
	GapID      int
)

// Node is a lump of one temperature.
type Node struct {
	Name     string
	Capacity float64 // J/K; 0 = a lump without mass
	ValidTo  float64 // K, up to which its figures hold; 0 = no bound
}

// Surroundings are the room.
type Surroundings struct {
	Air      float64 // K
	Radiant  float64 // K, of what the surfaces see; 0 = that of the air
	Pressure float64 // Pa; 0 = the standard atmosphere
}

type link struct {
	name        string
	a, b        NodeID
	conductance float64
}

type hold struct {
	name              string
	node              NodeID
	conductance, temp float64
}

type surface struct {
	Surface
	node NodeID
}

type gap struct {
	Gap
	name string
	a, b NodeID
}

// Network is a heat network: first it is put together with the Add methods,
// then Finish checks it and arranges it for solving. After Finish nothing can
// be added, but the supply, the load and the values of resistors can change.
//
// Before Finish a network can be neither solved nor read: the solver answers
// with the error of Ready. Handles must be its
// own.
//
// A Network is used by one goroutine at a time; Clone makes one for another.
type Network struct {
	room      Surroundings
	supply    Supply
	ripple    float64
	load      float64
	resistors []Resistor

	parts  // as put together; shared by clones, not written after Finish
	layout // as arranged for solving; shared by clones, see there

	resistance // arrays that SetResistor writes: a copy in each clone
}

type parts struct {
	nodes    []Node
	links    []link
	holds    []hold
	surfaces []surface
	gaps     []gap
	finished bool
}

// New makes an empty network in a room. Without a supply no current flows.
func New(s Surroundings) *Network {
	if s.Radiant == 0 {
		s.Radiant = s.Air
	}
	if s.Pressure == 0 {
		s.Pressure = materials.StandardPressure
	}
	return &Network{room: s, load: 1}
}

// AddNode adds a lump.
func (n *Network) AddNode(d Node) NodeID {
	n.nodes = append(n.nodes, d)
	return NodeID(len(n.nodes) - 1)
}

// AddLink adds conduction, W/K, between two nodes. Several between the same
// two add up and are still read one by one.
func (n *Network) AddLink(name string, a, b NodeID, conductance float64) LinkID {
	n.links = append(n.links, link{name, a, b, conductance})
	return LinkID(len(n.links) - 1)
}

// AddHold adds conduction, W/K, from a node to a body that is held at a
// temperature, K, whatever flows into it.
func (n *Network) AddHold(name string, a NodeID, conductance, temp float64) HoldID {
	n.holds = append(n.holds, hold{name, a, conductance, temp})
	return HoldID(len(n.holds) - 1)
}

// AddResistor adds a source of heat that carries the supply's current.
func (n *Network) AddResistor(r Resistor) ResistorID {
	n.resistors = append(n.resistors, r)
	return ResistorID(len(n.resistors) - 1)
}

// AddSurface adds a surface by which a node loses heat to the room.
func (n *Network) AddSurface(a NodeID, s Surface) SurfaceID {
	n.surfaces = append(n.surfaces, surface{s, a})
	return SurfaceID(len(n.surfaces) - 1)
}

// AddGap adds an enclosed layer of air between two nodes.
func (n *Network) AddGap(name string, a, b NodeID, g Gap) GapID {
	n.gaps = append(n.gaps, gap{g, name, a, b})
	return GapID(len(n.gaps) - 1)
}

// Clone makes a network for another goroutine: it shares what does not change
// and has supply, load and resistances of its own.
func (n *Network) Clone() *Network {
	c := *n
	c.resistors = append([]Resistor(nil), n.resistors...)
	c.resistance = n.resistance.clone()
	return &c
}

// Nodes is the number of nodes.
func (n *Network) Nodes() int { return len(n.nodes) }

// NodeName is the name of a node as it was given.
func (n *Network) NodeName(id NodeID) string { return n.nodes[id].Name }

// Room is the room with its defaults filled in.
func (n *Network) Room() Surroundings { return n.room }

// Ready is nil once Finish has found no fault, else a *SetupError. The solver
// asks it before anything else.
func (n *Network) Ready() error {
	if !n.finished {
		return &SetupError{Item: "network", Reason: "was not finished: Finish comes before solving"}
	}
	return nil
}

// Structure says which nodes act on one another. It fits the solver's system.
func (n *Network) Structure() Structure {
	return Structure{Nodes: len(n.nodes), Links: n.pairs}
}

// Capacities stores the heat capacity of each node, J/K.
func (n *Network) Capacities(dst []float64) {
	for i, d := range n.nodes {
		dst[i] = d.Capacity
	}
}

// Ceilings gives for each node the temperature, K, up to which its figures
// hold, +Inf where there is none.
func (n *Network) Ceilings() []float64 {
	c := make([]float64, len(n.nodes))
	for i, d := range n.nodes {
		c[i] = d.ValidTo
		if c[i] == 0 {
			c[i] = math.Inf(1)
		}
	}
	return c
}

// Structure, Jacobian and Flow are the shapes in which the solver asks: plain
// struct types, which are the solver's own by being alike, so that neither
// package needs the other.
type (
	// Structure is the nodes, the pairs of nodes that act on one another and
	// the number of algebraic unknowns besides, of which a network has none.
	Structure = struct {
		Nodes   int
		Links   [][2]int
		Globals int
	}
	// Jacobian is the derivatives of the nodes' balances, W/K: Diag by the
	// node's own temperature, for each pair {i, j} Up of i by that of j and
	// Down of j by that of i.
	Jacobian = struct {
		Diag     []float64
		Up, Down []float64
		Cols     [][]float64
		Rows     [][]float64
		Corner   []float64
	}
	// Flow is the heat that the resistors make and that the room and the held
	// bodies take, W.
	Flow = struct{ Made, Lost float64 }
)
