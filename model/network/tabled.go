package network

import "math"

// The loops over surfaces whose convection stands in tables. They look things
// up in place: a call for each look-up would double their time.

// leastRise, K, stands for no rise at all where a coefficient is asked for.
const leastRise = 1e-9

// coefficient gives h, W/(m²K), of a surface at temp in air at air, by the
// same loops that the balance uses: an area of 1 m² without radiation.
func (st *still) coefficient(f film, temp, air float64) float64 {
	if math.Abs(temp-air) < leastRise {
		temp = air + leastRise
	}
	var net [1]float64
	at, area, rad := []float64{temp}, []float64{1}, []float64{0}
	if st.plainly() {
		loseCurved(st.hot[0], f, at, net[:], area, rad, air, air)
	} else {
		loseTabled(st, f, at, net[:], area, rad, air, air)
	}
	return -net[0] / (temp - air)
}

func loseTabled(st *still, fm film, x, f, conv, rad []float64, air, tr float64) (lost float64) {
	f, conv, rad = f[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	cells, hot, cold, wind := fm.cells, st.hot, st.cold, st.wind
	for i, t := range x {
		d := t - air
		parts := hot
		if d < 0 {
			parts = cold
		}
		rise := math.Abs(d) * fm.dense
		cell, s, _ := filmAt(0.5 * (t + air))
		c := &cells[cell]
		h := 0.0
		for _, p := range parts {
			b := rise * c.b[p.family].at(s)
			if j, u := knot(b); j < curveCells {
				h += p.curve.cells[j].at(u)
			} else {
				v, _ := p.curve.formula(b)
				h += v
			}
		}
		h *= c.k.at(s)
		if wind != nil {
			w, _ := wind.both(cell, s)
			h = math.Cbrt(h*h*h + w*w*w)
		}
		q := conv[i]*h*d + rad[i]*(t-tr)*((t+tr)*(t*t+tr2))
		f[i] -= q
		lost += q
	}
	return lost
}

func loseTabledSlope(st *still, fm film, x, f, diag, conv, rad []float64, air, tr float64) (lost float64) {
	f, diag, conv, rad = f[:len(x)], diag[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	cells, hot, cold, wind := fm.cells, st.hot, st.cold, st.wind
	for i, t := range x {
		d := t - air
		parts := hot
		if d < 0 {
			parts = cold
		}
		rise := math.Abs(d) * fm.dense
		cell, s, inside := filmAt(0.5 * (t + air))
		half := 0.5 / filmStep
		if !inside {
			half = 0
		}
		c := &cells[cell]
		// h and its slopes by ln |ΔT| and by the film.
		var h, hd, hf float64
		for _, p := range parts {
			b, bd := c.b[p.family].both(s)
			y := rise * b
			var v, vd float64
			if j, u := knot(y); j < curveCells {
				v, vd = p.curve.cells[j].both(u)
				vd *= steepness(y)
			} else {
				v, vd = p.curve.formula(y)
				vd *= y
			}
			h += v
			hd += vd
			hf += vd * (bd / b)
		}
		k, kd := c.k.both(s)
		hf = half * (kd*h + k*hf)
		h, hd = k*h, k*hd
		if wind != nil {
			w, wd := wind.both(cell, s)
			sum := math.Cbrt(h*h*h + w*w*w)
			inv := 1 / (sum * sum)
			hd *= h * h * inv
			hf = (hf*h*h + half*wd*w*w) * inv
			h = sum
		}
		area := conv[i]
		t2 := t * t
		q := area*h*d + rad[i]*(t-tr)*((t+tr)*(t2+tr2))
		f[i] -= q
		diag[i] -= area*(h+hd+d*hf) + 4*rad[i]*(t2*t)
		lost += q
	}
	return lost
}
