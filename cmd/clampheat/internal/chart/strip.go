package chart

import (
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file draws a strip: a low panel over the curves with what drives them,
// over the same axis.

// Strip is the data of such a panel. Its axis begins at 0.
type Strip struct {
	Label string
	X, Y  []float64
	// Across is a marked value; without a name there is none.
	Across Level
}

// Distances of a strip, in points.
const (
	stripHeight = vg.Length(62)
	stripGap    = vg.Length(26) // down to the curves
)

// strip draws it over the area of the curves.
func (p *page) strip() {
	s := p.f.Above
	if s == nil {
		return
	}
	top := max(s.Across.Value, 0)
	for _, y := range s.Y {
		top = max(top, y)
	}
	if top == 0 {
		top = 1
	}
	low := p.area.Max.Y + stripGap
	at := func(v float64) vg.Length { return low + vg.Length(v/(1.1*top))*stripHeight }
	for _, t := range ticks(0, 2*top) { // about three of them fit
		if t > 1.05*top {
			break
		}
		p.StrokeLine2(thin(grid), p.area.Min.X, at(t), p.area.Max.X, at(t))
		p.FillText(writing(textSize, ink, text.XRight, text.YCenter), vg.Point{X: p.area.Min.X - 6, Y: at(t) + lift}, number(t))
	}
	p.FillText(writing(textSize, grey, text.XRight, text.YCenter), vg.Point{X: p.area.Min.X - 6, Y: low + stripHeight + 10}, s.Label)
	p.StrokeLine2(thin(ink), p.area.Min.X, low, p.area.Max.X, low)
	pts := make([]vg.Point, len(s.X))
	for i := range s.X {
		pts[i] = vg.Point{X: p.x(s.X[i]), Y: at(s.Y[i])}
	}
	p.StrokeLines(draw.LineStyle{Color: ink, Width: lineWidth}, pts)
	if s.Across.Name != "" {
		y := at(s.Across.Value)
		p.StrokeLine2(draw.LineStyle{Color: grey, Width: 0.9, Dashes: []vg.Length{4, 3}}, p.area.Min.X, y, p.area.Max.X, y)
		p.FillText(writing(noteSize, grey, text.XLeft, text.YCenter), vg.Point{X: p.area.Max.X + 6, Y: y + lift}, s.Across.Name)
	}
}
