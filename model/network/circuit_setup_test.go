package network_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"clampheat/model/network"
)

// Each fault of circuits and spaces is found and names its thing.
func TestFinishFindsFaultsOfCircuitsAndSpaces(t *testing.T) {
	const lump, air, wall = 0, 1, 2
	const minus, plus = 0, 1
	draw := func(d network.Draw) func(*network.Network) {
		return func(n *network.Network) { d.Name = "lamp"; n.AddDraw(d) }
	}
	branch := func(b network.Branch) func(*network.Network) {
		return func(n *network.Network) { b.Name = "strap"; n.AddBranch(b) }
	}
	for _, c := range []struct {
		name string
		add  func(*network.Network)
		want string
	}{
		{"junction/alone", func(n *network.Network) { n.AddJunction("stud") }, "stud is a junction to which no branch leads"},
		{"junction/with a draw alone", func(n *network.Network) {
			n.AddDraw(network.Draw{Name: "lamp", From: n.AddJunction("stud"), To: minus, Current: network.Constant(1)})
		}, "lamp takes a current that finds no way back"},
		{"branch/unknown end", branch(network.Branch{From: minus, To: 7, Ohms: 1}), "strap ends at junction 7"},
		{"branch/voltage", branch(network.Branch{To: plus, EMF: math.Inf(1), Ohms: 1}), "strap has a voltage"},
		{"branch/ohms", branch(network.Branch{To: plus, Ohms: -1}), "strap has a resistance"},
		{"branch/no ohms", branch(network.Branch{To: plus, EMF: 1}), "strap has no resistance"},
		{"resistor/unknown branch", func(n *network.Network) {
			n.AddResistor(network.Resistor{Name: "joint", A: lump, B: lump, Branch: 9})
		}, "joint is on branch 9"},
		{"draw/neither", draw(network.Draw{From: plus, To: minus}), "lamp takes a current or a power"},
		{"draw/both", draw(network.Draw{From: plus, To: minus, Current: network.Constant(1), Power: network.Constant(1)}), "lamp takes a current or a power"},
		{"draw/negative power", draw(network.Draw{From: plus, To: minus, Power: network.Constant(-1)}), "lamp takes a power of -1 W"},
		{"draw/no number", draw(network.Draw{From: plus, To: minus, Current: network.Constant(math.NaN())}), "lamp takes a current of NaN A"},
		{"draw/unknown end", draw(network.Draw{From: 7, To: minus, Current: network.Constant(1)}), "lamp ends at junction 7"},
		{"draw/onto itself", draw(network.Draw{From: plus, To: plus, Current: network.Constant(1)}), "lamp gives its current back where it takes it"},
		{"draw/between pieces", func(n *network.Network) {
			a, b := n.AddJunction("a"), n.AddJunction("b")
			n.AddBranch(network.Branch{Name: "apart", From: a, To: b, Ohms: 1})
			n.AddDraw(network.Draw{Name: "lamp", From: plus, To: b, Current: network.Constant(1)})
		}, "lamp takes a current that finds no way back"},
		{"draw/power without voltage", func(n *network.Network) {
			a, b := n.AddJunction("a"), n.AddJunction("b")
			n.AddBranch(network.Branch{Name: "apart", From: a, To: b, Ohms: 1})
			n.AddDraw(network.Draw{Name: "lamp", From: a, To: b, Power: network.Constant(1)})
		}, "lamp takes power where no branch has a voltage"},
		{"space/one node", func(n *network.Network) { n.AddSpace("bin", air, air) }, "bin has one node"},
		{"space/unknown node", func(n *network.Network) { n.AddSpace("bin", air, 9) }, "bin is on node 9"},
		{"surface/unknown space", func(n *network.Network) {
			n.AddSurface(lump, network.Surface{Name: "skin", Area: 1, Emissivity: 1, In: 2})
		}, "skin lies in space 2"},
		{"surface/of the air", func(n *network.Network) {
			n.AddSurface(air, network.Surface{Name: "skin", Area: 1, Emissivity: 1, In: 1})
		}, "skin is a surface of the air"},
		{"surface/sees more than the wall", func(n *network.Network) {
			n.AddSurface(lump, network.Surface{Name: "skin", Area: 1, Emissivity: 1, Radiant: 300, In: 1})
		}, "skin lies in a space and sees its wall"},
		{"vent/unknown node", func(n *network.Network) { n.AddVent(network.Vent{Name: "slot", Node: 9}) }, "slot is on node 9"},
		{"vent/negative", func(n *network.Network) { n.AddVent(network.Vent{Name: "slot", Node: air, Buoyant: -1}) }, "slot has a flow"},
		{"source/negative", func(n *network.Network) { n.AddSource("charger", air, -1) }, "charger makes heat"},
		{"source/unknown node", func(n *network.Network) { n.AddSource("charger", 9, 1) }, "charger is on node 9"},
		{"hold/no conductance to the air", func(n *network.Network) { n.AddHoldToAir("bulkhead", wall, 0) }, "bulkhead has a conductance"},
		{"air/at zero", func(n *network.Network) { n.SetAir(network.Constant(0)) }, "room begins with air"},
		{"node/stranded in a box without heat to the wall", func(n *network.Network) {
			a, w := n.AddNode(network.Node{Name: "island"}), n.AddNode(network.Node{Name: "shell"})
			n.AddHold("body", w, 1, 300)
			n.AddSurface(n.AddNode(network.Node{Name: "thing"}), network.Surface{Name: "skin", Area: 1, Shape: network.Given{H: 1}, In: n.AddSpace("bin", a, w)})
		}, "island has no way"},
	} {
		t.Run(c.name, func(t *testing.T) {
			net := network.New(network.Surroundings{Air: 298})
			for _, name := range []string{"lump", "air", "wall"} {
				net.AddHold("body", net.AddNode(network.Node{Name: name, Capacity: 1}), 1, 298)
			}
			net.AddSpace("box", air, wall)
			net.AddJunction("minus")
			net.AddJunction("plus")
			net.AddBranch(network.Branch{Name: "battery", From: minus, To: plus, EMF: 13, Ohms: 1e-3})
			c.add(net)
			err := net.Finish()
			var fault *network.SetupError
			if !errors.As(err, &fault) {
				t.Fatalf("got %v, want a SetupError", err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want %q in it", err, c.want)
			}
		})
	}
}

// Nothing is wrong with loops of one branch, ends that lead nowhere, a vent that
// is a node's only way to the room, or two circuits that share nothing.
func TestFinishTakesOddCircuits(t *testing.T) {
	net := network.New(network.Surroundings{Air: 298})
	id := net.AddNode(network.Node{Name: "lump", Capacity: 1})
	net.AddVent(network.Vent{Name: "slot", Node: id, Buoyant: math.Sqrt(306.0/8) / 8})
	var j [5]network.JunctionID
	for i := range j {
		j[i] = net.AddJunction("junction")
	}
	battery := net.AddBranch(network.Branch{Name: "battery", From: j[0], To: j[1], EMF: 13, Ohms: 1})
	stub := net.AddBranch(network.Branch{Name: "stub", From: j[1], To: j[2], Ohms: 1e-9})
	apart := net.AddBranch(network.Branch{Name: "apart", From: j[3], To: j[4], EMF: 2, Ohms: 1})
	ring := net.AddBranch(network.Branch{Name: "ring", From: j[4], To: j[4], EMF: 3, Ohms: 2})
	net.AddResistor(network.Resistor{Name: "ring", A: id, B: id, Film: 1, Branch: ring})
	net.AddDraw(network.Draw{Name: "lamp", From: j[4], To: j[3], Current: network.Constant(0.5)})
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	// Four currents; three junctions and two, less the first of each.
	if got := net.Unknowns(); got != 1+4+3 {
		t.Fatalf("%d unknowns", got)
	}
	x := steady(t, net, 300).X
	for b, want := range map[network.BranchID]float64{battery: 0, stub: 0, apart: 0.5, ring: 1} {
		if got := net.ReadBranch(b, 0, x).Current; math.Abs(got-want) > 1e-12 {
			t.Errorf("branch %d: %g A, want %g A", b, got, want)
		}
	}
	for k, want := range []float64{0, 13, 13, 0, 1.5} {
		if got := net.Potential(j[k], x); math.Abs(got-want) > 1e-12 {
			t.Errorf("junction %d: %g V, want %g V", k, got, want)
		}
	}
	near(t, "temperature", x[0], 306, 1e-12) // 1 W = 0.773 W/K · 8 K · √(8/306)
}

// The pairs of unknowns: those of nodes first, each once, then those of currents
// by the higher unknown.
func TestStructureOfCircuit(t *testing.T) {
	net := network.New(network.Surroundings{Air: 300})
	for range 4 {
		net.AddNode(network.Node{Name: "n"})
	}
	net.AddHold("h", 0, 1, 300)
	net.AddLink("a", 0, 1, 1)
	box := net.AddSpace("box", 2, 3)
	for i := range 2 {
		net.AddSurface(network.NodeID(i), network.Surface{Name: "s", Area: 1, Emissivity: 1, Shape: network.Given{H: 1}, In: box})
	}
	net.AddSurface(1, network.Surface{Name: "no heat to the wall", Area: 1, Shape: network.Given{H: 1}, In: box})
	net.AddSurface(3, network.Surface{Name: "wall", Area: 1, Emissivity: 1, Shape: network.Given{H: 1}, In: box})
	p, q, r := net.AddJunction("p"), net.AddJunction("q"), net.AddJunction("r")
	b := net.AddBranch(network.Branch{Name: "b", From: p, To: q, EMF: 1, Ohms: 1})
	c := net.AddBranch(network.Branch{Name: "c", From: q, To: r, Ohms: 1})
	net.AddResistor(network.Resistor{Name: "x", A: 0, B: 1, Branch: b})
	net.AddResistor(network.Resistor{Name: "y", A: 0, B: 0, Branch: b})
	net.AddResistor(network.Resistor{Name: "z", A: 3, B: 1, Branch: c, Elsewhere: true})
	net.AddDraw(network.Draw{Name: "d", From: p, To: q, Power: network.Constant(0)})
	net.AddDraw(network.Draw{Name: "e", From: r, To: p, Current: network.Constant(0)})
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	// 4 and 5 are the branches' currents, 6 the draw's; 7 and 8 are q and r.
	want := [][2]int{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}, {0, 4}, {1, 4}, {1, 5}, {3, 5}, {4, 7}, {5, 7}, {6, 7}, {5, 8}}
	got := net.Structure()
	if got.Nodes != 4 || got.Globals != 5 || !slices.Equal(got.Links, want) {
		t.Errorf("got %+v", got)
	}
}

