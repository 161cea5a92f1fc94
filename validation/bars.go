package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/model/network"
)

// This file holds long bare copper bars against the ratings that standards
// and the copper associations print. A long bar has one temperature all along,
// so its current is that at which it makes what it gives off.

const (
	barTableUS  = "Copper Development Association, Ampacities of Copper No. 110 Busbars"
	barTableUS2 = "Copper Development Association, Effects of Emissivity and Number of Copper Busses on Ampacity"
	barTableUK  = "Copper Development Association (UK), Publication 22, Copper for Busbars, 2014"
	barTableDIN = "DIN 43671:1975"

	// iacs is the resistivity, Ω·m, of copper of 100 % IACS, and iacsAlpha its
	// coefficient, 1/K, which shrinks with the conductivity (IEC 60028:1925).
	iacs      = 1 / 58e6
	iacsAlpha = 0.00393

	// celsius is 0 °C in K.
	celsius = materials.ZeroCelsius
)

// barMetal is copper of a share of the conductivity of 100 % IACS.
func barMetal(share float64) (materials.Metal, error) {
	m, err := materials.LookupMetal("C11000")
	m.Resistivity20, m.Alpha20 = iacs/share, iacsAlpha*share
	return m, err
}

// Inputs that all bars share.
const (
	inWidth      = "width, m"
	inThickness  = "thickness, m"
	inEmissivity = "emissivity"
	inIACS       = "conductivity over 100 % IACS"
	inAir        = "air, K"
	inRise       = "rise, K"
)

// bar is a metre out of the middle of a long bar on edge, or of several side by
// side, assembled.
func bar(in Inputs, emissivity float64) (*model.Assembly, error) {
	metal, err := barMetal(in[inIACS])
	if err != nil {
		return nil, err
	}
	stack := model.Stack{
		Surroundings: model.Surroundings{Air: in[inAir]},
		Supply:       model.Constant(1),
		Parts: []model.Part{&model.Bar{
			Label: "bar", Metal: metal, Finish: materials.Finish{Name: "as stated", Emissivity: materials.Exactly(emissivity)},
			Width: in[inWidth], Thickness: in[inThickness], Length: 1, Lies: model.Horizontal, Exposed: 1,
			Count: int(math.Round(in[inBars])), Gap: in[inGap],
		}},
	}
	return stack.Assemble(model.Likely, model.Mesh{})
}

// heldCurrent is the current, A, at which a network of one temperature makes
// what it gives off there. Its supply must be 1 A.
func heldCurrent(n *network.Network, temp float64) float64 {
	x, f := make([]float64, n.Nodes()), make([]float64, n.Nodes())
	for i := range x {
		x[i] = temp
	}
	flow := n.Balance(0, x, f)
	return math.Sqrt(flow.Lost / flow.Made)
}

func barCurrent(_ context.Context, in Inputs) (float64, error) {
	a, err := bar(in, in[inEmissivity])
	if err != nil {
		return 0, err
	}
	return heldCurrent(a.Network, in[inAir]+in[inRise]), nil
}

