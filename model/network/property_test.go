package network_test

import (
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
	"pgregory.net/rapid"
)

var _ solver.Loaded = (*network.Network)(nil)

// ramp is a current that changes with time.
type ramp struct{ at, slope float64 }

func (r ramp) Current(t float64) float64 { return r.at + r.slope*t }
func (r ramp) Slope(float64) float64     { return r.slope }

var kinds = []network.Shape{
	nil,
	network.Given{H: 7},
	network.PowerLaw{C: 1.32, L: 0.01, M: 0.25},
	network.PowerLaw{C: 1.24, L: 1, M: 1.0 / 3},
	network.PowerLaw{C: 1.1, L: 0.02, M: 0.3},
	network.HorizontalCylinder{D: 0.012},
	network.VerticalPlate{H: 0.05},
	network.VerticalCylinder{D: 0.01, H: 0.04},
	network.FaceUp{L: 0.01},
	network.FaceDown{L: 0.01},
	network.Block{SqrtArea: 0.05},
	network.BarOnEdge(0.03, 0.005),
	network.BarFlat(0.03, 0.005),
	network.Box(0.05, 0.03, 0.02),
	network.MovingAir{Speed: 1, Length: 0.012, Kind: network.Across, Over: network.HorizontalCylinder{D: 0.012}},
	network.MovingAir{Speed: 2, Length: 0.05, Kind: network.Along, Over: network.Box(0.05, 0.03, 0.02)},
}

// draw makes a random network in which all kinds of things occur.
func draw(t *rapid.T) *network.Network {
	net := network.New(network.Surroundings{
		Air:      rapid.Float64Range(250, 330).Draw(t, "air"),
		Radiant:  rapid.Float64Range(250, 330).Draw(t, "radiant"),
		Pressure: rapid.Float64Range(60e3, 105e3).Draw(t, "pressure"),
	})
	net.SetSupply(ramp{rapid.Float64Range(10, 400).Draw(t, "current"), rapid.Float64Range(-1, 1).Draw(t, "slope")},
		rapid.Float64Range(0, 0.5).Draw(t, "ripple"))
	n := rapid.IntRange(1, 12).Draw(t, "nodes")
	node := func(name string) network.NodeID { return network.NodeID(rapid.IntRange(0, n-1).Draw(t, name)) }
	for i := range n {
		net.AddNode(network.Node{Name: fmt.Sprintf("node %d", i), Capacity: float64(i)})
	}
	for i := 1; i < n; i++ {
		other := network.NodeID(i - 1)
		if rapid.IntRange(0, 3).Draw(t, "branch") == 0 {
			other = network.NodeID(rapid.IntRange(0, i-1).Draw(t, "to"))
		}
		net.AddLink(fmt.Sprintf("link %d", i), network.NodeID(i), other, rapid.Float64Range(0.01, 20).Draw(t, "link"))
	}
	for range rapid.IntRange(0, 8).Draw(t, "resistors") {
		net.AddResistor(network.Resistor{
			Name: "resistor", A: node("a"), B: node("b"),
			R20:          rapid.Float64Range(0, 3e-4).Draw(t, "r20"),
			Alpha:        rapid.Float64Range(0, 0.005).Draw(t, "alpha"),
			Film:         rapid.Float64Range(0, 1e-4).Draw(t, "film"),
			Constriction: rapid.Bool().Draw(t, "constriction"),
		})
	}
	net.AddHold("body", node("held"), rapid.Float64Range(0.1, 5).Draw(t, "hold"), rapid.Float64Range(250, 350).Draw(t, "body"))
	for range rapid.IntRange(0, 10).Draw(t, "surfaces") {
		net.AddSurface(node("on"), network.Surface{
			Name: "surface", Area: rapid.Float64Range(0, 0.02).Draw(t, "area"),
			Emissivity: rapid.Float64Range(0, 1).Draw(t, "emissivity"),
			Shape:      kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "shape")],
			Radiant:    rapid.SampledFrom([]float64{0, 280, 400}).Draw(t, "sees"),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "gaps") {
		if n < 2 {
			break
		}
		a := rapid.IntRange(0, n-2).Draw(t, "gap")
		b := rapid.IntRange(a+1, n-1).Draw(t, "across")
		if rapid.Bool().Draw(t, "turned") {
			a, b = b, a
		}
		net.AddGap("gap", network.NodeID(a), network.NodeID(b), network.Gap{
			Area: rapid.Float64Range(0, 0.02).Draw(t, "gap area"), Distance: rapid.Float64Range(0.002, 0.05).Draw(t, "distance"),
			Height: rapid.Float64Range(0.02, 0.2).Draw(t, "height"), Emissivity: rapid.Float64Range(0, 1).Draw(t, "gap emissivity"),
		})
	}
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	return net
}

