package materials

// This file holds the constants of nature and of definition that the
// other packages share, each with its source.

const (
	// StefanBoltzmann is the constant σ of black-body radiation [W/(m²·K⁴)].
	//
	// Source: CODATA 2018, exact to the digits given.
	StefanBoltzmann = 5.670374419e-8

	// Gravity is the standard acceleration of free fall [m/s²].
	//
	// Source: 3rd General Conference on Weights and Measures, 1901; ISO 2533:1975.
	Gravity = 9.80665

	// Lorenz is the number L of Wiedemann, Franz and Lorenz [V²/K²],
	// thermal conductivity = L·T/resistivity for metals.
	//
	// Source: Sommerfeld 1928, L = (π²/3)(k/e)² = 2.443e-8; the rounded 2.45e-8
	// is the figure that Holm, Electric Contacts, 4th ed. 1967, gives with its
	// tables of softening and melting voltages.
	Lorenz = 2.45e-8

	// ReferenceTemp is the temperature [K] at which resistances are stated, 20 °C.
	//
	// Source: IEC 60028:1925, IEC 60228:2004.
	ReferenceTemp = 293.15

	// AirConstant is the specific gas constant of dry air [J/(kg·K)].
	//
	// Source: ISO 2533:1975, table 1.
	AirConstant = 287.05287

	// StandardPressure is the pressure of the standard atmosphere at sea level [Pa].
	//
	// Source: ISO 2533:1975, table 1.
	StandardPressure = 101325.0

	// ZeroCelsius is the temperature 0 °C [K].
	//
	// Source: SI brochure, 9th ed. 2019, section 2.3.1.
	ZeroCelsius = 273.15

	inch = 0.0254 // m, exact since 1959
)
