package network

import (
	"math"
	"testing"

	"clampheat/materials"
	"pgregory.net/rapid"
)

// drawStill draws a shape of natural convection of the sizes that a stack and
// its enclosure have.
func drawStill(t *rapid.T) Shape {
	l := func(name string) float64 {
		return math.Exp(rapid.Float64Range(math.Log(1e-3), math.Log(1)).Draw(t, name))
	}
	switch rapid.IntRange(0, 7).Draw(t, "kind") {
	case 0:
		return HorizontalCylinder{l("D")}
	case 1:
		return VerticalPlate{l("H")}
	case 2:
		return VerticalCylinder{l("D"), l("H")}
	case 3:
		return FaceUp{l("L")}
	case 4:
		return FaceDown{l("L")}
	case 5:
		return Block{l("root")}
	case 6:
		return BarOnEdge(l("width"), l("thickness"))
	}
	return Box(l("length"), l("width"), l("height"))
}

func drawShape(t *rapid.T) Shape {
	s := drawStill(t)
	if rapid.IntRange(0, 3).Draw(t, "moving") > 0 {
		return s
	}
	return MovingAir{
		Speed:  rapid.Float64Range(0.05, 10).Draw(t, "speed"),
		Length: math.Exp(rapid.Float64Range(math.Log(1e-3), 0).Draw(t, "length")),
		Kind:   rapid.SampledFrom([]AirFlow{Across, Along}).Draw(t, "flow"),
		Over:   s,
	}
}

// byFormula is the heat flow by the relations themselves, without any table.
func byFormula(s Shape, temp, air, pressure float64) float64 {
	forced := 0.0
	a := figures((temp+air)/2, pressure)
	if m, ok := s.(MovingAir); ok {
		re := m.Speed * m.Length / a.nu
		nu := NusseltCrossFlow(re, a.pr)
		if m.Kind == Along {
			nu = NusseltPlateFlow(re, a.pr)
		}
		forced, s = nu*a.k/m.Length, m.Over
	}
	terms, _ := s.terms(nil, 1, temp >= air)
	h := 0.0
	for _, m := range terms {
		nu, _ := m.nusselt(a.b[m.family]*math.Abs(temp-air)*m.l*m.l*m.l, m.aspect)
		h += m.share * nu * a.k / m.l
	}
	return math.Cbrt(h*h*h+forced*forced*forced) * (temp - air)
}

// The claim of the package comment: tables within 10⁻⁵ of the relations.
func TestTablesAgainstFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawShape(t)
		pressure := rapid.Float64Range(25e3, 110e3).Draw(t, "pressure")
		air := rapid.Float64Range(230, 350).Draw(t, "air")
		st := newStill(s, pressure)
		fm := film{&filmTable().cells, square(pressure / materials.StandardPressure)}
		for range 50 {
			rise := math.Exp(rapid.Float64Range(math.Log(1e-8), math.Log(1200)).Draw(t, "rise"))
			temp := air + rise
			if rise < air-120 && rapid.Bool().Draw(t, "cold") {
				temp = air - rise
			}
			h := st.coefficient(fm, temp, air)
			got, want := h*(temp-air), byFormula(s, temp, air, pressure)
			if math.Abs(got-want) > 1e-5*math.Abs(want) {
				t.Fatalf("%#v at %g K in %g K: table %.10g, formula %.10g, off by %.2g", s, temp, air, got, want, got/want-1)
			}
		}
	})
}

// The two ends of every interval of a curve meet with value and slope.
func TestCurveJoins(t *testing.T) {
	for _, s := range []Shape{HorizontalCylinder{0.01}, VerticalPlate{0.3}, FaceUp{0.005}, FaceDown{0.005}} {
		for _, p := range newStill(s, materials.StandardPressure).hot {
			for i := 1; i < len(p.curve.cells); i++ {
				octave, part := i>>curveBits, i&(1<<curveBits-1)
				x := math.Ldexp(1, curveLow+octave) * (1 + float64(part)/8)
				below, dBelow := p.curve.both(x * (1 - 1e-12))
				above, dAbove := p.curve.both(x)
				if math.Abs(above-below) > 1e-10*above || math.Abs(dAbove-dBelow) > 1e-9*above {
					t.Fatalf("%#v at x = %g: %g, %g below and %g, %g above", s, x, below, dBelow, above, dAbove)
				}
			}
		}
	}
}

