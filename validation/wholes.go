package validation

import (
	"context"
	"embed"
	"encoding/json"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/model/network"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file holds a jacketed conductor against the radial heat equation, and
// whole stacks against what must hold for any: the balance of energy, and that
// a stack turned end for end is the same stack.

//go:embed testdata/jacket_step.json
var jacketData embed.FS

type jacketReference struct {
	Inputs struct {
		ConductorRadius float64 `json:"conductor_radius_m"`
		OuterRadius     float64 `json:"jacket_outer_radius_m"`
		CopperArea      float64 `json:"copper_area_m2"`
		CopperDensity   float64 `json:"copper_density_kg_m3"`
		CopperHeat      float64 `json:"copper_heat_capacity_J_kgK"`
		K               float64 `json:"jacket_k_W_mK"`
		Capacity        float64 `json:"jacket_capacity_J_m3K"`
		Film            float64 `json:"film_coefficient_W_m2K"`
		Heat            float64 `json:"heat_per_metre_W_m"`
	}
	Final     struct{ Conductor, Surface float64 } `json:"final_rise_K"`
	Times     []float64                            `json:"time_s"`
	Conductor []float64                            `json:"conductor_rise_K"`
	Surface   []float64                            `json:"surface_rise_K"`
}

// The step is split at splitTime, s, from which on two nodes are claimed to do
// for a jacket.
const (
	splitTime = 60
	splitFrom = "from 60 s on"
	inHeat    = "heat per metre, W/m"
)

// soak gives the rises of conductor and surface at the reference's times, of
// one metre as two nodes with the jacket's heat capacity shared between them as
// the model's cables share it.
func (r *jacketReference) soak(ctx context.Context, heat float64) (conductor, surface []float64, err error) {
	p := r.Inputs
	ratio := p.OuterRadius / p.ConductorRadius
	jacket := p.Capacity * math.Pi * (p.OuterRadius*p.OuterRadius - p.ConductorRadius*p.ConductorRadius)
	inner := model.JacketShare(ratio) * jacket

	n := network.New(network.Surroundings{Air: standardRoom})
	core := n.AddNode(network.Node{Name: "conductor", Capacity: p.CopperArea*p.CopperDensity*p.CopperHeat + inner})
	skin := n.AddNode(network.Node{Name: "jacket", Capacity: jacket - inner})
	n.AddLink("jacket", core, skin, 2*math.Pi*p.K/math.Log(ratio))
	n.AddResistor(network.Resistor{Name: "heater", A: core, B: core, R20: heat})
	n.AddSurface(skin, network.Surface{Name: "jacket", Area: 2 * math.Pi * p.OuterRadius, Shape: network.Given{H: p.Film}})
	n.SetSupply(network.Constant(1), 0)
	if err := n.Finish(); err != nil {
		return nil, nil, err
	}
	res, err := solver.Soak(ctx, n, solver.SoakOptions{Tol: lumpTol, Start: []float64{standardRoom, standardRoom},
		Until: r.Times[len(r.Times)-1], Times: r.Times})
	if err != nil {
		return nil, nil, err
	}
	for _, x := range res.States {
		conductor = append(conductor, x[core]-standardRoom)
		surface = append(surface, x[skin]-standardRoom)
	}
	return conductor, surface, nil
}

func jacketCases() ([]Case, error) {
	data, err := jacketData.ReadFile("testdata/jacket_step.json")
	if err != nil {
		return nil, err
	}
	var ref jacketReference
	if err := json.Unmarshal(data, &ref); err != nil {
		return nil, fmt.Errorf("jacket reference: %w", err)
	}
	var cases []Case
	for _, early := range []bool{false, true} {
		for _, place := range []string{"conductor", "surface"} {
			want, final := ref.Conductor, ref.Final.Conductor
			if place == "surface" {
				want, final = ref.Surface, ref.Final.Surface
			}
			when, note := splitFrom, ""
			if early {
				when, note = "before 60 s", "two nodes do not follow the heat on its first way through the jacket"
			}
			cases = append(cases, Case{
				Group: "analytic", Name: fmt.Sprintf("jacket/%s %s", place, when), Kind: Analytic,
				Claim:  "largest difference of two nodes from 200 shells after a step of heat",
				Source: "radial heat equation, 200 shells, exact in time by eigenvectors, SciPy 1.10",
				Inputs: Inputs{inHeat: ref.Inputs.Heat}, Breaks: inHeat, Unit: "K",
				Tol: Tolerance{High: 0.01 * final, Text: "≤ 1 % of the final rise"}, Why: "what a cable in two nodes claims",
				Reported: early, Note: note,
				Got: func(ctx context.Context, in Inputs) (float64, error) {
					conductor, surface, err := ref.soak(ctx, in[inHeat])
					if err != nil {
						return 0, err
					}
					got := conductor
					if place == "surface" {
						got = surface
					}
					worst := 0.0
					for i, t := range ref.Times {
						if (t < splitTime) == early {
							worst = math.Max(worst, math.Abs(got[i]-want[i]))
						}
					}
					return worst, nil
				},
			})
		}
	}
	return cases, nil
}

func wholeCases() ([]Case, error) {
	var cases []Case
	for _, e := range scenarios.Examples() {
		more, err := energyCases(e.Name)
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return append(cases, mirrorCase()), nil
}

const inScale = "scale of what the case counts"

// energyCases are the balance of a shipped example, counted from outside: the
// heat stored by its temperatures and the heat lost by its ways out.
func energyCases(name string) ([]Case, error) {
	sc, err := scenarios.Open(name)
	if err != nil {
		return nil, err
	}
	stack, err := sc.Stack(nil)
	if err != nil {
		return nil, err
	}
	soak := func(ctx context.Context) (*model.Assembly, *solver.SoakResult, error) {
		a, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			return nil, nil, err
		}
		res, err := solver.Soak(ctx, a.Network, solver.SoakOptions{Start: a.Start(nil), Until: 900,
			Breaks: stack.BreaksUntil(900)})
		return a, res, err
	}
	common := Case{Group: "analytic", Kind: Analytic, Exact: true, Source: "conservation of energy",
		Inputs: Inputs{inScale: 1}, Breaks: inScale, Unit: "1", Want: 1}

	stored := common
	stored.Name = "energy/" + name + ", stored"
	stored.Claim = "heat stored in 15 minutes over that of all heat capacities and their rises"
	stored.Tol, stored.Why = Abs(1e-9, ""), "the same sum in another order"
	stored.Got = func(ctx context.Context, in Inputs) (float64, error) {
		a, res, err := soak(ctx)
		if err != nil {
			return 0, err
		}
		capacities := make([]float64, a.Network.Nodes())
		a.Network.Capacities(capacities)
		sum := 0.0
		start := a.Start(nil)
		for i, c := range capacities {
			sum += c * (res.X[i] - start[i])
		}
		return res.Stored / (in[inScale] * sum), nil
	}

	balance := common
	balance.Name = "energy/" + name + ", balance"
	balance.Claim = "heat made less heat lost over heat stored, after 15 minutes"
	balance.Tol, balance.Why = Abs(1e-3, ""), "the step's default tolerance of 0.05 K over the rise"
	balance.Got = func(ctx context.Context, in Inputs) (float64, error) {
		_, res, err := soak(ctx)
		if err != nil {
			return 0, err
		}
		return (res.Made - res.Lost) / (in[inScale] * res.Stored), nil
	}

	settled := common
	settled.Name = "energy/" + name + ", settled"
	settled.Claim = "heat made by all parts over heat lost by all ways, settled at the highest current"
	settled.Tol, settled.Why = Abs(1e-6, ""), "the tolerance of the search, 1e-7 K"
	settled.Got = func(ctx context.Context, in Inputs) (float64, error) {
		a, err := stack.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			return 0, err
		}
		at := peakTime(stack.Supply)
		res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil), Time: at})
		if err != nil {
			return 0, err
		}
		made, lost := 0.0, 0.0
		for _, h := range a.Made(at, res.X) {
			made += h.Heat
		}
		for _, h := range a.LostAt(at, res.X) {
			lost += h.Heat
		}
		return made / (in[inScale] * lost), nil
	}

	books := Case{
		Group: "analytic", Name: "energy/" + name + ", the method's own books", Kind: CodeCheck, Reported: true,
		Claim: "net heat by the method's own weights less heat stored, relative", Source: "conservation of energy", Unit: "1",
		Note: "shows slips of the linear algebra alone; accuracy in time it does not show",
		Got: func(ctx context.Context, _ Inputs) (float64, error) {
			_, res, err := soak(ctx)
			if err != nil {
				return 0, err
			}
			return res.Audit.Bookkeeping, nil
		},
	}
	return []Case{stored, balance, settled, books}, nil
}

