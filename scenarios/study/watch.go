package study

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"clampheat/solver"
)

// This file looks at every step of a soak for what the rows of an output may
// miss: the highest temperatures, and when a limit is passed.

// watched are the highest temperature of each row over a soak, what was left to
// each bound, and when each was passed, all from every step and not from the rows
// of the output.
type watched struct {
	peaks  []float64       // a row each, K
	when   []float64       // and the time of that, s; of peaks that repeat the first
	left   []float64       // a bound each, the least of the soak, K
	at     []float64       // the bound where that was, K; it moves with the air
	airs   []float64       // the air then, K
	passed map[int]float64 // a bound each that was passed, s
	bounds []bound
}

// watch makes the events that fill a watched.
func (r *run) watch(bounds []bound) (*watched, []solver.Event) {
	rows := len(r.assembly.Rows)
	w := &watched{peaks: make([]float64, rows), when: make([]float64, rows), passed: map[int]float64{}, bounds: bounds,
		left: slices.Repeat([]float64{math.Inf(1)}, len(bounds)), at: make([]float64, len(bounds)), airs: make([]float64, len(bounds))}
	// A period that repeats is as hot as the one before but for the error of the steps:
	// only a peak above that moves the time, and the rise that leads to it.
	const again = 0.01 // K
	marks, rising := make([]float64, rows), make([]bool, rows)
	events := []solver.Event{{Name: "peaks", Value: func(t float64, x []float64) float64 {
		for i := range w.peaks {
			at := r.assembly.RowTemp(i, x)
			rising[i] = at > w.peaks[i] && (rising[i] || at > marks[i]+again)
			if rising[i] {
				w.when[i], marks[i] = t, at
			}
			w.peaks[i] = math.Max(w.peaks[i], at)
		}
		air := airAt(r.stack, t)
		for i, b := range bounds {
			limit := b.in(air)
			if left := limit - r.assembly.RowTemp(b.row, x); left < w.left[i] {
				w.left[i], w.at[i], w.airs[i] = left, limit, air
			}
		}
		return -1 // never happens: it only looks
	}}}
	for i, b := range bounds {
		events = append(events, solver.Event{Name: boundEvent + strconv.Itoa(i), Value: func(t float64, x []float64) float64 {
			if !b.judgeable() {
				return -1
			}
			// A hair before it, so that a limit at which the soak itself ends counts.
			return r.assembly.RowTemp(b.row, x) - b.in(airAt(r.stack, t)) + 1e-6
		}})
	}
	return w, events
}

const boundEvent = "bound "

// read takes over when the bounds were passed.
func (w *watched) read(hits []solver.EventHit) {
	for _, hit := range hits {
		if number, ok := strings.CutPrefix(hit.Name, boundEvent); ok {
			if i, err := strconv.Atoi(number); err == nil {
				w.passed[i] = hit.Time
			}
		}
	}
}

// peak is the highest temperature of a row, K.
func (w *watched) peak(row int) float64 { return w.peaks[row] }

// hottest is the row, of some, that gets the hottest over the soak; -1 of none.
func (w *watched) hottest(rows []int) int {
	best := -1
	for _, row := range rows {
		if best < 0 || w.peaks[row] > w.peaks[best] {
			best = row
		}
	}
	return best
}
