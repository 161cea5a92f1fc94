package network_test

import (
	"fmt"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// bank is a bank of batteries on a common bar: m branches of so many cells, each
// a rod with a joint at its end, in a box with a vent, a lamp and an inverter.
func bank(tb testing.TB, m, cells int) *network.Network {
	tb.Helper()
	net := network.New(network.Surroundings{Air: 298.15})
	net.SetAir(ramp{298.15, 0.001})
	minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
	bar := net.AddNode(network.Node{Name: "bar", Capacity: 500})
	air, wall := net.AddNode(network.Node{Name: "air", Capacity: 10}), net.AddNode(network.Node{Name: "wall", Capacity: 3000})
	box := net.AddSpace("box", air, wall)
	for k := range m {
		b := net.AddBranch(network.Branch{Name: fmt.Sprintf("battery %d", k), From: minus, To: plus, EMF: 13.2, Ohms: 2e-3 + 1e-5*float64(k)})
		for i := range cells {
			id := net.AddNode(network.Node{Name: "cell", Capacity: 20})
			net.AddResistor(network.Resistor{Name: "cell", A: id, B: id, R20: 2e-5, Alpha: 0.00393, Branch: b})
			net.AddSurface(id, network.Surface{Name: "cell", Area: 1e-3, Emissivity: 0.4, Shape: network.HorizontalCylinder{D: 0.014}, In: box})
			if i > 0 {
				net.AddLink("cells", id-1, id, 1.5)
			}
			if i == cells-1 {
				net.AddLink("joint", id, bar, 5)
				net.AddResistor(network.Resistor{Name: "joint", A: id, B: bar, R20: 3e-5, Alpha: 0.00393, Film: 1e-6, Constriction: true, Branch: b})
			}
		}
	}
	net.AddSurface(wall, network.Surface{Name: "inner face", Area: 0.4, Shape: network.VerticalPlate{H: 0.3}, In: box})
	net.AddSurface(wall, network.Surface{Name: "outer face", Area: 0.4, Emissivity: 0.9, Shape: network.VerticalPlate{H: 0.3}})
	net.AddVent(network.Vent{Name: "vent", Node: air, Buoyant: 3})
	net.AddDraw(network.Draw{Name: "lamp", From: plus, To: minus, Current: ramp{100 * float64(m), 0.01}})
	net.AddDraw(network.Draw{Name: "inverter", From: plus, To: minus, Power: network.Constant(500 * float64(m))})
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

// BenchmarkBranches is what a network of many branches costs to evaluate.
func BenchmarkBranches(b *testing.B) {
	for _, size := range [][2]int{{5, 40}, {20, 40}, {200, 4}, {200, 40}} {
		net := bank(b, size[0], size[1])
		x, f := make([]float64, net.Unknowns()), make([]float64, net.Unknowns())
		for i := range x {
			x[i] = 310 + 0.01*float64(i)
		}
		j := solver.NewJacobian(net.Structure())
		name := fmt.Sprintf("branches=%d/n=%d", size[0], net.Nodes())
		perNode := func(b *testing.B) {
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(net.Nodes()), "ns/node")
		}
		b.Run("balance/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				net.Balance(0, x, f)
			}
			perNode(b)
		})
		b.Run("linearize/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				net.Linearize(0, x, f, j)
			}
			perNode(b)
		})
	}
}
