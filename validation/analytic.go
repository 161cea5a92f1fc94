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

// This file holds networks put together by hand against closed forms: lumps
// in time, limits of the steady state, and surroundings unlike the air. Fins
// are in fins.go, the jacket's step and the balance of whole stacks in
// wholes.go.

func analyticCases() ([]Case, error) {
	cases := finCases()
	cases = append(cases, lumpCases()...)
	cases = append(cases, foldCases()...)
	cases = append(cases, greyCases()...)
	for _, group := range []func() ([]Case, error){adiabaticCases, jacketCases, wholeCases} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

const (
	// lumpTol, K, is tight enough for six digits of a soak of some tens of
	// kelvin.
	lumpTol = 1e-5

	inFilm       = "film coefficient, W/(m²K)"
	inSurface    = "surface, m²"
	inCapacity   = "heat capacity, J/K"
	inOhm        = "resistance, Ω"
	inAlpha      = "temperature coefficient, 1/K"
	inStart      = "start, K"
	inTime       = "time, s"
	inLink       = "conductance between, W/K"
	inRadiant    = "surroundings, K"
	closedForm   = "closed form"
	standardRoom = 298.15
)

// lump is one node with a heater and a surface of a given film coefficient.
func lump(in Inputs) (*network.Network, error) {
	n := network.New(network.Surroundings{Air: in[inAir], Radiant: in[inRadiant]})
	id := n.AddNode(network.Node{Name: "lump", Capacity: in[inCapacity]})
	n.AddResistor(network.Resistor{Name: "heater", A: id, B: id, R20: in[inOhm], Alpha: in[inAlpha]})
	n.AddSurface(id, network.Surface{Name: "lump", Area: in[inSurface], Emissivity: in[inEmissivity], Shape: network.Given{H: in[inFilm]}})
	n.SetSupply(network.Constant(in[inCurrent]), 0)
	return n, n.Finish()
}

// soakTo is the state of a network after a time.
func soakTo(ctx context.Context, n *network.Network, start []float64, until float64) ([]float64, error) {
	res, err := solver.Soak(ctx, n, solver.SoakOptions{Tol: lumpTol, Start: start, Until: until})
	if err != nil {
		return nil, err
	}
	return res.X, nil
}

// lumpCases are one lump that cools and two that warm each other.
func lumpCases() []Case {
	one := Inputs{inAir: standardRoom, inStart: standardRoom + 60, inCapacity: 120, inSurface: 0.02, inFilm: 12, inTime: 600}
	tau := one[inCapacity] / (one[inFilm] * one[inSurface])
	single := Case{
		Group: "analytic", Name: "lump/exponential", Kind: Analytic, Exact: true,
		Claim:  "rise of a cooling lump after 600 s, constant film coefficient",
		Source: closedForm + ", θ = θ₀ exp(−t/τ)", Inputs: one, Breaks: inFilm,
		Unit: "K", Want: 60 * math.Exp(-one[inTime]/tau), Tol: Abs(1e-3, "K"), Why: "a hundred times the tolerance of a step",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			n, err := lump(in)
			if err != nil {
				return 0, err
			}
			x, err := soakTo(ctx, n, []float64{in[inStart]}, in[inTime])
			if err != nil {
				return 0, err
			}
			return x[0] - in[inAir], nil
		},
	}

	// C dθ₁/dt = P − k θ₁ − g (θ₁ − θ₂), C dθ₂/dt = −k θ₂ − g (θ₂ − θ₁): the
	// sum goes with k, the difference with k + 2 g.
	two := Inputs{inAir: standardRoom, inCapacity: 80, inSurface: 0.015, inFilm: 10, inLink: 0.25, inOhm: 1e-3, inCurrent: 100, inTime: 400}
	k, power := two[inFilm]*two[inSurface], two[inCurrent]*two[inCurrent]*two[inOhm]
	mode := func(loss float64) float64 {
		return power / (2 * loss) * -math.Expm1(-two[inTime]*loss/two[inCapacity])
	}
	sum, difference := mode(k), mode(k+2*two[inLink])
	cases := []Case{single}
	for i, want := range []float64{sum + difference, sum - difference} {
		cases = append(cases, Case{
			Group: "analytic", Name: fmt.Sprintf("two lumps/%s", []string{"heated", "other"}[i]), Kind: Analytic, Exact: true,
			Claim:  "rise after 400 s of two linked lumps, one of them heated",
			Source: closedForm + ", sum and difference of the two", Inputs: two, Breaks: inCurrent,
			Unit: "K", Want: want, Tol: Abs(1e-3, "K"), Why: "a hundred times the tolerance of a step",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				x, err := twoLumps(ctx, in)
				if err != nil {
					return 0, err
				}
				return x[i] - in[inAir], nil
			},
		})
	}
	return cases
}

