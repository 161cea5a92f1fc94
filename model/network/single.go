package network

// This file works out one surface at a time by the tables: what the loops over
// runs do, for surfaces in air that is an unknown itself, whose derivatives by
// both temperatures are wanted apart.

import "math"

// slopes gives the heat, W, that a surface gives the air, and its derivatives by
// both temperatures, W/K.
func (l *law) slopes(fm film, conv, t, air float64) (q, byTemp, byAir float64) {
	if l.still == nil {
		q, slope := l.convectionSlope(conv, t, air)
		return q, slope, -slope
	}
	d := t - air
	h, byRise, byFilm := l.still.slopes(fm, t, air)
	return conv * h * d, conv * (h + byRise + byFilm*d), conv * (-h - byRise + byFilm*d)
}

// at gives the coefficient of the tables, W/(m²K).
func (st *still) at(fm film, t, air float64) float64 {
	parts := st.hot
	if t < air {
		parts = st.cold
	}
	rise := math.Abs(t-air) * fm.dense
	cell, s, _ := filmAt(0.5 * (t + air))
	c := &fm.cells[cell]
	h := 0.0
	for _, p := range parts {
		x := rise * c.b[p.family].at(s)
		if j, u := knot(x); j < curveCells {
			h += p.curve.cells[j].at(u)
		} else {
			v, _ := p.curve.formula(x)
			h += v
		}
	}
	h *= c.k.at(s)
	if st.wind != nil {
		w, _ := st.wind.both(cell, s)
		h = math.Cbrt(h*h*h + w*w*w)
	}
	return h
}

// slopes gives the coefficient of the tables, W/(m²K), its derivative by
// ln |ΔT|, and that by the air's temperature through the film alone.
func (st *still) slopes(fm film, t, air float64) (h, byRise, byFilm float64) {
	parts := st.hot
	if t < air {
		parts = st.cold
	}
	rise := math.Abs(t-air) * fm.dense
	cell, s, inside := filmAt(0.5 * (t + air))
	c := &fm.cells[cell]
	for _, p := range parts {
		b, bd := c.b[p.family].both(s)
		v, vd := p.curve.both(rise * b)
		h += v
		byRise += vd
		byFilm += vd * (bd / b)
	}
	k, kd := c.k.both(s)
	byFilm = kd*h + k*byFilm
	h, byRise = k*h, k*byRise
	if st.wind != nil {
		w, wd := st.wind.both(cell, s)
		sum := math.Cbrt(h*h*h + w*w*w)
		inv := 1 / (sum * sum)
		byRise *= h * h * inv
		byFilm = (byFilm*h*h + wd*w*w) * inv
		h = sum
	}
	if !inside {
		return h, byRise, 0
	}
	return h, byRise, byFilm * (0.5 / filmStep)
}
