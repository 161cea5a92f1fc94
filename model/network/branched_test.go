package network_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
	"pgregory.net/rapid"
)

// drawBranched makes a random network whose current divides, in a box with vents
// in a room whose air moves: all kinds of things that a plain network lacks. Its
// last two nodes are the air and the wall of the box.
func drawBranched(t *rapid.T) *network.Network {
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	room := network.Surroundings{Air: 300}
	if rapid.Bool().Draw(t, "seen") {
		room.Radiant = value("radiant", 250, 330)
	}
	net := network.New(room)
	net.SetAir(ramp{value("air", 280, 320), value("warming", -1, 1)})
	net.SetSupply(ramp{value("supply", 10, 200), value("slope", -1, 1)}, value("ripple", 0, 0.5))
	n := rapid.IntRange(1, 8).Draw(t, "nodes")
	for i := range n + 2 {
		net.AddNode(network.Node{Name: fmt.Sprintf("node %d", i), Capacity: value("capacity", 1, 100)})
	}
	air, wall := network.NodeID(n), network.NodeID(n+1)
	node := func(name string) network.NodeID { return network.NodeID(rapid.IntRange(0, n-1).Draw(t, name)) }
	for i := 1; i < n; i++ {
		net.AddLink("link", network.NodeID(i-1), network.NodeID(i), value("link", 1, 20))
	}
	box := net.AddSpace("box", air, wall)
	net.AddSurface(0, network.Surface{Name: "first", Area: 0.01, Shape: network.Given{H: 5}, In: box})
	for range rapid.IntRange(0, 6).Draw(t, "inside") {
		net.AddSurface(node("on"), network.Surface{Name: "inside", Area: value("area", 0, 0.02), Emissivity: value("emissivity", 0, 1),
			Shape: kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "shape")], In: box})
	}
	net.AddSurface(wall, network.Surface{Name: "inner face", Area: 0.1, Emissivity: 0.9, Shape: network.VerticalPlate{H: 0.2}, In: box})
	for range 2 {
		net.AddSurface(wall, network.Surface{Name: "outer face", Area: value("outer", 0, 0.5), Emissivity: 0.9,
			Shape: kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "outer shape")]})
	}
	net.AddVent(network.Vent{Name: "vent", Node: air, Flow: value("fan", 0, 2), Buoyant: value("vent", 0.2, 8)})
	net.AddHoldToAir("back", wall, value("back", 1, 3))
	net.AddHold("body", 0, value("held", 1, 3), 300)
	net.AddSource("charger", air, value("watts", 0, 20))
	drawCircuit(t, net, n)
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	return net
}

// drawCircuit adds branches between a few junctions, some of them batteries,
// with resistors on the first n nodes, and draws.
func drawCircuit(t *rapid.T, net *network.Network, n int) {
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	node := func(name string) network.NodeID { return network.NodeID(rapid.IntRange(0, n-1).Draw(t, name)) }
	points := rapid.IntRange(2, 5).Draw(t, "junctions")
	for i := range points {
		net.AddJunction(fmt.Sprintf("junction %d", i))
	}
	junction := func(name string, below int) network.JunctionID {
		return network.JunctionID(rapid.IntRange(0, below-1).Draw(t, name))
	}
	// Loads between the poles of a battery are large against its own ohms, and
	// so are the ways round which unlike batteries circulate: no metal runs away.
	branch := func(from, to network.JunctionID, volts, least float64) {
		id := net.AddBranch(network.Branch{Name: "branch", From: from, To: to, EMF: volts, Ohms: least * value("ohms", 1, 10)})
		for range rapid.IntRange(0, 3).Draw(t, "resistors") {
			net.AddResistor(network.Resistor{Name: "resistor", A: node("a"), B: node("b"), Branch: id,
				R20: value("r20", 0, 5e-5), Alpha: value("alpha", 0, 0.005), Film: value("film", 0, 3e-5),
				Constriction: rapid.Bool().Draw(t, "constriction"), Elsewhere: rapid.IntRange(0, 3).Draw(t, "elsewhere") == 0})
		}
	}
	branch(1, 0, 13, 1e-3) // a battery, so that there is power to draw
	for i := 2; i < points; i++ {
		branch(network.JunctionID(i), junction("to", i), 0, 1e-3)
	}
	for range rapid.IntRange(0, 4).Draw(t, "more") {
		branch(junction("from", points), junction("onto", points), rapid.SampledFrom([]float64{0, 12.5, -12.9, 13.1}).Draw(t, "volts"), 0.1)
	}
	ends := func() (a, b network.JunctionID) {
		a = junction("taken", points)
		return a, network.JunctionID((int(a) + 1 + rapid.IntRange(0, points-2).Draw(t, "given")) % points)
	}
	for range rapid.IntRange(0, 2).Draw(t, "currents") {
		a, b := ends()
		net.AddDraw(network.Draw{Name: "lamp", From: a, To: b, Current: ramp{value("taken", -100, 100), value("rising", -1, 1)}})
	}
	if rapid.Bool().Draw(t, "power") {
		net.AddDraw(network.Draw{Name: "inverter", From: 0, To: 1, Power: ramp{value("watts", 1, 500), value("more watts", -1, 1)}})
	}
	// What the supply drives besides, and a like thing that is not modelled.
	net.AddResistor(network.Resistor{Name: "plain", A: node("c"), B: node("d"), R20: 1e-5, Alpha: 0.004, Constriction: true})
	net.AddResistor(network.Resistor{Name: "twin", A: node("c"), B: node("d"), R20: 1e-5, Elsewhere: true})
}

