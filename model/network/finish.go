package network

// This file looks for faults before a network is solved: afterwards nothing on
// the way can fail.

import (
	"errors"
	"fmt"
	"math"

	"clampheat/materials"
)

// Finish checks the network and arranges it for solving. It must be called
// once, after everything was added. All faults are reported together, each a
// *SetupError that names the thing.
func (n *Network) Finish() error {
	if n.finished {
		return &SetupError{Item: "network", Reason: "was finished before"}
	}
	if err := errors.Join(n.faults()...); err != nil {
		return err
	}
	n.finished = true
	n.arrange()
	return nil
}

func finite(x float64) bool      { return !math.IsNaN(x) && !math.IsInf(x, 0) }
func positive(x float64) bool    { return x > 0 && finite(x) }
func notNegative(x float64) bool { return x >= 0 && finite(x) }

func (n *Network) faults() []error {
	var errs []error
	fault := func(item, reason string) { errs = append(errs, &SetupError{Item: item, Reason: reason}) }
	if len(n.nodes) == 0 {
		fault("network", "has no nodes")
	}
	if !positive(n.room.Radiant) {
		fault("room", "has a radiant temperature that is not above 0 K")
	}
	if _, err := materials.DryAir(n.room.Air, n.room.Pressure); err != nil || !positive(n.room.Air) || !positive(n.room.Pressure) {
		errs = append(errs, &SetupError{Item: "room", Reason: "has air whose figures are not known", Err: err})
	}
	if !notNegative(n.ripple) {
		fault("supply", "has a ripple that is negative or not a number")
	}
	known := func(item string, ids ...NodeID) bool {
		for _, id := range ids {
			if id < 0 || int(id) >= len(n.nodes) {
				fault(item, fmt.Sprintf("is on node %d, which does not exist", id))
				return false
			}
		}
		return true
	}
	for _, d := range n.nodes {
		if !notNegative(d.Capacity) {
			fault(d.Name, "has a heat capacity that is negative or not a number")
		}
		if d.ValidTo < 0 || math.IsNaN(d.ValidTo) {
			fault(d.Name, "has a bound of temperature that is negative or not a number")
		}
	}
	sound := true // every handle exists, so that paths can be followed
	for _, l := range n.links {
		sound = known(l.name, l.a, l.b) && sound
		if !positive(l.conductance) {
			fault(l.name, "has a conductance that is not above 0")
		}
		if l.a == l.b {
			fault(l.name, "links a node with itself")
		}
	}
	for _, h := range n.holds {
		sound = known(h.name, h.node) && sound
		if !positive(h.conductance) {
			fault(h.name, "has a conductance that is not above 0")
		}
		if !h.air && !positive(h.temp) {
			fault(h.name, "is held at a temperature that is not above 0 K")
		}
	}
	for i := range n.resistors {
		r := &n.resistors[i]
		sound = known(r.Name, r.A, r.B) && sound
		if err := r.check(); err != nil {
			errs = append(errs, err)
		}
	}
	for i := range n.surfaces {
		s := &n.surfaces[i]
		sound = known(s.Name, s.node) && sound
		if why := s.check(); why != "" {
			fault(s.Name, why)
		}
	}
	for i := range n.gaps {
		g := &n.gaps[i]
		sound = known(g.name, g.a, g.b) && sound
		if why := g.check(); why != "" {
			fault(g.name, why)
		}
		if g.a == g.b {
			fault(g.name, "lies between a node and itself")
		}
	}
	sound = n.spaceFaults(fault, known) && sound
	n.circuitFaults(fault)
	if err := n.courseFault(); err != nil {
		errs = append(errs, err)
	}
	if sound {
		errs = append(errs, n.stranded()...)
	}
	return errs
}

// stranded finds nodes from which no heat can reach the room: their
// temperature would have no bound. Of a group that hangs together the first
// node is named.
func (n *Network) stranded() []error {
	groups := apart(len(n.nodes))
	join := func(a, b NodeID) { groups.join(int(a), int(b)) }
	for _, l := range n.links {
		join(l.a, l.b)
	}
	for _, g := range n.gaps {
		if g.Area > 0 || g.Rising != (Rising{}) {
			join(g.a, g.b)
		}
	}
	for i := range n.surfaces {
		s := &n.surfaces[i]
		air, wall := n.faces(s)
		if air {
			join(s.node, n.spaces[s.In-1].air)
		}
		if wall {
			join(s.node, n.spaces[s.In-1].wall)
		}
	}
	open := make([]bool, len(n.nodes))
	for _, h := range n.holds {
		open[groups.find(int(h.node))] = true
	}
	for i := range n.surfaces {
		if s := &n.surfaces[i]; s.In == 0 && s.loses() {
			open[groups.find(int(s.node))] = true
		}
	}
	for _, v := range n.vents {
		if v.Flow > 0 || v.Buoyant > 0 {
			open[groups.find(int(v.Node))] = true
		}
	}
	var errs []error
	for i := range groups {
		if groups[i] == i && !open[i] {
			errs = append(errs, &SetupError{Item: n.nodes[i].Name, Reason: "has no way by which its heat could reach the room"})
		}
	}
	return errs
}
