package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// This file walks the tree of a file beside the tagged types and collects
// every mistake on the way.

// Parse reads a scenario file. Name is what messages call it. The error is a
// *Problems with every mistake of the file, sorted by place; warnings come
// back on the File. Parse checks words, units and bounds; whether the parts
// fit each other is checked by Read.
func Parse(name string, data []byte) (*File, error) {
	f, mistakes := parse(nil, name, data)
	if err := asError(mistakes); err != nil {
		return nil, err
	}
	return f, nil
}

// parse reads what it can, so that further checks can run on a file that has
// mistakes.
func parse(files Files, name string, data []byte) (*File, []Problem) {
	f := &File{Name: name, files: files, Ways: []Way{{Kind: MainWay, Parent: -1}}}
	root, problems := f.decode(data)
	r := reader{file: f, problems: problems}
	switch {
	case root == nil:
	case root.empty:
		r.mistake(root.pos, "the file is empty").hint(`a scenario has at least "current", "air" and "path"`)
	case root.shape != mapping:
		r.mistake(root.pos, "a scenario is written as keys with values").hint(`begin with "title: …", "current: 140 A", "air: 25 °C", "path:"`)
	default:
		r.whole(root)
		r.variants(root)
	}
	mistakes, warnings := sortOut(r.problems)
	f.Warnings = warnings
	return f, mistakes
}

// whole reads a file's mapping.
func (r *reader) whole(root *node) {
	r.fields(reflect.ValueOf(r.file).Elem(), fileFields(), root.pairs, nil)
	r.missing(root, root.pos, "the file", fileFields(), nil)
	r.openLog(root)
	r.lay()
	r.loads(root)
}

type reader struct {
	file     *File
	problems []Problem
	// inCircuit: the keys of a circuit are being read.
	inCircuit bool
}

// mistake notes a problem; what it returns takes words and a hint.
func (r *reader) mistake(pos Pos, format string, args ...any) *noted {
	return r.note(r.file.problemAt(pos, format, args...))
}

// A file that is no scenario at all could fill hours with guesses: after
// mostNoted problems no more are noted.
func (r *reader) note(p Problem) *noted {
	if r.full() {
		return &noted{}
	}
	r.problems = append(r.problems, p)
	return &noted{r, len(r.problems) - 1}
}

const mostNoted = 2000

func (r *reader) full() bool { return len(r.problems) >= mostNoted }

// noted is a problem in the list, to be completed; without a reader it is one
// too many.
type noted struct {
	reader *reader
	at     int
}

func (n *noted) hint(format string, args ...any) *noted {
	if n.reader != nil {
		n.reader.problems[n.at].Hint = fmt.Sprintf(format, args...)
	}
	return n
}

func (n *noted) allow(words ...string) *noted {
	if n.reader != nil {
		n.reader.problems[n.at].Allowed = words
	}
	return n
}

// fields reads the pairs of a mapping into the tagged fields of a struct. For
// an item, part is its kind; its own key has been read.
func (r *reader) fields(target reflect.Value, fields []field, pairs []pair, part *kind) {
	seen := map[string]Pos{}
	for _, p := range pairs {
		key, ok := r.key(p)
		if !ok || r.full() {
			continue
		}
		if part != nil && key == part.name {
			if first, twice := seen[key]; twice {
				r.mistake(p.key.pos, "%q stands here twice", key).hint("it is in line %d already; a new part begins with \"- \"", first.Line)
			}
			seen[key] = p.key.pos
			continue
		}
		f, known := fieldNamed(fields, key)
		if !known {
			if f, known = fieldNamed(fields, r.unknownKey(p, key, fields, part)); known {
				r.aside(target, f, p)
			}
			continue
		}
		if first, twice := seen[f.key]; twice {
			r.mistake(p.key.pos, "%q stands here twice", key).hint("it is in line %d already; keep one of them", first.Line)
			continue
		}
		seen[f.key] = p.key.pos
		if part != nil && part.name != "" && !part.allows(f.key) {
			r.wrongKey(p, f, part)
			r.aside(target, f, p)
			continue
		}
		r.value(target.Field(f.index), f, p)
	}
}

