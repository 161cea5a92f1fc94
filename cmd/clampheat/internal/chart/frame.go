package chart

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"clampheat/scenarios/quantity"
)

// This file draws one panel of a sheet.

// frame is one panel on its place.
type frame struct {
	*sheetPage
	panel    *Panel
	index    int
	area     vg.Rectangle
	low, top float64 // of the axis; logarithms where the panel is logarithmic
}

func (f *frame) scale(y float64) float64 {
	if f.panel.Log {
		return math.Log10(y)
	}
	return y
}

// span finds the ends of the vertical axis.
func (f *frame) span() {
	low, high := f.panel.reach()
	for _, l := range f.panel.Levels {
		low, high = math.Min(low, l.Value), math.Max(high, l.Value)
	}
	if f.panel.Log {
		f.low, f.top = math.Log10(low)-0.2, math.Log10(high)+0.35
		return
	}
	pad := 0.08 * (high - low)
	f.low, f.top = low-pad, high+2.5*pad
	if f.panel.Whole {
		f.low = 0
	}
	if short := f.panel.Least - (f.top - f.low); short > 0 {
		f.low, f.top = f.low-short/2, f.top+short/2
	}
	// A flat curve still needs an axis.
	if !(f.top > f.low) {
		f.low, f.top = f.low-1, f.top+1
	}
}

func (f *frame) x(x float64) vg.Length {
	return f.area.Min.X + vg.Length(x/f.sh.XMax)*(f.area.Max.X-f.area.Min.X)
}

func (f *frame) y(y float64) vg.Length {
	share := (f.scale(y) - f.low) / (f.top - f.low)
	return f.area.Min.Y + vg.Length(share)*(f.area.Max.Y-f.area.Min.Y)
}

func (f *frame) draw() {
	f.span()
	a := f.area
	heads := a.Max.Y + 44
	f.FillText(writing(sheetHead, ink, text.XLeft, text.YBottom), vg.Point{X: a.Min.X - 40, Y: heads}, fmt.Sprintf("%d  %s", f.index+1, f.panel.Head))
	f.FillText(writing(sheetSmall, grey, text.XLeft, text.YBottom), vg.Point{X: a.Min.X - 40, Y: heads - 17}, f.panel.YLabel)
	if f.panel.Right != "" {
		f.FillText(writing(sheetSmall, grey, text.XRight, text.YBottom), vg.Point{X: a.Max.X + 12, Y: heads - 17}, f.panel.Right)
	}
	f.regions()
	f.axis()
	for _, l := range f.panel.Levels {
		y := f.y(l.Value)
		f.StrokeLine2(draw.LineStyle{Color: alarm, Width: 1.2, Dashes: []vg.Length{2, 2}}, a.Min.X, y, a.Max.X, y)
		f.FillText(writing(sheetSmall, alarm, text.XLeft, text.YBottom), vg.Point{X: a.Min.X + 4, Y: y + 2}, l.Name)
	}
	f.marks()
	f.turns()
	for i, l := range f.panel.Lines {
		if len(l.X) > 1 {
			f.StrokeLines(f.style(i), f.points(l))
		}
	}
	f.spans()
	f.dots()
	if len(f.panel.Lines) > 1 && f.panel.Log {
		f.legend()
	}
}

func (f *frame) style(i int) draw.LineStyle {
	l := f.panel.Lines[i]
	s := draw.LineStyle{Color: ink}
	if i < len(f.panel.Styles) {
		s = lineStyle(f.panel.Styles[i], false)
	}
	s.Width = 1.7
	if l.Hot {
		s.Width = 3
	}
	return s
}

func (f *frame) points(l Line) []vg.Point {
	pts := make([]vg.Point, len(l.X))
	for i := range l.X {
		pts[i] = vg.Point{X: f.x(l.X[i]), Y: f.y(l.Y[i])}
	}
	return pts
}

