package scenarios

import (
	"fmt"
	"slices"
)

// This file reads variants: a scenario and what is changed in it, so that one
// short file holds a whole comparison. A variant has a name and then keys of
// the file to replace, or a part of the path, called by its name or its kind,
// with
//
//   - the keys to change or to add, as of a box and a return cable as well,
//   - one value, in place of the one behind the kind's own word, or
//   - "replace with:" and a list of parts that take its place (none to leave it
//     out).
//
// A variant is laid over the tree of the file before anything is read, so that
// it is read, and complained about, by the same code and at its own places.

// mostVariants is how many variants one table can still show.
const mostVariants = 50

// mostPartsRead bounds what a file can ask for: each variant reads all parts.
const mostPartsRead = 10000

const replaceKey = "replace with"

const variantHint = `write "- name: half torque", and below it what changes, for example "compact holder: {nut: 4.2 N·m}"`

// variants reads the variants of a file whose own keys have been read.
func (r *reader) variants(root *node) {
	var p pair
	for _, own := range root.pairs {
		if own.key.shape == scalar && own.key.text == "variants" {
			p = own
		}
	}
	switch {
	case p.value == nil || p.value.told || p.value.empty:
		return
	case p.value.shape != list:
		r.mistake(p.value.pos, "the variants are a list").hint("%s", variantHint)
		return
	case len(p.value.items) == 0:
		r.mistake(p.value.pos, "the list of %q is empty", p.key.text)
	case len(p.value.items) > mostVariants:
		r.mistake(p.value.items[mostVariants].pos, "a file has at most %d variants", mostVariants)
		return
	}
	if len(r.file.Path)*len(p.value.items) > mostPartsRead {
		r.mistake(p.key.pos, "so many variants of so many parts are too much for one file")
		return
	}
	names, base := map[string]Pos{}, slices.Clone(r.problems)
	for _, n := range p.value.items {
		if r.full() {
			return
		}
		v, changed := r.variant(n, root)
		if changed == nil {
			continue
		}
		if first, twice := names[v.Name.Text]; twice {
			r.mistake(v.Name.Pos, "two variants are called %q", v.Name.Text).hint("the other is in line %d", first.Line)
		}
		names[v.Name.Text] = v.Name.Pos
		own := reader{file: v.file}
		own.whole(changed)
		for _, problem := range v.naming(own.problems, base) {
			r.note(problem)
		}
		r.file.Variants.List = append(r.file.Variants.List, v)
	}
}

// variant lays one variant over the file; nil where it cannot be.
func (r *reader) variant(n, root *node) (Variant, *node) {
	if n.shape != mapping || len(n.pairs) == 0 {
		if !n.told {
			r.mistake(n.pos, "a variant is written as its name with what changes").hint("%s", variantHint)
		}
		return Variant{}, nil
	}
	v := Variant{file: &File{Name: r.file.Name, lines: r.file.lines, files: r.file.files}, first: n.pos.Line, last: n.lastLine()}
	o := overlay{reader: r, root: root.without("variants"), swaps: map[*node][]*node{}}
	seen := map[string]Pos{}
	for _, p := range n.pairs {
		key, ok := r.key(p)
		if !ok {
			continue
		}
		if first, twice := seen[key]; twice {
			r.mistake(p.key.pos, "%q stands here twice", key).hint("it is in line %d already; keep one of them", first.Line)
			continue
		}
		seen[key] = p.key.pos
		_, ofFile := fieldNamed(fileFields(), key)
		switch {
		case key == "name":
			v.Name = r.word(field{key: "name"}, p.value)
		case key == "variants":
			r.mistake(p.key.pos, "a variant has no variants of its own")
		case ofFile:
			o.ofFile(key, p)
		default:
			o.part(p)
		}
	}
	if _, named := seen["name"]; !named {
		r.mistake(n.pos, "a variant needs a name").hint("%s", variantHint)
		return Variant{}, nil
	}
	if !v.Name.Set {
		return Variant{}, nil
	}
	return v, o.done()
}

// naming says in problems that stand outside the variant's own lines which
// variant they are about, but for those that the file has without it.
func (v *Variant) naming(problems, known []Problem) []Problem {
	for i := range problems {
		p := &problems[i]
		same := func(k Problem) bool { return k.Line == p.Line && k.Column == p.Column && k.Message == p.Message }
		if (p.Line < v.first || p.Line > v.last) && !slices.ContainsFunc(known, same) {
			p.Message = fmt.Sprintf("in the variant %q: %s", v.Name.Text, p.Message)
		}
	}
	return problems
}

// get is the value of a key, nil for none.
func (n *node) get(key string) *node {
	for _, p := range n.pairs {
		if p.key.shape == scalar && p.key.text == key {
			return p.value
		}
	}
	return nil
}

// put replaces the pair of a key, in either spelling, or adds it.
func (n *node) put(p pair, fields []field) {
	f, _ := fieldNamed(fields, p.key.text)
	for i, own := range n.pairs {
		if own.key.shape == scalar && (own.key.text == p.key.text || (f.key != "" && (own.key.text == f.key || own.key.text == f.also))) {
			n.pairs[i] = p
			return
		}
	}
	n.pairs = append(n.pairs, p)
}

// without is a copy of a mapping that lacks a key.
func (n *node) without(key string) *node {
	out := *n
	out.pairs = slices.DeleteFunc(slices.Clone(n.pairs), func(p pair) bool { return p.key.text == key })
	return &out
}

// lastLine is the line of the last thing in a node.
func (n *node) lastLine() int {
	last := n.pos.Line
	for _, p := range n.pairs {
		last = max(last, p.key.pos.Line, p.value.lastLine())
	}
	for _, item := range n.items {
		last = max(last, item.lastLine())
	}
	return last
}