// key returns the text of a key.
func (r *reader) key(p pair) (string, bool) {
	if p.key.shape != scalar || p.key.empty {
		r.mistake(p.key.pos, "a key is a word")
		return "", false
	}
	return p.key.text, true
}

// aside reads a value for its own mistakes only: its key is wrong, but what it
// holds is known.
func (r *reader) aside(target reflect.Value, f field, p pair) {
	if p.value.empty {
		return
	}
	r.value(reflect.New(target.Field(f.index).Type()).Elem(), f, p)
}

// unknownKey tells that a key is none, and returns the one that was probably
// meant, "" for none.
func (r *reader) unknownKey(p pair, key string, fields []field, part *kind) string {
	if key == "<<" {
		r.mistake(p.key.pos, "a merge (\"<<\") cannot be used here").hint(repeatHint)
		return ""
	}
	if part != nil {
		if _, isKind := kindNamed(key); isKind {
			r.mistake(p.key.pos, "a second part begins here, within %s", part.phrase()).hint("begin each part with \"- \": \"- %s: …\"", key)
			return ""
		}
	}
	n := r.mistake(p.key.pos, "unknown key %q", key)
	known := keysOf(fields)
	if part != nil && part.name != "" {
		known = keys(part.need, part.keys)
	}
	if key != "" && '0' <= key[0] && key[0] <= '9' && p.value.empty {
		n.hint("between braces a comma parts the entries; write a decimal point")
		return ""
	}
	if strings.EqualFold(key, "emissivity") && slices.Contains(known, "finish") {
		n.hint("write \"finish: emissivity 0.4\"")
		return ""
	}
	guess := near(key, known)
	if guess == "" && slices.Contains(known, meant[strings.ToLower(key)]) {
		guess = meant[strings.ToLower(key)]
	}
	switch {
	case guess != "":
		n.hint("did you mean %q?", guess)
	case part == nil && r.inCircuit && (slices.Contains(loadKeys, key) || key == "repeats"):
		n.hint("a circuit draws a current, one value or steps that do not repeat").allow(known...)
	case part == nil && near(key, keysOf(itemFields())) != "":
		n.hint("%q belongs to a part of the path", near(key, keysOf(itemFields())))
	case part != nil && near(key, keysOf(fileFields())) != "":
		n.hint("%q stands at the top of the file, not with a part", near(key, keysOf(fileFields())))
	default:
		n.allow(known...)
	}
	return guess
}

// wrongKey tells that a key goes with other kinds of part.
func (r *reader) wrongKey(p pair, f field, part *kind) {
	n := r.mistake(p.key.pos, "%q does not go with a %s", p.key.text, part.name)
	switch others := goesWith(f.key); {
	case f.key == "nut" && part.allows("nuts"):
		n.hint("a %s has more than one stud: write \"nuts\"", part.name)
	case f.key == "nuts" && part.allows("nut"):
		n.hint("a %s has one stud: write \"nut\"", part.name)
	case f.key == "nut" || f.key == "nuts":
		n.hint("a %s has no stud; the nut stands on the part that owns the stud", part.name)
	case len(others) > 0:
		n.hint("it goes with: %s", strings.Join(others, ", "))
	}
}

// missing tells which needed keys are not there. Mistyped ones count as there.
func (r *reader) missing(n *node, at Pos, owner string, fields []field, part *kind) {
	var have []string
	if r.full() {
		return
	}
	for _, p := range n.pairs {
		if p.key.shape == scalar {
			have = append(have, p.key.text)
		}
	}
	for _, f := range fields {
		need := f.need
		if part != nil {
			need = slices.Contains(part.need, f.key)
		}
		if !need || slices.Contains(have, f.key) || (f.also != "" && slices.Contains(have, f.also)) || mistyped(f.key, have, fields) {
			continue
		}
		r.mistake(at, "%s needs %q", owner, f.key).hint("%s", f.doc)
	}
}

