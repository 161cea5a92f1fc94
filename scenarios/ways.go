package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// This file turns the path as it is written, in which batteries, branches and
// circuits hold paths of their own, into one list of parts and the ways that
// the current takes through them.

// WayKind says how a way came about.
type WayKind string

const (
	MainWay    WayKind = "main"    // the path of the file itself
	BatteryWay WayKind = "battery" // from one battery to where the batteries meet
	BranchWay  WayKind = "branch"  // one of several between the same two points
	CircuitWay WayKind = "circuit" // goes off with a current of its own
)

// Way is a run of parts one after the other. Ways that stand side by side have
// the same parent and the same place in it.
type Way struct {
	Name   string // "" for the main way
	Kind   WayKind
	Parent int   // index in File.Ways; −1 for the main way
	Items  []int // indices in File.Path of its own parts, not those of ways within it
	Pos    Pos
	// Voltage and Internal resistance of a battery, where the file gives them.
	Voltage, Internal Quantity
	// Current of a circuit.
	Current Supply

	runs []run
	from *node // of branches and circuits, of the tree
}

// run is one thing of a way: a part, or ways side by side.
type run struct{ item, group int } // −1 for none

// group is ways side by side.
type group struct {
	kind WayKind
	ways []int
	pos  Pos
	from *node
}

// lane is one entry of branches or circuits as it is written.
type lane struct {
	name    Word
	current Supply
	path    []Item
	from    *node
}

// groupKinds are the entries of a path that hold paths of their own.
var groupKinds = map[string]WayKind{"batteries": BatteryWay, "branches": BranchWay, "circuits": CircuitWay}

// fullName is the name of a way with those of the ways that it lies in.
func (f *File) fullName(way int) string {
	var names []string
	for ; way > 0; way = f.Ways[way].Parent {
		names = append(names, f.Ways[way].Name)
	}
	slices.Reverse(names)
	return strings.Join(names, ": ")
}

// mostParts is how many parts a file may have: each assumption of each part is
// solved for at both ends of its range, which grows with the square.
const mostParts = 200

// size counts the parts that a written path comes to.
func size(path []Item) int {
	n := 0
	for i := range path {
		switch item := &path[i]; {
		case item.Kind == "batteries":
			n += len(item.names.List) * size(item.Each)
		case item.lanes != nil:
			for _, l := range item.lanes {
				n += size(l.path)
			}
		default:
			n++
		}
	}
	return n
}

// lay lays the written path out.
func (r *reader) lay() {
	f := r.file
	written := f.Path
	f.Path, f.Ways, f.groups = nil, []Way{{Kind: MainWay, Parent: -1}}, nil
	if n := size(written); n > mostParts {
		r.mistake(written[0].Pos, "the path has %d parts", n).hint("a stack of up to %d parts is computed; split it where a long cable lets no heat through", mostParts)
		f.dropped = true
		return
	}
	f.layWay(0, written)
}

func (f *File) layWay(way int, path []Item) {
	for i := range path {
		item := path[i]
		kind, grouped := groupKinds[item.Kind]
		if !grouped {
			item.Way = way
			f.Ways[way].Items = append(f.Ways[way].Items, len(f.Path))
			f.Ways[way].runs = append(f.Ways[way].runs, run{len(f.Path), -1})
			f.Path = append(f.Path, item)
			continue
		}
		g := len(f.groups)
		f.groups = append(f.groups, group{kind: kind, pos: item.Pos, from: item.from})
		f.Ways[way].runs = append(f.Ways[way].runs, run{-1, g})
		for k, name := range item.names.List {
			own := Way{Name: name.Text, Kind: kind, Parent: way, Pos: name.Pos,
				Voltage: oneFor(item.Voltage, k), Internal: oneFor(item.Internal, k)}
			f.layGroup(g, own, item.Each)
		}
		for _, l := range item.lanes {
			f.layGroup(g, Way{Name: l.name.Text, Kind: kind, Parent: way, Pos: l.name.Pos, Current: l.current, from: l.from}, l.path)
		}
	}
}

