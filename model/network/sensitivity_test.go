package network_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
	"pgregory.net/rapid"
)

// figures are all figures of a network in which every kind of thing occurs,
// by name, so that each can be changed and the network made anew.
type figures map[string]float64

func (f figures) network(t interface{ Fatal(...any) }) *network.Network {
	net := network.New(network.Surroundings{Air: f["air"], Radiant: f["radiant"], Pressure: 95e3})
	net.SetSupply(network.Constant(150*f["load"]), 0.2)
	var node [7]network.NodeID
	for i := range node {
		node[i] = net.AddNode(network.Node{Name: fmt.Sprintf("node %d", i), Capacity: 10})
	}
	air, wall := node[5], node[6]
	for i := 1; i < 5; i++ {
		net.AddLink(fmt.Sprintf("link %d", i-1), node[i-1], node[i], f[fmt.Sprintf("link %d", i-1)])
	}
	net.AddLink("link 4", node[4], node[1], f["link 4"])
	battery, other := f.circuit(net)
	for i, r := range []network.Resistor{
		{A: node[0], B: node[0], Alpha: 0.0039},
		{A: node[1], B: node[2], Alpha: 0.0039},
		{A: node[2], B: node[3], Alpha: 0.0039, Constriction: true},
		{A: node[4], B: node[4], Alpha: 0.002, Constriction: true},
		{A: node[0], B: node[0], Alpha: 0.0039, Branch: battery},
		{A: node[1], B: node[0], Alpha: 0.0039, Branch: battery, Constriction: true},
		{A: node[3], B: node[4], Alpha: 0.0039, Branch: other},
		{A: node[2], B: node[2], Alpha: 0.0039, Branch: other, Elsewhere: true},
	} {
		r.Name = fmt.Sprintf("resistor %d", i)
		r.R20, r.Film = f["r20 "+r.Name], f["film "+r.Name]
		net.AddResistor(r)
	}
	net.AddHold("hold 0", node[0], f["hold 0"], f["held"])
	net.AddHoldToAir("hold 1", wall, f["hold 1"])
	net.AddVent(network.Vent{Name: "vent 0", Node: air, Flow: f["vent 0"], Buoyant: f["buoyant vent 0"]})
	box := net.AddSpace("box", air, wall)
	for i := range 2 * len(kinds) {
		s := network.Surface{Name: fmt.Sprintf("surface %d", i), Area: f[fmt.Sprintf("area %d", i)],
			Emissivity: f[fmt.Sprintf("emissivity %d", i)], Shape: kinds[i%len(kinds)]}
		if i >= len(kinds) {
			s.In = box
		}
		net.AddSurface(node[i%5], s)
	}
	net.AddSurface(wall, network.Surface{Name: "inner face", Area: 0.02, Emissivity: 0.9, Shape: network.VerticalPlate{H: 0.1}, In: box})
	for i, ends := range [][2]int{{1, 3}, {4, 2}} {
		net.AddGap(fmt.Sprintf("gap %d", i), node[ends[0]], node[ends[1]],
			network.Gap{Area: f[fmt.Sprintf("gap %d", i)], Distance: 0.008, Height: 0.06, Emissivity: 0.5})
	}
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	return net
}

// circuit adds two unlike batteries side by side, of which a lamp and an inverter
// draw.
func (f figures) circuit(net *network.Network) (battery, other network.BranchID) {
	minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
	battery = net.AddBranch(network.Branch{Name: "battery", From: minus, To: plus, EMF: 13.2, Ohms: 1e-3})
	other = net.AddBranch(network.Branch{Name: "other", From: minus, To: plus, EMF: 13.1, Ohms: 2e-3})
	net.AddDraw(network.Draw{Name: "lamp", From: plus, To: minus, Current: network.Constant(100 * f["load"])})
	net.AddDraw(network.Draw{Name: "inverter", From: plus, To: minus, Power: network.Constant(1000 * f["load"])})
	return battery, other
}

func drawFigures(t *rapid.T) figures {
	f := figures{}
	put := func(name string, low, high float64) { f[name] = rapid.Float64Range(low, high).Draw(t, name) }
	put("air", 260, 320)
	put("radiant", 260, 320)
	put("held", 260, 320)
	put("load", 0.3, 1.5)
	put("hold 0", 0.05, 1)
	put("hold 1", 0.05, 1)
	put("vent 0", 0.01, 0.2)
	put("buoyant vent 0", 0.2, 2)
	for i := range 5 {
		put(fmt.Sprintf("link %d", i), 0.05, 5)
	}
	for i := range 8 {
		put(fmt.Sprintf("r20 resistor %d", i), 1e-5, 2e-4)
		put(fmt.Sprintf("film resistor %d", i), 1e-6, 5e-5)
	}
	for i := range 2 * len(kinds) {
		put(fmt.Sprintf("area %d", i), 1e-4, 5e-3)
		put(fmt.Sprintf("emissivity %d", i), 0.05, 0.95)
	}
	for i := range 2 {
		put(fmt.Sprintf("gap %d", i), 1e-4, 5e-3)
	}
	return f
}

