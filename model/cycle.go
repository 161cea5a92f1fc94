package model

import (
	"math"
	"slices"
	"sort"
)

// This file holds what repeats and what is put together of several supplies.
// A supply need not be a current: powers [W] and the temperature of the air [K]
// over time are told in the same way.

// A Cycle is a schedule that starts anew for ever.
type Cycle struct {
	once   *Schedule
	period float64
}

// NewCycle makes a cycle of pieces, all of them of finite duration. The error
// is a *SupplyError as of NewSchedule.
func NewCycle(pieces ...Piece) (*Cycle, error) {
	for i, p := range pieces {
		if math.IsInf(p.For, 1) {
			return nil, &SupplyError{i, "a piece of a cycle cannot go on for ever"}
		}
	}
	once, err := NewSchedule(pieces...)
	if err != nil {
		return nil, err
	}
	return &Cycle{once: once, period: once.starts[len(once.starts)-1]}, nil
}

// Period is the time, s, after which the cycle repeats.
func (c *Cycle) Period() float64 { return c.period }

// begin is the start, s, of the repetition that t lies in. It is worked out
// with the products that BreaksUntil gives, so that at a break the value is the
// one after it.
func (c *Cycle) begin(t float64) float64 {
	k := math.Floor(t / c.period)
	switch {
	case t <= 0:
		return 0
	case k*c.period > t:
		k--
	case (k+1)*c.period <= t:
		k++
	}
	return k * c.period
}

// at gives the piece that holds at t and the time, s, since it began.
func (c *Cycle) at(t float64) (Piece, float64) {
	begin := c.begin(t)
	last := len(c.once.starts) - 1 // there the cycle starts anew
	i := max(sort.Search(last, func(i int) bool { return begin+c.once.starts[i] > t })-1, 0)
	return c.once.pieces[i], max(t-(begin+c.once.starts[i]), 0)
}

// Current at the time t; before the time 0 that of the time 0.
func (c *Cycle) Current(t float64) float64 {
	p, since := c.at(t)
	if p.From == p.To {
		return p.From
	}
	return p.From + (p.To-p.From)*min(since/p.For, 1)
}

// Slope of the current at the time t.
func (c *Cycle) Slope(t float64) float64 {
	p, _ := c.at(t)
	if p.From == p.To || t < 0 {
		return 0
	}
	return (p.To - p.From) / p.For
}

// Breaks are the ends of the pieces of the first period, s, its own end among
// them.
func (c *Cycle) Breaks() []float64 { return c.once.Breaks() }

// BreaksUntil are the ends of all pieces up to a time, s.
func (c *Cycle) BreaksUntil(until float64) []float64 {
	var out []float64
	once := c.once.starts[1:]
	for k := 0; ; k++ {
		begin := float64(k) * c.period
		for _, b := range once[:len(once)-1] {
			if begin+b > until {
				return out
			}
			out = append(out, begin+b)
		}
		// The end is given as the next beginning is worked out.
		end := float64(k+1) * c.period
		if end > until || end == begin {
			return out
		}
		out = append(out, end)
	}
}

// BreaksUntil are the ends of the pieces up to a time, s.
func (s *Schedule) BreaksUntil(until float64) []float64 { return upTo(s.Breaks(), until) }

// upTo are the times of a rising list that are not after a time.
func upTo(breaks []float64, until float64) []float64 {
	return breaks[:sort.Search(len(breaks), func(i int) bool { return breaks[i] > until })]
}

// repeating is a supply that has more breaks than it can list.
type repeating interface{ BreaksUntil(until float64) []float64 }

// BreaksUntil lists the breaks of a supply up to a time, s, those of every
// repetition for one that repeats.
func BreaksUntil(s Supply, until float64) []float64 {
	if r, ok := s.(repeating); ok {
		return r.BreaksUntil(until)
	}
	return upTo(s.Breaks(), until)
}

// sum is several supplies at once.
type sum []Supply

// Sum is what several supplies carry together.
func Sum(supplies ...Supply) Supply { return sum(slices.Clone(supplies)) }

// Current is that of all, at the time t.
func (s sum) Current(t float64) float64 {
	all := 0.0
	for _, one := range s {
		all += one.Current(t)
	}
	return all
}

