package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/model"
)

// This file holds cables in a metal conduit against the tables that they are
// chosen by.

const (
	conduitTable = "NFPA 70, National Electrical Code, Table 310.16"
	conduitMore  = "NFPA 70, National Electrical Code, adjustment for more than three conductors"

	// conduitFill is the share of its bore that conductors may take (NFPA 70,
	// Chapter 9, Table 1, over two conductors; from memory).
	conduitFill = 0.40
	// steelConductivity, W/(m K), painted or oxidised steel's emissivity and the
	// outer over the inner diameter stand for any steel conduit: common practice,
	// no source. Wall and metal hardly count.
	steelConductivity = 50
	steelEmissivity   = 0.9
	steelWall         = 1.1
)

// inConduit is a gauge with others of its kind in a steel conduit as full as may be.
func inConduit(awg, insulation string, count int) (*model.Cable, error) {
	cable, err := groupedCable(awg, insulation, nil, nil)
	if err != nil {
		return nil, err
	}
	bore := (cable.Conductor.Diameter.Likely + 2*cable.Wall) * math.Sqrt(float64(count)/conduitFill)
	cable.Conduit = &model.Conduit{
		Name: "steel", Kind: model.MetalConduit, Inner: bore, Outer: bore * steelWall,
		Conductivity: steelConductivity, Emissivity: steelEmissivity, Count: count,
	}
	return cable, nil
}

func conduitCases() ([]Case, error) {
	table, err := openSheet("nec_310_16")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		c, err := threeInConduit(r)
		if err != nil {
			return nil, err
		}
		cases = append(cases, c)
	}
	if table.err != nil {
		return nil, table.err
	}
	cases = append(cases, spread("conduits", "three/all sizes", conduitTable,
		"the sizes that IEC 60287-2-1 states its relation for are judged one by one",
		func(ctx context.Context) ([]float64, error) {
			var all []float64
			for _, r := range table.rows {
				amps, err := conduitCurrent(ctx, r, conduitInputs(r))
				if err != nil {
					return nil, err
				}
				all = append(all, amps/r.number("ampacity_A"))
			}
			return all, nil
		})...)
	more, err := moreInConduit()
	return append(cases, more...), err
}

func conduitInputs(r sheetRow) Inputs {
	air := r.number("air_C")
	return Inputs{inAir: air + celsius, inConductor: r.number("conductor_C") - air}
}

func conduitCurrent(ctx context.Context, r sheetRow, in Inputs) (float64, error) {
	cable, err := inConduit(r.text("awg"), r.text("conductor_C")+" °C", 3)
	if err != nil {
		return 0, err
	}
	return ratedCurrent(ctx, cable, in[inAir], in[inConductor])
}

// threeInConduit is one cell of the table of raceways.
func threeInConduit(r sheetRow) (Case, error) {
	want := r.number("ampacity_A")
	c := Case{
		Group: "conduits", Name: fmt.Sprintf("three/%s AWG, %s °C", r.text("awg"), r.text("conductor_C")), Kind: Published,
		Claim:  "current of each of three copper conductors in a steel conduit in air of 30 °C",
		Source: r.source(conduitTable), Inputs: conduitInputs(r), Breaks: inConductor,
		Unit: "A", Want: want, Tol: Rel(want, 0.10),
		Why: "printed for any raceway and rounded to 5 or 10 A; bore and finish of the conduit are assumed",
		Got: func(ctx context.Context, in Inputs) (float64, error) { return conduitCurrent(ctx, r, in) },
	}
	cable, err := inConduit(r.text("awg"), r.text("conductor_C")+" °C", 3)
	if err != nil {
		return c, err
	}
	const stated = 25e-3 // m, least diameter around cables
	if model.ConduitDiameter(3, cable.Conductor.Diameter.Likely+2*cable.Wall) < stated {
		c.Reported = true
		c.Note = "smaller around its cables than the 25 mm from which IEC 60287-2-1 states its relation"
	}
	return c, nil
}

// moreInConduit are factors for more than three conductors. A factor must hold
// for the most conductors of its range.
func moreInConduit() ([]Case, error) {
	table, err := openSheet("nec_more_conductors")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		want := r.number("factor")
		cases = append(cases, Case{
			Group: "conduits", Name: fmt.Sprintf("more/%s of %s to %s", r.text("most"), r.text("least"), r.text("most")), Kind: Published,
			Claim:  "current of each of so many 1/0 AWG conductors in a steel conduit over that of three",
			Source: r.source(conduitMore), Breaks: inCount,
			Inputs: Inputs{inCount: r.number("most"), inAir: 30 + celsius, inRise: 45},
			Unit:   "1", Want: want, Tol: Rel(want, 0.10), Why: "rounded to a tenth, one for a range of counts and all sizes",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				var amps [2]float64
				for i, count := range [2]float64{3, in[inCount]} {
					cable, err := inConduit("1/0", "75 °C", int(math.Round(count)))
					if err != nil {
						return 0, err
					}
					if amps[i], err = ratedCurrent(ctx, cable, in[inAir], in[inRise]); err != nil {
						return 0, err
					}
				}
				return amps[1] / amps[0], nil
			},
		})
	}
	return cases, table.err
}