// regions shade what is past the stated torque and, in its panel, what passes
// a limit.
func (f *frame) regions() {
	a := f.area
	if b := f.sh.Beyond; b < f.sh.XMax {
		x := f.x(b)
		f.FillPolygon(beyond, []vg.Point{{X: x, Y: a.Min.Y}, {X: x, Y: a.Max.Y}, {X: a.Max.X, Y: a.Max.Y}, {X: a.Max.X, Y: a.Min.Y}})
		style := writing(sheetText, grey, text.XCenter, text.YBottom)
		f.FillText(style, vg.Point{X: (x + a.Max.X) / 2, Y: a.Min.Y + 5}, "do not")
	}
}

// turns are the torques at which something changes.
func (f *frame) turns() {
	a := f.area
	if t := f.panel.Alarm; t > 0 {
		x := f.x(t)
		f.StrokeLine2(draw.LineStyle{Color: alarm, Width: 1.4}, x, a.Min.Y, x, a.Max.Y)
		f.upright(alarm, x, "limit passed below this")
	}
	if t := f.panel.Enough; t > 0 {
		x := f.x(t)
		f.StrokeLine2(draw.LineStyle{Color: grey, Width: 1, Dashes: []vg.Length{5, 3}}, x, a.Min.Y, x, a.Max.Y)
		f.upright(grey, x, "from here 10 % more gains under 1 K")
	}
}

// upright writes along a vertical line, down from the top, where falling
// curves leave room.
func (f *frame) upright(c color.Color, x vg.Length, s string) {
	style := writing(sheetSmall, c, text.XRight, text.YTop)
	style.Rotation = math.Pi / 2
	f.FillText(style, vg.Point{X: x + 2, Y: f.area.Max.Y - 4}, s)
}

// axis draws the vertical axis with its grid, and a second one at the right.
func (f *frame) axis() {
	a := f.area
	low, high := f.low, f.top
	if f.panel.Log {
		low, high = math.Pow(10, low), math.Pow(10, high)
	}
	for _, t := range f.ticks(low, high) {
		y := f.y(t)
		f.StrokeLine2(thin(grid), a.Min.X, y, a.Max.X, y)
		f.FillText(writing(sheetText, ink, text.XRight, text.YCenter), vg.Point{X: a.Min.X - 6, Y: y + lift}, number(t))
	}
	if f.panel.Right != "" {
		per := f.panel.PerUnit
		for _, t := range f.ticks(low*per, high*per) {
			y := f.y(t / per)
			f.StrokeLine2(thin(ink), a.Max.X-4, y, a.Max.X, y)
			f.FillText(writing(sheetText, ink, text.XLeft, text.YCenter), vg.Point{X: a.Max.X + 5, Y: y + lift}, number(t))
		}
		f.StrokeLine2(thin(ink), a.Max.X, a.Min.Y, a.Max.X, a.Max.Y)
	}
	f.StrokeLine2(thin(ink), a.Min.X, a.Min.Y, a.Max.X, a.Min.Y)
	f.StrokeLine2(thin(ink), a.Min.X, a.Min.Y, a.Min.X, a.Max.Y)
	f.FillText(writing(sheetSmall, grey, text.XRight, text.YTop), vg.Point{X: a.Max.X, Y: a.Min.Y - 66}, f.sh.XLabel)
}

// ticks are the numbers of an axis; 1, 2 and 5 of each power of ten on a
// logarithmic one.
func (f *frame) ticks(low, high float64) []float64 {
	if !f.panel.Log {
		return ticks(low, high)
	}
	var list []float64
	for power := math.Pow(10, math.Floor(math.Log10(low))); power <= high; power *= 10 {
		for _, m := range []float64{1, 2, 5} {
			if t := m * power; t >= low && t <= high {
				list = append(list, t)
			}
		}
	}
	return list
}