func barCases() ([]Case, error) {
	var cases []Case
	for _, group := range []func() ([]Case, error){barsUS, barsEmissivity, barsDIN, barsUK} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// usInputs are those of a row of the tables of the American association,
// whose copper has 99 % IACS.
func usInputs(r sheetRow) Inputs {
	return Inputs{
		inWidth: r.number("width_mm") / 1e3, inThickness: r.number("thickness_mm") / 1e3,
		inEmissivity: r.number("emissivity"), inIACS: 0.99,
		inAir: r.number("air_C") + celsius, inRise: r.number("rise_K"),
	}
}

// barsUS are the ratings of single bars, and the resistances printed beside.
func barsUS() ([]Case, error) {
	table, err := openSheet("copper_bar_ampacity")
	if err != nil {
		return nil, err
	}
	var cases []Case
	printed := map[string]bool{}
	for _, r := range table.rows {
		size := r.text("thickness_in") + " × " + r.text("width_in") + " in"
		if !printed[size] {
			printed[size] = true
			want := r.number("resistance_20C_uohm_ft") * 1e-6
			cases = append(cases, Case{
				Group: "bars", Name: "resistance/" + size, Kind: Published, Exact: true,
				Claim:  "Table 1: resistance of a foot of bar at 20 °C",
				Source: r.source(barTableUS), Inputs: usInputs(r), Breaks: inWidth,
				Unit: "Ω", Want: want, Tol: Rel(want, 0.005), Why: "printed to three digits",
				Got: func(_ context.Context, in Inputs) (float64, error) {
					a, err := bar(in, in[inEmissivity])
					if err != nil {
						return 0, err
					}
					return a.Parts[0].Resistance * foot, nil
				},
			})
		}
		want := r.number("ampacity_60Hz_A")
		cases = append(cases, Case{
			Group: "bars", Name: fmt.Sprintf("rating/%s, %.0f K", size, r.number("rise_K")), Kind: Published,
			Claim:  "Table 1: current of a bare bar on edge in still air of 40 °C",
			Source: r.source(barTableUS), Inputs: usInputs(r), Breaks: inWidth,
			Unit: "A", Want: want, Tol: Band(want, -0.03, 0.05),
			Why: "printed for 60 Hz, where a direct current may be 1.5 % higher, and rounded to two or three digits",
			Got: barCurrent,
		})
	}
	return cases, table.err
}

// barsEmissivity show what the finish does, on a bar thick enough for 60 Hz to
// crowd the current.
func barsEmissivity() ([]Case, error) {
	table, err := openSheet("copper_bar_emissivity")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		cases = append(cases, Case{
			Group: "bars", Kind: Published, Reported: true,
			Name:   fmt.Sprintf("finish/1/4 × 4 in, emissivity %s, %.0f K", r.text("emissivity"), r.number("rise_K")),
			Claim:  "current of a bare bar on edge by its emissivity",
			Source: r.source(barTableUS2), Inputs: usInputs(r),
			Unit: "A", Want: r.number("ampacity_60Hz_A"), Got: barCurrent,
			Note: "60 Hz crowds the current of this bar: a direct current is some 5 % higher",
		})
	}
	return cases, table.err
}

// dinShare is the conductivity that the ratings of DIN 43671 rest on, 56 MS/m,
// over 100 % IACS, and dinEmissivity that of its bare bars, both from memory.
const (
	dinShare      = 56.0 / 58.0
	dinEmissivity = 0.4
)

// dinInputs are those of a row. The printed section, of rounded edges, is a
// little less than width by thickness and counts by the conductivity.
func dinInputs(r sheetRow) Inputs {
	w, t := r.number("width_mm"), r.number("thickness_mm")
	return Inputs{
		inWidth: w / 1e3, inThickness: t / 1e3, inEmissivity: dinEmissivity,
		inIACS: dinShare * r.number("area_mm2") / (w * t),
		inAir:  r.number("air_C") + celsius, inRise: r.number("bar_C") - r.number("air_C"),
	}
}

func barsDIN() ([]Case, error) {
	table, err := openSheet("din_43671_bare_dc")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		want := r.number("ampacity_A")
		cases = append(cases, Case{
			Group: "bars", Name: fmt.Sprintf("rating/%s × %s mm", r.text("width_mm"), r.text("thickness_mm")), Kind: Published,
			Claim:  "direct current of one bare bar, 35 °C air, 65 °C bar",
			Source: r.source(barTableDIN), Inputs: dinInputs(r), Breaks: inWidth,
			Unit: "A", Want: want, Tol: Band(want, -0.01, 0.12),
			Why: "the standard is known to be on the safe side of calculation; its conductivity and emissivity are from memory",
			Got: barCurrent,
		})
	}
	cases = append(cases, Case{
		Group: "bars", Name: "rating/mean of the standard's rows", Kind: Published,
		Claim:  "predicted over printed current, mean of all rows",
		Source: barTableDIN + fromMemory, Breaks: inIACS,
		Inputs: Inputs{inIACS: dinShare, inEmissivity: dinEmissivity},
		Unit:   "1", Want: 1.06, Tol: Abs(0.03, ""), Why: "as of the rows, less their rounding",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			sum := 0.0
			for _, r := range table.rows {
				row := dinInputs(r)
				row[inIACS] *= in[inIACS] / dinShare
				row[inEmissivity] = in[inEmissivity]
				amps, err := barCurrent(ctx, row)
				if err != nil {
					return 0, err
				}
				sum += amps / r.number("ampacity_A")
			}
			return sum / float64(len(table.rows)), nil
		},
	})
	return cases, table.err
}

