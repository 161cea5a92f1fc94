package scenarios

// This file says which kinds of part a path is made of, what stands behind
// the kind's own word, and which keys go with it.

// What the value of a kind's own key is.
const (
	ofFastener  = "fastener"  // M8
	ofGeneric   = "generic"   // the generic part of that kind
	ofMetal     = "metal"     // copper, or copper, tin-plated
	ofConductor = "conductor" // 1/0 AWG
	ofNames     = "names"     // A B C D
	ofPaths     = "paths"     // names, each with a path
	ofCircuits  = "circuits"  // names, each with a current and a path
)

// kind is one kind of part.
type kind struct {
	name string
	of   string
	need []string // keys that may not be missing
	keys []string // the other keys that go with it
	doc  string
}

// Groups of keys that go together.
var (
	fastenerKeys = []string{"class", "thread", "tightened", "clamp kept", "faces", "plating", "measured"}
	surfaceKeys  = []string{"finish", "surface", "exposed"}
	postKeys     = []string{"metal", "length", "diameter", "resistance", "body takes", "body heat capacity", "case"}
	bodyKeys     = []string{"metal", "section", "length", "lies", "resistance"}
	fuseKeys     = []string{"fuse drop", "fuse element rise", "interrupting rating", "melts"}
	everyKeys    = []string{"name", "limit", "price", "size", "mass"}
)

func keys(groups ...[]string) []string {
	var all []string
	for _, g := range groups {
		all = append(all, g...)
	}
	return all
}

// kinds lists the kinds in the order in which messages offer them.
var kinds = []kind{
	{
		name: "battery post", of: ofFastener, need: []string{"nut"},
		keys: keys(fastenerKeys, surfaceKeys, postKeys, everyKeys),
		doc:  "A stud on a battery, with its nut.",
	},
	{
		name: "inverter terminal", of: ofFastener, need: []string{"nut"},
		keys: keys(fastenerKeys, surfaceKeys, postKeys, everyKeys),
		doc:  "A stud on an inverter, with its nut.",
	},
	{
		name: "terminal", of: ofFastener, need: []string{"nut"},
		keys: keys(fastenerKeys, surfaceKeys, postKeys, everyKeys),
		doc:  "A stud on any other body, with its nut.",
	},
	{
		name: "compact holder", of: ofGeneric, need: []string{"fuse", "nut"},
		keys: keys([]string{"stud"}, fastenerKeys, fuseKeys, surfaceKeys, bodyKeys, []string{"cover"}, everyKeys),
		doc:  "A fuse holder bolted on a stud; its one nut clamps base, fuse and lug.",
	},
	{
		name: "high-capacity holder", of: ofGeneric, need: []string{"fuse", "nuts"},
		keys: keys([]string{"stud"}, fastenerKeys, fuseKeys, surfaceKeys, bodyKeys, []string{"cover", "case"}, everyKeys),
		doc:  "A fuse holder with two studs on a base; each nut clamps one end of a bolted fuse.",
	},
	{
		name: "link bar", of: ofMetal, need: []string{"section", "length"},
		keys: keys([]string{"faces", "plating"}, surfaceKeys, []string{"lies", "resistance", "bars", "gap"}, everyKeys),
		doc:  "A short bar with a hole at each end, clamped by the studs of its neighbours.",
	},
	{
		name: "bar", of: ofMetal, need: []string{"section", "length"},
		keys: keys([]string{"faces", "plating"}, surfaceKeys, []string{"lies", "resistance", "bars", "gap"}, everyKeys),
		doc:  "A long bar with a hole at each end, clamped by the studs of its neighbours.",
	},
	{
		name: "battery switch", of: ofGeneric, need: []string{"nuts"},
		keys: keys([]string{"stud"}, fastenerKeys, surfaceKeys, bodyKeys, []string{"cover"}, everyKeys),
		doc:  "A switch with two studs.",
	},
	{
		name: "shunt", of: ofGeneric, need: []string{"nuts"},
		keys: keys([]string{"stud"}, fastenerKeys, surfaceKeys, bodyKeys, []string{"cover"}, everyKeys),
		doc:  "A measuring resistor with two studs.",
	},
	{
		name: "cable", of: ofConductor, need: []string{"length"},
		keys: keys([]string{"insulation", "wall", "strands", "tinned", "lugs", "crimp resistance", "goes on", "lies", "exposed", "bundle", "conduit", "finish", "faces", "plating"}, everyKeys),
		doc:  "A cable with a crimped lug at each end.",
	},
	{
		name: "block", of: ofMetal, need: []string{"section", "length"},
		keys: keys([]string{"faces", "plating"}, surfaceKeys, []string{"lies", "resistance"}, everyKeys),
		doc:  "A block or pad of metal between two faces.",
	},
	{
		name: "steel washer", of: ofFastener,
		keys: keys([]string{"faces", "plating", "length", "diameter", "metal"}, everyKeys),
		doc:  "A steel washer that has got between two faces; length is its thickness.",
	},
	{
		name: "washer", of: ofFastener, need: []string{"metal"},
		keys: keys([]string{"faces", "plating", "length", "diameter"}, everyKeys),
		doc:  "A washer of another metal that has got between two faces; length is its thickness.",
	},
	{
		name: "bus bar", of: ofMetal, need: []string{"section", "studs", "spacing", "nuts"},
		keys: keys([]string{"stud", "return"}, fastenerKeys, surfaceKeys, []string{"length", "lies", "bars", "gap"}, everyKeys),
		doc:  "A bar with a row of studs, each with a nut; batteries, branches and circuits land on the stud of their name, the incoming cable on 'in', the outgoing on 'out'.",
	},
	{
		name: "batteries", of: ofNames, need: []string{"each"},
		keys: []string{"voltage", "internal resistance"},
		doc:  "Several batteries side by side, each with the same path to where they meet.",
	},
	{
		name: "branches", of: ofPaths,
		doc: "Several paths side by side between the same two points.",
	},
	{
		name: "circuits", of: ofCircuits,
		doc: "Several paths that go off side by side, each with a current of its own.",
	},
}

// phrase names the kind with its article, for messages.
func (k kind) phrase() string {
	if groupKinds[k.name] != "" {
		return k.name
	}
	return "a " + k.name
}

// kindNamed returns the kind with a name.
func kindNamed(name string) (kind, bool) {
	for _, k := range kinds {
		if k.name == name {
			return k, true
		}
	}
	return kind{}, false
}

// kindNames lists the kinds.
func kindNames() []string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = k.name
	}
	return names
}

// goesWith lists the kinds that a key goes with.
func goesWith(key string) []string {
	var names []string
	for _, k := range kinds {
		if k.allows(key) {
			names = append(names, k.name)
		}
	}
	return names
}

// allows says whether a key goes with the kind.
func (k kind) allows(key string) bool {
	for _, group := range [][]string{k.need, k.keys} {
		for _, known := range group {
			if known == key {
				return true
			}
		}
	}
	return false
}
