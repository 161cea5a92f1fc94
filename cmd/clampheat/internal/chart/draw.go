package chart

import (
	"bytes"
	"io"
	"math"
	"strconv"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Formats lists what Write can write.
func Formats() []string { return []string{"png", "svg", "pdf"} }

// Write draws the picture in a format of Formats.
func (f *Figure) Write(w io.Writer, format string) error {
	if f.Sheet != nil {
		return f.Sheet.write(w, format)
	}
	if f.Pair != nil {
		return f.Pair.write(w, format)
	}
	if f.Bars != nil {
		return f.writeBars(w, format)
	}
	if f.Below != nil {
		return f.writeOver(w, format)
	}
	c, err := canvasFor(pageWidth, pageHeight, format)
	if err != nil {
		return err
	}
	p := &page{Canvas: draw.NewCanvas(c, pageWidth, pageHeight), f: f}
	p.SetColor(white)
	p.Fill(p.Rectangle.Path())
	p.layout()
	p.draw()
	return write(w, c, format)
}

// write writes a canvas. An SVG names its font without carrying it, so it also
// names fonts of the same widths that other systems have.
func write(w io.Writer, c io.WriterTo, format string) error {
	if format != "svg" {
		_, err := c.WriteTo(w)
		return err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return err
	}
	_, err := w.Write(bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")))
	return err
}

// page is a figure on its way to paper.
type page struct {
	draw.Canvas
	f      *Figure
	area   vg.Rectangle // where the data are drawn
	labels []label      // at the right of it
	named  []stopName   // under it
	foot   string
	// footLines is the foot as it is broken.
	footLines []string
	xTicks    []float64
	yTicks    []float64
	xMax      float64
	yMin      float64
	yMax      float64
}

// layout finds the ranges of the axes and the room of the texts around them.
func (p *page) layout() {
	top, bottom := p.f.span()
	for _, l := range p.f.Levels {
		top = max(top, l.Value)
	}
	// Some air above and below, and never an axis without height.
	pad := max(0.05*(top-bottom), 1)
	p.yMin, p.yMax = math.Floor(bottom-pad), math.Ceil(top+pad)
	for _, l := range p.f.Lines {
		for _, x := range l.X {
			p.xMax = max(p.xMax, x)
		}
	}
	if p.xMax == 0 {
		p.xMax = 1
	}
	p.labels = p.f.labels()
	wide := vg.Length(widestName)
	if len(p.f.Stops) > 0 {
		wide = widestLimit
	}
	widest := vg.Length(0)
	for i, l := range p.labels {
		style := labelStyle(l)
		p.labels[i].lines = broken(style, l.text, wide)
		for _, line := range p.labels[i].lines {
			widest = max(widest, style.Width(line))
		}
	}
	right := edge + lead + p.sample() + 4 + widest
	if len(p.labels) == 0 {
		right = edge
	}
	p.area = vg.Rectangle{
		Min: vg.Point{X: edge + 34, Y: edge + 30},
		Max: vg.Point{X: pageWidth - right, Y: pageHeight - edge - 56},
	}
	if p.f.Above != nil {
		p.area.Max.Y -= stripHeight + stripGap
	}
	p.foot = p.f.Foot
	if len(p.f.Stops) > 0 {
		p.placeStops()
	}
	if p.foot != "" {
		p.footLines = broken(footStyle, p.foot, pageWidth-2*edge)
		p.area.Min.Y += vg.Length(len(p.footLines)) * footHeight
	}
	p.yTicks = ticks(p.yMin, p.yMax)
	p.xTicks = ticks(0, p.xMax)
}

func (p *page) x(x float64) vg.Length {
	return p.area.Min.X + vg.Length(x/p.xMax)*(p.area.Max.X-p.area.Min.X)
}

func (p *page) y(y float64) vg.Length {
	return p.area.Min.Y + vg.Length((y-p.yMin)/(p.yMax-p.yMin))*(p.area.Max.Y-p.area.Min.Y)
}

func (p *page) draw() {
	p.texts()
	p.axes()
	p.strip()
	p.band()
	p.levels()
	for i, l := range p.f.Lines {
		style := lineStyle(i, l.Hot)
		if len(p.f.Stops) > 0 {
			style = lineStyle(0, false)
		}
		p.StrokeLines(style, p.points(l.X, l.Y))
	}
	for i, c := range p.f.Clouds {
		for _, pt := range p.points(c.X, c.Y) {
			p.glyph(i, c, pt)
		}
	}
	p.beside()
	p.stops()
	p.names()
}

// beside draws the curves for comparison, and their names in a row over the
// picture.
func (p *page) beside() {
	x := p.area.Min.X + 8
	y := p.area.Max.Y + 12
	style := writing(textSize, ink, text.XLeft, text.YCenter)
	for i, l := range p.f.Beside {
		line := lineStyle(i+1, false)
		line.Width = 1
		p.StrokeLines(line, p.points(l.X, l.Y))
		if x+sample+4+style.Width(l.Name) > p.area.Max.X {
			continue // the foot counts them
		}
		p.StrokeLine2(line, x, y, x+sample, y)
		p.FillText(style, vg.Point{X: x + sample + 4, Y: y + lift}, l.Name)
		x += sample + 4 + style.Width(l.Name) + 14
	}
}

func (p *page) points(x, y []float64) []vg.Point {
	pts := make([]vg.Point, len(x))
	for i := range x {
		pts[i] = vg.Point{X: p.x(x[i]), Y: p.y(y[i])}
	}
	return pts
}

// texts are what stands around the picture.
func (p *page) texts() {
	head := pageHeight - edge
	p.write(writing(titleSize, ink, text.XLeft, text.YTop), vg.Point{X: edge, Y: head}, p.f.Title)
	p.write(writing(textSize, grey, text.XLeft, text.YTop), vg.Point{X: edge, Y: head - 19}, p.f.Subtitle)
	p.FillText(writing(textSize, grey, text.XRight, text.YCenter), vg.Point{X: p.area.Min.X - 6, Y: p.area.Max.Y + 12}, p.f.YLabel)
	for i, line := range p.footLines {
		up := vg.Length(len(p.footLines)-1-i) * footHeight
		p.FillText(footStyle, vg.Point{X: edge, Y: edge - 5 + up}, line)
	}
	if p.f.XLabel != "" {
		p.FillText(writing(textSize, grey, text.XRight, text.YTop), vg.Point{X: p.area.Max.X, Y: p.area.Min.Y - 18}, p.f.XLabel)
	}
}

// footStyle and footHeight are of the remark under the picture.
var footStyle = writing(noteSize, grey, text.XLeft, text.YBottom)

const footHeight = vg.Length(10.5)

// write writes a text that begins at a point, cut short with an ellipsis where
// it would leave the page.
func (p *page) write(style text.Style, at vg.Point, s string) {
	p.FillText(style, at, shortened(style, s, pageWidth-edge/2-at.X))
}

// axes are light lines with numbers; the curves are what should be seen.
func (p *page) axes() {
	for _, t := range p.yTicks {
		y := p.y(t)
		p.StrokeLine2(thin(grid), p.area.Min.X, y, p.area.Max.X, y)
		p.FillText(writing(textSize, ink, text.XRight, text.YCenter), vg.Point{X: p.area.Min.X - 6, Y: y + lift}, number(t))
	}
	p.StrokeLine2(thin(ink), p.area.Min.X, p.area.Min.Y, p.area.Max.X, p.area.Min.Y)
	if !p.f.ticks {
		return
	}
	for _, t := range p.xTicks {
		x := p.x(t)
		p.StrokeLine2(thin(ink), x, p.area.Min.Y, x, p.area.Min.Y-4)
		p.FillText(writing(textSize, ink, text.XCenter, text.YTop), vg.Point{X: x, Y: p.area.Min.Y - 6}, number(t))
	}
}

func (p *page) band() {
	b := p.f.Band
	if b == nil || len(b.X) == 0 {
		return
	}
	outline := p.points(b.X, b.High)
	low := p.points(b.X, b.Low)
	for i := len(low) - 1; i >= 0; i-- {
		outline = append(outline, low[i])
	}
	p.FillPolygon(band, outline)
}

func (p *page) levels() {
	for _, l := range p.f.Levels {
		style := draw.LineStyle{Color: alarm, Width: 0.9, Dashes: []vg.Length{2, 2}}
		p.StrokeLine2(style, p.area.Min.X, p.y(l.Value), p.area.Max.X, p.y(l.Value))
	}
}

func (p *page) glyph(i int, c Cloud, at vg.Point) {
	// A white rim lifts the point off the curve under it.
	p.DrawGlyph(draw.GlyphStyle{Color: white, Radius: 3.4, Shape: draw.CircleGlyph{}}, at)
	p.DrawGlyph(draw.GlyphStyle{Color: hues[c.Of%len(hues)], Radius: 2.6, Shape: glyphs[i%len(glyphs)]}, at)
}

// number writes a number of an axis.
func number(v float64) string { return strconv.FormatFloat(v+0, 'g', 6, 64) }

// ticks are the round numbers of an axis: steps of 1, 2 or 5 of a power of
// ten, so that about six are shown.
func ticks(low, high float64) []float64 {
	const about = 6
	rough := (high - low) / about
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	step := 10 * power
	for _, m := range []float64{1, 2, 5} {
		if m*power >= rough {
			step = m * power
			break
		}
	}
	var list []float64
	for k := math.Ceil(low / step); k*step <= high*(1+1e-12); k++ {
		list = append(list, k*step)
	}
	return list
}
