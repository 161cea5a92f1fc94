package validation

import (
	"context"
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// The speed of branched networks and of the search for the state that a duty
// settles into. A branched network is made of rods as in ladder.go, side by
// side between two bars: the current divides among them, and heat flows round
// between rods and bars.

// rack is rods side by side, each on a branch of its own. Every bar has a node
// a rod, and rod k is unlike its neighbours by its joint, so that the currents
// differ.
func rack(rods, cells int) (*network.Network, error) {
	net := network.New(network.Surroundings{Air: ladderAir})
	area, perimeter := math.Pi*ladderDiameter*ladderDiameter/4, math.Pi*ladderDiameter
	dx := ladderLength / float64(cells)
	from, to := net.AddJunction("from"), net.AddJunction("to")
	law := network.PowerLaw{C: 1.32, L: ladderDiameter, M: 0.25}
	var first, last []network.NodeID
	for k := range rods {
		branch := net.AddBranch(network.Branch{Name: fmt.Sprintf("rod %d", k), From: from, To: to})
		var previous network.NodeID
		for i := range cells {
			c := ladderDensity * ladderHeat * area * dx
			if i == 0 || i == cells-1 {
				c += ladderJointHeat
			}
			id := net.AddNode(network.Node{Name: "cell", Capacity: c})
			net.AddResistor(network.Resistor{Name: "rod", A: id, B: id, R20: ladderRho * dx / area, Alpha: ladderAlpha, Branch: branch})
			net.AddSurface(id, network.Surface{Name: "rod", Area: perimeter * dx, Emissivity: ladderEmissivity, Shape: law})
			if i > 0 {
				net.AddLink("rod", previous, id, ladderConduction*area/dx)
			} else {
				first = append(first, id)
				net.AddResistor(network.Resistor{Name: "joint", A: id, B: id, Branch: branch,
					R20: ladderJointOhm * (1 + float64(k)/float64(rods)), Alpha: ladderAlpha})
			}
			previous = id
		}
		last = append(last, previous)
	}
	for k := 1; k < rods; k++ {
		net.AddLink("bar", first[k-1], first[k], ladderEnd)
		net.AddLink("bar", last[k-1], last[k], ladderEnd)
	}
	net.AddHold("body", last[0], ladderEnd, ladderAir)
	net.AddDraw(network.Draw{Name: "load", From: to, To: from, Current: network.Constant(ladderCurrent * float64(rods))})
	return net, net.Finish()
}

// rackStart is all at one temperature, with the currents that flow there.
func rackStart(net *network.Network, temp float64) ([]float64, error) {
	x := make([]float64, net.Unknowns())
	for i := range net.Nodes() {
		x[i] = temp
	}
	return x, net.Connect(0, x)
}

// rackSizes are numbers of rods with numbers of nodes in all.
var rackSizes = []struct {
	rods  int
	nodes []int
}{
	{5, []int{100, 1000, 10000, 100000}},
	{20, []int{100, 1000, 10000, 100000}},
	{200, []int{1000, 10000, 100000}},
}

// benchRack runs a benchmark of every size with the state it starts from. It
// reports the time a node, which stays the same where the cost is linear.
func benchRack(b *testing.B, above float64, run func(b *testing.B, net *network.Network, start []float64)) {
	for _, s := range rackSizes {
		for _, nodes := range s.nodes {
			b.Run(fmt.Sprintf("branches=%d/n=%d", s.rods, nodes), func(b *testing.B) {
				net, err := rack(s.rods, nodes/s.rods)
				if err != nil {
					b.Fatal(err)
				}
				start, err := rackStart(net, ladderAir+above)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportAllocs()
				run(b, net, start)
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(nodes), "ns/node")
			})
		}
	}
}

func BenchmarkBranchesSteady(b *testing.B) {
	benchRack(b, 50, func(b *testing.B, net *network.Network, start []float64) {
		s := solver.NewSteadySolver(net)
		var res solver.SteadyResult
		for b.Loop() {
			if err := s.SolveInto(context.Background(), solver.SteadyOptions{Start: start}, &res); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(res.Stats.Iterations), "iterations")
	})
}

func BenchmarkBranchesSoak(b *testing.B) {
	benchRack(b, 0, func(b *testing.B, net *network.Network, start []float64) {
		soaker := solver.NewSoaker(net)
		var res solver.SoakResult
		for b.Loop() {
			if err := soaker.RunInto(context.Background(), solver.SoakOptions{Start: start, Until: ladderUntil}, &res); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(res.Stats.Steps), "steps")
	})
}
