package validation

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// This file holds cables that touch against the factors that standards and law
// reduce the current of one cable by, and against the heat that a standard has
// groups give to free air.

const (
	groupTable = "IEC 60364-5-52:2009, Table B.52.17"
	groupHeat  = "IEC 60287-2-1, heat dissipation of cables in free air"
	groupLaw   = "33 CFR 183.425, Table 5, note 2"
)

const (
	inCount = "cables"
	inOuter = "cable's outer diameter, m"
)

// Of the conductors, which a factor hardly depends on: PVC at the 70 °C of the
// standard, in its air of 30 °C.
const (
	groupInsulation = "75 °C"
	groupAirC       = 30
	groupRise       = 40
	groupSize       = "2"
)

// groupSizes are a small, a middle and a large cable of a stack.
var groupSizes = []string{"8", "2", "4/0"}

// groupedCable is a piece out of the middle of a long cable of a gauge, with
// what is around it.
func groupedCable(awg, insulation string, bundle *model.Bundle, conduit *model.Conduit) (*model.Cable, error) {
	conductor, err := materials.LookupConductor(awg + " AWG")
	if err != nil {
		return nil, err
	}
	jacket, err := materials.LookupInsulation(insulation)
	if err != nil {
		return nil, err
	}
	wall, _, err := materials.JacketWall(conductor.Area)
	return &model.Cable{
		Label: "cable", Conductor: conductor, Insulation: jacket, Wall: wall.Likely,
		Length: 0.1, Lies: model.Horizontal, Exposed: 1, Bundle: bundle, Conduit: conduit,
	}, err
}

// ratedCurrent is the current, A, at which the conductor of a cable comes to a
// rise, K, over air, K.
func ratedCurrent(ctx context.Context, cable *model.Cable, air, rise float64) (float64, error) {
	stack := model.Stack{
		Surroundings: model.Surroundings{Air: air}, Supply: model.Constant(1), Parts: []model.Part{cable},
	}
	a, err := stack.Assemble(model.Likely, model.Mesh{Cell: 1})
	if err != nil {
		return 0, err
	}
	res, err := solver.NewSteadySolver(a.Network).Rate(ctx, solver.RateOptions{
		Start:   a.Start(nil),
		Targets: []solver.Target{{Nodes: []int{int(a.Rows[0].Nodes[0])}, Temp: air + rise}},
	})
	if err != nil {
		return 0, err
	}
	if len(res.Reached) == 0 {
		return 0, fmt.Errorf("a rise of %g K was not reached: %w", rise, res.End)
	}
	return res.Reached[0].Load, nil
}

// groupFactor is the current of one of a number of cables that touch over that
// of a single one, at the same temperature of the conductor.
func groupFactor(ctx context.Context, in Inputs, awg string, how model.Arrangement) (float64, error) {
	var amps [2]float64
	for i, b := range [2]*model.Bundle{nil, {Count: int(math.Round(in[inCount])), Arrangement: how}} {
		cable, err := groupedCable(awg, groupInsulation, b, nil)
		if err != nil {
			return 0, err
		}
		if amps[i], err = ratedCurrent(ctx, cable, in[inAir], in[inRise]); err != nil {
			return 0, err
		}
	}
	return amps[1] / amps[0], nil
}

func groupInputs(cables float64) Inputs {
	return Inputs{inCount: cables, inAir: groupAirC + celsius, inRise: groupRise}
}

