package materials

// This file holds how thick the insulation of a cable is, by the size of its conductor.

import (
	"fmt"
	"slices"
	"sync"
)

// wall is one line of the table of jacket walls.
type wall struct {
	family          string
	area, thickness float64
	Provenance
}

var walls = sync.OnceValues(func() (map[string][]wall, error) {
	list, err := readTable("jackets.csv", func(r *row) wall {
		return wall{family: r.text("family"), area: r.area(), thickness: r.number("wall"), Provenance: r.provenance()}
	})
	if err != nil {
		return nil, err
	}
	families := make(map[string][]wall)
	for _, w := range list {
		families[w.family] = append(families[w.family], w)
	}
	return families, nil
})

// The two families of single-core cable whose walls bound a jacket's.
const (
	thinFamily  = "metric"
	thickFamily = "AWG"
)

// JacketWall returns the thickness of the insulation [m] of a single-core
// cable by the metal area of its conductor [m²]: from the nominal wall of the
// metric building wires to that of the heavier North American ones, the middle
// being the likely one; between sizes by a straight line.
//
// Valid from 0.5 to 300 mm²; outside, it returns a *RangeError.
//
// Source: IEC 60227-3 for the thinner, UL 83 for the thicker wall.
func JacketWall(area float64) (Range, Provenance, error) {
	const smallest, largest = 0.5e-6, 300e-6
	if !(area >= smallest && area <= largest) {
		return Range{}, Provenance{}, fmt.Errorf("find the jacket's wall: %w",
			&RangeError{Quantity: "conductor area", Value: area * 1e6, Low: smallest * 1e6, High: largest * 1e6, Unit: "mm²"})
	}
	families, err := walls()
	if err != nil {
		return Range{}, Provenance{}, fmt.Errorf("read the jackets' walls: %w", err)
	}
	a, b := wallAt(families[thinFamily], area), wallAt(families[thickFamily], area)
	thin, thick := min(a, b), max(a, b)
	p := families[thinFamily][0].Provenance
	p.Basis = Assumed
	p.Also = []Source{families[thickFamily][0].Source}
	p.Ground = "between the nominal walls of the two families of building wire; the middle is taken as likely"
	return Range{Low: thin, Likely: (thin + thick) / 2, High: thick}, p, nil
}

// wallAt interpolates one family, sorted by area; its ends go on level.
func wallAt(list []wall, area float64) float64 {
	i, exact := slices.BinarySearchFunc(list, area, func(w wall, a float64) int {
		switch {
		case w.area < a:
			return -1
		case w.area > a:
			return 1
		}
		return 0
	})
	switch {
	case exact || i == 0:
		return list[i].thickness
	case i == len(list):
		return list[i-1].thickness
	}
	low, high := list[i-1], list[i]
	return low.thickness + (high.thickness-low.thickness)*(area-low.area)/(high.area-low.area)
}
