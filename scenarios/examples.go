package scenarios

import (
	"embed"
	"fmt"
	"strings"
)

// This file is the scenarios that are shipped: examples to run, which with
// their remarks are also what a new file starts from.

//go:embed examples
var exampleFiles embed.FS

// exampleLog opens a log that stands beside the examples.
func exampleLog(name string) ([]byte, error) { return exampleFiles.ReadFile("examples/" + name) }

// ExamplePrefix before a name asks for a shipped scenario where a file is
// wanted.
const ExamplePrefix = "example:"

// ExampleInfo describes a shipped scenario.
type ExampleInfo struct {
	Name  string // for Example
	Title string // of the file
	Text  string // what it shows, one sentence
}

// examples in the order in which they are listed.
var examples = []ExampleInfo{
	{Name: "compact", Text: "A compact fuse holder on a battery post, one nut for base, fuse and lug."},
	{Name: "high-capacity", Text: "The same feed through a bolted fuse, a link bar and a battery switch."},
	{Name: "holders", Text: "One feed with several holders and torques, to compare."},
	{Name: "long-bar", Text: "A long copper bar from a bank to a switch."},
	{Name: "four-batteries", Text: "Four batteries with a compact holder on each, gathered by one bar."},
	{Name: "battery-row", Text: "Four batteries in a row: where feed and return leave decides who works hardest."},
	{Name: "one-holder", Text: "The same batteries with one high-capacity holder behind the bar."},
	{Name: "engine-box", Text: "A holder and a switch in a plastic box in a hot engine space."},
	{Name: "kitchen", Text: "An inverter that draws power on a duty that repeats."},
	{Name: "bench", Text: "A bolted fuse between two cables, loaded in steps."},
}

// Examples lists the shipped scenarios.
func Examples() []ExampleInfo {
	list := make([]ExampleInfo, len(examples))
	for i, e := range examples {
		list[i] = e
		if data, err := Example(e.Name); err == nil {
			f, _ := parse(exampleLog, e.Name, data)
			list[i].Title = f.Title.Text
		}
	}
	return list
}

// UnknownExampleError is a name that no shipped scenario has.
type UnknownExampleError struct {
	Name  string
	Near  string // the one that looks most like it; "" for none
	Known []string
}

func (e *UnknownExampleError) Error() string {
	if e.Near != "" {
		return fmt.Sprintf("there is no example %q; did you mean %q?", e.Name, e.Near)
	}
	return fmt.Sprintf("there is no example %q; there are: %s", e.Name, strings.Join(e.Known, ", "))
}

// Example returns the text of a shipped scenario. The error is an
// *UnknownExampleError.
func Example(name string) ([]byte, error) {
	var known []string
	for _, e := range examples {
		if e.Name == name {
			return exampleFiles.ReadFile("examples/" + name + ".yaml")
		}
		known = append(known, e.Name)
	}
	return nil, &UnknownExampleError{Name: name, Near: near(name, known), Known: known}
}

// Open reads a shipped scenario by its name, with or without the prefix
// "example:". Errors as Example and Read.
func Open(name string) (*Scenario, error) {
	bare := strings.TrimPrefix(name, ExamplePrefix)
	data, err := Example(bare)
	if err != nil {
		return nil, err
	}
	return Read(ExamplePrefix+bare, data)
}

// Starters lists the commented scenarios that a new file can start from: the
// examples.
func Starters() []ExampleInfo { return Examples() }

// Starter returns the text of a commented scenario to start a new file from.
// Errors as Example.
func Starter(name string) ([]byte, error) { return Example(name) }