// peakTime is the time at which a supply of steps begins to be highest.
func peakTime(s model.Supply) float64 {
	at := 0.0
	for _, t := range s.Breaks() {
		if s.Current(t) > s.Current(at) {
			at = t
		}
	}
	return at
}

const inMirrorJoint = "second joint, Ω"

// mirrorStack is cable, lug, fuse, lug, cable with unlike sides, in the order
// given or turned end for end. Part k of one is part 4 − k of the other.
func mirrorStack(in Inputs, turned bool) (*model.Stack, error) {
	copper, err := materials.LookupMetal("annealed copper")
	if err != nil {
		return nil, err
	}
	conductor, err := materials.LookupConductor("50 mm²")
	if err != nil {
		return nil, err
	}
	jacket, err := materials.LookupInsulation("90 °C")
	if err != nil {
		return nil, err
	}
	finish := materials.Finish{Name: "dull", Emissivity: materials.Exactly(0.3)}
	cable := func(length float64) *model.Cable {
		return &model.Cable{Label: "cable", Conductor: conductor, Insulation: jacket, Wall: 0.0015, Length: length, Exposed: 1}
	}
	lug := func(length float64) *model.Block {
		return &model.Block{Label: "lug", Metal: copper, Finish: finish, Length: length, Width: 0.025, Thickness: 0.005, Exposed: 0.002}
	}
	parts := []model.Part{
		cable(1.0), lug(0.03),
		&model.Fuse{Label: "fuse", Rated: 300, Metal: copper, Finish: finish,
			CapLength: 0.02, CapWidth: 0.025, CapThickness: 0.005, CapExposed: 0.001,
			Cold: materials.Exactly(2e-4), ElementAlpha: 0.004, ElementCapacity: 10, ToCap: materials.Exactly(0.2), ToBody: 0.1,
			Body: model.Housing{Capacity: 30, To: materials.Exactly(0.1), Exposed: 0.004, Emissivity: 0.9}},
		lug(0.05), cable(0.6),
	}
	joints := []model.Joint{
		{Name: "crimp", Kind: model.Crimped, Resistance: materials.Exactly(5e-6)},
		{Name: "first joint", Kind: model.Fixed, Resistance: materials.Exactly(1e-5), Conductance: materials.Exactly(2)},
		{Name: "second joint", Kind: model.Fixed, Resistance: materials.Exactly(in[inMirrorJoint]), Conductance: materials.Exactly(1)},
		{Name: "crimp", Kind: model.Crimped, Resistance: materials.Exactly(8e-6)},
	}
	for i := range joints {
		joints[i].A, joints[i].B = model.Port{Part: i, Port: 1}, model.Port{Part: i + 1, Port: 0}
	}
	last := len(parts) - 1
	if turned {
		for i := range len(parts) / 2 {
			parts[i], parts[last-i] = parts[last-i], parts[i]
		}
		for i := range joints {
			joints[i].A = model.Port{Part: last - joints[i].A.Part, Port: 1 - joints[i].A.Port}
			joints[i].B = model.Port{Part: last - joints[i].B.Part, Port: 1 - joints[i].B.Port}
		}
	}
	return &model.Stack{Surroundings: model.Surroundings{Air: standardRoom}, Supply: model.Constant(140), Parts: parts, Joints: joints}, nil
}

