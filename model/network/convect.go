package network

// This file joins a shape's relations to the tables by which the loops over
// surfaces look its convection up.

import "clampheat/materials"

// A still is how a shape gives heat to still air, hot where it is hotter than
// the air: one curve for each family of relations at work.
type still struct {
	hot, cold []part
	wind      wind // nil where the air does not move
	order     int  // in which the shapes of a network were met
}

type part struct {
	family family
	curve  *curve
}

// wind is the coefficient of moving air over film temperature, W/(m²K): the
// larger of its laws, each of which is smooth.
type wind []filmCurve

// newStill works out the tables of a shape, which must be one of natural
// convection or of moving air over one.
func newStill(s Shape, pressure float64) *still {
	var w wind
	if m, ok := s.(MovingAir); ok {
		w, s = newWind(m, pressure), m.Over
	}
	up, _ := s.terms(nil, 1, true)
	down, _ := s.terms(nil, 1, false)
	st := &still{hot: gather(up), wind: w}
	if sameTerms(up, down) {
		st.cold = st.hot
	} else {
		st.cold = gather(down)
	}
	return st
}

// gather sorts terms by family and tabulates each.
func gather(terms []term) []part {
	var ps []part
	for f := range families {
		var of []term
		for _, t := range terms {
			if t.family == f {
				of = append(of, t)
			}
		}
		if len(of) > 0 {
			ps = append(ps, part{f, newCurve(of)})
		}
	}
	return ps
}

// sameTerms says whether two lists hold the same terms in any order: a shape
// with like faces up and down does not change with the sign of ΔT.
func sameTerms(a, b []term) bool {
	if len(a) != len(b) {
		return false
	}
	left := append([]term(nil), b...)
next:
	for i := range a {
		for j := range left {
			if a[i].stated == left[j].stated && a[i].share == left[j].share &&
				a[i].l == left[j].l && a[i].aspect == left[j].aspect {
				left = append(left[:j], left[j+1:]...)
				continue next
			}
		}
		return false
	}
	return true
}

func newWind(m MovingAir, pressure float64) wind {
	laws := []func(re, pr float64) float64{NusseltCrossFlow}
	if m.Kind == Along {
		laws = []func(re, pr float64) float64{laminarFlow, turbulentFlow}
	}
	// ν goes with the inverse of the pressure, the rest does not change.
	run := m.Speed * m.Length * pressure / materials.StandardPressure
	w := make(wind, len(laws))
	for i, law := range laws {
		w[i] = filmTable().over(func(a *airFigures) float64 {
			return law(run/a.nu, a.pr) * a.k / m.Length
		})
	}
	return w
}

// both gives the coefficient and its slope by s in a cell.
func (w wind) both(cell int, s float64) (h, slope float64) {
	h, slope = w[0][cell].both(s)
	for k := 1; k < len(w); k++ {
		if v, d := w[k][cell].both(s); v > h {
			h, slope = v, d
		}
	}
	return h, slope
}

// film is the air of a room as the tables see it.
type film struct {
	cells *[filmCells]filmCell
	// dense is the square of the pressure over the standard atmosphere's, by
	// which B grows.
	dense float64
}
