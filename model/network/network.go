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
	air               bool // held at the room's air instead of at temp
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
// be added, but the supply, the load, the air, what draws take and the values of
// resistors can change.
//
// Before Finish a network can be neither solved nor read: the solver answers
// with the error of Ready. Handles must be its
// own.
//
// A Network is used by one goroutine at a time; Clone makes one for another.
type Network struct {
	room      Surroundings
	follows   bool   // what the surfaces see is as warm as the air
	course    Supply // of the air, K; nil = that of room
	supply    Supply
	ripple    float64
	load      float64
	resistors []Resistor
	draws     []Draw

	parts  // as put together; shared by clones, not written after Finish
	layout // as arranged for solving; shared by clones, see there

	resistance // arrays that SetResistor writes: a copy in each clone
}

type parts struct {
	nodes     []Node
	links     []link
	holds     []hold
	surfaces  []surface
	gaps      []gap
	spaces    []space
	vents     []Vent
	sources   []source
	junctions []string
	branches  []Branch
	finished  bool
}

// New makes an empty network in a room. Without a supply no current flows.
func New(s Surroundings) *Network {
	follows := s.Radiant == 0
	if follows {
		s.Radiant = s.Air
	}
	if s.Pressure == 0 {
		s.Pressure = materials.StandardPressure
	}
	return &Network{room: s, follows: follows, load: 1}
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
	n.holds = append(n.holds, hold{name: name, node: a, conductance: conductance, temp: temp})
	return HoldID(len(n.holds) - 1)
}

// AddHoldToAir adds conduction, W/K, from a node to a body that is held at the
// temperature of the room's air, which may move.
func (n *Network) AddHoldToAir(name string, a NodeID, conductance float64) HoldID {
	n.holds = append(n.holds, hold{name: name, node: a, conductance: conductance, air: true})
	return HoldID(len(n.holds) - 1)
}

// AddResistor adds a source of heat that carries the supply's current or that
// of a branch.
func (n *Network) AddResistor(r Resistor) ResistorID {
	n.resistors = append(n.resistors, r)
	return ResistorID(len(n.resistors) - 1)
}

// AddSurface adds a surface by which a node loses heat to the room or to the
// space in which it lies.
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
// and has supply, load, air, draws and resistances of its own.
func (n *Network) Clone() *Network {
	c := *n
	c.resistors = append([]Resistor(nil), n.resistors...)
	c.draws = append([]Draw(nil), n.draws...)
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

// Unknowns is the length of a state: the temperatures of the nodes, K; the
// currents of the branches by BranchID and those of the draws of power by DrawID,
// A; and the potentials of the junctions by JunctionID, V, without the first one of
// every piece that hangs together, which is earth. It is that of a finished network.
func (n *Network) Unknowns() int { return len(n.nodes) + n.globals }

// Structure says which unknowns act on one another. It fits the solver's
// system.
func (n *Network) Structure() Structure {
	return Structure{Nodes: len(n.nodes), Links: n.pairs, Globals: n.globals}
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
	// Structure is the number of nodes, the pairs of unknowns that act on one
	// another, and the number of algebraic unknowns that follow the nodes: the
	// currents and potentials of a network with branches.
	Structure = struct {
		Nodes   int
		Links   [][2]int
		Globals int
	}
	// Jacobian is the derivatives of the nodes' balances, W, and of the
	// residuals of currents and potentials: Diag by the unknown itself, for each
	// pair {i, j} Up of i by j and Down of j by i.
	Jacobian = struct {
		Diag     []float64
		Up, Down []float64
	}
	// Flow is the heat that is made in the nodes and that the room and the held
	// bodies take, W.
	Flow = struct{ Made, Lost float64 }
)
