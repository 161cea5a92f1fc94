package chart

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/scenarios/study"
)

// This file keeps limits that move with the air out of pictures over time: a level
// line of theirs would hold at one moment alone.

// still are the limits that stay where they are. Those that are a rise above air
// that changes are named under the picture.
func (f *Figure) still(margins []study.Margin, c study.Conditions, s scale) []study.Margin {
	if !(c.AirFrom > 0) || c.AirFrom == c.Air {
		return margins
	}
	var stay []study.Margin
	var moving []string
	for _, m := range margins {
		// One that is capped is a temperature where it is tightest.
		if !(m.Rise > 0) || m.Capped || m.Verdict == study.Unknown {
			stay = append(stay, m)
			continue
		}
		text := m.Name
		if rise := s.difference(m.Rise); !strings.Contains(text, rise) {
			text += " (" + rise + ")"
		}
		if !slices.Contains(moving, text) {
			moving = append(moving, text)
		}
	}
	if len(moving) > 0 {
		f.Foot = strings.TrimSpace(f.Foot + " Not drawn, as it moves with the air, is a limit of a rise: " + strings.Join(moving, "; ") + ".")
	}
	return stay
}

// difference writes a difference of temperatures, K, on the scale.
func (s scale) difference(k float64) string {
	if s.unit == "°F" {
		return fmt.Sprintf("%.3g °F", k*1.8)
	}
	return fmt.Sprintf("%.3g K", k)
}
