package network

import "math"

// The loops over surfaces that one curve serves for both signs of ΔT in air
// at rest: cables, rods and upright faces, of which a stack has most cells.
// They are those of tabled.go without the choice between tables.

// plainly says that one curve does.
func (st *still) plainly() bool {
	return st.wind == nil && len(st.hot) == 1 && len(st.cold) == 1 && st.hot[0] == st.cold[0]
}

func loseCurved(p part, fm film, x, f, conv, rad []float64, air, tr float64) (lost float64) {
	f, conv, rad = f[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	cells, fam, curve := fm.cells, p.family, p.curve
	for i, t := range x {
		d := t - air
		cell, s, _ := filmAt(0.5 * (t + air))
		c := &cells[cell]
		y := math.Abs(d) * fm.dense * c.b[fam].at(s)
		var h float64
		if j, u := knot(y); j < curveCells {
			h = curve.cells[j].at(u)
		} else {
			h, _ = curve.formula(y)
		}
		q := conv[i]*(c.k.at(s)*h)*d + rad[i]*(t-tr)*((t+tr)*(t*t+tr2))
		f[i] -= q
		lost += q
	}
	return lost
}

func loseCurvedSlope(p part, fm film, x, f, diag, conv, rad []float64, air, tr float64) (lost float64) {
	f, diag, conv, rad = f[:len(x)], diag[:len(x)], conv[:len(x)], rad[:len(x)]
	tr2 := tr * tr
	cells, fam, curve := fm.cells, p.family, p.curve
	for i, t := range x {
		d := t - air
		cell, s, inside := filmAt(0.5 * (t + air))
		half := 0.5 / filmStep
		if !inside {
			half = 0
		}
		c := &cells[cell]
		b, bd := c.b[fam].both(s)
		y := math.Abs(d) * fm.dense * b
		var h, hd float64
		if j, u := knot(y); j < curveCells {
			h, hd = curve.cells[j].both(u)
			hd *= steepness(y)
		} else {
			h, hd = curve.formula(y)
			hd *= y
		}
		k, kd := c.k.both(s)
		area, t2 := conv[i], t*t
		q := area*(k*h)*d + rad[i]*(t-tr)*((t+tr)*(t2+tr2))
		f[i] -= q
		diag[i] -= area*(k*(h+hd)+d*half*(kd*h+k*hd*(bd/b))) + 4*rad[i]*(t2*t)
		lost += q
	}
	return lost
}
