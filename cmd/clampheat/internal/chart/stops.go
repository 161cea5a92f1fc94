package chart

import (
	"cmp"
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

// stopName is a place with where its name ends, and how far the name reaches
// to the left of its end and below it.
type stopName struct {
	Stop
	at, left, below vg.Length
}

func named(s Stop) stopName {
	style := stopStyle(s)
	style.Rotation = 0
	width := style.Width(s.Name)
	return stopName{Stop: s, left: width * vg.Length(math.Cos(slant)), below: width * vg.Length(math.Sin(slant))}
}

func stopStyle(s Stop) text.Style {
	style := writing(textSize, ink, text.XRight, text.YCenter)
	if s.Hot {
		style = strong(style)
	}
	style.Rotation = slant
	return style
}

// placeStops finds where the names go, and the room that they need at the left
// of the picture and under it.
func (p *page) placeStops() {
	all := make([]stopName, len(p.f.Stops))
	for i, s := range p.f.Stops {
		all[i] = named(s)
	}
	least := p.area.Min.X
	for most := min(len(all), int((p.area.Max.X-least)/stopRoom)); ; most-- {
		p.area.Min.X = least
		p.named = hottestStops(all, most)
		if p.spread() || most <= 1 {
			break
		}
	}
	if left := len(all) - len(p.named); left > 0 {
		if p.foot != "" {
			p.foot = strings.TrimSuffix(p.foot, ".") + ". "
		}
		p.foot += fmt.Sprintf("%d cooler places are drawn without their names.", left)
	}
	below := vg.Length(0)
	for _, n := range p.named {
		below = max(below, n.below)
	}
	p.area.Min.Y = edge/2 + 8 + leader + below
}

// spread places the names beside their places and apart from each other, and
// says whether all are on the page. A name that would leave it at the left
// pushes the picture to the right, which moves the places and so the names:
// again until that is enough, which a few rounds are.
func (p *page) spread() bool {
	last := len(p.named) - 1
	wanted, room := make([]vg.Length, last+1), slices.Repeat([]vg.Length{stopRoom}, last+1)
	for range 20 {
		for i, n := range p.named {
			wanted[last-i] = p.x(n.X)
		}
		at := apart(wanted, room, 0, p.area.Max.X+lead)
		short := vg.Length(0)
		for i := range p.named {
			n := &p.named[i]
			n.at = at[last-i]
			short = max(short, n.left+edge/2-n.at)
		}
		if short <= 0 {
			return true
		}
		p.area.Min.X += short
	}
	return false
}

// hottestStops are at most so many stops, in their order.
func hottestStops(stops []stopName, most int) []stopName {
	order := make([]int, len(stops))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(stops[b].Y, stops[a].Y) })
	order = order[:min(max(most, 0), len(order))]
	slices.Sort(order)
	list := make([]stopName, len(order))
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
