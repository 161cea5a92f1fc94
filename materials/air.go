package materials

// This file holds dry air as the gas around a stack, and its pressure by altitude.

import (
	"fmt"
	"math"
)

// Air is dry air at one temperature and pressure.
type Air struct {
	Temp         float64 // K
	Pressure     float64 // Pa
	Density      float64 // kg/m³
	Viscosity    float64 // Pa·s, dynamic
	Conductivity float64 // W/(m·K)
	SpecificHeat float64 // J/(kg·K), at constant pressure
}

// DryAir returns the properties of dry air at temp [K] and pressure [Pa] as a
// perfect gas whose viscosity and conductivity depend on temp alone.
//
// Valid for 150 ≤ temp ≤ 1500 K and 10 to 200 kPa; outside, it returns a
// *RangeError. From 250 to 400 K viscosity is within 1 % and the Prandtl number
// within 1 % of the printed table of Incropera & DeWitt; towards 1500 K the
// conductivity falls behind that table, by an eighth at the end.
//
// Source: viscosity by Sutherland's formula and conductivity as the U.S.
// Standard Atmosphere 1976 gives them, eqs. (51) and (53); specific heat by
// McBride, Zehe & Gordon, NASA/TP-2002-211556, species Air, which begins at 200 K.
func DryAir(temp, pressure float64) (Air, error) {
	if err := within("air temperature", temp, 150, 1500, "K"); err != nil {
		return Air{}, fmt.Errorf("find the properties of air: %w", err)
	}
	if err := within("air pressure", pressure, 10e3, 200e3, "Pa"); err != nil {
		return Air{}, fmt.Errorf("find the properties of air: %w", err)
	}
	root := temp * math.Sqrt(temp)
	return Air{
		Temp:         temp,
		Pressure:     pressure,
		Density:      pressure / (AirConstant * temp),
		Viscosity:    1.458e-6 * root / (temp + 110.4),
		Conductivity: 2.64638e-3 * root / (temp + 245.4*math.Pow(10, -12/temp)),
		SpecificHeat: airSpecificHeat(temp),
	}, nil
}

// airHeat holds the coefficients of c_p/R = Σ a_i·T^(i−2), below and above
// 1000 K. Source: McBride, Zehe & Gordon 2002, NASA/TP-2002-211556, species Air.
var airHeat = [2][7]float64{
	{1.009950160e4, -1.968275610e2, 5.009155110, -5.761013730e-3, 1.066859930e-5, -7.940297970e-9, 2.185231910e-12},
	{2.415214430e5, -1.257874600e3, 5.144558670, -2.138541790e-4, 7.065227840e-8, -1.071483490e-11, 6.577800150e-16},
}

func airSpecificHeat(temp float64) float64 {
	a := &airHeat[0]
	if temp > 1000 {
		a = &airHeat[1]
	}
	sum := 0.0
	for i := len(a) - 1; i >= 0; i-- {
		sum = sum*temp + a[i]
	}
	return AirConstant * sum / (temp * temp)
}

// KinematicViscosity returns ν = μ/ρ [m²/s].
func (a Air) KinematicViscosity() float64 { return a.Viscosity / a.Density }

// Diffusivity returns the thermal diffusivity k/(ρ·c_p) [m²/s].
func (a Air) Diffusivity() float64 { return a.Conductivity / (a.Density * a.SpecificHeat) }

// Prandtl returns the Prandtl number μ·c_p/k.
func (a Air) Prandtl() float64 { return a.Viscosity * a.SpecificHeat / a.Conductivity }

// Expansion returns the coefficient of thermal expansion of a perfect gas, 1/T [1/K].
func (a Air) Expansion() float64 { return 1 / a.Temp }

// PressureAt returns the pressure of the standard atmosphere [Pa] at a
// geometric altitude [m] above the sea.
//
// Valid from −500 to 11 000 m; outside, it returns a *RangeError.
//
// Source: ISO 2533:1975, eqs. (8) and (13), first layer.
func PressureAt(altitude float64) (float64, error) {
	const (
		earth = 6356766.0 // m, nominal radius
		t0    = 288.15    // K, at sea level
		lapse = 0.0065    // K/m
	)
	if err := within("altitude", altitude, -500, 11000, "m"); err != nil {
		return 0, fmt.Errorf("find the pressure of the air: %w", err)
	}
	h := earth * altitude / (earth + altitude) // geopotential
	return StandardPressure * math.Pow(1-lapse*h/t0, Gravity/(AirConstant*lapse)), nil
}
