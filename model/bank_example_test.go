package model_test

import (
	"context"
	"fmt"
	"log"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// Four batteries with a cable each on one bus bar, and a load of 300 A at its
// end: the nearest battery works the most.
func Example_batteries() {
	copper, _ := materials.LookupMetal("copper")
	tin, _ := materials.LookupPlating("tin")
	finish, _ := materials.LookupFinish("bright tin")
	conductor, _ := materials.LookupConductor("1/0 AWG")
	insulation, _ := materials.LookupInsulation("105 °C")

	stack := model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(300),
		Parts: []model.Part{&model.Bar{Label: "bus bar", Metal: copper, Plating: tin, Finish: finish, Width: 25e-3, Thickness: 5e-3, Length: 0.5,
			Exposed: 0.9, Studs: []float64{0.05, 0.15, 0.25, 0.35, 0.45}, StudNames: []string{"A", "B", "C", "D", "out"}}}}
	negative := model.Port{Part: model.Outside}
	for k, name := range []string{"A", "B", "C", "D"} {
		stack.Parts = append(stack.Parts, &model.Cable{Label: "cable " + name, Conductor: conductor, Insulation: insulation, Wall: 2e-3, Length: 0.6, Exposed: 1})
		stack.Joints = append(stack.Joints, model.Joint{Name: "lug " + name, A: model.Port{Part: k + 1, Port: 1}, B: model.Port{Part: 0, Port: k},
			Kind: model.Crimped, Resistance: materials.Exactly(20e-6)})
		stack.Wires = append(stack.Wires, model.Wire{Name: "battery " + name, A: negative, B: model.Port{Part: k + 1}, EMF: 13.2, Resistance: 1e-3})
	}
	stack.Draws = []model.Draw{{Name: "load", From: model.Port{Part: 0, Port: 4}, To: negative}}

	assembly, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		log.Fatal(err)
	}
	settled, err := solver.Steady(context.Background(), assembly.Network, solver.SteadyOptions{Start: assembly.Start(nil)})
	if err != nil {
		log.Fatal(err)
	}
	for i, row := range assembly.Rows {
		if row.Kind == model.PartRow && row.Part > 0 {
			fmt.Printf("%s: %.1f A\n", row.Name, assembly.RowCurrent(i, 0, settled.X))
		}
	}
	// Output:
	// cable A: 72.9 A
	// cable B: 73.7 A
	// cable C: 75.4 A
	// cable D: 78.0 A
}

// An inverter that works five minutes and rests ten, over and over.
func ExampleNewCycle() {
	duty, err := model.NewCycle(model.Piece{From: 180, To: 180, For: 300}, model.Piece{For: 600})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(duty.Period(), "s")
	fmt.Println(duty.Current(100), duty.Current(400), duty.Current(1000), "A")
	fmt.Println(duty.BreaksUntil(2000), "s")
	// Output:
	// 900 s
	// 180 0 180 A
	// [300 900 1200 1800] s
}
