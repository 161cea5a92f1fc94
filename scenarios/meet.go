package scenarios

import "slices"

// This file finds which parts meet: the neighbours within a way, and at either
// end of ways side by side all that begin or end there. On a bus bar each stud
// is a meeting of its own.

// seat is one side of a part in a meeting.
type seat struct {
	item int
	side int // 1 where the current leaves the part, 0 where it enters it
	stud int // of a bus bar
	// washers of a way that begins or ends here, in the order of the path.
	washers []int
	// ways that begin or end with the part here, the innermost first.
	ways []int
}

// meeting is what lies on each other under one nut.
type meeting struct {
	before, after []seat
	between       []int // washers
}

func (m meeting) seats() []seat { return slices.Concat(m.before, m.after) }

// layout is all meetings of a path in its order, and its free ends.
type layout struct {
	file         *File
	meetings     []meeting
	begins, ends []seat
	lost         []int    // washers of ways without any other part
	short        []int    // bus bars that lack a stud, which is told
	at           [][2]int // of each item and side the meeting, the first on a bus bar; −1 for none
}

// studIn and studOut are the studs of a bus bar that a path enters and leaves
// by.
const (
	studIn  = "in"
	studOut = "out"
)

// meet finds the meetings. The problems are studs that a bus bar does not have.
func (f *File) meet() (*layout, []Problem) {
	n := &layout{file: f, at: make([][2]int, len(f.Path))}
	n.begins, n.ends = n.walk(0)
	problems := n.split()
	for i := range n.at {
		n.at[i] = [2]int{-1, -1}
	}
	for k, m := range n.meetings {
		for _, s := range m.seats() {
			if at := &n.at[s.item][s.side]; *at < 0 {
				*at = k
			}
		}
	}
	return n, problems
}

// walk goes along a way, and gives the seats that it begins and ends with.
func (n *layout) walk(way int) (first, last []seat) {
	var between []int
	for _, run := range n.file.Ways[way].runs {
		if run.item >= 0 && isWasher(&n.file.Path[run.item]) {
			between = append(between, run.item)
			continue
		}
		at := len(n.meetings)
		firsts, lasts := n.seatsOf(run)
		if len(firsts) == 0 {
			continue // told by the reader
		}
		if first == nil {
			first = firsts
			first[0].washers = append(between, first[0].washers...)
		} else {
			n.meetings = slices.Insert(n.meetings, at, meeting{before: last, between: between, after: firsts})
		}
		last, between = lasts, nil
	}
	if last == nil {
		n.lost = append(n.lost, between...)
	} else {
		last[0].washers = append(last[0].washers, between...)
	}
	if way > 0 {
		for _, side := range [][]seat{first, last} {
			for k := range side {
				side[k].ways = append(side[k].ways, way)
			}
		}
	}
	return first, last
}

// seatsOf are the seats of one thing of a way.
func (n *layout) seatsOf(r run) (firsts, lasts []seat) {
	if r.item >= 0 {
		return []seat{{item: r.item, side: 0}}, []seat{{item: r.item, side: 1}}
	}
	for _, way := range n.file.groups[r.group].ways {
		if n.file.taken[way] {
			continue
		}
		first, last := n.walk(way)
		firsts, lasts = append(firsts, first...), append(lasts, last...)
	}
	return firsts, lasts
}

// split parts the meetings on bus bars by studs.
func (n *layout) split() (problems []Problem) {
	var out []meeting
	for _, m := range n.meetings {
		switch {
		case len(m.after) == 1 && n.busBar(m.after[0]) && !(len(m.before) == 1 && n.busBar(m.before[0])):
			parts, told := n.onStuds(m.after[0], m.before, studIn)
			for _, p := range parts {
				out = append(out, meeting{before: p.seats, between: m.between, after: []seat{p.bar}})
				m.between = nil
			}
			problems = append(problems, told...)
		case len(m.before) == 1 && n.busBar(m.before[0]):
			parts, told := n.onStuds(m.before[0], m.after, studOut)
			for _, p := range parts {
				out = append(out, meeting{before: []seat{p.bar}, between: m.between, after: p.seats})
				m.between = nil
			}
			problems = append(problems, told...)
		default:
			// A bus bar at the beginning or the end of one of several ways.
			for k := range m.before {
				problems = append(problems, n.ownStud(&m.before[k], studOut)...)
			}
			for k := range m.after {
				problems = append(problems, n.ownStud(&m.after[k], studIn)...)
			}
			out = append(out, m)
		}
	}
	n.meetings = out
	return problems
}

