package model

import "clampheat/model/network"

// Mesh says how finely long parts are cut.
type Mesh struct {
	// Cell is the largest length of a cell over the fin length √(kA/(hP)) of
	// the part; cells next to joints are finer. 0 means 0.2.
	Cell float64
}

// An Assembly is a stack turned into a heat network, with the tables that
// lead from the network's numbers back to the things that the user named.
type Assembly struct {
	Network *network.Network
	// Rows stand in the order of the current, those beside the path last. Of a
	// stack that branches they stand in the order of its parts, a joint's before
	// the later of its two parts.
	Rows []Row
	// Path are the places along the current, for a profile. Of a stack that
	// branches they are those of each part in turn.
	Path []Place
	// Branches are the ways on which the current divides, by number from 1;
	// none where all carry the supply's. Draws take currents and powers out of
	// them: those of Stack.Draws, or one, the supply, where a stack that branches
	// has none.
	Branches []Branch
	Draws    []network.DrawID
	Box      *Box // the enclosure; nil for none
	// Figures of the parts, by their index in Stack.Parts, and what was
	// noticed in making the network.
	Parts    []PartFigures
	Warnings []Warning
	// Condition that the network was made for.
	Condition Condition

	supply   Supply // nil where draws take other currents
	nodePart []int  // the part of each node, −1 for a cover or body
	made     []maker
	sources  []network.SourceID
	vents    []network.VentID
	lost     []way
	exposed  []exposed
	covered  []covered
}

// A Branch is a way of one current between two junctions, with the indices in
// the stack of what lies on it, in no order but that of the lists. A bar with
// studs is on every branch that one of its sections is on.
type Branch struct {
	ID                   network.BranchID
	Name                 string
	Parts, Joints, Wires []int
}

// NoBranch stands for the branch of a row that has no current of its own: a
// body beside the path, a stud, a part that leads to nowhere.
const NoBranch network.BranchID = -1

// RowKind says what a row of the way of the current is.
type RowKind int

const (
	PartRow     RowKind = iota // the whole of a part
	TerminalRow                // a place where a thermocouple sits
	ElementRow                 // the element of a fuse
	JointRow                   // a contact
	BodyRow                    // something beside the path: battery, housing, cover
)

// A Row is one line of the way of the current, in its order: what stands at
// one place, with the nodes whose hottest is its temperature and the
// resistors whose sum is its resistance.
type Row struct {
	Kind        RowKind
	Name        string // "fuse 300 A, base side"
	Part        int    // index in Stack.Parts, −1 for a joint
	Joint, Bolt int    // index in Stack.Joints and Bolts, −1 for a part
	// Branch whose current the row carries; 0 is the supply's.
	Branch network.BranchID
	// Nodes of the row; those of a joint are its two sides.
	Nodes     []network.NodeID
	Resistors []network.ResistorID
	Surfaces  []network.SurfaceID
	Links     []network.LinkID // of a joint: what conducts across it
	// Terminal is true where a thermocouple sits: only terminals make the
	// headline.
	Terminal bool
	Limits   []Limit
}

// A Limit is a temperature that a place must not pass.
type Limit struct {
	Name   string  // "tin-plated terminal, 65 K rise"
	Source string  // "IEC 60947-1"
	Rise   float64 // K above the air, for air up to 40 °C; 0 = none
	Temp   float64 // K; 0 = none
}

// A Place is a node on the way of the current, m from its beginning. Of a stack
// that branches, parts side by side count alike.
type Place struct {
	Node  network.NodeID
	Part  int
	Along float64
}

// PartFigures is what follows for a part from its geometry and metal.
type PartFigures struct {
	Mass       float64 // kg of metal
	Capacity   float64 // J/K, of all that belongs to the part
	Surface    float64 // m² that sees the room or a cover
	Resistance float64 // Ω at 20 °C, at the condition of the assembly
}

// Source is a kind of part or place by which the heat made is told apart.
type Source int

const (
	CableSource Source = iota // conductors of cables
	FuseSource                // caps and elements of fuses
	JointSource               // contacts and crimps
	OtherSource               // metal of all else, and what lies across a switch
)

// maker is a resistor and the kind of thing that it belongs to.
type maker struct {
	resistor network.ResistorID
	source   Source
}

// way is a hold and the body that its heat goes to.
type way struct {
	body string
	hold network.HoldID
}
