package cli

import "strings"

// near is the known word most like a mistyped one, or "" where none is close:
// at most one letter in three is changed, added or left out.
func near(word string, known []string) string {
	best, bestAt := "", max(1, len(word)/3)+1
	for _, k := range known {
		if d := changes(strings.ToLower(word), strings.ToLower(k)); d < bestAt {
			best, bestAt = k, d
		}
	}
	return best
}

// changes counts the letters changed, added or left out between two words
// (Levenshtein 1966).
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(b)]
}

// didYouMean is a hint with the near word, or with the alternatives where none
// is near.
func didYouMean(word string, known []string, otherwise string) string {
	if n := near(word, known); n != "" {
		return "did you mean " + n + "?"
	}
	return otherwise
}
