package scenarios

import (
	"clampheat/scenarios/quantity"
)

// This file lists the vocabulary for people: what the schema says to an editor,
// a page of help says to a reader, from the same tags and kinds.

// Words are what a scenario file may say.
type Words struct {
	File  []KeyInfo  // keys of the file itself
	Parts []PartInfo // kinds of part, in the order in which messages offer them
	Keys  []KeyInfo  // keys of parts
	// Box are the keys of an enclosure, Circuit those of a circuit.
	Box, Circuit []KeyInfo
	Units        []UnitInfo // kinds of quantity
}

// KeyInfo is a key with what it is, one sentence.
type KeyInfo struct {
	Key   string
	Doc   string
	Words []string // the words allowed, where there is a list of them
	Need  bool     // it may not be missing; of a part's keys see PartInfo
}

// PartInfo is a kind of part.
type PartInfo struct {
	Kind string
	Of   string   // what stands behind the kind, by example
	Doc  string   // one sentence
	Need []string // keys that may not be missing
	Keys []string // the others that go with it
}

// UnitInfo is a kind of quantity with its units: each as it is printed, then
// other ways to type it.
type UnitInfo struct {
	Kind  string
	Units [][]string
}

// examplesOf show what stands behind a kind's own word.
var examplesOf = map[string]string{ofFastener: "M8", ofGeneric: "generic", ofMetal: "copper, tin-plated", ofConductor: "1/0 AWG",
	ofNames: "A B C D", ofPaths: "{left: […], right: […]}", ofCircuits: "{fridge: {current: 15 A, path: […]}}"}

// Vocabulary lists what a scenario file may say today; what is only reserved
// for later is left out.
func Vocabulary() Words {
	v := Words{File: keyInfos(fileFields()), Keys: keyInfos(itemFields()), Box: keyInfos(boxFields()), Circuit: keyInfos(circuitFields())}
	for _, k := range kinds {
		v.Parts = append(v.Parts, PartInfo{k.name, examplesOf[k.of], k.doc, k.need, k.keys})
	}
	for _, kind := range quantity.Kinds() {
		u := UnitInfo{Kind: string(kind)}
		for _, unit := range quantity.Units(kind) {
			u.Units = append(u.Units, append([]string{unit}, typed[unit]...))
		}
		v.Units = append(v.Units, u)
	}
	return v
}

func keyInfos(fields []field) []KeyInfo {
	var list []KeyInfo
	for _, f := range fields {
		if f.later == "" {
			list = append(list, KeyInfo{f.key, f.doc, f.words, f.need})
		}
	}
	return list
}

// typed are the spellings of units that people use most, beside the one that is
// printed. The table of package quantity accepts more.
var typed = map[string][]string{
	"°C": {"C", "degC"}, "°F": {"F", "degF"},
	"N·m": {"Nm", "N*m", "N-m"}, "in·lb": {"in-lb", "inlb", "in lbs", "lbf in"}, "ft·lb": {"ft-lb", "ftlb", "ft lbs", "lbf ft"},
	"mm²": {"mm2"}, "cm²": {"cm2"}, "m²": {"m2"}, "kcmil": {"MCM"}, "in": {`"`, "inch"}, "ft": {"'", "foot", "feet"},
	"µΩ": {"uohm", "microohm"}, "mΩ": {"mohm"}, "Ω": {"ohm"}, "µV": {"uV"},
	"A": {"amp"}, "s": {"sec"}, "h": {"hr"}, "%": {"percent"}, "W/K": {"W/°C"}, "J/K": {"J/°C"}, "km/h": {"kph"},
}
