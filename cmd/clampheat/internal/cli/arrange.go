package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/scenarios"
)

// The flag parser stops at the first argument and would take later flags for
// further arguments. This file moves the flags of a command in front of its
// arguments, so that they may stand on either side of the file, and says what
// is wrong with them in one sentence.

// versionWanted reports that the arguments ask which program this is.
type versionWanted struct{}

func (versionWanted) Error() string { return "version wanted" }

// helpWanted reports that the arguments ask for help with a command; the name
// "" is the program.
type helpWanted struct{ command string }

func (h *helpWanted) Error() string { return "help wanted" }

// arrange checks the words of a command line (without the program's name) and
// returns them as the flag parser wants them. Its errors are *usageError,
// *helpWanted and versionWanted.
func arrange(commands []*ucli.Command, words []string) ([]string, error) {
	if len(words) == 0 {
		return nil, &helpWanted{}
	}
	names := make([]string, 0, len(commands))
	for _, c := range commands {
		names = append(names, c.Name)
	}
	first := words[0]
	switch {
	case first == "-h" || first == "--help":
		return nil, &helpWanted{}
	case first == "--version":
		return nil, versionWanted{}
	case strings.HasPrefix(first, "-") && first != "-":
		return nil, &usageError{fmt.Sprintf("a command comes first, then its flags: %s stands before any command", first), "clampheat help lists the commands"}
	}
	var command *ucli.Command
	for _, c := range commands {
		if c.Name == first {
			command = c
		}
	}
	if command == nil {
		if scenarioLike(first) {
			return nil, &usageError{fmt.Sprintf("a command comes first, then the file: %s stands before any command", first),
				fmt.Sprintf("did you mean \"clampheat steady %s\"?", strings.Join(words, " "))}
		}
		return nil, &usageError{fmt.Sprintf("there is no command %q", first), didYouMean(first, names, "clampheat help lists the commands")}
	}
	flags, rest, err := part(command, words[1:])
	if err != nil {
		return nil, err
	}
	arranged := append([]string{first}, flags...)
	return append(append(arranged, "--"), rest...), nil
}

// scenarioLike says whether a word can only be a scenario.
func scenarioLike(word string) bool {
	return word == "-" || strings.HasPrefix(word, scenarios.ExamplePrefix) ||
		strings.HasSuffix(word, ".yaml") || strings.HasSuffix(word, ".yml")
}

// part takes flags and arguments apart.
func part(command *ucli.Command, words []string) (flags, rest []string, err error) {
	known := map[string]ucli.Flag{}
	var names []string
	for _, f := range command.Flags {
		for _, name := range f.Names() {
			known[name] = f
			names = append(names, "--"+name)
		}
	}
	for i := 0; i < len(words); i++ {
		word := words[i]
		if word == "--" {
			rest = append(rest, words[i+1:]...)
			break
		}
		if word == "-" || !strings.HasPrefix(word, "-") {
			rest = append(rest, word)
			continue
		}
		name, value, given := strings.Cut(strings.TrimLeft(word, "-"), "=")
		if name == "h" || name == "help" {
			return nil, nil, &helpWanted{command.Name}
		}
		f, ok := known[name]
		if !ok {
			return nil, nil, &usageError{fmt.Sprintf("%s has no flag --%s", command.Name, name),
				didYouMean("--"+name, names, "clampheat help "+command.Name+" lists its flags")}
		}
		if _, is := f.(*ucli.BoolFlag); is {
			if given {
				return nil, nil, &usageError{fmt.Sprintf("--%s takes no value, %q was given", name, value), "write --" + name + " alone"}
			}
			flags = append(flags, "--"+name)
			continue
		}
		if !given {
			if i+1 == len(words) || (strings.HasPrefix(words[i+1], "--") && len(words[i+1]) > 2) {
				return nil, nil, &usageError{fmt.Sprintf("--%s needs a value", name), "clampheat help " + command.Name + " shows one"}
			}
			i++
			value = words[i]
		}
		if value == "" {
			return nil, nil, &usageError{fmt.Sprintf("the value of --%s is empty", name), "clampheat help " + command.Name + " shows one"}
		}
		flags = append(flags, "--"+name+"="+value)
	}
	return flags, rest, nil
}
