package validation

import (
	"context"
	"embed"
	"fmt"
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file holds whole installations: batteries on a bar as a stack of parts,
// whose ohms come from metal and geometry, against the same row worked by hand;
// and spaces hotter than a room. Where nobody has published a measurement, the
// difference is reported.

//go:embed testdata/four_batteries.yaml
var installationFiles embed.FS

func installationCases() ([]Case, error) {
	holders, err := holdersOfFour()
	return slices.Concat(bankCases(), holders, hotRoomCases()), err
}

const inSpacing = "bar between neighbours, m"

// A bank is four batteries, each with a cable of its own, side by side on the
// studs of a bar. Its load hangs on the first stud and, on the negative side,
// whose rail is like the bar, on the last battery.
type bank struct {
	spacing float64 // m
	stack   *model.Stack
	cable   float64 // Ω at 20 °C, of a cable with its crimp
}

const (
	bankAir     = 20 + celsius
	bankInner   = 1.5e-3 // Ω of a battery
	bankCrimp   = 1e-5   // Ω
	bankWidth   = 8e-3   // m of the bar
	bankThick   = 1e-3   // m
	bankSpacing = 0.25   // m
)

func newBank(spacing, amps float64) (*bank, error) {
	metal, err := barMetal(1)
	if err != nil {
		return nil, err
	}
	conductor, err := materials.LookupConductor("35 mm²")
	if err != nil {
		return nil, err
	}
	jacket, err := materials.LookupInsulation("105 °C")
	if err != nil {
		return nil, err
	}
	const bar = 4 // its index among the parts
	s := &model.Stack{Surroundings: model.Surroundings{Air: bankAir}, Supply: model.Constant(amps)}
	rail := &model.Bar{Label: "bar", Metal: metal, Finish: materials.Finish{Name: "dull", Emissivity: materials.Exactly(0.3)},
		Width: bankWidth, Thickness: bankThick, Length: 3*spacing + 0.04, Exposed: 1}
	for k := range 4 {
		rail.Studs = append(rail.Studs, 0.02+float64(k)*spacing)
		s.Parts = append(s.Parts, &model.Cable{Label: fmt.Sprintf("cable %d", k+1), Conductor: conductor, Insulation: jacket,
			Wall: 1.5e-3, Length: 0.4, Exposed: 1})
		s.Joints = append(s.Joints, model.Joint{Name: fmt.Sprintf("crimp %d", k+1), Kind: model.Crimped, Resistance: materials.Exactly(bankCrimp),
			A: model.Port{Part: k, Port: 1}, B: model.Port{Part: bar, Port: k}})
		s.Wires = append(s.Wires, model.Wire{Name: fmt.Sprintf("battery %d", k+1), EMF: rowVolts, Resistance: bankInner,
			A: model.Port{Part: model.Outside, Port: k}, B: model.Port{Part: k}})
		if k > 0 {
			s.Wires = append(s.Wires, model.Wire{Name: "negative link", Like: &model.Section{Part: bar, From: k - 1, To: k},
				A: model.Port{Part: model.Outside, Port: k - 1}, B: model.Port{Part: model.Outside, Port: k}})
		}
	}
	s.Parts = append(s.Parts, rail)
	s.Draws = []model.Draw{{Name: "load", From: model.Port{Part: bar}, To: model.Port{Part: model.Outside, Port: 3}}}
	return &bank{spacing: spacing, stack: s, cable: conductor.Resistance20*0.4 + bankCrimp}, nil
}

// ratio is a link of bar over a battery with its cable, at 20 °C.
func (b *bank) ratio() (float64, error) {
	metal, err := barMetal(1)
	return metal.Resistivity20 * b.spacing / (bankWidth * bankThick) / (bankInner + b.cable), err
}

// shares are those of the batteries' currents whose cables stay, settled.
func (b *bank) shares(ctx context.Context, opened ...int) ([]float64, error) {
	s := b.stack
	if len(opened) > 0 {
		var err error
		if s, err = s.Without(opened...); err != nil {
			return nil, err
		}
	}
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return nil, err
	}
	res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil)})
	if err != nil {
		return nil, err
	}
	shares := make([]float64, 4-len(opened))
	for _, branch := range a.Branches {
		for _, part := range branch.Parts {
			if part < len(shares) {
				shares[part] = math.Abs(a.Network.ReadBranch(branch.ID, 0, res.X).Current) / s.Supply.Current(0)
			}
		}
	}
	return shares, nil
}

// bankCases are the row with load and return at opposite ends. By the laws worked
// out at rowsOfFour, with ρ a link over a battery and its cable, the first takes
//
//	(1 + 2ρ)/(4 (1 + ρ))  and, the second opened,  (1 + 4ρ)/(3 + 8ρ + ρ/(1 + ρ))
//
// of the current. One ampere warms nothing, so that the ohms are those of 20 °C;
// under load links and cables warm by unlike amounts.
func bankCases() []Case {
	given := Inputs{inSpacing: bankSpacing}
	first := func(amps float64, opened ...int) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			b, err := newBank(in[inSpacing], amps)
			if err != nil {
				return 0, err
			}
			shares, err := b.shares(ctx, opened...)
			if err != nil {
				return 0, err
			}
			return shares[0], nil
		}
	}
	b, err := newBank(bankSpacing, 1)
	var rho float64
	if err == nil {
		rho, err = b.ratio()
	}
	failing := func(context.Context, Inputs) (float64, error) { return 0, err }
	whole, broken := (1+2*rho)/(4*(1+rho)), (1+4*rho)/(3+8*rho+rho/(1+rho))
	cases := []Case{{
		Name: "bank/opposite ends, cold", Claim: "first battery's share of the current, of four with cables on a bar",
		Want: whole, Got: first(1),
	}, {
		Name: "bank/opposite ends, cold, second opened", Claim: "first battery's share with the second one's cable taken away",
		Want: broken, Got: first(1, 1),
	}, {
		Name: "bank/opposite ends, 200 A", Claim: "the same share, hot, against the cold one worked by hand",
		Want: whole, Got: first(200), Reported: true,
		Note: "bar and cables warm by unlike amounts, a battery's inside not at all: nobody has measured the row",
	}}
	for i := range cases {
		c := &cases[i]
		c.Group, c.Kind, c.Source, c.Unit = "installations", Analytic, "Kirchhoff's laws, worked by hand", "1"
		c.Inputs, c.Breaks, c.Exact = given, inSpacing, true
		c.Tol, c.Why = Rel(c.Want, 1e-5), "an ampere warms the bar by some millikelvin"
		if err != nil {
			c.Got = failing
		}
	}
	return cases
}

