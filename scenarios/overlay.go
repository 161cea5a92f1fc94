package scenarios

import "slices"

// This file lays what a variant changes over the tree of its file. Parts of
// alike batteries are written once, so that a change of one is a change of all.

// overlay is a file's tree on the way to a variant's.
type overlay struct {
	*reader
	root  *node
	swaps map[*node][]*node // within the path, what takes a node's place
}

// target is what a variant calls by a name.
type target struct {
	node *node
	kind string // of a part or of ways side by side; "" for one of branches or circuits
	path *node  // of a circuit, its path
}

// ofFile lays a key of the file over it. One that says what the stack carries
// takes the place of any other that does; keys of its own are laid over those
// that are there.
func (o *overlay) ofFile(key string, p pair) {
	if slices.Contains(loadKeys, key) {
		gone := append(slices.Clone(loadKeys), "repeats")
		if key == "current" {
			gone = append(gone, "source resistance") // of a power
		}
		for _, other := range gone {
			if other != key {
				o.root = o.root.without(other)
			}
		}
	}
	if own := o.root.get(key); own != nil && own.shape == mapping && p.value.shape == mapping {
		if field, ok := fieldNamed(fileFields(), key); ok {
			merged := *own
			merged.pairs = slices.Clone(own.pairs)
			o.lay(&merged, p.value.pairs, keyedFields[field.is]())
			p.value = &merged
		}
	}
	o.root.put(p, fileFields())
}

// keyedFields are the keys of what stands in a file as keys of its own.
var keyedFields = map[string]func() []field{"enclosure": boxFields, "return": returnFields}

// part lays the change of one part over the path.
func (o *overlay) part(p pair) {
	path := o.root.get("path")
	if path == nil || path.shape != list || o.file.dropped || len(o.file.Path) == 0 {
		return // the path's own mistakes are told
	}
	at, ok := o.find(p.key)
	if !ok {
		return
	}
	if _, twice := o.swaps[at.node]; twice {
		o.mistake(p.key.pos, "%q is changed twice in this variant", p.key.text)
		return
	}
	changed := &node{shape: at.node.shape, pairs: slices.Clone(at.node.pairs), items: at.node.items, pos: at.node.pos}
	fields := itemFields()
	if at.path != nil {
		fields = circuitFields()
	}
	switch change := p.value; {
	case change.told:
	case change.empty:
		o.mistake(p.key.pos, "%q has no value", p.key.text).hint("below it stands what changes, for example \"nut: 4.2 N·m\"")
	case at.kind == "" && change.shape == list:
		if at.path == nil {
			changed = change
		} else {
			changed.put(pair{&node{text: "path", pos: p.key.pos}, change}, fields)
		}
	case at.kind == "" && (change.shape == scalar || at.path == nil):
		o.mistake(change.pos, "%q is changed by a list of parts", p.key.text).hint("to change one part of it, write that part's name")
	case change.shape == list:
		o.mistake(change.pos, "a part is changed by keys, not by a list").hint("to put other parts in its place write \"%s:\" before the list", replaceKey)
	case change.shape == scalar:
		changed.put(pair{&node{text: at.kind, pos: p.key.pos}, change}, nil)
	case change.get(replaceKey) != nil:
		o.replace(at.node, change)
		return
	default:
		o.lay(changed, change.pairs, fields)
	}
	o.swaps[at.node] = []*node{changed}
}

// lay lays pairs over those of a mapping.
func (o *overlay) lay(over *node, pairs []pair, fields []field) {
	for i, own := range pairs {
		if again := slices.IndexFunc(pairs[:i], func(q pair) bool { return q.key.text == own.key.text }); again >= 0 {
			o.mistake(own.key.pos, "%q stands here twice", own.key.text).hint("it is in line %d already; keep one of them", pairs[again].key.pos.Line)
			continue
		}
		over.put(own, fields)
	}
}

