package validation

import (
	"context"
	"errors"
	"fmt"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds a load that draws a power, as an inverter does: the lower the
// voltage that is left to it, the more current it takes. With a source of E
// behind a resistance R
//
//	P = (E − I R) I,  I = (E − √(E² − 4 P R))/(2 R)
//
// and there is none above the most that the source can give, E²/(4 R).

const (
	inEMF   = "source, V"
	inPower = "power, W"
	inPath  = "resistance of source and path, Ω"
)

// drawn is the current of a load of power on a source, A. Half of the resistance
// lies in the source and half is a part that gets warm.
func drawnByPower(ctx context.Context, in Inputs) (float64, error) {
	c := newCircuit()
	p := c.points(2)
	c.add(way{from: p[0], to: p[1], emf: in[inEMF], outside: in[inPath] / 2, ohm: in[inPath] / 2})
	load := c.AddDraw(network.Draw{Name: "load", From: p[1], To: p[0], Power: network.Constant(in[inPower])})
	x, err := c.settle(ctx)
	if err != nil {
		return 0, err
	}
	return c.ReadDraw(load, 0, x).Current, nil
}

func powerCases() []Case {
	var cases []Case
	for _, watts := range []float64{500, 2000, 5000} {
		in := Inputs{inEMF: 12.8, inPath: 8e-3, inPower: watts}
		want := (in[inEMF] - root(in[inEMF]*in[inEMF]-4*watts*in[inPath])) / (2 * in[inPath])
		cases = append(cases, Case{
			Group: "circuits", Name: fmt.Sprintf("power/%.0f W", watts), Kind: Analytic, Exact: true,
			Claim:  fmt.Sprintf("current of a load of %.0f W on 12.8 V behind 8 mΩ", watts),
			Source: closedForm + ", I = (E − √(E² − 4PR))/(2R)", Inputs: in, Breaks: inPower,
			Unit: "A", Want: want, Tol: Rel(want, 1e-9), Why: "rounding", Got: drawnByPower,
		})
	}
	over := Inputs{inEMF: 12.8, inPath: 8e-3, inPower: 6000}
	most := over[inEMF] * over[inEMF] / (4 * over[inPath])
	return append(cases, Case{
		Group: "circuits", Name: "power/the most there is", Kind: Analytic, Exact: true,
		Claim:  "highest power that 12.8 V behind 8 mΩ can give, 6 kW asked for",
		Source: "theorem of maximum power transfer, P = E²/(4R)", Inputs: over, Breaks: inPath,
		Unit: "W", Want: most, Tol: Rel(most, 1e-6), Why: "the way to the fold is followed to 1e-6 of the load",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			amps, err := drawnByPower(ctx, in)
			var fold *solver.FoldError
			if !errors.As(err, &fold) {
				return 0, fmt.Errorf("%g W were given, at %g A: %w", in[inPower], amps, err)
			}
			return fold.Load * in[inPower], nil
		},
	})
}
