package cli

import (
	"math"
	"slices"
	"strconv"

	"clampheat/scenarios/quantity"
)

// This file chooses the times that the table of a soak shows, and writes them so
// that they are told apart.

// clock is the unit of a column of times up to an end.
func clock(until float64) (unit string, scale float64) {
	const minute, hour = 60, 3600
	switch {
	case until < 5*minute:
		return "s", 1
	case until <= 5*hour:
		return "min", minute
	}
	return "h", hour
}

// strides are the steps between rows that a reader counts in, s.
var strides = []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 18000, 36000, 86400, 2 * 86400, 5 * 86400}

// chosenTimes are indices of at most so many times: the round ones, the first
// and the last.
func chosenTimes(times []float64, most int) []int {
	if len(times) == 0 {
		return nil
	}
	all := make([]int, len(times))
	for i := range all {
		all[i] = i
	}
	if len(times) <= most {
		return all
	}
	first, last := times[0], times[len(times)-1]
	stride := (last - first) / float64(most-2)
	for _, s := range strides {
		if s >= stride {
			stride = s
			break
		}
	}
	chosen := []int{0}
	for t := first + stride; t < last-stride/2; t += stride {
		if k := nearest(times, t); k > chosen[len(chosen)-1] {
			chosen = append(chosen, k)
		}
	}
	return append(chosen, len(times)-1)
}

// withTime adds the row at a time, s, to those chosen; the row nearest to it where
// there is none.
func withTime(times []float64, chosen []int, t float64) []int {
	if len(times) == 0 {
		return chosen
	}
	k := nearest(times, t)
	at, found := slices.BinarySearch(chosen, k)
	if found {
		return chosen
	}
	return slices.Insert(chosen, at, k)
}

// askedTimes are those at the multiples of a time, with what lies between them as
// long as that is not the most, and the end.
func askedTimes(times []float64, every float64) []int {
	var on []int
	for i, t := range times {
		if n := math.Round(t / every); math.Abs(t-n*every) <= 1e-9*(t+every) || i == len(times)-1 {
			on = append(on, i)
		}
	}
	if len(times) <= 2*len(on) {
		return chosenTimes(times, mostAsked)
	}
	stride := 1 + (len(on)-1)/mostAsked
	var chosen []int
	for i := 0; i < len(on)-1; i += stride {
		chosen = append(chosen, on[i])
	}
	return append(chosen, on[len(on)-1])
}

// timeLabels writes chosen times with as many decimals as tell them apart.
func timeLabels(times []float64, chosen []int, scale float64) []string {
	labels := make([]string, len(chosen))
	for decimals := -1; decimals <= 3; decimals++ {
		told := true
		for n, k := range chosen {
			t := times[k] / scale
			if decimals < 0 {
				labels[n] = quantity.Number(t, 1)
			} else {
				labels[n] = strconv.FormatFloat(t, 'f', decimals, 64)
			}
			if n == 0 {
				continue
			}
			const slack = 0.1 // of the way to the row before
			shown, err := strconv.ParseFloat(labels[n], 64)
			if err != nil || labels[n] == labels[n-1] || math.Abs(shown-t) > slack*(t-times[chosen[n-1]]/scale) {
				told = false
			}
		}
		if told {
			break
		}
	}
	return labels
}

// nearest is the index of the time nearest to t.
func nearest(times []float64, t float64) int {
	k, _ := slices.BinarySearch(times, t)
	if k == len(times) || (k > 0 && t-times[k-1] < times[k]-t) {
		k--
	}
	return k
}
