package network

// This file holds the electrical side of a network whose current divides: as it
// is put together, junctions, branches between them, and draws from them.

import "fmt"

// The handles of the electrical side. Junctions and draws count from 0;
// branches count from 1, so that a resistor without one carries the supply's
// current.
type (
	JunctionID int
	BranchID   int
	DrawID     int
)

// Branch is a way from one junction to another on which one current flows,
// eq. (19). The current is an unknown, positive from From to To. It is told by
// the drop that it makes, so that there must be some resistance on its way.
type Branch struct {
	Name     string
	From, To JunctionID
	// EMF drives current from From to To, V: a battery's voltage at rest.
	EMF float64
	// Ohms is the resistance, Ω, of what lies outside the network, such as the
	// inside of a battery. Its heat is made elsewhere.
	Ohms float64
}

// Draw takes a current, A, or a power, W, out of the network at one junction
// and gives the current back at another, eqs. (20) and (21). Exactly one of
// the two is set. A current may be negative, then it is put in at From; a
// power may not.
type Draw struct {
	Name     string
	From, To JunctionID
	Current  Supply // A over time
	Power    Supply // W over time
}

// AddJunction adds a point of one potential, where branches and draws meet.
func (n *Network) AddJunction(name string) JunctionID {
	n.junctions = append(n.junctions, name)
	return JunctionID(len(n.junctions) - 1)
}

// AddBranch adds a way between two junctions. Resistors are put on it by their
// Branch.
func (n *Network) AddBranch(b Branch) BranchID {
	n.branches = append(n.branches, b)
	return BranchID(len(n.branches))
}

// AddDraw adds something that takes current or power from two junctions.
func (n *Network) AddDraw(d Draw) DrawID {
	n.draws = append(n.draws, d)
	return DrawID(len(n.draws) - 1)
}

// SetDraw replaces what a draw takes, also in a finished network, where its
// ends, and whether it takes current or power, stay as they were added; else
// the answer is a *SetupError and nothing changes.
func (n *Network) SetDraw(id DrawID, d Draw) error {
	old := &n.draws[id]
	if why := d.check(); why != "" {
		return &SetupError{Item: d.Name, Reason: why}
	}
	if n.finished && (d.From != old.From || d.To != old.To || (d.Power == nil) != (old.Power == nil)) {
		return &SetupError{Item: d.Name, Reason: "cannot change its ends or its kind in a finished network"}
	}
	*old = d
	return nil
}

func (d *Draw) check() string {
	if (d.Current == nil) == (d.Power == nil) {
		return "takes a current or a power: exactly one of them is set"
	}
	if d.Current != nil {
		if i := d.Current.Current(0); !finite(i) {
			return fmt.Sprintf("takes a current of %g A, which is no finite number", i)
		}
		return ""
	}
	if p := d.Power.Current(0); !notNegative(p) {
		return fmt.Sprintf("takes a power of %g W, which is negative or not a number", p)
	}
	return ""
}
