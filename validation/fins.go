package validation

import (
	"context"
	"fmt"
	"maps"
	"math"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds rods that lose heat along their length, cut into cells,
// against the closed forms of fins and worked examples of them.

const (
	finIncropera = "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. 2007"
	finKreith    = "Kreith, Manglik and Bohn, Principles of Heat Transfer, 7th ed. 2011"

	inConductivity = "conductivity, W/(m K)"
	inLength       = "length, m"
	inBase         = "base, K"
	inCells        = "cells"
	// inTip is 1 where the end face loses heat like the side, else 0.
	inTip = "end face in air"
)

// fin is a round rod of even cells whose base is held; the ways to its base
// and to its end face are half a cell long.
type fin struct {
	*network.Network
	base network.HoldID
	tip  network.NodeID
}

func newFin(in Inputs) (*fin, error) {
	f := &fin{Network: network.New(network.Surroundings{Air: in[inAir]})}
	cells := int(math.Round(in[inCells]))
	area := math.Pi / 4 * in[inDiameter] * in[inDiameter]
	dx := in[inLength] / float64(cells)
	along := in[inConductivity] * area / dx
	film := network.Given{H: in[inFilm]}
	var previous network.NodeID
	for i := range cells {
		id := f.AddNode(network.Node{Name: fmt.Sprintf("cell %d", i)})
		f.AddSurface(id, network.Surface{Name: "side", Area: math.Pi * in[inDiameter] * dx, Shape: film})
		if i == 0 {
			f.base = f.AddHold("base", id, 2*along, in[inBase])
		} else {
			f.AddLink("rod", previous, id, along)
		}
		previous = id
	}
	f.tip = f.AddNode(network.Node{Name: "end face"})
	f.AddLink("rod", previous, f.tip, 2*along)
	if in[inTip] > 0 {
		f.AddSurface(f.tip, network.Surface{Name: "end face", Area: area, Shape: film})
	}
	return f, f.Finish()
}

// settled gives the heat, W, that the base gives to the fin, and the rise of
// its end, K.
func (f *fin) settled(ctx context.Context, air float64) (heat, tip float64, err error) {
	start := make([]float64, f.Nodes())
	for i := range start {
		start[i] = air
	}
	res, err := solver.Steady(ctx, f, solver.SteadyOptions{Start: start})
	if err != nil {
		return 0, 0, err
	}
	return -f.ReadHold(f.base, res.X), res.X[f.tip] - air, nil
}

func finHeat(ctx context.Context, in Inputs) (float64, error) {
	f, err := newFin(in)
	if err != nil {
		return 0, err
	}
	heat, _, err := f.settled(ctx, in[inAir])
	return heat, err
}

func finTip(ctx context.Context, in Inputs) (float64, error) {
	f, err := newFin(in)
	if err != nil {
		return 0, err
	}
	_, tip, err := f.settled(ctx, in[inAir])
	return tip, err
}

// finFigures are m, 1/m, and √(h P k A), W/K, of a rod.
func finFigures(in Inputs) (m, conductance float64) {
	area, perimeter := math.Pi/4*in[inDiameter]*in[inDiameter], math.Pi*in[inDiameter]
	m = math.Sqrt(in[inFilm] * perimeter / (in[inConductivity] * area))
	return m, m * in[inConductivity] * area
}

func finCases() []Case {
	finite := Inputs{inDiameter: 0.008, inLength: 0.3, inConductivity: 391, inFilm: 10,
		inAir: standardRoom, inBase: standardRoom + 50, inCells: 200}
	m, conductance := finFigures(finite)
	heat := conductance * 50 * math.Tanh(m*finite[inLength])
	tip := 50 / math.Cosh(m*finite[inLength])
	cases := []Case{{
		Group: "analytic", Name: "fin/heat", Kind: Analytic, Exact: true,
		Claim:  "heat into a rod of 0.3 m with an insulated end",
		Source: closedForm + ", √(h P k A) θ tanh(m L)", Inputs: finite, Breaks: inFilm,
		Unit: "W", Want: heat, Tol: Rel(heat, 1e-4), Why: "200 cells",
		Got: finHeat,
	}, {
		Group: "analytic", Name: "fin/end", Kind: Analytic, Exact: true,
		Claim:  "rise of the insulated end of the same rod",
		Source: closedForm + ", θ/cosh(m L)", Inputs: finite, Breaks: inFilm,
		Unit: "K", Want: tip, Tol: Rel(tip, 1e-4), Why: "200 cells",
		Got: finTip,
	}, finOrder(finite, tip)}
	return append(cases, finExamples()...)
}

// finOrder is the power of the cell's length by which the error falls.
func finOrder(rod Inputs, exact float64) Case {
	return Case{
		Group: "analytic", Name: "fin/order of the cells", Kind: Analytic, Exact: true,
		Claim:  "power by which the error of the end's rise falls from 20 to 40 cells",
		Source: "second-order central differences", Inputs: rod, Breaks: inFilm,
		Unit: "1", Want: 2, Tol: Abs(0.05, ""), Why: "the error has terms of higher order too",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			var errs [2]float64
			for i, cells := range []float64{20, 40} {
				cut := maps.Clone(in)
				cut[inCells] = cells
				got, err := finTip(ctx, cut)
				if err != nil {
					return 0, err
				}
				errs[i] = math.Abs(got - exact)
			}
			return math.Log2(errs[0] / errs[1]), nil
		},
	}
}

// finExamples are printed examples. A rod is long where its length is ten
// times that over which its rise falls to a third.
func finExamples() []Case {
	long := func(in Inputs) Inputs {
		m, _ := finFigures(in)
		in[inLength], in[inCells] = 10/m, 500
		return in
	}
	var cases []Case
	for _, e := range []struct {
		metal   string
		k, want float64
	}{{"copper", 398, 8.3}, {"aluminium", 180, 5.6}, {"stainless steel", 14, 1.6}} {
		cases = append(cases, Case{
			Group: "analytic", Name: "long rod/" + e.metal, Kind: Published,
			Claim:  "Example 3.9: heat into a very long rod of 5 mm at 100 °C in air of 25 °C",
			Source: finIncropera, Breaks: inDiameter,
			Inputs: long(Inputs{inDiameter: 0.005, inConductivity: e.k, inFilm: 100, inAir: 25 + celsius, inBase: 100 + celsius}),
			Unit:   "W", Want: e.want, Tol: Abs(0.05, "W"), Why: "printed to a tenth of a watt",
			Got: finHeat,
		})
	}
	pin := Inputs{inDiameter: 0.0025, inConductivity: 396, inFilm: 10, inAir: 25 + celsius, inBase: 95 + celsius}
	short := maps.Clone(pin)
	short[inLength], short[inCells], short[inTip] = 0.025, 200, 1
	return append(cases, Case{
		Group: "analytic", Name: "pin/long", Kind: Published, Exact: true,
		Claim:  "Example 2.6: heat into a very long copper pin",
		Source: finKreith, Inputs: long(pin), Breaks: inDiameter,
		Unit: "W", Want: 0.865, Tol: Abs(0.0005, "W"), Why: "printed to three digits",
		Got: finHeat,
	}, Case{
		Group: "analytic", Name: "pin/25 mm with its end face in air", Kind: Published, Exact: true,
		Claim:  "Example 2.6: heat into a short copper pin",
		Source: finKreith, Inputs: short, Breaks: inDiameter,
		Unit: "W", Want: 0.140, Tol: Abs(0.0005, "W"), Why: "printed to three digits",
		Got: finHeat,
	})
}
