package cli

import (
	"fmt"
	"reflect"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/study"
)

// helpWidth is the width of running text in help, narrower than a table may
// be: long lines are hard to read.
const helpWidth = 82

func (s *session) helpCommand() *ucli.Command {
	return &ucli.Command{
		Name: "help", Usage: "explain the program or one command",
		UsageText:   "clampheat help [COMMAND | file | cautions]",
		Description: "The same as --help.\n\n  clampheat help soak\n  clampheat help file\n  clampheat help cautions\n",
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
	if name == "file" {
		return s.print(fileHelp())
	}
	names := []string{"file"}
	for _, c := range s.commands {
		if c.Name == name {
			return s.print(commandHelp(c) + reference(name))
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
  clampheat duty my.yaml               how hot under a load that repeats
  clampheat compare example:compact example:high-capacity
                                       which runs cooler, and why
  clampheat torque compact.yaml        what a nut's torque does
  clampheat levers compact.yaml        what would cool it, what would hurt it

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
"clampheat help file" lists what a scenario file may say: its keys, the kinds of
part, the units. "clampheat --version" says which program this is.

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

// reference explains the columns and keys of a command's result.
func reference(name string) string {
	switch name {
	case "check":
		return "\n" + columnsHelp(checkHeader) + "\n" + keysHelp(study.Check{})
	case "steady":
		return "\n" + columnsHelp(steadyHeader) + "\nWith --branches:\n" + columnsHelp(branchHeader) + "\n" + keysHelp(study.Steady{})
	case "duty":
		return "\n" + columnsHelp(dutyHeader) + "\n" + keysHelp(study.Duty{})
	case "soak":
		return "\n" + columnsHelp(soakHeader) + "  Without current_A it can be read back as a log.\n\n" + keysHelp(study.Soak{})
	case "rate":
		return "\n" + columnsHelp(rateHeader) + "\n" + keysHelp(study.Rate{})
	case "compare":
		return "\n" + columnsHelp(compareHeader) + "\n" + keysHelp(study.Compare{})
	case "torque":
		return "\n" + columnsHelp(torqueHeader) + "\n" + keysHelp(study.Torque{})
	case "levers":
		return "\n" + columnsHelp(leversHeader) + "\n" + keysHelp(study.Levers{})
	case "validate":
		return "\n" + columnsHelp(validateHeader) + "\n" + keysHelp(caseJSON{})
	}
	return ""
}

// columnsHelp explains the columns of a CSV.
func columnsHelp(header []column) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, c := range header {
		t.Row(c.name, c.means)
	}
	return "Columns of --csv:\n" + t.String(helpWidth)
}

// keysHelp lists the keys of a result as JSON, and one level down those of
// what they hold, from the type itself.
func keysHelp(result any) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{}, {}}}
	for _, key := range keys(reflect.TypeOf(result), true) {
		name, inner, _ := strings.Cut(key, ": ")
		t.Row(name, inner)
	}
	return "Keys of --json, with what they hold:\n" + t.String(helpWidth)
}

// keys are the keys of a type; deeper ones have those of what they hold behind
// a colon.
func keys(t reflect.Type, deeper bool) []string {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var list []string
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && name == "":
			list = append(list, keys(f.Type, deeper)...)
			continue
		case name == "" || name == "-":
			continue
		}
		if inner := keys(f.Type, false); deeper && len(inner) > 0 {
			name += ": " + strings.Join(inner, ", ")
		}
		list = append(list, name)
	}
	return list
}
