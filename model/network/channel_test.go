package network

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"clampheat/materials"
)

// The two ends of the relation, in the words of its authors: flow that fills a
// narrow channel gives El/24, wide plates give 0.59 El^¼ (Bar-Cohen and Rohsenow
// 1984, from memory); between, it lies below either.
func TestChannelLimits(t *testing.T) {
	for _, tt := range []struct {
		name string
		el   float64
		want float64
		tol  float64
	}{
		{"narrow", 1e-3, 1e-3 / 24, 1e-6},
		{"wide", 1e8, 0.59 * 100, 1e-3},
		{"very wide", 1e30, 0.59 * math.Pow(1e30, 0.25), 1e-3},
	} {
		t.Run(tt.name, func(t *testing.T) {
			const aspect = 10
			if nu := NusseltChannel(tt.el*aspect, aspect); math.Abs(nu-tt.want) > tt.tol*tt.want {
				t.Errorf("Nu %g, want %g", nu, tt.want)
			}
		})
	}
	t.Run("between", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			el := math.Exp(rapid.Float64Range(-10, 20).Draw(t, "ln El"))
			nu := NusseltChannel(el*7, 7)
			if nu > el/24*(1+1e-12) || nu > math.Pow(el, 0.25)/math.Sqrt(channelLayers)*(1+1e-12) || !(nu > 0) {
				t.Fatalf("El %g gives %g", el, nu)
			}
		})
	})
}

// The slope of the relation is its derivative, across the place where its first
// part is dropped too.
func TestChannelSlope(t *testing.T) {
	for y := 1e-9; y < 1e25; y *= 3.1 {
		const e = 1e-4
		_, slope := channel(y, 8)
		up, _ := channel(y*math.Exp(e), 8)
		down, _ := channel(y*math.Exp(-e), 8)
		if want := (up - down) / (2 * e); math.Abs(slope-want) > 1e-6*want {
			t.Fatalf("y %g: slope %g, by differences %g", y, slope, want)
		}
	}
}

func TestChannelStaysFinite(t *testing.T) {
	edges := []float64{0, 1, -1, 1e-300, 1e40, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64}
	for _, a := range edges {
		for _, b := range edges {
			if nu := NusseltChannel(a, b); math.IsNaN(nu) || math.IsInf(nu, 0) || nu < 0 {
				t.Errorf("NusseltChannel(%g, %g) is %g", a, b, nu)
			}
			for _, c := range edges {
				if e := GrooveEmissivity(a, b, c); math.IsNaN(e) || math.IsInf(e, 0) {
					t.Errorf("GrooveEmissivity(%g, %g, %g) is %g", a, b, c, e)
				}
			}
		}
	}
}

// A groove is black to the outside where its walls are, and more so than they are
// where it is deep; two plates far apart are two plates. The ends follow from the view
// factor alone; the middle row is that of a table of view factors: 0.414 for
// a gap of the width (Incropera et al., 6th ed. 2007, Table 13.1).
func TestGrooveEmissivity(t *testing.T) {
	for _, tt := range []struct {
		name                   string
		emissivity, width, gap float64
		want, tol              float64
	}{
		{"black/gap of the width", 1, 0.1, 0.1, 1 - (math.Sqrt2 - 1), 1e-12},
		{"grey/far apart", 0.4, 0.1, 1e6, 0.4, 1e-6},
		{"grey/deep", 0.4, 0.1, 1e-6, 1e-5, 1e-9},
		{"mirror", 0, 0.1, 0.01, 0, 0},
		// Two surfaces at one temperature and the opening, by their resistances:
		// 1/((1 − ε)/ε + 1/(1 − F)).
		{"grey/by resistances", 0.4, 0.1, 0.02, 1 / (0.6/0.4 + 1/(1-(math.Sqrt(1.04)-0.2))), 1e-12},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := GrooveEmissivity(tt.emissivity, tt.width, tt.gap); math.Abs(got-tt.want) > tt.tol {
				t.Errorf("%.12g, want %.12g", got, tt.want)
			}
		})
	}
}

