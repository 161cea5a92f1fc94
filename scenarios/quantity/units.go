package quantity

import (
	"slices"
	"strings"
	"sync"

	"clampheat/materials"
)

// This file is the table of units: what each is called, how it is typed, and
// what it is worth in SI.

// Kind is what a number measures.
type Kind string

// The kinds of quantity in a scenario file, with their SI unit.
const (
	Temperature  Kind = "temperature"   // K, absolute
	Rise         Kind = "rise"          // K, a difference
	Length       Kind = "length"        // m
	Altitude     Kind = "altitude"      // m above sea level
	Area         Kind = "area"          // m²
	Torque       Kind = "torque"        // N·m
	Current      Kind = "current"       // A
	Voltage      Kind = "voltage"       // V
	Resistance   Kind = "resistance"    // Ω
	Power        Kind = "power"         // W
	Conductance  Kind = "conductance"   // W/K, of heat
	HeatCapacity Kind = "heat capacity" // J/K
	Time         Kind = "time"          // s
	Share        Kind = "share"         // fraction
	Speed        Kind = "speed"         // m/s
	Flow         Kind = "flow of air"   // m³/s
)

// phrase names a kind with its article, for messages.
func (k Kind) phrase() string {
	switch k {
	case Area, Altitude:
		return "an " + string(k)
	case Rise:
		return "a rise in temperature"
	case Conductance:
		return "a conductance of heat"
	}
	return "a " + string(k)
}

// unit is one row of the table. A number n in the unit is n·factor + offset in
// SI; gauge sizes are the exception (see gauge.go).
type unit struct {
	kind    Kind
	symbol  string   // canonical, as printed
	symbols []string // further spellings, letter case as given
	words   []string // further spellings, lower case, typed in any
	factor  float64
	offset  float64
}

// Factors that more than one row rests on. All are exact.
const (
	inch          = 0.0254     // m; NIST SP 811, B.8 "inch", exact since 1959
	foot          = 12 * inch  // m; NIST SP 811, B.8 "foot"
	poundMass     = 0.45359237 // kg; NIST SP 811, B.8 "pound (avoirdupois)"
	standardFall  = materials.Gravity
	poundForce    = poundMass * standardFall
	celsiusZero   = materials.ZeroCelsius
	fahrenheitDeg = 1 / 1.8 // K; NIST SP 811, B.8 "degree Fahrenheit (temperature interval)"
	// 0 °F in K: (0 + 459.67)/1.8; NIST SP 811, B.8 "degree Fahrenheit".
	fahrenheitZero = 459.67 / 1.8
	// A circular mil is the area of a circle one thousandth of an inch wide;
	// NIST SP 811, B.8 "circular mil". A kcmil is a thousand of them.
	kcmil = 1000 * 0.78539816339744830961566 * (inch / 1000) * (inch / 1000)
)

