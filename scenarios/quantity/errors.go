package quantity

import (
	"fmt"
	"strings"
)

// NoUnitError is a number that stands alone.
type NoUnitError struct {
	Kind    Kind
	Text    string   // as typed
	Allowed []string // the canonical units of the kind
}

func (e *NoUnitError) Error() string {
	return fmt.Sprintf("%s needs a unit after %q", e.Kind.phrase(), e.Text)
}

// Hint says what to write instead.
func (e *NoUnitError) Hint() string {
	if e.Kind == Share {
		return fmt.Sprintf("write per cent, for example %q", example(Share))
	}
	if e.Kind == Torque && len(e.Allowed) > 1 {
		// The one may hold where the other breaks the stud.
		return fmt.Sprintf("write the unit that is meant, %q or %q", e.Text+" "+e.Allowed[0], e.Text+" "+e.Allowed[1])
	}
	return fmt.Sprintf("write for example %q", e.Text+" "+e.Allowed[0])
}

// UnknownUnitError is a unit that no kind has.
type UnknownUnitError struct {
	Kind    Kind
	Text    string   // as typed
	Unit    string   // the part that is no unit
	Allowed []string // the canonical units of the kind
	Near    string   // the one that looks most like it; "" for none
}

func (e *UnknownUnitError) Error() string {
	return fmt.Sprintf("%q is no unit of %s", e.Unit, e.Kind)
}

// Hint says what to write instead.
func (e *UnknownUnitError) Hint() string {
	if e.Near != "" {
		return fmt.Sprintf("did you mean %s?", e.Near)
	}
	return fmt.Sprintf("write for example %q", example(e.Kind))
}

// WrongKindError is a unit of another kind than the one wanted.
type WrongKindError struct {
	Want, Got Kind
	Text      string // as typed
	Unit      string // as typed
	Allowed   []string
}

func (e *WrongKindError) Error() string {
	return fmt.Sprintf("%s is %s; %s is wanted", e.Unit, e.Got.phrase(), e.Want.phrase())
}

// Hint says what to write instead.
func (e *WrongKindError) Hint() string {
	return fmt.Sprintf("write for example %q", example(e.Want))
}

// NumberError is a number that cannot be read, or that has no meaning in its
// unit.
type NumberError struct {
	Kind   Kind
	Text   string // as typed
	Reason string // completes: the text …
	Advice string
}

func (e *NumberError) Error() string { return fmt.Sprintf("%q %s", e.Text, e.Reason) }

// Hint says what to write instead.
func (e *NumberError) Hint() string { return e.Advice }

// example is a usual value of each kind, for hints.
func example(kind Kind) string {
	switch kind {
	case Temperature:
		return "25 °C"
	case Rise:
		return "50 K"
	case Length:
		return "80 mm"
	case Altitude:
		return "500 m"
	case Area:
		return "50 mm²"
	case Torque:
		return "12 N·m"
	case Current:
		return "140 A"
	case Voltage:
		return "12 V"
	case Resistance:
		return "0.25 mΩ"
	case Power:
		return "20 W"
	case Conductance:
		return "0.1 W/K"
	case HeatCapacity:
		return "900 J/K"
	case Time:
		return "15 min"
	case Share:
		return "70 %"
	case Speed:
		return "0.5 m/s"
	case Flow:
		return "30 m³/h"
	}
	return ""
}

// nearest returns the canonical unit of a kind that looks most like text, ""
// where none does: it starts alike, or differs in letter case or in one letter.
func nearest(kind Kind, text string) string {
	key := strings.ToLower(plain(text))
	if key == "" {
		return ""
	}
	for _, symbol := range Units(kind) {
		if strings.ToLower(plain(symbol)) == key {
			return symbol
		}
	}
	for _, symbol := range Units(kind) {
		s := strings.ToLower(plain(symbol))
		if len(s) > 1 && (strings.HasPrefix(key, s) || strings.HasPrefix(s, key)) {
			return symbol
		}
	}
	return ""
}
