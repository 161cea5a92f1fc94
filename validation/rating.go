package validation

import (
	"context"
	"errors"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds ratings: the search for the current at which a temperature is
// reached, and the figures that a hand is protected by.

func ratingCases() ([]Case, error) {
	return append([]Case{barFactorCase(), foldCase()}, touchCases()...), nil
}

// currentsAt are the currents, A, at which node 0 of a network supplied with
// 1 A settles at each temperature, K, and how its lasting states end.
func currentsAt(ctx context.Context, net *network.Network, temps ...float64) ([]float64, error, error) {
	opt := solver.RateOptions{Start: make([]float64, net.Nodes())}
	for i := range opt.Start {
		opt.Start[i] = net.Room().Air
	}
	for _, t := range temps {
		opt.Targets = append(opt.Targets, solver.Target{Nodes: []int{0}, Temp: t})
	}
	res, err := solver.NewSteadySolver(net).Rate(ctx, opt)
	if err != nil {
		return nil, nil, err
	}
	out := make([]float64, len(temps))
	for _, r := range res.Reached {
		out[r.Target] = r.Load
	}
	return out, res.End, nil
}

// barFactorCase is how much more a bar carries at another temperature.
func barFactorCase() Case {
	const hotterIn = "hotter bar, K"
	want := 800.0 / 630.0
	return Case{
		Group: "rating", Name: "bar/30 × 10 mm at 82.5 °C over 65 °C", Kind: Published,
		Claim:  "current at another bar temperature over that at 65 °C, both in air of 35 °C",
		Source: barTableDIN + ", factor for bar temperatures, as a catalogue applies it",
		Inputs: Inputs{inWidth: 0.030, inThickness: 0.010, inEmissivity: 0.9, inIACS: 1, inAir: 35 + celsius, inRise: 30, hotterIn: 82.5 + celsius},
		Breaks: hotterIn, Unit: "1", Want: want, Tol: Rel(want, 0.03),
		Why:  "currents rounded to 10 A, the temperature read from a chart",
		Note: "The finish behind the printed currents is loosely stated; painted is assumed, and cancels but for a little",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			a, err := bar(in, in[inEmissivity])
			if err != nil {
				return 0, err
			}
			i, _, err := currentsAt(ctx, a.Network, in[inAir]+in[inRise], in[hotterIn])
			if err != nil {
				return 0, err
			}
			return i[1] / i[0], nil
		},
	}
}

// foldCase is the current beyond which a lump with a constant loss has no
// lasting state: from there on it makes more heat a kelvin than it loses.
func foldCase() Case {
	const ohmIn, alphaIn, lossIn = "resistance, Ω", "α, 1/K", "loss, W/K"
	in := Inputs{ohmIn: 0.5e-3, alphaIn: 0.00393, lossIn: 0.25}
	want := math.Sqrt(in[lossIn] / (in[ohmIn] * in[alphaIn]))
	return Case{
		Group: "rating", Name: "fold/lump with constant loss", Kind: Analytic, Exact: true,
		Claim:  "current beyond which there is no lasting state, √(G/(R·α))",
		Source: "closed form of I²·R·(1 + α·ΔT) = G·ΔT",
		Inputs: in, Breaks: ohmIn, Unit: "A", Want: want, Tol: Rel(want, 1e-5), Why: "to the precision of the search",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			const air = 293.15
			net := network.New(network.Surroundings{Air: air})
			lump := net.AddNode(network.Node{Name: "lump", Capacity: 1})
			net.AddResistor(network.Resistor{Name: "lump", A: lump, B: lump, R20: in[ohmIn], Alpha: in[alphaIn]})
			net.AddHold("air", lump, in[lossIn], air)
			net.SetSupply(network.Constant(1), 0)
			if err := net.Finish(); err != nil {
				return 0, err
			}
			_, end, err := currentsAt(ctx, net)
			if err != nil {
				return 0, err
			}
			var fold *solver.FoldError
			if !errors.As(end, &fold) {
				return 0, fmt.Errorf("the lasting states end otherwise: %w", end)
			}
			return fold.Load, nil
		},
	}
}

// touchCases hold the burn thresholds of bare metal against a quotation of the
// standard, and set what people say they can bear beside them.
func touchCases() []Case {
	const tempIn, unitK = "metal, °C", "unit, K"
	cases := []Case{{
		Group: "rating", Name: "touch/bare metal, 10 min", Kind: Published, Exact: true,
		Claim: "burn threshold of bare metal for ten minutes of contact", Source: "EN ISO 13732-1:2006, as quoted in an equipment test file",
		Inputs: Inputs{unitK: 1}, Breaks: unitK, Unit: "°C", Want: 48, Tol: Abs(0.25, "K"), Why: "printed to the degree",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			const minutes10 = 600
			for _, t := range materials.TouchThresholds() {
				if t.Surface == "bare metal" && t.ContactTime == minutes10 {
					return (t.Low - celsius) / in[unitK], nil
				}
			}
			return 0, errors.New("no threshold of bare metal for 10 min")
		},
	}}
	for _, said := range []struct{ temp, time float64 }{{63, 4}, {75, 2}} {
		cases = append(cases, Case{
			Group: "rating", Name: fmt.Sprintf("touch/bare hand on metal of %.0f °C", said.temp), Kind: Practice, Reported: true,
			Claim:  "how long a bare hand is said to bear it, beside the time that the burn thresholds leave",
			Source: "common practice, no source; thresholds: ISO 13732-1:2006" + fromMemory,
			Inputs: Inputs{tempIn: said.temp}, Unit: "s", Want: said.time,
			Note: "The standard leaves less time than people say they bear: its figure is the one to go by",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return burnTime(in[tempIn] + celsius)
			},
		})
	}
	return cases
}

// burnTime is the contact time, s, after which bare metal of a temperature, K,
// begins to burn: straight in the logarithm of time between the lower
// thresholds of the table, and carried on beyond its hottest.
func burnTime(temp float64) (float64, error) {
	var list []materials.TouchThreshold
	for _, t := range materials.TouchThresholds() {
		if t.Surface == "bare metal" {
			list = append(list, t)
		}
	}
	if len(list) < 2 {
		return 0, errors.New("no thresholds of bare metal")
	}
	for i := 1; i < len(list); i++ {
		hot, cool := list[i-1], list[i]
		if temp < cool.Low && i < len(list)-1 {
			continue
		}
		share := (temp - hot.Low) / (cool.Low - hot.Low)
		return hot.ContactTime * math.Pow(cool.ContactTime/hot.ContactTime, share), nil
	}
	return 0, errors.New("no thresholds of bare metal")
}