// branchedState draws temperatures of which no two meet, near which a power of
// their difference has no bounded curvature, and currents and potentials of any
// sign.
func branchedState(t *rapid.T, net *network.Network) []float64 {
	x := make([]float64, net.Unknowns())
	for i := range x {
		if i < net.Nodes() {
			x[i] = 305.3 + 17*float64(i) + rapid.Float64Range(0, 10).Draw(t, "temperature")
			if i%2 == 1 {
				x[i] = 600 - x[i]
			}
			if d := x[i] - net.Air(2); math.Abs(d) < 1 {
				x[i] += 3
			}
		} else {
			x[i] = rapid.Float64Range(-300, 300).Draw(t, "unknown")
		}
	}
	return x
}

func TestBranchedJacobianAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := drawBranched(t)
		n := net.Unknowns()
		x := branchedState(t, net)
		_, full := linearized(t, net, x)
		const step = 1e-3
		up, down := make([]float64, n), make([]float64, n)
		for c := range n {
			x[c] += step
			net.Balance(2, x, up)
			x[c] -= 2 * step
			net.Balance(2, x, down)
			x[c] += step
			for r := range n {
				want := (up[r] - down[r]) / (2 * step)
				if math.Abs(full[r][c]-want) > 2e-5*math.Abs(want)+1e-7 {
					t.Fatalf("∂F%d/∂x%d of %d nodes: %.10g, by differences %.10g", r, c, net.Nodes(), full[r][c], want)
				}
			}
		}
	})
}

func TestBranchedDriftAndLoadAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := drawBranched(t)
		driftAndLoad(t, net, branchedState(t, net), 1e-6)
	})
}

// What a space takes from surfaces it gives on: made less lost is what the nodes
// keep, in a box as in the open.
func TestBranchedFlowIsSumOfBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := drawBranched(t)
		flowIsSum(t, net, branchedState(t, net))
	})
}

// A wanderer's state gives finite numbers, also where no ohms are left.
func TestBranchedBalanceIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := drawBranched(t)
		x := make([]float64, net.Unknowns())
		for i := range x {
			if i < net.Nodes() {
				x[i] = anyTemperature(t, net)
			} else {
				x[i] = rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.Just(0.0)).Draw(t, "unknown")
			}
		}
		staysFinite(t, net, x)
	})
}

func TestNothingAllocatedWithBranches(t *testing.T) {
	net := bank(t, 5, 4)
	x := make([]float64, net.Unknowns())
	for i := range x {
		x[i] = 310 + float64(i)
	}
	f := make([]float64, len(x))
	j := solver.NewJacobian(net.Structure())
	if got := testing.AllocsPerRun(100, func() {
		net.Balance(2, x, f)
		net.Linearize(2, x, f, j)
		net.LoadDerivative(2, x, f)
		if !net.Drift(2, x, f) {
			t.Error("it does not drift")
		}
	}); got != 0 {
		t.Errorf("%v allocations", got)
	}
}

// A settled state of any circuit obeys Kirchhoff's laws to 1e-9 of its largest
// current and voltage, and its books of heat close.
func TestKirchhoffOfSettledNetworks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := drawBranched(t)
		x := make([]float64, net.Unknowns())
		for i := range net.Nodes() {
			x[i] = 330 + float64(i)
		}
		if err := net.Connect(2, x); err != nil {
			t.Skip("more power is drawn than there is")
		}
		if k := net.Kirchhoff(2, x); k > 1e-9 {
			t.Fatalf("connected: residual %.3g", k)
		}
		res, err := solver.Steady(context.Background(), net, solver.SteadyOptions{Start: x, Time: 2, Tol: 1e-9})
		if err != nil {
			t.Fatal(err)
		}
		if k := net.Kirchhoff(2, res.X); !(k <= 1e-9) {
			t.Fatalf("settled: residual %.3g", k)
		}
		// The last 1e-9 K times some 50 W/K to the room may be missing.
		if miss := math.Abs(res.Flow.Made - res.Flow.Lost); !(miss <= 1e-9*(50+res.Flow.Made)) {
			t.Fatalf("made %.12g W, lost %.12g W", res.Flow.Made, res.Flow.Lost)
		}
	})
}