func twoLumps(ctx context.Context, in Inputs) ([]float64, error) {
	n := network.New(network.Surroundings{Air: in[inAir]})
	var ids [2]network.NodeID
	for i := range ids {
		ids[i] = n.AddNode(network.Node{Name: "lump", Capacity: in[inCapacity]})
		n.AddSurface(ids[i], network.Surface{Name: "lump", Area: in[inSurface], Shape: network.Given{H: in[inFilm]}})
	}
	n.AddResistor(network.Resistor{Name: "heater", A: ids[0], B: ids[0], R20: in[inOhm]})
	n.AddLink("between", ids[0], ids[1], in[inLink])
	n.SetSupply(network.Constant(in[inCurrent]), 0)
	if err := n.Finish(); err != nil {
		return nil, err
	}
	return soakTo(ctx, n, []float64{in[inAir], in[inAir]}, in[inTime])
}

// foldCases are a lump whose resistance grows with its temperature and whose
// film coefficient does not: h A (T − Ta) = I² R₂₀ (1 + α (T − 20 °C)) has a
// solution up to I² = h A/(α R₂₀).
func foldCases() []Case {
	in := Inputs{inAir: standardRoom, inCapacity: 10, inSurface: 0.01, inFilm: 12, inOhm: 1e-3, inAlpha: 0.00393, inCurrent: 300}
	most := math.Sqrt(in[inFilm] * in[inSurface] / (in[inAlpha] * in[inOhm]))
	below := Inputs{}
	for k, v := range in {
		below[k] = v
	}
	below[inCurrent] = 80
	square := below[inCurrent] * below[inCurrent] * in[inOhm]
	loss := in[inFilm] * in[inSurface]
	settled := (loss*in[inAir] + square*(1-in[inAlpha]*materials.ReferenceTemp)) / (loss - square*in[inAlpha])
	return []Case{{
		Group: "analytic", Name: "lump/highest current", Kind: Analytic, Exact: true,
		Claim:  "highest current with a lasting state, constant film coefficient",
		Source: closedForm + ", I² = h A/(α R₂₀)", Inputs: in, Breaks: inOhm,
		Unit: "A", Want: most, Tol: Rel(most, 0.001), Why: "the state rises without bound as the current nears it",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			n, err := lump(in)
			if err != nil {
				return 0, err
			}
			_, err = solver.Steady(ctx, n, solver.SteadyOptions{Start: []float64{in[inAir]}})
			var fold *solver.FoldError
			if !errors.As(err, &fold) {
				return 0, fmt.Errorf("no highest current was found: %w", err)
			}
			return fold.Load * in[inCurrent], nil
		},
	}, {
		Group: "analytic", Name: "lump/settled below it", Kind: Analytic, Exact: true,
		Claim:  "settled temperature at 80 A of the same lump",
		Source: closedForm + ", h A (T − Ta) = I² R", Inputs: below, Breaks: inCurrent,
		Unit: "K", Want: settled, Tol: Abs(1e-6, "K"), Why: "the tolerance of the search",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			n, err := lump(in)
			if err != nil {
				return 0, err
			}
			res, err := solver.Steady(ctx, n, solver.SteadyOptions{Start: []float64{in[inAir]}})
			if err != nil {
				return 0, err
			}
			return res.X[0], nil
		},
	}}
}

