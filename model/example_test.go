package model_test

import (
	"context"
	"fmt"
	"log"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// A cable's lug on a battery post, bolted with 12 N·m, at 140 A.
func Example() {
	copper, _ := materials.LookupMetal("copper")
	tin, _ := materials.LookupPlating("tin")
	finish, _ := materials.LookupFinish("bright tin")
	state, _ := materials.LookupFaceState("as received")
	m8, _ := materials.LookupFastener("M8")
	class, _ := materials.LookupPropertyClass("8.8")
	dry, _ := materials.LookupThreadCondition("dry")
	wrench, _ := materials.LookupTightening("torque wrench")
	conductor, _ := materials.LookupConductor("1/0 AWG")
	insulation, _ := materials.LookupInsulation("105 °C")

	stack := model.Stack{
		Surroundings: model.Surroundings{Air: 298.15},
		Supply:       model.Constant(140),
		Parts: []model.Part{
			&model.Post{Label: "post", Metal: copper, Plating: tin, Finish: finish, Diameter: 10e-3, Length: 10e-3, Exposed: 3e-4,
				Body: &model.Body{Name: "battery", Capacity: 12000, To: materials.Exactly(0.1), Loss: 2}},
			&model.Block{Label: "lug", Metal: copper, Plating: tin, Finish: finish, Length: 30e-3, Width: 20e-3, Thickness: 3e-3, Exposed: 1.5e-3},
			&model.Cable{Label: "cable", Conductor: conductor, Insulation: insulation, Wall: 2e-3, Length: 1.5, Exposed: 1},
		},
		Bolts: []model.Bolt{{Name: "nut", Fastener: m8, Class: class, Thread: dry, Torque: 12, Tightening: wrench, Kept: materials.Exactly(1)}},
		Joints: []model.Joint{
			{Name: "lug on post", A: model.Port{Part: 0, Port: 1}, B: model.Port{Part: 1, Port: 0}, Bolt: 0, Face: model.Face{
				Metals: [2]materials.Metal{copper, copper}, Platings: [2]materials.Plating{tin, tin}, State: state,
				Area: 250e-6, Depth: [2]float64{3e-3, 3e-3}}},
			{Name: "crimp", A: model.Port{Part: 1, Port: 1}, B: model.Port{Part: 2, Port: 0}, Kind: model.Crimped,
				Resistance: materials.Range{Low: 3e-6, Likely: 6e-6, High: 12e-6}},
		},
	}
	assembly, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		log.Fatal(err)
	}
	settled, err := solver.Steady(context.Background(), assembly.Network, solver.SteadyOptions{
		Start: assembly.Start(nil), Ceilings: assembly.Network.Ceilings()})
	if err != nil {
		log.Fatal(err)
	}
	hottest := assembly.HottestTerminal(settled.X)
	row := assembly.Rows[hottest]
	rise := assembly.RowTemp(hottest, settled.X) - stack.Surroundings.Air
	fmt.Printf("hottest terminal: %s; %s: %v\n", row.Name, row.Limits[0].Name, rise < row.Limits[0].Rise)
	// Output:
	// hottest terminal: lug; tin-plated terminal, 65 K rise: true
}

// The clamp force of a torque, by the nut factor and by friction.
func ExampleClampShort() {
	m8, _ := materials.LookupFastener("M8")
	fmt.Printf("%.1f kN\n", model.ClampShort(12, 0.2, m8.Diameter)/1e3)
	fmt.Printf("%.1f kN\n", model.ClampLong(12, m8, 0.14, 0.14)/1e3)
	// Output:
	// 7.5 kN
	// 8.0 kN
}
