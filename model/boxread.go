package model

import "clampheat/model/network"

// This file reads what a box does.

// A Box is where the figures of an enclosure are found in an assembly: the nodes
// of its air and of the two faces of its wall.
type Box struct {
	Air, Inner, Outer network.NodeID

	outside  []network.SurfaceID
	bulkhead []network.HoldID
	bodies   []network.LinkID
}

// BoxReading is what a box does at a state: temperatures, K, and heat, W. At rest
// Parts and Other together are Wall, Bulkhead and Vents together.
type BoxReading struct {
	Air, Inner, Outer float64 // K, of the air, and of the inner and the outer face of the wall
	Parts             float64 // W, from the parts in it and their bodies to its air and wall
	Other             float64 // W, of other things in it
	Wall              float64 // W, from its outer faces to the room
	Bulkhead          float64 // W, through its back into a bulkhead
	Vents             float64 // W, by vents and fan
}

// ReadBox reads the box at a state of the time t, s; all is 0 without one.
func (a *Assembly) ReadBox(t float64, x []float64) BoxReading {
	if a.Box == nil {
		return BoxReading{}
	}
	out := BoxReading{Air: x[a.Box.Air], Inner: x[a.Box.Inner], Outer: x[a.Box.Outer]}
	for _, e := range a.exposed {
		if e.boxed && !e.wall {
			r := a.Network.ReadSurfaceAt(e.id, t, x)
			out.Parts += r.Convection + r.Radiation
		}
	}
	for _, id := range a.Box.bodies {
		out.Parts += a.Network.ReadLink(id, x)
	}
	for _, id := range a.sources {
		out.Other += a.Network.ReadSource(id)
	}
	for _, id := range a.Box.outside {
		r := a.Network.ReadSurfaceAt(id, t, x)
		out.Wall += r.Convection + r.Radiation
	}
	for _, id := range a.Box.bulkhead {
		out.Bulkhead += a.Network.ReadHoldAt(id, t, x)
	}
	for _, id := range a.vents {
		out.Vents += a.Network.ReadVent(id, t, x)
	}
	return out
}
