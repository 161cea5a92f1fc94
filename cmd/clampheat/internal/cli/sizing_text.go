package cli

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// This file writes the plain sizing figures of a stack, one line each.

func sizingLines(d dress, c study.Conditions, s study.Sizing) string {
	var b strings.Builder
	for _, f := range s.Fuses {
		b.WriteString(texttable.Wrap("  Fuse     ", fmt.Sprintf("%s: %s is %s of %s, 0.8 × its rating (%s). Interrupting rating %s.",
			f.Name, plainAmps(f.Sustained), percent(f.Loaded), current(f.Usable), f.Rule, interrupting(f)), width))
	}
	for _, cable := range s.Cables {
		text := "ampacity UNKNOWN: " + cable.Unknown
		if cable.Unknown == "" {
			text = fmt.Sprintf("%s is %s of %s: %s × %.2f for air at %s (%s, %s)", plainAmps(cable.Sustained), percent(cable.Loaded),
				wholeAmps(cable.Allowed), current(cable.Tabled), cable.Factor, d.temperature(c.Air), cable.Table, cable.Row)
		}
		b.WriteString(texttable.Wrap("  Cable    ", cable.Name+": "+text, width))
	}
	b.WriteString(texttable.Wrap("  Circuit  ", "drop settled "+circuit(d, s.Drop), width))
	return b.String()
}

// circuit is the drop with what is known of the way back and the bank.
func circuit(d dress, s study.DropSizing) string {
	text := volts(s.Total)
	if parts := dropPieces(d, s); parts != "" {
		text += ": " + parts
	}
	switch held := dropHolds(s.DropParts); {
	case len(s.In) > 1:
		text += ", of what the drop above holds"
		if len(s.Out) > 0 {
			text += "; not in it: " + strings.Join(s.Out, ", ")
		}
	case held != "":
		text += ", " + held
	}
	if slices.Contains(s.Out, wayBack) {
		text += ` ("return:" in the file adds it)`
	}
	if s.Bank > 0 {
		return text + fmt.Sprintf("; %s of %s", percent(s.Share), quantity.Format(quantity.Voltage, s.Bank, "V", 0))
	}
	return text + `; in % with "bank voltage:" in the file`
}

func interrupting(f study.FuseSizing) string {
	if f.Interrupting == 0 {
		return "UNKNOWN"
	}
	return quantity.Format(quantity.Current, f.Interrupting, "kA", 0)
}

// plainAmps writes a current as it would be typed, or to three digits one that
// was worked out.
func plainAmps(a float64) string {
	const typed = 6 // characters of a number that a person types
	if text := quantity.Number(a, 0); len(text) <= typed {
		return text + " A"
	}
	return current3(a)
}

func volts(v float64) string { return quantity.Scaled(quantity.Voltage, v, 3) }

// wholeAmps is a worked-out current, to the whole ampere.
func wholeAmps(a float64) string { return fmt.Sprintf("%.0f A", a) }

// percent is a share, to the whole per cent, or finer where it is small.
func percent(share float64) string {
	if share < 0.1 {
		return quantity.Number(share*100, 2) + " %"
	}
	return fmt.Sprintf("%.0f %%", share*100)
}
