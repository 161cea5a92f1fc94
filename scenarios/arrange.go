package scenarios

import (
	"fmt"
	"slices"
)

// This file checks that the parts of a path fit each other, before anything is
// known of their figures: at each meeting one stud clamps what lies on it.

// end is what a part has to offer where it meets the next.
type end int

const (
	nothing end = iota // the body behind a post
	bare               // a cable that goes on without a lug
	hole               // a face with a hole: lug, bar, base of a compact holder
	stud               // a stud with its nut
	loose              // a washer, which lies on whatever stud there is
)

// place is a part in its surroundings.
type place struct {
	entry, exit end
	// reversed: the current meets the nut side of a compact holder first.
	reversed bool
	// lugs says which ends of a cable have one.
	lugs [2]bool
}

// postKinds sit on a body and own one stud.
var postKinds = []string{"battery post", "inverter terminal", "terminal"}

// twoStudKinds own a stud at either end.
var twoStudKinds = []string{"high-capacity holder", "battery switch", "shunt"}

func isPost(item *Item) bool   { return slices.Contains(postKinds, item.Kind) }
func isWasher(item *Item) bool { return item.Kind == "washer" || item.Kind == "steel washer" }

// arrange gives each item of the path its place, and what does not fit.
func (f *File) arrange() ([]place, []Problem) {
	places := make([]place, len(f.Path))
	for i := range f.Path {
		places[i] = f.placeOf(i, places[:i])
	}
	return places, append(f.checkEnds(places), f.checkMeetings(places)...)
}

// placeOf is the place of one item, those before it being known.
func (f *File) placeOf(i int, before []place) place {
	item := &f.Path[i]
	first, last := i == 0, i == len(f.Path)-1
	switch {
	case isPost(item) && first:
		return place{entry: nothing, exit: stud}
	case isPost(item):
		return place{entry: stud, exit: nothing}
	case slices.Contains(twoStudKinds, item.Kind):
		return place{entry: stud, exit: stud}
	case isWasher(item):
		return place{entry: loose, exit: loose}
	case item.Kind == "cable":
		p := place{entry: hole, exit: hole}
		p.lugs = lugsOf(item, first, last)
		if !p.lugs[0] {
			p.entry = bare
		}
		if !p.lugs[1] {
			p.exit = bare
		}
		return p
	case item.Kind == "compact holder":
		// Its base lies on the stud of a neighbour.
		if !f.studBefore(i, before) && f.studAfter(i) {
			return place{entry: stud, exit: hole, reversed: true}
		}
		return place{entry: hole, exit: stud}
	}
	return place{entry: hole, exit: hole}
}

// lugsOf says which ends of a cable have a lug.
func lugsOf(item *Item, first, last bool) [2]bool {
	switch item.Lugs.Text {
	case "both":
		return [2]bool{true, true}
	case "first":
		return [2]bool{true, false}
	case "last":
		return [2]bool{false, true}
	case "none":
		return [2]bool{}
	}
	return [2]bool{!first, !last}
}

// studBefore says whether the part before i, washers apart, ends in a stud.
func (f *File) studBefore(i int, before []place) bool {
	for k := i - 1; k >= 0; k-- {
		if !isWasher(&f.Path[k]) {
			return before[k].exit == stud
		}
	}
	return false
}

// studAfter says whether the part after i, washers apart, begins with a stud.
func (f *File) studAfter(i int) bool {
	for k := i + 1; k < len(f.Path); k++ {
		if item := &f.Path[k]; !isWasher(item) {
			return isPost(item) || slices.Contains(twoStudKinds, item.Kind)
		}
	}
	return false
}

// checkEnds looks at the beginning and the end of the path, and at posts
// within it.
func (f *File) checkEnds(places []place) (problems []Problem) {
	for i := range f.Path {
		item, p := &f.Path[i], places[i]
		first, last := i == 0, i == len(f.Path)-1
		free := p.entry == stud && first || p.exit == stud && last
		unheld := first && p.entry == hole || last && p.exit == hole
		switch {
		case isPost(item) && !first && !last:
			problems = append(problems, f.problemAt(item.Pos, "a %s cannot stand within the path", item.Kind).
				hint("the current comes from a body or goes into it: put the %s first or last", item.Kind))
		case isWasher(item) && (first || last):
			problems = append(problems, f.problemAt(item.Pos, "a washer lies between two faces").
				hint("put it between the two parts that press on it"))
		case free:
			problems = append(problems, f.problemAt(item.Pos, "nothing lies on the %s of this %s", studOf(p, first), item.Kind).
				hint("add the cable, bar or post that the current %s", comesOrGoes(p.entry == stud && first)))
		case unheld && item.Kind == "compact holder":
			problems = append(problems, f.problemAt(item.Pos, "the base of this compact holder lies on no stud").
				hint("put the part whose stud carries it, a battery post for example, next to it"))
		}
	}
	return problems
}

// studOf names the stud of an item at the beginning or the end of the path.
func studOf(p place, first bool) string {
	switch {
	case p.entry != stud || p.exit != stud:
		return "stud"
	case first:
		return "first stud"
	}
	return "last stud"
}

func comesOrGoes(first bool) string {
	if first {
		return "comes from"
	}
	return "goes on to"
}

// checkMeetings looks at each pair of neighbours.
func (f *File) checkMeetings(places []place) (problems []Problem) {
	before := -1
	for i := range f.Path {
		item := &f.Path[i]
		if isWasher(item) {
			continue
		}
		if before < 0 {
			before = i
			continue
		}
		last := &f.Path[before]
		a, b := places[before].exit, places[i].entry
		switch {
		case a == bare:
			problems = append(problems, f.problemAt(bareAt(last), "the cable has no lug where it meets the %s", item.Kind).hint("%s", bareHint))
		case b == bare:
			problems = append(problems, f.problemAt(bareAt(item), "the cable has no lug where it meets the %s", last.Kind).hint("%s", bareHint))
		case a == stud && b == stud:
			problems = append(problems, f.problemAt(item.Pos, "two studs meet here: that of the %s and that of the %s", last.Kind, item.Kind).
				hint("a stud clamps a face with a hole: put a link bar or a cable between them"))
		case a == hole && b == hole:
			problems = append(problems, f.problemAt(item.Pos, "no stud clamps these: %s and %s both have a hole only", faceWord(last), faceWord(item)).
				hint("put a part with a stud between them, a battery switch or a holder"))
		}
		before = i
	}
	return problems
}

const bareHint = `leave "lugs" out, or write "lugs: both"`

// bareAt is where a cable says that it has no lug.
func bareAt(item *Item) Pos {
	if item.Lugs.Set {
		return item.Lugs.Pos
	}
	return item.Pos
}

// faceWord names the face that a part with a hole offers.
func faceWord(item *Item) string {
	switch item.Kind {
	case "cable":
		return "the cable's lug"
	case "compact holder":
		return "the compact holder's base"
	}
	return fmt.Sprintf("the %s", item.Kind)
}
