package scenarios

import (
	"embed"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"sync"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file reads the generic parts: what a part is like where the file does
// not say. They are data, each value with its spread and its ground.

//go:embed parts/*.yaml
var partFiles embed.FS

// datum is one value of a generic part: a range of a quantity, "18 … 20 … 25
// mm", or a word of a table.
type datum struct {
	text   string // of the range or the word
	word   bool
	source string // of a published value
	ground string // of an assumed one
}

// PartsError is a value of a generic part that is missing or cannot be read: a
// fault of the program's data, not of a scenario.
type PartsError struct {
	Part, What, Reason string
}

func (e *PartsError) Error() string {
	return fmt.Sprintf("the generic %s cannot be used: its %s %s", e.Part, e.What, e.Reason)
}

// generic holds all values by part and name.
var generic = sync.OnceValues(func() (map[string]map[string]datum, error) {
	all := map[string]map[string]datum{}
	names, err := fs.Glob(partFiles, "parts/*.yaml")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		data, err := partFiles.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := readParts(name, data, all); err != nil {
			return nil, err
		}
	}
	return all, nil
})

// readParts adds the parts of one data file.
func readParts(name string, data []byte, all map[string]map[string]datum) error {
	f := &File{Name: name}
	root, problems := f.decode(data)
	if err := asError(problems); err != nil {
		return err
	}
	for _, part := range root.pairs {
		values := map[string]datum{}
		if _, twice := all[part.key.text]; twice {
			return &PartsError{part.key.text, "name", "stands in the data twice"}
		}
		for _, value := range part.value.pairs {
			d := datum{}
			for _, p := range value.value.pairs {
				switch p.key.text {
				case "range":
					d.text = p.value.text
				case "word":
					d.text, d.word = p.value.text, true
				case "source":
					d.source = p.value.text
				case "ground":
					d.ground = p.value.text
				default:
					return &PartsError{part.key.text, value.key.text, fmt.Sprintf("has an unknown key %q", p.key.text)}
				}
			}
			if d.text == "" || (d.source == "") == (d.ground == "") {
				return &PartsError{part.key.text, value.key.text, "needs a value and either a source or a ground"}
			}
			values[value.key.text] = d
		}
		all[part.key.text] = values
	}
	return nil
}

// number is the kind of a value without a unit.
const number quantity.Kind = ""

// span reads "18 … 20 … 25 mm" or "60 µm".
func (d datum) span(kind quantity.Kind) (r materials.Range, unit string, err error) {
	fields := strings.Split(d.text, "…")
	last := strings.TrimSpace(fields[len(fields)-1])
	unit = strings.TrimLeft(last, "0123456789. ")
	values := make([]float64, len(fields))
	for i, text := range fields {
		text = strings.TrimSpace(text)
		if kind == number {
			if values[i], err = strconv.ParseFloat(text, 64); err != nil {
				return r, "", err
			}
			continue
		}
		if i < len(fields)-1 {
			text += " " + unit
		}
		v, err := quantity.Parse(kind, text)
		if err != nil {
			return r, "", err
		}
		values[i], unit = v.SI, v.Unit
	}
	switch len(values) {
	case 1:
		r = materials.Exactly(values[0])
	case 3:
		r = materials.Range{Low: values[0], Likely: values[1], High: values[2]}
	default:
		return r, "", fmt.Errorf("%q is neither one value nor low … likely … high", d.text)
	}
	if !r.Valid() {
		return r, "", fmt.Errorf("%q is not in order", d.text)
	}
	return r, unit, nil
}

// spanIn reads a range of a unit that no kind of quantity has.
func (d datum) spanIn(unit string) (materials.Range, error) {
	numbers, ok := strings.CutSuffix(d.text, unit)
	if !ok {
		return materials.Range{}, fmt.Errorf("%q is not in %s", d.text, unit)
	}
	r, _, err := datum{text: numbers}.span(number)
	return r, err
}

// lookGeneric finds a value of a generic part.
func lookGeneric(part, what string) (datum, error) {
	all, err := generic()
	if err != nil {
		return datum{}, fmt.Errorf("the generic parts cannot be read: %w", err)
	}
	d, ok := all[part][what]
	if !ok {
		return datum{}, &PartsError{part, what, "is missing"}
	}
	return d, nil
}
