package cli

import (
	ucli "github.com/urfave/cli/v2"

	"clampheat/scenarios"
)

func (s *session) schemaCommand() *ucli.Command {
	return &ucli.Command{
		Name: "schema", Usage: "print the JSON Schema of a scenario file, for editors",
		UsageText: "clampheat schema",
		Description: `An editor with a YAML language server underlines mistakes and offers keys and
words while you type, once it has the schema beside the scenario:

  clampheat schema > scenario.schema.json

The first line of a file from "clampheat new" names it.
`,
		Action: func(c *ucli.Context) error {
			if err := nothing(c); err != nil {
				return err
			}
			return s.print(string(scenarios.Schema()))
		},
	}
}
