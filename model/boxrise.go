package model

import (
	"math"
	"sort"
)

// This file holds the empirical figures for closed boxes of IEC TR 60890, by
// which the one temperature of a box's air can be judged, and told how much
// hotter its top may be. All tables are from memory, not looked up.

// EnclosureFigures are what IEC TR 60890 says of a closed box without
// partitions whose heat is made evenly all over. From a power P, W, follows the
// rise of its air at half the height, K·Power^Exponent, and at the top that
// times Top.
type EnclosureFigures struct {
	Cooling  float64 // m², the effective cooling surface A_e: each face by how well it cools
	K        float64 // K/W^Exponent
	Exponent float64
	Top      float64 // rise at the top over that at half the height
	// Closed is false with vents or a fan: then the figures are those of the
	// same box without them, and only say how its top compares with its middle.
	Closed bool
	// Within is false where the box is smaller or larger than the tables go, whose
	// ends then count.
	Within bool
}

// Rise is the rise of the air at half the height over the room's, K, for a
// power [W] from 0 up; else it is 0.
func (f EnclosureFigures) Rise(power float64) float64 {
	if !(power > 0) {
		return 0
	}
	return orNone(f.K * math.Pow(power, f.Exponent))
}

// How well a face cools for its area: b of IEC TR 60890, table 2. The floor does
// not count. A back against insulation lets no heat through and counts as none;
// for any back that is covered the report has 0.5.
const (
	coolsTop     = 1.4
	coolsSide    = 0.9
	coolsCovered = 0.5
)

// smallBox is the effective cooling surface, m², up to which a box counts as
// small in IEC TR 60890.
const smallBox = 1.25

// riseExponent is that of the power in a box without vents, IEC TR 60890.
const riseExponent = 0.804

// EnclosureFigures works out the figures of the stack's box; the error is a
// *StackError.
func (s *Stack) EnclosureFigures() (EnclosureFigures, error) {
	e := s.Enclosure
	if e == nil {
		return EnclosureFigures{}, &StackError{Reason: "it stands in no box"}
	}
	if err := e.check(len(s.Parts)); err != nil {
		return EnclosureFigures{}, err
	}
	back := map[Mounting]float64{Free: coolsSide, OnBulkhead: coolsCovered}[e.Mounting]
	f := EnclosureFigures{
		Cooling: coolsTop*e.Width*e.Depth + coolsSide*(2*e.Depth+e.Width)*e.Height +
			back*e.Width*e.Height,
		Exponent: riseExponent,
		Closed:   e.VentRise == 0 && e.Fan == 0,
	}
	table, top, place := riseTable, topFree, math.Pow(e.Height, 1.35)/(e.Width*e.Depth)
	switch {
	case f.Cooling <= smallBox:
		table, top, place = smallTable, topSmall, e.Height/e.Width
	case e.Mounting != Free:
		top = topMounted
	}
	var within [2]bool
	f.K, within[0] = table.power(f.Cooling)
	f.Top, within[1] = top.straight(place)
	f.Within = within[0] && within[1]
	return f, nil
}

// curve is a curve of a figure, read at its knots, by rising x.
type curve [][2]float64

// around gives the knots on either side of x, and says whether x is on the
// curve; beyond, both are its end.
func (c curve) around(x float64) (a, b [2]float64, within bool) {
	i := sort.Search(len(c), func(i int) bool { return c[i][0] >= x })
	switch {
	case i == len(c):
		return c[i-1], c[i-1], false
	case c[i][0] == x:
		return c[i], c[i], true
	case i == 0:
		return c[0], c[0], false
	}
	return c[i-1], c[i], true
}

// straight reads the curve straight between its knots.
func (c curve) straight(x float64) (y float64, within bool) {
	a, b, within := c.around(x)
	if a == b {
		return a[1], within
	}
	return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0]), within
}

// power reads the curve by the power law that joins its knots.
func (c curve) power(x float64) (y float64, within bool) {
	a, b, within := c.around(x)
	if a == b {
		return a[1], within
	}
	return a[1] * math.Pow(x/a[0], math.Log(b[1]/a[1])/math.Log(b[0]/a[0])), within
}

// smallTable and riseTable are k over A_e, m², of small and of large boxes
// without vents, IEC TR 60890 figures 7 and 3.
var (
	smallTable = curve{{0.08, 3.973}, {0.09, 3.643}, {0.10, 3.371}, {0.15, 2.500}, {0.20, 2.022}, {0.25, 1.716},
		{0.30, 1.500}, {0.35, 1.339}, {0.40, 1.213}, {0.45, 1.113}, {0.50, 1.029}, {1.25, 0.524}}
	riseTable = curve{{1.25, 0.524}, {1.5, 0.45}, {2, 0.35}, {2.5, 0.275}, {3, 0.225}, {3.5, 0.2}, {4, 0.185},
		{5, 0.16}, {6, 0.14}, {7, 0.13}, {8, 0.12}, {9, 0.11}, {10, 0.1}, {11.5, 0.085}}
)

// topSmall is c over height/width of small boxes; topFree and topMounted are c
// over h^1.35/A_b, m^−0.65, of large ones that stand free and against a wall. IEC
// TR 60890 figures 8 and 4.
var (
	topSmall = curve{{0, 1}, {0.1, 1.02}, {0.2, 1.04}, {0.3, 1.06}, {0.4, 1.078}, {0.5, 1.097}, {0.6, 1.118}, {0.7, 1.137},
		{0.8, 1.156}, {0.9, 1.174}, {1, 1.188}, {1.1, 1.2}, {1.2, 1.21}, {1.3, 1.22}, {1.4, 1.226}, {1.5, 1.231}, {2, 1.249}}
	topFree = curve{{0.6, 1.225}, {1, 1.24}, {1.5, 1.265}, {2, 1.285}, {2.5, 1.31}, {3, 1.325}, {3.5, 1.35}, {4, 1.37},
		{4.5, 1.395}, {5, 1.415}}
	topMounted = curve{{0.6, 1.19}, {1, 1.21}, {1.5, 1.23}, {2, 1.25}, {2.5, 1.275}, {3, 1.295}, {3.5, 1.315}, {4, 1.34},
		{4.5, 1.36}, {5, 1.38}}
)
