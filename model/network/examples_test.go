package network_test

import (
	"math"
	"testing"

	"clampheat/model/network"
)

// Worked examples of the textbooks, with the figures of air that the example
// itself uses. Where an example uses a relation of this package it must agree
// within what its printed digits and its joined relations allow; where it uses
// another, the difference is reported and not judged.
func TestWorkedExamples(t *testing.T) {
	rayleigh := func(beta, dt, l, nu, alpha float64) float64 {
		return 9.81 * beta * dt * l * l * l / (nu * alpha)
	}
	for _, c := range []struct {
		name, source string
		got, want    float64
		unit         string
		tol          float64 // relative; 0 = another relation, reported only
		why          string
	}{
		{
			name:   "vertical plate/Incropera 9.2",
			source: "Incropera et al., 6th ed. 2007, Example 9.2",
			got: func() float64 {
				ra := rayleigh(0.0025, 209, 0.71, 26.4e-6, 38.3e-6)
				return network.NusseltVerticalPlate(ra, 0.690) * 33.8e-3 / 0.71 * 0.71 * 1.02 * 209
			}(),
			want: 1060, unit: "W", tol: 0.01, why: "Ra 1.8·10⁹: relation for all Ra",
		},
		{
			name:   "vertical sides/Incropera 9.3",
			source: "Incropera et al., 6th ed. 2007, Example 9.3",
			got: func() float64 {
				ra := rayleigh(0.0033, 30, 0.3, 16.2e-6, 22.9e-6)
				return network.NusseltVerticalPlate(ra, 0.71) * 26.5e-3 / 0.3
			}(),
			want: 4.23, unit: "W/(m²K)", tol: 0.01, why: "Ra 7·10⁷: laminar relation, three digits",
		},
		{
			name:   "level top/Incropera 9.3",
			source: "Incropera et al., 6th ed. 2007, Example 9.3",
			got: func() float64 {
				// Area over perimeter of a long face is half its width; the
				// example takes the same length.
				ra := rayleigh(0.0033, 30, 0.375, 16.2e-6, 22.9e-6)
				return network.NusseltFaceUp(ra, 0.71) * 26.5e-3 / 0.375
			}(),
			want: 5.48, unit: "W/(m²K)", why: "example uses 0.15 Ra^⅓",
		},
		{
			name:   "level bottom/Incropera 9.3",
			source: "Incropera et al., 6th ed. 2007, Example 9.3",
			got: func() float64 {
				ra := rayleigh(0.0033, 30, 0.375, 16.2e-6, 22.9e-6)
				return network.NusseltFaceDown(ra, 0.71) * 26.5e-3 / 0.375
			}(),
			want: 2.07, unit: "W/(m²K)", why: "example uses 0.27 Ra^¼",
		},
		{
			name:   "horizontal pipe/Incropera 9.4",
			source: "Incropera et al., 6th ed. 2007, Example 9.4",
			got: func() float64 {
				ra := rayleigh(2.725e-3, 142, 0.1, 22.8e-6, 32.8e-6)
				conv := network.NusseltHorizontalCylinder(ra, 0.697) * 0.0313 * math.Pi * 142
				return conv + 0.85*5.67e-8*math.Pi*0.1*(math.Pow(438, 4)-math.Pow(296, 4))
			}(),
			want: 763, unit: "W/m", tol: 0.01, why: "three digits",
		},
		{
			name:   "horizontal pipe/Cengel 9-1",
			source: "Cengel, Heat Transfer, 2nd ed. 2002, Example 9-1",
			got: func() float64 {
				ra := rayleigh(1/318.0, 50, 0.08, 1.75e-5, 1.75e-5/0.7241)
				return network.NusseltHorizontalCylinder(ra, 0.7241) * 0.02699 / 0.08 * math.Pi * 0.08 * 6 * 50
			}(),
			want: 443, unit: "W", tol: 0.01, why: "three digits",
		},
		{
			name:   "vertical plate/Cengel 9-2",
			source: "Cengel, Heat Transfer, 2nd ed. 2002, Example 9-2",
			got: func() float64 {
				ra := rayleigh(1/333.0, 60, 0.6, 1.896e-5, 1.896e-5/0.7202)
				return network.NusseltVerticalPlate(ra, 0.7202) * 0.02808 / 0.6 * 0.36 * 60
			}(),
			want: 115, unit: "W", tol: 0.02, why: "Ra 8·10⁸ lies where the two relations are joined",
		},
		{
			name:   "face up/Cengel 9-2",
			source: "Cengel, Heat Transfer, 2nd ed. 2002, Example 9-2",
			got: func() float64 {
				ra := rayleigh(1/333.0, 60, 0.15, 1.896e-5, 1.896e-5/0.7202)
				return network.NusseltFaceUp(ra, 0.7202) * 0.02808 / 0.15 * 0.36 * 60
			}(),
			want: 128, unit: "W", why: "example uses 0.54 Ra^¼",
		},
		{
			name:   "face down/Cengel 9-2",
			source: "Cengel, Heat Transfer, 2nd ed. 2002, Example 9-2",
			got: func() float64 {
				ra := rayleigh(1/333.0, 60, 0.15, 1.896e-5, 1.896e-5/0.7202)
				return network.NusseltFaceDown(ra, 0.7202) * 0.02808 / 0.15 * 0.36 * 60
			}(),
			want: 64.2, unit: "W", why: "example uses 0.27 Ra^¼",
		},
		{
			name:   "tall plate/Holman 7.2",
			source: "Holman, Heat Transfer, Example 7.2",
			got: func() float64 {
				ra := rayleigh(1/308.0, 50, 4, 16.5e-6, 16.5e-6/0.7)
				return network.NusseltVerticalPlate(ra, 0.7) * 0.02685 / 4 * 40 * 50
			}(),
			want: 9606, unit: "W", tol: 0.01, why: "rounding of the example",
		},
		{
			name:   "fine wire/Holman 7.4",
			source: "Holman, Heat Transfer, Example 7.4",
			got: func() float64 {
				ra := rayleigh(1/300.0, 54, 0.02e-3, 15.69e-6, 15.69e-6/0.708)
				return network.NusseltHorizontalCylinder(ra, 0.708) * 0.02624 * math.Pi * 0.5 * 54
			}(),
			want: 0.836, unit: "W", why: "example uses 0.675 Ra^0.058",
		},
		{
			name:   "pipe/Holman 7.5",
			source: "Holman, Heat Transfer, Example 7.5",
			got: func() float64 {
				ra := rayleigh(1/405.5, 235, 0.3048, 26.54e-6, 26.54e-6/0.687)
				return network.NusseltHorizontalCylinder(ra, 0.687) * 0.03406 * math.Pi * 235 / 1000
			}(),
			want: 1.49, unit: "kW/m", why: "example uses 0.53 Ra^¼",
		},
		{
			name:   "wire/Kreith 5.1",
			source: "Kreith et al., Principles of Heat Transfer, 7th ed. 2011, Example 5.1",
			got: func() float64 {
				ra := rayleigh(1/350.0, 100, 1e-3, 2.12e-5, 2.12e-5/0.71)
				return network.NusseltHorizontalCylinder(ra, 0.71) * 0.0291 * math.Pi * 100
			}(),
			want: 12.1, unit: "W/m", why: "example reads Nu from a chart",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			off := c.got/c.want - 1
			t.Logf("%s: %.4g %s, printed %.4g, %+.1f %% (%s)", c.source, c.got, c.unit, c.want, 100*off, c.why)
			if c.tol > 0 && math.Abs(off) > c.tol {
				t.Errorf("off by %.2f %%, allowed %.1f %%", 100*off, 100*c.tol)
			}
		})
	}
}