// Slope is that of all, at the time t.
func (s sum) Slope(t float64) float64 {
	all := 0.0
	for _, one := range s {
		all += one.Slope(t)
	}
	return all
}

// Breaks are those of any, of the first period for those that repeat.
func (s sum) Breaks() []float64 {
	return merged(s, func(one Supply) []float64 { return one.Breaks() })
}

// BreaksUntil are those of any, up to a time, s.
func (s sum) BreaksUntil(until float64) []float64 {
	return merged(s, func(one Supply) []float64 { return BreaksUntil(one, until) })
}

// merged puts the breaks of several supplies in order, each time once.
func merged(supplies []Supply, breaks func(Supply) []float64) []float64 {
	var out []float64
	for _, s := range supplies {
		out = append(out, breaks(s)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// scaled is a supply times a number.
type scaled struct {
	of Supply
	by float64
}

// Scaled is a supply times a number.
func Scaled(s Supply, by float64) Supply { return scaled{s, by} }

// Current is the scaled one, at the time t.
func (s scaled) Current(t float64) float64 { return s.by * s.of.Current(t) }

// Slope is the scaled one, at the time t.
func (s scaled) Slope(t float64) float64 { return s.by * s.of.Slope(t) }

// Breaks are those of what is scaled.
func (s scaled) Breaks() []float64 { return s.of.Breaks() }

// BreaksUntil are those of what is scaled, up to a time, s.
func (s scaled) BreaksUntil(until float64) []float64 { return BreaksUntil(s.of, until) }

// drivers are all supplies that move a stack: its own, those of its draws and
// the air.
func (s *Stack) drivers() []Supply {
	var out []Supply
	add := func(d Supply) {
		if d != nil {
			out = append(out, d)
		}
	}
	add(s.Supply)
	for _, d := range s.Draws {
		add(d.Current)
		add(d.Power)
	}
	add(s.Course)
	return out
}

// Breaks are the times, s, rising, at which anything that drives the stack or
// its slope jumps: the supply, the draws, the air. Of what repeats they are
// those of its first period.
func (s *Stack) Breaks() []float64 { return sum(s.drivers()).Breaks() }

// BreaksUntil are the breaks up to a time, s, those of every repetition for what
// repeats.
func (s *Stack) BreaksUntil(until float64) []float64 { return sum(s.drivers()).BreaksUntil(until) }

// mostPeriods is how many periods of the longest cycle a common period of
// several may take.
const mostPeriods = 1000

// Period is the time, s, after which all that drives the stack repeats, +Inf
// where something never does, 0 where nothing changes.
func (s *Stack) Period() float64 {
	return commonPeriod(s.drivers())
}

// periodOf is the period of one supply: see Stack.Period.
func periodOf(s Supply) float64 {
	switch s := s.(type) {
	case *Cycle:
		return s.period
	case sum:
		return commonPeriod(s)
	case scaled:
		return periodOf(s.of)
	}
	if len(s.Breaks()) == 0 && s.Slope(0) == 0 {
		return 0
	}
	return math.Inf(1)
}

// commonPeriod is the shortest time that holds a whole number of the periods of
// all, to rounding.
func commonPeriod(supplies []Supply) float64 {
	longest := 0.0
	var all []float64
	for _, s := range supplies {
		p := periodOf(s)
		all = append(all, p)
		longest = max(longest, p)
	}
	if longest == 0 || math.IsInf(longest, 1) {
		return longest
	}
	for k := 1.0; k <= mostPeriods; k++ {
		whole := func(p float64) bool {
			if p == 0 {
				return true
			}
			n := math.Round(k * longest / p)
			return math.Abs(n*p-k*longest) <= 1e-9*longest
		}
		if !slices.ContainsFunc(all, func(p float64) bool { return !whole(p) }) {
			return k * longest
		}
	}
	return math.Inf(1)
}

// checkCourse complains about a supply that is not finite, or is below the least
// that it may be, at any of its breaks.
func checkCourse(c *checks, field string, s Supply, least float64) {
	for _, t := range append([]float64{0}, s.Breaks()...) {
		if !finite(t) {
			c.fail("time of a change", "must be finite, not %g", t)
		}
		// What ramps runs straight between breaks, so that its ends bound it.
		if v := s.Current(t); !finite(v) || v < least {
			c.fail(field, "must be finite and not below %g, not %g", least, v)
		}
	}
}
