package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Value is a number in SI with the canonical form of the unit it was given in.
type Value struct {
	SI   float64
	Unit string
}

// Parse reads a number with its unit, "12 N·m". The errors are *NumberError,
// *NoUnitError, *UnknownUnitError and *WrongKindError, each with a Hint. The
// value is always finite.
func Parse(kind Kind, text string) (Value, error) {
	text = strings.TrimSpace(text)
	if number, ok := splitGauge(text); ok {
		return parseGauge(kind, text, number)
	}
	number, rest := splitNumber(text)
	if err := checkNumber(kind, text, number, rest); err != nil {
		return Value{}, err
	}
	n, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil || math.IsInf(n, 0) {
		return Value{}, &NumberError{Kind: kind, Text: text, Reason: "is no number that can be meant", Advice: "write for example \"" + example(kind) + "\""}
	}
	if rest == "" {
		return Value{}, &NoUnitError{Kind: kind, Text: text, Allowed: Units(kind)}
	}
	u, ok := lookUp(kind, rest)
	if !ok {
		return Value{}, unitError(kind, text, rest)
	}
	si := n*u.factor + u.offset
	if math.IsInf(si, 0) || (kind == Temperature && si < 0) {
		reason := "is too large to be meant"
		if kind == Temperature && si < 0 {
			reason = "is below absolute zero (" + Format(Temperature, 0, u.symbol, 0) + ")"
		}
		return Value{}, &NumberError{Kind: kind, Text: text, Reason: reason, Advice: "write for example \"" + example(kind) + "\""}
	}
	return Value{SI: si, Unit: u.symbol}, nil
}

// ParsePair reads two lengths of a flat section, "30 × 5 mm" or "30mm x 5mm".
// A first number without a unit has that of the second. Errors as Parse.
func ParsePair(text string) (first, second Value, err error) {
	text = strings.TrimSpace(text)
	a, b, ok := cutTimes(text)
	if !ok {
		return first, second, &NumberError{Kind: Length, Text: text, Reason: "is not a width and a thickness", Advice: "write for example \"30 × 5 mm\""}
	}
	if second, err = Parse(Length, b); err != nil {
		return first, second, err
	}
	if _, rest := splitNumber(a); rest == "" && a != "" {
		a += " " + second.Unit
	}
	first, err = Parse(Length, a)
	return first, second, err
}

// cutTimes cuts text at its multiplication sign.
func cutTimes(text string) (before, after string, ok bool) {
	for _, sign := range []string{"×", "x", "X", "*", " by "} {
		if before, after, ok = strings.Cut(text, sign); ok {
			return strings.TrimSpace(before), strings.TrimSpace(after), true
		}
	}
	return "", "", false
}

// parseGauge reads a wire gauge as an area.
func parseGauge(kind Kind, text, number string) (Value, error) {
	if kind != Area {
		return Value{}, &WrongKindError{Want: kind, Got: Area, Text: text, Unit: "AWG", Allowed: Units(kind)}
	}
	n, ok := gaugeNumber(number)
	if !ok {
		return Value{}, &NumberError{Kind: kind, Text: text, Reason: "is no wire gauge", Advice: "gauges are 4/0, 3/0, 2/0, 1/0, 1, 2 … 40, for example \"1/0 AWG\""}
	}
	return Value{SI: gaugeArea(n), Unit: "AWG"}, nil
}

// splitNumber cuts the leading number off: a sign, digits with a point, and an
// exponent that is followed by digits.
func splitNumber(text string) (number, rest string) {
	i := 0
	if strings.HasPrefix(text, "−") {
		i = len("−")
	} else if i < len(text) && (text[i] == '-' || text[i] == '+') {
		i++
	}
	start := i
	for i < len(text) && (isDigit(text[i]) || text[i] == '.') {
		i++
	}
	if i == start {
		return "", text
	}
	if i < len(text) && (text[i] == 'e' || text[i] == 'E') {
		j := i + 1
		if j < len(text) && (text[j] == '-' || text[j] == '+') {
			j++
		}
		if j < len(text) && isDigit(text[j]) {
			for i = j; i < len(text) && isDigit(text[i]); i++ {
			}
		}
	}
	return text[:i], strings.TrimSpace(text[i:])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// checkNumber refuses what looks like a number and is read differently in
// different places: commas, grouped digits and fractions.
func checkNumber(kind Kind, text, number, rest string) error {
	fail := func(reason, advice string) error {
		return &NumberError{Kind: kind, Text: text, Reason: reason, Advice: advice}
	}
	usual := "write for example \"" + example(kind) + "\""
	if text == "" {
		return fail("is empty", usual)
	}
	if number == "" {
		if strings.HasPrefix(rest, ",") && len(rest) > 1 && isDigit(rest[1]) {
			return fail("has a comma", "write a decimal point: \"0."+rest[1:]+"\"")
		}
		return fail("does not begin with a number", usual)
	}
	if strings.Count(number, ".") > 1 {
		return fail("has two decimal points", usual)
	}
	if strings.Trim(number, "+-−.") == "" {
		return fail("does not begin with a number", usual)
	}
	if len(rest) == 0 {
		return nil
	}
	after := strings.TrimLeftFunc(rest[1:], unicode.IsSpace)
	digits := leadingDigits(after)
	switch c := rest[0]; {
	case c == ',' && len(digits) == 3 && !strings.HasPrefix(strings.TrimLeft(number, "+-−"), "0"):
		return fail("has a comma, which may part thousands or decimals", "write \""+number+after+"\" or \""+number+"."+after+"\"")
	case c == ',' && digits != "":
		return fail("has a decimal comma", "write a point: \""+number+"."+after+"\"")
	case c == ',':
		return fail("has a comma", usual)
	case isDigit(c):
		return fail("has a gap between digits", "write the number without a gap: \""+number+rest+"\"")
	case (c == '\'' || c == '_') && digits != "":
		return fail("has a sign between digits", "write the number without it: \""+number+after+"\"")
	case c == '/' && digits != "":
		return fail("is a fraction", fractionAdvice(kind, number, digits, after[len(digits):]))
	}
	return nil
}

// fractionAdvice writes a fraction as a decimal where it can.
func fractionAdvice(kind Kind, number, digits, unit string) string {
	if digits == "0" && kind == Area {
		return "a wire gauge ends in AWG: \"" + number + "/0 AWG\""
	}
	a, errA := strconv.ParseFloat(number, 64)
	b, errB := strconv.ParseFloat(digits, 64)
	if errA != nil || errB != nil || b == 0 {
		return "write a decimal number, for example \"" + example(kind) + "\""
	}
	return "write \"" + strings.TrimSpace(shortest(a/b)+" "+strings.TrimSpace(unit)) + "\""
}

func leadingDigits(text string) string {
	i := 0
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	return text[:i]
}

// unitError says why rest is no unit of the kind.
func unitError(kind Kind, text, rest string) error {
	for _, other := range Kinds() {
		if other == kind {
			continue
		}
		if _, ok := lookUp(other, rest); ok {
			return &WrongKindError{Want: kind, Got: other, Text: text, Unit: rest, Allowed: Units(kind)}
		}
	}
	return &UnknownUnitError{Kind: kind, Text: text, Unit: rest, Allowed: Units(kind), Near: nearest(kind, rest)}
}
