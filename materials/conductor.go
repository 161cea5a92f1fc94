package materials

// This file holds cable conductors: their metal, and the resistance and width
// that the making of a strand adds to it.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"
)

// Conductor is the metal of a cable.
type Conductor struct {
	Name         string
	Area         float64 // m², nominal, of metal
	Resistance20 float64 // Ω/m, direct current, 20 °C, with lay, strands and tin
	Diameter     Range   // m, over the strands
	Metal        Metal
	Provenance
}

const (
	thinnestGauge = 18 // AWG
	widestGauge   = -3 // AWG 4/0
)

// tradeGauges are the AWG sizes that are sold, n counting down past 0 for 1/0.
var tradeGauges = []int{18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3}

// tradeKcmil are the sizes beyond 4/0 that are sold, in thousands of circular mils.
var tradeKcmil = []float64{250, 300, 350, 400, 500, 600}

// AWG returns the flexible copper conductor of gauge n, where 0 is 1/0, −1 is
// 2/0, −2 is 3/0 and −3 is 4/0.
//
// Valid for 18 down to −3; outside, it returns an *UnknownError.
//
// Source: ASTM B258, d = 0.127 mm·92^((36−n)/39); lay and tin by ASTM B8 and B33.
func AWG(n int, tinned bool) (Conductor, error) {
	if n > thinnestGauge || n < widestGauge {
		return Conductor{}, unknownSize(size{gauge, float64(n)}, gaugeName(n))
	}
	return unified(gaugeName(n), "astm-b258", gaugeArea(n), tinned)
}

// Kcmil returns the flexible copper conductor of k thousand circular mils.
//
// Valid for the trade's sizes from 250 to 600; otherwise it returns an *UnknownError.
//
// Source: the circular mil is the area of a circle of 0.001 in; lay and tin as for AWG.
func Kcmil(k float64, tinned bool) (Conductor, error) {
	name := strconv.FormatFloat(k, 'g', -1, 64) + " kcmil"
	if !slices.Contains(tradeKcmil, k) {
		return Conductor{}, unknownSize(size{kcmil, k}, name)
	}
	return unified(name, "astm-b8", kcmilArea(k), tinned)
}

// Metric returns the copper conductor of a nominal area [mm²] and class: 2
// stranded, 5 flexible. Its resistance is the greatest that the standard allows.
//
// Valid for the nominal sizes from 0.5 to 300 mm²; otherwise, it returns an *UnknownError.
//
// Source: IEC 60228:2004, tables 2 and 3.
func Metric(areaMM2 float64, class int, tinned bool) (Conductor, error) {
	name := metricName(areaMM2, class)
	list, err := metricSizes()
	if err != nil {
		return Conductor{}, fmt.Errorf("read the metric conductors: %w", err)
	}
	for _, s := range list {
		if s.nominal != areaMM2 || s.class != class {
			continue
		}
		c := Conductor{Name: name, Area: s.nominal * 1e-6, Resistance20: s.plain, Provenance: s.Provenance}
		if tinned {
			c.Resistance20 = s.tinned
		}
		kind := flexible
		if class == 2 {
			kind = stranded
		}
		return asStrand(c, kind, tinned)
	}
	return Conductor{}, unknownSize(size{metric, areaMM2}, name)
}

// Conductors lists the conductors of the trade, plain ones: AWG, kcmil, then
// metric of class 5 and 2.
func Conductors() []Conductor {
	var list []Conductor
	for _, s := range tradeSizes() {
		if c, err := s.conductor(false); err == nil {
			list = append(list, c)
		}
	}
	return list
}

// gaugeArea is the metal of gauge n, m². Source: ASTM B258.
func gaugeArea(n int) float64 {
	d := 0.127e-3 * math.Pow(92, float64(36-n)/39)
	return math.Pi / 4 * d * d
}

// kcmilArea is the area of k thousand circular mils, m².
func kcmilArea(k float64) float64 {
	const mil = inch / 1000
	return k * 1000 * math.Pi / 4 * mil * mil
}

