package validation

import (
	"context"
	"errors"
	"fmt"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds how a current divides against Kirchhoff's laws worked by hand:
// bridges and parallel ways. Rows of batteries are in batteries.go, what draws a
// power in power.go.

func circuitCases() ([]Case, error) {
	cases := bridgeCases()
	for _, group := range []func() []Case{wayCases, rowCases, unlikeCases, powerCases} {
		cases = append(cases, group()...)
	}
	return cases, nil
}

// wayLoss is what each way of a circuit loses to the room, W/K, unless a case
// states its own. Where a resistance does not follow the temperature, it has no
// part in the answer.
const wayLoss = 0.5

// circuit is a network of ways that are one lump each.
type circuit struct {
	*network.Network
}

func newCircuit() circuit {
	return circuit{network.New(network.Surroundings{Air: standardRoom})}
}

// points adds junctions.
func (c circuit) points(n int) []network.JunctionID {
	out := make([]network.JunctionID, n)
	for i := range out {
		out[i] = c.AddJunction(fmt.Sprintf("point %d", i+1))
	}
	return out
}

// A way is one resistance, with what drives the current from its first point to
// its second.
type way struct {
	from, to network.JunctionID
	emf      float64 // V
	outside  float64 // Ω, that makes no heat in the network
	ohm      float64 // Ω at 20 °C
	alpha    float64 // 1/K
	loss     float64 // W/K to the room
}

// add adds a way.
func (c circuit) add(w way) network.BranchID {
	b := c.AddBranch(network.Branch{Name: "way", From: w.from, To: w.to, EMF: w.emf, Ohms: w.outside})
	id := c.AddNode(network.Node{Name: "way"})
	if w.loss == 0 {
		w.loss = wayLoss
	}
	c.AddHoldToAir("room", id, w.loss)
	c.AddResistor(network.Resistor{Name: "way", A: id, B: id, R20: w.ohm, Alpha: w.alpha, Branch: b})
	return b
}

// take draws a current from one point to another.
func (c circuit) take(from, to network.JunctionID, amps float64) {
	c.AddDraw(network.Draw{Name: "load", From: from, To: to, Current: network.Constant(amps)})
}

// settle is the settled state, temperatures and currents.
func (c circuit) settle(ctx context.Context) ([]float64, error) {
	if err := c.Finish(); err != nil {
		return nil, err
	}
	x := make([]float64, c.Unknowns())
	for i := range c.Nodes() {
		x[i] = standardRoom
	}
	// A load that no current can serve is found out by the search.
	var none *network.CircuitError
	if err := c.Connect(0, x); err != nil && !errors.As(err, &none) {
		return nil, err
	}
	res, err := solver.Steady(ctx, c.Network, solver.SteadyOptions{Start: x})
	if err != nil {
		return nil, err
	}
	return res.X, nil
}

// current is the settled current of a way, A.
func (c circuit) current(ctx context.Context, b network.BranchID) (float64, error) {
	x, err := c.settle(ctx)
	if err != nil {
		return 0, err
	}
	return c.ReadBranch(b, 0, x).Current, nil
}

const (
	inAB     = "AB, Ω"
	inBC     = "BC, Ω"
	inCD     = "CD, Ω"
	inDA     = "DA, Ω"
	inMeter  = "galvanometer, Ω"
	inSource = "voltage, V"
)

// bridgeCases are a Wheatstone bridge out of balance and one in balance. The
// voltage between A and C is held by a way of next to no resistance.
func bridgeCases() []Case {
	unbalanced := Inputs{inAB: 100, inBC: 10, inCD: 5, inDA: 60, inMeter: 15, inSource: 10}
	balanced := Inputs{inAB: 100, inBC: 10, inCD: 6, inDA: 60, inMeter: 15, inSource: 10}
	meter := func(ctx context.Context, in Inputs) (float64, error) {
		c := newCircuit()
		p := c.points(4)
		a, b, d, e := p[0], p[1], p[2], p[3]
		for _, w := range []way{
			{from: a, to: b, ohm: in[inAB]}, {from: b, to: d, ohm: in[inBC]},
			{from: d, to: e, ohm: in[inCD]}, {from: e, to: a, ohm: in[inDA]},
			{from: d, to: a, emf: in[inSource], outside: 1e-9},
		} {
			c.add(w)
		}
		amps, err := c.current(ctx, c.add(way{from: b, to: e, ohm: in[inMeter]}))
		return 1e3 * amps, err
	}
	return []Case{{
		Group: "circuits", Name: "bridge/out of balance", Kind: Published, Exact: true,
		Claim:  "current through the galvanometer of a Wheatstone bridge",
		Source: "NCERT, Physics, class XII, part I, ch. 3, worked example of a bridge", Inputs: unbalanced, Breaks: inSource,
		Unit: "mA", Want: 4.87, Tol: Abs(0.005, "mA"), Why: "printed to three digits", Got: meter,
	}, {
		// 20 I₁ + 3 I − 12 I₂ = 0 and −2 I₁ + I₂ + 6 I = 0 give I₂ = 31.5 I; with
		// 13 I₂ + I = 2, I = 2/410.5 A.
		Group: "circuits", Name: "bridge/out of balance, all digits", Kind: Analytic, Exact: true,
		Claim:  "current through the galvanometer of the same bridge",
		Source: "Kirchhoff's laws, worked by hand", Inputs: unbalanced, Breaks: inBC,
		Unit: "mA", Want: 2e3 / 410.5, Tol: Rel(2e3/410.5, 1e-7), Why: "the voltage is held through a nano-ohm", Got: meter,
	}, {
		Group: "circuits", Name: "bridge/in balance", Kind: Analytic, Exact: true,
		Claim:  "current through the galvanometer where AB·CD = BC·DA",
		Source: "Wheatstone's balance", Inputs: balanced, Breaks: inCD,
		Unit: "mA", Tol: Abs(1e-9, "mA"), Why: "rounding", Got: meter,
	}}
}

const (
	inFirstOhm   = "first way at 20 °C, Ω"
	inSecondOhm  = "second way at 20 °C, Ω"
	inFirstLoss  = "first way's loss, W/K"
	inSecondLoss = "second way's loss, W/K"
)

// wayCases are two conductors in parallel. Cold they share as 1/R. Hot, with V
// across both, each has the rise θ over the room at 20 °C of
//
//	k θ = V²/(R₂₀ (1 + α θ)),  θ = (√(1 + 4 α V²/(k R₂₀)) − 1)/(2 α)
//
// so that for a V every current follows, and their sum is given to the network.
func wayCases() []Case {
	const air = 20 + celsius
	in := Inputs{inFirstOhm: 0.8e-3, inSecondOhm: 1.2e-3, inFirstLoss: 0.25, inSecondLoss: 0.6, inAlpha: 0.00393}
	share := func(ctx context.Context, in Inputs) (float64, error) {
		c := circuit{network.New(network.Surroundings{Air: air})}
		p := c.points(2)
		first := c.add(way{from: p[0], to: p[1], ohm: in[inFirstOhm], alpha: in[inAlpha], loss: in[inFirstLoss]})
		c.add(way{from: p[0], to: p[1], ohm: in[inSecondOhm], alpha: in[inAlpha], loss: in[inSecondLoss]})
		c.take(p[1], p[0], in[inCurrent])
		amps, err := c.current(ctx, first)
		return amps / in[inCurrent], err
	}
	const volts = 0.15
	amps := func(ohm, loss float64) float64 {
		alpha := in[inAlpha]
		rise := (root(1+4*alpha*volts*volts/(loss*ohm)) - 1) / (2 * alpha)
		return volts / (ohm * (1 + alpha*rise))
	}
	first, second := amps(in[inFirstOhm], in[inFirstLoss]), amps(in[inSecondOhm], in[inSecondLoss])
	hot := with(in, Inputs{inCurrent: first + second})
	cold := with(hot, Inputs{inAlpha: 0})
	const claim = "first of two conductors in parallel, share of the current"
	return []Case{{
		Group: "circuits", Name: "two ways/cold", Kind: Analytic, Exact: true, Claim: claim + ", resistances constant",
		Source: closedForm + ", R₂/(R₁ + R₂)", Inputs: cold, Breaks: inFirstOhm,
		Unit: "1", Want: 0.6, Tol: Rel(0.6, 1e-9), Why: "rounding", Got: share,
	}, {
		Group: "circuits", Name: "two ways/hot", Kind: Analytic, Exact: true,
		Claim:  fmt.Sprintf("%s, %.1f A and both hot", claim, first+second),
		Source: closedForm + ", k θ = V²/(R₂₀ (1 + α θ))", Inputs: hot, Breaks: inFirstLoss,
		Unit: "1", Want: first / (first + second), Tol: Rel(first/(first+second), 1e-9), Why: "the tolerance of the search, 1e-7 K", Got: share,
	}}
}