// What a draw takes can change in a finished network, its ends and its kind can
// not; a clone has draws and air of its own.
func TestSetDrawAndClone(t *testing.T) {
	net := between(t, []way{{emf: 13, outside: 1e-3, loss: 1}}, network.Draw{Name: "lamp", Current: network.Constant(10)})
	var fault *network.SetupError
	for name, d := range map[string]network.Draw{
		"other end":  {Name: "lamp", From: 0, To: 1, Current: network.Constant(5)},
		"other kind": {Name: "lamp", From: 1, To: 0, Power: network.Constant(5)},
		"nothing":    {Name: "lamp", From: 1, To: 0},
	} {
		if err := net.SetDraw(0, d); !errors.As(err, &fault) {
			t.Errorf("%s: %v, want a SetupError", name, err)
		}
	}
	other := net.Clone()
	other.SetAir(network.Constant(310))
	other.SetLoad(2)
	if err := other.SetDraw(0, network.Draw{Name: "lamp", From: 1, To: 0, Current: network.Constant(30)}); err != nil {
		t.Fatal(err)
	}
	near(t, "the first one's current", current(net, 1, steady(t, net, 300).X), 10, 1e-13)
	near(t, "the first one's air", net.Air(0), roomAir, 0)
	near(t, "the clone's air", other.Air(0), 310, 0)
	x := begin(t, other, 300)
	near(t, "the clone's current", other.ReadDraw(0, 0, x).Current, 60, 1e-13)
	near(t, "the clone's branch", current(other, 1, x), 60, 1e-13)
}