func state(t *rapid.T, n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = rapid.Float64Range(240, 700).Draw(t, "temperature")
	}
	return x
}

// What is made and not lost is the net heat of the nodes, whatever flows
// between them.
func TestFlowIsSumOfBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := draw(t)
		flowIsSum(t, net, state(t, net.Nodes()))
	})
}

// Linearize gives the same balance, and derivatives that agree with central
// differences of it; every influence of one node on another has its place in
// the structure.
func TestJacobianAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := draw(t)
		n := net.Nodes()
		x := state(t, n)
		for i := range x {
			// A power of ΔT has no bounded curvature at ΔT = 0, where a difference
			// shows nothing; TestNoJumpAtAirTemperature looks there.
			if math.Abs(x[i]-net.Room().Air) < 0.5 {
				x[i]++
			}
		}
		f, full := linearized(t, net, x)
		const step = 1e-3
		for c := range n {
			up, down := make([]float64, n), make([]float64, n)
			x[c] += step
			net.Balance(2, x, up)
			x[c] -= 2 * step
			net.Balance(2, x, down)
			x[c] += step
			for r := range n {
				// Where two relations change over within the step, as those of a
				// gap may, the derivative is that of one side.
				near := func(want float64) bool {
					return math.Abs(full[r][c]-want) <= 2e-5*math.Abs(want)+1e-6
				}
				before, after := (f[r]-down[r])/step, (up[r]-f[r])/step
				if !near((before+after)/2) && !near(before) && !near(after) {
					t.Fatalf("∂F%d/∂T%d: %.10g, by differences %.10g and %.10g", r, c, full[r][c], before, after)
				}
			}
		}
	})
}

func TestDriftAndLoadAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := draw(t)
		driftAndLoad(t, net, state(t, net.Nodes()), 1e-4)
	})
}

// Readings are the parts of the balance: they add up to it.
func TestReadingsAddUp(t *testing.T) {
	air := 300.0
	net := network.New(network.Surroundings{Air: air, Radiant: 290})
	net.SetSupply(network.Constant(200), 0.3)
	a, b := net.AddNode(network.Node{Name: "a"}), net.AddNode(network.Node{Name: "b"})
	link := net.AddLink("link", b, a, 3)
	twin := net.AddLink("twin", a, b, 1)
	hold := net.AddHold("body", b, 0.7, 310)
	joint := net.AddResistor(network.Resistor{Name: "joint", A: a, B: b, R20: 1e-4, Alpha: 0.004, Film: 2e-5, Constriction: true})
	own := net.AddResistor(network.Resistor{Name: "own", A: a, B: a, R20: 2e-4, Alpha: 0.004})
	gap := net.AddGap("gap", b, a, network.Gap{Area: 0.01, Distance: 0.02, Height: 0.1, Emissivity: 0.5})
	var surfaces []network.SurfaceID
	for _, s := range kinds {
		surfaces = append(surfaces, net.AddSurface(a, network.Surface{Name: "s", Area: 0.003, Emissivity: 0.6, Shape: s}))
	}
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	x := []float64{371, 352}
	f := make([]float64, 2)
	flow := net.Balance(0, x, f)
	lost := net.ReadHold(hold, x)
	atA := 0.0
	for i, id := range surfaces {
		r := net.ReadSurface(id, x)
		lost += r.Convection + r.Radiation
		atA -= r.Convection + r.Radiation
		if want := r.Film * 0.003 * (x[0] - air); math.Abs(r.Convection-want) > 1e-9*(1+want) {
			t.Errorf("%#v: film %g and convection %g do not belong together", kinds[i], r.Film, r.Convection)
		}
		if want := r.HRad * 0.003 * (x[0] - 290); math.Abs(r.Radiation-want) > 1e-9*want {
			t.Errorf("%#v: radiation %g, from its coefficient %g", kinds[i], r.Radiation, want)
		}
	}
	j, o := net.ReadResistor(joint, 0, x), net.ReadResistor(own, 0, x)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("%s: %.12g, want %.12g", what, got, want)
		}
	}
	near("made", j.Heat+o.Heat, flow.Made)
	near("lost", lost, flow.Lost)
	near("drop at the mean current", j.Drop, 200*j.Ohm)
	near("heat at the root mean square", j.Heat, 200*200*1.09*j.Ohm)
	near("spot by Kohlrausch", j.Spot, math.Sqrt(square((x[0]+x[1])/2)+1.09*square(j.ConstrictionVolts)/(4*2.45e-8)))
	g := net.ReadGap(gap, x)
	if g.Convection >= 0 || g.Radiation >= 0 {
		t.Errorf("heat across the gap from the colder side: %+v", g)
	}
	atA += j.Heat/2 + o.Heat + net.ReadLink(link, x) - net.ReadLink(twin, x) + g.Convection + g.Radiation
	near("balance of a", atA, f[0])
}

