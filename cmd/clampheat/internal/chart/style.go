package chart

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Size of a picture: 1000 × 600 pixels at 96 to the inch.
const (
	pageWidth  = 750 * vg.Length(1)
	pageHeight = 450 * vg.Length(1)
)

// Distances on the page, in points.
const (
	edge      = vg.Length(14) // white rim
	titleSize = 15
	textSize  = 10
	noteSize  = 8.5
	lineWidth = vg.Length(1.6)
	hairline  = vg.Length(0.5)
	sample    = vg.Length(24) // the piece of line before a name
	lead      = vg.Length(14) // from the end of a curve to its name
	rowHeight = vg.Length(13) // of the names at the right
	// widestName is the most room that the names at the right may take; longer
	// ones have several lines, mostLines at most. Where the places are named
	// under the axis, only limits stand there, and take less.
	widestName  = vg.Length(200)
	widestLimit = vg.Length(125)
	mostLines   = 3
	lift        = vg.Length(1) // brings the middle of small letters to a line
)

var (
	ink   = color.NRGBA{0x22, 0x22, 0x22, 0xff}
	grey  = color.NRGBA{0x70, 0x70, 0x70, 0xff}
	grid  = color.NRGBA{0xe2, 0xe2, 0xe2, 0xff}
	alarm = color.NRGBA{0xa8, 0x1c, 0x1c, 0xff}
	band  = color.NRGBA{0xd6, 0xe4, 0xf0, 0xff}
)

// hues tell series apart for every kind of colour vision: the set of Okabe and
// Ito (2008, "Color universal design"), without its yellow, which is too pale
// for a line on white, and with black at the end.
var hues = []color.NRGBA{
	{0x00, 0x72, 0xb2, 0xff}, // blue
	{0xd5, 0x5e, 0x00, 0xff}, // vermilion
	{0x00, 0x9e, 0x73, 0xff}, // bluish green
	{0xcc, 0x79, 0xa7, 0xff}, // reddish purple
	{0xe6, 0x9f, 0x00, 0xff}, // orange
	{0x56, 0xb4, 0xe9, 0xff}, // sky blue
	{0x00, 0x00, 0x00, 0xff}, // black
}

// dashes: their number has no factor in common with that of the hues, so that
// 42 series differ by the pair and neighbours differ by both.
var dashes = [][]vg.Length{
	nil, {8, 3}, {3, 2}, {10, 3, 2, 3}, {1.5, 2.5}, {6, 2, 1.5, 2, 1.5, 2},
}

// glyphs for measured points.
var glyphs = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}, draw.CrossGlyph{}, draw.PlusGlyph{}, draw.RingGlyph{}}

func lineStyle(i int, hot bool) draw.LineStyle {
	s := draw.LineStyle{Color: hues[i%len(hues)], Width: lineWidth, Dashes: dashes[i%len(dashes)]}
	if hot {
		s.Width *= 1.6
	}
	return s
}

func thin(c color.Color) draw.LineStyle { return draw.LineStyle{Color: c, Width: hairline} }

// writing is a text style; x and y say which point of the text is placed.
func writing(size float64, c color.Color, x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{
		Color: c, Font: font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, font.Length(size)),
		XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler,
	}
}

// strong lifts a text out by its size. Its weight stays: the writer of PDF
// finds no bold font.
func strong(s text.Style) text.Style {
	s.Font.Size++
	return s
}
