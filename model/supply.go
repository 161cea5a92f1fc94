package model

import (
	"fmt"
	"math"
	"sort"
)

// This file says what current a stack carries over time. A current steps and
// ramps at known times only, so that a time integration can land on each.

// Supply is the mean current that a stack carries, s ↦ A. Both functions are
// continuous from the right.
type Supply interface {
	Current(t float64) float64 // A
	Slope(t float64) float64   // A/s
	// Breaks are the times, s, rising, at which the current or its slope
	// jumps.
	Breaks() []float64
}

// Constant is a current, A, that never changes.
type Constant float64

// Current is the same at all times, A.
func (c Constant) Current(float64) float64 { return float64(c) }

// Slope of a constant current is zero, A/s.
func (c Constant) Slope(float64) float64 { return 0 }

// Breaks of a constant current: none.
func (c Constant) Breaks() []float64 { return nil }

// A Piece is a stretch of time over which the current runs straight from one
// value to another.
type Piece struct {
	From, To float64 // A; equal where the current stays
	For      float64 // s; +Inf, for the last piece only, where it stays for good
}

// Schedule is a current made of pieces from the time 0 on. After the last
// piece its end value stays. One without pieces, the zero value, is no current.
type Schedule struct {
	starts []float64 // of each piece, and of what stays after the last
	pieces []Piece
}

// NewSchedule makes a schedule: a table of steps, a ramp, or both. The error,
// a *SupplyError, names a piece without a positive duration, with a current
// that is negative or not finite, or that ramps for ever.
func NewSchedule(pieces ...Piece) (*Schedule, error) {
	if len(pieces) == 0 {
		return nil, &SupplyError{Piece: -1, Reason: "it has no pieces"}
	}
	s := &Schedule{starts: []float64{0}}
	for i, p := range pieces {
		last := i == len(pieces)-1
		switch {
		case !finite(p.From) || !finite(p.To) || p.From < 0 || p.To < 0:
			return nil, &SupplyError{i, fmt.Sprintf("its current, %g to %g A, must be finite and not negative", p.From, p.To)}
		case math.IsNaN(p.For) || p.For <= 0:
			return nil, &SupplyError{i, fmt.Sprintf("its duration, %g s, must be positive", p.For)}
		case math.IsInf(p.For, 1) && (!last || p.From != p.To):
			return nil, &SupplyError{i, "only a last piece of one current can go on for ever"}
		}
		s.pieces = append(s.pieces, p)
		if !math.IsInf(p.For, 1) {
			end := s.starts[i] + p.For
			if !finite(end) || end == s.starts[i] {
				return nil, &SupplyError{i, fmt.Sprintf("its duration, %g s, is lost beside its start, %g s", p.For, s.starts[i])}
			}
			s.starts = append(s.starts, end)
			if last {
				s.pieces = append(s.pieces, Piece{From: p.To, To: p.To, For: math.Inf(1)})
			}
		}
	}
	return s, nil
}

// piece is the index of the piece that holds at t.
func (s *Schedule) piece(t float64) int {
	return max(sort.Search(len(s.starts), func(i int) bool { return s.starts[i] > t })-1, 0)
}

// Current at the time t, A; before the time 0 that of the time 0.
func (s *Schedule) Current(t float64) float64 {
	if len(s.pieces) == 0 {
		return 0
	}
	i := s.piece(t)
	p := s.pieces[i]
	if p.From == p.To || t <= 0 {
		return p.From
	}
	return p.From + (p.To-p.From)*(t-s.starts[i])/p.For
}

// Slope of the current at the time t, A/s.
func (s *Schedule) Slope(t float64) float64 {
	if len(s.pieces) == 0 {
		return 0
	}
	p := s.pieces[s.piece(t)]
	if p.From == p.To || t < 0 {
		return 0
	}
	return (p.To - p.From) / p.For
}

// Breaks are the ends of the pieces, s.
func (s *Schedule) Breaks() []float64 {
	if len(s.starts) == 0 {
		return nil
	}
	return append([]float64(nil), s.starts[1:]...)
}

// SupplyError says what is wrong with a schedule; Piece counts from 0 and is
// −1 where it is the whole.
type SupplyError struct {
	Piece  int
	Reason string
}

func (e *SupplyError) Error() string {
	if e.Piece < 0 {
		return "the current cannot follow the schedule: " + e.Reason
	}
	return fmt.Sprintf("the current cannot follow piece %d of the schedule: %s", e.Piece+1, e.Reason)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// orNone is the answer of a relation: 0, for none, where its arguments lie
// outside its domain and it has no finite value there.
func orNone(v float64) float64 {
	if !finite(v) {
		return 0
	}
	return v
}
