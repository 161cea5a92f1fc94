package validation

import (
	"context"
	"fmt"
	"maps"
	"math"

	"clampheat/model/network"
)

// This file holds batteries side by side: how a row of them shares a current by
// the places where feed and return leave it, and what unlike ones do.

// root is the square root.
func root(v float64) float64 { return math.Sqrt(v) }

// with is a copy of inputs with others put in or changed.
func with(in, others Inputs) Inputs {
	out := maps.Clone(in)
	maps.Copy(out, others)
	return out
}

const (
	inLinkShare = "link between neighbours over a battery's internal resistance"
	rowOhm      = 2e-3  // Ω, internal resistance of each battery
	rowVolts    = 13.3  // V
	rowCurrent  = 100.0 // A
)

// A batteryRow is four equal batteries on two rails, with links of equal
// resistance between neighbours on both.
type batteryRow struct {
	name   string
	feed   float64 // where the load's current leaves the positive rail, 1 … 4
	back   float64 // where it comes back to the negative one
	open   int     // battery that is disconnected, 0 = none
	ratio  float64 // link over internal resistance
	shares []float64
	whole  float64 // sum of the shares
}

// rowsOfFour are worked by hand. With ρ = link/internal resistance, current 1
// that of the battery at the feed, and Kirchhoff's voltage law around
// neighbours k and k+1:
//
// Same end: both links between k and k+1 carry all that is beyond them, so that
// I_k − I_k+1 = 2ρ (I_k+1 + … + I_4). From the far end with I_4 = 1 and ρ = 1:
// I_3 = 3, I_2 = 3 + 2·4 = 11, I_1 = 11 + 2·15 = 41, in all 56. With ρ = 1/10:
// 1, 6/5, 41/25, 301/125, in all 781/125.
//
// Opposite ends: the positive link carries what is beyond it, the negative one
// what is before it, so that I_1 − I_2 = ρ (I_2 + I_3 + I_4 − I_1). By symmetry I_4 = I_1
// and I_3 = I_2; of the whole, I_1 is (1 + 2ρ)/(4 (1 + ρ)) and I_2 is 1/(4 (1 + ρ)):
// 3 : 1 : 1 : 3 for ρ = 1 and 6 : 5 : 5 : 6 for ρ = 1/10.
//
// Midway: the load hangs on the middle of the middle links. By symmetry I_4 = I_1
// and I_3 = I_2, and I_2 − I_1 = 2ρ I_1: 1 : 3 : 3 : 1 for ρ = 1.
//
// Opposite ends, ρ = 1, the second battery disconnected: I_1 − I_3 = 2 (I_3 + I_4) −
// 2 I_1 and I_3 − I_4 = I_4 − (I_1 + I_3), which gives 10 : 4 : 9.
var rowsOfFour = []batteryRow{
	{"same end, links as the inside", 1, 1, 0, 1, []float64{41, 11, 3, 1}, 56},
	{"same end, links a tenth of it", 1, 1, 0, 0.1, []float64{301, 205, 150, 125}, 781},
	{"opposite ends, links as the inside", 1, 4, 0, 1, []float64{3, 1, 1, 3}, 8},
	{"opposite ends, links a tenth of it", 1, 4, 0, 0.1, []float64{6, 5, 5, 6}, 22},
	{"midway, links as the inside", 2.5, 2.5, 0, 1, []float64{1, 3, 3, 1}, 8},
	{"opposite ends, second opened", 1, 4, 2, 1, []float64{10, 0, 4, 9}, 23},
}

// rail adds the points and links of a rail, towards which a load is connected at
// a place between 1 and 4, and returns the points of the batteries and of the
// load.
func rail(c circuit, link, at float64) (batteries []network.JunctionID, load network.JunctionID) {
	batteries = c.points(4)
	load = batteries[0]
	for k := range 3 {
		a, b := batteries[k], batteries[k+1]
		along := at - float64(k+1)
		if along > 0 && along < 1 {
			load = c.AddJunction("load")
			c.add(way{from: a, to: load, ohm: along * link})
			c.add(way{from: load, to: b, ohm: (1 - along) * link})
			continue
		}
		if along == 1 {
			load = b
		}
		c.add(way{from: a, to: b, ohm: link})
	}
	return batteries, load
}

// currents of the four batteries, A. An opened one has none.
func (r *batteryRow) currents(ctx context.Context, ratio float64) ([4]float64, error) {
	var amps [4]float64
	c := newCircuit()
	positive, feed := rail(c, ratio*rowOhm, r.feed)
	negative, back := rail(c, ratio*rowOhm, r.back)
	var ids [4]network.BranchID
	for k := range ids {
		if k+1 != r.open {
			ids[k] = c.add(way{from: negative[k], to: positive[k], emf: rowVolts, outside: rowOhm / 2, ohm: rowOhm / 2})
		}
	}
	c.take(feed, back, rowCurrent)
	x, err := c.settle(ctx)
	if err != nil {
		return amps, err
	}
	for k, id := range ids {
		if id != 0 {
			amps[k] = c.ReadBranch(id, 0, x).Current
		}
	}
	return amps, nil
}

