package materials

// This file finds a row by the name that a person typed. Case, spaces, hyphens
// and the degree sign do not count; a miss answers with the names that come near.

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// catalogue is a table with names: the rows of one data file, read at first use.
type catalogue[T any] struct {
	kind   string
	labels func(*T) labels
	load   func() ([]T, error)
	index  func() (map[string]int, error)
}

// labels are what a row is found by, and the lists that it holds.
type labels struct {
	name    string
	aliases *[]string
	also    *[]Source
}

// all are the name and then the aliases.
func (l labels) all() []string { return append([]string{l.name}, *l.aliases...) }

func newCatalogue[T any](kind, file string, of func(*T) labels, read func(*row) T) catalogue[T] {
	load := sync.OnceValues(func() ([]T, error) { return readTable(file, read) })
	index := sync.OnceValues(func() (map[string]int, error) {
		list, err := load()
		if err != nil {
			return nil, err
		}
		byName := make(map[string]int)
		for i := range list {
			for _, n := range of(&list[i]).all() {
				key := fold(n)
				if _, twice := byName[key]; twice || key == "" {
					return nil, fmt.Errorf("%s: the name %q is empty or stands for two rows", file, n)
				}
				byName[key] = i
			}
		}
		return byName, nil
	})
	return catalogue[T]{kind: kind, labels: of, load: load, index: index}
}

// all returns a copy of the rows, so that a caller's change stays the caller's.
func (c catalogue[T]) all() []T {
	list, _ := c.load()
	list = slices.Clone(list)
	for i := range list {
		c.part(&list[i])
	}
	return list
}

// part gives a copied row lists of its own.
func (c catalogue[T]) part(item *T) {
	l := c.labels(item)
	*l.aliases, *l.also = slices.Clone(*l.aliases), slices.Clone(*l.also)
}

func (c catalogue[T]) find(name string) (T, error) {
	var none T
	byName, err := c.index()
	if err != nil {
		return none, fmt.Errorf("read the table of the kind %q: %w", c.kind, err)
	}
	list, err := c.load()
	if err != nil {
		return none, fmt.Errorf("read the table of the kind %q: %w", c.kind, err)
	}
	if i, ok := byName[fold(name)]; ok {
		item := list[i]
		c.part(&item)
		return item, nil
	}
	var groups [][]string
	for i := range list {
		groups = append(groups, c.labels(&list[i]).all())
	}
	return none, unknown(c.kind, name, groups)
}

// fold reduces a name to what counts in a comparison.
func fold(name string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '\t', '-', '_', '°', 'º', '\u00a0', '\u2011':
			return -1
		}
		return r
	}, strings.ToLower(name))
}

// mostNear is how many near names an error offers.
const mostNear = 3

// unknown builds the error for a name that is in none of the groups, each a name with its aliases.
func unknown(kind, name string, groups [][]string) *UnknownError {
	e := &UnknownError{Kind: kind, Name: name}
	type near struct {
		name  string
		score int
	}
	var found []near
	wanted := fold(name)
	for _, g := range groups {
		e.All = append(e.All, g[0])
		best := -1
		for _, n := range g {
			if s := likeness(wanted, fold(n)); s >= 0 && (best < 0 || s < best) {
				best = s
			}
		}
		if best >= 0 {
			found = append(found, near{g[0], best})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.score - b.score })
	for _, f := range found[:min(mostNear, len(found))] {
		e.Near = append(e.Near, f.name)
	}
	return e
}

// likeness scores how near a known name comes to the wanted one, 0 best, −1 for
// not at all: a common beginning, then one inside the other, then few typing slips.
func likeness(wanted, known string) int {
	const (
		shortestWanted = 2  // letters below which a part of a name says nothing
		shortestKnown  = 3  // the same for a known name inside a longer one
		slipShare      = 3  // one slip allowed in every so many letters
		longest        = 64 // letters beyond which no table has a name
	)
	if len(wanted) > longest {
		return -1
	}
	a, b := []rune(wanted), []rune(known)
	apart := max(len(a)-len(b), len(b)-len(a))
	if allowed := max(1, len(b)/slipShare); apart <= allowed {
		if slips := distance(a, b); slips <= allowed && slips < len(b) {
			return slips
		}
	}
	begins := len(wanted) >= shortestWanted && strings.HasPrefix(known, wanted)
	within := len(wanted) >= shortestWanted && strings.Contains(known, wanted)
	if len(known) >= shortestKnown {
		begins = begins || strings.HasPrefix(wanted, known)
		within = within || strings.Contains(wanted, known)
	}
	switch {
	case begins:
		return longest + apart
	case within:
		return 2*longest + apart
	}
	return -1
}

// distance counts the letters to insert, drop, replace or swap with a
// neighbour to turn a into b (Damerau 1964, restricted form).
func distance(a, b []rune) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(a)][len(b)]
}
