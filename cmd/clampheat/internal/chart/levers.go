package chart

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"clampheat/scenarios/study"
)

// This file draws what single changes do, as bars to either side of no change.

// Bars is a picture of changes: each a bar from 0, with its name at the left
// and its figure at its end.
type Bars struct {
	Unit string // of all values
	List []Bar
	// Apart is how many bars stand above the gap between two groups.
	Apart int
}

// Bar is one change; a thin line reaches to Careless where that is one.
type Bar struct {
	Name            string
	Value, Careless float64
	Text            string // at its end
}

// mostBars of each list are drawn.
const mostBars = 9

// slightest, K, is the least change, likely or careless, that is worth a bar.
const slightest = 0.1

// Levers is the picture of the levers of a stack: what cools the hottest
// terminal above, what heats it below, of each kind the strongest.
func Levers(r *study.Levers) *Figure {
	s := scaleOf(r.Conditions)
	f := &Figure{
		Title: r.Title,
		Subtitle: fmt.Sprintf("%s, left on until settled. Hottest terminal %.0f %s: %s", conditions(drawn(r.Conditions), r.Conditions, s),
			s.of(r.Hottest.Temp), s.unit, r.Hottest.Place),
		Foot: "Each change alone, solved anew; they do not simply add up. The thin line reaches to careless assembly.",
	}
	factor, unit := 1.0, "K"
	if s.unit == "°F" {
		factor, unit = 1.8, "°F"
	}
	f.Bars = &Bars{Unit: unit}
	var ends []string
	for i, list := range [][]study.Lever{r.Cool, r.Hurt} {
		seen := map[string]bool{}
		count := 0
		for _, l := range list {
			if l.Ends != "" && !seen[l.Kind] {
				seen[l.Kind] = true
				ends = append(ends, l.Name)
			}
			reach := math.Abs(l.Change)
			if l.Careless != nil {
				reach = max(reach, math.Abs(*l.Careless))
			}
			if seen[l.Kind] || reach < slightest || count == mostBars {
				continue
			}
			seen[l.Kind], count = true, count+1
			b := Bar{Name: l.Name, Value: l.Change * factor, Careless: l.Change * factor,
				Text: fmt.Sprintf("%s %s, %.0f %s", tenths(l.Change*factor), unit, s.of(l.Temp), s.unit)}
			if l.Careless != nil {
				b.Careless = *l.Careless * factor
			}
			f.Bars.List = append(f.Bars.List, b)
		}
		if i == 0 {
			f.Bars.Apart = count
		}
	}
	if len(ends) > 0 {
		f.Foot = "No lasting state, and no bar: " + strings.Join(ends, "; ") + ". " + f.Foot
	}
	return f
}

// Distances of a picture of bars, in points.
const (
	barNames  = vg.Length(270) // room of the names
	barTexts  = vg.Length(92)  // room of the figures at either end
	barHeight = vg.Length(11)
	mostPitch = vg.Length(24) // from bar to bar
)

var (
	coolHue = hues[0]
	hotHue  = hues[1]
)

// writeBars draws the figure's bars.
func (f *Figure) writeBars(w io.Writer, format string) error {
	c, err := canvasFor(pageWidth, pageHeight, format)
	if err != nil {
		return err
	}
	p := &page{Canvas: draw.NewCanvas(c, pageWidth, pageHeight), f: f}
	p.SetColor(white)
	p.Fill(p.Rectangle.Path())
	p.area = vg.Rectangle{
		Min: vg.Point{X: edge + barNames, Y: edge + 14},
		Max: vg.Point{X: pageWidth - edge - barTexts, Y: pageHeight - edge - 44},
	}
	p.texts()
	p.bars()
	return write(w, c, format)
}

// bars draws them over one scale, which reaches to the longest either way.
func (p *page) bars() {
	b := p.f.Bars
	low, high := 0.0, 0.0
	for _, bar := range b.List {
		low, high = min(low, bar.Value, bar.Careless), max(high, bar.Value, bar.Careless)
	}
	if high-low == 0 {
		high = 1
	}
	left := p.area.Min.X + barTexts // figures of bars to the left stand left of them
	x := func(v float64) vg.Length {
		return left + vg.Length((v-low)/(high-low))*(p.area.Max.X-left)
	}
	pitch := min(mostPitch, (p.area.Max.Y-p.area.Min.Y)/vg.Length(len(b.List)+2))
	y := p.area.Max.Y - pitch/2
	for i, bar := range b.List {
		if i == b.Apart {
			y -= pitch
		}
		hue, end, align := coolHue, min(bar.Value, bar.Careless), text.XRight
		beside := vg.Length(-5)
		if bar.Value > 0 || bar.Value == 0 && bar.Careless > 0 {
			hue, end, align, beside = hotHue, max(bar.Value, bar.Careless), text.XLeft, 5
		}
		thick := min(barHeight, 0.6*pitch)
		p.FillPolygon(hue, []vg.Point{{X: x(0), Y: y - thick/2}, {X: x(bar.Value), Y: y - thick/2},
			{X: x(bar.Value), Y: y + thick/2}, {X: x(0), Y: y + thick/2}})
		if bar.Careless != bar.Value {
			p.StrokeLine2(draw.LineStyle{Color: ink, Width: 1}, x(bar.Value), y, x(bar.Careless), y)
			p.StrokeLine2(draw.LineStyle{Color: ink, Width: 1}, x(bar.Careless), y-3, x(bar.Careless), y+3)
		}
		p.FillText(writing(textSize, ink, align, text.YCenter), vg.Point{X: x(end) + beside, Y: y + lift}, bar.Text)
		style := writing(textSize, ink, text.XRight, text.YCenter)
		p.FillText(style, vg.Point{X: p.area.Min.X - 8, Y: y + lift}, fitted(style, bar.Name, barNames-12))
		y -= pitch
	}
	p.StrokeLine2(thin(ink), x(0), p.area.Max.Y+2, x(0), y+pitch/2)
}

// fitted cuts a text short with an ellipsis where it is wider than its room.
func fitted(style text.Style, s string, room vg.Length) string {
	r := []rune(s)
	for len(r) > 1 && style.Width(s) > room {
		r = r[:len(r)-1]
		s = strings.TrimRight(string(r), " ,:;") + "…"
	}
	return s
}

// tenths is a change with its sign, which next to nothing has not.
func tenths(v float64) string {
	if math.Abs(v) < 0.05 {
		return "0.0"
	}
	return fmt.Sprintf("%+.1f", v)
}
