package validation

import (
	"context"
	"slices"
	"testing"

	"clampheat/materials"
)

// The draws give the same answers however they fall on the goroutines.
func TestDrawsConcurrent(t *testing.T) {
	h, err := openHolder("practice_compact.yaml", "open")
	if err != nil {
		t.Fatal(err)
	}
	all, err := draws(h.open, materials.FaceStates(), 6)
	if err != nil {
		t.Fatal(err)
	}
	together, err := h.over(context.Background(), all, 1)
	if err != nil {
		t.Fatal(err)
	}
	for k, d := range all {
		alone, err := h.at(context.Background(), d, 0, 1)
		if err != nil {
			t.Fatal(err)
		}
		if alone != together.likely[k] {
			t.Errorf("draw %d: %v °C alone, %v °C with the others", k, alone, together.likely[k])
		}
	}
	if slices.Min(together.likely) < together.coolest || slices.Max(together.likely) > together.warmest {
		t.Errorf("draws %v lie outside of %v … %v", together.likely, together.coolest, together.warmest)
	}
}