func bundleCases() ([]Case, error) {
	var cases []Case
	for _, group := range []func() ([]Case, error){groupFactors, lawFactors, groupHeats} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// arrangement reads how the cables of a row of a table lie.
func (r sheetRow) arrangement() model.Arrangement {
	if strings.HasPrefix(r.text("arrangement"), "row") {
		return model.FlatRow
	}
	return model.RoundBunch
}

// groupFactors are those of the standard, each for the middle size and all for
// three sizes.
func groupFactors() ([]Case, error) {
	table, err := openSheet("iec_60364_5_52_groups")
	if err != nil {
		return nil, err
	}
	var cases []Case
	rows := map[string][]sheetRow{}
	var names []string
	for _, r := range table.rows {
		name := r.text("arrangement")
		if rows[name] == nil {
			names = append(names, name)
		}
		rows[name] = append(rows[name], r)
		if name == "row on wall" {
			continue // its wall takes part of the air: the mean below shows how much
		}
		want, how := r.number("factor"), r.arrangement()
		cases = append(cases, Case{
			Group: "bundles", Name: fmt.Sprintf("%s/%s cables", name, r.text("cables")), Kind: Published,
			Claim:  "current of a cable among others that touch it over that of one alone, " + groupSize + " AWG",
			Source: r.source(groupTable), Inputs: groupInputs(r.number("cables")), Breaks: inCount,
			Unit: "1", Want: want, Tol: Rel(want, 0.10),
			Why: "one factor for all sizes and makes of cable, of circuits as well as of cables; sizes of stacks differ by ±7 % among themselves",
			Got: func(ctx context.Context, in Inputs) (float64, error) { return groupFactor(ctx, in, groupSize, how) },
		})
	}
	for _, name := range names {
		cases = append(cases, spreadOfFactors(name, rows[name])...)
	}
	return cases, table.err
}

// spreadOfFactors are mean, least and largest of predicted over printed, of a
// small, a middle and a large cable.
func spreadOfFactors(name string, rows []sheetRow) []Case {
	ratios := func(ctx context.Context) ([]float64, error) {
		var all []float64
		for _, r := range rows {
			for _, awg := range groupSizes {
				f, err := groupFactor(ctx, groupInputs(r.number("cables")), awg, r.arrangement())
				if err != nil {
					return nil, err
				}
				all = append(all, f/r.number("factor"))
			}
		}
		return all, nil
	}
	note := "every count in " + strings.Join(groupSizes, ", ") + " AWG; the counts are judged one by one"
	if name == "row on wall" {
		note = "a wall or floor below the row keeps air from its lower side, which the model's row has"
	}
	return spread("bundles", name, groupTable, note, ratios)
}

// lawFactors are those of the law for boats, one for a range of counts.
func lawFactors() ([]Case, error) {
	table, err := openSheet("cfr_33_183_425_factors")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		if r.text("factor") != "bundle" {
			continue
		}
		first, last, ranged := strings.Cut(r.text("conductors"), "-")
		least, err := strconv.ParseFloat(first, 64)
		if err != nil {
			return nil, err
		}
		counts := map[string]float64{first: least}
		order := []string{first}
		if ranged && last != "" {
			most, err := strconv.ParseFloat(last, 64)
			if err != nil {
				return nil, err
			}
			counts[last] = most
			order = append(order, last)
		}
		for _, name := range order {
			cases = append(cases, lawFactor(r, name, counts[name]))
		}
	}
	return cases, table.err
}

func lawFactor(r sheetRow, name string, count float64) Case {
	want := r.number("value")
	c := Case{
		Group: "bundles", Name: fmt.Sprintf("law/%s of %s cables", name, r.text("conductors")), Kind: Published,
		Claim:  "current of a conductor in a bundle, all loaded, over that of one alone, " + groupSize + " AWG",
		Source: r.source(groupLaw), Inputs: groupInputs(count), Breaks: inCount,
		Unit: "1", Want: want, Tol: Rel(want, 0.10),
		Why: "one factor for a range of counts, rounded to 0.05 or 0.1",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			return groupFactor(ctx, in, groupSize, model.RoundBunch)
		},
	}
	if count > 6 {
		c.Reported = true
		c.Note = "The factor stands for a wide range of counts; more than it holds for when all are loaded, if they are many"
	}
	return c
}

// groupHeats are what groups of cables give to the air by the standard's
// relation h = Z/Deᵍ + E, W/(m² K^1.25) over the whole jacket.
func groupHeats() ([]Case, error) {
	table, err := openSheet("iec_60287_groups")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		z, e, g := r.number("Z"), r.number("E"), r.number("g")
		for _, de := range []float64{15e-3, 30e-3} {
			for _, rise := range []float64{20, 40} {
				want := math.Pi * de * (z/math.Pow(de, g) + e) * math.Pow(rise, 1.25)
				var bundle *model.Bundle
				if n := int(r.number("cables")); n > 1 {
					bundle = &model.Bundle{Count: n, Arrangement: r.arrangement()}
				}
				cases = append(cases, Case{
					Group: "bundles", Name: fmt.Sprintf("heat/%s of %s, %.0f mm, %.0f K", r.text("arrangement"), r.text("cables"), de*1e3, rise), Kind: Published,
					Claim:  "heat that a metre of one black cable of touching ones gives to free air, by the rise of its surface",
					Source: r.source(groupHeat), Inputs: Inputs{inOuter: de, inRise: rise}, Breaks: inRise,
					Unit: "W/m", Want: want, Tol: Rel(want, 0.15),
					Why: "15 % of heat is 7 % of current; a fit for all sizes and air temperatures, which one cable alone misses by up to 7 % of heat",
					Got: func(_ context.Context, in Inputs) (float64, error) { return hullHeat(in, bundle) },
				})
			}
		}
	}
	return cases, table.err
}

// hullHeat is what a metre of a black cable in air of 25 °C gives off with its
// surface at a rise.
func hullHeat(in Inputs, bundle *model.Bundle) (float64, error) {
	const air = 25 + celsius
	cable, err := groupedCable(groupSize, groupInsulation, bundle, nil)
	if err != nil {
		return 0, err
	}
	cable.Insulation.Emissivity = materials.Exactly(1)
	cable.Conductor.Diameter = materials.Exactly(in[inOuter] - 2*cable.Wall)
	stack := model.Stack{Surroundings: model.Surroundings{Air: air}, Supply: model.Constant(1), Parts: []model.Part{cable}}
	a, err := stack.Assemble(model.Likely, model.Mesh{Cell: 1})
	if err != nil {
		return 0, err
	}
	x := a.Start(map[int]float64{0: air + in[inRise]})
	return a.Network.Balance(0, x, make([]float64, len(x))).Lost / cable.Length, nil
}
