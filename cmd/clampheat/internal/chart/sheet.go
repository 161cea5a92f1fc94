package chart

import (
	"image/color"
	"io"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file draws a sheet: panels side by side that share their horizontal
// axis, in type that can be read from the back of a room. It reads the same
// printed in black: curves differ by dashes and weight, regions by their words.

// Sheet is the data of panels side by side.
type Sheet struct {
	Title, Subtitle string
	XLabel          string
	XMax            float64
	// Beyond is where the region begins that is not to be used.
	Beyond float64
	Panels []Panel
	Marks  []Mark
	Foot   []string
}

// Panel is one of a sheet. Its lines have the styles of the indices in Styles,
// or are plain where that is empty.
type Panel struct {
	Head, YLabel string
	Unit         string
	Lines        []Line
	Styles       []int
	Spans        []Span
	Levels       []Level
	Log          bool // a vertical axis of powers of ten
	Whole        bool // from zero
	// Least is the least height of the axis, so that a flat curve looks flat.
	Least   float64
	Degrees bool // values to the degree, on a short axis to a tenth
	// Right names a second vertical axis, PerUnit of it to one of the first.
	Right   string
	PerUnit float64
	// Alarm is the torque below which a limit is passed, Enough the one past
	// which more is little use; 0 for none.
	Alarm, Enough float64
}

// Span is a bar from low to high at a place.
type Span struct {
	X, Low, High float64
	Heavy        bool
}

// Mark is a torque that is marked in every panel, with what stands under the
// axis and its value in each panel; NaN for none.
type Mark struct {
	Name  string
	X     float64
	Texts []string
	Y     []float64
	Bold  bool
}

// reach is the lowest and the highest value of a panel's lines and spans.
func (p *Panel) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, l := range p.Lines {
		for _, y := range l.Y {
			low, high = math.Min(low, y), math.Max(high, y)
		}
	}
	for _, s := range p.Spans {
		low, high = math.Min(low, math.Min(s.Low, s.High)), math.Max(high, math.Max(s.Low, s.High))
	}
	if low > high {
		return 0, 1
	}
	return low, high
}

// Sizes of a sheet, in points: the page is as wide to high as paper is.
const (
	sheetWidth  = 880 * vg.Length(1)
	sheetHeight = 622 * vg.Length(1)
	sheetTitle  = 19
	sheetHead   = 15.5
	sheetText   = 12.5
	sheetSmall  = 11
	sheetGap    = vg.Length(64) // between panels, for the numbers of their axes
	sheetLine   = vg.Length(16)
	markRoom    = vg.Length(54) // of the words of a mark
)

var beyond = color.NRGBA{0xe9, 0xe9, 0xe9, 0xff}

// write draws the sheet in a format.
func (sh *Sheet) write(w io.Writer, format string) error {
	c, err := canvasFor(sheetWidth, sheetHeight, format)
	if err != nil {
		return err
	}
	d := &sheetPage{Canvas: draw.NewCanvas(c, sheetWidth, sheetHeight), sh: sh}
	d.SetColor(white)
	d.Fill(d.Rectangle.Path())
	d.draw()
	return write(w, c, format)
}

// sheetPage is a sheet on its way to paper.
type sheetPage struct {
	draw.Canvas
	sh *Sheet
}

func (d *sheetPage) draw() {
	top := sheetHeight - 16
	d.line(sheetTitle, ink, vg.Point{X: 20, Y: top}, d.sh.Title)
	d.line(sheetText, grey, vg.Point{X: 20, Y: top - 27}, d.sh.Subtitle)
	foot := vg.Length(14)
	for i := len(d.sh.Foot) - 1; i >= 0; i-- {
		d.line(sheetSmall, ink, vg.Point{X: 20, Y: foot + sheetSmall}, d.sh.Foot[i])
		foot += sheetLine
	}
	n := vg.Length(len(d.sh.Panels))
	left, right := vg.Length(56), vg.Length(24)
	wide := (sheetWidth - left - right - (n-1)*sheetGap) / n
	for i := range d.sh.Panels {
		x := left + vg.Length(i)*(wide+sheetGap)
		f := frame{sheetPage: d, panel: &d.sh.Panels[i], index: i, area: vg.Rectangle{
			Min: vg.Point{X: x, Y: foot + 92}, Max: vg.Point{X: x + wide, Y: top - 110}}}
		f.draw()
	}
}

// line writes a line of text below a point, made smaller where it would leave
// the page.
func (d *sheetPage) line(size float64, c color.Color, at vg.Point, s string) {
	style := writing(size, c, text.XLeft, text.YTop)
	for size > 7 && at.X+style.Width(s) > sheetWidth-12 {
		size -= 0.5
		style = writing(size, c, text.XLeft, text.YTop)
	}
	d.FillText(style, at, s)
}
