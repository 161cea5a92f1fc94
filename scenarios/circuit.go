package scenarios

import (
	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file closes the circuit outside the stack: batteries and their negative
// side, the source of a power, what draws the currents. A path without branches
// that carries a current needs none of it.

// outside are the points of the circuit outside the stack, by number.
type outside struct{ n int }

func (o *outside) point() model.Port {
	p := model.Port{Part: model.Outside, Port: o.n}
	o.n++
	return p
}

// circuit adds wires and draws.
func (r *resolver) circuit(pieces []piece) {
	f := r.file
	load := f.Load()
	power := load != nil && load.Kind == quantity.Power
	if len(f.groups) == 0 && !power {
		return
	}
	points := &outside{}
	source := r.sources(pieces, points, power)
	if f.Return.Set && power {
		source.out = r.returned(source.out, points)
	}
	ends := map[int][]model.Port{} // by circuit, 0 for the main way
	for _, s := range r.order.ends {
		way := r.drawnBy(f.Path[s.item].Way)
		ends[way] = append(ends[way], pieces[s.item].free(s))
	}
	for way := range f.Ways {
		if len(ends[way]) == 0 {
			continue
		}
		draw := model.Draw{Name: "the load", From: r.joined("to the load", ends[way], points), To: source.to(way)}
		switch own := &f.Ways[way]; {
		case own.Kind == CircuitWay:
			draw.Name = f.fullName(way)
			draw.Current = r.overTime(&own.Current, 0)
			r.drawOf[way] = len(r.stack.Draws)
		case power:
			draw.Power = r.overTime(load, 0)
		}
		r.stack.Draws = append(r.stack.Draws, draw)
	}
}

// drawnBy is the circuit that a way lies in, 0 for none.
func (r *resolver) drawnBy(way int) int {
	for ; way > 0; way = r.file.Ways[way].Parent {
		if r.file.Ways[way].Kind == CircuitWay {
			return way
		}
	}
	return 0
}

// free is the port of a side that meets nothing.
func (p *piece) free(s seat) model.Port {
	if c := p.on(s); c != nil {
		return c.port
	}
	return p.outer[s.side]
}

// wire adds a wire.
func (r *resolver) wire(w model.Wire) { r.stack.Wires = append(r.stack.Wires, w) }

// joined is one point for several ports.
func (r *resolver) joined(name string, ports []model.Port, points *outside) model.Port {
	if len(ports) == 1 {
		return ports[0]
	}
	at := points.point()
	for _, p := range ports {
		r.wire(model.Wire{Name: name, A: p, B: at})
	}
	return at
}

// sources puts voltages where the path begins, and gives the points by which the
// current comes back.
func (r *resolver) sources(pieces []piece, points *outside, power bool) negative {
	f := r.file
	begins := map[int][]model.Port{} // by battery, 0 for none
	var order []int
	for _, s := range r.order.begins {
		way := r.batteryOf(f.Path[s.item].Way)
		if begins[way] == nil {
			order = append(order, way)
		}
		begins[way] = append(begins[way], pieces[s.item].free(s))
	}
	if len(order) == 1 && order[0] == 0 {
		begin := r.joined("from the source", begins[0], points)
		if !power {
			return negative{out: begin}
		}
		earth := points.point()
		ohms := f.SourceOhms.Value
		if !f.SourceOhms.Set {
			ohms = r.spanOf("supply", "supply", "source resistance", quantity.Resistance).Likely
		}
		r.wire(model.Wire{Name: "the source", A: earth, B: begin, EMF: r.sourceVoltage(), Resistance: ohms})
		return negative{out: earth}
	}
	back := r.negative(pieces, points)
	for _, way := range order {
		own := &f.Ways[way]
		// The internal resistance is one of the kind of battery, not of each.
		ohms := own.Internal.Value
		if !own.Internal.Set {
			ohms = r.spanOf("batteries", "battery", "internal resistance", quantity.Resistance).Likely
		}
		r.wire(model.Wire{Name: f.fullName(way), A: back.of[way], B: r.joined("from "+own.Name, begins[way], points),
			EMF: r.batteryVoltage(own), Resistance: ohms})
	}
	return back
}

// batteryOf is the battery that a way lies in, 0 for none.
func (r *resolver) batteryOf(way int) int {
	for ; way > 0; way = r.file.Ways[way].Parent {
		if r.file.Ways[way].Kind == BatteryWay {
			return way
		}
	}
	return 0
}

// batteryVoltage is the open-circuit voltage of a battery.
func (r *resolver) batteryVoltage(own *Way) float64 {
	if own.Voltage.Set {
		return own.Voltage.Value
	}
	return r.sourceVoltage()
}

// sourceVoltage is that of the batteries where they have one of their own, else
// that of the bank. Batteries that are alike share alike
// whatever their voltage.
func (r *resolver) sourceVoltage() float64 {
	f := r.file
	for w := range f.Ways {
		if v := f.Ways[w].Voltage; v.Set {
			return v.Value
		}
	}
	if f.BankVoltage.Set {
		return f.BankVoltage.Value
	}
	return r.spanOf("batteries", "battery", "voltage", quantity.Voltage).Likely
}

// returned puts the return cable between the point by which the current comes
// back to the source and the load; its ohms are those at the temperature of the
// air, for its heat is not computed.
func (r *resolver) returned(source model.Port, points *outside) model.Port {
	f := r.file
	c, err := materials.LookupConductor(f.Return.Cable.Text)
	if err != nil {
		return source // told by the reader
	}
	at := points.point()
	ohms := c.Resistance20 * f.Return.Length.Value * c.Metal.Resistivity(f.Air.Value) / c.Metal.Resistivity20
	r.wire(model.Wire{Name: "the return cable", A: at, B: source, Resistance: ohms})
	return at
}
