package chart

import (
	"io"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file draws a pair: two panels side by side, each with axes of its own,
// straight or logarithmic.

// Pair is the data of two panels.
type Pair struct {
	Title, Subtitle string
	Foot            string
	Plots           [2]Plot
}

// Plot is one of a pair.
type Plot struct {
	Head  string
	X, Y  Axis
	Band  *Band
	Lines []Line
	Dots  []Cloud // stated points, joined by a thin line
	Notes []Note
	// Upright and Across are marked values of the axes.
	Upright, Across []Level
}

// Axis is the range of an axis with its numbers.
type Axis struct {
	Label     string
	Low, High float64
	Log       bool
	Ticks     []Tick
}

// Tick is a number of an axis.
type Tick struct {
	At   float64
	Text string
}

// Note is a text beside a point.
type Note struct {
	X, Y  float64
	Text  string
	Left  bool // the text ends at the point
	Below bool // it stands under the point
}

// share is where a value lies on an axis, 0 at its low end and 1 at its high.
func (a *Axis) share(v float64) vg.Length {
	if a.Log {
		return vg.Length(math.Log(v/a.Low) / math.Log(a.High/a.Low))
	}
	return vg.Length((v - a.Low) / (a.High - a.Low))
}

// holds says whether a value lies on the axis.
func (a *Axis) holds(v float64) bool { return v >= a.Low && v <= a.High }

func (p *Pair) write(w io.Writer, format string) error {
	c, err := canvasFor(pageWidth, pageHeight, format)
	if err != nil {
		return err
	}
	d := draw.NewCanvas(c, pageWidth, pageHeight)
	d.SetColor(white)
	d.Fill(d.Rectangle.Path())
	on := &page{Canvas: d}
	head := pageHeight - edge
	on.write(writing(titleSize, ink, text.XLeft, text.YTop), vg.Point{X: edge, Y: head}, p.Title)
	on.write(writing(textSize, grey, text.XLeft, text.YTop), vg.Point{X: edge, Y: head - 19}, p.Subtitle)
	on.write(writing(noteSize, grey, text.XLeft, text.YBottom), vg.Point{X: edge, Y: edge - 5}, p.Foot)
	const left, between, right = 44, 62, 20
	wide := (pageWidth - 2*edge - left - between - right) / 2
	for i := range p.Plots {
		x := edge + left + vg.Length(i)*(wide+between)
		plotted{d, &p.Plots[i], vg.Rectangle{
			Min: vg.Point{X: x, Y: edge + 48}, Max: vg.Point{X: x + wide, Y: head - 74}}}.draw()
	}
	return write(w, c, format)
}

// plotted is a plot on its place.
type plotted struct {
	draw.Canvas
	p    *Plot
	area vg.Rectangle
}

func (d plotted) at(x, y float64) vg.Point {
	return vg.Point{
		X: d.area.Min.X + d.p.X.share(x)*(d.area.Max.X-d.area.Min.X),
		Y: d.area.Min.Y + d.p.Y.share(y)*(d.area.Max.Y-d.area.Min.Y),
	}
}

func (d plotted) draw() {
	a := d.area
	d.FillText(strong(writing(textSize+1, ink, text.XLeft, text.YBottom)), vg.Point{X: a.Min.X - 38, Y: a.Max.Y + 24}, d.p.Head)
	d.FillText(writing(textSize, grey, text.XLeft, text.YBottom), vg.Point{X: a.Min.X - 38, Y: a.Max.Y + 8}, d.p.Y.Label)
	d.FillText(writing(textSize, grey, text.XRight, text.YTop), vg.Point{X: a.Max.X, Y: a.Min.Y - 20}, d.p.X.Label)
	if b := d.p.Band; b != nil {
		var outline []vg.Point
		for i := range b.X {
			outline = append(outline, d.at(b.X[i], b.High[i]))
		}
		for i := len(b.X) - 1; i >= 0; i-- {
			outline = append(outline, d.at(b.X[i], b.Low[i]))
		}
		d.FillPolygon(band, outline)
	}
	for _, t := range d.p.X.Ticks {
		p := d.at(t.At, d.p.Y.Low)
		d.StrokeLine2(thin(grid), p.X, a.Min.Y, p.X, a.Max.Y)
		d.FillText(writing(textSize, ink, text.XCenter, text.YTop), vg.Point{X: p.X, Y: a.Min.Y - 5}, t.Text)
	}
	for _, t := range d.p.Y.Ticks {
		p := d.at(d.p.X.Low, t.At)
		d.StrokeLine2(thin(grid), a.Min.X, p.Y, a.Max.X, p.Y)
		d.FillText(writing(textSize, ink, text.XRight, text.YCenter), vg.Point{X: a.Min.X - 6, Y: p.Y + lift}, t.Text)
	}
	d.StrokeLine2(thin(ink), a.Min.X, a.Min.Y, a.Max.X, a.Min.Y)
	d.StrokeLine2(thin(ink), a.Min.X, a.Min.Y, a.Min.X, a.Max.Y)
	dotted := draw.LineStyle{Color: alarm, Width: 0.9, Dashes: []vg.Length{2, 2}}
	for _, l := range d.p.Upright {
		p := d.at(l.Value, d.p.Y.Low)
		d.StrokeLine2(dotted, p.X, a.Min.Y, p.X, a.Max.Y)
		style := writing(noteSize, alarm, text.XLeft, text.YBottom)
		style.Rotation = math.Pi / 2
		d.FillText(style, vg.Point{X: p.X - 3, Y: a.Min.Y + 5}, l.Name)
	}
	for _, l := range d.p.Across {
		p := d.at(d.p.X.Low, l.Value)
		d.StrokeLine2(dotted, a.Min.X, p.Y, a.Max.X, p.Y)
		d.FillText(writing(noteSize, alarm, text.XLeft, text.YBottom), vg.Point{X: a.Min.X + 5, Y: p.Y + 2}, l.Name)
	}
	for i, l := range d.p.Lines {
		pts := make([]vg.Point, len(l.X))
		for k := range l.X {
			pts[k] = d.at(l.X[k], l.Y[k])
		}
		d.StrokeLines(lineStyle(i, l.Hot), pts)
	}
	for i, c := range d.p.Dots {
		style := lineStyle(i+1, false)
		var pts []vg.Point
		for k := range c.X {
			if d.p.X.holds(c.X[k]) && d.p.Y.holds(c.Y[k]) {
				pts = append(pts, d.at(c.X[k], c.Y[k]))
			}
		}
		d.StrokeLines(style, pts)
		for _, p := range pts {
			d.DrawGlyph(draw.GlyphStyle{Color: white, Radius: 4.4, Shape: draw.CircleGlyph{}}, p)
			d.DrawGlyph(draw.GlyphStyle{Color: style.Color, Radius: 3.4, Shape: draw.BoxGlyph{}}, p)
		}
	}
	for _, n := range d.p.Notes {
		style := writing(textSize, ink, text.XLeft, text.YCenter)
		p := d.at(n.X, n.Y)
		shift := vg.Point{X: 7, Y: lift}
		if n.Left {
			style.XAlign, shift.X = text.XRight, -7
		}
		if n.Below {
			shift.Y -= 11
		}
		d.FillText(style, p.Add(shift), n.Text)
	}
}
