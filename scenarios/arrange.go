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

// on is what a side of the part offers.
func (p place) on(side int) end {
	if side == 0 {
		return p.entry
	}
	return p.exit
}

// postKinds sit on a body and own one stud.
var postKinds = []string{"battery post", "inverter terminal", "terminal"}

// twoStudKinds own a stud at either end.
var twoStudKinds = []string{"high-capacity holder", "battery switch", "shunt"}

func isPost(item *Item) bool   { return slices.Contains(postKinds, item.Kind) }
func isWasher(item *Item) bool { return item.Kind == "washer" || item.Kind == "steel washer" }
func isBusBar(item *Item) bool { return item.Kind == "bus bar" }

// ownsStuds says whether a kind has a stud on either side.
func ownsStuds(item *Item) bool { return isBusBar(item) || slices.Contains(twoStudKinds, item.Kind) }

// arrangement is a path with each part in its place.
type arrangement struct {
	*layout
	places []place
}

// arrange gives each item of the path its place, and what does not fit.
func (f *File) arrange() (*arrangement, []Problem) {
	n, problems := f.meet()
	a := &arrangement{layout: n, places: make([]place, len(f.Path))}
	for i := range f.Path {
		a.places[i] = a.placeOf(i)
	}
	problems = append(problems, f.checkGroups()...)
	problems = append(problems, a.checkEnds()...)
	return a, append(problems, a.checkMeetings()...)
}

// placeOf is the place of one item, those before it being known.
func (a *arrangement) placeOf(i int) place {
	item := &a.file.Path[i]
	first, last := a.free(i, 0), a.free(i, 1)
	switch {
	case isPost(item) && first:
		return place{entry: nothing, exit: stud}
	case isPost(item):
		return place{entry: stud, exit: nothing}
	case ownsStuds(item):
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
		if !a.studBefore(i) && a.studAfter(i) {
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

// studBefore says whether a part before i ends in a stud.
func (a *arrangement) studBefore(i int) bool {
	return slices.ContainsFunc(a.across(i, 0), func(s seat) bool { return a.places[s.item].exit == stud })
}

// studAfter says whether a part after i begins with a stud.
func (a *arrangement) studAfter(i int) bool {
	return slices.ContainsFunc(a.across(i, 1), func(s seat) bool {
		item := &a.file.Path[s.item]
		return isPost(item) || ownsStuds(item)
	})
}

// checkGroups looks at where batteries and circuits stand.
func (f *File) checkGroups() (problems []Problem) {
	for w := range f.Ways {
		runs := f.Ways[w].runs
		for k, run := range runs {
			if run.group < 0 {
				continue
			}
			g := &f.groups[run.group]
			switch {
			case g.kind == BatteryWay && (w > 0 || k > 0):
				problems = append(problems, f.problemAt(g.pos, "batteries can only be the first of the path").
					hint("the current comes from them: put them first"))
			case g.kind == CircuitWay && (w > 0 || k < len(runs)-1):
				problems = append(problems, f.problemAt(g.pos, "circuits can only be the last of the path").
					hint("the current ends in them; what comes after a part of them belongs into their paths"))
			}
		}
	}
	return problems
}

// checkEnds looks at the beginning and the end of the path, and at posts
// within it.
func (a *arrangement) checkEnds() (problems []Problem) {
	f := a.file
	loose := map[int]bool{}
	for _, free := range [][]seat{a.begins, a.ends} {
		for _, s := range free {
			for _, w := range s.washers {
				loose[w] = true
			}
		}
	}
	for _, w := range a.lost {
		loose[w] = true
	}
	for i := range f.Path {
		if f.taken[f.Path[i].Way] {
			continue
		}
		item, p := &f.Path[i], a.places[i]
		first, last := a.free(i, 0), a.free(i, 1)
		free := p.entry == stud && first || p.exit == stud && last
		unheld := first && p.entry == hole || last && p.exit == hole
		switch {
		case isPost(item) && !first && !last:
			problems = append(problems, f.problemAt(item.Pos, "a %s cannot stand within the path", item.Kind).hint("%s", withinHint(item)))
		case isWasher(item):
			if loose[i] {
				problems = append(problems, f.problemAt(item.Pos, "a washer lies between two faces").
					hint("put it between the two parts that press on it"))
			}
		case free && slices.Contains(a.short, i):
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

// withinHint says what to do about a post within the path.
func withinHint(item *Item) string {
	hint := "the current comes from a body or goes into it: put the " + item.Kind + " first or last"
	if item.Kind == "terminal" {
		hint += "; a row of studs on which cables meet is a bus bar: \"- bus bar: copper\""
	}
	return hint
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

// checkMeetings looks at what meets under each nut.
func (a *arrangement) checkMeetings() (problems []Problem) {
	f := a.file
	for _, m := range a.meetings {
		seats := m.seats()
		var bares, studs []int // of seats
		misplaced := false     // a post stands where it cannot, which is told
		for k, s := range seats {
			switch a.places[s.item].on(s.side) {
			case bare:
				bares = append(bares, k)
			case stud:
				studs = append(studs, k)
			}
			misplaced = misplaced || isPost(&f.Path[s.item]) && !a.free(s.item, 0) && !a.free(s.item, 1)
		}
		item := func(k int) *Item { return &f.Path[seats[k].item] }
		other := func(k int) int { // a part that the k-th meets
			if k < len(m.before) {
				return len(m.before)
			}
			return 0
		}
		switch {
		case len(bares) > 0:
			k := bares[0]
			problems = append(problems, f.problemAt(bareAt(item(k)), "the cable has no lug where it meets the %s", item(other(k)).Kind).hint("%s", bareHint))
		case misplaced:
		case len(studs) > 1:
			problems = append(problems, f.problemAt(item(studs[1]).Pos, "two studs meet here: that of the %s and that of the %s", item(studs[0]).Kind, item(studs[1]).Kind).
				hint("a stud clamps a face with a hole: put a link bar or a cable between them"))
		case len(studs) == 0:
			k := other(0)
			problems = append(problems, f.problemAt(item(k).Pos, "no stud clamps these: %s and %s both have a hole only", faceWord(item(0)), faceWord(item(k))).
				hint("put a part with a stud between them: a battery switch, a holder or a bus bar"))
		}
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
