package scenarios

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strconv"
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
		definitions[k.name] = partSchema(k, definitions)
		parts = append(parts, reference(k.name))
	}
	definitions["path"] = object{"type": "array", "minItems": 1, "items": object{"oneOf": parts}}
	root := mappingSchema(fileFields(), nil, definitions)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "A terminal stack and the current through it"
	root["description"] = "Every quantity is written with its unit."
	root["$defs"] = definitions
	root["oneOf"] = loadSchema()
	variantSchema(root, definitions, parts)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(root)
	return b.Bytes(), err
}

// loadSchema asks for one of the keys that say what the stack carries, or for
// none where the path ends in circuits.
func loadSchema() []any {
	var one []any
	var none []any
	for _, key := range loadKeys {
		one = append(one, object{"required": []string{key}})
		none = append(none, object{"required": []string{key}})
	}
	circuits := object{"properties": object{"path": object{"contains": object{"required": []string{"circuits"}}}},
		"not": object{"anyOf": none}}
	return append(one, circuits)
}

// variantSchema describes the variants: keys of the file, or a part by its name
// or kind with the keys to change. What a change makes of a part only the
// reader sees.
func variantSchema(root, definitions object, parts []any) {
	change := mappingSchema(itemFields(), nil, definitions)
	delete(change, "required")
	properties := change["properties"].(object)
	for _, k := range kinds {
		properties[k.name] = ofSchema(k)
	}
	for _, f := range circuitFields() {
		if f.is != "path" {
			properties[f.key] = valueSchema(f)
		}
	}
	properties["path"] = reference("path")
	properties[replaceKey] = object{"type": "array", "items": object{"oneOf": parts},
		"description": "Parts that take its place; an empty list leaves it out."}
	definitions["change of a part"] = change

	own := object{"name": object{"type": []string{"string", "number", "boolean"}, "description": "What outputs call the variant."}}
	for key, value := range root["properties"].(object) {
		if key != "variants" {
			own[key] = value
		}
	}
	// What a variant says of a box or a return cable is laid over the file's.
	for key, fields := range map[string][]field{"enclosure": boxFields(), "return": returnFields()} {
		part := mappingSchema(fields, nil, nil)
		delete(part, "required")
		part["description"] = describe(fileFields(), key)
		own[key] = part
		if key == "enclosure" {
			own[key] = object{"anyOf": []any{part, words([]string{noBox})}}
		}
	}
	root["properties"].(object)["variants"] = object{
		"description": describe(fileFields(), "variants"), "type": "array", "minItems": 1, "maxItems": mostVariants,
		"items": object{"type": "object", "required": []string{"name"}, "properties": own,
			"additionalProperties": object{"anyOf": []any{reference("change of a part"), reference("path"), object{"type": []string{"string", "number"}}}}},
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
		value := valueSchema(f)
		if f.is == "path" {
			value = reference("path")
		}
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
	case ofNames:
		return namesSchema(text(`[^:]*[^:\s,][^:]*`))
	case ofPaths:
		return object{"type": "object", "minProperties": 2, "maxProperties": mostNames,
			"propertyNames": object{"pattern": `^[^:]*$`, "maxLength": 40}, "additionalProperties": reference("path")}
	case ofCircuits:
		return object{"type": "object", "minProperties": 1, "maxProperties": mostNames,
			"propertyNames": object{"pattern": `^[^:]*$`, "maxLength": 40}, "additionalProperties": mappingSchema(circuitFields(), nil, nil)}
	}
	return words(tableNames(k.of))
}

