package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds derivatives, as one adjoint solve gives them, against those
// of closed forms: of a fin, and of a lump whose ohms follow its temperature.

const (
	finBase    = "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. 2007, table 3.4 case B"
	inWatts    = "heat at the base, W"
	inAmps     = "current, A"
	inOhms     = "resistance at 20 °C, Ω"
	inAlphaPer = "temperature coefficient, 1/K"
)

// heatedFin is a fin whose base is heated by a resistor of one ohm, in cells
// that are half as long at both ends, so that nodes sit on the end faces.
type heatedFin struct {
	net       *network.Network
	x         []float64
	base, tip network.NodeID
	search    *solver.SteadySolver
}

func newHeatedFin(ctx context.Context, in Inputs) (*heatedFin, error) {
	f := &heatedFin{net: network.New(network.Surroundings{Air: in[inAir]})}
	cells := int(math.Round(in[inCells]))
	dx := in[inLength] / float64(cells)
	along := in[inConductivity] * math.Pi / 4 * in[inDiameter] * in[inDiameter] / dx
	for i := range cells + 1 {
		width := dx
		if i == 0 || i == cells {
			width /= 2
		}
		id := f.net.AddNode(network.Node{Name: fmt.Sprintf("cell %d", i)})
		f.net.AddSurface(id, network.Surface{Name: "side", Area: math.Pi * in[inDiameter] * width, Shape: network.Given{H: in[inFilm]}})
		if i > 0 {
			f.net.AddLink("rod", id-1, id, along)
		}
		f.tip = id
	}
	f.net.AddResistor(network.Resistor{Name: "heater", A: f.base, B: f.base, Film: 1})
	f.net.SetSupply(network.Constant(math.Sqrt(in[inWatts])), 0)
	if err := f.net.Finish(); err != nil {
		return nil, err
	}
	f.search = solver.NewSteadySolver(f.net)
	start := make([]float64, f.net.Nodes())
	for i := range start {
		start[i] = in[inAir]
	}
	res, err := f.search.Solve(ctx, solver.SteadyOptions{Start: start})
	if err != nil {
		return nil, err
	}
	f.x = res.X
	return f, nil
}

// worth is what a watt at each node adds to the temperature of one.
func (f *heatedFin) worth(of network.NodeID) ([]float64, error) {
	w := make([]float64, len(f.x))
	w[of] = 1
	return w, f.search.Adjoint(0, f.x, w, w)
}

// finNumbers are √(h P k A), W/K, and m L.
func finNumbers(in Inputs) (conductance, ml float64) {
	perimeter, area := math.Pi*in[inDiameter], math.Pi/4*in[inDiameter]*in[inDiameter]
	m := math.Sqrt(in[inFilm] * perimeter / (in[inConductivity] * area))
	return m * in[inConductivity] * area, m * in[inLength]
}

// lumpByAmps is the derivative of a lump's temperature by its current.
func lumpByAmps(ctx context.Context, in Inputs) (float64, error) {
	net := network.New(network.Surroundings{Air: in[inAir]})
	n := net.AddNode(network.Node{Name: "lump"})
	net.AddResistor(network.Resistor{Name: "metal", A: n, B: n, R20: in[inOhms], Alpha: in[inAlphaPer]})
	net.AddSurface(n, network.Surface{Name: "side", Area: 1, Shape: network.Given{H: in[inFilm]}})
	net.SetSupply(network.Constant(in[inAmps]), 0)
	if err := net.Finish(); err != nil {
		return 0, err
	}
	s := solver.NewSteadySolver(net)
	res, err := s.Solve(ctx, solver.SteadyOptions{Start: []float64{in[inAir]}})
	if err != nil {
		return 0, err
	}
	w := []float64{1}
	if err := s.Adjoint(0, res.X, w, w); err != nil {
		return 0, err
	}
	return net.Sensitivities(0, res.X, w).Load / in[inAmps], nil
}

func leverCases() ([]Case, error) {
	fin := Inputs{inConductivity: 390, inDiameter: 0.01, inLength: 0.6, inFilm: 12, inAir: 298.15, inWatts: 5, inCells: 400}
	conductance, ml := finNumbers(fin)
	base := fin[inWatts] / (conductance * math.Tanh(ml))
	// θ_b = q/(√(hPkA) tanh mL), differentiated by ln P and ln k.
	bend := ml / 2 / (math.Sinh(ml) * math.Cosh(ml))
	const cutting = "cells of 1/400 of the length cut h² off: 1e-5"
	lump := Inputs{inOhms: 2e-4, inAlphaPer: 0.00393, inFilm: 0.05, inAir: 293.15, inAmps: 100}
	// θ = I²R/(h − I²Rα) above 20 °C, differentiated by I.
	power, way := lump[inAmps]*lump[inAmps]*lump[inOhms], lump[inFilm]
	left := way - power*lump[inAlphaPer]
	byAmps := 2 * power / lump[inAmps] * way / (left * left)
	cases := []Case{
		{
			Name: "fin/a watt at its base for its end", Unit: "K/W", Want: 1 / (conductance * math.Sinh(ml)),
			Claim: "rise of a fin's insulated end for a watt at its base, from the adjoint of the end",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				f, err := newHeatedFin(ctx, in)
				if err != nil {
					return 0, err
				}
				w, err := f.worth(f.tip)
				return w[f.base], err
			},
		},
		{
			Name: "fin/more side surface for its base", Unit: "K", Want: -base * (0.5 + bend),
			Claim: "change of a heated fin's base by its side surface, for all of it, from the adjoint of the base",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				return baseBy(ctx, in, func(s network.Sensitivities) (sum float64) {
					for _, v := range s.Surfaces {
						sum += v.Share
					}
					return sum
				})
			},
		},
		{
			Name: "fin/better conducting metal for its base", Unit: "K", Want: -base * (0.5 - bend),
			Claim: "change of a heated fin's base by its conductivity, for all of it, from the adjoint of the base",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				return baseBy(ctx, in, func(s network.Sensitivities) (sum float64) {
					for _, v := range s.Links {
						sum += v.Share
					}
					return sum
				})
			},
		},
	}
	for i := range cases {
		c := &cases[i]
		c.Kind, c.Source, c.Inputs, c.Breaks = Analytic, finBase+", differentiated", fin, inDiameter
		c.Tol, c.Why, c.Exact = Rel(c.Want, 1e-4), cutting, true
	}
	cases = append(cases, Case{
		Name: "lump/an ampere more", Kind: Analytic, Unit: "K/A", Want: byAmps,
		Claim:  "change of a lump by its current where its ohms follow its temperature and its loss is linear",
		Source: "closed form θ = I²R/(h − I²Rα) above 20 °C, α of IEC 60028, differentiated",
		Inputs: lump, Breaks: inAmps, Exact: true, Tol: Rel(byAmps, 1e-6), Why: "both are exact but for rounding and the 1e-7 K of the state",
		Got: lumpByAmps,
	})
	for i := range cases {
		cases[i].Group = "levers"
	}
	return cases, nil
}

// baseBy reads a derivative of the temperature of a heated fin's base.
func baseBy(ctx context.Context, in Inputs, read func(network.Sensitivities) float64) (float64, error) {
	f, err := newHeatedFin(ctx, in)
	if err != nil {
		return 0, err
	}
	w, err := f.worth(f.base)
	if err != nil {
		return 0, err
	}
	return read(f.net.Sensitivities(0, f.x, w)), nil
}
