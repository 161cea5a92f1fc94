package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// This file names the parts: for outputs, each once, and for assumptions, where
// alike parts side by side rest on one.

// naming is what the parts are called.
type naming struct {
	labels []string // for outputs
	short  []string // without the name of the way
	where  []string // in assumptions
}

// names names all items.
func (f *File) names() naming {
	n := naming{make([]string, len(f.Path)), make([]string, len(f.Path)), make([]string, len(f.Path))}
	type key struct {
		way   int
		label string
	}
	count := map[key]int{}
	for i := range f.Path {
		item := &f.Path[i]
		label := item.Kind
		switch {
		case item.Label.Set:
			label = item.Label.Text
		case isPost(item), isWasher(item), item.Kind == "cable":
			label += " " + item.Of.Text
		}
		if count[key{item.Way, label}]++; count[key{item.Way, label}] > 1 {
			label = fmt.Sprintf("%s #%d", label, count[key{item.Way, label}])
		}
		n.short[i], n.labels[i] = label, label
		if way := f.fullName(item.Way); way != "" {
			n.labels[i] = way + ": " + label
		}
	}
	for i := range f.Path {
		n.where[i] = f.where(i, n.short)
	}
	return n
}

// where names an item together with those that stand in the ways beside its
// own under the same label: all rest on the same assumptions.
func (f *File) where(i int, short []string) string {
	way := f.Path[i].Way
	if way == 0 {
		return short[i]
	}
	var levels []string
	for w := way; w > 0; w = f.Ways[w].Parent {
		var alike []string
		for _, beside := range f.beside(w) {
			if f.Ways[w].Kind == BatteryWay || w != way ||
				slices.ContainsFunc(f.Ways[beside].Items, func(k int) bool { return short[k] == short[i] }) {
				alike = append(alike, f.Ways[beside].Name)
			}
		}
		if w != way && f.Ways[w].Kind != BatteryWay {
			alike = []string{f.Ways[w].Name}
		}
		levels = append(levels, namesOf(alike))
	}
	slices.Reverse(levels)
	return strings.Join(append(levels, short[i]), ": ")
}

// beside are the ways beside one, with itself.
func (f *File) beside(way int) []int {
	for _, g := range f.groups {
		if slices.Contains(g.ways, way) {
			return g.ways
		}
	}
	return []int{way}
}

// namesOf writes several names short.
func namesOf(names []string) string {
	const few = 3
	if len(names) <= few {
		return strings.Join(names, ", ")
	}
	return names[0] + " … " + names[len(names)-1]
}
