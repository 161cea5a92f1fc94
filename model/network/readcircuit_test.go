package network_test

import (
	"context"
	"fmt"
	"log"
	"math"
	"slices"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// Readings are the parts of the circuit's equations and of the balance: they add
// up to them.
func TestReadingsOfBranchesAddUp(t *testing.T) {
	const ripple = 0.3
	net := network.New(network.Surroundings{Air: 300})
	net.SetSupply(nil, ripple)
	a, b := net.AddNode(network.Node{Name: "a"}), net.AddNode(network.Node{Name: "b"})
	hold := net.AddHold("body", a, 1, 310)
	toAir := net.AddHoldToAir("bulkhead", b, 2)
	vent := net.AddVent(network.Vent{Name: "vent", Node: b, Flow: 0.5, Buoyant: 2})
	source := net.AddSource("charger", a, 3)
	net.AddLink("l", a, b, 1)
	minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
	battery := net.AddBranch(network.Branch{Name: "battery", From: minus, To: plus, EMF: 12, Ohms: 1e-3})
	lead := net.AddBranch(network.Branch{Name: "lead", From: plus, To: minus, Ohms: 0.1})
	on := []network.ResistorID{
		net.AddResistor(network.Resistor{Name: "joint", A: a, B: b, R20: 1e-4, Alpha: 0.004, Film: 2e-5, Constriction: true, Branch: battery}),
		net.AddResistor(network.Resistor{Name: "twin", A: a, B: b, R20: 1e-4, Alpha: 0.004, Film: 2e-5, Constriction: true, Branch: battery, Elsewhere: true}),
		net.AddResistor(network.Resistor{Name: "own", A: a, B: a, R20: 2e-4, Alpha: 0.004, Branch: battery}),
	}
	off := net.AddResistor(network.Resistor{Name: "strap", A: b, B: b, R20: 3e-4, Branch: lead})
	lamp := net.AddDraw(network.Draw{Name: "lamp", From: plus, To: minus, Current: network.Constant(40)})
	inverter := net.AddDraw(network.Draw{Name: "inverter", From: plus, To: minus, Power: network.Constant(500)})
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	// Not a solution, so that residuals are there to be added up to.
	x := []float64{371, 352, 90, -7, 45, 11.5}
	f := make([]float64, len(x))
	flow := net.Balance(0, x, f)
	drop, heat := 0.0, 0.0
	for _, id := range on {
		r := net.ReadResistor(id, 0, x)
		drop, heat = drop+r.Drop, heat+r.Heat
		near(t, "drop at the mean current", r.Drop, 90*r.Ohm, 1e-14)
	}
	if twin := net.ReadResistor(on[1], 0, x); twin.Heat != 0 || twin.Drop != net.ReadResistor(on[0], 0, x).Drop {
		t.Errorf("a twin elsewhere reads %+v", twin)
	}
	joint := net.ReadResistor(on[0], 0, x)
	near(t, "heat at the root mean square", joint.Heat, 90*90*(1+ripple*ripple)*joint.Ohm, 1e-14)
	near(t, "spot by Kohlrausch", joint.Spot, math.Sqrt(square(361.5)+(1+ripple*ripple)*square(joint.ConstrictionVolts)/(4*2.45e-8)), 1e-12)
	back := net.ReadResistor(off, 0, x)
	near(t, "drop against the branch", back.Drop, -7*back.Ohm, 1e-14)
	near(t, "heat against the branch", back.Heat, 49*(1+ripple*ripple)*back.Ohm, 1e-14)
	near(t, "made", flow.Made, heat+back.Heat+net.ReadSource(source), 1e-13)
	near(t, "lost", flow.Lost, net.ReadHold(hold, x)+net.ReadHold(toAir, x)+net.ReadVent(vent, 0, x), 1e-13)
	r := net.ReadBranch(battery, 0, x)
	near(t, "drop of the branch", r.Drop, drop+90*1e-3, 1e-13)
	near(t, "equation of the branch", f[2], -11.5+12-r.Drop, 1e-12)
	near(t, "equation of the draw", f[4], 500-net.ReadDraw(inverter, 0, x).Power, 1e-12)
	near(t, "power of the draw", net.ReadDraw(inverter, 0, x).Power, 45*11.5, 1e-14)
	near(t, "equation of the junction", f[5], 90+7-45-net.ReadDraw(lamp, 0, x).Current, 1e-12)
	near(t, "equation of the other branch", f[3], 11.5-net.ReadBranch(lead, 0, x).Drop, 1e-12)
	// Those of branches against the largest voltage, 12 V, the draw's against that
	// times the largest current, 90 A, the junction's against that.
	want := math.Max(math.Max(math.Abs(f[2]), math.Abs(f[3]))/12, math.Max(math.Abs(f[4])/(12*90), math.Abs(f[5])/90))
	near(t, "Kirchhoff", net.Kirchhoff(0, x), want, 1e-12)
	for i := range x {
		bad := slices.Clone(x)
		bad[i] = math.NaN()
		if k := net.Kirchhoff(0, bad); !math.IsInf(k, 1) {
			t.Errorf("Kirchhoff with no number for unknown %d: %g", i, k)
		}
	}
}

// Two batteries on a common bar, the second a little lower: what does each give
// to an inverter of 1 kW?
func ExampleNetwork_AddBranch() {
	net := network.New(network.Surroundings{Air: 298.15})
	minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
	for _, volts := range []float64{13.3, 13.2} {
		holder := net.AddNode(network.Node{Name: "holder", Capacity: 40})
		net.AddSurface(holder, network.Surface{Name: "holder", Area: 60e-4, Emissivity: 0.9, Shape: network.Block{SqrtArea: 0.077}})
		battery := net.AddBranch(network.Branch{Name: "battery", From: minus, To: plus, EMF: volts, Ohms: 4e-3})
		net.AddResistor(network.Resistor{Name: "fuse", A: holder, B: holder, R20: 8e-4, Alpha: 0.004, Branch: battery})
	}
	inverter := net.AddDraw(network.Draw{Name: "inverter", From: plus, To: minus, Power: network.Constant(1000)})
	if err := net.Finish(); err != nil {
		log.Fatal(err)
	}

	start := make([]float64, net.Unknowns())
	for i := range net.Nodes() {
		start[i] = 330
	}
	if err := net.Connect(0, start); err != nil {
		log.Fatal(err)
	}
	res, err := solver.Steady(context.Background(), net, solver.SteadyOptions{Start: start})
	if err != nil {
		log.Fatal(err)
	}
	for b := range network.BranchID(2) {
		fmt.Printf("battery %d: %.1f A, holder %.0f °C\n", b+1, net.ReadBranch(b+1, 0, res.X).Current, res.X[b]-273.15)
	}
	d := net.ReadDraw(inverter, 0, res.X)
	fmt.Printf("inverter: %.1f A at %.2f V\n", d.Current, d.Voltage)
	// Output:
	// battery 1: 48.3 A, holder 52 °C
	// battery 2: 28.2 A, holder 35 °C
	// inverter: 76.6 A at 13.06 V
}
