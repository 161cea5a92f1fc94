package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/scenarios"
)

// This file writes completion scripts from the list of commands, so that they
// cannot lag behind it.

var shells = []string{"bash", "zsh", "fish"}

func (s *session) completionCommand() *ucli.Command {
	return &ucli.Command{
		Name: "completion", Usage: "print a script that completes commands and flags in your shell",
		UsageText: "clampheat completion bash | zsh | fish",
		Description: `Load it in the shell where you are, or from its start-up file:

  bash   source <(clampheat completion bash)
  zsh    source <(clampheat completion zsh)
  fish   clampheat completion fish | source
`,
		Action: func(c *ucli.Context) error {
			shell, err := argument(c, "")
			if err != nil {
				return err
			}
			switch shell {
			case "bash":
				return s.print(bashCompletion(s.commands))
			case "zsh":
				// zsh runs bash's completions through its own bridge.
				return s.print("autoload -U +X bashcompinit && bashcompinit\n" + bashCompletion(s.commands))
			case "fish":
				return s.print(fishCompletion(s.commands))
			case "":
				return &usageError{"completion needs the name of a shell", "one of: " + strings.Join(shells, ", ")}
			}
			return &usageError{fmt.Sprintf("there is no completion for %q", shell), "one of: " + strings.Join(shells, ", ")}
		},
	}
}

// takesScenario says whether the argument of a command is a scenario.
func takesScenario(c *ucli.Command) bool { return strings.HasSuffix(c.UsageText, " FILE") }

func exampleNames() []string {
	var list []string
	for _, e := range scenarios.Examples() {
		list = append(list, "example:"+e.Name)
	}
	return list
}

func starterNames() []string {
	var list []string
	for _, st := range scenarios.Starters() {
		list = append(list, st.Name)
	}
	return list
}

// wordsFor are the fixed words that may stand as the argument of a command.
func wordsFor(c *ucli.Command, commands []*ucli.Command) []string {
	switch {
	case takesScenario(c):
		return exampleNames()
	case c.Name == "new":
		return starterNames()
	case c.Name == "completion":
		return shells
	case c.Name == "help":
		return commandNames(commands)
	}
	return nil
}

func commandNames(commands []*ucli.Command) []string {
	list := make([]string, len(commands))
	for i, c := range commands {
		list[i] = c.Name
	}
	return list
}

func flagNames(c *ucli.Command) []string {
	var list []string
	for _, f := range c.Flags {
		list = append(list, "--"+f.Names()[0])
	}
	return list
}

func bashCompletion(commands []*ucli.Command) string {
	var b strings.Builder
	b.WriteString("# clampheat: completion for bash\n_clampheat() {\n  local now=${COMP_WORDS[COMP_CWORD]} words=\n")
	fmt.Fprintf(&b, "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    words=%q\n  else\n    case ${COMP_WORDS[1]} in\n", strings.Join(commandNames(commands), " "))
	for _, c := range commands {
		words := append(flagNames(c), wordsFor(c, commands)...)
		if len(words) > 0 {
			fmt.Fprintf(&b, "      %s) words=%q ;;\n", c.Name, strings.Join(words, " "))
		}
	}
	b.WriteString("    esac\n  fi\n" +
		"  COMPREPLY=($(compgen -W \"$words\" -- \"$now\"))\n" +
		"  # bash takes the colon of example:NAME for the end of a word.\n" +
		"  declare -F __ltrim_colon_completions >/dev/null && __ltrim_colon_completions \"$now\"\n" +
		"}\ncomplete -o default -F _clampheat clampheat\n")
	return b.String()
}

func fishCompletion(commands []*ucli.Command) string {
	var b strings.Builder
	b.WriteString("# clampheat: completion for fish\n")
	quote := func(s string) string { return "'" + strings.ReplaceAll(s, "'", `\'`) + "'" }
	for _, c := range commands {
		fmt.Fprintf(&b, "complete -c clampheat -f -n __fish_use_subcommand -a %s -d %s\n", c.Name, quote(c.Usage))
		on := quote("__fish_seen_subcommand_from " + c.Name)
		for _, f := range c.Flags {
			value, usage := "", ""
			switch f := f.(type) {
			case *ucli.BoolFlag:
				usage = f.Usage
			case *ucli.StringFlag:
				value, usage = " -r", strings.ReplaceAll(f.Usage, "`", "")
			}
			fmt.Fprintf(&b, "complete -c clampheat -n %s -l %s%s -d %s\n", on, f.Names()[0], value, quote(usage))
		}
		if words := wordsFor(c, commands); len(words) > 0 {
			fmt.Fprintf(&b, "complete -c clampheat -n %s -a %s\n", on, quote(strings.Join(words, " ")))
		}
	}
	return b.String()
}