// marks draws the marked torques through the panel and what stands under them.
func (f *frame) marks() {
	a := f.area
	for k, m := range f.sh.Marks {
		x := f.x(m.X)
		line := draw.LineStyle{Color: grey, Width: 0.8, Dashes: []vg.Length{1, 2}}
		size := float64(sheetSmall)
		if m.Bold {
			line = draw.LineStyle{Color: ink, Width: 1.1}
			size++
		}
		f.StrokeLine2(line, x, a.Min.Y-4, x, a.Max.Y)
		if k+1 < len(f.sh.Marks) && f.x(f.sh.Marks[k+1].X)-x < markRoom {
			continue // the next one's words need the room
		}
		f.FillText(writing(size, ink, text.XCenter, text.YBottom), vg.Point{X: x, Y: a.Max.Y + 4}, m.Name)
		for i, t := range m.Texts {
			c := color.Color(ink)
			if i > 0 {
				c = grey
			}
			f.FillText(writing(sheetSmall, c, text.XCenter, text.YTop), vg.Point{X: x, Y: a.Min.Y - 7 - vg.Length(i)*14}, t)
		}
		if v := m.Y[f.index]; !math.IsNaN(v) {
			f.FillText(writing(sheetText+1, ink, text.XCenter, text.YTop), vg.Point{X: x, Y: a.Min.Y - 38}, f.value(v))
		}
	}
}

// value is a number of the panel with its unit.
func (f *frame) value(v float64) string {
	if f.panel.Degrees {
		if f.top-f.low < 20 {
			return fmt.Sprintf("%.1f %s", v, f.panel.Unit)
		}
		return fmt.Sprintf("%.0f %s", v, f.panel.Unit)
	}
	return quantity.Number(v, 2) + " " + f.panel.Unit
}

// spans are bars with ends, the light ones with wider ends so that they show
// behind the heavy ones.
func (f *frame) spans() {
	for _, s := range f.panel.Spans {
		style, half := draw.LineStyle{Color: ink, Width: 1}, vg.Length(6)
		if s.Heavy {
			style, half = draw.LineStyle{Color: ink, Width: 3}, 3.5
		}
		x, low, high := f.x(s.X), f.y(s.Low), f.y(s.High)
		f.StrokeLine2(style, x, low, x, high)
		style.Width = 1
		f.StrokeLine2(style, x-half, low, x+half, low)
		f.StrokeLine2(style, x-half, high, x+half, high)
	}
}

func (f *frame) dots() {
	for _, m := range f.sh.Marks {
		if v := m.Y[f.index]; !math.IsNaN(v) {
			at := vg.Point{X: f.x(m.X), Y: f.y(v)}
			f.DrawGlyph(draw.GlyphStyle{Color: white, Radius: 5, Shape: draw.CircleGlyph{}}, at)
			f.DrawGlyph(draw.GlyphStyle{Color: ink, Radius: 3.8, Shape: draw.CircleGlyph{}}, at)
		}
	}
}

// legend names the curves in the upper right, where falling curves leave room,
// the highest first.
func (f *frame) legend() {
	a := f.area
	widest := vg.Length(0)
	style := writing(sheetText, ink, text.XLeft, text.YCenter)
	for _, l := range f.panel.Lines {
		widest = max(widest, style.Width("faces "+l.Name))
	}
	x, y := a.Max.X-widest-8, a.Max.Y-24
	box := vg.Rectangle{Min: vg.Point{X: x - 42, Y: y - vg.Length(len(f.panel.Lines)-1)*sheetLine - 11}, Max: vg.Point{X: a.Max.X - 3, Y: y + 10}}
	f.SetColor(white)
	f.Fill(box.Path())
	for i := len(f.panel.Lines) - 1; i >= 0; i-- {
		f.StrokeLine2(f.style(i), x-36, y, x-5, y)
		f.FillText(style, vg.Point{X: x, Y: y + lift}, "faces "+f.panel.Lines[i].Name)
		y -= sheetLine
	}
}
