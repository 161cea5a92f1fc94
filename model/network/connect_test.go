package network_test

import (
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// The potentials of a random mesh of batteries are those that the full matrix of
// conductances gives, solved by gonum.
func TestConnectAgainstFullMatrix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := network.New(network.Surroundings{Air: 300})
		net.AddHold("body", net.AddNode(network.Node{Name: "lump"}), 1, 300)
		points := rapid.IntRange(2, 40).Draw(t, "junctions")
		for i := range points {
			net.AddJunction(fmt.Sprintf("junction %d", i))
		}
		a, b := mat.NewDense(points, points, nil), mat.NewVecDense(points, nil)
		branch := func(from, to int) {
			volts, ohms := rapid.Float64Range(-15, 15).Draw(t, "volts"), math.Pow(10, rapid.Float64Range(-5, 0).Draw(t, "ohms"))
			net.AddBranch(network.Branch{Name: "branch", From: network.JunctionID(from), To: network.JunctionID(to), EMF: volts, Ohms: ohms})
			for _, e := range [2][2]int{{from, to}, {to, from}} {
				a.Set(e[0], e[0], a.At(e[0], e[0])+1/ohms)
				a.Set(e[0], e[1], a.At(e[0], e[1])-1/ohms)
			}
			b.SetVec(from, b.AtVec(from)-volts/ohms)
			b.SetVec(to, b.AtVec(to)+volts/ohms)
		}
		for i := 1; i < points; i++ {
			branch(i, rapid.IntRange(0, i-1).Draw(t, "to"))
		}
		for range rapid.IntRange(0, 2*points).Draw(t, "more") {
			from := rapid.IntRange(0, points-1).Draw(t, "from")
			branch(from, (from+rapid.IntRange(1, points-1).Draw(t, "onto"))%points)
		}
		if err := net.Finish(); err != nil {
			t.Fatal(err)
		}
		x := make([]float64, net.Unknowns())
		x[0] = 300
		if err := net.Connect(0, x); err != nil {
			t.Fatal(err)
		}
		for k := range points { // the first junction is earth
			a.Set(0, k, 0)
		}
		a.Set(0, 0, 1)
		b.SetVec(0, 0)
		var v mat.VecDense
		if err := v.SolveVec(a, b); err != nil {
			t.Skip("too ill-conditioned to compare with")
		}
		most := mat.Norm(&v, math.Inf(1))
		for k := range points {
			if got := net.Potential(network.JunctionID(k), x); math.Abs(got-v.AtVec(k)) > 1e-8*(1+most) {
				t.Fatalf("junction %d of %d: %.12g V, by the full matrix %.12g V", k, points, got, v.AtVec(k))
			}
		}
	})
}

// rails are batteries side by side between two rails of many pieces, with a load
// at their end: as many junctions as there are ends of pieces.
func rails(tb testing.TB, m int) *network.Network {
	tb.Helper()
	net := network.New(network.Surroundings{Air: 298.15})
	net.AddHold("body", net.AddNode(network.Node{Name: "lump"}), 1, 298.15)
	var below, above network.JunctionID
	for k := range m {
		minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
		net.AddBranch(network.Branch{Name: "battery", From: minus, To: plus, EMF: 13.2, Ohms: 2e-3})
		if k > 0 {
			net.AddBranch(network.Branch{Name: "rail", From: below, To: minus, Ohms: 2e-5})
			net.AddBranch(network.Branch{Name: "rail", From: above, To: plus, Ohms: 2e-5})
		}
		below, above = minus, plus
	}
	net.AddDraw(network.Draw{Name: "inverter", From: above, To: 0, Power: network.Constant(1000)})
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

// BenchmarkConnect is what the currents of a bank cost at given temperatures:
// batteries on one bar, and between rails of as many pieces.
func BenchmarkConnect(b *testing.B) {
	for _, m := range []int{50, 200, 800, 3200} {
		for name, net := range map[string]*network.Network{"bar": bank(b, m, 4), "rails": rails(b, m)} {
			x := make([]float64, net.Unknowns())
			for i := range net.Nodes() {
				x[i] = 310
			}
			b.Run(fmt.Sprintf("%s/branches=%d", name, m), func(b *testing.B) {
				for b.Loop() {
					if err := net.Connect(0, x); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
