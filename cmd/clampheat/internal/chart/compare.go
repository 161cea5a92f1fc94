package chart

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"clampheat/scenarios/study"
)

// mostCauses is how many bars a comparison may have.
const mostCauses = 24

// Compare is the picture of a comparison: the hottest terminal of each stack
// over time, from cold, and below it the causes by which the stacks differ
// from the first.
func Compare(r *study.Compare) *Figure {
	first := r.Columns[0].Conditions
	s := scaleOf(first)
	unit, seconds := clock(r.Times[len(r.Times)-1])
	f := &Figure{
		Title: "Hottest terminal from cold: " + labels(r.Columns), XLabel: "time, " + unit, YLabel: s.unit, ticks: true,
		Subtitle: conditions(drawn(first), first, s) + ", left on",
	}
	x := make([]float64, len(r.Times))
	for i, t := range r.Times {
		x[i] = t / seconds
	}
	var margins []study.Margin
	for _, c := range r.Columns {
		if len(c.Soak) == 0 {
			continue
		}
		y := make([]float64, len(c.Soak))
		for i, t := range c.Soak {
			y[i] = s.of(t)
		}
		name := c.Label
		if drawn(c.Conditions) != drawn(first) || c.Air != first.Air {
			name += fmt.Sprintf(" (%s)", conditions(drawn(c.Conditions), c.Conditions, s))
		}
		f.Lines = append(f.Lines, Line{Name: name, X: x, Y: y, Hot: r.Verdict != nil && c.Label == r.Verdict.Coolest})
		if c.Tightest != nil {
			margins = append(margins, *c.Tightest)
		}
	}
	f.limits(margins, s)
	f.Below = causes(r, s)
	return f
}

// mostNamed is how many stacks a title names; more are counted.
const mostNamed = 3

func labels(columns []study.Column) string {
	if len(columns) > mostNamed {
		return fmt.Sprintf("%d stacks", len(columns))
	}
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.Label
	}
	return strings.Join(names, ", ")
}

// causes are the bars of a comparison, nil where there is nothing to show. Of
// several stacks each bar names its own.
func causes(r *study.Compare, s scale) *Figure {
	factor, unit := 1.0, "K"
	if s.unit == "°F" {
		factor, unit = 1.8, "°F"
	}
	bars := &Bars{Unit: unit}
	for _, a := range r.Against {
		for _, c := range a.Why.Causes {
			if math.Abs(c.Worth) < slightest || len(bars.List) == mostCauses {
				continue
			}
			name := c.Name
			if len(r.Against) > 1 {
				name = a.Second + ": " + c.Name
			}
			v := c.Worth * factor
			bars.List = append(bars.List, Bar{Name: name, Value: v, Careless: v, Text: fmt.Sprintf("%+.1f %s", v, unit)})
		}
	}
	if len(bars.List) == 0 {
		return nil
	}
	bars.Apart = len(bars.List)
	title := "Why it differs from " + r.Against[0].First
	if len(r.Against) == 1 {
		a := r.Against[0]
		than := "cooler"
		if a.Why.Total > 0 {
			than = "hotter"
		}
		title = fmt.Sprintf("Why %s is %.1f %s %s than %s", a.Second, math.Abs(a.Why.Total)*factor, unit, than, a.First)
	}
	return &Figure{Title: title, Bars: bars,
		Subtitle: "What each group of figures adds to the hottest terminal, settled; slighter ones are left out."}
}

// writeOver draws the curves and the figure of bars below them.
func (f *Figure) writeOver(w io.Writer, format string) error {
	below := min(pageHeight, edge+44+mostPitch*vg.Length(len(f.Below.Bars.List)+2))
	c, err := canvasFor(pageWidth, pageHeight+below, format)
	if err != nil {
		return err
	}
	all := draw.NewCanvas(c, pageWidth, pageHeight+below)
	all.SetColor(white)
	all.Fill(all.Rectangle.Path())
	at := func(f *Figure, up vg.Length, draw func(*page)) {
		all.Push()
		all.Translate(vg.Point{Y: up})
		draw(&page{Canvas: all, f: f})
		all.Pop()
	}
	at(f, below, func(p *page) { p.layout(); p.draw() })
	at(f.Below, below-pageHeight, func(p *page) {
		p.area = vg.Rectangle{
			Min: vg.Point{X: edge + barNames, Y: pageHeight - below + edge},
			Max: vg.Point{X: pageWidth - edge - barTexts, Y: pageHeight - edge - 44},
		}
		p.texts()
		p.bars()
	})
	return write(w, c, format)
}