// valueSchema describes the value of a key.
func valueSchema(f field) object {
	pattern := func(kind quantity.Kind) string { return quantity.Pattern(kind, signOf(f)) }
	positive := func(kind quantity.Kind) string { return quantity.Pattern(kind, quantity.Positive) }
	seconds := positive(quantity.Time)
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
		if f.from == "property class" {
			value["anyOf"] = append(value["anyOf"].([]any), object{"enum": numbersAmong(tableNames(f.from))}) // 8.8 without quotes
		}
		if f.from == "finish" {
			value["anyOf"] = append(value["anyOf"].([]any), text(`[eE]missivity +(?:0*[.][0-9]*[1-9][0-9]*|0*1[.]?0*)`))
		}
		return value
	case "section":
		length := pattern(quantity.Length)
		return text(quantity.NumberPattern(signOf(f)) + ` *(?:` + quantity.UnitPattern(quantity.Length) + `)? *(?:[×xX*]| by ) *` + length)
	case "torques", "voltages", "resistances":
		return oneOrMore(text(pattern(kindOfQuantity(f.is))))
	case "supply":
		return stepsSchema(text(positive(quantity.Current)), quantity.Current, quantity.NotNegative, true)
	case "power supply":
		return stepsSchema(text(positive(quantity.Power)), quantity.Power, quantity.NotNegative, true)
	case "air":
		value := text(`(?:` + quantity.Pattern(quantity.Temperature, quantity.AnySign) + `|` + anyCase([]string{fromLog}) + `)`)
		return stepsSchema(value, quantity.Temperature, quantity.AnySign, true)
	case "duty":
		list := func(kind quantity.Kind) object {
			return object{"type": "array", "minItems": 1, "items": text(stepPattern(kind, quantity.NotNegative, false))}
		}
		return object{"anyOf": []any{list(quantity.Current), list(quantity.Power)}}
	case "log":
		return object{"type": []string{"string", "number"}}
	case "enclosure":
		return object{"anyOf": []any{mappingSchema(boxFields(), nil, nil), words([]string{noBox})}}
	case "vents":
		vent := positive(quantity.Area)
		return text(`(?:` + vent + `|` + vent + ` +low *, *` + vent + ` +high|` + vent + ` +high *, *` + vent + ` +low)`)
	case "names":
		return namesSchema(text(`[^:]*[^:\s,][^:]*`))
	case "labels":
		return oneOrMore(object{"type": []string{"string", "number", "boolean"}})
	case "bunch":
		return text(`0*(?:[2-9]|1[0-9]|2[0-4]) +` + anyCase([]string{"touching", "round"}))
	case "pipe":
		return text(positive(quantity.Length) + ` +` + anyCase(pipeWords) + `(?: *, *[0-9]+ +[cC]ables)?`)
	case "count":
		return object{"type": "integer", "minimum": 1, "maximum": 10}
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

// namesSchema describes names in one text or in a list.
func namesSchema(one object) object {
	return object{"anyOf": []any{one, object{"type": "array", "minItems": 1, "maxItems": mostNames,
		"items": object{"type": []string{"string", "number", "boolean"}}}}}
}

// stepPattern matches a step; open lets the time be left out.
func stepPattern(kind quantity.Kind, sign quantity.Sign, open bool) string {
	value, seconds := quantity.Pattern(kind, sign), quantity.Pattern(quantity.Time, quantity.Positive)
	number := quantity.NumberPattern(sign) + ` *(?:` + quantity.UnitPattern(kind) + `)?`
	step := value + ` +for +` + seconds + `|` + number + ` +to +` + value + ` +over +` + seconds
	if open {
		step += `|` + value
	}
	return `(?:` + step + `)`
}

// stepsSchema describes one value or a list of steps.
func stepsSchema(one object, kind quantity.Kind, sign quantity.Sign, open bool) object {
	return object{"anyOf": []any{one, object{"type": "array", "minItems": 1, "items": text(stepPattern(kind, sign, open))}}}
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

// numbersAmong are the words that an editor takes for numbers.
func numbersAmong(words []string) (numbers []float64) {
	for _, w := range words {
		if n, err := strconv.ParseFloat(w, 64); err == nil {
			numbers = append(numbers, n)
		}
	}
	return numbers
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
	case "wall":
		for _, r := range materials.WallMaterials() {
			add(r.Name, r.Aliases)
		}
	case "tightening":
		for _, r := range materials.Tightenings() {
			add(r.Name, r.Aliases)
		}
	}
	return names
}
