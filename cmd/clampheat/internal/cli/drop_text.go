package cli

import (
	"fmt"
	"strings"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// This file says of a drop what is in the figure.

// dropText is a voltage lost, over what, and what is in it.
func dropText(lost float64, over string, divides bool, c study.Conditions, parts study.DropParts) string {
	if !divides && c.Power == 0 {
		return fmt.Sprintf("%s%s (positive side only)", volts(lost), over)
	}
	// A circuit is closed around the path.
	at := "what draws the current"
	if parts.Draw != "" {
		at = parts.Draw + ", which loses the most,"
	}
	cold := ""
	if strings.Contains(over, "cold") {
		cold = ", cold,"
	}
	text := fmt.Sprintf("%s less%s at %s than with nothing drawn", volts(lost), cold, at)
	if pieces := dropPieces(dress{}, study.DropSizing{DropParts: parts}); pieces != "" {
		text += ": " + pieces
	}
	if held := dropHolds(parts); held != "" {
		text += "; " + held
	}
	return text
}

// dropPieces are what a drop adds up from, "" where it is one piece.
func dropPieces(d dress, s study.DropSizing) string {
	var list []string
	if s.Source > 0 {
		list = append(list, "source "+volts(s.Source))
	}
	list = append(list, "path "+volts(s.Path))
	if s.Return > 0 {
		back := "return " + volts(s.Return)
		if s.ReturnAt > 0 {
			back += " at " + d.temperature(quantity.Temp(s.ReturnAt))
		}
		list = append(list, back)
	}
	if len(list) == 1 {
		return ""
	}
	return strings.Join(list, ", ")
}

// wayBack is what study leaves out of a drop where the file does not tell of it.
const wayBack = "the way back from the load"

// dropHolds says what is in the path's figure and what is in none, "" where that
// goes without saying.
func dropHolds(p study.DropParts) string {
	var text string
	switch {
	case len(p.In) > 1:
		text = "in it: " + strings.Join(p.In, ", ")
	case len(p.Out) == 0:
		return ""
	default:
		text = "positive side only"
		if p.Out[0] == wayBack {
			return text
		}
	}
	if len(p.Out) > 0 {
		text += "; not in it: " + strings.Join(p.Out, ", ")
	}
	return text
}
