package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds whole enclosures against what is published about the rise of
// their air: how it grows with heat and falls with size, where the form of the
// relation is judged; and how high it is, which is reported. The published
// constants come from assemblies in which things of many shapes stand close to
// walls, and the model's from correlations for plates.

const (
	rise60890 = "IEC TR 60890" + fromMemory

	inWattsOne = "lower heat, W"
	inWattsTwo = "higher heat, W"
	inBoxSize  = "size over that of the smaller box"
	inVentArea = "each vent, m²"
	inVentRise = "height between vents, m"
	inHeight   = "height, m"
)

// A metalBox is a box of 1.5 mm painted steel, m.
type metalBox struct{ width, height, depth float64 }

// cooling is the effective cooling surface by IEC TR 60890, m², all around in air:
// 1.4 of the top, 0.9 of each upright face and nothing of the floor (from memory).
func (b metalBox) cooling() float64 {
	return 1.4*b.width*b.depth + 0.9*2*b.height*(b.width+b.depth)
}

// painted is the emissivity of a painted face, and carbonSteel its wall: common
// figures of handbooks, from memory.
const painted = 0.9

var carbonSteel = model.Wall{Name: "steel", Conductivity: 52, Density: 7850, SpecificHeat: 460, Thickness: 1.5e-3}

// holding is a stack of one bar in the box. Its current is chosen so that the bar
// alone makes all the heat, or other things make it.
func (b metalBox) holding(watts float64, byBar bool) (*model.Stack, error) {
	copper, err := barMetal(1)
	if err != nil {
		return nil, err
	}
	bar := &model.Bar{Label: "bar", Metal: copper, Finish: materials.Finish{Name: "painted", Emissivity: materials.Exactly(painted)},
		Width: b.height / 8, Thickness: 3e-3, Length: b.width, Lies: model.Horizontal, Exposed: 1}
	s := &model.Stack{
		Surroundings: model.Surroundings{Air: standardRoom},
		Supply:       model.Constant(0),
		Parts:        []model.Part{bar},
		Enclosure: &model.Enclosure{Label: "box", Width: b.width, Height: b.height, Depth: b.depth,
			Wall: carbonSteel, Inside: painted, Outside: painted, Heat: watts},
	}
	if byBar {
		cold := copper.Resistivity20 * bar.Length / (bar.Width * bar.Thickness)
		s.Supply, s.Enclosure.Heat = model.Constant(math.Sqrt(watts/cold)), 0
	}
	return s, nil
}

// settledBox is a stack in its box, settled: the rise of the air in it, K, and all
// heat made, W.
func settledBox(ctx context.Context, s *model.Stack) (rise, made float64, err error) {
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return 0, 0, err
	}
	res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil)})
	if err != nil {
		return 0, 0, err
	}
	for _, h := range a.Made(0, res.X) {
		made += h.Heat
	}
	return a.ReadBox(0, res.X).Air - s.Surroundings.Air, made, nil
}

// airRise is that of a box with other heat in it, after a change of the box.
func (b metalBox) airRise(ctx context.Context, watts float64, change func(*model.Enclosure)) (float64, error) {
	s, err := b.holding(watts, false)
	if err != nil {
		return 0, err
	}
	if change != nil {
		change(s.Enclosure)
	}
	rise, _, err := settledBox(ctx, s)
	return rise, err
}

var (
	smallMetalBox  = metalBox{0.20, 0.20, 0.12} // A_e 0.149 m²
	mediumMetalBox = metalBox{0.40, 0.60, 0.20} // A_e 0.760 m²
	largeMetalBox  = metalBox{0.80, 1.20, 0.40} // A_e 3.04 m²
)

// smallConstant is the enclosure constant of IEC TR 60890 up to an effective
// cooling surface of 1.25 m², as the power law through its figure: 3.371 at
// 0.1 m², 1.500 at 0.3 m² and 0.618 at 1 m² (from memory).
func smallConstant(cooling float64) float64 { return 0.618 * math.Pow(cooling, smallSizeExponent) }

