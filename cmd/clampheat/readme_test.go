package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// session is one command of the README with the output that stands under it.
type session struct {
	line    int
	command string
	output  []string
}

// sessions finds the lines "$ clampheat …" in the code blocks of a page.
func sessions(page string) []session {
	var list []session
	inside, open := false, false
	for i, line := range strings.Split(page, "\n") {
		switch {
		case strings.HasPrefix(line, "```"):
			inside, open = !inside, false
		case !inside:
		case strings.HasPrefix(line, "$ "):
			command, ours := strings.CutPrefix(line, "$ clampheat ")
			if open = ours; ours {
				list = append(list, session{line: i + 1, command: command})
			}
		case open:
			last := &list[len(list)-1]
			last.output = append(last.output, line)
		}
	}
	return list
}

// matches compares output with what the page shows; a line "…" there stands
// for any lines.
func matches(shown, got []string) bool {
	for i, line := range shown {
		if strings.TrimSpace(line) == "…" {
			for k := range len(got) + 1 {
				if matches(shown[i+1:], got[k:]) {
					return true
				}
			}
			return false
		}
		if len(got) == 0 || line != got[0] {
			return false
		}
		got = got[1:]
	}
	return len(got) == 0
}

// Every command of the README runs, in one folder and in their order, and
// shows what the README shows under it.
func TestReadme(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("no README yet")
	}
	if err != nil {
		t.Fatal(err)
	}
	list := sessions(string(page))
	if len(list) == 0 {
		t.Error("no command block of the README was found")
	}
	t.Chdir(t.TempDir())
	for _, s := range list {
		code, stdout, stderr := program(strings.Fields(s.command)...)
		if code > 1 {
			t.Errorf("README.md:%d: clampheat %s: exit status %d: %s", s.line, s.command, code, stderr)
			continue
		}
		shown := strings.Split(strings.TrimSpace(strings.Join(s.output, "\n")), "\n")
		got := strings.Split(strings.TrimSpace(stdout), "\n")
		if len(s.output) > 0 && strings.Join(shown, "") != "" && !matches(shown, got) {
			t.Errorf("README.md:%d: clampheat %s shows\n%s\nthe README has\n%s", s.line, s.command, stdout, strings.Join(s.output, "\n"))
		}
	}
}

func TestMatches(t *testing.T) {
	for _, c := range []struct {
		name       string
		shown, got string
		want       bool
	}{
		{"same", "a b", "a b", true},
		{"other", "a b", "a c", false},
		{"left out", "a … d", "a b c d", true},
		{"left out at the end", "a …", "a b c", true},
		{"nothing left out", "a … b", "a b", true},
		{"too short", "a b c", "a b", false},
		{"too long", "a", "a b", false},
		{"wrong after", "a … e", "a b c d", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := matches(strings.Fields(c.shown), strings.Fields(c.got)); got != c.want {
				t.Errorf("got %v", got)
			}
		})
	}
}