func rowCases() []Case {
	var cases []Case
	for _, r := range rowsOfFour {
		for k, share := range r.shares {
			if k+1 == r.open {
				continue
			}
			want := rowCurrent * share / r.whole
			cases = append(cases, Case{
				Group: "circuits", Name: fmt.Sprintf("four batteries/%s, number %d", r.name, k+1), Kind: Analytic, Exact: true,
				Claim:  "current of one of four equal batteries in a row, 100 A drawn",
				Source: "Kirchhoff's laws, worked by hand", Inputs: Inputs{inLinkShare: r.ratio}, Breaks: inLinkShare,
				Unit: "A", Want: want, Tol: Rel(want, 1e-9), Why: "rounding",
				Got: func(ctx context.Context, in Inputs) (float64, error) {
					amps, err := r.currents(ctx, in[inLinkShare])
					return amps[k], err
				},
			})
		}
	}
	return cases
}

const (
	inFirstVolts  = "first battery, V"
	inSecondVolts = "second battery, V"
	inFirstInner  = "first battery, Ω"
	inSecondInner = "second battery, Ω"
	inLoadOhm     = "load, Ω"
	inThirdVolts  = "third battery, V"
	inThirdInner  = "third battery, Ω"
)

// acrossBatteries puts batteries side by side, load or none across them, and returns
// their currents, A, and the voltage across them.
func acrossBatteries(ctx context.Context, volts, inner []float64, load float64) (amps []float64, across float64, err error) {
	c := newCircuit()
	p := c.points(2)
	ids := make([]network.BranchID, len(volts))
	for i := range volts {
		ids[i] = c.add(way{from: p[0], to: p[1], emf: volts[i], outside: inner[i]})
	}
	if load > 0 {
		c.add(way{from: p[1], to: p[0], ohm: load})
	}
	x, err := c.settle(ctx)
	if err != nil {
		return nil, 0, err
	}
	for _, id := range ids {
		amps = append(amps, c.ReadBranch(id, 0, x).Current)
	}
	return amps, c.Potential(p[1], x), nil
}

// unlikeCases are unlike batteries side by side, under load and at rest. By
// Millman's theorem the voltage across them is Σ E/r over Σ 1/r.
func unlikeCases() []Case {
	printed := Inputs{inFirstVolts: 100, inFirstInner: 5, inSecondVolts: 95, inSecondInner: 3, inLoadOhm: 80}
	source := "E. Hughes, Electrical and Electronic Technology, exercises on Kirchhoff's laws" + fromMemory
	loaded := func(pick func(amps []float64, across float64) float64) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			amps, across, err := acrossBatteries(ctx, []float64{in[inFirstVolts], in[inSecondVolts]},
				[]float64{in[inFirstInner], in[inSecondInner]}, in[inLoadOhm])
			if err != nil {
				return 0, err
			}
			return pick(amps, across), nil
		}
	}
	var cases []Case
	for _, c := range []struct {
		name, claim, unit string
		want, half        float64
		pick              func([]float64, float64) float64
	}{
		{"first", "current of the first of two unlike batteries on a load", "A", 1.069, 0.0005, func(a []float64, _ float64) float64 { return a[0] }},
		{"second", "current of the second", "A", 0.115, 0.0005, func(a []float64, _ float64) float64 { return a[1] }},
		{"voltage", "voltage across both", "V", 94.66, 0.005, func(_ []float64, v float64) float64 { return v }},
	} {
		cases = append(cases, Case{
			Group: "circuits", Name: "unlike batteries/loaded, " + c.name, Kind: Published, Exact: true, Claim: c.claim,
			Source: source, Inputs: printed, Breaks: inFirstVolts,
			Unit: c.unit, Want: c.want, Tol: Abs(c.half, c.unit), Why: "the last printed digit", Got: loaded(c.pick),
		})
	}

	rest := Inputs{inFirstVolts: 13.4, inFirstInner: 2e-3, inSecondVolts: 13.2, inSecondInner: 3e-3, inThirdVolts: 13.0, inThirdInner: 6e-3}
	volts := []float64{13.4, 13.2, 13.0}
	inner := []float64{2e-3, 3e-3, 6e-3}
	// Σ E/r = 6700 + 4400 + 2166.67 and Σ 1/r = 1000: 13.2667 V across all.
	across := (13.4*3 + 13.2*2 + 13.0) / 6
	for k := range volts {
		want := (volts[k] - across) / inner[k]
		cases = append(cases, Case{
			Group: "circuits", Name: fmt.Sprintf("unlike batteries/at rest, number %d", k+1), Kind: Analytic, Exact: true,
			Claim:  "current that circulates through one of three unlike batteries without a load",
			Source: "Millman's theorem, worked by hand", Inputs: rest, Breaks: inFirstVolts,
			Unit: "A", Want: want, Tol: Rel(want, 1e-9), Why: "rounding",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				amps, _, err := acrossBatteries(ctx, []float64{in[inFirstVolts], in[inSecondVolts], in[inThirdVolts]},
					[]float64{in[inFirstInner], in[inSecondInner], in[inThirdInner]}, 0)
				if err != nil {
					return 0, err
				}
				return amps[k], nil
			},
		})
	}
	return cases
}
