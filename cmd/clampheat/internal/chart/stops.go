package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// This file names the places along the path, under the axis: slanted, each
// beside its place, moved along the axis where neighbours would touch, with a
// line that leads to it. Where even that leaves no room, the coolest go
// without a name and the foot counts them.

const (
	// slant of the names: steep enough that neighbours do not need much of the
	// axis, flat enough to be read.
	slant = 35 * math.Pi / 180
	// stopRoom is what a name takes of the axis: the height of its letters with
	// some air, along the axis.
	stopRoom = vg.Length(21)
	// leader is the height in which lines lead from the places to their names.
	leader = vg.Length(14)
)

// stopName is a place with where its name ends.
type stopName struct {
	Stop
	at vg.Length
}

func stopStyle(s Stop) text.Style {
	style := writing(textSize, ink, text.XRight, text.YCenter)
	if s.Hot {
		style = strong(style)
	}
	style.Rotation = slant
	return style
}

// reach is how far a name reaches to the left of its end, and below it.
func (s Stop) reach() (left, below vg.Length) {
	style := stopStyle(s)
	style.Rotation = 0
	width := style.Width(s.Name)
	return width * vg.Length(math.Cos(slant)), width * vg.Length(math.Sin(slant))
}

// placeStops finds where the names go, and the room that they need at the left
// of the picture and under it.
func (p *page) placeStops() {
	most := int((p.area.Max.X - p.area.Min.X) / stopRoom)
	shown := hottestStops(p.f.Stops, most)
	if left := len(p.f.Stops) - len(shown); left > 0 {
		p.foot = strings.TrimSpace(p.foot + fmt.Sprintf(" %d cooler places are drawn without their names.", left))
	}
	// A wider margin moves the places, and so the names: again until it is
	// enough, which two or three rounds are.
	for range 10 {
		p.spread(shown)
		short := vg.Length(0)
		for _, n := range p.named {
			left, _ := n.reach()
			short = max(short, left+edge/2-n.at)
		}
		if short <= 0 {
			break
		}
		p.area.Min.X += short
	}
	below := vg.Length(0)
	for _, n := range p.named {
		_, down := n.reach()
		below = max(below, down)
	}
	p.area.Min.Y = edge/2 + 8 + leader + below
}

// spread places names beside their places and apart from each other.
func (p *page) spread(shown []Stop) {
	wanted, room := make([]vg.Length, len(shown)), slices.Repeat([]vg.Length{stopRoom}, len(shown))
	for i, s := range shown {
		wanted[len(shown)-1-i] = p.x(s.X)
	}
	at := apart(wanted, room, 0, p.area.Max.X+lead)
	p.named = p.named[:0]
	for i, s := range shown {
		p.named = append(p.named, stopName{s, at[len(shown)-1-i]})
	}
}

// hottestStops are at most so many stops, in their order.
func hottestStops(stops []Stop, most int) []Stop {
	if len(stops) <= most {
		return stops
	}
	order := make([]int, len(stops))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case stops[a].Y > stops[b].Y:
			return -1
		case stops[a].Y < stops[b].Y:
			return 1
		}
		return 0
	})
	order = order[:max(most, 0)]
	slices.Sort(order)
	list := make([]Stop, len(order))
	for i, k := range order {
		list[i] = stops[k]
	}
	return list
}

// stops draws the places on the curve and their names.
func (p *page) stops() {
	foot := p.area.Min.Y
	for _, s := range p.f.Stops {
		at := vg.Point{X: p.x(s.X), Y: p.y(s.Y)}
		p.StrokeLine2(thin(grey), at.X, foot, at.X, at.Y)
		radius := vg.Length(2.4)
		if s.Hot {
			radius = 4
		}
		p.DrawGlyph(draw.GlyphStyle{Color: white, Radius: radius + 1, Shape: draw.CircleGlyph{}}, at)
		p.DrawGlyph(draw.GlyphStyle{Color: hues[0], Radius: radius, Shape: draw.CircleGlyph{}}, at)
	}
	for _, n := range p.named {
		x := p.x(n.X)
		p.StrokeLines(thin(grey), []vg.Point{{X: x, Y: foot}, {X: x, Y: foot - 4}, {X: n.at, Y: foot - leader + 2}})
		p.FillText(stopStyle(n.Stop), vg.Point{X: n.at, Y: foot - leader - 2}, n.Name)
	}
}
