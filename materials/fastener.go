package materials

// This file holds bolts as geometry: the thread by its standard's formulas,
// and what presses under the head.

import "math"

// Fastener is a bolt, screw or stud by its thread, with the ordinary hexagon
// head or nut, clearance hole and flat washer that go with it. All in m and m².
type Fastener struct {
	Name           string
	Aliases        []string
	Diameter       float64 // d, nominal
	Pitch          float64 // P
	PitchDiameter  float64 // d2
	MinorDiameter  float64 // d3, of the root on which the stress area rests
	StressArea     float64 // As
	HeadDiameter   float64 // dw, outside of the bearing face of head or nut
	HoleDiameter   float64 // dh, clearance hole, medium or normal fit
	WasherDiameter float64 // outside of the flat washer
	Provenance
}

const (
	metricThread  = "ISO metric"
	unifiedThread = "unified"
)

var fasteners = newCatalogue("fastener", "fasteners.csv",
	func(f *Fastener) labels { return labels{f.Name, &f.Aliases, &f.Also} },
	func(r *row) Fastener {
		f := Fastener{
			Name: r.text("name"), Aliases: splitList(r.text("aliases")),
			Diameter:       r.number("diameter"),
			HoleDiameter:   r.number("hole"),
			WasherDiameter: r.number("washer"),
			Provenance:     r.provenance(),
		}
		root := 0.0
		switch system := r.text("system"); system {
		case metricThread:
			f.Pitch, root = r.number("pitch"), isoRoot
			f.HeadDiameter = r.number("bearing face")
		case unifiedThread:
			f.Pitch, root = 1/r.number("threads"), unifiedRoot
			f.HeadDiameter = unifiedBearing * r.number("across flats")
		default:
			r.fail("system", &UnknownError{Kind: "thread system", Name: system, All: []string{metricThread, unifiedThread}})
		}
		f.PitchDiameter = f.Diameter - pitchDepth*f.Pitch
		f.MinorDiameter = f.Diameter - root*f.Pitch
		mean := (f.PitchDiameter + f.MinorDiameter) / 2
		f.StressArea = math.Pi / 4 * mean * mean
		return f
	})

const (
	// pitchDepth is (d − d2)/P = (3/8)·√3 of the 60° profile. ISO 724:1993; ASME B1.1-2003.
	pitchDepth = 0.649519
	// isoRoot is (d − d3)/P = (17/24)·√3 of the rounded root. ISO 68-1:1998, ISO 898-1:2013 clause 9.
	isoRoot = 1.226869
	// unifiedRoot is the same for the unified stress area, (3/4)·√3: with it
	// (d2 + d3)/2 = d − 0.9743·P. ASME B1.1-2003, appendix B.
	unifiedRoot = 1.299038
	// unifiedBearing is the bearing face of a hexagon head over its width
	// across flats, in the middle of the 0.90 to 1.00 that ASME B18.2.1-2012 allows.
	unifiedBearing = 0.95
)

// LookupFastener returns the fastener of a name or alias, else an *UnknownError.
func LookupFastener(name string) (Fastener, error) { return fasteners.find(name) }

// Fasteners lists all fasteners, metric ones first.
func Fasteners() []Fastener { return fasteners.all() }
