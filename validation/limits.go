package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds what a conductor may carry, for the blink of a fault and in
// air of another temperature, against the tables of the wiring standards.

func limitCases() ([]Case, error) {
	cases, err := faultCases()
	if err != nil {
		return nil, err
	}
	insulation, err := insulationCases()
	if err != nil {
		return nil, err
	}
	ambient, err := ambientCases()
	if err != nil {
		return nil, err
	}
	return append(append(cases, insulation...), ambient...), nil
}

// faultMetals are heat by volume, resistivity at 20 °C and β of the standard's
// annex A, quoted from memory. The copper rows are in analytic.go.
var faultMetals = map[string]struct{ heat, resistivity, beta float64 }{
	"aluminium": {2.5e6, 28.264e-9, 228}, // J/(K·m³), Ω·m, °C
	"steel":     {3.8e6, 138e-9, 202},
}

// faultCases heat a conductor that loses nothing by a fault current and
// read k = I·√t/S from the time that it takes.
func faultCases() ([]Case, error) {
	table, err := openSheet("adiabatic_k")
	if err != nil {
		return nil, err
	}
	const (
		heatIn, rhoIn, betaIn = "heat capacity, J/(K·m³)", "resistivity, Ω·m", "β, °C"
		startIn, endIn        = "start, °C", "end, °C"
		area, length, current = 1e-6, 1.0, 100.0
	)
	var cases []Case
	for _, r := range table.rows {
		m, ok := faultMetals[r.text("metal")]
		if !ok {
			continue
		}
		cases = append(cases, Case{
			Group: "limits", Kind: Published,
			Name:   fmt.Sprintf("adiabatic k/%s, %s, %s to %s °C", r.text("metal"), r.text("insulation"), r.text("start_C"), r.text("end_C")),
			Claim:  "k of I²t = (k·S)² from the time that a fault takes to heat a conductor",
			Source: r.source("IEC 60364-5-54:2011"),
			Inputs: Inputs{heatIn: m.heat, rhoIn: m.resistivity, betaIn: m.beta, startIn: r.number("start_C"), endIn: r.number("end_C")},
			Breaks: rhoIn, Unit: "A·√s/mm²", Want: r.number("printed_k_A_s0.5_mm2"),
			Tol: r.printed("printed_k_A_s0.5_mm2", 0.01, ""), Why: "printed to the integer, from constants rounded to a few thousandths",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				net := network.New(network.Surroundings{Air: 293.15})
				wire := net.AddNode(network.Node{Name: "wire", Capacity: in[heatIn] * area * length})
				net.AddResistor(network.Resistor{Name: "wire", A: wire, B: wire,
					R20: in[rhoIn] * length / area, Alpha: 1 / (in[betaIn] + 20)})
				net.SetSupply(network.Constant(current), 0)
				// A network must lose heat somewhere: next to none here.
				net.AddHold("air", wire, 1e-12, 293.15)
				t, err := reach(ctx, net, in[startIn]+celsius, in[endIn]+celsius)
				return current * math.Sqrt(t) / (area * 1e6), err
			},
		})
	}
	return cases, table.err
}

// insulationCases hold the factors that the program lists by insulation.
func insulationCases() ([]Case, error) {
	var cases []Case
	for _, row := range []struct {
		name string
		want float64
	}{{"70 °C", 115}, {"rubber 85 °C", 134}, {"XLPE 90 °C", 143}, {"EPR 90 °C", 143}, {"90 °C", 100}} {
		cases = append(cases, Case{
			Group: "limits", Name: "k of the insulation/" + row.name, Kind: Published, Exact: true,
			Claim: "listed k of copper under an insulation", Source: "IEC 60364-5-54:2011",
			Inputs: Inputs{unitIn: 1e6}, Breaks: unitIn,
			Unit: "A·√s/mm²", Want: row.want, Tol: Abs(0.5, ""), Why: "printed to the integer",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				i, err := materials.LookupInsulation(row.name)
				return i.AdiabaticK / in[unitIn], err
			},
		})
	}
	return cases, nil
}