func (f *File) layGroup(g int, own Way, path []Item) {
	f.groups[g].ways = append(f.groups[g].ways, len(f.Ways))
	f.Ways = append(f.Ways, own)
	f.layWay(len(f.Ways)-1, path)
}

// oneFor takes the k-th of a list, or the one for all.
func oneFor(list []Quantity, k int) Quantity {
	switch {
	case len(list) == 1:
		return list[0]
	case k < len(list):
		return list[k]
	}
	return Quantity{}
}

// hasCircuits says whether the file's circuits draw currents of their own.
func (f *File) hasCircuits() bool {
	return slices.ContainsFunc(f.groups, func(g group) bool { return g.kind == CircuitWay })
}

// batteries reads how many there are against the lists that tell of each.
func (r *reader) batteries(item *Item) {
	for _, l := range []struct {
		key  string
		list []Quantity
	}{{"voltage", item.Voltage}, {"internal resistance", item.Internal}} {
		if n := len(item.names.List); n > 0 && len(l.list) > 1 && len(l.list) != n {
			r.mistake(l.list[0].Pos, "%q has %d values, but there are %d batteries", l.key, len(l.list), n).
				hint("one value for all, or one for each in their order")
		}
	}
}

const (
	branchesHint = `below "branches:" stands each branch by its name with its parts: "left: [{cable: 1/0 AWG, length: 1 m}]"`
	circuitsHint = `below "circuits:" stands each circuit by its name with its current and its parts: "fridge: {current: 15 A, path: [{cable: 6 mm², length: 3 m}]}"`
)

// lanes reads what stands behind "branches" or "circuits".
func (r *reader) lanes(kind string, n *node) []lane {
	hint := branchesHint
	if kind == "circuits" {
		hint = circuitsHint
	}
	if n.shape != mapping || len(n.pairs) == 0 {
		if !n.told {
			r.mistake(n.pos, "%s are written as names with their parts", kind).hint("%s", hint)
		}
		return nil
	}
	if len(n.pairs) > mostNames {
		r.mistake(n.pairs[mostNames].key.pos, "there are %d %s here; at most %d are computed", len(n.pairs), kind, mostNames)
		return nil
	}
	if kind == "branches" && len(n.pairs) == 1 {
		r.mistake(n.pairs[0].key.pos, "one branch alone stands beside nothing").hint("write its parts into the path itself, without \"branches\", or add the other branch")
	}
	seen := map[string]Pos{}
	out := []lane{}
	for _, p := range n.pairs {
		name, ok := r.key(p)
		if !ok || r.full() || !r.nameFits(name, p.key.pos) || !r.ownName(name, p.key.pos) {
			continue
		}
		if first, twice := seen[name]; twice {
			r.mistake(p.key.pos, "%q stands here twice", name).hint("it is in line %d already; each has a name of its own", first.Line)
			continue
		}
		seen[name] = p.key.pos
		l := lane{name: Word{Text: name, Set: true, Pos: p.key.pos}, from: p.value}
		switch {
		case p.value.told:
			continue
		case p.value.empty:
			r.mistake(p.key.pos, "%q has no value", name).hint("%s", hint)
			continue
		case kind == "circuits":
			l.current, l.path = r.circuit(p)
		default:
			l.path = r.path(p)
		}
		out = append(out, l)
	}
	return out
}

// circuit is what the file says of one circuit.
type circuit struct {
	Current Supply `key:"current" is:"supply" need:"yes" doc:"The current of the circuit, or a list of steps; they do not repeat."`
	Path    []Item `key:"path" is:"path" need:"yes" doc:"The parts of the circuit in the order in which its current meets them."`
}

func (r *reader) circuit(p pair) (Supply, []Item) {
	var out circuit
	if p.value.shape != mapping {
		r.mistake(p.value.pos, "a circuit has a current and a path").hint("%s", circuitsHint)
		return out.Current, nil
	}
	before := r.inCircuit
	r.inCircuit = true
	r.fields(reflect.ValueOf(&out).Elem(), circuitFields(), p.value.pairs, nil)
	r.inCircuit = before
	r.missing(p.value, p.key.pos, fmt.Sprintf("the circuit %q", p.key.text), circuitFields(), nil)
	return out.Current, out.Path
}
