package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
)

// helpWidth is the width of running text in help, narrower than a table may
// be: long lines are hard to read.
const helpWidth = 82

func (s *session) helpCommand() *ucli.Command {
	return &ucli.Command{
		Name: "help", Usage: "explain the program or one command",
		UsageText:   "clampheat help [COMMAND]",
		Description: "The same as --help.\n\n  clampheat help soak\n  clampheat help cautions\n",
		Action: func(c *ucli.Context) error {
			name, err := argument(c, "")
			if err != nil {
				return err
			}
			return s.help(name)
		},
	}
}

// help prints the help of a command; of the program for "".
func (s *session) help(name string) error {
	if name == "" {
		return s.print(s.overview())
	}
	if name == "cautions" {
		return s.print(allCautions())
	}
	names := make([]string, 0, len(s.commands))
	for _, c := range s.commands {
		if c.Name == name {
			return s.print(commandHelp(c))
		}
		names = append(names, c.Name)
	}
	return &usageError{fmt.Sprintf("there is no command %q", name), didYouMean(name, names, "clampheat help lists the commands")}
}

// overview is what a newcomer reads first.
func (s *session) overview() string {
	var b strings.Builder
	b.WriteString(`clampheat says how hot a bolted DC terminal stack gets: battery post, fuse
holder, fuse, link bar, switch, lugs, cables. You describe the stack in a file,
in the order in which the current meets its parts.

  clampheat steady example:compact     try it, nothing to prepare
  clampheat new compact                write compact.yaml, to be changed into yours
  clampheat check compact.yaml         is it understood as meant?
  clampheat steady compact.yaml        how hot, left on
  clampheat soak compact.yaml          how fast

Commands
`)
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, c := range s.commands {
		t.Row(c.Name, c.Usage)
	}
	b.WriteString(t.String(width))
	b.WriteString(`
FILE is a scenario file, - for standard input, or example:NAME for a shipped one
("clampheat new --list" names them). Flags stand on either side of it. Results go
to standard output, everything else to standard error. NO_COLOR is honoured.

Exit status
`)
	t = texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	t.Row("0", "fine")
	t.Row("1", "a limit is passed, one asked for is UNKNOWN, or a case of validate missed")
	t.Row("2", "the file or the command line has a mistake")
	t.Row("3", "no answer: no lasting state at that current, or none was found")
	t.Row("4", "the result could not be written")
	b.WriteString(t.String(width))
	b.WriteString("\nCautions\n")
	for _, text := range cautions {
		b.WriteString(texttable.Wrap("  - ", text, helpWidth))
	}
	return b.String()
}

func commandHelp(c *ucli.Command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n\n  %s\n\n%s\n", c.Name, c.Usage, c.UsageText, strings.TrimRight(c.Description, "\n"))
	if len(c.Flags) == 0 {
		return b.String()
	}
	b.WriteString("\nFlags\n")
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, f := range c.Flags {
		name, usage := "--"+f.Names()[0], ""
		switch f := f.(type) {
		case *ucli.BoolFlag:
			usage = f.Usage
		case *ucli.StringFlag:
			// The word in back quotes stands for the value.
			usage = strings.ReplaceAll(f.Usage, "`", "")
			if parts := strings.Split(f.Usage, "`"); len(parts) == 3 {
				name += " " + parts[1]
			}
		}
		t.Row(name, usage)
	}
	b.WriteString(t.String(width))
	return b.String()
}

// columnsHelp explains the columns of a CSV.
func columnsHelp(header []column) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, c := range header {
		t.Row(c.name, c.means)
	}
	return "Columns of --csv; keys of --json carry their unit in the same way:\n" + t.String(helpWidth)
}