// ambientCases hold how the current falls in warmer air. The standard's
// factors are those of a conductor whose film never changes, which is judged;
// the real film grows with its rise, so that the program's own factors lie
// farther from one, which is reported.
func ambientCases() ([]Case, error) {
	table, err := openSheet("ambient_factors")
	if err != nil {
		return nil, err
	}
	const baseIn, airIn, conductorIn = "base air, °C", "air, °C", "conductor, °C"
	real := network.HorizontalCylinder{D: 0.013}
	var cases []Case
	for _, r := range table.rows {
		want := r.number("factor")
		c := Case{
			Group: "limits", Kind: Published, Source: r.source("NFPA 70, National Electrical Code"),
			Name:   fmt.Sprintf("air/%s °C for a base of %s °C, conductor %s °C", r.text("air_C"), r.text("base_air_C"), r.text("conductor_C")),
			Claim:  "current in air of another temperature over that at the base, with one film for all",
			Inputs: Inputs{baseIn: r.number("base_air_C"), airIn: r.number("air_C"), conductorIn: r.number("conductor_C")},
			Breaks: airIn, Unit: "1", Want: want, Tol: Abs(0.005, ""), Why: "printed to two decimals",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				return ambientFactor(ctx, in[baseIn], in[airIn], in[conductorIn], 0, network.Given{H: 10})
			},
		}
		if r.number("base_air_C") == 40 {
			// A printed factor of the 40 °C base stands for a bracket of five degrees.
			c.Why = "printed to two decimals, for the upper end of a bracket of air temperatures"
		}
		cases = append(cases, c)
		if air := r.number("air_C"); air == 20 || air == 50 {
			c.Name += ", real film"
			c.Claim = "the same for a cable of 13 mm with convection and radiation"
			c.Reported, c.Tol, c.Why, c.Breaks = true, Tolerance{}, "", ""
			c.Note = "The film grows with the rise, so that a conductor loses more than in proportion to it: the factor moves away from one faster than the table's"
			c.Got = func(ctx context.Context, in Inputs) (float64, error) {
				return ambientFactor(ctx, in[baseIn], in[airIn], in[conductorIn], 0.92, real)
			}
			cases = append(cases, c)
		}
	}
	return cases, table.err
}

// ambientFactor is the current that keeps a conductor at one temperature in
// air of another over that in the air of the base, all in °C.
func ambientFactor(ctx context.Context, base, air, conductor, emissivity float64, shape network.Shape) (float64, error) {
	at := func(air float64) (float64, error) {
		net := network.New(network.Surroundings{Air: air + celsius})
		wire := net.AddNode(network.Node{Name: "wire"})
		net.AddSurface(wire, network.Surface{Area: 0.04, Emissivity: emissivity, Shape: shape})
		net.AddResistor(network.Resistor{Name: "wire", A: wire, B: wire, R20: 0.4e-3, Alpha: 0.00393})
		net.SetSupply(network.Constant(1), 0)
		return currentFor(ctx, net, conductor+celsius)
	}
	there, err := at(air)
	if err != nil {
		return 0, err
	}
	here, err := at(base)
	return there / here, err
}

// currentFor is the current, A, with which a network of one node, finished
// here and supplied with 1 A, settles at a temperature, K.
func currentFor(ctx context.Context, net *network.Network, temp float64) (float64, error) {
	if err := net.Finish(); err != nil {
		return 0, fmt.Errorf("one conductor: %w", err)
	}
	flow := net.Balance(0, []float64{temp}, make([]float64, 1))
	current := math.Sqrt(flow.Lost / flow.Made)
	net.SetSupply(network.Constant(current), 0)
	res, err := solver.Steady(ctx, net, solver.SteadyOptions{Start: []float64{temp}})
	if err != nil {
		return 0, err
	}
	if math.Abs(res.X[0]-temp) > 1e-3 {
		return 0, fmt.Errorf("%.4g A settles at %.5g K instead of %.5g K", current, res.X[0], temp)
	}
	return current, nil
}