// Connect asks for a finished network and a whole state.
func TestConnectIsStrict(t *testing.T) {
	net := network.New(network.Surroundings{Air: 300})
	if err := net.Connect(0, nil); err == nil || !strings.Contains(err.Error(), "not finished") {
		t.Errorf("not finished: %v", err)
	}
	var none *network.CircuitError
	if err := between(t, []way{{emf: 13, outside: 1e-3, loss: 1}}, network.Draw{}).Connect(0, []float64{300}); !errors.As(err, &none) {
		t.Errorf("a state too short: %v", err)
	}
	if err := ladder(t, 3).Connect(0, []float64{300, 300, 300}); err != nil {
		t.Errorf("no branches: %v", err)
	}
	// A metal at which its line has come to nothing: any current would do. And no
	// temperature at all. The state stays as it was, and no NaN is put into it.
	loop := between(t, []way{{r20: 1, alpha: 1.0 / 128, loss: 1}, {r20: 1, alpha: 1.0 / 128, loss: 1}}, network.Draw{})
	cold := 293.15 // a variable, so that the difference is that of its rounding, and exact
	for name, temp := range map[string]float64{"without ohms": cold - 128, "at no temperature": math.NaN()} {
		x := []float64{temp, temp, 3, 5, 7}
		if err := loop.Connect(0, x); !errors.As(err, &none) || none.Power {
			t.Errorf("a loop %s: %v", name, err)
		}
		if !slices.Equal(x[2:], []float64{3, 5, 7}) {
			t.Errorf("a loop %s: left at %v", name, x)
		}
	}
}

// A resistor cannot be set so that its branch, which Finish has passed, is left
// without ohms.
func TestSetResistorKeepsSomeOhms(t *testing.T) {
	bare := between(t, []way{{r20: 1e-4, loss: 1}, {r20: 1e-4, outside: 1e-5, loss: 1}}, network.Draw{})
	x := []float64{300, 300, 10, 20, 0}
	before := bare.ReadBranch(1, 0, x).Ohm
	var fault *network.SetupError
	if err := bare.SetResistor(0, 0, 0); !errors.As(err, &fault) || !strings.Contains(err.Error(), "has no resistance") {
		t.Errorf("the only ohms of a branch: %v", err)
	}
	near(t, "ohms after the refusal", bare.ReadBranch(1, 0, x).Ohm, before, 0)
	if err := bare.SetResistor(1, 0, 0); err != nil {
		t.Errorf("with ohms outside: %v", err)
	}
	if err := bare.SetResistor(0, 0, 1e-6); err != nil {
		t.Errorf("a film alone: %v", err)
	}
	near(t, "ohms of a film", bare.ReadBranch(1, 0, x).Ohm, 1e-6, 1e-12)
}