func (n *layout) busBar(s seat) bool { return isBusBar(&n.file.Path[s.item]) }

// landing is what lands on one stud of a bus bar.
type landing struct {
	bar   seat
	seats []seat
}

// onStuds says on which stud of a bar each seat lands: that with the name of its
// way, else the one that a path enters or leaves by.
func (n *layout) onStuds(bar seat, seats []seat, usual string) (out []landing, problems []Problem) {
	studs := n.file.Path[bar.item].Studs.List
	for _, s := range seats {
		stud := studNamed(studs, usual)
		var must *Way // a battery or a circuit lands on the stud of its name
		for k := len(s.ways) - 1; k >= 0; k-- {
			way := &n.file.Ways[s.ways[k]]
			if at := studNamed(studs, way.Name); at >= 0 {
				stud = at
			}
			if way.Kind != BranchWay {
				must = way
			}
		}
		if must != nil {
			stud = studNamed(studs, must.Name)
		}
		if stud < 0 {
			switch {
			case len(studs) == 0: // told by the reader
			case must != nil:
				problems = append(problems, n.noStudOf(must, studs))
			default:
				problems = append(problems, n.noStud(bar, &n.file.Path[s.item], usual))
			}
			n.short = append(n.short, bar.item)
			continue
		}
		bar.stud = stud
		if k := slices.IndexFunc(out, func(l landing) bool { return l.bar.stud == stud }); k >= 0 {
			out[k].seats = append(out[k].seats, s)
		} else {
			out = append(out, landing{bar, []seat{s}})
		}
	}
	return out, problems
}

func studNamed(studs []Word, name string) int {
	return slices.IndexFunc(studs, func(w Word) bool { return w.Text == name })
}

// ownStud gives a bus bar that begins or ends a way its stud.
func (n *layout) ownStud(s *seat, usual string) []Problem {
	if !n.busBar(*s) {
		return nil
	}
	studs := n.file.Path[s.item].Studs.List
	if s.stud = studNamed(studs, usual); s.stud >= 0 || len(studs) == 0 {
		return nil
	}
	return []Problem{n.noStud(*s, &n.file.Path[s.item], usual)}
}

// noStud tells that a bar lacks the stud that a path enters or leaves by.
func (n *layout) noStud(bar seat, item *Item, name string) Problem {
	studs := n.file.Path[bar.item].Studs
	comes, example := "incoming", "studs: "+name+" "+studs.List[0].Text+" …"
	if name == studOut {
		comes, example = "outgoing", "studs: "+studs.List[0].Text+" … "+name
	}
	return n.file.problemAt(studs.Pos, "the bus bar has no stud %q, on which the %s %s lands", name, comes, item.Kind).
		hint("the part before a bus bar lands on the stud %q, the part after it on %q: name it where it sits along the bar, for example %q", studIn, studOut, example)
}

// noStudOf tells that a bar lacks the stud of a battery or a circuit.
func (n *layout) noStudOf(way *Way, studs []Word) Problem {
	var names []string
	for _, s := range studs {
		if s.Text != studIn && s.Text != studOut {
			names = append(names, s.Text)
		}
	}
	p := n.file.problemAt(way.Pos, "the bus bar has no stud %q for the %s of that name", way.Name, way.Kind)
	if guess := near(way.Name, names); guess != "" {
		return p.hint("did you mean %q?", guess)
	}
	return p.allow(names...).hint("each %s lands on the stud of its name: write it into %q, where it sits along the bar", way.Kind, "studs")
}

// free says whether nothing meets a side of an item.
func (n *layout) free(item, side int) bool { return n.at[item][side] < 0 }

// across are the seats that an item meets on a side, those of parts beside it
// left out.
func (n *layout) across(item, side int) []seat {
	at := n.at[item][side]
	switch {
	case at < 0:
		return nil
	case side == 0:
		return n.meetings[at].before
	}
	return n.meetings[at].after
}
