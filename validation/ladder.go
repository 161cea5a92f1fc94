package validation

import (
	"context"
	"embed"
	"encoding/json"
	"fmt"
	"math"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file builds a heated rod cell by cell through the public API of the
// network, and holds the solver against reference solutions of the same
// equations by general-purpose integrators.

//go:embed testdata/ladder_reference.json testdata/ladder_throughput_reference.csv
var ladderData embed.FS

// The rod: copper, 1 m by 8 mm, with a joint of 150 J/K on its first cell and a
// body held at the air's temperature on its last. All figures are those of the
// problem stated in testdata/ladder_reference.json.
const (
	ladderLength     = 1.0
	ladderDiameter   = 0.008
	ladderDensity    = 8933.0
	ladderHeat       = 385.0
	ladderConduction = 390.0
	ladderRho        = 1.7241e-8
	ladderAlpha      = 0.00393
	ladderEmissivity = 0.4
	ladderJointOhm   = 0.25e-3
	ladderJointHeat  = 150.0
	ladderEnd        = 0.5
	ladderAir        = 298.15
	ladderCurrent    = 160.0
	ladderUntil      = 3600.0
)

// ladder is the rod as a network, with the joint's resistor to vary.
type ladder struct {
	*network.Network
	n     int
	joint network.ResistorID
}

func newLadder(n int, current, jointOhm float64) (*ladder, error) {
	net := network.New(network.Surroundings{Air: ladderAir})
	area, perimeter, dx := math.Pi*ladderDiameter*ladderDiameter/4, math.Pi*ladderDiameter, ladderLength/float64(n)
	capacity := ladderDensity * ladderHeat * area * dx
	law := network.PowerLaw{C: 1.32, L: ladderDiameter, M: 0.25}
	first := network.NodeID(0)
	var previous network.NodeID
	for i := range n {
		c := capacity
		if i == 0 {
			c += ladderJointHeat
		}
		id := net.AddNode(network.Node{Name: fmt.Sprintf("cell %d", i), Capacity: c})
		net.AddResistor(network.Resistor{Name: "rod", A: id, B: id, R20: ladderRho * dx / area, Alpha: ladderAlpha})
		net.AddSurface(id, network.Surface{Name: "rod", Area: perimeter * dx, Emissivity: ladderEmissivity, Shape: law})
		if i == 0 {
			first = id
		} else {
			net.AddLink("rod", previous, id, ladderConduction*area/dx)
		}
		previous = id
	}
	l := &ladder{Network: net, n: n}
	l.joint = net.AddResistor(network.Resistor{Name: "joint", A: first, B: first, R20: jointOhm, Alpha: ladderAlpha})
	net.AddHold("body", previous, ladderEnd, ladderAir)
	net.SetSupply(network.Constant(current), 0)
	if err := net.Finish(); err != nil {
		return nil, err
	}
	return l, nil
}

// start is the rod at one temperature.
func (l *ladder) start(temp float64) []float64 {
	x := make([]float64, l.n)
	for i := range x {
		x[i] = temp
	}
	return x
}

// cells that the reference gives: first, middle, last.
func (l *ladder) cells() [3]int { return [3]int{0, l.n / 2, l.n - 1} }

type ladderReference struct {
	Times []float64 `json:"time_s"`
	N     map[string]struct {
		Transient struct{ First, Middle, Last []float64 }
		Steady    struct{ First, Middle, Last float64 }
	}
	Steady300A struct {
		First map[string]float64 `json:"first_cell_degC"`
	} `json:"steady_300A"`
}

func readLadderReference() (*ladderReference, error) {
	data, err := ladderData.ReadFile("testdata/ladder_reference.json")
	if err != nil {
		return nil, err
	}
	var r ladderReference
	if err := json.Unmarshal(data, &r); err != nil {
		return nil, fmt.Errorf("ladder reference: %w", err)
	}
	return &r, nil
}

// soakError is the largest difference from the reference of a soak, K.
func (r *ladderReference) soakError(ctx context.Context, n int, current, tol float64) (float64, error) {
	l, err := newLadder(n, current, ladderJointOhm)
	if err != nil {
		return 0, err
	}
	res, err := solver.Soak(ctx, l, solver.SoakOptions{Tol: tol, Start: l.start(ladderAir), Until: ladderUntil, Times: r.Times})
	if err != nil {
		return 0, err
	}
	return r.difference(l, res), nil
}

// difference is the largest of the 15 differences of a soak's states, K.
func (r *ladderReference) difference(l *ladder, res *solver.SoakResult) float64 {
	want := r.N[fmt.Sprint(l.n)].Transient
	worst := 0.0
	for c, values := range [3][]float64{want.First, want.Middle, want.Last} {
		for k, v := range values {
			worst = math.Max(worst, math.Abs(res.States[k][l.cells()[c]]-v))
		}
	}
	return worst
}

// steadyError is the largest difference of the settled rod, K.
func (r *ladderReference) steadyError(ctx context.Context, n int, current float64) (float64, error) {
	l, err := newLadder(n, current, ladderJointOhm)
	if err != nil {
		return 0, err
	}
	res, err := solver.Steady(ctx, l, solver.SteadyOptions{Start: l.start(ladderAir + 50)})
	if err != nil {
		return 0, err
	}
	want := r.N[fmt.Sprint(n)].Steady
	worst := 0.0
	for c, v := range [3]float64{want.First, want.Middle, want.Last} {
		worst = math.Max(worst, math.Abs(res.X[l.cells()[c]]-v))
	}
	return worst, nil
}

const (
	ladderSource      = "reference solution, Radau IIA of order 5 at rtol 1e-12, SciPy 1.10"
	ladderTightestTol = 1e-5
)

func ladderCases() ([]Case, error) {
	ref, err := readLadderReference()
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, n := range []int{50, 200, 1000, 10000} {
		cell := Inputs{"current, A": ladderCurrent}
		soak := Case{
			Group: "solver", Kind: Analytic, Source: ladderSource, Exact: true, Unit: "K", Inputs: cell, Breaks: "current, A",
		}
		coarse := soak
		coarse.Name = fmt.Sprintf("rod/%d cells/soak", n)
		coarse.Claim = "largest error of an hour's soak at the default tolerance"
		coarse.Tol = Tolerance{High: 0.01, Text: "≤ 0.01 K"}
		coarse.Why = "what the default tolerance promises"
		coarse.Got = func(ctx context.Context, in Inputs) (float64, error) {
			return ref.soakError(ctx, n, in["current, A"], 0)
		}
		fine := soak
		fine.Name = fmt.Sprintf("rod/%d cells/soak, tight", n)
		fine.Claim = fmt.Sprintf("largest error of an hour's soak at a tolerance of %g K", ladderTightestTol)
		fine.Tol = Tolerance{High: 1e-5, Text: "≤ 1e-5 K"}
		fine.Why = "the reference is good to 1e-7 K"
		fine.Got = func(ctx context.Context, in Inputs) (float64, error) {
			return ref.soakError(ctx, n, in["current, A"], ladderTightestTol)
		}
		steady := soak
		steady.Name = fmt.Sprintf("rod/%d cells/settled", n)
		steady.Claim = "largest error of the settled state"
		steady.Source = "reference solution, Newton with a banded solve to rounding, SciPy 1.10"
		steady.Tol = Tolerance{High: 1e-6, Text: "≤ 1e-6 K"}
		steady.Why = "the reference is given to 1e-8 K"
		steady.Got = func(ctx context.Context, in Inputs) (float64, error) {
			return ref.steadyError(ctx, n, in["current, A"])
		}
		cases = append(cases, coarse, fine, steady)
	}
	hot := ref.Steady300A.First["50"]
	cases = append(cases, Case{
		Group: "solver", Name: "rod/50 cells/300 A without a ceiling", Kind: Analytic, Exact: true,
		Claim:  "first cell of the settled rod far above what its figures hold for",
		Source: "reference solution, Newton with a banded solve to rounding, SciPy 1.10",
		Inputs: Inputs{"current, A": 300}, Breaks: "current, A", Unit: "°C",
		Want: hot, Tol: Abs(0.005, "°C"), Why: "the reference is given to 0.01 °C",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			l, err := newLadder(50, in["current, A"], ladderJointOhm)
			if err != nil {
				return 0, err
			}
			res, err := solver.Steady(ctx, l, solver.SteadyOptions{Start: l.start(ladderAir + 50)})
			if err != nil {
				return 0, err
			}
			return res.X[0] - celsius, nil
		},
	})
	return cases, nil
}