const (
	smallSizeExponent = -0.737
	closedExponent    = 0.804 // of the heat, without vents
	ventedExponent    = 0.715 // of the heat, with vents

	// largeConstant is the constant at 3 m², where the figure is no power law.
	largeConstant = 0.225

	// trendBand is what an exponent may be off: natural convection alone gives 0.8
	// and radiation near 1 to a closed box, and vents alone 2/3. It was fixed before
	// the comparison.
	trendBand = 0.06
	trendWhy  = "convection alone gives 0.8, radiation alone 1 and vents alone 2/3; fixed before the comparison"
)

func enclosureCases() ([]Case, error) {
	powers := Inputs{inWattsOne: 30, inWattsTwo: 60}
	vented := Inputs{inWattsOne: 200, inWattsTwo: 400, inVentArea: 0.03}
	sizes := Inputs{inBoxSize: math.Sqrt2, inBoxHeat: 40}
	cases := []Case{{
		Group: "boxes", Name: "trend/heat, closed", Kind: Published,
		Claim:  "exponent of the heat in the rise of a closed steel box's air, 30 and 60 W",
		Source: rise60890, Inputs: powers, Breaks: inWattsTwo,
		Unit: "1", Want: closedExponent, Tol: Abs(trendBand, ""), Why: trendWhy,
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			return exponent(ctx, mediumMetalBox, in, powers, nil)
		},
	}, {
		Group: "boxes", Name: "trend/heat, vents", Kind: Published,
		Claim:  "exponent of the heat in the rise of a box with two vents of 300 cm², 200 and 400 W",
		Source: rise60890, Inputs: vented, Breaks: inWattsTwo,
		Unit: "1", Want: ventedExponent, Tol: Abs(trendBand, ""), Why: trendWhy,
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			return exponent(ctx, largeMetalBox, in, vented, func(e *model.Enclosure) {
				e.Inlet, e.Outlet, e.VentRise = in[inVentArea], in[inVentArea], 0.8*e.Height
			})
		},
	}, {
		Group: "boxes", Name: "trend/size", Kind: Published,
		Claim:  "exponent of the effective cooling surface in the rise, boxes of one form up to 1.25 m²",
		Source: rise60890, Inputs: sizes, Breaks: inBoxSize,
		Unit: "1", Want: smallSizeExponent, Tol: Abs(trendBand, ""), Why: trendWhy,
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			one, err := mediumMetalBox.scaled(1/math.Sqrt2).airRise(ctx, in[inBoxHeat], nil)
			if err != nil {
				return 0, err
			}
			two, err := mediumMetalBox.scaled(in[inBoxSize]/math.Sqrt2).airRise(ctx, in[inBoxHeat], nil)
			return math.Log(two/one) / math.Log(2), err
		},
	}}
	return append(append(cases, levelCases()...), sealedCase()), nil
}

func (b metalBox) scaled(by float64) metalBox {
	return metalBox{b.width * by, b.height * by, b.depth * by}
}

// exponent is that of the heat between two heats, counted by the ratio of the
// given ones.
func exponent(ctx context.Context, b metalBox, in, given Inputs, change func(*model.Enclosure)) (float64, error) {
	one, err := b.airRise(ctx, in[inWattsOne], change)
	if err != nil {
		return 0, err
	}
	two, err := b.airRise(ctx, in[inWattsTwo], change)
	return math.Log(two/one) / math.Log(given[inWattsTwo]/given[inWattsOne]), err
}

