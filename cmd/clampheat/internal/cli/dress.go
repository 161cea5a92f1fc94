package cli

import (
	"fmt"
	"math"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/materials"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// dress writes the numbers of a result in the units that its file uses.
type dress struct{ temp, torque string }

func dressed(c study.Conditions) dress {
	d := dress{"°C", "N·m"}
	if c.TempUnit == "°F" || c.TempUnit == "K" {
		d.temp = c.TempUnit
	}
	if c.TorqueUnit != "" {
		d.torque = c.TorqueUnit
	}
	return d
}

// degrees is a temperature without its unit, to the whole degree.
func (d dress) degrees(t quantity.Temp) string {
	switch d.temp {
	case "°F":
		return whole(t.Fahrenheit())
	case "K":
		return whole(float64(t))
	}
	return whole(t.Celsius())
}

// temperature is one with its unit.
func (d dress) temperature(t quantity.Temp) string { return d.degrees(t) + " " + d.temp }

// both has the other everyday unit beside it, for headlines.
func (d dress) both(t quantity.Temp) string {
	other := dress{temp: "°F"}
	if d.temp == "°F" {
		other.temp = "°C"
	}
	return fmt.Sprintf("%s (%s)", d.temperature(t), other.temperature(t))
}

// riseUnit is the unit of a difference of temperatures.
func (d dress) riseUnit() string {
	if d.temp == "°F" {
		return "°F"
	}
	return "K"
}

// difference is a rise or what is left to a limit, with its unit; one decimal
// below one degree, so that a limit passed by little does not read as 0.
func (d dress) difference(k float64) string {
	if d.temp == "°F" {
		k *= 1.8
	}
	return small(k) + " " + d.riseUnit()
}

// torqueText is one to three digits, which is finer than any wrench, without
// noughts at the end.
func (d dress) torqueText(nm float64) string {
	number, unit, _ := strings.Cut(quantity.Format(quantity.Torque, nm, d.torque, 3), " ")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + unit
}

func whole(x float64) string { return fmt.Sprintf("%.0f", x+0) }

func small(x float64) string {
	text := whole(x)
	if math.Abs(x) < 1 {
		text = fmt.Sprintf("%.1f", x)
	}
	if strings.Trim(text, "-0.") == "" {
		return "0"
	}
	return text
}

// duration writes a time in the unit that suits its size.
func duration(s float64) string {
	const tenHours = 36000
	digits := 2
	if s >= tenHours {
		digits = 3 // a tenth of an hour is six minutes
	}
	return strings.Replace(quantity.Scaled(quantity.Time, s, digits), ".0 ", " ", 1)
}

// current writes one as it would be typed.
func current(a float64) string { return quantity.Format(quantity.Current, a, "A", 0) }

// force writes a clamp force.
func force(n float64) string { return quantity.Number(n/1e3, 2) + " kN" }

// visible is a number of a table, which next to nothing does not fill with
// noughts.
func visible(x float64, digits int) string {
	const least = 0.001
	if x != 0 && math.Abs(x) < least {
		return "<0.001"
	}
	return quantity.Number(x, digits)
}

// notes lists warnings, those that differ in their numbers only as one.
func notes(warnings []string) string {
	bare := func(w string) string {
		return strings.Map(func(r rune) rune {
			if strings.ContainsRune("0123456789.+-", r) {
				return -1
			}
			return r
		}, w)
	}
	count := map[string]int{}
	for _, w := range warnings {
		count[bare(w)]++
	}
	var b strings.Builder
	for _, w := range warnings {
		n, told := count[bare(w)], ""
		if n == 0 {
			continue
		}
		if n > 1 {
			told = fmt.Sprintf(" (and %d more like it)", n-1)
		}
		b.WriteString(texttable.Wrap("  Note     ", w+told, width))
		count[bare(w)] = 0
	}
	return b.String()
}

// spread writes low / likely / high of a quantity in one unit.
func spread(r materials.Range, scale float64) (low, likely, high string) {
	return quantity.Number(r.Low*scale, 2), quantity.Number(r.Likely*scale, 2), quantity.Number(r.High*scale, 2)
}

// headline says what was asked, in one paragraph.
func headline(c study.Conditions, amps, how string) string {
	d := dressed(c)
	air := "air " + d.temperature(c.Air)
	if c.AirFrom > 0 {
		air = fmt.Sprintf("air %s … %s", d.degrees(c.AirFrom), d.temperature(c.Air))
	}
	parts := []string{amps, air}
	if c.Ripple > 0 {
		parts = append(parts, "ripple "+quantity.Format(quantity.Share, c.Ripple, "%", 0))
	}
	if c.Altitude != 0 {
		parts = append(parts, quantity.Format(quantity.Altitude, c.Altitude, "m", 0)+" above the sea")
	}
	title := strings.TrimRight(c.Title, ". ")
	if title == "" {
		title = c.File
	}
	return title + ". " + strings.Join(append(parts, how), ", ") + "."
}
