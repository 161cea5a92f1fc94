package quantity

import (
	"regexp"
	"strings"
	"unicode"
)

// This file writes regular expressions of what Parse reads, for schemas by
// which an editor checks a file. They keep to what both ECMA 262 and RE2 know.

// Sign is what a pattern lets the number be.
type Sign int

const (
	AnySign Sign = iota
	NotNegative
	Positive
)

const (
	joiner   = `[ ·⋅∙•*.‑–-]*` // between the parts of a product, as lookalikes drops them
	exponent = `(?:[eE][-+]?[0-9]+)?`
	gauges   = `(?:[1-4]/0|0{1,4}|[1-9]|[1-3][0-9]|40)`
)

// Pattern returns a regular expression, not anchored, that matches the
// spellings of a kind. It lets pass no more than Parse does but for bounds.
func Pattern(kind Kind, sign Sign) string {
	pattern := NumberPattern(sign) + ` *` + UnitPattern(kind)
	if kind == Area {
		awg := `[aA][wW][gG]`
		pattern = `(?:` + pattern + `|` + gauges + `[ -]*` + awg + `|` + awg + `[ #-]*` + gauges + `)`
	}
	return pattern
}

// NumberPattern returns a regular expression, not anchored, of a number.
func NumberPattern(sign Sign) string {
	switch sign {
	case NotNegative:
		return `[+]?(?:[0-9]+[.]?[0-9]*|[.][0-9]+)` + exponent
	case Positive:
		return `[+]?(?:[0-9]*[1-9][0-9]*[.]?[0-9]*|0*[.][0-9]*[1-9][0-9]*)` + exponent
	}
	return `[-+−]?(?:[0-9]+[.]?[0-9]*|[.][0-9]+)` + exponent
}

// UnitPattern returns a regular expression, not anchored, of the units of a
// kind.
func UnitPattern(kind Kind) string {
	var forms []string
	for _, u := range table {
		if u.kind != kind || u.symbol == "AWG" {
			continue
		}
		for _, s := range append([]string{u.symbol}, u.symbols...) {
			forms = append(forms, letters(s, false))
		}
		for _, w := range u.words {
			forms = append(forms, letters(w, true))
		}
	}
	return `(?:` + strings.Join(forms, "|") + `)`
}

// letters writes one spelling with what lookalikes makes the same.
func letters(spelling string, anyCase bool) string {
	var b strings.Builder
	for i, r := range spelling {
		switch {
		case r == '·':
			b.WriteString(joiner)
		case r == 'µ':
			b.WriteString(`[µμ]`)
		case r == 'Ω':
			b.WriteString("[Ω\u2126]")
		case r == '°':
			b.WriteString(`[°º˚] ?`)
		case r == '²':
			b.WriteString(`(?:²|\^2)`)
		case anyCase && unicode.IsLetter(r):
			b.WriteString(`[` + string(r) + string(unicode.ToUpper(r)) + `]`)
			if strings.HasPrefix(spelling, "deg") && i == len("de") || strings.HasPrefix(spelling, "micro") && i == len("micr") {
				b.WriteString(` ?`)
			}
		default:
			b.WriteString(regexp.QuoteMeta(string(r)))
		}
	}
	return b.String()
}