// greyCases are an unheated lump in air of one temperature that sees
// surroundings of another: h (T − Ta) = ε σ (Tr⁴ − T⁴). For a wanted T, Tr
// follows in closed form.
func greyCases() []Case {
	var cases []Case
	for _, c := range []struct {
		name string
		rise float64
	}{{"hotter", 15}, {"colder", -8}} {
		in := Inputs{inAir: standardRoom, inSurface: 0.01, inFilm: 8, inEmissivity: 0.6, inCapacity: 10}
		want := in[inAir] + c.rise
		in[inRadiant] = math.Pow(math.Pow(want, 4)+in[inFilm]*c.rise/(in[inEmissivity]*materials.StefanBoltzmann), 0.25)
		cases = append(cases, Case{
			Group: "analytic", Name: "grey lump/surroundings " + c.name + " than the air", Kind: Analytic, Exact: true,
			Claim:  fmt.Sprintf("settled temperature with surroundings of %.1f K in air of %.1f K", in[inRadiant], in[inAir]),
			Source: closedForm + ", h (T − Ta) = ε σ (Tr⁴ − T⁴)", Inputs: in, Breaks: inRadiant,
			Unit: "K", Want: want, Tol: Abs(1e-6, "K"), Why: "the tolerance of the search",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				n, err := lump(in)
				if err != nil {
					return 0, err
				}
				res, err := solver.Steady(ctx, n, solver.SteadyOptions{Start: []float64{in[inAir]}})
				if err != nil {
					return 0, err
				}
				return res.X[0], nil
			},
		})
	}
	return cases
}

// Figures of copper for short circuits, IEC 60364-5-54:2011, Table A.54.1 (from
// memory): heat capacity by volume, resistivity at 20 °C and the reciprocal of
// its coefficient at 0 °C.
const (
	adiabaticHeat  = 3.45e6
	adiabaticRho   = 17.241e-9
	adiabaticBeta  = 234.5
	adiabaticStart = "start, °C"
	adiabaticEnd   = "end, °C"
)

// adiabaticCases are a conductor that loses nothing: I² t = k² S².
func adiabaticCases() ([]Case, error) {
	table, err := openSheet("adiabatic_k")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		if r.text("metal") != "copper" {
			continue
		}
		in := Inputs{adiabaticStart: r.number("start_C"), adiabaticEnd: r.number("end_C"),
			"area, m²": 50e-6, inCurrent: 5000, "heat capacity, J/(m³K)": adiabaticHeat}
		want := r.number("printed_k_A_s0.5_mm2")
		cases = append(cases, Case{
			Group: "analytic", Name: fmt.Sprintf("adiabatic/copper, %s, from %s °C", r.text("insulation"), r.text("start_C")),
			Kind:   Published,
			Claim:  fmt.Sprintf("k of I²t = k²S², by a soak without loss until %s °C", r.text("end_C")),
			Source: r.source("IEC 60364-5-54:2011"), Inputs: in, Breaks: adiabaticEnd,
			Unit: "A√s/mm²", Want: want, Tol: Abs(0.5, "A√s/mm²"), Why: "printed to the whole number",
			Got: adiabaticK,
		})
	}
	return cases, table.err
}

func adiabaticK(ctx context.Context, in Inputs) (float64, error) {
	area := in["area, m²"]
	n := network.New(network.Surroundings{Air: standardRoom})
	id := n.AddNode(network.Node{Name: "conductor", Capacity: in["heat capacity, J/(m³K)"] * area})
	n.AddResistor(network.Resistor{Name: "conductor", A: id, B: id, R20: adiabaticRho / area, Alpha: 1 / (adiabaticBeta + 20)})
	// A network must have some way out: this one takes less than
	// 1e-6 W from kilowatts.
	n.AddHold("room", id, 1e-9, standardRoom)
	n.SetSupply(network.Constant(in[inCurrent]), 0)
	if err := n.Finish(); err != nil {
		return 0, err
	}
	res, err := solver.Soak(ctx, n, solver.SoakOptions{
		Tol: 1e-4, Start: []float64{in[adiabaticStart] + celsius}, Until: 3600,
		Events: []solver.Event{{Name: "end", Node: 0, Level: in[adiabaticEnd] + celsius, Stop: true}},
	})
	if err != nil {
		return 0, err
	}
	if len(res.Events) == 0 {
		return 0, fmt.Errorf("%g °C was not reached", in[adiabaticEnd])
	}
	return in[inCurrent] * math.Sqrt(res.End) / (area * 1e6), nil
}