func settled(t interface{ Fatal(...any) }, net *network.Network, start []float64) (*solver.SteadySolver, []float64) {
	if start == nil {
		start = make([]float64, net.Unknowns())
		for i := range net.Nodes() {
			start[i] = 350
		}
		if err := net.Connect(0, start); err != nil {
			t.Fatal(err)
		}
	}
	s := solver.NewSteadySolver(net)
	res, err := s.Solve(context.Background(), solver.SteadyOptions{Start: start, Tol: solver.MinSteadyTol})
	if err != nil {
		t.Fatal(err)
	}
	return s, res.X
}

// by sorts the sensitivities by the names of the figures.
func by(s network.Sensitivities, load float64) figures {
	got := figures{"load": s.Load / load, "air": s.Air, "radiant": s.Radiant, "held": s.Held, "hold 0": s.Holds[0], "hold 1": s.Holds[1],
		"vent 0": s.Vents[0].Flow, "buoyant vent 0": s.Vents[0].Buoyant}
	for i, v := range s.Links {
		got[fmt.Sprintf("link %d", i)] = v.Conductance
	}
	for i, v := range s.Resistors {
		got[fmt.Sprintf("r20 resistor %d", i)], got[fmt.Sprintf("film resistor %d", i)] = v.R20, v.Film
	}
	for i, v := range s.Surfaces[:2*len(kinds)] {
		got[fmt.Sprintf("area %d", i)], got[fmt.Sprintf("emissivity %d", i)] = v.Area, v.Emissivity
	}
	for i, v := range s.Gaps {
		got[fmt.Sprintf("gap %d", i)] = v
	}
	return got
}

// Every derivative agrees with a central difference of states solved anew to
// 1e-6 of itself, and 5 µK for a change of the whole figure (of 100 K for a
// temperature): states good to 1e-10 K show no more over such steps.
func TestSensitivitiesAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFigures(t)
		net := f.network(t)
		search, x := settled(t, net, nil)
		for i := range x {
			if i < net.Nodes() && (math.Abs(x[i]-f["air"]) < 1 || i != 5 && math.Abs(x[i]-x[5]) < 1) {
				t.Skip("a node at the temperature of air: a power of ΔT bends there without bound")
			}
		}
		worth := make([]float64, len(x))
		node := rapid.IntRange(0, net.Nodes()-1).Draw(t, "output")
		worth[node] = 1
		if err := search.Adjoint(0, x, worth, worth); err != nil {
			t.Fatal(err)
		}
		got := by(net.Sensitivities(0, x, worth), f["load"])
		if len(got) != len(f) {
			t.Fatalf("%d derivatives of %d figures", len(got), len(f))
		}
		name := rapid.SampledFrom(sortedNames(f)).Draw(t, "figure")
		value := f[name]
		size := value
		if name == "air" || name == "radiant" || name == "held" {
			size = 100
		}
		moved := func(step float64) float64 {
			f[name] = value + step*size
			_, y := settled(t, f.network(t), x)
			return y[node]
		}
		// Two steps: where a table changes over within one, the other shows it.
		var worst float64
		for _, step := range []float64{1e-4, 3e-5} {
			want := (moved(step) - moved(-step)) / (2 * step)
			miss := math.Abs(got[name]*size-want) - 1e-6*math.Abs(want)
			if step == 1e-4 || miss < worst {
				worst = miss
			}
		}
		if worst > 5e-6 {
			t.Fatalf("%s: dT%d is %.10g K for the whole of it, a central difference is off by %.3g K", name, node, got[name]*size, worst)
		}
	})
}

func sortedNames(f figures) []string {
	names := make([]string, 0, len(f))
	for name := range f {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// One kelvin more everywhere around is one kelvin more in a stack that loses
// heat linearly and whose ohms do not follow its temperature; and the current
// counts twice its share of the rise.
func TestSensitivitiesOfALinearStack(t *testing.T) {
	net := network.New(network.Surroundings{Air: 300})
	net.SetSupply(network.Constant(100), 0)
	a := net.AddNode(network.Node{Name: "a", Capacity: 1})
	b := net.AddNode(network.Node{Name: "b", Capacity: 1})
	net.AddLink("between", a, b, 0.5)
	net.AddResistor(network.Resistor{Name: "source", A: a, B: a, Film: 1e-3})
	net.AddHold("body", b, 0.2, 300)
	net.AddSurface(a, network.Surface{Name: "side", Area: 0.01, Shape: network.Given{H: 10}})
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	search, x := settled(t, net, nil)
	worth := []float64{1, 0}
	if err := search.Adjoint(0, x, worth, worth); err != nil {
		t.Fatal(err)
	}
	s := net.Sensitivities(0, x, worth)
	if sum := s.Air + s.Radiant + s.Held; math.Abs(sum-1) > 1e-12 {
		t.Errorf("one kelvin around is worth %.15g K", sum)
	}
	if rise := x[0] - 300; math.Abs(s.Load-2*rise) > 1e-9*rise {
		t.Errorf("the whole current is worth %.12g K, twice the rise is %.12g K", s.Load, 2*rise)
	}
	// 10 W leave over 0.1 W/K and, in a row, 0.5 and 0.2 W/K.
	if want := 1 / (0.1 + 1/(1/0.5+1/0.2)); math.Abs(worth[0]-want) > 1e-12 {
		t.Errorf("a watt is worth %.15g K, by hand %.15g K", worth[0], want)
	}
}
