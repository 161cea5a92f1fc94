package scenarios

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file writes the JSON Schema. It lives with the tests because the
// program ships only its result.

type object = map[string]any

// makeSchema writes the schema of a scenario file.
func makeSchema() ([]byte, error) {
	definitions := object{}
	var parts []any
	for _, k := range kinds {
		if k.later != "" {
			continue
		}
		definitions[k.name] = partSchema(k, definitions)
		parts = append(parts, reference(k.name))
	}
	root := mappingSchema(fileFields(), nil, definitions)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "A terminal stack and the current through it"
	root["description"] = "Every quantity is written with its unit."
	root["$defs"] = definitions
	root["properties"].(object)["path"] = object{
		"description": describe(fileFields(), "path"), "type": "array", "minItems": 1, "items": object{"oneOf": parts},
	}
	variantSchema(root, definitions, parts)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(root)
	return b.Bytes(), err
}

// variantSchema describes the variants: keys of the file, or a part by its name
// or kind with the keys to change. What a change makes of a part only the
// reader sees.
func variantSchema(root, definitions object, parts []any) {
	change := mappingSchema(itemFields(), nil, definitions)
	delete(change, "required")
	properties := change["properties"].(object)
	for _, k := range kinds {
		if k.later == "" {
			properties[k.name] = ofSchema(k)
		}
	}
	properties[replaceKey] = object{"type": "array", "items": object{"oneOf": parts},
		"description": "Parts that take its place; an empty list leaves it out."}
	definitions["change of a part"] = change

	own := object{"name": object{"type": []string{"string", "number", "boolean"}, "description": "What outputs call the variant."}}
	for key, value := range root["properties"].(object) {
		if key != "variants" {
			own[key] = value
		}
	}
	root["properties"].(object)["variants"] = object{
		"description": describe(fileFields(), "variants"), "type": "array", "minItems": 1, "maxItems": mostVariants,
		"items": object{"type": "object", "required": []string{"name"}, "properties": own,
			"additionalProperties": object{"anyOf": []any{reference("change of a part"), object{"type": []string{"string", "number"}}}}},
	}
}

func describe(fields []field, key string) string {
	f, _ := fieldNamed(fields, key)
	return f.doc
}

// reference points to a definition.
func reference(name string) object {
	return object{"$ref": "#/$defs/" + strings.ReplaceAll(name, " ", "%20")}
}

// mappingSchema describes the keys of the file, or those that go with a part,
// whose values it adds to the definitions.
func mappingSchema(fields []field, part *kind, definitions object) object {
	properties := object{}
	required := []string{}
	var twice []any
	for _, f := range fields {
		if part != nil && !part.allows(f.key) {
			continue
		}
		if f.is == "path" {
			required = append(required, f.key)
			continue
		}
		value := valueSchema(f)
		value["description"] = f.doc
		if part != nil {
			definitions["key "+f.key] = value
			value = reference("key " + f.key)
		}
		properties[f.key] = value
		need := f.need
		if part != nil {
			need = slices.Contains(part.need, f.key)
		}
		if f.also != "" {
			properties[f.also] = value
			twice = append(twice, object{"not": object{"required": []string{f.also, f.key}}})
		}
		if need {
			required = append(required, f.key)
		}
	}
	schema := object{"type": "object", "additionalProperties": false, "properties": properties}
	if len(required) > 0 {
		schema["required"] = required
	}
	if len(twice) > 0 {
		schema["allOf"] = twice
	}
	return schema
}

// partSchema describes one kind of part.
func partSchema(k kind, definitions object) object {
	schema := mappingSchema(itemFields(), &k, definitions)
	schema["description"] = k.doc
	of := ofSchema(k)
	of["description"] = k.doc
	of["examples"] = []string{ofExample(k.name)}
	schema["properties"].(object)[k.name] = of
	required, _ := schema["required"].([]string)
	schema["required"] = append([]string{k.name}, required...)
	return schema
}

func ofSchema(k kind) object {
	switch k.of {
	case ofGeneric:
		return words([]string{ofGeneric})
	case ofMetal:
		return text(anyCase(tableNames("metal")) + `(?: *, *` + anyCase(tableNames("plating")) + `)?`)
	case ofConductor:
		return text(quantity.Pattern(quantity.Area, quantity.Positive) + `(?:[ ,].*)?`)
	}
	return words(tableNames(k.of))
}

