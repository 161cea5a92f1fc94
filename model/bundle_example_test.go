package model_test

import (
	"context"
	"fmt"
	"log"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// The current at which a cable's insulation comes to its 105 °C in air of 30 °C:
// alone, in a row of three and bound together with six others.
func ExampleBundle() {
	conductor, _ := materials.LookupConductor("2 AWG")
	insulation, _ := materials.LookupInsulation("105 °C")
	wall, _, _ := materials.JacketWall(conductor.Area)
	for _, bundle := range []*model.Bundle{
		nil,
		{Count: 3, Arrangement: model.FlatRow},
		{Count: 7, Arrangement: model.RoundBunch},
	} {
		stack := model.Stack{
			Surroundings: model.Surroundings{Air: 303.15},
			Supply:       model.Constant(1),
			Parts: []model.Part{&model.Cable{
				Label: "cable", Conductor: conductor, Insulation: insulation, Wall: wall.Likely, Length: 1, Exposed: 1,
				Bundle: bundle,
			}},
		}
		assembly, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			log.Fatal(err)
		}
		rated, err := solver.NewSteadySolver(assembly.Network).Rate(context.Background(), solver.RateOptions{
			Start:   assembly.Start(nil),
			Targets: []solver.Target{{Nodes: []int{int(assembly.Rows[0].Nodes[0])}, Temp: 378.15}},
		})
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%.0f A\n", rated.Reached[0].Load)
	}
	// Output:
	// 240 A
	// 190 A
	// 125 A
}
