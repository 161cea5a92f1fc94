package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// This file writes numbers with their units, each in one canonical form.

// Convert returns what si, a value in SI, is in a unit of its kind. A gauge
// has no number of its own: use Format. An unknown unit is an
// *UnknownUnitError.
func Convert(kind Kind, si float64, unit string) (float64, error) {
	u, ok := lookUp(kind, unit)
	if !ok || u.factor == 0 {
		return 0, &UnknownUnitError{Kind: kind, Text: unit, Unit: unit, Allowed: Units(kind), Near: nearest(kind, unit)}
	}
	return (si - u.offset) / u.factor, nil
}

// Format writes si in a unit of its kind, "8.5 N·m". Digits is as for Number;
// 0 writes the shortest form, as a person would type it. A unit that is not
// one of the kind's, and an area that is no gauge where AWG is asked for, are
// written in the first unit of the kind.
func Format(kind Kind, si float64, unit string, digits int) string {
	u, ok := lookUp(kind, unit)
	if ok && u.symbol == "AWG" {
		if n, is := gaugeOf(si); is {
			return gaugeName(n) + " AWG"
		}
		ok = false
	}
	if !ok {
		if u, ok = first(kind); !ok {
			return Number(si, digits)
		}
	}
	n := (si - u.offset) / u.factor
	if digits <= 0 && math.Abs(n) < snap*math.Abs(u.offset) {
		n = 0 // what is left of 0 °C after the way to K and back
	}
	return Number(n, digits) + " " + u.symbol
}

// snap is the part of an offset that is lost by adding and taking it away.
const snap = 1e-14

func first(kind Kind) (unit, bool) {
	for _, u := range table {
		if u.kind == kind {
			return u, true
		}
	}
	return unit{}, false
}

// Number writes n with at least the given significant digits where it has
// decimals: whole digits are never rounded away, so that 104.2 with two digits
// is "104" and 0.0471 is "0.047". 0 digits or fewer write the shortest form
// that is the same to twelve digits.
func Number(n float64, digits int) string {
	if digits <= 0 {
		return shortest(n)
	}
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return strconv.FormatFloat(n+0, 'f', -1, 64)
	}
	text := strconv.FormatFloat(n, 'f', decimals(n, digits), 64)
	// Rounding up may have added a digit: 9.96 with two is "10", not "10.0".
	if rounded, err := strconv.ParseFloat(text, 64); err == nil && rounded != 0 {
		text = strconv.FormatFloat(n, 'f', decimals(rounded, digits), 64)
	}
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// decimals is the number of places after the point that shows digits
// significant ones.
func decimals(n float64, digits int) int {
	return min(max(0, digits-1-int(math.Floor(math.Log10(math.Abs(n))))), 12)
}

// shortest writes n without the noise of binary fractions.
func shortest(n float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', 12, 64), 64)
	if err != nil {
		rounded = n
	}
	if size := math.Abs(rounded); size != 0 && (size < 1e-6 || size >= 1e15) {
		return strconv.FormatFloat(rounded, 'g', -1, 64)
	}
	return strconv.FormatFloat(rounded+0, 'f', -1, 64)
}

// screens are the units that a screen chooses from by size, small to large.
var screens = map[Kind][]string{
	Resistance: {"µΩ", "mΩ", "Ω"},
	Voltage:    {"mV", "V"},
	Current:    {"A", "kA"},
	Length:     {"mm", "m"},
	Time:       {"s", "min", "h"},
}

// limits of the printed number above which a screen takes the next unit.
func screenful(unit string) float64 {
	switch unit {
	case "s":
		return 120
	case "min":
		return 180
	}
	return 1000
}

// Scaled writes si in the unit that suits its size: µΩ, mΩ or Ω; mV or V; mm
// or m; s, min or h; the first unit of other kinds. The choice rests on the
// number as printed, so that 999.9 µΩ with three digits is "1.00 mΩ". Digits
// as for Number.
func Scaled(kind Kind, si float64, digits int) string {
	choices := screens[kind]
	for i, symbol := range choices {
		n, err := Convert(kind, si, symbol)
		if err != nil {
			continue
		}
		text := Number(n, digits)
		printed, err := strconv.ParseFloat(text, 64)
		if i == len(choices)-1 || (err == nil && math.Abs(printed) < screenful(symbol)) {
			return text + " " + symbol
		}
	}
	u, ok := first(kind)
	if !ok {
		return Number(si, digits)
	}
	return Format(kind, si, u.symbol, digits)
}

// Temp is a temperature of a result, K. In JSON it is °C, so its key ends in
// _C.
type Temp float64

// Celsius returns the temperature in °C.
func (t Temp) Celsius() float64 { return float64(t) - celsiusZero }

// Fahrenheit returns the temperature in °F.
func (t Temp) Fahrenheit() float64 { return (float64(t) - fahrenheitZero) / fahrenheitDeg }

// MarshalJSON writes °C to a thousandth, which is finer than any input of a
// stack is known, and null for the zero Temp, which stands for no answer. NaN
// and Inf are errors.
func (t Temp) MarshalJSON() ([]byte, error) {
	if t == 0 {
		return []byte("null"), nil
	}
	c := math.Round(t.Celsius()*1e3) / 1e3
	if math.IsNaN(c) || math.IsInf(c, 0) {
		return nil, fmt.Errorf("temperature %v cannot be written", float64(t))
	}
	return []byte(strconv.FormatFloat(c+0, 'f', -1, 64)), nil
}