// valueSchema describes the value of a key.
func valueSchema(f field) object {
	if f.later == "error" {
		return object{"not": object{}}
	}
	pattern := func(kind quantity.Kind) string { return quantity.Pattern(kind, signOf(f)) }
	positive := func(kind quantity.Kind) string { return quantity.Pattern(kind, quantity.Positive) }
	amps, seconds := quantity.Pattern(quantity.Current, quantity.NotNegative), positive(quantity.Time)
	switch f.is {
	case "anything":
		return object{}
	case "return":
		return mappingSchema(returnFields(), nil, nil)
	case "variants":
		return object{} // made with the keys of the file known
	case "text":
		return object{"type": []string{"string", "number", "boolean"}}
	case "word":
		if f.words != nil {
			return words(f.words)
		}
		if f.from == ofConductor {
			return ofSchema(kind{of: ofConductor})
		}
		value := words(tableNames(f.from))
		if f.from == "finish" {
			value["anyOf"] = append(value["anyOf"].([]any), text(`[eE]missivity +(?:0*[.][0-9]*[1-9][0-9]*|0*1[.]?0*)`))
		}
		return value
	case "torques":
		return oneOrMore(text(pattern(quantity.Torque)))
	case "section":
		length := pattern(quantity.Length)
		return text(quantity.NumberPattern(signOf(f)) + ` *(?:` + quantity.UnitPattern(quantity.Length) + `)? *(?:[×xX*]| by ) *` + length)
	case "supply":
		number := quantity.NumberPattern(quantity.NotNegative) + ` *(?:` + quantity.UnitPattern(quantity.Current) + `)?`
		step := `(?:` + amps + ` +for +` + seconds + `|` + number + ` +to +` + amps + ` +over +` + seconds + `|` + amps + `)`
		return object{"anyOf": []any{text(positive(quantity.Current)), object{"type": "array", "minItems": 1, "items": text(step)}}}
	case "start":
		return text(`(?:[hH]ottest +terminal +)?` + quantity.Pattern(quantity.Temperature, quantity.AnySign))
	case "limits":
		return oneOrMore(text(`(?:` + quantity.Pattern(quantity.Temperature, quantity.AnySign) + `|` + positive(quantity.Rise) + `(?: +rise)?|[tT]ouch +` + seconds + `)`))
	case "measured":
		return text(`(?:` + positive(quantity.Resistance) + `|` + positive(quantity.Voltage) + ` +at +` + positive(quantity.Current) + `)`)
	case "melts":
		point := positive(quantity.Current) + ` +in +` + seconds
		return oneOrMore(text(point + `(?: *; *` + point + `)*`))
	case "at rated":
		return text(`(?:` + positive(quantity.Resistance) + `|(?:` + positive(quantity.Voltage) + `|` + positive(quantity.Power) + `)(?: +at +` + positive(quantity.Current) + `)?)`)
	}
	return text(pattern(quantity.Kind(f.is)))
}

// signOf is what the bounds of a key leave of the number line.
func signOf(f field) quantity.Sign {
	switch {
	case strings.HasPrefix(f.above, "0 "):
		return quantity.Positive
	case strings.HasPrefix(f.least, "0 "):
		return quantity.NotNegative
	}
	return quantity.AnySign
}

func text(pattern string) object {
	return object{"type": "string", "pattern": `^\s*(?:` + pattern + `)\s*$`}
}

func oneOrMore(value object) object {
	return object{"anyOf": []any{value, object{"type": "array", "minItems": 1, "items": value}}}
}

// words offers words for completion and lets any letter case pass.
func words(allowed []string) object {
	return object{"anyOf": []any{object{"enum": allowed}, text(anyCase(allowed))}}
}

// anyCase matches each of the words, and temperatures among them in any
// spelling of their unit.
func anyCase(words []string) string {
	var forms []string
	for _, w := range words {
		var b strings.Builder
		for _, r := range w {
			switch lower, upper := unicode.ToLower(r), unicode.ToUpper(r); {
			case r == ' ':
				b.WriteString(` +`)
			case lower != upper:
				b.WriteString(`[` + string(lower) + string(upper) + `]`)
			default:
				b.WriteString(regexp.QuoteMeta(string(r)))
			}
		}
		forms = append(forms, b.String())
		if v, err := quantity.Parse(quantity.Temperature, w); err == nil && v.Unit == "°C" {
			number, _, _ := strings.Cut(w, " ")
			fahrenheit, _, _ := strings.Cut(quantity.Format(quantity.Temperature, v.SI, "°F", 0), " ")
			forms = append(forms, regexp.QuoteMeta(number)+` *(?:[°º˚]? ?C|[dD][eE][gG] ?[cC])`, regexp.QuoteMeta(fahrenheit)+` *(?:[°º˚]? ?F|[dD][eE][gG] ?[fF])`)
		}
	}
	return `(?:` + strings.Join(forms, "|") + `)`
}

// tableNames lists the names and aliases of a table of package materials.
func tableNames(table string) []string {
	var names []string
	add := func(name string, aliases []string) { names = append(append(names, name), aliases...) }
	switch table {
	case "metal":
		for _, r := range materials.Metals() {
			add(r.Name, r.Aliases)
		}
	case "plating":
		for _, r := range materials.Platings() {
			add(r.Name, r.Aliases)
		}
	case "face state":
		for _, r := range materials.FaceStates() {
			add(r.Name, r.Aliases)
		}
	case "finish":
		for _, r := range materials.Finishes() {
			add(r.Name, r.Aliases)
		}
	case "insulation":
		for _, r := range materials.Insulations() {
			add(r.Name, r.Aliases)
		}
		names = slices.DeleteFunc(names, func(name string) bool { return strings.Trim(name, "0123456789") == "" })
	case "fastener":
		for _, r := range materials.Fasteners() {
			add(r.Name, nil)
		}
	case "property class":
		for _, r := range materials.PropertyClasses() {
			add(r.Name, r.Aliases)
		}
	case "thread condition":
		for _, r := range materials.ThreadConditions() {
			add(r.Name, r.Aliases)
		}
	case "tightening":
		for _, r := range materials.Tightenings() {
			add(r.Name, r.Aliases)
		}
	}
	return names
}
