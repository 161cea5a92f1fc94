package scenarios

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file looks the words of a file up: in the tables of package materials,
// or in the short lists that the tags carry.

// lookUps finds a word in the table that a tag names; the error of an unknown
// one is a *materials.UnknownError.
var lookUps = map[string]func(string) error{
	"metal":            found(materials.LookupMetal),
	"plating":          found(materials.LookupPlating),
	"face state":       found(materials.LookupFaceState),
	"finish":           found(lookUpFinish),
	"insulation":       insulation,
	"conductor":        found(materials.LookupConductor),
	"fastener":         found(materials.LookupFastener),
	"property class":   found(materials.LookupPropertyClass),
	"thread condition": found(materials.LookupThreadCondition),
	"tightening":       found(materials.LookupTightening),
	"wall":             found(materials.LookupWallMaterial),
}

func found[T any](lookUp func(string) (T, error)) func(string) error {
	return func(name string) error {
		_, err := lookUp(name)
		return err
	}
}

// insulation knows a jacket by name or by its temperature in any spelling; a
// bare number is refused, whatever the table calls it.
func insulation(text string) error {
	var noUnit *quantity.NoUnitError
	if _, err := quantity.Parse(quantity.Temperature, text); errors.As(err, &noUnit) {
		return err
	}
	_, err := materials.LookupInsulation(insulationName(text))
	return err
}

// insulationName is the name of an insulation as the table has it: a
// temperature in °C, "105 °C", where the text is one.
func insulationName(text string) string {
	if v, err := quantity.Parse(quantity.Temperature, text); err == nil {
		return quantity.Format(quantity.Temperature, v.SI, "°C", 0)
	}
	return text
}

// lookUpFinish knows a surface by name, or by a measured emissivity:
// "emissivity 0.4".
func lookUpFinish(text string) (materials.Finish, error) {
	number, measured := cutPrefixWords(text, "emissivity")
	if !measured {
		return materials.LookupFinish(text)
	}
	e, err := strconv.ParseFloat(number, 64)
	if err != nil || !(e > 0 && e <= 1) {
		return materials.Finish{}, &emissivityError{number}
	}
	return materials.Finish{Name: text, Emissivity: materials.Exactly(e)}, nil
}

// emissivityError is an emissivity that no surface has.
type emissivityError struct{ text string }

func (e *emissivityError) Error() string {
	return fmt.Sprintf("an emissivity is a number above 0 and at most 1; it is %q", e.text)
}

func (e *emissivityError) Hint() string { return `write for example "emissivity 0.4"` }

// splitMetal takes "copper, tin-plated" apart; the plating may be missing.
func splitMetal(text string) (metal, plating string) {
	metal, plating, _ = strings.Cut(text, ",")
	return strings.TrimSpace(metal), strings.TrimSpace(plating)
}

// mostListed is how many words a message lists before it says only the near
// ones.
const mostListed = 14

// wordProblem tells that a word is in no table, or why it is no word at all.
func (f *File) wordProblem(pos Pos, what string, err error) Problem {
	var unknown *materials.UnknownError
	if !errors.As(err, &unknown) {
		return f.quantityProblem(pos, err)
	}
	p := f.problemAt(pos, "%s %q is not known", what, unknown.Name)
	if len(unknown.All) <= mostListed {
		p = p.allow(unknown.All...)
	}
	if len(unknown.Near) > 0 {
		return p.hint("did you mean %s?", strings.Join(unknown.Near, ", or "))
	}
	return p.hint("clampheat materials lists what is known")
}

// oneOf finds text among words, whatever its letter case and blanks.
func oneOf(words []string, text string) (string, bool) {
	for _, w := range words {
		if strings.EqualFold(w, strings.Join(strings.Fields(text), " ")) {
			return w, true
		}
	}
	return "", false
}
