package study

import (
	"math"
	"slices"
	"sort"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file reads over a lasting cycle the currents of ways side by side and of
// fuses. They are taken from the states: what a way carries of the whole changes
// with the load where batteries are unlike, and does not vanish with it.

// DutyWay is what a way side by side carries over a period.
type DutyWay struct {
	Name  string `json:"name"`
	Kind  string `json:"kind"`  // battery, branch or circuit
	Group int    `json:"group"` // ways of one group stand side by side
	// Largest is by its size, negative where the others charge a battery then.
	Largest float64 `json:"largest_current_A"`
	Rms     float64 `json:"rms_current_A"`
	Mean    float64 `json:"mean_current_A"`
	// Fuse is the one that is loaded most for its rating, by the rms current with
	// the ripple.
	Fuse  string  `json:"fuse,omitempty"`
	Rated float64 `json:"fuse_rated_A,omitempty"`
	Load  float64 `json:"fuse_share_of_rating,omitempty"`
}

// moments are the times of a period at which currents are read, with the states:
// those of the rows and, of a log with too many breaks for rows of their own,
// either side of each break.
func (c *cycle) moments() (times []float64, states [][]float64) {
	r := c.result
	breaks := breaksBefore(c.stack, c.stack.Period())
	if len(breaks) <= mostBreaks {
		return r.Times, r.States
	}
	times = slices.Clone(r.Times)
	for _, b := range breaks {
		if b > 0 {
			times = append(times, math.Nextafter(b, 0), b)
		}
	}
	slices.Sort(times)
	times = slices.Compact(times)
	states = make([][]float64, len(times))
	for i, t := range times {
		states[i] = c.between(t)
	}
	return times, states
}

// between is the state at a time between two rows: temperatures go straight from
// one to the other, and the currents follow from them.
func (c *cycle) between(t float64) []float64 {
	r := c.result
	k := sort.SearchFloat64s(r.Times, t)
	if k < len(r.Times) && r.Times[k] == t {
		return r.States[k]
	}
	k = min(max(k, 1), len(r.Times)-1)
	share := (t - r.Times[k-1]) / (r.Times[k] - r.Times[k-1])
	x := slices.Clone(r.States[k-1])
	for i := range c.assembly.Network.Nodes() {
		x[i] += share * (r.States[k][i] - x[i])
	}
	connect(c.assembly, t, x)
	return x
}

// ways reads the ways side by side, and the rms current of each fuse with the
// ripple, by its part.
func (c *cycle) ways(ways []scenarios.WayInfo) (list []DutyWay, fuses map[int]float64) {
	times, states := c.moments()
	l := newLanes(&state{stack: c.stack, assembly: c.assembly, x: c.result.X}, ways)
	over := func(current func(t float64, x []float64) float64) []float64 {
		out := make([]float64, len(times))
		for i, t := range times {
			out[i] = current(t, states[i])
		}
		return out
	}
	ripple := math.Sqrt(1 + c.stack.Ripple*c.stack.Ripple)
	fuses = map[int]float64{}
	for part, p := range c.stack.Parts {
		if _, ok := p.(*model.Fuse); ok {
			// All rows of a fuse carry one current.
			row := slices.IndexFunc(c.assembly.Rows, func(r model.Row) bool { return r.Part == part && len(r.Resistors) > 0 })
			_, rms := meansOver(times, over(func(t float64, x []float64) float64 { return c.assembly.RowCurrent(row, t, x) }))
			fuses[part] = rms * ripple
		}
	}
	for i, w := range ways {
		if !sideBySide(ways, i) {
			continue
		}
		currents := over(func(t float64, x []float64) float64 { return l.currentAt(i, t, x) })
		d := DutyWay{Name: w.Name, Kind: string(w.Kind), Group: w.Group}
		d.Mean, d.Rms = meansOver(times, currents)
		for _, a := range currents {
			if math.Abs(a) > math.Abs(d.Largest) {
				d.Largest = a
			}
		}
		for part, rms := range fuses {
			f := c.stack.Parts[part].(*model.Fuse)
			if !within(ways, l.partWay(part), i) || !(f.Rated > 0) {
				continue
			}
			if load := rms / f.Rated; d.Fuse == "" || load > d.Load || load == d.Load && f.Name() < d.Fuse {
				d.Fuse, d.Rated, d.Load = f.Name(), f.Rated, load
			}
		}
		list = append(list, d)
	}
	return list, fuses
}
