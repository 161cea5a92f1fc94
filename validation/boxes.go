package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds boxes put together by hand, of given coefficients, against
// their balances. Whole enclosures are in enclosures.go.

func boxCases() ([]Case, error) {
	cases := balanceCases()
	for _, group := range []func() ([]Case, error){enclosureCases, ventCases} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

const (
	inBoxHeat     = "heat, W"
	inBodyArea    = "body's surface, m²"
	inBodyFilm    = "body's film coefficient, W/(m²K)"
	inInnerArea   = "wall's inner face, m²"
	inInnerFilm   = "inner film coefficient, W/(m²K)"
	inWallAcross  = "wall, W/K"
	inOuterArea   = "wall's outer face, m²"
	inOuterFilm   = "outer film coefficient, W/(m²K)"
	inFanFlow     = "fan, W/K"
	inVentBuoyant = "vents, W/K"
)

// handBox is a heated body in a box: body, air, inner and outer face of the wall
// are its nodes, in this order.
type handBox struct {
	*network.Network
	body, air, inner, outer network.NodeID
	vent                    network.VentID
}

// newHandBox puts the box together. With inAir heat the heat is made by the air
// itself, else by the body.
func newHandBox(in Inputs, heatInAir bool) (*handBox, error) {
	n := network.New(network.Surroundings{Air: in[inAir]})
	b := &handBox{Network: n}
	for _, node := range []struct {
		id   *network.NodeID
		name string
	}{{&b.body, "body"}, {&b.air, "air"}, {&b.inner, "wall inside"}, {&b.outer, "wall outside"}} {
		*node.id = n.AddNode(network.Node{Name: node.name})
	}
	space := n.AddSpace("box", b.air, b.inner)
	n.AddSurface(b.body, network.Surface{Name: "body", Area: in[inBodyArea], Emissivity: in[inEmissivity],
		Shape: network.Given{H: in[inBodyFilm]}, In: space})
	n.AddSurface(b.inner, network.Surface{Name: "wall inside", Area: in[inInnerArea], Shape: network.Given{H: in[inInnerFilm]}, In: space})
	n.AddLink("wall", b.inner, b.outer, in[inWallAcross])
	n.AddSurface(b.outer, network.Surface{Name: "wall outside", Area: in[inOuterArea], Shape: network.Given{H: in[inOuterFilm]}})
	b.vent = n.AddVent(network.Vent{Name: "vents", Node: b.air, Flow: in[inFanFlow], Buoyant: in[inVentBuoyant]})
	place := b.body
	if heatInAir {
		place = b.air
	}
	n.AddSource("heat", place, in[inBoxHeat])
	return b, n.Finish()
}

// rises are those of the nodes over the room, settled, K.
func (b *handBox) rises(ctx context.Context) ([]float64, error) {
	start := make([]float64, b.Unknowns())
	for i := range start {
		start[i] = b.Room().Air + 10
	}
	res, err := solver.Steady(ctx, b.Network, solver.SteadyOptions{Start: start})
	if err != nil {
		return nil, err
	}
	for i := range res.X {
		res.X[i] -= b.Room().Air
	}
	return res.X, nil
}

func boxRise(heatInAir bool, node func(*handBox) network.NodeID) func(context.Context, Inputs) (float64, error) {
	return func(ctx context.Context, in Inputs) (float64, error) {
		b, err := newHandBox(in, heatInAir)
		if err != nil {
			return 0, err
		}
		rises, err := b.rises(ctx)
		if err != nil {
			return 0, err
		}
		return rises[node(b)], nil
	}
}

// balanceCases are worked by hand, from inside out where everything is linear
// and from a chosen state back to heat and room where it is not.
func balanceCases() []Case {
	closed := Inputs{inAir: standardRoom, inBoxHeat: 30, inBodyArea: 0.05, inBodyFilm: 6, inInnerArea: 0.35, inInnerFilm: 4,
		inWallAcross: 20, inOuterArea: 0.4, inOuterFilm: 8}
	common := Case{Group: "boxes", Kind: Analytic, Exact: true, Unit: "K", Inputs: closed, Breaks: inOuterFilm,
		Why: "the tolerance of the search, 1e-7 K", Tol: Abs(1e-6, "K")}
	air := func(b *handBox) network.NodeID { return b.air }
	body := func(b *handBox) network.NodeID { return b.body }

	// 30/(0.4·8) + 30/20 + 30/(0.35·4) = 9.375 + 1.5 + 21.4286 K.
	still := common
	still.Name, still.Claim = "balance/closed, air", "rise of the air in a closed box of given coefficients, 30 W"
	still.Source = "resistances in series, worked by hand"
	still.Want = 30/(0.4*8.0) + 30/20.0 + 30/(0.35*4)
	still.Got = boxRise(false, air)

	// The body without radiation is 30/(0.05·6) = 100 K above the air.
	warm := still
	warm.Name, warm.Claim = "balance/closed, body", "rise of the body in it, without radiation"
	warm.Want += 30 / (0.05 * 6)
	warm.Got = boxRise(false, body)

	// With the body at 90 °C and the inner face at 40 °C, the air between takes
	// (0.3·90 + 1.4·40)/1.7 = 48.8235 °C, and heat and room follow.
	const hot, wall = 90 + celsius, 40 + celsius
	radiant := with(closed, Inputs{inEmissivity: 0.8})
	toAir, toWall := radiant[inBodyArea]*radiant[inBodyFilm], radiant[inInnerArea]*radiant[inInnerFilm]
	between := (toAir*hot + toWall*wall) / (toAir + toWall)
	heat := toAir*(hot-between) + radiant[inEmissivity]*radiant[inBodyArea]*materials.StefanBoltzmann*(math.Pow(hot, 4)-math.Pow(wall, 4))
	radiant[inBoxHeat] = heat
	radiant[inAir] = wall - heat/radiant[inWallAcross] - heat/(radiant[inOuterArea]*radiant[inOuterFilm])
	seen := common
	seen.Inputs, seen.Breaks = radiant, inEmissivity
	seen.Name = "balance/with radiation, body"
	seen.Claim = fmt.Sprintf("rise of a body of emissivity 0.8 in the box, %.2f W", heat)
	seen.Source = "worked by hand from the body and the wall back to heat and room"
	seen.Want = hot - radiant[inAir]
	seen.Got = boxRise(false, body)
	seenAir := seen
	seenAir.Name, seenAir.Claim = "balance/with radiation, air", "rise of the air in it"
	seenAir.Want, seenAir.Got = between-radiant[inAir], boxRise(false, air)

	// A fan's 3 W/K beside the wall's 1/(1/1.4 + 1/20 + 1/3.2) = 0.92879 W/K.
	across := 1 / (1/(0.35*4) + 1/20.0 + 1/(0.4*8.0))
	fan := common
	fan.Inputs, fan.Breaks = with(closed, Inputs{inFanFlow: 3}), inFanFlow
	fan.Name, fan.Claim = "balance/fan, air", "rise of the air with a fan's flow beside the wall, heat made in the air"
	fan.Source = "conductances side by side, worked by hand"
	fan.Want, fan.Got = 30/(across+3), boxRise(true, air)

	// At a rise of 16 K in a room of 298.15 K vents of 2 W/K carry
	// 2·16·√(16/314.15) W.
	vents := common
	vents.Inputs, vents.Breaks = with(closed, Inputs{inVentBuoyant: 2, inBoxHeat: 16*across + 32*math.Sqrt(16/(standardRoom+16))}), inVentBuoyant
	vents.Name, vents.Claim = "balance/vents, air", "rise of the air with vents that buoyancy drives, heat made in the air"
	vents.Source = "worked by hand from a rise of 16 K, whose share of the air's temperature is 16/314.15"
	vents.Want, vents.Got = 16, boxRise(true, air)
	return []Case{still, warm, seen, seenAir, fan, vents}
}