// replace puts other parts in the place of one.
func (o *overlay) replace(at, change *node) {
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
// outputs or, where there is one such, by its kind; or ways side by side, or one
// of them by its name.
func (o *overlay) find(key *node) (at target, ok bool) {
	f := o.file
	names := f.names()
	for i := range f.Path {
		if names.labels[i] == key.text && !o.shared(i) {
			return target{node: f.Path[i].from, kind: f.Path[i].Kind}, true
		}
	}
	var found []target
	var same []string
	add := func(t target, label string) {
		if !slices.ContainsFunc(found, func(other target) bool { return other.node == t.node }) {
			found, same = append(found, t), append(same, label)
		}
	}
	for i := range f.Path {
		if names.short[i] == key.text || f.Path[i].Kind == key.text {
			label := names.labels[i]
			if o.shared(i) {
				label = names.short[i]
			}
			add(target{node: f.Path[i].from, kind: f.Path[i].Kind}, label)
		}
	}
	for g := range f.groups {
		if kind := groupWord(f.groups[g].kind); kind == key.text {
			add(target{node: f.groups[g].from, kind: kind}, kind)
		}
	}
	for w := range f.Ways {
		if way := &f.Ways[w]; way.from != nil && (way.Name == key.text || f.fullName(w) == key.text) {
			add(target{node: way.from, path: way.from.get("path")}, f.fullName(w))
		}
	}
	switch len(found) {
	case 1:
		return found[0], true
	case 0:
		o.nothingCalled(key, names)
		return target{}, false
	}
	o.mistake(key.pos, "the path has %d parts of the kind %q", len(found), key.text).allow(same...).
		hint("write which, or give it a name with \"name:\"")
	return target{}, false
}

// shared says whether a part is written once for several batteries.
func (o *overlay) shared(i int) bool {
	n := 0
	for k := range o.file.Path {
		if o.file.Path[k].from == o.file.Path[i].from {
			n++
		}
	}
	return n > 1
}

// groupWord is the word of the file for ways side by side.
func groupWord(kind WayKind) string {
	for word, k := range groupKinds {
		if k == kind {
			return word
		}
	}
	return ""
}

// nothingCalled tells of a key that names nothing.
func (o *overlay) nothingCalled(key *node, names naming) {
	f := o.file
	for i := range f.Path {
		if names.labels[i] == key.text {
			o.mistake(key.pos, "the batteries are alike, so that %q cannot change alone", key.text).
				hint("write %q to change it at all of them", names.short[i])
			return
		}
	}
	var labels []string
	for i := range f.Path {
		label := names.labels[i]
		if o.shared(i) {
			label = names.short[i]
		}
		if !slices.Contains(labels, label) {
			labels = append(labels, label)
		}
	}
	known := slices.Clone(labels)
	for i := range f.Path {
		known = append(known, f.Path[i].Kind)
	}
	for w := range f.Ways {
		if f.Ways[w].from != nil {
			known = append(known, f.Ways[w].Name)
		}
	}
	for word := range groupKinds {
		known = append(known, word)
	}
	slices.Sort(known[len(labels):])
	p := o.mistake(key.pos, "%q is neither a part of the path nor a key of the file", key.text)
	if guess := near(key.text, append(known, keysOf(fileFields())...)); guess != "" {
		p.hint("did you mean %q?", guess)
	} else {
		p.allow(labels...)
	}
}

// done is the tree of the variant.
func (o *overlay) done() *node {
	if len(o.swaps) == 0 {
		return o.root
	}
	for i := range o.root.pairs {
		if o.root.pairs[i].key.text == "path" {
			o.root.pairs[i].value = o.swapped(o.root.pairs[i].value)
		}
	}
	return o.root
}

// swapped is a node with all that is changed within it.
func (o *overlay) swapped(n *node) *node {
	out := *n
	out.items, out.pairs = nil, nil
	for _, item := range n.items {
		swap, ok := o.swaps[item]
		if !ok {
			swap = []*node{item}
		}
		for _, s := range swap {
			out.items = append(out.items, o.swapped(s))
		}
	}
	for _, p := range n.pairs {
		if swap, ok := o.swaps[p.value]; ok && len(swap) == 1 {
			p.value = swap[0]
		}
		out.pairs = append(out.pairs, pair{p.key, o.swapped(p.value)})
	}
	return &out
}
