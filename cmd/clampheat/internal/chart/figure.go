// Package chart draws results: the curves of a soak, and the temperatures
// along the path of a settled stack. It is the only package that draws.
//
// A Figure is first made of plain data in the units of the picture and then
// drawn, so that what a chart shows can be tested without looking at pixels.
// Every series differs from the others by colour and by dash pattern, and has
// its name where it ends; nothing is told by colour alone.
package chart

import (
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Figure is the data of one picture.
type Figure struct {
	Title, Subtitle string
	XLabel, YLabel  string
	Lines           []Line
	Clouds          []Cloud
	Levels          []Level
	Band            *Band
	Stops           []Stop
	// Sheet, where not nil, is drawn in place of all else.
	Sheet *Sheet
	// Pair, likewise.
	Pair *Pair
	// Bars, where not nil, are drawn in place of curves.
	Bars *Bars
	// Above, where not nil, is drawn over the curves.
	Above *Strip
	// Below, where not nil, is a figure of bars that is drawn below the curves.
	Below *Figure
	// Foot is a remark under the picture, "" for none.
	Foot string
	// Beside are curves for comparison, thin and named over the picture.
	Beside []Line
	// peaks says that the names of curves tell their highest values, not their
	// last.
	peaks bool
	// ticks says where the horizontal axis has its numbers; false where the
	// stops take their place.
	ticks bool
}

// Line is a named curve. Hot marks the one that the headline is about.
type Line struct {
	Name string
	X, Y []float64
	Hot  bool
}

// Cloud is a set of measured points; Of is the index of the line that they
// are held against.
type Cloud struct {
	Name string
	X, Y []float64
	Of   int
}

// Level is a limit: a horizontal line with its name.
type Level struct {
	Name  string
	Value float64
}

// Band is what lies between careful and careless assembly.
type Band struct{ X, Low, High []float64 }

// Stop is a named place on the horizontal axis.
type Stop struct {
	Name string
	X, Y float64
	Hot  bool
}

// scale turns temperatures into the unit that the scenario uses.
type scale struct{ unit string }

func scaleOf(c study.Conditions) scale {
	if c.TempUnit == "°F" || c.TempUnit == "K" {
		return scale{c.TempUnit}
	}
	return scale{"°C"}
}

func (s scale) of(t quantity.Temp) float64 {
	switch s.unit {
	case "°F":
		return t.Fahrenheit()
	case "K":
		return float64(t)
	}
	return t.Celsius()
}
