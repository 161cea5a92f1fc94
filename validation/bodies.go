package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file builds the bodies of the worked examples through the public API of
// the network: one surface, one lump, a wire in rings, a thick wall in slices.

// surfaceAt reads one surface at a temperature, K.
func surfaceAt(room network.Surroundings, s network.Surface, temp float64) (network.SurfaceReading, error) {
	net := network.New(room)
	id := net.AddSurface(net.AddNode(network.Node{Name: "body"}), s)
	if err := net.Finish(); err != nil {
		return network.SurfaceReading{}, fmt.Errorf("one surface: %w", err)
	}
	return net.ReadSurface(id, []float64{temp}), nil
}

// settle finishes a network and solves it from one temperature, K.
func settle(ctx context.Context, net *network.Network, start float64) ([]float64, error) {
	if err := net.Finish(); err != nil {
		return nil, fmt.Errorf("example's network: %w", err)
	}
	res, err := solver.Steady(ctx, net, solver.SteadyOptions{Start: even(net, start)})
	if err != nil {
		return nil, err
	}
	return res.X, nil
}

// even is a state of one temperature, K.
func even(net *network.Network, temp float64) []float64 {
	x := make([]float64, net.Nodes())
	for i := range x {
		x[i] = temp
	}
	return x
}

// heater is a resistor on one node that makes a heat, W, from the current
// through it, A.
func heater(node network.NodeID, heat, current float64) network.Resistor {
	return network.Resistor{Name: "heat", A: node, B: node, Film: heat / (current * current)}
}

// addRings cuts a round rod or a tube of radii r0 to r1 into rings and gives
// them from the inside. The outermost of them is the surface, without width.
func addRings(net *network.Network, r0, r1, length, conductivity float64, n int) []network.NodeID {
	dr := (r1 - r0) / float64(n)
	rings := make([]network.NodeID, n+1)
	for i := range rings {
		rings[i] = net.AddNode(network.Node{Name: fmt.Sprintf("ring %d", i)})
		switch {
		case i == n:
			net.AddLink("ring to surface", rings[i-1], rings[i], conductivity*2*math.Pi*r1*length/(dr/2))
		case i > 0:
			face := r0 + float64(i)*dr
			net.AddLink("ring to ring", rings[i-1], rings[i], conductivity*2*math.Pi*face*length/dr)
		}
	}
	return rings
}

// heatRings spreads a heat, W, evenly over the metal of a rod from addRings
// with r0 = 0.
func heatRings(net *network.Network, rings []network.NodeID, heat, current float64) {
	n := len(rings) - 1
	for i := range n {
		share := float64(2*i+1) / float64(n*n)
		net.AddResistor(heater(rings[i], heat*share, current))
	}
	net.SetSupply(network.Constant(current), 0)
}

// lumpTime follows a lump with one surface from one temperature, K, until it
// reaches another, and gives the time, s.
func lumpTime(ctx context.Context, room network.Surroundings, s network.Surface, capacity, from, to float64) (float64, error) {
	net := network.New(room)
	net.AddSurface(net.AddNode(network.Node{Name: "lump", Capacity: capacity}), s)
	return reach(ctx, net, from, to)
}

// reach finishes a network of one node and gives the time, s, at which it has
// come from one temperature, K, to another.
func reach(ctx context.Context, net *network.Network, from, to float64) (float64, error) {
	if err := net.Finish(); err != nil {
		return 0, fmt.Errorf("example's network: %w", err)
	}
	sign := math.Copysign(1, to-from)
	res, err := solver.Soak(ctx, net, solver.SoakOptions{
		Tol: 1e-4, Start: []float64{from}, Until: 1e6,
		Events: []solver.Event{{Name: "reached", Stop: true,
			Value: func(_ float64, x []float64) float64 { return sign * (x[0] - to) }}},
	})
	if err != nil {
		return 0, err
	}
	if len(res.Events) == 0 {
		return 0, fmt.Errorf("never reaches %g K", to)
	}
	return res.Events[0].Time, nil
}

// wall is a thick solid of 1 m² cut into slices, too thick for its far side to
// matter.
type wall struct {
	net          *network.Network
	surface      network.NodeID // without mass
	deepest      network.NodeID
	dx           float64
	conductivity float64
}

// newWall makes a wall for times up to a given one, s.
func newWall(conductivity, diffusivity, time float64) *wall {
	const slices = 240
	w := &wall{net: network.New(network.Surroundings{Air: 293.15}), conductivity: conductivity}
	w.dx = 4 * math.Sqrt(4*diffusivity*time) / slices
	w.surface = w.net.AddNode(network.Node{Name: "surface"})
	previous := w.surface
	for i := range slices {
		slice := w.net.AddNode(network.Node{Name: fmt.Sprintf("slice %d", i), Capacity: conductivity / diffusivity * w.dx})
		g := conductivity / w.dx
		if i == 0 {
			g *= 2
		}
		w.net.AddLink("slice", previous, slice, g)
		previous = slice
	}
	w.deepest = previous
	return w
}

// at is the temperature, K, at a depth, m, some time, s, after one
// temperature all over.
func (w *wall) at(ctx context.Context, start, depth, time float64) (float64, error) {
	w.net.AddHold("rest of the wall", w.deepest, 2*w.conductivity/w.dx, start)
	if err := w.net.Finish(); err != nil {
		return 0, fmt.Errorf("thick wall: %w", err)
	}
	res, err := solver.Soak(ctx, w.net, solver.SoakOptions{Tol: 1e-3, Start: even(w.net, start), Until: time})
	if err != nil {
		return 0, err
	}
	if depth == 0 {
		return res.X[0], nil
	}
	place := depth/w.dx - 0.5
	i := int(place)
	part := place - float64(i)
	return res.X[1+i]*(1-part) + res.X[2+i]*part, nil
}
