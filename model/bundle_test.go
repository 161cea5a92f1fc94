package model_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"clampheat/model"
)

// alone is a stack of one cable that goes on at both ends.
func alone(c *model.Cable, amps float64) *model.Stack {
	return &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(amps), Parts: []model.Part{c}}
}

// hot is the settled temperature of the hottest place of the only part, K.
func hot(t testing.TB, p model.Part, amps float64) float64 {
	t.Helper()
	s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(amps), Parts: []model.Part{p}}
	a, x := settle(t, s, model.Likely)
	return a.RowTemp(0, x)
}

// sameNetwork says whether two stacks give networks that are the same to the bit.
func sameNetwork(t *testing.T, a, b *model.Stack) {
	t.Helper()
	var f [2][]float64
	for i, s := range [2]*model.Stack{a, b} {
		as, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		x := as.Start(nil)
		for k := range x {
			x[k] += 20 + math.Sin(float64(k))
		}
		f[i] = make([]float64, len(x))
		as.Network.Balance(0, x, f[i])
		capacities := make([]float64, as.Network.Nodes())
		as.Network.Capacities(capacities)
		f[i] = append(f[i], capacities...)
	}
	if len(f[0]) != len(f[1]) {
		t.Fatalf("%d figures and %d", len(f[0]), len(f[1]))
	}
	for k := range f[0] {
		if f[0][k] != f[1][k] {
			t.Fatalf("figure %d: %.17g and %.17g", k, f[0][k], f[1][k])
		}
	}
}

// A bundle of one is the cable alone, exactly.
func TestBundleOfOne(t *testing.T) {
	for _, lies := range []model.Lie{model.Horizontal, model.Flat, model.Vertical} {
		for _, how := range []model.Arrangement{model.FlatRow, model.RoundBunch} {
			t.Run(fmt.Sprintf("lies %d/arrangement %d", lies, how), func(t *testing.T) {
				one, none := cable("cable", 1), cable("cable", 1)
				one.Lies, none.Lies = lies, lies
				one.Bundle = &model.Bundle{Count: 1, Arrangement: how}
				sameNetwork(t, alone(one, 150), alone(none, 150))
			})
		}
	}
}

// More cables in a bundle are hotter, and so is any cable than one alone: of a row
// as far as the air around it stays laminar. Around one of half a metre it turns
// turbulent, and takes more heat.
func TestMoreCablesAreHotter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "cables")
		how := rapid.SampledFrom([]model.Arrangement{model.FlatRow, model.RoundBunch}).Draw(t, "arrangement")
		if how == model.FlatRow {
			n = min(n, 10)
		}
		lies := rapid.SampledFrom([]model.Lie{model.Horizontal, model.Vertical}).Draw(t, "lies")
		wall := rapid.Float64Range(0.8e-3, 4e-3).Draw(t, "wall")
		amps := rapid.Float64Range(20, 80).Draw(t, "current")
		at := func(n int) float64 {
			c := cable("cable", 0.5)
			c.Wall, c.Lies = wall, lies
			c.Bundle = &model.Bundle{Count: n, Arrangement: how}
			a, err := alone(c, amps).Assemble(model.Likely, model.Mesh{Cell: 1})
			if err != nil {
				t.Fatal(err)
			}
			return settled(t, a)[a.Rows[0].Nodes[0]]
		}
		fewer, more := at(n), at(n+1)
		// From three on the middle cable of an upright row has the same air.
		if same := how == model.FlatRow && lies == model.Vertical && n >= 3; !(more > fewer) && !same || more < fewer-1e-6 {
			t.Fatalf("%d cables are at %.6f K, %d at %.6f K", n, fewer, n+1, more)
		}
	})
}

// The bunch's diameter is that of full hexagons, and its middle is hotter than its
// hull by what a cylinder with heat in it has (Incropera et al., eq. (3.53)).
func TestBunch(t *testing.T) {
	for n, want := range map[int]float64{1: 1, 7: 3, 19: 5, 37: 7, 0: 0, -3: 0} {
		if got := model.BunchDiameter(n, 1); math.Abs(got-want) > 1e-12 {
			t.Errorf("diameter of %d: %g, want %g", n, got, want)
		}
	}
	// A bunch of radius r with q̇ W/m³ in it: q̇ r²/(4 k), by any r.
	const perCable, r, n = 5.0, 0.03, 20
	density := perCable * (n - 1) / (math.Pi * r * r)
	if got, want := model.BunchResistance(n)*perCable, density*r*r/(4*model.BunchConductivity); math.Abs(got-want) > 1e-12*want {
		t.Errorf("middle above hull: %g K, want %g K", got, want)
	}
	if got := model.BunchResistance(1); got != 0 {
		t.Errorf("resistance in a bunch of one: %g", got)
	}
}

// Settled, the hull of a cable's part of the bunch gives off what the cable makes,
// and the way from conductor to hull has the resistances of jacket and bunch.
func TestBunchHeat(t *testing.T) {
	const amps, n = 120, 7
	c := cable("cable", 3)
	c.Bundle = &model.Bundle{Count: n, Arrangement: model.RoundBunch}
	a, x := settle(t, alone(c, amps), model.Likely)
	made, lost := 0.0, 0.0
	for _, h := range a.Made(0, x) {
		made += h.Heat
	}
	for _, h := range a.Lost(x) {
		lost += h.Heat
	}
	if math.Abs(made-lost) > 1e-8*made {
		t.Errorf("made %.10g W, lost %.10g W", made, lost)
	}
	d := conductor.Diameter.Likely
	outer := d + 2*c.Wall
	if want := math.Pi * outer * 3 / n * c.Length; math.Abs(a.Parts[0].Surface-want) > 1e-12 {
		t.Errorf("surface %g m², want a seventh of a bunch of three diameters, %g m²", a.Parts[0].Surface, want)
	}
	middle := a.Rows[0].Nodes[len(a.Rows[0].Nodes)/2]
	hull := a.Detail(x)[len(a.Rows[0].Nodes)/2]
	perMetre := made / c.Length
	want := perMetre * (math.Log(outer/d)/(2*math.Pi*0.2) + model.BunchResistance(n))
	if got := x[middle] - hull.Temp; math.Abs(got-want) > 1e-6*want {
		t.Errorf("conductor above hull %g K, want %g K", got, want)
	}
}

func TestBundleRefused(t *testing.T) {
	for name, change := range map[string]func(*model.Cable){
		"no cables":           func(c *model.Cable) { c.Bundle = &model.Bundle{} },
		"too many":            func(c *model.Cable) { c.Bundle = &model.Bundle{Count: 101} },
		"unknown arrangement": func(c *model.Cable) { c.Bundle = &model.Bundle{Count: 2, Arrangement: 7} },
		"bundle in a conduit": func(c *model.Cable) { c.Bundle, c.Conduit = &model.Bundle{Count: 2}, steelConduit(2) },
	} {
		t.Run(name, func(t *testing.T) {
			c := cable("cable", 1)
			change(c)
			refused(t, alone(c, 100))
		})
	}
}
