package scenarios

import (
	"fmt"
	"slices"

	"clampheat/model"
)

// This file says what the ways of a file have become in its stack, and takes one
// out: a fuse has blown, a lug has come loose.

// WayInfo is a way in the stack.
type WayInfo struct {
	Name   string // with the names of the ways that it lies in; "" for the main way
	Kind   WayKind
	Parent int // index in File.Ways; −1 for the main way
	Group  int // ways side by side have the same; −1 for the main way
	// Parts and Joints are its own, as indices in the stack's. A joint that
	// lies on another counts with the way of the part that is joined on.
	Parts, Joints []int
	// Draw is the index in Stack.Draws of a circuit's draw; −1 for none.
	Draw int
}

// Ways are the ways of the file, as indexed there.
func (s *Scenario) Ways() []WayInfo {
	out := make([]WayInfo, len(s.ways))
	for i, w := range s.ways {
		w.Parts, w.Joints = slices.Clone(w.Parts), slices.Clone(w.Joints)
		out[i] = w
	}
	return out
}

// wayInfos collects them from a stack that was made.
func (r *resolver) wayInfos() []WayInfo {
	f := r.file
	out := make([]WayInfo, len(f.Ways))
	for i := range f.Ways {
		out[i] = WayInfo{Name: f.fullName(i), Kind: f.Ways[i].Kind, Parent: f.Ways[i].Parent, Draw: -1,
			Group: slices.IndexFunc(f.groups, func(g group) bool { return slices.Contains(g.ways, i) })}
		if draw, own := r.drawOf[i]; own {
			out[i].Draw = draw
		}
	}
	for part, item := range r.partItem {
		way := &out[f.Path[item].Way]
		way.Parts = append(way.Parts, part)
	}
	for joint, way := range r.jointWay {
		out[way].Joints = append(out[way].Joints, joint)
	}
	return out
}

// WayError is a way that cannot be taken out.
type WayError struct {
	Way    int
	Reason string
}

func (e *WayError) Error() string {
	return fmt.Sprintf("the way %d cannot be taken out: %s", e.Way, e.Reason)
}

// Opened is the scenario without one of its ways and all ways within it, and its
// stack, as if the file had never had it; what else there is keeps its names, and
// the ways that are left their index. Errors: a *WayError for the main way or one
// that does not exist; as those of Stack where what is left does not hold together,
// as when the others lie on its stud.
func (s *Scenario) Opened(way int) (*Scenario, *model.Stack, error) {
	f := *s.File
	if way <= 0 || way >= len(f.Ways) {
		return nil, nil, &WayError{way, "the file has no such branch"}
	}
	f.taken = map[int]bool{}
	for w := range f.Ways {
		f.taken[w] = w == way || w > 0 && f.taken[f.Ways[w].Parent]
	}
	r, err := f.resolved(nil)
	if err != nil {
		return nil, nil, err
	}
	changed := *s
	changed.File = &f
	changed.PartItems, changed.BoltItems, changed.ways = r.partItem, r.boltItem, r.wayInfos()
	return &changed, r.stack, nil
}

// WithItem is the scenario with one more part in front of the one with an index
// in File.Path, on its way; for the stack of a what-if case: all else that the
// scenario tells is as without it.
func (s *Scenario) WithItem(at int, item Item) *Scenario {
	changed := *s
	changed.File = s.File.withItem(at, item)
	return &changed
}

func (f *File) withItem(at int, item Item) *File {
	changed := *f
	item.Way = f.Path[at].Way
	changed.Path = slices.Insert(slices.Clone(f.Path), at, item)
	changed.Ways = slices.Clone(f.Ways)
	for w := range changed.Ways {
		way := &changed.Ways[w]
		way.Items, way.runs = slices.Clone(way.Items), slices.Clone(way.runs)
		for k := range way.Items {
			if way.Items[k] >= at {
				way.Items[k]++
			}
		}
		for k := range way.runs {
			if way.runs[k].item >= at {
				way.runs[k].item++
			}
		}
		if w != item.Way {
			continue
		}
		k := slices.IndexFunc(way.runs, func(r run) bool { return r.item == at+1 })
		way.runs = slices.Insert(way.runs, k, run{at, -1})
		way.Items = slices.Insert(way.Items, slices.Index(way.Items, at+1), at)
	}
	return &changed
}
