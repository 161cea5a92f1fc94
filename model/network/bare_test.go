package network_test

import (
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
)

// rod is a bare rod of cells between two lumps that are numbered next to it,
// so that its links lie within a longer chain.
func rod(t *testing.T, cells int, exponent float64, supply network.Supply) *network.Network {
	t.Helper()
	n := network.New(network.Surroundings{Air: 298})
	node := func(name string) network.NodeID { return n.AddNode(network.Node{Name: name, Capacity: 10}) }
	law := network.PowerLaw{C: 1.32, L: 0.008, M: exponent}
	previous := node("first lump")
	n.AddResistor(network.Resistor{Name: "first", A: previous, B: previous, R20: 1e-4, Alpha: 0.004})
	n.AddSurface(previous, network.Surface{Name: "first", Area: 1e-3, Emissivity: 0.9, Shape: network.Given{H: 5}})
	for i := range cells {
		c := node(fmt.Sprintf("cell %d", i))
		n.AddLink("rod", previous, c, 0.5+0.1*float64(i))
		n.AddResistor(network.Resistor{Name: "rod", A: c, B: c, R20: 1e-5 * float64(1+i), Alpha: 0.004})
		n.AddSurface(c, network.Surface{Name: "rod", Area: 1e-3 * float64(2+i), Emissivity: 0.3, Shape: law})
		previous = c
	}
	last := node("last lump")
	n.AddLink("rod", previous, last, 2)
	n.AddHold("body", last, 0.7, 290)
	n.AddResistor(network.Resistor{Name: "last", A: last, B: last, R20: 2e-4, Alpha: 0.003})
	n.SetSupply(supply, 0)
	if err := n.Finish(); err != nil {
		t.Fatal(err)
	}
	return n
}

// rising is a supply that rises by 3 A/s.
type rising struct{}

func (rising) Current(t float64) float64 { return 100 + 3*t }
func (rising) Slope(float64) float64     { return 3 }

// A rod whose law is next to one of the fourth root is passed kind by kind, one
// of the fourth root in a single loop: they must agree in all that they store.
func TestBareRun(t *testing.T) {
	for _, cells := range []int{1, 2, 7} {
		t.Run(fmt.Sprintf("cells/%d", cells), func(t *testing.T) {
			fused, plain := rod(t, cells, 0.25, rising{}), rod(t, cells, 0.25+1e-12, rising{})
			size := fused.Nodes()
			x := make([]float64, size)
			for i := range x {
				x[i] = 300 + 7*float64(i) + 3*math.Sin(float64(i))
			}
			links := len(fused.Structure().Links)
			jacobian := func() *network.Jacobian {
				return &network.Jacobian{Diag: make([]float64, size), Up: make([]float64, links), Down: make([]float64, links)}
			}
			same := func(what string, a, b []float64) {
				t.Helper()
				for i := range a {
					if d := math.Abs(a[i] - b[i]); d > 1e-9*(1+math.Abs(b[i])) {
						t.Errorf("%s at %d: %g in one loop, %g kind by kind", what, i, a[i], b[i])
					}
				}
			}
			f, g := make([]float64, size), make([]float64, size)
			a, b := fused.Balance(4, x, f), plain.Balance(4, x, g)
			same("balance", f, g)
			same("flow", []float64{a.Made, a.Lost}, []float64{b.Made, b.Lost})
			j, k := jacobian(), jacobian()
			a, b = fused.Linearize(4, x, f, j), plain.Linearize(4, x, g, k)
			same("balance with slopes", f, g)
			same("flow with slopes", []float64{a.Made, a.Lost}, []float64{b.Made, b.Lost})
			same("diagonal", j.Diag, k.Diag)
			same("up", j.Up, k.Up)
			same("down", j.Down, k.Down)
			if !fused.Drift(4, x, f) || !plain.Drift(4, x, g) {
				t.Fatal("a ramp does not drift")
			}
			same("drift", f, g)
			fused.LoadDerivative(4, x, f)
			plain.LoadDerivative(4, x, g)
			same("by load", f, g)
		})
	}
}