// The slopes that the relations give are their derivatives.
func TestRelationSlopes(t *testing.T) {
	for name, r := range map[string]relation{
		"vertical plate": verticalPlate, "horizontal cylinder": horizontalCylinder,
		"vertical cylinder": verticalCylinder, "face up": faceUp, "face down": faceDown, "block": compactBlock,
	} {
		t.Run(name, func(t *testing.T) {
			for y := 1e-6; y < 1e13; y *= 3.7 {
				const e = 1e-4
				_, slope := r(y, 5)
				up, _ := r(y*math.Exp(e), 5)
				down, _ := r(y*math.Exp(-e), 5)
				if want := (up - down) / (2 * e); math.Abs(slope-want) > 1e-6*math.Abs(want) {
					t.Errorf("y = %g: slope %.9g, difference %.9g", y, slope, want)
				}
			}
		})
	}
}

// The spots of a contact against bisection of eq. (3) as it stands.
func TestConstrictionAgainstBisection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r20 := math.Exp(rapid.Float64Range(math.Log(1e-7), math.Log(1e-3)).Draw(t, "r20"))
		alpha := rapid.Float64Range(0, 0.005).Draw(t, "alpha")
		temp := rapid.Float64Range(250, 600).Draw(t, "temp")
		volts := rapid.Float64Range(0, 0.06).Draw(t, "volts")
		cold := r20 * (1 + alpha*(temp-reference))
		heating := square(volts / cold)
		got := constriction(r20, alpha, temp, heating)
		// Ts − sqrt(T² + I²R(Ts)²/(4L)) rises through zero from Ts = T.
		lo, hi := temp, temp+2000
		for range 200 {
			ts := (lo + hi) / 2
			r := cold * (1 + 2.0/3*alpha*(ts-temp))
			if ts < math.Sqrt(temp*temp+heating*r*r/(4*2.45e-8)) {
				lo = ts
			} else {
				hi = ts
			}
		}
		want := cold * (1 + 2.0/3*alpha*(lo-temp))
		if math.Abs(got.excess-(lo-temp)) > 1e-8*(1+lo-temp) || math.Abs(got.ohm-want) > 1e-10*want {
			t.Fatalf("spot %g K above, %g Ω; bisection %g K, %g Ω", got.excess, got.ohm, lo-temp, want)
		}
	})
}

func TestConstrictionDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r20 := math.Exp(rapid.Float64Range(math.Log(1e-7), math.Log(1e-3)).Draw(t, "r20"))
		alpha := rapid.Float64Range(-0.001, 0.005).Draw(t, "alpha")
		temp := rapid.Float64Range(250, 600).Draw(t, "temp")
		heating := square(rapid.Float64Range(0.001, 0.3).Draw(t, "volts") / r20)
		s := constriction(r20, alpha, temp, heating)
		near := func(what string, got, up, down, step float64) {
			want := (up - down) / (2 * step)
			if math.Abs(got-want) > 1e-5*math.Abs(want)+1e-9*r20/step {
				t.Fatalf("%s: %.10g, difference %.10g", what, got, want)
			}
		}
		// Not across the bound at which the excess is held.
		beta, c := 2.0/3*alpha, square(r20*(1+alpha*(temp-reference)))/(4*2.45e-8)
		if k := c * heating * beta * beta / softest; k > 0.99 && k < 1.01 {
			return
		}
		dt := 1e-3
		near("by temperature", s.byTemp, constriction(r20, alpha, temp+dt, heating).ohm, constriction(r20, alpha, temp-dt, heating).ohm, dt)
		dw := heating * 1e-5
		near("by heating", s.byHeat, constriction(r20, alpha, temp, heating+dw).ohm, constriction(r20, alpha, temp, heating-dw).ohm, dw)
	})
}
