package network

// This file holds enclosed layers of air. There are few of them in a network,
// so that they are worked out by their relations and not by tables.

import "math"

// cavity is an upright layer of air as eq. (18) sees it.
type cavity struct {
	width, aspect float64 // m; height over width
}

// nusselt gives Nu(Ra) over the width and Ra dNu/dRa: the largest of the three
// relations, with the slope of that one. Powers are taken by one logarithm;
// those of relations below the Nusselt number 1 of still air are not.
func (c cavity) nusselt(ra float64) (nu, slope float64) {
	if ra <= 0 {
		return 1, 0
	}
	ln := math.Log(ra)
	lead := 0.104 * math.Exp(0.293*ln)
	fade := math.Exp(1.36 * (ln6310 - ln))
	inner := lead / (1 + fade)
	cube := inner * inner * inner
	nu = math.Cbrt(1 + cube)
	slope = cube / (nu * nu) * (0.293 + 1.36/(1+1/fade))
	if ra > stillTurbulent {
		if tur := 0.0605 * math.Cbrt(ra); tur > nu {
			nu, slope = tur, tur/3
		}
	}
	if ra > stillLaminar*c.aspect {
		if lam := 0.242 * math.Exp(0.272*(ln-math.Log(c.aspect))); lam > nu {
			nu, slope = lam, 0.272*lam
		}
	}
	return nu, slope
}

const (
	ln6310 = 8.7498909555352586 // ln 6310
	// Where the second and the third relation pass 1: (1/0.0605)³ and, over the
	// aspect, (1/0.242)^(1/0.272), rounded down.
	stillTurbulent = 4515
	stillLaminar   = 184
)

// NusseltLayer is the Nusselt number over the width of an upright layer of
// air, whose height is aspect times the width, eq. (18). Stated for
// 5 ≤ aspect ≤ 110 and Ra ≤ 10⁷. It is 0, for none, for an aspect that is not
// above 0 or an Ra that is no finite number.
//
// Source: ElSherbiny, Raithby and Hollands 1982, J. Heat Transfer 104, 96;
// coefficients from memory, not looked up.
func NusseltLayer(ra, aspect float64) float64 {
	if !(aspect > 0) {
		return 0
	}
	nu, _ := cavity{1, aspect}.nusselt(ra)
	return orNone(nu)
}

// A crossing is the heat through a gap from a to b and its derivatives by the
// two temperatures.
type crossing struct {
	conv, rad  float64 // W
	byA, byB   float64 // W/K
	ra, nu, tf float64
}

// rise is the crossing of a conductance that grows with the mean temperature.
func (g *gapSlot) rise(ta, tb float64) crossing {
	d, tf := ta-tb, (ta+tb)/2
	held := math.Min(math.Max(tf, filmFrom), filmTo)
	c := g.rising.at(held)
	film := 0.0
	if held == tf {
		film = d * g.rising.Growth / 2
	}
	return crossing{conv: c * d, byA: film + c, byB: film - c, tf: tf}
}

func (g *gapSlot) cross(f film, ta, tb float64) crossing {
	if g.rising != (Rising{}) {
		return g.rise(ta, tb)
	}
	d := ta - tb
	w := g.cavity.width
	tf := (ta + tb) / 2
	cell, s, inside := filmAt(tf)
	c := &f.cells[cell]
	k, kd := c.k.both(s)
	b, bd := c.b[plain].both(s)
	kd, bd = kd*(0.5/filmStep), bd*(0.5/filmStep)
	if !inside {
		kd, bd = 0, 0
	}
	ra := b * f.dense * math.Abs(d) * w * w * w
	nu, slope := g.cavity.nusselt(ra)
	area := g.area / w
	conv := area * k * nu * d
	// By both temperatures through the film, by their difference directly.
	film := area * d * (kd*nu + k*slope*bd/b)
	direct := area * k * (nu + slope)
	ta2, tb2 := ta*ta, tb*tb
	return crossing{
		conv: conv,
		rad:  g.rad * d * (ta + tb) * (ta2 + tb2),
		byA:  film + direct + 4*g.rad*ta2*ta,
		byB:  film - direct - 4*g.rad*tb2*tb,
		ra:   ra, nu: nu, tf: tf,
	}
}
