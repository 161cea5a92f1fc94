// Package scenarios reads the files in which people describe a terminal stack
// and the current through it, and turns them into stacks of package model. It
// holds the generic starter parts and the shipped example scenarios.
//
// # The file
//
// A scenario is one YAML document, UTF-8, at most 1 MB:
//
//	title: Inverter feed
//	current: 140 A
//	air: 25 °C
//	path:                     # in the order the current meets things
//	  - battery post: M8
//	    nut: 12 N·m
//	  - cable: 1/0 AWG
//	    length: 1.5 m
//	    insulation: 105 °C
//	  - inverter terminal: M8
//	    nut: 12 N·m
//
// Each part of the path has one key that names its kind, with a fastener, a
// metal, a conductor or the word generic behind it; the keys beside it state
// what is known. What an installer cannot know has a default, which is listed
// as an assumption. A torque stands on the part that owns the stud.
//
// Every quantity carries its unit (package quantity says which). A decimal
// comma, a number without a unit, a key that does not go with its part, and a
// value that cannot be meant are mistakes, and a file is told all of its
// mistakes at once ([Problems]), each with its place, the line, what is
// allowed and a hint. A key of the vocabulary whose work does not exist yet is
// a mistake where leaving it out would change a temperature, else a warning.
// YAML's anchors, aliases, merge keys and tags are refused.
//
// [Schema] is the same vocabulary as a JSON Schema for editors; a test holds
// the two together.
//
// Not here: heat and electricity (package model), numbers (package solver),
// flags, charts and screens (package cmd).
package scenarios
