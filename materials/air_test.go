package materials_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"clampheat/materials"
	"pgregory.net/rapid"
)

// TestDryAir holds the air against Incropera & DeWitt, table A.4 (from
// memory, checked for ν/α = Pr and k/(ρ·c) = α): viscosity and conductivity
// within 1 %, specific heat within 0.5 %, Prandtl number within 1.5 %, density
// by the gas law at the 100 kPa of that table within 0.15 %.
func TestDryAir(t *testing.T) {
	for _, c := range []struct{ temp, density, heat, viscosity, conductivity, prandtl float64 }{
		{250, 1.3947, 1006, 159.6e-7, 22.3e-3, 0.720},
		{300, 1.1614, 1007, 184.6e-7, 26.3e-3, 0.707},
		{350, 0.9950, 1009, 208.2e-7, 30.0e-3, 0.700},
		{400, 0.8711, 1014, 230.1e-7, 33.8e-3, 0.690},
		{450, 0.7740, 1021, 250.7e-7, 37.3e-3, 0.686},
		{500, 0.6964, 1030, 270.1e-7, 40.7e-3, 0.684},
	} {
		a, err := materials.DryAir(c.temp, 100e3)
		if err != nil {
			t.Fatal(err)
		}
		tolerance := 0.01
		if c.temp > 400 {
			tolerance = 0.015 // the formulas drift from the table by another half per cent
		}
		for _, p := range []struct {
			name      string
			got, want float64
			share     float64
		}{
			{"density", a.Density, c.density, 0.0015}, {"specific heat", a.SpecificHeat, c.heat, 0.005},
			{"viscosity", a.Viscosity, c.viscosity, tolerance}, {"conductivity", a.Conductivity, c.conductivity, tolerance},
			{"Prandtl", a.Prandtl(), c.prandtl, 0.015},
			{"kinematic viscosity", a.KinematicViscosity(), c.viscosity / c.density, tolerance},
			{"diffusivity", a.Diffusivity(), c.conductivity / c.density / c.heat, 0.015},
			{"expansion", a.Expansion(), 1 / c.temp, 1e-12},
		} {
			if !near(p.got, p.want, p.share) {
				t.Errorf("%g K: %s %.5g, want %.5g (%+.2f %%)", c.temp, p.name, p.got, p.want, 100*(p.got/p.want-1))
			}
		}
	}
}

// TestSpecificHeat: 1141 J/(kg·K) at 1000 K (Incropera & DeWitt, table A.4,
// from memory), and no step there where the polynomial changes over.
func TestSpecificHeat(t *testing.T) {
	below, err := materials.DryAir(1000, 100e3)
	if err != nil {
		t.Fatal(err)
	}
	above, err := materials.DryAir(math.Nextafter(1000, 2000), 100e3)
	if err != nil {
		t.Fatal(err)
	}
	if !near(below.SpecificHeat, 1141, 2e-3) || !near(above.SpecificHeat, below.SpecificHeat, 2e-5) {
		t.Errorf("%.2f and %.2f J/(kg·K)", below.SpecificHeat, above.SpecificHeat)
	}
}

func TestDryAirRange(t *testing.T) {
	for _, c := range []struct{ temp, pressure float64 }{
		{149, 1e5}, {1501, 1e5}, {300, 9e3}, {300, 2.1e5}, {math.NaN(), 1e5}, {300, math.NaN()}, {math.Inf(1), 1e5},
	} {
		_, err := materials.DryAir(c.temp, c.pressure)
		var out *materials.RangeError
		if !errors.As(err, &out) {
			t.Errorf("%v: error %v", c, err)
		}
	}
	t.Run("finite inside", rapid.MakeCheck(func(t *rapid.T) {
		a, err := materials.DryAir(rapid.Float64Range(150, 1500).Draw(t, "temp"), rapid.Float64Range(10e3, 200e3).Draw(t, "pressure"))
		if err != nil {
			t.Fatal(err)
		}
		b, err := materials.DryAir(a.Temp*0.99+1.5, a.Pressure)
		if err != nil {
			t.Fatal(err)
		}
		if !(a.Prandtl() > 0.66 && a.Prandtl() < 0.77) {
			t.Errorf("Prandtl %g at %g K", a.Prandtl(), a.Temp)
		}
		if a.Temp > 151 && b.Temp < a.Temp && (b.Viscosity >= a.Viscosity || b.Conductivity >= a.Conductivity) {
			t.Errorf("viscosity or conductivity falls from %g to %g K", b.Temp, a.Temp)
		}
	}))
}

// TestPressureAt holds the pressure against the table of the U.S. Standard
// Atmosphere 1976 by geometric altitude, the same as ISO 2533 (from memory).
func TestPressureAt(t *testing.T) {
	for altitude, want := range map[float64]float64{0: 101325, 1000: 89876, 3000: 70121, 5000: 54048, 10000: 26500, 11000: 22700} {
		got, err := materials.PressureAt(altitude)
		if err != nil || !near(got, want, 1e-4) {
			t.Errorf("%g m: %.0f Pa, want %.0f, %v", altitude, got, want, err)
		}
	}
	for _, bad := range []float64{-501, 11001, math.NaN()} {
		if _, err := materials.PressureAt(bad); err == nil {
			t.Errorf("%g m has a pressure", bad)
		}
	}
}

// TestConstants: Lorenz's number by Sommerfeld from the exact constants of CODATA 2018.
func TestConstants(t *testing.T) {
	const boltzmann, charge, planck, light = 1.380649e-23, 1.602176634e-19, 6.62607015e-34, 299792458
	sommerfeld := math.Pi * math.Pi / 3 * math.Pow(boltzmann/charge, 2)
	if !near(materials.Lorenz, sommerfeld, 3e-3) {
		t.Errorf("Lorenz %.4g, by Sommerfeld %.4g", materials.Lorenz, sommerfeld)
	}
	sigma := 2 * math.Pow(math.Pi, 5) * math.Pow(boltzmann, 4) / (15 * math.Pow(planck, 3) * light * light)
	if !near(materials.StefanBoltzmann, sigma, 1e-9) {
		t.Errorf("Stefan–Boltzmann %.10g, by the exact constants %.10g", materials.StefanBoltzmann, sigma)
	}
}

func ExampleDryAir() {
	pressure, err := materials.PressureAt(1500) // a cabin in the hills
	if err != nil {
		fmt.Println(err)
		return
	}
	air, err := materials.DryAir(300, pressure)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f kg/m³, Pr %.2f\n", air.Density, air.Prandtl())
	// Output: 0.982 kg/m³, Pr 0.71
}

func ExampleLookupConductor() {
	c, err := materials.LookupConductor("1/0 AWG")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.1f mm², %.3f mΩ/m\n", c.Name, c.Area*1e6, c.Resistance20*1e3)
	_, err = materials.LookupConductor("55 mm²")
	fmt.Println(err)
	// Output:
	// 1/0 AWG: 53.5 mm², 0.329 mΩ/m
	// no conductor is called "55 mm²"; near names are "50 mm²", "70 mm²", "35 mm²"
}