// The same through a whole network where the air is that of the package:
// Holman 7.7, whose simplified relation is the power law, and radiation.
func TestWorkedExamplesThroughNetwork(t *testing.T) {
	for _, c := range []struct {
		name, source string
		air, temp    float64
		surface      network.Surface
		want, tol    float64
		why          string
	}{
		{"simplified pipe/Holman 7.7", "Holman, Heat Transfer, Example 7.7", 288.15, 523.15,
			network.Surface{Area: math.Pi * 0.3048, Shape: network.PowerLaw{C: 1.32, L: 0.3048, M: 0.25}}, 1570, 0.005, "printed 1.57 kW/m"},
		{"radiation and given film/Incropera 1.2", "Incropera et al., 6th ed. 2007, Example 1.2", 298, 473,
			network.Surface{Area: math.Pi * 0.07, Emissivity: 0.8, Shape: network.Given{H: 15}}, 998, 0.002, "printed 998 W/m"},
		{"black plate/Cengel 9-2", "Cengel, Heat Transfer, 2nd ed. 2002, Example 9-2", 303, 363,
			network.Surface{Area: 0.36, Emissivity: 1}, 182, 0.005, "printed 182 W"},
		{"pipe in the package's air/Incropera 9.4", "Incropera et al., 6th ed. 2007, Example 9.4", 296, 438,
			network.Surface{Area: math.Pi * 0.1, Emissivity: 0.85, Shape: network.HorizontalCylinder{D: 0.1}}, 763, 0.01, "air's figures within 1 %"},
		{"plate in the package's air/Incropera 9.2", "Incropera et al., 6th ed. 2007, Example 9.2", 296, 505,
			network.Surface{Area: 0.71 * 1.02, Shape: network.VerticalPlate{H: 0.71}}, 1060, 0.02, "air's figures within 1 %"},
	} {
		t.Run(c.name, func(t *testing.T) {
			net := network.New(network.Surroundings{Air: c.air})
			id := net.AddNode(network.Node{Name: "body"})
			net.AddSurface(id, c.surface)
			if err := net.Finish(); err != nil {
				t.Fatal(err)
			}
			f := make([]float64, 1)
			got := net.Balance(0, []float64{c.temp}, f).Lost
			t.Logf("%s: %.5g W, printed %.4g W (%s)", c.source, got, c.want, c.why)
			if math.Abs(got/c.want-1) > c.tol {
				t.Errorf("%.5g W, want %.4g W within %.1f %%", got, c.want, 100*c.tol)
			}
		})
	}
}

