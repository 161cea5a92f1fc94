package chart

import (
	"fmt"
	"image/color"
	"slices"
	"sort"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file places the names at the right of the curves: each beside the end
// of its curve, moved apart where they would touch, with a line that leads to
// it. Curves that are told by their peaks stand in the order of these.

var white = color.NRGBA{0xff, 0xff, 0xff, 0xff}

// label is a name at the right.
type label struct {
	text  string
	lines []string // the text as it is broken
	value float64  // where it wants to stand
	end   float64  // where its curve ends
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
			told, figure := "", end
			if f.peaks {
				told, figure = "peak\u00a0", slices.Max(l.Y)
			}
			list = append(list, label{text: fmt.Sprintf("%s  %s%.0f\u00a0%s", l.Name, told, figure, f.YLabel), value: figure, end: end, line: lineStyle(i, l.Hot), ink: ink, hot: l.Hot, cloud: -1})
		}
	}
	for i, c := range f.Clouds {
		if len(c.Y) > 0 {
			list = append(list, label{text: c.Name, value: c.Y[len(c.Y)-1], end: c.Y[len(c.Y)-1], ink: ink, cloud: i})
		}
	}
	for _, l := range f.Levels {
		list = append(list, label{text: f.levelName(l), value: l.Value, end: l.Value, line: draw.LineStyle{Color: alarm, Width: 0.9, Dashes: []vg.Length{2, 2}}, ink: alarm, cloud: -1})
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

// apart moves wanted positions, highest first, apart so that each has its room,
// half of it on either side, each moved as little as the others allow, within
// low … high where that is wide enough: touching neighbours move as one block
// about the mean of where they want to be.
func apart(wanted, room []vg.Length, low, high vg.Length) []vg.Length {
	// Seen from the first, each stands lower by the room in between; with that
	// added, what is wanted is only never to rise.
	drop := make([]vg.Length, len(wanted))
	for i := 1; i < len(wanted); i++ {
		drop[i] = drop[i-1] + (room[i-1]+room[i])/2
	}
	type block struct {
		sum   vg.Length
		count int
	}
	mean := func(b block) vg.Length { return b.sum / vg.Length(b.count) }
	var blocks []block
	for i, w := range wanted {
		b := block{w + drop[i], 1}
		for len(blocks) > 0 && mean(blocks[len(blocks)-1]) < mean(b) {
			above := blocks[len(blocks)-1]
			b = block{above.sum + b.sum, above.count + b.count}
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	out := make([]vg.Length, 0, len(wanted))
	for _, b := range blocks {
		for range b.count {
			out = append(out, mean(b)-drop[len(out)])
		}
	}
	// Keep to the page: push down from the top, then up from the bottom.
	for i := range out {
		out[i] = min(out[i], high-drop[i])
	}
	for i := range out {
		out[i] = max(out[i], low+drop[len(drop)-1]-drop[i])
	}
	return out
}

// broken breaks a text into lines of a width; the last of mostLines is cut
// short where there would be more.
func broken(style text.Style, s string, wide vg.Length) []string {
	var lines []string
	line := ""
	for word := range strings.SplitSeq(s, " ") { // two blanks stay two
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && style.Width(longer) > wide {
			lines = append(lines, strings.TrimRight(line, " "))
			longer = word
		}
		line = longer
	}
	lines = append(lines, line)
	if len(lines) > mostLines {
		lines = append(lines[:mostLines-1], strings.Join(lines[mostLines-1:], " "))
	}
	for i := range lines {
		lines[i] = shortened(style, lines[i], wide)
	}
	return lines
}

// shortened cuts a text to a width, with an ellipsis where it is cut.
func shortened(style text.Style, s string, wide vg.Length) string {
	r := []rune(s)
	for len(r) > 1 && style.Width(s) > wide {
		r = r[:len(r)-1]
		s = strings.TrimRight(string(r), " ,;") + "…"
	}
	return s
}

// room is the height that a label takes.
func (l label) room() vg.Length { return rowHeight + vg.Length(len(l.lines)-1)*(textSize+1) }

// names draws the labels.
func (p *page) names() {
	wanted, room := make([]vg.Length, len(p.labels)), make([]vg.Length, len(p.labels))
	for i, l := range p.labels {
		wanted[i], room[i] = p.y(l.value), l.room()
	}
	heights := apart(wanted, room, p.area.Min.Y, p.area.Max.Y)
	x := p.area.Max.X
	for i, l := range p.labels {
		from := vg.Point{X: x + 2, Y: p.y(l.end)}
		start := x + lead
		if l.cloud >= 0 {
			p.glyph(l.cloud, p.f.Clouds[l.cloud], vg.Point{X: start + sample/2, Y: heights[i]})
		} else {
			p.StrokeLines(thin(grey), []vg.Point{from, {X: start - 3, Y: heights[i]}})
			if p.sample() > 0 {
				p.StrokeLine2(l.line, start, heights[i], start+p.sample(), heights[i])
			}
		}
		y := heights[i] + lift + vg.Length(len(l.lines)-1)*(textSize+1)/2
		for _, line := range l.lines {
			p.FillText(labelStyle(l), vg.Point{X: start + p.sample() + 4, Y: y}, line)
			y -= textSize + 1
		}
	}
}

// sample is the length of the piece of line before a name: none where only
// limits stand there, whose own lines lead to them.
func (p *page) sample() vg.Length {
	if len(p.f.Stops) > 0 {
		return 0
	}
	return sample
}
