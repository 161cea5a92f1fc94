package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios"
)

func (s *session) newCommand() *ucli.Command {
	return &ucli.Command{
		Name: "new", Usage: "write a commented scenario to start from",
		UsageText: "clampheat new [NAME]   or   clampheat new --list",
		Description: `Writes NAME.yaml into the folder where you are: a scenario of ours with comments,
to be changed into yours. A file that is there already is left alone.

  clampheat new --list
  clampheat new compact
  clampheat check compact.yaml
`,
		Flags: []ucli.Flag{&ucli.BoolFlag{Name: "list", Usage: "list the names and write nothing"}},
		Action: func(c *ucli.Context) error {
			name, err := argument(c, "")
			if err != nil {
				return err
			}
			if c.Bool("list") {
				if name != "" {
					return &usageError{fmt.Sprintf("--list takes no name, %q was given", name), ""}
				}
				return s.print(starterList())
			}
			if name == "" {
				name = scenarios.Starters()[0].Name
			}
			name = strings.TrimSuffix(name, ".yaml")
			text, err := scenarios.Starter(name)
			if err != nil {
				return err
			}
			file := name + ".yaml"
			if err := writeWhole(file, text, false, "move it out of the way, or work in another folder"); err != nil {
				return err
			}
			fmt.Fprintf(s.stderr, "clampheat: wrote %s; next: clampheat check %s\n", file, file)
			return nil
		},
	}
}

func starterList() string {
	t := texttable.Table{Columns: []texttable.Column{{}, {}}}
	for _, st := range scenarios.Starters() {
		t.Row(st.Name, st.Text)
	}
	return t.String(width)
}
