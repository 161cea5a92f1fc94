package cli

import (
	"fmt"
	"slices"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios"
)

// This file prints what a scenario file may say, from the vocabulary by which
// files are read.

// fileHelp is the page "help file".
func fileHelp() string {
	v := scenarios.Vocabulary()
	var b strings.Builder
	b.WriteString(`file: what a scenario file may say

A scenario is YAML: keys with their values, and under "path" the parts in the
order in which the current meets them, each a dash, its kind, and its keys.
Every quantity has its unit. "clampheat new" writes a file to start from.

  title: My feed
  current: 140 A
  air: 25 °C
  path:
    - battery post: M8
      nut: 12 N·m
    - cable: 1/0 AWG
      length: 1.5 m
      insulation: 105 °C
    - inverter terminal: M8
      nut: 106 in·lb

What the current does along the way is said in the path as well: "batteries: A B C
D" with the path of "each", "branches" with a path by the name of each, "circuits"
with a current and a path each, on the stud of a bus bar that has their name.

Keys of the file (* may not be missing)
`)
	b.WriteString(keyTable(v.File))
	b.WriteString("\nKeys of enclosure (* may not be missing)\n")
	b.WriteString(keyTable(v.Box))
	b.WriteString("\nKeys of each circuit below circuits (* may not be missing)\n")
	b.WriteString(keyTable(v.Circuit))
	b.WriteString("\nKinds of part\n")
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, p := range v.Parts {
		t.Row(p.Kind+": "+p.Of, p.Doc)
	}
	b.WriteString(t.String(width))
	b.WriteString("\nKeys of each kind (* may not be missing)\n")
	every := shared(v.Parts)
	t = texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	t.Row("every kind", strings.Join(every, ", "))
	for _, p := range v.Parts {
		own := slices.DeleteFunc(slices.Clone(p.Keys), func(key string) bool { return slices.Contains(every, key) })
		t.Row(p.Kind, strings.Join(starred(own, p.Need), ", "))
	}
	b.WriteString(t.String(width))
	b.WriteString("\nWhat the keys of a part are\n")
	b.WriteString(keyTable(v.Keys))
	b.WriteString("\nUnits as they are printed, and other ways to type them\n")
	t = texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, u := range v.Units {
		var list []string
		for _, spellings := range u.Units {
			text := spellings[0]
			if len(spellings) > 1 {
				text += " (" + strings.Join(spellings[1:], ", ") + ")"
			}
			list = append(list, text)
		}
		t.Row(u.Kind, strings.Join(list, "; "))
	}
	b.WriteString(t.String(width))
	b.WriteString("\n" + texttable.Wrap("", `Letter case does not matter where a unit is a word, nor do blanks. A torque "12" without its unit is refused: 12 N·m is 106 in·lb. A rise in °F or °C is a difference, a temperature is not. "clampheat materials" lists the words that name metals, platings, finishes, threads and cables.`, helpWidth))
	return b.String()
}

func keyTable(keys []scenarios.KeyInfo) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, k := range keys {
		doc := k.Doc
		if len(k.Words) > 0 {
			doc = strings.TrimSuffix(doc, ".") + fmt.Sprintf(" (%s).", strings.Join(k.Words, ", "))
		}
		name := k.Key
		if k.Need {
			name += " *"
		}
		t.Row(name, doc)
	}
	return t.String(width)
}

// shared are the keys that go with every kind and are needed by none.
func shared(parts []scenarios.PartInfo) []string {
	if len(parts) == 0 {
		return nil
	}
	var list []string
	for _, key := range parts[0].Keys {
		if !slices.ContainsFunc(parts, func(p scenarios.PartInfo) bool { return !slices.Contains(p.Keys, key) }) {
			list = append(list, key)
		}
	}
	return list
}

// starred marks the keys that may not be missing.
func starred(keys, need []string) []string {
	list := make([]string, 0, len(keys)+len(need))
	for _, k := range need {
		list = append(list, k+" *")
	}
	return append(list, keys...)
}
