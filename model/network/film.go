package network

import (
	"math"
	"sync"

	"clampheat/materials"
)

// What the relations need of air, over the film temperature. Working it out
// anew for every surface and step would cost more than all else, so it is
// tabulated once for the whole program. The table is for the standard
// atmosphere: conductivity does not depend on pressure, and gβ/(να) goes with
// its square.

const (
	filmFrom = 150.0  // K, where the figures of dry air begin
	filmTo   = 1500.0 // K, where they end
	// filmStep keeps k and B within 2·10⁻⁶ of the formulas.
	filmStep  = 5.0
	filmCells = int((filmTo - filmFrom) / filmStep)
)

// A filmCell is the figures of air over one step of film temperature: the
// conductivity k, W/(m K), and for each family B = ψ gβ/(να), 1/(m³K).
type filmCell struct {
	k cubic
	b [families]cubic
}

// A filmCurve is one figure over film temperature.
type filmCurve [filmCells]cubic

// airFigures are those of air at one temperature, by the formulas.
type airFigures struct {
	k, pr, nu float64
	b         [families]float64
}

// figures gives the air's figures. Outside the range of dry air they are held
// at its ends: the balance must stay finite wherever a search may wander, and
// the readings warn.
func figures(temp, pressure float64) airFigures {
	temp = math.Min(math.Max(temp, filmFrom), filmTo)
	// The error is for temperatures and pressures out of range: the one is
	// held inside it here, the other was looked at by Finish.
	a, _ := materials.DryAir(temp, pressure)
	f := airFigures{k: a.Conductivity, nu: a.KinematicViscosity(), pr: a.Prandtl()}
	b := materials.Gravity * a.Expansion() / (f.nu * a.Diffusivity())
	for i := range f.b {
		f.b[i] = b * family(i).reduce(f.pr)
	}
	return f
}

// An airTable is the figures of air of the standard atmosphere over film
// temperature: at the knots, a little below and above each for differences,
// and as cubics between them.
type airTable struct {
	cells         [filmCells]filmCell
	at, low, high [filmCells + 1]airFigures
}

var filmTable = sync.OnceValue(func() *airTable {
	var t airTable
	for i := range t.at {
		temp := filmFrom + float64(i)*filmStep
		low, high := aside(temp)
		t.at[i] = figures(temp, materials.StandardPressure)
		t.low[i] = figures(low, materials.StandardPressure)
		t.high[i] = figures(high, materials.StandardPressure)
	}
	k := t.over(func(a *airFigures) float64 { return a.k })
	var b [families]filmCurve
	for f := range b {
		b[f] = t.over(func(a *airFigures) float64 { return a.b[f] })
	}
	for i := range t.cells {
		t.cells[i].k = k[i]
		for f := range b {
			t.cells[i].b[f] = b[f][i]
		}
	}
	return &t
})

// aside gives temperatures a twentieth of a step beside a knot, inside the
// range. A difference over them is exact to 10⁻⁷ of the slope.
func aside(temp float64) (low, high float64) {
	return math.Max(temp-filmStep/20, filmFrom), math.Min(temp+filmStep/20, filmTo)
}

// over tabulates a function of the air.
func (t *airTable) over(f func(*airFigures) float64) (c filmCurve) {
	var v, d [filmCells + 1]float64
	for i := range v {
		low, high := aside(filmFrom + float64(i)*filmStep)
		v[i] = f(&t.at[i])
		d[i] = (f(&t.high[i]) - f(&t.low[i])) * filmStep / (high - low)
	}
	for i := range c {
		c[i] = hermite(v[i], d[i], v[i+1], d[i+1])
	}
	return c
}

// filmAt finds the cell of a film temperature and the place in it. Outside the
// range it is the nearest end, and inside is false: the figures do not change
// there.
func filmAt(temp float64) (cell int, s float64, inside bool) {
	u := (temp - filmFrom) * (1 / filmStep)
	switch {
	case u >= 0 && u < float64(filmCells):
		cell = int(u)
		return cell, u - float64(cell), true
	case u >= float64(filmCells):
		return filmCells - 1, 1, false
	}
	return 0, 0, false
}
