package quantity_test

import (
	"math"
	"regexp"
	"testing"

	"clampheat/scenarios/quantity"
)

// FuzzParse: whatever is read is finite, and what Format writes of it is read
// as the same value in the same unit.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"12 N·m", "1/0 AWG", "AWG 000", "25 degC", "-40 °F", "1,5 m", "1e-9 mΩ", "0.1 in", "3 kcmil", "−5 C", "70%", "1 000 A", "°", "1e400 A", "NaN K"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, kind := range quantity.Kinds() {
			v, err := quantity.Parse(kind, text)
			if err != nil {
				if err.Error() == "" {
					t.Errorf("%s %q: an error without words", kind, text)
				}
				continue
			}
			if math.IsNaN(v.SI) || math.IsInf(v.SI, 0) {
				t.Fatalf("%s %q was read as %v", kind, text, v.SI)
			}
			printed := quantity.Format(kind, v.SI, v.Unit, 0)
			again, err := quantity.Parse(kind, printed)
			if err != nil {
				t.Fatalf("%s %q was printed as %q, which is refused: %v", kind, text, printed, err)
			}
			if relative(again.SI, v.SI) > 1e-11 || again.Unit != v.Unit {
				t.Errorf("%s %q is %v %s, but printed as %q is %v %s", kind, text, v.SI, v.Unit, printed, again.SI, again.Unit)
			}
		}
	})
}

// FuzzPattern: what a pattern lets pass, Parse reads, but for numbers too
// large for any machine.
func FuzzPattern(f *testing.F) {
	for _, text := range []string{"12 N m", "1/0AWG", "25 deg C", "1.e3 in.-lb", "0 A", ".5 mm^2", "3 µohm"} {
		f.Add(text)
	}
	patterns := map[quantity.Kind]*regexp.Regexp{}
	for _, kind := range quantity.Kinds() {
		patterns[kind] = regexp.MustCompile("^(?:" + quantity.Pattern(kind, quantity.NotNegative) + ")$")
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 40 {
			return // an exponent of many digits is refused as too large
		}
		for kind, pattern := range patterns {
			v, err := quantity.Parse(kind, text)
			if pattern.MatchString(text) && err != nil && !regexp.MustCompile(`[eE][-+]?[0-9]{3,}|[0-9]{300}`).MatchString(text) {
				t.Errorf("the pattern of %s lets %q pass: %v", kind, text, err)
			}
			if err == nil && v.SI < 0 && pattern.MatchString(text) && kind != quantity.Temperature {
				t.Errorf("the pattern of %s lets %q pass, which is negative", kind, text)
			}
		}
	})
}

// Canonical forms match their own pattern.
func TestPattern_canonical(t *testing.T) {
	for _, kind := range quantity.Kinds() {
		pattern := regexp.MustCompile("^(?:" + quantity.Pattern(kind, quantity.Positive) + ")$")
		for _, unit := range quantity.Units(kind) {
			text := quantity.Format(kind, 1, unit, 0)
			if unit == "AWG" {
				text = "1/0 AWG"
			}
			if kind == quantity.Temperature {
				text = "300 " + unit
			}
			if !pattern.MatchString(text) {
				t.Errorf("%s: %q does not match %s", kind, text, pattern)
			}
			if pattern.MatchString("-" + text) {
				t.Errorf("%s: %q passes for positive", kind, "-"+text)
			}
		}
	}
}
