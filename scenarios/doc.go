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
// what is known. Where a file is silent a default stands in, which is listed
// as an assumption. A torque stands on the part that owns the stud.
//
// # Ways side by side
//
// Three entries of a path hold paths of their own. Batteries stand at its
// beginning, each with the same path to where they meet; branches lead from one
// point to another; circuits end the path, each with a current of its own. A
// bus bar is a bar with a row of studs, on which they land by their names, and a
// single path comes in at the stud "in" and goes on from "out":
//
//	path:
//	  - batteries: A B C D
//	    internal resistance: 2 mΩ
//	    each:
//	      - battery post: M8
//	        nut: 12 N·m
//	      - cable: 1/0 AWG
//	        length: 0.5 m
//	  - bus bar: copper, tin-plated
//	    section: 50 × 6 mm
//	    studs: A B C D out
//	    spacing: 50 mm
//	    nuts: 21.5 N·m
//	    return: opposite end
//	  - branches:
//	      left: [{cable: 2/0 AWG, length: 1 m}]
//	      right: [{cable: 2/0 AWG, length: 1 m}]
//	  - inverter terminal: M10
//	    nut: 20 N·m
//
// What lands on one stud without a bar between lies on each other in the order of
// the file, so that the current of an outer lug passes the faces below it. The
// negative side of batteries is taken to be wired like the positive one, but
// for holders and lugs (file negative.go): with it they share. Parts of ways
// are called "A: compact holder"; alike parts side by side rest on the same
// assumptions.
//
// # What a stack carries
//
// A current, a power at the bank's voltage, a duty that repeats, a log in a CSV
// file beside the scenario, or the currents of its circuits: one of them.
//
//	power: 2 kW                       # or a list of steps, as of a current
//	duty: [180 A for 5 min, 0 A for 10 min]
//	log: kitchen.csv                  # rows "time,current"
//	air: [15 °C to 32 °C over 12 h, 32 °C to 15 °C over 12 h]
//
// A stack, or a part of it, may stand in a box ("enclosure:").
//
// # Mistakes
//
// Every quantity carries its unit (package quantity says which). A decimal
// comma, a number without a unit, a key that does not go with its part, and a
// value that cannot be meant are mistakes, and a file is told all of its
// mistakes at once ([Problems]), each with its place, the line, what is
// allowed and a hint. A key that is kept for later is
// a mistake where leaving it out would change a temperature, else a warning.
// YAML's anchors, aliases, merge keys and tags are refused.
//
// [Schema] is the same vocabulary as a JSON Schema for editors; a test holds
// the two together.
//
// Not here: heat and electricity (package model), numbers (package solver),
// flags, charts and screens (package cmd).
package scenarios
