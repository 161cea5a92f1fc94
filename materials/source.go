package materials

// This file says where a figure comes from, and how sure that is.

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// Basis tells a published figure from an assumed one.
type Basis int

const (
	// Published marks a row whose figures stand in the named source.
	Published Basis = iota
	// Assumed marks a row with at least one figure that no source gives
	// outright; it carries a spread and its ground.
	Assumed
)

// String returns the word that the data files use.
func (b Basis) String() string {
	if b == Assumed {
		return "assumed"
	}
	return "published"
}

// Source is one entry of the list of references.
type Source struct {
	Key  string // short name used by the rows
	Kind string // standard, law, textbook, handbook, paper, practice
	Cite string // author or body, title, year, table or equation
}

// Provenance says where a row comes from.
type Provenance struct {
	Basis  Basis
	Source Source   // the row's main source
	Also   []Source // further sources, where one does not give every figure
	Ground string   // why an assumed figure is what it is; empty when published
	Note   string   // what a reader should know about the figures
}

// Sources returns a copy of the list of references, sorted as in its file.
func Sources() []Source {
	list, _ := references()
	return slices.Clone(list)
}

var references = sync.OnceValues(func() ([]Source, error) {
	return readTable("sources.csv", func(r *row) Source {
		return Source{Key: r.text("key"), Kind: r.text("kind"), Cite: r.text("cite")}
	})
})

var referencesByKey = sync.OnceValues(func() (map[string]Source, error) {
	list, err := references()
	if err != nil {
		return nil, err
	}
	byKey := make(map[string]Source, len(list))
	for _, s := range list {
		if _, twice := byKey[s.Key]; twice {
			return nil, fmt.Errorf("sources.csv lists the key %q twice", s.Key)
		}
		byKey[s.Key] = s
	}
	return byKey, nil
})

// provenance reads the columns basis, source, ground and note of a row.
func (r *row) provenance() Provenance {
	p := Provenance{Ground: r.text("ground"), Note: r.text("note")}
	switch word := r.text("basis"); word {
	case Published.String():
	case Assumed.String():
		p.Basis = Assumed
	default:
		r.fail("basis", fmt.Errorf("%q is neither published nor assumed", word))
	}
	byKey, err := referencesByKey()
	if err != nil {
		r.fail("source", err)
		return p
	}
	for i, key := range splitList(r.text("source")) {
		s, ok := byKey[key]
		switch {
		case !ok:
			r.fail("source", fmt.Errorf("no reference has the key %q", key))
		case i == 0:
			p.Source = s
		default:
			p.Also = append(p.Also, s)
		}
	}
	if p.Source.Key == "" {
		r.fail("source", fmt.Errorf("the row names none"))
	}
	return p
}

// splitList splits a cell that holds several entries, parted by semicolons.
func splitList(cell string) []string {
	var list []string
	for _, s := range strings.Split(cell, ";") {
		if s = strings.TrimSpace(s); s != "" {
			list = append(list, s)
		}
	}
	return list
}
