package network_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// Each fault is found and names its thing.
func TestFinishFindsFaults(t *testing.T) {
	room := network.Surroundings{Air: 298}
	sound := func() (*network.Network, network.NodeID) {
		net := network.New(room)
		id := net.AddNode(network.Node{Name: "lump", Capacity: 1})
		net.AddHold("body", id, 1, 298)
		return net, id
	}
	surface := func(s network.Surface) func(*network.Network, network.NodeID) {
		return func(n *network.Network, id network.NodeID) { s.Name = "skin"; n.AddSurface(id, s) }
	}
	for _, c := range []struct {
		name string
		add  func(*network.Network, network.NodeID)
		want string
	}{
		{"link/no conductance", func(n *network.Network, id network.NodeID) {
			n.AddLink("strap", id, n.AddNode(network.Node{Name: "other"}), 0)
		}, "strap has a conductance"},
		{"link/to itself", func(n *network.Network, id network.NodeID) { n.AddLink("strap", id, id, 1) }, "strap links a node with itself"},
		{"link/unknown node", func(n *network.Network, id network.NodeID) { n.AddLink("strap", id, 7, 1) }, "strap is on node 7"},
		{"hold/at zero", func(n *network.Network, id network.NodeID) { n.AddHold("wall", id, 1, 0) }, "wall is held"},
		{"node/negative capacity", func(n *network.Network, _ network.NodeID) {
			id := n.AddNode(network.Node{Name: "ghost", Capacity: -1})
			n.AddHold("h", id, 1, 298)
		}, "ghost has a heat capacity"},
		{"node/stranded", func(n *network.Network, _ network.NodeID) { n.AddNode(network.Node{Name: "island"}) }, "island has no way"},
		{"node/stranded behind a closed gap", func(n *network.Network, id network.NodeID) {
			n.AddGap("layer", id, n.AddNode(network.Node{Name: "island"}), network.Gap{Distance: 0.01, Height: 0.1})
		}, "island has no way"},
		{"node/stranded with a bare surface", func(n *network.Network, _ network.NodeID) {
			n.AddSurface(n.AddNode(network.Node{Name: "island"}), network.Surface{Name: "skin", Area: 1})
		}, "island has no way"},
		{"resistor/negative", func(n *network.Network, id network.NodeID) {
			n.AddResistor(network.Resistor{Name: "joint", A: id, B: id, R20: -1e-6})
		}, "joint has a resistance"},
		{"resistor/absurd coefficient", func(n *network.Network, id network.NodeID) {
			n.AddResistor(network.Resistor{Name: "joint", A: id, B: id, Alpha: 3.9})
		}, "joint has a temperature coefficient"},
		{"surface/not a number", surface(network.Surface{Area: math.NaN()}), "skin has an area"},
		{"surface/emissivity", surface(network.Surface{Area: 1, Emissivity: 1.3}), "skin has an emissivity"},
		{"surface/no diameter", surface(network.Surface{Area: 1, Shape: network.HorizontalCylinder{}}), "skin has a length"},
		{"surface/shares", surface(network.Surface{Area: 1, Shape: network.Faces{Faces: []network.Face{{Share: 0.7, Shape: network.VerticalPlate{H: 1}}}}}), "add up to 1"},
		{"surface/face of another kind", surface(network.Surface{Area: 1, Shape: network.Faces{Faces: []network.Face{{Share: 1, Shape: network.Given{H: 1}}}}}), "not one of natural convection"},
		{"surface/wind over nothing", surface(network.Surface{Area: 1, Shape: network.MovingAir{Speed: 1, Length: 1}}), "without its shape in still air"},
		{"surface/pointer to a shape", surface(network.Surface{Area: 1, Shape: &network.Given{H: 3}}), "*network.Given"},
		{"surface/nil pointer to a shape", surface(network.Surface{Area: 1, Shape: (*network.VerticalPlate)(nil)}), "*network.VerticalPlate"},
		{"surface/pointer to a face's shape", surface(network.Surface{Area: 1, Shape: network.Faces{Faces: []network.Face{{Share: 1, Shape: &network.VerticalPlate{H: 1}}}}}), "given by value"},
		{"surface/wind over a pointer", surface(network.Surface{Area: 1, Shape: network.MovingAir{Speed: 1, Length: 1, Over: &network.VerticalPlate{H: 1}}}), "given by value"},
		{"surface/no wind", surface(network.Surface{Area: 1, Shape: network.MovingAir{Length: 1, Over: network.VerticalPlate{H: 1}}}), "air speed"},
		{"surface/power law", surface(network.Surface{Area: 1, Shape: network.PowerLaw{C: 1, L: 1, M: 2}}), "power law"},
		{"gap/no distance", func(n *network.Network, id network.NodeID) {
			n.AddGap("layer", id, n.AddNode(network.Node{Name: "cover"}), network.Gap{Area: 1, Height: 1})
		}, "layer has a length"},
	} {
		t.Run(c.name, func(t *testing.T) {
			net, id := sound()
			c.add(net, id)
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
	t.Run("nothing/wrong", func(t *testing.T) {
		net, _ := sound()
		if err := net.Finish(); err != nil {
			t.Error(err)
		}
	})
	t.Run("room/no air", func(t *testing.T) {
		net := network.New(network.Surroundings{})
		net.AddHold("h", net.AddNode(network.Node{}), 1, 300)
		if err := net.Finish(); err == nil || !strings.Contains(err.Error(), "room") {
			t.Errorf("got %v", err)
		}
	})
	t.Run("two faults/both told", func(t *testing.T) {
		net, id := sound()
		net.AddLink("strap", id, id, 1)
		net.AddNode(network.Node{Name: "island"})
		err := net.Finish()
		if err == nil || !strings.Contains(err.Error(), "strap") || !strings.Contains(err.Error(), "island") {
			t.Errorf("got %v", err)
		}
	})
}

// A clone has supply, load and resistances of its own.
func TestClone(t *testing.T) {
	net := ladder(t, 10)
	other := net.Clone()
	if err := other.SetResistor(10, 0.5e-3, 1e-5); err != nil {
		t.Fatal(err)
	}
	other.SetSupply(network.Constant(80), 0)
	other.SetLoad(0.5)
	x := slope(10)
	joint := net.ReadResistor(10, 0, x)
	if want := 0.25e-3 * (1 + 0.00393*(x[0]-293.15)); math.Abs(joint.Ohm-want) > 1e-12*want || joint.Heat != joint.Ohm*160*160 {
		t.Errorf("the first one's joint reads %+v", joint)
	}
	joint = other.ReadResistor(10, 0, x)
	if want := 0.5e-3*(1+0.00393*(x[0]-293.15)) + 1e-5; math.Abs(joint.Ohm-want) > 1e-12*want {
		t.Errorf("the clone's joint reads %+v", joint)
	}
	f, g := make([]float64, 10), make([]float64, 10)
	made, cloned := net.Balance(0, x, f).Made, other.Balance(0, x, g).Made
	rod := made - 160*160*0.25e-3*(1+0.00393*(x[0]-293.15))
	want := rod/16 + 40*40*joint.Ohm
	if math.Abs(cloned-want) > 1e-9*want {
		t.Errorf("the clone makes %.10g W, want %.10g W", cloned, want)
	}
	if err := other.SetResistor(10, math.NaN(), 0); err == nil {
		t.Error("a resistance that is not a number was taken")
	}
}

// Clones work side by side and agree.
func TestClonesSideBySide(t *testing.T) {
	net := cable(t, 30, network.BarOnEdge(0.03, 0.005))
	x := slope(30)
	want := make([]float64, 30)
	net.Balance(0, x, want)
	var wg sync.WaitGroup
	for range 4 {
		c := net.Clone()
		wg.Go(func() {
			f := make([]float64, 30)
			for range 50 {
				c.Balance(0, x, f)
				if !slices.Equal(f, want) {
					t.Error("a clone's balance differs")
					return
				}
				if err := c.SetResistor(0, 2e-5, 0); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
}

// A range that is left is told, and only then.
func TestSurfaceWarnings(t *testing.T) {
	for _, c := range []struct {
		name  string
		shape network.Shape
		temp  float64
		want  string // "" = none
	}{
		{"cylinder/usual", network.HorizontalCylinder{D: 0.01}, 350, ""},
		{"face down/small", network.FaceDown{L: 0.002}, 350, "against the rising air: Ra"},
		{"face down/small and cold is a face up", network.FaceDown{L: 0.01}, 250, ""},
		{"block/large", network.Block{SqrtArea: 2}, 350, "compact block: Ra"},
		{"air/too hot", network.HorizontalCylinder{D: 0.01}, 2900, "air at 1600 K"},
		{"wind/slight", network.MovingAir{Speed: 1e-3, Length: 1e-3, Over: network.HorizontalCylinder{D: 1e-3}}, 350, "Re·Pr"},
	} {
		t.Run(c.name, func(t *testing.T) {
			net := network.New(network.Surroundings{Air: 300})
			id := net.AddNode(network.Node{Name: "n"})
			s := net.AddSurface(id, network.Surface{Area: 1, Shape: c.shape})
			if err := net.Finish(); err != nil {
				t.Fatal(err)
			}
			got := strings.Join(net.ReadSurface(s, []float64{c.temp}).Warnings, "; ")
			if (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// Links between the same nodes share a place in the structure, neighbours
// first.
func TestStructure(t *testing.T) {
	net := network.New(network.Surroundings{Air: 300})
	for range 5 {
		net.AddNode(network.Node{Name: "n"})
	}
	net.AddLink("far", 4, 0, 1)
	net.AddLink("b", 2, 1, 1)
	net.AddLink("b again", 1, 2, 1)
	net.AddLink("a", 0, 1, 1)
	net.AddLink("d", 3, 4, 1)
	net.AddResistor(network.Resistor{A: 3, B: 1})
	net.AddHold("h", 0, 1, 300)
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	got := net.Structure()
	want := [][2]int{{0, 1}, {1, 2}, {3, 4}, {0, 4}, {1, 3}}
	if got.Nodes != 5 || got.Globals != 0 || len(got.Links) != len(want) {
		t.Fatalf("got %+v", got)
	}
	for i := range want {
		if got.Links[i] != want[i] {
			t.Errorf("pair %d: %v, want %v", i, got.Links[i], want[i])
		}
	}
}

// A network that was not finished is answered in words by every solver.
func TestUnfinishedIsRefused(t *testing.T) {
	net := network.New(network.Surroundings{Air: 298})
	net.AddHold("body", net.AddNode(network.Node{Name: "lump", Capacity: 1}), 1, 298)
	ask := map[string]func() error{
		"steady": func() error {
			_, err := solver.Steady(context.Background(), net, solver.SteadyOptions{Start: []float64{298}})
			return err
		},
		"soak": func() error {
			_, err := solver.Soak(context.Background(), net, solver.SoakOptions{Start: []float64{298}, Until: 1})
			return err
		},
	}
	for name, f := range ask {
		var setup *network.SetupError
		if err := f(); !errors.As(err, &setup) || !strings.Contains(err.Error(), "not finished") {
			t.Errorf("%s: %v, want a network that was not finished", name, err)
		}
	}
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	for name, f := range ask {
		if err := f(); err != nil {
			t.Errorf("%s, finished: %v", name, err)
		}
	}
}
