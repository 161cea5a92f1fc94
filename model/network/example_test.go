package network_test

import (
	"context"
	"fmt"
	"log"

	"clampheat/model/network"
	"clampheat/solver"
)

// Two lumps of copper pressed on one another, 250 A through both and through
// the contact: how hot do they get, and how hot the spots of the contact?
func Example() {
	net := network.New(network.Surroundings{Air: 298.15})
	net.SetSupply(network.Constant(250), 0)
	lug := net.AddNode(network.Node{Name: "lug", Capacity: 15})
	bar := net.AddNode(network.Node{Name: "bar", Capacity: 60})
	net.AddLink("contact", lug, bar, 8)
	joint := net.AddResistor(network.Resistor{Name: "contact", A: lug, B: bar, R20: 50e-6, Alpha: 0.00393, Constriction: true})
	net.AddResistor(network.Resistor{Name: "bar", A: bar, B: bar, R20: 60e-6, Alpha: 0.00393})
	net.AddSurface(lug, network.Surface{Name: "lug", Area: 15e-4, Emissivity: 0.1, Shape: network.Block{SqrtArea: 0.039}})
	net.AddSurface(bar, network.Surface{Name: "bar", Area: 120e-4, Emissivity: 0.4, Shape: network.BarOnEdge(0.025, 0.005)})
	if err := net.Finish(); err != nil {
		log.Fatal(err)
	}

	res, err := solver.Steady(context.Background(), net, solver.SteadyOptions{
		Start:    []float64{330, 330},
		Ceilings: net.Ceilings(),
	})
	if err != nil {
		log.Fatal(err)
	}
	for i, t := range res.X {
		fmt.Printf("%s %.0f °C\n", net.NodeName(network.NodeID(i)), t-273.15)
	}
	r := net.ReadResistor(joint, 0, res.X)
	fmt.Printf("contact %.1f mV, %.1f W, spots %.0f °C\n", 1e3*r.Drop, r.Heat, r.Spot-273.15)
	fmt.Printf("made %.1f W, lost %.1f W\n", res.Flow.Made, res.Flow.Lost)
	// Output:
	// lug 77 °C
	// bar 77 °C
	// contact 15.4 mV, 3.9 W, spots 81 °C
	// made 8.5 W, lost 8.5 W
}
