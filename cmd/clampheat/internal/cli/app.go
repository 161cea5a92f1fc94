package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	ucli "github.com/urfave/cli/v2"
)

// session is one run of the program: its streams and its commands.
type session struct {
	stdin    io.Reader
	stdout   io.Writer
	stderr   io.Writer
	commands []*ucli.Command
}

// Run runs the program with its arguments, args[0] being its name, and returns
// the exit status that the package comment lists.
func Run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s := &session{stdin: stdin, stdout: stdout, stderr: stderr}
	s.commands = []*ucli.Command{
		s.newCommand(), s.checkCommand(), s.steadyCommand(), s.soakCommand(), s.dutyCommand(),
		s.compareCommand(),
		s.torqueCommand(),
		s.rateCommand(),
		s.leversCommand(),
		s.materialsCommand(), s.validateCommand(), s.schemaCommand(),
		s.cautionsCommand(), s.completionCommand(), s.helpCommand(),
	}
	return status(stderr, s.run(ctx, args))
}

func (s *session) run(ctx context.Context, args []string) error {
	words, err := arrange(s.commands, args[min(1, len(args)):])
	var help *helpWanted
	if errors.As(err, &help) {
		return s.help(help.command)
	}
	if errors.Is(err, versionWanted{}) {
		return s.print(version())
	}
	if err != nil {
		return err
	}
	app := &ucli.App{
		Name: "clampheat", Commands: s.commands,
		Reader: s.stdin, Writer: s.stdout, ErrWriter: s.stderr,
		HideHelp: true, HideHelpCommand: true, HideVersion: true,
		// Errors are printed and mapped to a status in one place, exit.go.
		ExitErrHandler: func(*ucli.Context, error) {},
	}
	for _, c := range s.commands {
		c.HideHelp, c.HideHelpCommand = true, true
		c.OnUsageError = func(_ *ucli.Context, err error, _ bool) error {
			return &usageError{err.Error(), ""}
		}
	}
	return app.RunContext(ctx, append([]string{"clampheat"}, words...))
}

// argument returns the one argument of a command. Where it is missing, want
// says what belongs there; an empty want makes it optional.
func argument(c *ucli.Context, want string) (string, error) {
	if c.Args().Len() > 1 {
		return "", &usageError{fmt.Sprintf("%s takes one argument, %d were given: %q is too many", c.Command.Name, c.Args().Len(), c.Args().Get(1)),
			"put names with blanks in quotes"}
	}
	if c.Args().Len() == 0 && want != "" {
		return "", &usageError{fmt.Sprintf("%s needs %s", c.Command.Name, want), "for example: clampheat " + c.Command.Name + " example:compact"}
	}
	return c.Args().First(), nil
}

// nothing makes sure that a command has no arguments.
func nothing(c *ucli.Context) error {
	if c.Args().Len() > 0 {
		return &usageError{fmt.Sprintf("%s takes no argument, %q was given", c.Command.Name, c.Args().First()), ""}
	}
	return nil
}
