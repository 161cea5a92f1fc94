package model

import (
	"clampheat/model/network"
)

// This file reads the numbers of a network back as what stands in the rows,
// in the way in which a person would measure it. A state x holds the
// temperature, K, of each node; t is the time, s, that the current is taken at.

// RowTemp is the temperature of a row at a state, K: of its hottest node, or
// of a joint the mean of its two sides.
func (a *Assembly) RowTemp(row int, x []float64) float64 {
	r := &a.Rows[row]
	if r.Kind == JointRow {
		return (x[r.Nodes[0]] + x[r.Nodes[1]]) / 2
	}
	hottest := x[r.Nodes[0]]
	for _, n := range r.Nodes[1:] {
		hottest = max(hottest, x[n])
	}
	return hottest
}

// RowReading is what the resistors of a row do at a state.
type RowReading struct {
	Ohm  float64 // Ω, hot
	Drop float64 // V, at the mean current; negative where that of its branch is
	Heat float64 // W
	// Spot, K, and Constriction, V, are those of the contact spots of a bolted
	// joint; 0 for other rows.
	Spot, Constriction float64
}

// ReadRow reads the resistors of a row at a state.
func (a *Assembly) ReadRow(row int, t float64, x []float64) RowReading {
	var out RowReading
	for _, id := range a.Rows[row].Resistors {
		r := a.Network.ReadResistor(id, t, x)
		out.Ohm += r.Ohm
		out.Drop += r.Drop
		out.Heat += r.Heat
		out.Spot = max(out.Spot, r.Spot)
		out.Constriction = max(out.Constriction, r.ConstrictionVolts)
	}
	return out
}

// RowOhms is the resistance of a row at a state, Ω.
func (a *Assembly) RowOhms(row int, t float64, x []float64) float64 { return a.ReadRow(row, t, x).Ohm }

// RowDrop is the voltage over a row at a state, V.
func (a *Assembly) RowDrop(row int, t float64, x []float64) float64 { return a.ReadRow(row, t, x).Drop }

// RowHeat is the heat made in a row at a state, W.
func (a *Assembly) RowHeat(row int, t float64, x []float64) float64 { return a.ReadRow(row, t, x).Heat }

// HottestTerminal is the index of the row of the hottest terminal at a state,
// −1 where the stack has none.
func (a *Assembly) HottestTerminal(x []float64) int {
	hottest := -1
	for i := range a.Rows {
		if a.Rows[i].Terminal && (hottest < 0 || a.RowTemp(i, x) > a.RowTemp(hottest, x)) {
			hottest = i
		}
	}
	return hottest
}

// RowCurrent is the mean current in a row at a state, A: that of its branch with
// its sign, else the supply's, and 0 for a row without one.
func (a *Assembly) RowCurrent(row int, t float64, x []float64) float64 {
	switch id := a.Rows[row].Branch; {
	case id == NoBranch:
		return 0
	case id > 0:
		return x[a.Network.Nodes()+int(id)-1] // the currents follow the nodes by branch
	}
	return a.supply.Current(t)
}

// Heat is heat, W, with the kind of thing that it is made in or the way that
// it goes.
type Heat struct {
	Name string
	Heat float64
}

// Made is the heat made at a state by kind: cable, fuse, joints, rest, and that of
// other things in a box. Kinds that the stack lacks are left out.
func (a *Assembly) Made(t float64, x []float64) []Heat {
	names := [...]string{CableSource: "cable", FuseSource: "fuse", JointSource: "joints", OtherSource: "rest"}
	var sums [len(names)]float64
	var has [len(names)]bool
	for _, m := range a.made {
		sums[m.source] += a.Network.ReadResistor(m.resistor, t, x).Heat
		has[m.source] = true
	}
	var out []Heat
	for s, name := range names {
		if has[s] {
			out = append(out, Heat{name, sums[s]})
		}
	}
	for _, id := range a.sources {
		if watts := a.Network.ReadSource(id); watts > 0 {
			out = append(out, Heat{"other heat", watts})
		}
	}
	return out
}

// Lost is the heat that leaves at a state of the time 0: see LostAt.
func (a *Assembly) Lost(x []float64) []Heat { return a.LostAt(0, x) }

// LostAt is the heat that leaves at a state of the time t by way: convection,
// radiation, into each body, in the order of the stack, and through vents. It
// counts what leaves the network: of a body with a mass of its own, what that
// gives to the air, and of a box what its wall and vents do.
func (a *Assembly) LostAt(t float64, x []float64) []Heat {
	out := []Heat{{Name: "convection"}, {Name: "radiation"}}
	for _, e := range a.exposed {
		if e.boxed {
			continue
		}
		r := a.Network.ReadSurfaceAt(e.id, t, x)
		out[0].Heat += r.Convection
		out[1].Heat += r.Radiation
	}
	at := map[string]int{}
	for _, w := range a.lost {
		i, ok := at[w.body]
		if !ok {
			i = len(out)
			at[w.body] = i
			out = append(out, Heat{Name: "into " + w.body})
		}
		out[i].Heat += a.Network.ReadHoldAt(w.hold, t, x)
	}
	for _, id := range a.vents {
		out = append(out, Heat{"through vents", a.Network.ReadVent(id, t, x)})
	}
	return out
}

// Terminals lists the indices of the rows that are terminals.
func (a *Assembly) Terminals() []int {
	var out []int
	for i := range a.Rows {
		if a.Rows[i].Terminal {
			out = append(out, i)
		}
	}
	return out
}

// exposed is a surface that faces the room or the box.
type exposed struct {
	id                        network.SurfaceID
	node                      network.NodeID
	name                      string
	area, depth, conductivity float64
	layered                   bool
	boxed, wall               bool // in the box; a face of its own wall
}

// covered is a surface that faces a cover.
type covered struct {
	id        network.GapID
	node, lid network.NodeID
	name      string
	area      float64
}
