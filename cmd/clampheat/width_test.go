package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"clampheat/scenarios"
)

// mostColumns is the width that every line of text keeps to.
const mostColumns = 100

// Text of every command on every shipped scenario fits 100 columns.
func TestWidth(t *testing.T) {
	commands := [][]string{{"help"}, {"help", "file"}, {"cautions"}, {"materials"}, {"validate"}, {"new", "--list"}}
	for _, c := range []string{"new", "check", "steady", "soak", "duty", "rate", "materials", "validate", "schema", "cautions", "completion", "help"} {
		commands = append(commands, []string{"help", c})
	}
	for _, e := range scenarios.Examples() {
		file := "example:" + e.Name
		commands = append(commands, []string{"check", "--detail", file}, []string{"steady", file}, []string{"soak", file},
			[]string{"rate", file, "--currents", "50,140,500A", "--altitude", "0,3000m"})
	}
	commands = append(commands, []string{"duty", "example:kitchen"}, []string{"torque", "example:four-batteries"}, []string{"levers", "example:four-batteries"},
		[]string{"compare", "example:battery-row", "example:one-holder"})
	commands = append(commands, []string{"help", "torque"}, []string{"torque", "example:high-capacity"}, []string{"torque", "example:bench"})
	commands = append(commands, []string{"help", "levers"}, []string{"levers", "example:compact"}, []string{"levers", "example:high-capacity"})
	commands = append(commands, []string{"help", "compare"}, []string{"compare", "example:compact", "example:high-capacity"},
		[]string{"compare", "example:compact", "example:high-capacity", "example:long-bar", "example:bench"},
		[]string{"compare", "example:compact", "example:high-capacity", "example:long-bar", "example:bench", "example:compact"})
	for _, args := range commands {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			if testing.Short() && args[0] == "validate" {
				t.Skip("takes long")
			}
			code, stdout, stderr := program(args...)
			if code > 1 {
				t.Fatalf("exit status %d: %s", code, stderr)
			}
			if stdout == "" {
				t.Error("nothing is shown")
			}
			for line := range strings.Lines(stdout + stderr) {
				line = strings.TrimSuffix(line, "\n")
				if n := utf8.RuneCountInString(line); n > mostColumns {
					t.Errorf("%d columns: %q", n, line)
				}
			}
		})
	}
}
