package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/scenarios"
)

// wantFile is what belongs in the place of FILE.
const wantFile = "a scenario: a FILE, - for standard input, or example:NAME"

// stdinName is what messages and results call the scenario that - stands for.
const stdinName = "standard input"

// tooLarge is where reading stops: the reader refuses files of this size, so
// that more need not be held.
const tooLarge = 2 << 20

// scenario reads the scenario that a command is given, once its flags fit.
func (s *session) scenario(c *ucli.Context) (*scenarios.Scenario, error) {
	name, err := argument(c, wantFile)
	if err != nil {
		return nil, err
	}
	if err := checkFormat(c); err != nil {
		return nil, err
	}
	return s.read(name)
}

// read reads a scenario by its name and prints the warnings about it.
func (s *session) read(name string) (*scenarios.Scenario, error) {
	data, shown, err := s.load(name)
	if err != nil {
		return nil, err
	}
	sc, err := scenarios.ReadFrom(beside(name, shown), shown, data)
	if err != nil {
		return nil, err
	}
	for _, w := range sc.File.Warnings {
		fmt.Fprintln(s.stderr, w.Error())
	}
	return sc, nil
}

// beside opens what a scenario names beside itself: for standard input, what
// stands in the folder where the program runs.
func beside(name, shown string) scenarios.Files {
	if strings.HasPrefix(name, scenarios.ExamplePrefix) {
		return nil
	}
	return scenarios.Beside(shown)
}

// load returns the text of a scenario and the name that messages give it.
func (s *session) load(name string) (data []byte, shown string, err error) {
	if example, ok := strings.CutPrefix(name, "example:"); ok {
		data, err := scenarios.Example(example)
		if err != nil {
			return nil, "", err
		}
		return data, name, nil
	}
	from, shown := s.stdin, stdinName
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return nil, "", unreadable(name, err)
		}
		defer f.Close()
		from, shown = f, name
	}
	data, err = io.ReadAll(io.LimitReader(from, tooLarge))
	if err != nil {
		return nil, "", unreadable(shown, err)
	}
	return data, shown, nil
}

// unreadable says why a file cannot be read and what may have been meant.
func unreadable(name string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return &inputError{fmt.Sprintf("%s cannot be read: %v", name, cause(err)), "", err}
	}
	hint := "clampheat new writes a scenario to start from"
	for _, e := range scenarios.Examples() {
		if e.Name == strings.TrimSuffix(name, ".yaml") {
			hint = fmt.Sprintf("the shipped example is example:%s; clampheat new %s writes a scenario to start from", e.Name, e.Name)
		}
	}
	return &inputError{fmt.Sprintf("there is no file %s", name), hint, err}
}

// cause strips the name, which the message has already.
func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