// mistyped says whether one of the keys is a slip of the wanted one, so that a
// slip is not told twice.
func mistyped(want string, have []string, fields []field) bool {
	for _, h := range have {
		if _, known := fieldNamed(fields, h); known {
			// nut for nuts and nuts for nut are told as a wrong key.
			if (want == "nut" && h == "nuts") || (want == "nuts" && h == "nut") {
				return true
			}
			continue
		}
		if _, isKind := kindNamed(h); !isKind && (near(h, []string{want}) != "" || meant[strings.ToLower(h)] == want) {
			return true
		}
	}
	return false
}

// path reads a list of parts.
func (r *reader) path(p pair) []Item {
	if p.value.shape != list {
		r.mistake(p.value.pos, "the path is a list of parts").hint("begin each part with \"- \", for example \"- battery post: M8\"")
		return nil
	}
	if len(p.value.items) == 0 {
		r.mistake(p.key.pos, "the path has no parts")
	}
	if n := len(p.value.items); n > mostParts {
		r.mistake(p.value.items[mostParts].pos, "the path has %d parts", n).hint("a stack of up to %d parts is computed; split it where a long cable lets no heat through", mostParts)
		return nil
	}
	var items []Item
	for _, n := range p.value.items {
		if r.full() {
			break
		}
		if item, ok := r.item(n); ok {
			items = append(items, item)
		} else {
			r.file.dropped = true
		}
	}
	return items
}

// item reads one part; ok is false where its kind is not known.
func (r *reader) item(n *node) (item Item, ok bool) {
	if n.shape != mapping || len(n.pairs) == 0 {
		p := r.mistake(n.pos, "a part is written as its kind with a value")
		if guess := near(n.text, kindNames()); guess != "" {
			p.hint("write for example \"- %s: %s\"", guess, ofExample(guess))
		} else {
			p.allow(kindNames()...)
		}
		return item, false
	}
	part, own := r.kindOf(n)
	item.from = n
	if part.name != "" {
		item.Kind, item.Pos = part.name, own.key.pos
		r.own(&item, part, own)
	}
	target := reflect.ValueOf(&item).Elem()
	pairs := n.pairs
	if part.name == "" {
		pairs = slices.DeleteFunc(slices.Clone(pairs), func(p pair) bool { return p.key == own.key })
	}
	r.fields(target, itemFields(), pairs, &part)
	if part.name == "" {
		return item, false
	}
	r.missing(n, item.Pos, part.phrase(), itemFields(), &part)
	r.batteries(&item)
	return item, true
}

// own reads what stands behind the word of a kind.
func (r *reader) own(item *Item, part kind, own pair) {
	switch {
	case own.value.told:
		r.file.dropped = r.file.dropped || groupKinds[part.name] != ""
	case part.of == ofNames && !own.value.empty:
		item.names = r.names("batteries", own.value, true)
		r.file.dropped = r.file.dropped || !item.names.Set
	case (part.of == ofPaths || part.of == ofCircuits) && !own.value.empty:
		item.lanes = r.lanes(part.name, own.value)
		r.file.dropped = r.file.dropped || len(item.lanes) == 0
	default:
		item.Of = r.of(part, own)
		r.file.dropped = r.file.dropped || groupKinds[part.name] != ""
	}
}

// kindOf finds the pair that names the kind: any of the pairs, though most
// people write it first. Where there is none the kind has no name, and the
// pair that was meant for it has been told of.
func (r *reader) kindOf(n *node) (part kind, own pair) {
	for _, p := range n.pairs {
		if k, ok := kindNamed(p.key.text); ok && p.key.shape == scalar {
			return k, p
		}
	}
	first := n.pairs[0]
	if _, isKey := fieldNamed(itemFields(), first.key.text); isKey {
		r.mistake(first.key.pos, "this entry does not say what part it is").hint("begin it with the kind, for example \"- cable: 1/0 AWG\"").allow(kindNames()...)
		return kind{}, pair{}
	}
	p := r.mistake(first.key.pos, "unknown kind of part %q", first.key.text)
	if guess := near(first.key.text, kindNames()); guess != "" {
		p.hint("did you mean %q?", guess)
	} else {
		p.allow(kindNames()...)
	}
	return kind{}, first
}
