package validation

import (
	"context"
	"errors"
	"fmt"

	"clampheat/model/network"
)

// This file holds bars side by side. The open tables of them are for
// alternating current, which crowds into outer bars and edges: what that adds to
// the resistance is taken off the prediction, so that what is left is heat.

// Inputs of bars side by side; one alone has neither.
const (
	inBars = "bars"
	inGap  = "gap, m"
)

func parallelCases() ([]Case, error) {
	cases := channelCases()
	for _, group := range []func() ([]Case, error){twoBarsDIN, groupsUS} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// channelCases hold the relation of the channel between two bars against what
// its authors conclude from it: the gap at which plates that stand in a row give
// off most heat for the room that they take.
func channelCases() []Case {
	const gapIn, nuIn = "gap over the best one", "unit of Nu"
	source := "A. Bar-Cohen, W. M. Rohsenow, Thermally Optimum Spacing of Vertical, Natural Convection Cooled, Parallel Plates, J. Heat Transfer 106 (1984) 116, Table 2" + fromMemory
	return []Case{
		{
			Group: "bars", Name: "channel/best gap", Kind: Published, Exact: true,
			Claim:  "gap of thin plates at one temperature with most heat off a given room, by (Ra/(S³ L))^(1/4)",
			Source: source, Inputs: Inputs{gapIn: 1}, Breaks: gapIn,
			Unit: "1", Want: 2.714, Tol: Rel(2.714, 0.002), Why: "printed to four digits; the search is to 10⁻⁴",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				gap, _, err := bestChannel()
				return gap * in[gapIn], err
			},
		},
		{
			Group: "bars", Name: "channel/Nu at the best gap", Kind: Published, Exact: true,
			Claim:  "Nusselt number over the gap at that gap",
			Source: source, Inputs: Inputs{nuIn: 1}, Breaks: nuIn,
			Unit: "1", Want: 1.31, Tol: Rel(1.31, 0.004), Why: "printed to three digits",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				_, nu, err := bestChannel()
				return nu * in[nuIn], err
			},
		},
	}
}

// bestChannel searches for the gap s, in units of (Ra/(S³ L))^(−1/4), at which Nu/s²
// is largest: plates per width go with 1/s, the coefficient with Nu/s.
func bestChannel() (gap, nu float64, err error) {
	const step = 1e-4
	best := 0.0
	for s := 1.0; s < 10; s += step {
		// Ra over the gap is El times the height over the gap, here 10.
		n := network.NusseltChannel(10*s*s*s*s, 10)
		if n/(s*s) > best {
			best, gap, nu = n/(s*s), s, n
		}
	}
	if gap == 0 {
		return 0, 0, errors.New("no gap gives off heat")
	}
	return gap, nu, nil
}

// A barGroup is a row of a table of bars side by side.
type barGroup struct {
	name    string
	source  string
	in      Inputs
	printed float64 // A at 60 Hz
	share   float64 // of a direct current
}

// current is that of 60 Hz, A.
func (g barGroup) current(ctx context.Context, in Inputs) (float64, error) {
	amps, err := barCurrent(ctx, in)
	return amps * g.share, err
}

// one judges a row.
func (g barGroup) one(tol Tolerance, why string) Case {
	return Case{
		Group: "bars", Name: g.name, Kind: Published,
		Claim:  "current of 60 Hz of bare bars side by side on edge in still air: the predicted direct one less what crowding adds to the resistance (testdata/crowding.py)",
		Source: g.source, Inputs: g.in, Breaks: inWidth,
		Unit: "A", Want: g.printed, Tol: tol, Why: why, Got: g.current,
	}
}

// ratiosOf are predicted over printed currents.
func ratiosOf(groups []barGroup) func(context.Context) ([]float64, error) {
	return func(ctx context.Context) ([]float64, error) {
		var all []float64
		for _, g := range groups {
			amps, err := g.current(ctx, g.in)
			if err != nil {
				return nil, err
			}
			all = append(all, amps/g.printed)
		}
		return all, nil
	}
}

// twoBarsDIN are pairs of the standard's.
func twoBarsDIN() ([]Case, error) {
	table, err := openSheet("din_43671_two_bars")
	if err != nil {
		return nil, err
	}
	crowds, err := openCrowding()
	if err != nil {
		return nil, err
	}
	var cases []Case
	var groups []barGroup
	for _, r := range table.rows {
		g := barGroup{
			name:   fmt.Sprintf("two/%s × %s mm", r.text("width_mm"), r.text("thickness_mm")),
			source: r.source(barTableDIN), in: dinInputs(r), printed: r.number("two_60Hz_A"),
		}
		g.in[inBars], g.in[inGap] = 2, g.in[inThickness]
		if g.share, err = crowds.share(crowded{2, r.number("width_mm"), r.number("thickness_mm"), r.number("bar_C")}); err != nil {
			return nil, err
		}
		groups = append(groups, g)
		cases = append(cases, g.one(Band(g.printed, -0.01, 0.12), "the band of the standard's single bars: it is known to be on the safe side of calculation"))
	}
	return append(cases, spread("bars", "two/all sizes", barTableDIN, "the rows are judged one by one", ratiosOf(groups))...), table.err
}

// groupsUS are two to four bars of 1/4 × 4 in by finish and rise.
func groupsUS() ([]Case, error) {
	table, err := openSheet("copper_bar_groups")
	if err != nil {
		return nil, err
	}
	crowds, err := openCrowding()
	if err != nil {
		return nil, err
	}
	var cases []Case
	var groups []barGroup
	for _, r := range table.rows {
		bars := r.number("bars")
		if bars == 1 {
			continue // beside the other single bars
		}
		g := barGroup{
			name:   fmt.Sprintf("groups/%s bars, ε %s, %s K", r.text("bars"), r.text("emissivity"), r.text("rise_K")),
			source: r.source(barTableUS2), in: usInputs(r), printed: r.number("ampacity_60Hz_A"),
		}
		g.in[inBars], g.in[inGap] = bars, r.number("gap_mm")/1e3
		at := r.number("air_C") + r.number("rise_K")
		if g.share, err = crowds.share(crowded{int(bars), r.number("width_mm"), r.number("thickness_mm"), at}); err != nil {
			return nil, err
		}
		groups = append(groups, g)
		cases = append(cases, g.one(Band(g.printed, -0.05, 0.08),
			"the band of the single bars, −3 … +5 %, and the rounding to 50 or 100 A, up to 3 %"))
	}
	return append(cases, spread("bars", "groups/all", barTableUS2, "the rows are judged one by one", ratiosOf(groups))...), table.err
}