// A surface of the shape follows the relation, tables and all.
func TestChannelAgainstFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) float64 {
			return math.Exp(rapid.Float64Range(math.Log(1e-3), math.Log(1)).Draw(t, name))
		}
		s := Channel{Gap: size("gap"), Height: size("height")}
		air := rapid.Float64Range(230, 350).Draw(t, "air")
		temp := air + math.Exp(rapid.Float64Range(math.Log(1e-6), math.Log(1000)).Draw(t, "rise"))
		st := newStill(s, materials.StandardPressure)
		got := st.coefficient(film{&filmTable().cells, 1}, temp, air) * (temp - air)
		if want := byFormula(s, temp, air, materials.StandardPressure); math.Abs(got-want) > 1e-5*want {
			t.Fatalf("%+v at %g K in %g K: table %.10g, formula %.10g", s, temp, air, got, want)
		}
	})
}

// rising is two nodes with a gap of the stated kind between them, the first held.
func rising(t *testing.T, g Gap) (*Network, error) {
	t.Helper()
	n := New(Surroundings{Air: 300})
	a, b := n.AddNode(Node{Name: "inside"}), n.AddNode(Node{Name: "outside"})
	n.AddGap("gap", a, b, g)
	n.AddHold("body", b, 1, 300)
	return n, n.Finish()
}

// What crosses a gap of a stated conductance is that conductance, at the mean of
// both sides, times their difference, and its derivatives are those of that.
func TestRisingGap(t *testing.T) {
	g := Gap{Area: 0.02, Rising: Rising{At0: 0.3, Growth: 0.002}}
	n, err := rising(t, g)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		a, b float64
		mean float64 // K, at which the conductance is taken
	}{{350, 310, 330}, {310, 350, 330}, {300, 300, 300}, {100, 120, filmFrom}, {1600, 1700, filmTo}} {
		t.Run(fmt.Sprintf("crossing/%g to %g K", tt.a, tt.b), func(t *testing.T) {
			c := 0.3 + 0.002*(tt.mean-273.15)
			want := c * (tt.a - tt.b)
			r := n.ReadGap(0, []float64{tt.a, tt.b})
			if math.Abs(r.Convection-want) > 1e-12*(1+math.Abs(want)) || r.Radiation != 0 {
				t.Errorf("%+v, want %g", r, want)
			}
			const step = 1e-3
			cross := func(a, b float64) float64 { return n.slots[0].cross(n.film, a, b).conv }
			got := n.slots[0].cross(n.film, tt.a, tt.b)
			byA := (cross(tt.a+step, tt.b) - cross(tt.a-step, tt.b)) / (2 * step)
			byB := (cross(tt.a, tt.b+step) - cross(tt.a, tt.b-step)) / (2 * step)
			if math.Abs(got.byA-byA) > 1e-8 || math.Abs(got.byB-byB) > 1e-8 {
				t.Errorf("derivatives %g and %g, by differences %g and %g", got.byA, got.byB, byA, byB)
			}
		})
	}
}

func TestRisingGapRefused(t *testing.T) {
	for name, r := range map[string]Rising{
		"below 0 where air is coldest": {At0: 0.1, Growth: 0.002},
		"falling":                      {At0: 1, Growth: -0.001},
		"not a number":                 {At0: math.NaN(), Growth: 1},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := rising(t, Gap{Area: 1, Rising: r}); err == nil {
				t.Error("no error")
			}
		})
	}
}

func TestChannelRefused(t *testing.T) {
	for name, s := range map[string]Channel{"no gap": {Height: 0.1}, "no height": {Gap: 0.01}} {
		t.Run(name, func(t *testing.T) {
			if checkShape(s) == "" {
				t.Error("no complaint")
			}
		})
	}
}