// levelCases report how high the air's rise is.
func levelCases() []Case {
	var cases []Case
	for _, b := range []struct {
		name            string
		box             metalBox
		watts, constant float64
	}{
		{"small", smallMetalBox, 15, smallConstant(smallMetalBox.cooling())},
		{"medium", mediumMetalBox, 60, smallConstant(mediumMetalBox.cooling())},
		{"large", largeMetalBox, 300, largeConstant},
	} {
		for _, byBar := range []bool{false, true} {
			from := "heat made in the air"
			if byBar {
				from = "heat made by a painted bar"
			}
			cases = append(cases, Case{
				Group: "boxes", Name: fmt.Sprintf("level/%s box, %s", b.name, from), Kind: Published, Reported: true,
				Claim:  fmt.Sprintf("rise of the air in a closed steel box over that of the report, %s, about %.0f W", from, b.watts),
				Source: rise60890, Inputs: Inputs{inBoxHeat: b.watts}, Unit: "1", Want: 1,
				Note: "the report's constants are from memory and from assemblies whose parts stir and warm the wall; the model has still air between parts and plain walls",
				Got: func(ctx context.Context, in Inputs) (float64, error) {
					s, err := b.box.holding(in[inBoxHeat], byBar)
					if err != nil {
						return 0, err
					}
					rise, made, err := settledBox(ctx, s)
					return rise / (b.constant * math.Pow(made, closedExponent)), err
				},
			})
		}
	}
	for _, m := range []struct {
		name string
		to   model.Mounting
	}{{"a bulkhead", model.OnBulkhead}, {"insulation", model.Insulated}} {
		b := mediumMetalBox
		covered := b.cooling() - 0.4*b.width*b.height // 0.5 of a covered back instead of 0.9
		cases = append(cases, Case{
			Group: "boxes", Name: "mounting/back against " + m.name, Kind: Published, Reported: true,
			Claim:  "rise of the air with the back covered over that with air all around",
			Source: rise60890, Inputs: Inputs{inBoxHeat: 60}, Unit: "1",
			Want: smallConstant(covered) / smallConstant(b.cooling()),
			Note: "the report has one factor for any covered back; the contact with the bulkhead is taken as 5 W/(m²K), between air and good contact",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				free, err := b.airRise(ctx, in[inBoxHeat], nil)
				if err != nil {
					return 0, err
				}
				mounted, err := b.airRise(ctx, in[inBoxHeat], func(e *model.Enclosure) { e.Mounting, e.Bulkhead = m.to, 5 })
				return mounted / free, err
			},
		})
	}
	return append(cases, Case{
		Group: "boxes", Name: "level/heat through painted steel", Kind: Practice, Reported: true,
		Claim:  "heat from inside air to the room over surface and difference, medium box of painted steel, heat made by a bar",
		Source: practiceSource, Inputs: Inputs{inBoxHeat: 60}, Unit: "W/(m²·K)", Want: 5.5,
		Note: "the usual figure for cabinets, whose air is stirred by fans inside",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			b := mediumMetalBox
			s, err := b.holding(in[inBoxHeat], true)
			if err != nil {
				return 0, err
			}
			rise, made, err := settledBox(ctx, s)
			surface := 2 * (b.width*b.height + b.height*b.depth + b.width*b.depth)
			return made / (surface * rise), err
		},
	})
}

// sealedCase is the outside of a box of 15 × 30 × 40 cm on a stand, all at 65 °C in
// a room of 35 °C: 0.21 m² of sides, 0.12 m² of top, nothing below. The example
// adds 33.6 W and 14.6 W of convection, by rounded relations for air, and 64.5 W of
// radiation.
func sealedCase() Case {
	const inBoxTop, inTopLength = "top, m²", "top's area over its perimeter, m"
	in := Inputs{inHeight: 0.15, inSurface: 0.21, inBoxTop: 0.12, inTopLength: 0.12 / 1.4, inEmissivity: 0.85, inAir: 35 + celsius, inRise: 30}
	return Case{
		Group: "boxes", Name: "outside/15 × 30 × 40 cm", Kind: Published,
		Claim:  "heat that a sealed box of electronics gives off at 65 °C in a room of 35 °C",
		Source: "Cengel, Heat Transfer: A Practical Approach, 2nd ed. 2003, ch. 15" + fromMemory,
		Inputs: in, Breaks: inRise, Unit: "W", Want: 112.7, Tol: Rel(112.7, 0.1),
		Why: "the example's relations are rounded and lie a tenth from others; fixed before the comparison",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			watts := 0.0
			for _, s := range []network.Surface{
				{Name: "sides", Area: in[inSurface], Emissivity: in[inEmissivity], Shape: network.VerticalPlate{H: in[inHeight]}},
				{Name: "top", Area: in[inBoxTop], Emissivity: in[inEmissivity], Shape: network.FaceUp{L: in[inTopLength]}},
			} {
				r, err := surfaceAt(network.Surroundings{Air: in[inAir]}, s, in[inAir]+in[inRise])
				if err != nil {
					return 0, err
				}
				watts += r.Convection + r.Radiation
			}
			return watts, nil
		},
	}
}