// Published relations in figures of their sources that are easily checked:
// limits and joints.
func TestRelations(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
		tol       float64
	}{
		{"vertical plate/limit at rest, Churchill and Chu 1975", network.NusseltVerticalPlate(0, 0.7), 0.68, 1e-12},
		{"horizontal cylinder/limit at rest, Churchill and Chu 1975", network.NusseltHorizontalCylinder(0, 0.7), 0.36, 1e-12},
		{"vertical cylinder/thick is a plate", network.NusseltVerticalCylinder(1e6, 0.7, 1e-6), network.NusseltVerticalPlate(1e6, 0.7), 1e-5},
		// Incropera et al., 6th ed. 2007, Example 7.4: Re 6071 and Pr 0.70 at film temperature,
		// Nu 40.6 by Churchill and Bernstein. From memory, not looked up.
		{"across a cylinder/Incropera 7.4", network.NusseltCrossFlow(6071, 0.70), 40.6, 0.01},
		// 0.664 √Re Pr^⅓ at Re = 10⁴ (Incropera et al., eq. 7.30).
		{"along a plate/laminar", network.NusseltPlateFlow(1e4, 1), 66.4, 1e-12},
		// 0.037 Re^⅘ − 871 at Re = 10⁶ (Incropera et al., eq. 7.38).
		{"along a plate/turbulent", network.NusseltPlateFlow(1e6, 1), 0.037*math.Pow(1e6, 0.8) - 871, 1e-3},
		{"air layer/conduction alone", network.NusseltLayer(10, 20), 1, 1e-3},
		{"air layer/turbulent", network.NusseltLayer(1e7, 110), 0.0605 * math.Cbrt(1e7), 1e-12},
	} {
		t.Run(c.name, func(t *testing.T) {
			if math.Abs(c.got-c.want) > c.tol*c.want {
				t.Errorf("%.6g, want %.6g within %g", c.got, c.want, c.tol)
			}
		})
	}
}