func square(x float64) float64 { return x * x }

// A network and its mirror image have mirrored balances.
func TestMirror(t *testing.T) {
	build := func(turned bool) *network.Network {
		const n = 9
		net := network.New(network.Surroundings{Air: 295})
		net.SetSupply(network.Constant(150), 0)
		at := func(i int) network.NodeID {
			if turned {
				i = n - 1 - i
			}
			return network.NodeID(i)
		}
		for range n {
			net.AddNode(network.Node{Name: "n", Capacity: 1})
		}
		for i := range n {
			net.AddSurface(at(i), network.Surface{Area: 1e-3 * float64(1+i), Emissivity: 0.5, Shape: network.BarOnEdge(0.02, 0.004)})
			net.AddResistor(network.Resistor{A: at(i), B: at(max(i-1, 0)), R20: 1e-5 * float64(1+i), Alpha: 0.004, Constriction: i%2 == 1})
			if i > 0 {
				net.AddLink("l", at(i-1), at(i), float64(i))
			}
		}
		if err := net.Finish(); err != nil {
			t.Fatal(err)
		}
		return net
	}
	x := []float64{300, 310, 320, 330, 350, 341, 332, 323, 314}
	y := make([]float64, len(x))
	for i := range x {
		y[i] = x[len(x)-1-i]
	}
	f, g := make([]float64, len(x)), make([]float64, len(x))
	build(false).Balance(0, x, f)
	build(true).Balance(0, y, g)
	for i := range f {
		if m := g[len(g)-1-i]; math.Abs(f[i]-m) > 1e-10*(1+math.Abs(m)) {
			t.Errorf("node %d: %.12g, mirrored %.12g", i, f[i], m)
		}
	}
}

// A wanderer's state gives finite numbers: a search must be able to come back.
func TestBalanceIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := draw(t)
		x := make([]float64, net.Nodes())
		for i := range x {
			x[i] = anyTemperature(t, net)
		}
		staysFinite(t, net, x)
	})
}

// Through the temperature of the air the heat flow goes without a jump, and
// its derivative is bounded.
func TestNoJumpAtAirTemperature(t *testing.T) {
	for _, s := range kinds {
		t.Run(fmt.Sprintf("%T", s), func(t *testing.T) {
			net := network.New(network.Surroundings{Air: 300})
			id := net.AddNode(network.Node{Name: "n"})
			net.AddHold("h", id, 1e-9, 300)
			net.AddSurface(id, network.Surface{Area: 1, Shape: s})
			if err := net.Finish(); err != nil {
				t.Fatal(err)
			}
			j := solver.NewJacobian(net.Structure())
			f := make([]float64, 1)
			for _, d := range []float64{0, 1e-12, -1e-12, 1e-6, -1e-6} {
				net.Linearize(0, []float64{300 + d}, f, j)
				if math.Abs(f[0]) > 100*math.Abs(d) || math.Abs(j.Diag[0]) > 100 {
					t.Errorf("ΔT = %g: %g W, %g W/K", d, f[0], j.Diag[0])
				}
			}
		})
	}
}

func TestNothingAllocated(t *testing.T) {
	for _, s := range shapes {
		net := cable(t, 20, s.shape)
		x, f := slope(20), make([]float64, 20)
		j := solver.NewJacobian(net.Structure())
		if got := testing.AllocsPerRun(100, func() {
			net.Balance(0, x, f)
			net.Linearize(0, x, f, j)
			net.LoadDerivative(0, x, f)
		}); got != 0 {
			t.Errorf("%s: %v allocations", s.name, got)
		}
	}
}