// table lists the units of each kind in the order in which messages offer
// them. SI units and prefixes: SI brochure, tables 2, 4 and 7; minute, hour:
// table 8; other factors at the constants above.
var table = []unit{
	{kind: Temperature, symbol: "°C", symbols: []string{"C"}, words: []string{"degc", "celsius", "degcelsius"}, factor: 1, offset: celsiusZero},
	{kind: Temperature, symbol: "°F", symbols: []string{"F"}, words: []string{"degf", "fahrenheit", "degfahrenheit"}, factor: fahrenheitDeg, offset: fahrenheitZero},
	{kind: Temperature, symbol: "K", words: []string{"kelvin"}, factor: 1},

	{kind: Rise, symbol: "K", words: []string{"kelvin"}, factor: 1},
	{kind: Rise, symbol: "°C", symbols: []string{"C"}, words: []string{"degc", "celsius", "degcelsius"}, factor: 1},
	{kind: Rise, symbol: "°F", symbols: []string{"F"}, words: []string{"degf", "fahrenheit", "degfahrenheit"}, factor: fahrenheitDeg},

	{kind: Length, symbol: "mm", words: []string{"millimetre", "millimetres", "millimeter", "millimeters"}, factor: 1e-3},
	{kind: Length, symbol: "cm", words: []string{"centimetre", "centimetres", "centimeter", "centimeters"}, factor: 1e-2},
	{kind: Length, symbol: "m", words: []string{"metre", "metres", "meter", "meters"}, factor: 1},
	{kind: Length, symbol: "in", symbols: []string{`"`, "″"}, words: []string{"in", "inch", "inches"}, factor: inch},
	{kind: Length, symbol: "ft", symbols: []string{"'", "′"}, words: []string{"ft", "foot", "feet"}, factor: foot},

	{kind: Altitude, symbol: "m", words: []string{"metre", "metres", "meter", "meters"}, factor: 1},
	{kind: Altitude, symbol: "ft", symbols: []string{"'", "′"}, words: []string{"ft", "foot", "feet"}, factor: foot},

	{kind: Area, symbol: "mm²", symbols: []string{"mm2"}, words: []string{"sqmm"}, factor: 1e-6},
	{kind: Area, symbol: "cm²", symbols: []string{"cm2"}, words: []string{"sqcm"}, factor: 1e-4},
	{kind: Area, symbol: "m²", symbols: []string{"m2"}, words: []string{"sqm"}, factor: 1},
	{kind: Area, symbol: "AWG", words: []string{"awg", "gauge"}},
	{kind: Area, symbol: "kcmil", symbols: []string{"MCM"}, words: []string{"kcmil"}, factor: kcmil},

	{kind: Torque, symbol: "N·m", words: []string{"newton·metre", "newton·metres", "newton·meter", "newton·meters"}, factor: 1},
	{kind: Torque, symbol: "in·lb", words: []string{"in·lb", "in·lbs", "in·lbf", "lb·in", "lbs·in", "lbf·in", "inch·pound", "inch·pounds"}, factor: inch * poundForce},
	{kind: Torque, symbol: "ft·lb", words: []string{"ft·lb", "ft·lbs", "ft·lbf", "lb·ft", "lbs·ft", "lbf·ft", "foot·pound", "foot·pounds"}, factor: foot * poundForce},

	{kind: Current, symbol: "A", words: []string{"amp", "amps", "ampere", "amperes"}, factor: 1},
	{kind: Current, symbol: "kA", factor: 1e3},

	{kind: Voltage, symbol: "V", words: []string{"volt", "volts"}, factor: 1},
	{kind: Voltage, symbol: "mV", words: []string{"millivolt", "millivolts"}, factor: 1e-3},
	{kind: Voltage, symbol: "µV", symbols: []string{"uV"}, words: []string{"microvolt", "microvolts"}, factor: 1e-6},

	{kind: Resistance, symbol: "µΩ", symbols: []string{"uΩ", "uohm", "uohms", "uOhm", "µohm", "µohms", "µOhm"}, words: []string{"microohm", "microohms"}, factor: 1e-6},
	{kind: Resistance, symbol: "mΩ", symbols: []string{"mohm", "mohms", "mOhm"}, words: []string{"milliohm", "milliohms"}, factor: 1e-3},
	{kind: Resistance, symbol: "Ω", words: []string{"ohm", "ohms"}, factor: 1},

	{kind: Power, symbol: "W", words: []string{"watt", "watts"}, factor: 1},
	{kind: Power, symbol: "kW", words: []string{"kilowatt", "kilowatts"}, factor: 1e3},

	{kind: Conductance, symbol: "W/K", symbols: []string{"W/°C", "W/C"}, factor: 1},

	{kind: HeatCapacity, symbol: "J/K", symbols: []string{"J/°C", "J/C"}, factor: 1},
	{kind: HeatCapacity, symbol: "kJ/K", symbols: []string{"kJ/°C", "kJ/C"}, factor: 1e3},

	{kind: Time, symbol: "s", words: []string{"sec", "secs", "second", "seconds"}, factor: 1},
	{kind: Time, symbol: "min", words: []string{"min", "mins", "minute", "minutes"}, factor: 60},
	{kind: Time, symbol: "h", words: []string{"hr", "hrs", "hour", "hours"}, factor: 3600},

	{kind: Share, symbol: "%", words: []string{"percent"}, factor: 1e-2},

	{kind: Speed, symbol: "m/s", factor: 1},
	{kind: Speed, symbol: "km/h", symbols: []string{"kph"}, factor: 1 / 3.6},

	{kind: Flow, symbol: "m³/h", symbols: []string{"m3/h"}, factor: 1. / 3600},
	{kind: Flow, symbol: "m³/s", symbols: []string{"m3/s"}, factor: 1},
	{kind: Flow, symbol: "L/s", symbols: []string{"l/s"}, factor: 1e-3},
	{kind: Flow, symbol: "CFM", words: []string{"cfm", "ft3/min", "ft³/min"}, factor: foot * foot * foot / 60},
}

// Kinds lists all kinds, in the order of the table.
func Kinds() []Kind {
	var kinds []Kind
	for _, u := range table {
		if !slices.Contains(kinds, u.kind) {
			kinds = append(kinds, u.kind)
		}
	}
	return kinds
}

// Units lists the canonical units of a kind in the order in which to offer
// them; nil for a kind that is not one.
func Units(kind Kind) []string {
	var symbols []string
	for _, u := range table {
		if u.kind == kind {
			symbols = append(symbols, u.symbol)
		}
	}
	return symbols
}

// spelling is a unit as typed, in the plain form.
type spelling struct {
	kind Kind
	text string
}

// index finds units by their spelling: symbols as they are, words in lower
// case.
var index = sync.OnceValue(func() (found struct{ symbols, words map[spelling]unit }) {
	found.symbols, found.words = map[spelling]unit{}, map[spelling]unit{}
	for _, u := range table {
		found.symbols[spelling{u.kind, plain(u.symbol)}] = u
		for _, s := range u.symbols {
			found.symbols[spelling{u.kind, plain(s)}] = u
		}
		for _, w := range u.words {
			found.words[spelling{u.kind, plain(w)}] = u
		}
	}
	return found
})

// lookUp finds the unit of a kind that text spells.
func lookUp(kind Kind, text string) (unit, bool) {
	key := plain(text)
	if u, ok := index().symbols[spelling{kind, key}]; ok {
		return u, true
	}
	u, ok := index().words[spelling{kind, strings.ToLower(key)}]
	return u, ok
}

// plain brings the ways to type a unit to one: code points that look alike
// become one, and what joins the parts of a product is dropped.
func plain(text string) string {
	return lookalikes.Replace(strings.Join(strings.Fields(text), ""))
}

var lookalikes = strings.NewReplacer(
	"μ", "µ", // Greek mu (U+03BC) for the micro sign (U+00B5)
	"\u2126", "Ω", // ohm sign for Greek omega
	"º", "°", "˚", "°", // ordinal and ring for the degree sign
	"℃", "°C", "℉", "°F",
	"^2", "²", "^3", "³", "^", "",
	"·", "", "⋅", "", "∙", "", "•", "", "*", "", "-", "", "‑", "", "–", "", ".", "",
	"\u200b", "", "\u2060", "",
)