// unified builds a conductor whose resistance follows from its metal; source
// is the key of the standard that sets its area.
func unified(name, source string, area float64, tinned bool) (Conductor, error) {
	copper, err := LookupMetal(conductorMetal)
	if err != nil {
		return Conductor{}, err
	}
	lay, err := strandOf(flexible)
	if err != nil {
		return Conductor{}, err
	}
	byKey, err := referencesByKey()
	if err != nil {
		return Conductor{}, err
	}
	c := Conductor{Name: name, Area: area, Resistance20: copper.Resistivity20 / area * lay.resistance.Likely,
		Provenance: Provenance{Source: byKey[source]}}
	if tinned {
		tin, err := strandOf(tinnedStrand)
		if err != nil {
			return Conductor{}, err
		}
		c.Resistance20 *= tin.resistance.Likely
		c.Also = append(c.Also, tin.Source)
		c.Note = tin.Ground
	}
	return asStrand(c, flexible, tinned)
}

// conductorMetal is what all conductors are drawn from.
const conductorMetal = "annealed copper"

// asStrand adds what all conductors share: their metal, and a diameter over
// the strands that no standard fixes, for which the row counts as assumed.
func asStrand(c Conductor, kind string, tinned bool) (Conductor, error) {
	copper, err := LookupMetal(conductorMetal)
	if err != nil {
		return Conductor{}, err
	}
	strand, err := strandOf(kind)
	if err != nil {
		return Conductor{}, err
	}
	solid := math.Sqrt(4 * c.Area / math.Pi)
	c.Metal = copper
	c.Diameter = Range{Low: solid * strand.diameter.Low, Likely: solid * strand.diameter.Likely, High: solid * strand.diameter.High}
	c.Basis = Assumed
	c.Ground = strand.Ground
	for _, s := range append([]Source{strand.Source}, strand.Also...) {
		if s != c.Source && !slices.Contains(c.Also, s) {
			c.Also = append(c.Also, s)
		}
	}
	if tinned {
		c.Name += " tinned"
	}
	return c, nil
}

// Kinds of strand in their data file.
const (
	flexible     = "flexible"
	stranded     = "stranded"
	tinnedStrand = "tinned"
)

// strand says what the making of a conductor does to a solid wire of the same metal.
type strand struct {
	kind                 string
	diameter, resistance Range // factors
	Provenance
}

var strands = sync.OnceValues(func() ([]strand, error) {
	return readTable("strands.csv", func(r *row) strand {
		s := strand{kind: r.text("kind"), diameter: Exactly(1), resistance: Exactly(1), Provenance: r.provenance()}
		if r.has("diameter likely") {
			s.diameter = r.spread("diameter")
		}
		if r.has("resistance likely") {
			s.resistance = r.spread("resistance")
		}
		return s
	})
})

func strandOf(kind string) (strand, error) {
	list, err := strands()
	if err != nil {
		return strand{}, fmt.Errorf("read the kinds of strand: %w", err)
	}
	for _, s := range list {
		if s.kind == kind {
			return s, nil
		}
	}
	return strand{}, fmt.Errorf("read the kinds of strand: none is called %q", kind)
}

// metricSize is one line of the metric conductors.
type metricSize struct {
	nominal       float64 // mm²
	class         int
	plain, tinned float64 // Ω/m
	Provenance
}

var metricSizes = sync.OnceValues(func() ([]metricSize, error) {
	return readTable("conductors.csv", func(r *row) metricSize {
		class, err := strconv.Atoi(r.text("class"))
		if err != nil {
			r.fail("class", err)
		}
		nominal, err := strconv.ParseFloat(r.text("area"), 64)
		if err != nil {
			r.fail("area", err)
		}
		return metricSize{nominal: nominal, class: class,
			plain: r.number("plain"), tinned: r.number("tinned"), Provenance: r.provenance()}
	})
})