const (
	inCurrent  = "current, A"
	inDiameter = "diameter, m"
)

// rod is a metre out of the middle of a long round rod that lies.
func rod(in Inputs, emissivity float64) (*network.Network, error) {
	n := network.New(network.Surroundings{Air: in[inAir]})
	d := in[inDiameter]
	id := n.AddNode(network.Node{Name: "rod", Capacity: 1})
	n.AddResistor(network.Resistor{Name: "rod", A: id, B: id,
		R20: iacs / in[inIACS] / (math.Pi / 4 * d * d), Alpha: iacsAlpha * in[inIACS]})
	n.AddSurface(id, network.Surface{Name: "rod", Area: math.Pi * d, Emissivity: emissivity, Shape: network.HorizontalCylinder{D: d}})
	n.SetSupply(network.Constant(1), 0)
	return n, n.Finish()
}

// emissivityFor is the emissivity at which a bar or rod carries a current at
// a rise. What it gives off grows evenly with the emissivity, and so does the
// square of its current.
func emissivityFor(in Inputs) (float64, error) {
	var squares [2]float64
	for e := range squares {
		var n *network.Network
		var err error
		if in[inDiameter] > 0 {
			n, err = rod(in, float64(e))
		} else {
			var a *model.Assembly
			if a, err = bar(in, float64(e)); err == nil {
				n = a.Network
			}
		}
		if err != nil {
			return 0, err
		}
		amps := heldCurrent(n, in[inAir]+in[inRise])
		squares[e] = amps * amps
	}
	return (in[inCurrent]*in[inCurrent] - squares[0]) / (squares[1] - squares[0]), nil
}

// barsUK are two worked ratings of fairly bright copper, whose emissivity is
// not printed: that which the model needs must be a bright one, and the same.
func barsUK() ([]Case, error) {
	table, err := openSheet("copper_for_busbars")
	if err != nil {
		return nil, err
	}
	worked := map[string]Inputs{}
	var cases []Case
	for _, r := range table.rows {
		given := r.inputs("inputs")
		in := Inputs{inIACS: 1, inAir: given["air_C"] + celsius, inRise: given["rise_K"], inCurrent: r.number("printed")}
		if d, ok := given["diameter_mm"]; ok {
			in[inDiameter] = d / 1e3
		} else {
			in[inWidth], in[inThickness] = given["width_mm"]/1e3, given["thickness_mm"]/1e3
		}
		worked[r.text("case")] = in
		cases = append(cases, Case{
			Group: "bars", Name: "emissivity/" + r.text("case"), Kind: Published,
			Claim:  fmt.Sprintf("appendix: emissivity at which the printed %s A come out, bright to partly oxidised", r.text("printed")),
			Source: r.source(barTableUK), Inputs: in, Breaks: inCurrent,
			Unit: "1", Want: 0.20, Tol: Abs(0.10, ""), Why: "the same source calls 0.10 bright and 0.30 partly oxidised",
			Got: func(_ context.Context, in Inputs) (float64, error) { return emissivityFor(in) },
		})
	}
	flat, round := worked["flat-bar"], worked["round-rod"]
	cases = append(cases, Case{
		Group: "bars", Name: "emissivity/flat bar and round rod", Kind: Published,
		Claim:  "appendix: difference of the two emissivities",
		Source: barTableUK, Inputs: Inputs{"current of the bar, A": flat[inCurrent]}, Breaks: "current of the bar, A",
		Unit: "1", Want: 0, Tol: Abs(0.05, ""), Why: "both ratings are of the same copper, printed to three digits",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			changed := Inputs{}
			for k, v := range flat {
				changed[k] = v
			}
			changed[inCurrent] = in["current of the bar, A"]
			a, err := emissivityFor(changed)
			if err != nil {
				return 0, err
			}
			b, err := emissivityFor(round)
			return a - b, err
		},
	})
	return cases, table.err
}
