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
//   - the keys to change or to add,
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
	v := Variant{file: &File{Name: r.file.Name, lines: r.file.lines}, first: n.pos.Line, last: n.lastLine()}
	o := overlay{reader: r, root: root.without("variants"), swaps: map[int][]*node{}}
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
			o.root.put(p, fileFields())
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

// overlay is a file's tree on the way to a variant's.
type overlay struct {
	*reader
	root  *node
	swaps map[int][]*node // of the path, what takes an item's place
}

// part lays the change of one part over the path.
func (o *overlay) part(p pair) {
	path := o.root.get("path")
	if path == nil || path.shape != list || o.file.dropped || len(path.items) != len(o.file.Path) {
		return // the path's own mistakes are told
	}
	at, ok := o.find(p.key)
	if !ok {
		return
	}
	if _, twice := o.swaps[at]; twice {
		o.mistake(p.key.pos, "%q is changed twice in this variant", p.key.text)
		return
	}
	item := &node{shape: mapping, pairs: slices.Clone(path.items[at].pairs), pos: path.items[at].pos}
	switch change := p.value; {
	case change.told:
	case change.empty:
		o.mistake(p.key.pos, "%q has no value", p.key.text).hint("below it stands what changes, for example \"nut: 4.2 N·m\"")
	case change.shape == list:
		o.mistake(change.pos, "a part is changed by keys, not by a list").hint("to put other parts in its place write \"%s:\" before the list", replaceKey)
	case change.shape == scalar:
		kind := o.file.Path[at].Kind
		item.put(pair{&node{text: kind, pos: p.key.pos}, change}, nil)
	case change.get(replaceKey) != nil:
		o.replace(at, change)
		return
	default:
		for i, own := range change.pairs {
			if again := slices.IndexFunc(change.pairs[:i], func(q pair) bool { return q.key.text == own.key.text }); again >= 0 {
				o.mistake(own.key.pos, "%q stands here twice", own.key.text).hint("it is in line %d already; keep one of them", change.pairs[again].key.pos.Line)
				continue
			}
			item.put(own, itemFields())
		}
	}
	o.swaps[at] = []*node{item}
}

// replace puts other parts in the place of one.
func (o *overlay) replace(at int, change *node) {
	for _, own := range change.pairs {
		if own.key.text != replaceKey {
			o.mistake(own.key.pos, "beside %q nothing else can change", replaceKey).hint("write it with the parts in the list")
			return
		}
	}
	items := change.get(replaceKey)
	if items.shape != list {
		if !items.told {
			o.mistake(items.pos, "%q takes a list of parts", replaceKey).hint("begin each part with \"- \"; an empty list, [], leaves the part out")
		}
		return
	}
	o.swaps[at] = items.items
}

// find is the part that a variant calls by its name, by the label of the
// outputs or, where there is one such, by its kind.
func (o *overlay) find(key *node) (at int, ok bool) {
	labels := o.file.labels()
	var kinds []int
	for i := range o.file.Path {
		if labels[i] == key.text {
			return i, true
		}
		if o.file.Path[i].Kind == key.text {
			kinds = append(kinds, i)
		}
	}
	switch len(kinds) {
	case 1:
		return kinds[0], true
	case 0:
		known := slices.Clone(labels)
		for i := range o.file.Path {
			known = append(known, o.file.Path[i].Kind)
		}
		p := o.mistake(key.pos, "%q is neither a part of the path nor a key of the file", key.text)
		if guess := near(key.text, append(known, keysOf(fileFields())...)); guess != "" {
			p.hint("did you mean %q?", guess)
		} else {
			p.allow(slices.Compact(labels)...)
		}
		return 0, false
	}
	var same []string
	for _, i := range kinds {
		same = append(same, labels[i])
	}
	o.mistake(key.pos, "the path has %d parts of the kind %q", len(kinds), key.text).allow(same...).
		hint("write which, or give it a name with \"name:\"")
	return 0, false
}

// done is the tree of the variant.
func (o *overlay) done() *node {
	path := o.root.get("path")
	if path == nil || len(o.swaps) == 0 {
		return o.root
	}
	changed := &node{shape: list, pos: path.pos}
	for i, item := range path.items {
		if swap, ok := o.swaps[i]; ok {
			changed.items = append(changed.items, swap...)
		} else {
			changed.items = append(changed.items, item)
		}
	}
	for i := range o.root.pairs {
		if o.root.pairs[i].key.text == "path" {
			o.root.pairs[i].value = changed
		}
	}
	return o.root
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
