package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// This file holds the air that warm boxes draw through a low and a high opening
// against the stack effect as handbooks of ventilation have it,
//
//	Q = C_d A √(2 g H ΔT/T_i),  1/A² = 1/A_1² + 1/A_2²
//
// with T_i that of the warm air. A C_d of 0.6 is that of a sharp-edged opening.

const (
	stackEffect = "ASHRAE Handbook Fundamentals, 2009, ch. 16; BS 5925:1991, table 8" + fromMemory
	sharpEdged  = 0.6

	inLowVent  = "low vent, m²"
	inHighVent = "high vent, m²"
)

// ventedBox is the medium box with vents, settled: rise of the air, K, and heat
// through the vents, W.
func ventedBox(ctx context.Context, in Inputs) (rise, watts float64, err error) {
	s, err := mediumMetalBox.holding(in[inBoxHeat], false)
	if err != nil {
		return 0, 0, err
	}
	s.Enclosure.Inlet, s.Enclosure.Outlet, s.Enclosure.VentRise = in[inLowVent], in[inHighVent], in[inVentRise]
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return 0, 0, err
	}
	res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil)})
	if err != nil {
		return 0, 0, err
	}
	r := a.ReadBox(0, res.X)
	return r.Air - s.Surroundings.Air, r.Vents, nil
}

func ventCases() ([]Case, error) {
	room, err := materials.DryAir(standardRoom, materials.StandardPressure)
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, v := range []struct{ low, high, height, watts float64 }{
		{20e-4, 20e-4, 0.4, 60}, {20e-4, 60e-4, 0.5, 60}, {100e-4, 100e-4, 0.5, 200},
	} {
		given := Inputs{inLowVent: v.low, inHighVent: v.high, inVentRise: v.height, inBoxHeat: v.watts}
		area := 1 / math.Sqrt(1/(v.low*v.low)+1/(v.high*v.high))
		cases = append(cases, Case{
			Group: "boxes", Name: fmt.Sprintf("vents/%.0f and %.0f cm², %.0f W", v.low*1e4, v.high*1e4, v.watts), Kind: Published,
			Claim:  fmt.Sprintf("heat through two vents %.1f m apart over ρ c Q ΔT at the rise that it leaves", v.height),
			Source: stackEffect, Inputs: given, Breaks: inVentRise,
			Unit: "1", Want: 1, Tol: Abs(0.05, ""),
			Why: "the relation is stated with the cold or the warm temperature below the root, and the flow at the one or the other",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				rise, watts, err := ventedBox(ctx, in)
				if err != nil {
					return 0, err
				}
				flow := sharpEdged * area * math.Sqrt(2*materials.Gravity*v.height*rise/(standardRoom+rise))
				return watts / (room.Density * room.SpecificHeat * flow * rise), nil
			},
		})
	}
	return cases, nil
}