// mirrorTemps are the settled temperatures along the path, K.
func mirrorTemps(ctx context.Context, in Inputs, turned bool) ([]float64, error) {
	stack, err := mirrorStack(in, turned)
	if err != nil {
		return nil, err
	}
	a, err := stack.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		return nil, err
	}
	res, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: a.Start(nil)})
	if err != nil {
		return nil, err
	}
	temps := make([]float64, len(a.Path))
	for i, p := range a.Path {
		temps[i] = res.X[p.Node]
	}
	return temps, nil
}

func mirrorCase() Case {
	given := Inputs{inMirrorJoint: 4e-5}
	return Case{
		Group: "analytic", Name: "mirror/stack turned end for end", Kind: Analytic, Exact: true,
		Claim:  "largest difference of a place's temperature in a stack and in the same turned round",
		Source: "symmetry", Inputs: given, Breaks: inMirrorJoint,
		Unit: "K", Tol: Tolerance{High: 1e-6, Text: "≤ 1e-6 K"}, Why: "ten times the tolerance of the search",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			// The input is that of the turned stack alone.
			one, err := mirrorTemps(ctx, given, false)
			if err != nil {
				return 0, err
			}
			other, err := mirrorTemps(ctx, in, true)
			if err != nil {
				return 0, err
			}
			if len(one) != len(other) {
				return 0, fmt.Errorf("the stack has %d places and %d turned round", len(one), len(other))
			}
			worst := 0.0
			for i := range one {
				worst = math.Max(worst, math.Abs(one[i]-other[len(other)-1-i]))
			}
			return worst, nil
		},
	}
}
