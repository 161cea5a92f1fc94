package chart

import (
	"fmt"
	"image/color"
	"sort"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file places the names at the right of the curves: each beside the end
// of its curve, moved apart where they would touch, with a line that leads to
// it.

var white = color.NRGBA{0xff, 0xff, 0xff, 0xff}

// label is a name at the right.
type label struct {
	text  string
	value float64 // where its curve ends
	line  draw.LineStyle
	ink   color.Color // of the text; a series is told by its line
	hot   bool
	cloud int // index of its cloud; -1 for none
}

func labelStyle(l label) text.Style {
	s := writing(textSize, l.ink, text.XLeft, text.YCenter)
	if l.hot {
		s = strong(s)
	}
	return s
}

// labels are the names of curves, points and limits, the highest first. A
// figure with stops names its places there and has only its limits here.
func (f *Figure) labels() []label {
	var list []label
	if len(f.Stops) == 0 {
		for i, l := range f.Lines {
			if len(l.Y) == 0 {
				continue
			}
			end := l.Y[len(l.Y)-1]
			list = append(list, label{text: fmt.Sprintf("%s  %.0f %s", l.Name, end, f.YLabel), value: end, line: lineStyle(i, l.Hot), ink: ink, hot: l.Hot, cloud: -1})
		}
	}
	for i, c := range f.Clouds {
		if len(c.Y) > 0 {
			list = append(list, label{text: c.Name, value: c.Y[len(c.Y)-1], ink: ink, cloud: i})
		}
	}
	for _, l := range f.Levels {
		list = append(list, label{text: f.levelName(l), value: l.Value, line: draw.LineStyle{Color: alarm, Width: 0.9, Dashes: []vg.Length{2, 2}}, ink: alarm, cloud: -1})
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].value > list[b].value })
	return list
}

// levelName says a limit with its value, once.
func (f *Figure) levelName(l Level) string {
	value := fmt.Sprintf("%.0f %s", l.Value, f.YLabel)
	if strings.Contains(l.Name, value) {
		return l.Name
	}
	return value + "  " + l.Name
}

// apart moves wanted heights, highest first, apart by at least gap, each as
// little as the others allow, within low … high where there is room: touching
// neighbours move as one block about the mean of where they want to be.
func apart(wanted []vg.Length, gap, low, high vg.Length) []vg.Length {
	type block struct {
		sum   vg.Length // of the wanted heights of its first member
		count int
	}
	var blocks []block
	first := func(b block) vg.Length { return b.sum / vg.Length(b.count) }
	for _, w := range wanted {
		b := block{w, 1}
		for len(blocks) > 0 {
			above := blocks[len(blocks)-1]
			if first(above)-vg.Length(above.count)*gap >= first(b) {
				break
			}
			// Seen from the first of both, b's members stand lower by what is above.
			b = block{above.sum + b.sum + vg.Length(above.count)*gap*vg.Length(b.count), above.count + b.count}
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	out := make([]vg.Length, 0, len(wanted))
	for _, b := range blocks {
		for k := range b.count {
			out = append(out, first(b)-vg.Length(k)*gap)
		}
	}
	// Keep to the page: push down from the top, then up from the bottom.
	for i := range out {
		limit := high - vg.Length(i)*gap
		out[i] = min(out[i], limit)
	}
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = max(out[i], low+vg.Length(len(out)-1-i)*gap)
	}
	return out
}

// names draws the labels.
func (p *page) names() {
	wanted := make([]vg.Length, len(p.labels))
	for i, l := range p.labels {
		wanted[i] = p.y(l.value)
	}
	heights := apart(wanted, rowHeight, p.area.Min.Y, p.area.Max.Y)
	x := p.area.Max.X
	for i, l := range p.labels {
		from := vg.Point{X: x + 2, Y: wanted[i]}
		start := x + lead
		if l.cloud >= 0 {
			p.glyph(l.cloud, p.f.Clouds[l.cloud], vg.Point{X: start + sample/2, Y: heights[i]})
		} else {
			p.StrokeLines(thin(grey), []vg.Point{from, {X: start - 3, Y: heights[i]}})
			p.StrokeLine2(l.line, start, heights[i], start+sample, heights[i])
		}
		p.write(labelStyle(l), vg.Point{X: start + sample + 4, Y: heights[i] + lift}, l.text)
	}
}