// holdersOfFour set four compact holders, a battery each, beside the one
// high-capacity holder of the practice case that carries the same current alone.
func holdersOfFour() ([]Case, error) {
	const name = "testdata/four_batteries.yaml"
	data, err := installationFiles.ReadFile(name)
	if err != nil {
		return nil, err
	}
	sc, err := scenarios.Read(name, data)
	if err != nil {
		return nil, fmt.Errorf("four batteries: %w", err)
	}
	settled := func(ctx context.Context) (*model.Assembly, []float64, error) {
		stack, err := sc.Stack(nil)
		if err != nil {
			return nil, nil, err
		}
		a, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			return nil, nil, err
		}
		res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil)})
		if err != nil {
			return nil, nil, err
		}
		return a, res.X, nil
	}
	common := Case{Group: "installations", Kind: Practice, Source: practiceSource, Inputs: Inputs{inCurrent: 140}, Reported: true}
	hottest := common
	hottest.Name, hottest.Unit, hottest.Want = "four compact holders/hottest terminal", "°C", highCapacityReading
	hottest.Claim = "hottest terminal, settled, of four compact holders at 140 A in all, against the usual reading of one high-capacity holder at 140 A"
	hottest.Note = "nobody has measured four; the reading is of another holder after a quarter of an hour"
	hottest.Got = func(ctx context.Context, _ Inputs) (float64, error) {
		a, x, err := settled(ctx)
		if err != nil {
			return 0, err
		}
		return a.RowTemp(a.HottestTerminal(x), x) - celsius, nil
	}
	even := common
	even.Name, even.Unit, even.Want = "four compact holders/largest share", "1", 0.25
	even.Claim = "largest share of the current that one of four alike holders takes, load and return at opposite ends"
	even.Note = "even shares are what people count on; bar and rail between the batteries make the difference"
	even.Got = func(ctx context.Context, in Inputs) (float64, error) {
		a, x, err := settled(ctx)
		if err != nil {
			return 0, err
		}
		largest := 0.0
		for _, way := range sc.Ways() {
			if way.Kind == scenarios.BatteryWay {
				row := slices.IndexFunc(a.Rows, func(r model.Row) bool { return r.Part == way.Parts[0] })
				largest = max(largest, math.Abs(a.RowCurrent(row, 0, x))/in[inCurrent])
			}
		}
		return largest, nil
	}
	return []Case{hottest, even}, nil
}

// hotRoomCases are what a hot space does to a cable and to a box.
func hotRoomCases() []Case {
	const inHotAir = "air of the engine space, K"
	var cases []Case
	for _, awg := range []string{"8", "2", "4/0"} {
		in := Inputs{inHotAir: 50 + celsius}
		cases = append(cases, Case{
			Group: "installations", Name: "engine space/" + awg + " AWG", Kind: Published,
			Claim:  "current of a 105 °C cable in air of 50 °C over that in air of 30 °C",
			Source: "33 CFR 183.425, Table 5, note 1", Inputs: in, Breaks: inHotAir,
			Unit: "1", Want: 0.85, Tol: Abs(0.03, ""),
			Why: "printed to two decimals from a loss that goes with the rise; natural convection grows faster; fixed before the comparison",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				outside, err := cableInputs(awg, 30, 105)
				if err != nil {
					return 0, err
				}
				open, err := cableCurrent(ctx, outside, awg, "105 °C")
				if err != nil {
					return 0, err
				}
				inside := with(outside, Inputs{inAir: in[inHotAir], inConductor: 105 + celsius - in[inHotAir]})
				hot, err := cableCurrent(ctx, inside, awg, "105 °C")
				return hot / open, err
			},
		})
	}
	return append(cases, Case{
		Group: "installations", Name: "engine space/box", Kind: Published, Reported: true,
		Claim:  "rise of a closed box's air in a space of 60 °C over that in a room of 25 °C, 60 W",
		Source: rise60890, Inputs: Inputs{inHotAir: 60 + celsius, inBoxHeat: 60}, Unit: "1", Want: 1,
		Note: "the report gives rises for any air; radiation grows with the air's temperature, so that the rise falls a little",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			var rises [2]float64
			for i, air := range [2]float64{standardRoom, in[inHotAir]} {
				s, err := mediumMetalBox.holding(in[inBoxHeat], false)
				if err != nil {
					return 0, err
				}
				s.Surroundings.Air = air
				if rises[i], _, err = settledBox(ctx, s); err != nil {
					return 0, err
				}
			}
			return rises[1] / rises[0], nil
		},
	})
}
