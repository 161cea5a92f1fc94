package scenarios

import (
	"slices"
	"strings"
)

// This file guesses which word was meant.

// near returns the known word most like a mistyped one, "" where none is alike:
// the same but for letter case, blanks, dashes and underscores, or within a
// third of its letters changed, added, dropped or swapped.
func near(word string, known []string) string {
	w := squeezed(word)
	best, bestAt := "", 0
	for _, k := range known {
		most := max(1, len(w)/3)
		d := distance([]rune(w), []rune(squeezed(k)))
		if d > most || d >= max(len(w), 1) {
			continue
		}
		if best == "" || d < bestAt {
			best, bestAt = k, d
		}
	}
	return best
}

// squeezed leaves what does not matter between two spellings away.
func squeezed(word string) string { return joiners.Replace(strings.ToLower(word)) }

var joiners = strings.NewReplacer(" ", "", "-", "", "_", "")

// distance counts the letters changed, added, dropped or swapped with their
// neighbour between two words (optimal string alignment: Damerau 1964).
func distance(a, b []rune) int {
	const tooLong = 64 // no key is near that long; keeps odd files cheap
	if len(a) > tooLong || len(b) > tooLong {
		return tooLong
	}
	var before, last []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, last = last, slices.Clone(row)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			swap := 1
			if a[i-1] == b[j-1] {
				swap = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+swap)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(b)]
}
