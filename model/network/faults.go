package network

// This file looks for faults in what surrounds the nodes and in the electrical
// side: whether the currents have a way.

import (
	"fmt"

	"clampheat/materials"
)

// spaceFaults looks at enclosed air, vents and other heat. All nodes of sound
// handles exist.
func (n *Network) spaceFaults(fault func(item, reason string), known func(item string, ids ...NodeID) bool) (sound bool) {
	sound = true
	for _, s := range n.spaces {
		sound = known(s.name, s.air, s.wall) && sound
		if s.air == s.wall {
			fault(s.name, "has one node for its air and its wall")
		}
	}
	for i := range n.surfaces {
		s := &n.surfaces[i]
		switch {
		case s.In == 0:
		case s.In < 0 || int(s.In) > len(n.spaces):
			fault(s.Name, fmt.Sprintf("lies in space %d, which does not exist", s.In))
			sound = false
		case n.spaces[s.In-1].air == s.node:
			fault(s.Name, "is a surface of the air in which it lies")
		}
	}
	for _, v := range n.vents {
		sound = known(v.Name, v.Node) && sound
		if !notNegative(v.Flow) || !notNegative(v.Buoyant) {
			fault(v.Name, "has a flow that is negative or not a number")
		}
	}
	for _, s := range n.sources {
		sound = known(s.name, s.node) && sound
		if !notNegative(s.watts) {
			fault(s.name, "makes heat that is negative or not a number")
		}
	}
	return sound
}

// courseFault looks at the air's temperature at the start of its course.
func (n *Network) courseFault() error {
	if n.course == nil {
		return nil
	}
	if _, err := materials.DryAir(n.course.Current(0), n.room.Pressure); err != nil {
		return &SetupError{Item: "room", Reason: "begins with air whose figures are not known", Err: err}
	}
	return nil
}

// circuitFaults looks at junctions, branches and draws.
func (n *Network) circuitFaults(fault func(item, reason string)) {
	sound := true
	known := func(item string, ids ...JunctionID) {
		for _, id := range ids {
			if id < 0 || int(id) >= len(n.junctions) {
				fault(item, fmt.Sprintf("ends at junction %d, which does not exist", id))
				sound = false
				return
			}
		}
	}
	for _, b := range n.branches {
		known(b.Name, b.From, b.To)
		if !finite(b.EMF) {
			fault(b.Name, "has a voltage that is no finite number")
		}
		if !notNegative(b.Ohms) {
			fault(b.Name, "has a resistance that is negative or not a number")
		}
	}
	for i := range n.draws {
		d := &n.draws[i]
		known(d.Name, d.From, d.To)
		if why := d.check(); why != "" {
			fault(d.Name, why)
			sound = false
		}
	}
	for _, r := range n.resistors {
		if r.Branch < 0 || int(r.Branch) > len(n.branches) {
			fault(r.Name, fmt.Sprintf("is on branch %d, which does not exist", r.Branch))
			sound = false
		}
	}
	if sound {
		n.wayFaults(fault)
	}
}

// wayFaults follows the ways of the currents.
func (n *Network) wayFaults(fault func(item, reason string)) {
	pieces := n.pieces()
	led := make([]bool, len(n.junctions))
	driven := make([]bool, len(n.junctions)) // by the piece's root
	for _, b := range n.branches {
		led[b.From], led[b.To] = true, true
		if b.EMF != 0 {
			driven[pieces.find(int(b.From))] = true
		}
	}
	for j, name := range n.junctions {
		if !led[j] {
			fault(name, "is a junction to which no branch leads")
		}
	}
	for _, d := range n.draws {
		switch {
		case d.From == d.To:
			fault(d.Name, "gives its current back where it takes it")
		case pieces.find(int(d.From)) != pieces.find(int(d.To)):
			fault(d.Name, "takes a current that finds no way back: no branches lead from one of its ends to the other")
		case d.Power != nil && !driven[pieces.find(int(d.From))]:
			fault(d.Name, "takes power where no branch has a voltage")
		}
	}
	// A current is found from the drop that it makes.
	for i, ohms := range n.coldOhms() {
		if ohms == 0 {
			fault(n.branches[i].Name, noOhms)
		}
	}
}

// noOhms is what is wrong with a branch without resistance.
const noOhms = "has no resistance, so that its current cannot be told: its ends are one junction"

// coldOhms gives the resistance of each branch, Ω at 20 °C.
func (n *Network) coldOhms() []float64 {
	ohms := make([]float64, len(n.branches))
	for i, b := range n.branches {
		ohms[i] = b.Ohms
	}
	for _, r := range n.resistors {
		if r.Branch != 0 {
			ohms[r.Branch-1] += r.R20 + r.Film
		}
	}
	return ohms
}
