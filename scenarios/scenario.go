package scenarios

import (
	"slices"
	"strings"

	"clampheat/model"
)

// This file is the way from a file to a stack, as callers see it.

// A Scenario is a scenario file that was understood: its parts fit each other
// and its torques can be meant. It is safe for concurrent use.
type Scenario struct {
	// File is the file as read, with its warnings, those about the fit of parts
	// and about torques among them.
	File *File
	Name string // as given to Read, for messages
	// Variant is the name of the variant of the file; "" for the file as it is.
	Variant string
	// Touches are the limits of touch that the file asks for.
	Touches []Touch
	// PartItems and BoltItems are, for each part and bolt of the stack, the
	// index in File.Path of the item that it comes from.
	PartItems, BoltItems []int

	assumptions []Assumption
	ways        []WayInfo
}

// Touch is a limit for bare hands on a part.
type Touch struct {
	Item    int     // index in File.Path; −1 for the whole stack
	Contact float64 // s
	Pos     Pos
}

// Read reads a scenario file and checks that it makes a stack. Name is what
// messages call it. The error is a *Problems with every mistake of the file,
// sorted by place, whether of the words or of the fit of the parts. Variants
// are read for their words only; ReadAll makes scenarios of them.
func Read(name string, data []byte) (*Scenario, error) { return ReadFrom(nil, name, data) }

// ReadFrom is Read for a file that may name a log: files opens it. Where files
// is nil, only the shipped examples can have one.
func ReadFrom(files Files, name string, data []byte) (*Scenario, error) {
	all, err := readAll(files, name, data, false)
	if err != nil {
		return nil, err
	}
	return all[0], nil
}

// ReadAll reads a scenario file with its variants: the scenario as the file
// gives it first, then each variant in the order of the file. The error is as
// that of Read, with the mistakes of every variant. All warnings are those of
// the first.
func ReadAll(name string, data []byte) ([]*Scenario, error) { return ReadAllFrom(nil, name, data) }

// ReadAllFrom is ReadAll for a file that may name a log, as ReadFrom.
func ReadAllFrom(files Files, name string, data []byte) ([]*Scenario, error) {
	return readAll(files, name, data, true)
}

func readAll(files Files, name string, data []byte, variants bool) ([]*Scenario, error) {
	if files == nil && strings.HasPrefix(name, ExamplePrefix) {
		files = exampleLog
	}
	f, mistakes := parse(files, name, data)
	partial := len(mistakes) > 0
	told := append(mistakes, f.Warnings...)
	base, problems, err := f.resolve(partial)
	told = append(told, problems...)
	known := slices.Clone(told)
	all := []*Scenario{base}
	for i := range f.Variants.List {
		if v := &f.Variants.List[i]; variants && err == nil {
			var changed *Scenario
			changed, problems, err = v.file.resolve(partial)
			told = append(told, v.naming(problems, known)...)
			changed.Variant = v.Name.Text
			all = append(all, changed)
		}
	}
	if err != nil && !partial {
		return nil, err
	}
	mistakes, f.Warnings = sortOut(told)
	if err := asError(mistakes); err != nil {
		return nil, err
	}
	return all, nil
}

// resolve makes a scenario of a file that was read, with what does not fit;
// the error is a fault of the data.
func (f *File) resolve(partial bool) (*Scenario, []Problem, error) {
	r := newResolver(f, nil)
	r.partial = partial
	r.run()
	if !r.partial && r.err == nil && !hasMistake(r.problems) {
		r.checkFigures()
	}
	return &Scenario{File: f, Name: f.Name, Touches: r.touches, PartItems: r.partItem, BoltItems: r.boltItem,
		assumptions: r.list, ways: r.wayInfos()}, r.problems, r.err
}

// Stack makes the stack. Vary gives assumptions, by their ID, another value in
// SI than their likely one; it may be nil.
//
// Errors: *UnknownAssumptionError for an ID that the scenario does not assume;
// *Problems or *model.StackError where a varied value cannot be.
func (s *Scenario) Stack(vary map[string]float64) (*model.Stack, error) {
	r, err := s.File.resolved(vary)
	if err != nil {
		return nil, err
	}
	return r.stack, nil
}

// resolved makes the stack of a file whose words are known to be sound.
func (f *File) resolved(vary map[string]float64) (*resolver, error) {
	r := newResolver(f, vary)
	r.run()
	if r.err != nil {
		return nil, r.err
	}
	mistakes, _ := sortOut(r.problems)
	if err := asError(mistakes); err != nil {
		return nil, err
	}
	return r, r.unknown()
}

// Assumptions are all values that the stack rests on and the file does not
// state, in the order of the path.
func (s *Scenario) Assumptions() []Assumption {
	return append([]Assumption(nil), s.assumptions...)
}
