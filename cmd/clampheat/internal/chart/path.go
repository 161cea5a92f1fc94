package chart

import (
	"fmt"
	"math"
	"strings"

	"clampheat/scenarios/study"
)

// Path is the picture of a settled stack: the temperature along the path, its
// named places, and the band from careful to careless assembly.
//
// A metre of cable beside a holder of a few centimetres would hide the holder,
// so the stretches between named places are drawn as long as the cube root of
// their length, and none shorter than shortest.
func Path(r *study.Steady) *Figure {
	s := scaleOf(r.Conditions)
	f := &Figure{
		Title:    r.Title,
		Subtitle: conditions(drawn(r.Conditions), r.Conditions, s) + ", left on until settled",
		YLabel:   s.unit,
		Foot:     "Along the path; long stretches are drawn shortened.",
	}
	x := stretched(r.Profile)
	line := Line{Name: "likely", X: x}
	band := &Band{X: x}
	for i, p := range r.Profile {
		line.Y = append(line.Y, s.of(p.Temp))
		band.Low = append(band.Low, s.of(p.Careful))
		band.High = append(band.High, s.of(p.Careless))
		if p.Name != "" {
			f.Stops = append(f.Stops, Stop{
				Name: fmt.Sprintf("%s  %.0f %s", short(p.Name), s.of(p.Temp), s.unit), X: x[i], Y: s.of(p.Temp),
				Hot: p.Name == r.Hottest.Place && p.Temp == r.Hottest.Temp})
		}
	}
	f.Lines = []Line{line}
	if len(r.Beside) > 0 {
		first := ""
		for _, w := range r.Beside {
			l := Line{Name: w.Name}
			from, to, found := 0.0, 0.0, false
			for i, p := range r.Profile {
				if !on(p.Way, w.Along) {
					continue
				}
				if !found {
					from, found = x[i], true
				}
				to = x[i]
			}
			if first == "" {
				first = w.Along
			}
			for i, at := range stretched(w.Points) {
				l.X, l.Y = append(l.X, from+(to-from)*at), append(l.Y, s.of(w.Points[i].Temp))
			}
			f.Beside = append(f.Beside, l)
		}
		f.Foot = fmt.Sprintf("Along %s and on to what draws the current; thin: the ways beside it. Long stretches are drawn shortened.", first)
	}
	if r.Hottest.CarelessEnds == "" {
		f.Band = band
		f.Subtitle += "; the band reaches from careful to careless assembly"
	} else {
		f.Subtitle += "; carelessly assembled it has NO LASTING STATE"
	}
	f.limits(r.Margins, s)
	return f
}

// on says whether a way is another or lies in it: its name then begins with that
// of the other.
func on(way, outer string) bool { return way == outer || strings.HasPrefix(way, outer+": ") }

// longestName is how many letters of a place's name stand under the axis.
const longestName = 36

// short cuts a name to longestName letters, in its middle: its end tells the
// sides of one part apart.
func short(name string) string {
	r := []rune(name)
	if len(r) <= longestName {
		return name
	}
	const half = (longestName - 1) / 2
	return strings.TrimRight(string(r[:half]), " ,") + "…" + strings.TrimLeft(string(r[len(r)-half:]), " ,")
}

// shortest is the length that a stretch is drawn with at least, m.
const shortest = 0.005

// stretched places the points of a profile on an axis from 0 to 1.
func stretched(profile []study.Point) []float64 {
	x := make([]float64, len(profile))
	if len(profile) == 0 {
		return x
	}
	at, from := 0.0, 0
	for i := 1; i < len(profile); i++ {
		if profile[i].Name == "" && i < len(profile)-1 {
			continue
		}
		// One stretch: from the last named place to this one.
		length := profile[i].Along - profile[from].Along
		drawn := math.Cbrt(max(length, shortest))
		for k := from + 1; k <= i; k++ {
			share := float64(k-from) / float64(i-from)
			if length > 0 {
				share = (profile[k].Along - profile[from].Along) / length
			}
			x[k] = at + drawn*share
		}
		at += drawn
		from = i
	}
	if at > 0 {
		for i := range x {
			x[i] /= at
		}
	}
	return x
}
