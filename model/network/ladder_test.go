package network_test

import (
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// ladder is a bare round copper rod cut into n cells, heated by 160 A, with
// the heat and mass of a joint on the first cell and a held body on the last:
// the smallest network with all kinds of things and the one to count
// nanoseconds on.
func ladder(tb testing.TB, n int) *network.Network {
	tb.Helper()
	const (
		length, dia = 1.0, 0.008
		air         = 298.15
	)
	area, per, dx := math.Pi*dia*dia/4, math.Pi*dia, length/float64(n)
	net := network.New(network.Surroundings{Air: air})
	net.SetSupply(network.Constant(160), 0)
	c := 8933 * 385 * area * dx
	for i := range n {
		own := c
		if i == 0 {
			own += 150
		}
		id := net.AddNode(network.Node{Name: fmt.Sprintf("cell %d", i), Capacity: own})
		net.AddResistor(network.Resistor{Name: "cell", A: id, B: id, R20: 1.7241e-8 * dx / area, Alpha: 0.00393})
		net.AddSurface(id, network.Surface{Name: "cell", Area: per * dx, Emissivity: 0.4,
			Shape: network.PowerLaw{C: 1.32, L: dia, M: 0.25}})
		if i > 0 {
			net.AddLink("cells", id-1, id, 390*area/dx)
		}
	}
	net.AddResistor(network.Resistor{Name: "joint", A: 0, B: 0, R20: 0.25e-3, Alpha: 0.00393})
	net.AddHold("body", network.NodeID(n-1), 0.5, air)
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

// cable is a row of n cells whose sides are of the shape, so that the tables
// are at work.
func cable(tb testing.TB, n int, shape network.Shape) *network.Network {
	tb.Helper()
	net := network.New(network.Surroundings{Air: 298.15})
	net.SetSupply(network.Constant(160), 0)
	for i := range n {
		id := net.AddNode(network.Node{Name: fmt.Sprintf("cell %d", i), Capacity: 5})
		net.AddResistor(network.Resistor{Name: "cell", A: id, B: id, R20: 2e-5, Alpha: 0.00393})
		net.AddSurface(id, network.Surface{Name: "cell", Area: 5e-4, Emissivity: 0.9, Shape: shape})
		if i > 0 {
			net.AddLink("cells", id-1, id, 1.5)
		}
	}
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

func slope(n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = 310 + 40*float64(i)/float64(n)
	}
	return x
}

var shapes = []struct {
	name  string
	shape network.Shape
}{
	{"power", network.PowerLaw{C: 1.32, L: 0.008, M: 0.25}},
	{"third", network.PowerLaw{C: 1.24, L: 1, M: 1.0 / 3}},
	{"cylinder", network.HorizontalCylinder{D: 0.014}},
	{"edge", network.BarOnEdge(0.03, 0.005)},
	{"box", network.Box(0.05, 0.03, 0.02)},
	{"wind", network.MovingAir{Speed: 0.5, Length: 0.014, Over: network.HorizontalCylinder{D: 0.014}}},
}

func BenchmarkBalance(b *testing.B) {
	run := func(net *network.Network) func(b *testing.B) {
		return func(b *testing.B) {
			n := net.Nodes()
			x, f := slope(n), make([]float64, n)
			b.ReportAllocs()
			for b.Loop() {
				net.Balance(0, x, f)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/node")
		}
	}
	for _, n := range []int{50, 200, 1000, 10000} {
		b.Run(fmt.Sprintf("ladder/n=%d", n), run(ladder(b, n)))
	}
	for _, s := range shapes {
		b.Run("shape="+s.name+"/n=200", run(cable(b, 200, s.shape)))
	}
}

func BenchmarkLinearize(b *testing.B) {
	run := func(net *network.Network) func(b *testing.B) {
		return func(b *testing.B) {
			n := net.Nodes()
			x, f := slope(n), make([]float64, n)
			j := solver.NewJacobian(net.Structure())
			b.ReportAllocs()
			for b.Loop() {
				net.Linearize(0, x, f, j)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/node")
		}
	}
	for _, n := range []int{50, 200, 1000, 10000} {
		b.Run(fmt.Sprintf("ladder/n=%d", n), run(ladder(b, n)))
	}
	for _, s := range shapes {
		b.Run("shape="+s.name+"/n=200", run(cable(b, 200, s.shape)))
	}
}

// BenchmarkFinish is what it costs to make a network of a few shapes.
func BenchmarkFinish(b *testing.B) {
	for b.Loop() {
		cable(b, 20, network.HorizontalCylinder{D: 0.014})
		cable(b, 20, network.BarOnEdge(0.03, 0.005))
		cable(b, 20, network.Box(0.05, 0.03, 0.02))
	}
}

// The rod's balance written down plainly, cell by cell.
func TestLadderAgainstPlainFormula(t *testing.T) {
	const (
		n, dia, air = 40, 0.008, 298.15
		sigma       = 5.670374419e-8 // CODATA 2018
	)
	area, per, dx := math.Pi*dia*dia/4, math.Pi*dia, 1.0/n
	x := slope(n)
	x[3], x[4] = air, air-2
	f := make([]float64, n)
	ladder(t, n).Balance(0, x, f)
	for i, temp := range x {
		d := temp - air
		hot := 1 + 0.00393*(temp-293.15)
		want := 160*160*1.7241e-8*dx/area*hot -
			1.32*math.Pow(math.Abs(d)/dia, 0.25)*per*dx*d -
			0.4*sigma*per*dx*(math.Pow(temp, 4)-math.Pow(air, 4))
		if i > 0 {
			want += 390 * area / dx * (x[i-1] - temp)
		} else {
			want += 160 * 160 * 0.25e-3 * hot
		}
		if i < n-1 {
			want += 390 * area / dx * (x[i+1] - temp)
		} else {
			want -= 0.5 * d
		}
		if math.Abs(f[i]-want) > 1e-9*(1+math.Abs(want)) {
			t.Errorf("cell %d: %.12g W, want %.12g W", i, f[i], want)
		}
	}
}
