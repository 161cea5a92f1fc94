package chart

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// This file writes PDF. The canvas of gonum/plot writes the bytes of a text in
// a code page of 256 letters, which turns "°C" into two wrong letters and has
// no "Ω" at all; this one embeds the font with the letters that are used.

// pdfCanvas is a vg.Canvas. Both it and the page have their origin at the lower
// left and count in points; only fpdf counts from the top. The colours of the
// charts are opaque, so alpha is not looked at.
type pdfCanvas struct {
	doc   *fpdf.Fpdf
	w, h  vg.Length
	width []vg.Length // of lines, one a level of Push
	known map[string]bool
	err   error
}

func newPDF(w, h vg.Length) *pdfCanvas {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: w.Points(), Ht: h.Points()}})
	// The same figure makes the same file.
	doc.SetCatalogSort(true)
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.AddPage()
	c := &pdfCanvas{doc: doc, w: w, h: h, width: make([]vg.Length, 1), known: map[string]bool{}}
	vg.Initialize(c)
	return c
}

func (c *pdfCanvas) Size() (w, h vg.Length) { return c.w, c.h }

// down is a height as fpdf counts it.
func (c *pdfCanvas) down(y vg.Length) float64 { return (c.h - y).Points() }

func (c *pdfCanvas) SetLineWidth(w vg.Length) {
	c.width[len(c.width)-1] = w
	c.doc.SetLineWidth(w.Points())
}

func (c *pdfCanvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	lengths := make([]float64, len(pattern))
	for i, l := range pattern {
		lengths[i] = l.Points()
	}
	c.doc.SetDashPattern(lengths, offset.Points())
}

func (c *pdfCanvas) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	r, g, b, _ := clr.RGBA()
	const byteOf = 8 // RGBA has 16 bits
	red, green, blue := int(r>>byteOf), int(g>>byteOf), int(b>>byteOf)
	c.doc.SetDrawColor(red, green, blue)
	c.doc.SetFillColor(red, green, blue)
	c.doc.SetTextColor(red, green, blue)
}

func (c *pdfCanvas) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	c.doc.Transform(fpdf.TransformMatrix{A: cos, B: sin, C: -sin, D: cos})
}

func (c *pdfCanvas) Translate(pt vg.Point) {
	c.doc.Transform(fpdf.TransformMatrix{A: 1, D: 1, E: pt.X.Points(), F: pt.Y.Points()})
}

func (c *pdfCanvas) Scale(x, y float64) { c.doc.Transform(fpdf.TransformMatrix{A: x, D: y}) }

func (c *pdfCanvas) Push() {
	c.width = append(c.width, c.width[len(c.width)-1])
	c.doc.TransformBegin()
}

func (c *pdfCanvas) Pop() {
	c.width = c.width[:len(c.width)-1]
	c.doc.TransformEnd()
}

func (c *pdfCanvas) Stroke(p vg.Path) {
	if c.width[len(c.width)-1] > 0 {
		c.trace(p)
		c.doc.DrawPath("D")
	}
}

func (c *pdfCanvas) Fill(p vg.Path) {
	c.trace(p)
	c.doc.DrawPath("F")
}

func (c *pdfCanvas) trace(p vg.Path) {
	begun := false
	to := func(pt vg.Point) {
		if begun {
			c.doc.LineTo(pt.X.Points(), c.down(pt.Y))
		} else {
			c.doc.MoveTo(pt.X.Points(), c.down(pt.Y))
		}
		begun = true
	}
	curve := func(a, b, end vg.Point) {
		c.doc.CurveBezierCubicTo(a.X.Points(), c.down(a.Y), b.X.Points(), c.down(b.Y), end.X.Points(), c.down(end.Y))
	}
	var at vg.Point
	for _, part := range p {
		switch part.Type {
		case vg.MoveComp:
			begun = false
			to(part.Pos)
			at = part.Pos
		case vg.LineComp:
			to(part.Pos)
			at = part.Pos
		case vg.ArcComp:
			at = arc(part, to, curve)
		case vg.CurveComp:
			control := part.Control
			if len(control) == 1 { // quadratic: the cubic of the same shape
				third := func(from vg.Point) vg.Point { return from.Add(control[0].Sub(from).Scale(2.0 / 3)) }
				control = []vg.Point{third(at), third(part.Pos)}
			}
			curve(control[0], control[1], part.Pos)
			at = part.Pos
		case vg.CloseComp:
			c.doc.ClosePath()
		}
	}
}

// arc draws an arc as curves of at most a quarter turn each, and returns its
// end. A cubic whose arms are 4/3·tan(a/4) of the radius is off the arc by less
// than 3·10⁻⁴ of it (Goldapp 1991, "Approximation of circular arcs by cubic
// polynomials"; from memory).
func arc(part vg.PathComp, to func(vg.Point), curve func(a, b, end vg.Point)) vg.Point {
	on := func(angle float64) (at, along vg.Point) {
		sin, cos := math.Sincos(angle)
		r := part.Radius
		return part.Pos.Add(vg.Point{X: r * vg.Length(cos), Y: r * vg.Length(sin)}), vg.Point{X: -r * vg.Length(sin), Y: r * vg.Length(cos)}
	}
	n := max(1, int(math.Ceil(math.Abs(part.Angle)/(math.Pi/2)-1e-9)))
	step := part.Angle / float64(n)
	arm := vg.Length(4.0 / 3 * math.Tan(step/4))
	at, along := on(part.Start)
	to(at)
	for i := range n {
		end, next := on(part.Start + step*float64(i+1))
		curve(at.Add(along.Scale(arm)), end.Sub(next.Scale(arm)), end)
		at, along = end, next
	}
	return at
}

func (c *pdfCanvas) FillString(f font.Face, pt vg.Point, s string) {
	if f.Font.Size == 0 || s == "" {
		return
	}
	name := f.Name()
	if !c.known[name] {
		var data bytes.Buffer
		if _, err := f.Face.WriteSourceTo(nil, &data); err != nil {
			c.err = fmt.Errorf("the font %s cannot be embedded: %w", name, err)
			return
		}
		c.doc.AddUTF8FontFromBytes(name, "", data.Bytes())
		c.known[name] = true
	}
	c.doc.SetFont(name, "", f.Font.Size.Points())
	c.doc.Text(pt.X.Points(), c.down(pt.Y), s)
}

// DrawImage is of no use to a chart.
func (c *pdfCanvas) DrawImage(vg.Rectangle, image.Image) {
	c.err = fmt.Errorf("a chart holds no images")
}

func (c *pdfCanvas) WriteTo(w io.Writer) (int64, error) {
	if c.err != nil {
		return 0, c.err
	}
	var b bytes.Buffer
	if err := c.doc.Output(&b); err != nil {
		return 0, fmt.Errorf("the PDF cannot be made: %w", err)
	}
	return b.WriteTo(w)
}

var _ vg.CanvasWriterTo = (*pdfCanvas)(nil)
