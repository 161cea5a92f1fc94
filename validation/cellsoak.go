package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/model/network"
	"clampheat/solver"
)

// This file follows a battery cell as it cools down after a discharge: a thin
// flat body that no current warms, so that its heat capacity and the loss from
// its faces are all there is.

// pouchSettle, s, is waited after the end of the discharge before the cool-down
// is followed: the cell is then of one temperature within two kelvin and no
// longer warmed by its reactions.
const pouchSettle = 78

// pouch is the cool-down of a battery cell: the mean of its three thermocouples.
type pouch struct {
	in          *soakInputs
	times, mean []float64 // s, K; from the start of the cool-down on
}

func readPouch(in *soakInputs) (*pouch, error) {
	log, err := columns("pouch_cell_91A8_discharge_then_rest.csv", "time_s", "T_near_tabs_C", "T_middle_C", "T_bottom_C")
	if err != nil {
		return nil, err
	}
	p := &pouch{in: in}
	for i, t := range log[0] {
		if t >= in.Pouch.End.Value+pouchSettle {
			p.times = append(p.times, t)
			p.mean = append(p.mean, (log[1][i]+log[2][i]+log[3][i])/3+celsius)
		}
	}
	return p, nil
}

// surface of the cell and what share of it is in the air: upright all of its
// faces, or lying on a support that takes no heat.
func (p *pouch) surface(upright bool) network.Surface {
	c := &p.in.Pouch
	l, w, t := c.Length.Value, c.Width.Value, c.Thickness.Value
	if upright {
		return network.Surface{Name: "cell", Area: 2 * (l*w + l*t + w*t), Emissivity: c.Emissivity.Value, Shape: network.Box(l, t, w)}
	}
	return network.Surface{Name: "cell", Area: l * w, Emissivity: c.Emissivity.Value, Shape: network.FaceUp{L: l * w / (2 * (l + w))}}
}

// predicted is the cool-down from the first measured mean on.
func (p *pouch) predicted(ctx context.Context, s network.Surface, heatCapacity float64) ([]float64, error) {
	n := network.New(network.Surroundings{Air: p.in.Pouch.AsMeasured.Air + celsius})
	id := n.AddNode(network.Node{Name: "cell", Capacity: p.in.Pouch.Mass.Value * heatCapacity})
	n.AddSurface(id, s)
	if err := n.Finish(); err != nil {
		return nil, err
	}
	last := len(p.times) - 1
	res, err := solver.Soak(ctx, n, solver.SoakOptions{Tol: 1e-3, Start: []float64{p.mean[0]},
		From: p.times[0], Until: p.times[last], Times: p.times})
	if err != nil {
		return nil, err
	}
	temps := make([]float64, len(res.States))
	for i, x := range res.States {
		temps[i] = x[0]
	}
	return temps, nil
}

// slowing is the time constant in 3300 … 3945 s over that in 1300 … 1900 s, by
// the slope of the logarithm of the rise.
func (p *pouch) slowing(temps []float64) float64 {
	air := p.in.Pouch.AsMeasured.Air + celsius
	return timeConstant(p.times, temps, air, 3300, 3945) / timeConstant(p.times, temps, air, 1300, 1900)
}

// timeConstant is that of the least-squares line through the logarithm of the
// rises in a span of time.
func timeConstant(times, temps []float64, air, from, to float64) float64 {
	var n, st, sy, stt, sty float64
	for i, t := range times {
		if t < from || t > to {
			continue
		}
		y := math.Log(temps[i] - air)
		n, st, sy, stt, sty = n+1, st+t, sy+y, stt+t*t, sty+t*y
	}
	return -(n*stt - st*st) / (n*sty - st*sy)
}

func pouchCases(in *soakInputs) ([]Case, error) {
	p, err := readPouch(in)
	if err != nil {
		return nil, err
	}
	heats := in.Pouch.HeatCapacity
	var cases []Case
	for _, upright := range []bool{true, false} {
		lie := "lying"
		if upright {
			lie = "upright"
		}
		s := p.surface(upright)
		for _, h := range []struct {
			name  string
			value float64
		}{{"low", heats.Low}, {"middle", heats.Middle}, {"high", heats.High}} {
			cases = append(cases, Case{
				Group: "measured soaks", Name: fmt.Sprintf("cell's cool-down/%s, %s heat capacity", lie, h.name), Kind: Measured, Reported: true,
				Claim:  fmt.Sprintf("root mean square error over 46 min of a pouch cell's cool-down, %.0f J/(kg K)", h.value),
				Source: pouchSource, Unit: "K",
				Note: analogous + "its chemistry and how it stood are not stated with the data",
				Got: func(ctx context.Context, _ Inputs) (float64, error) {
					temps, err := p.predicted(ctx, s, h.value)
					if err != nil {
						return 0, err
					}
					return rms(differences(temps, p.mean)), nil
				},
			})
		}
		cases = append(cases, Case{
			Group: "measured soaks", Name: "cell's cool-down/slowing, " + lie, Kind: Measured, Reported: true,
			Claim:  "time constant near the end of the cool-down over that at its beginning",
			Source: pouchSource, Unit: "1", Want: p.slowing(p.mean),
			Note: analogous + "a constant film coefficient would give 1; near the end the rise is a kelvin or two, so that half a kelvin in the air counts",
			Got: func(ctx context.Context, _ Inputs) (float64, error) {
				temps, err := p.predicted(ctx, s, heats.Middle)
				if err != nil {
					return 0, err
				}
				return p.slowing(temps), nil
			},
		})
	}
	return cases, nil
}
