package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// session is one command of the README with the output that stands under it.
type session struct {
	line   int
	args   []string
	into   string // file that "> FILE" sends standard output to
	output []string
}

// prompts are how a line begins that runs the program.
var prompts = []string{"$ clampheat ", "$ go run ./cmd/clampheat "}

// sessions finds the lines that run the program in the code blocks of a page.
func sessions(page string) []session {
	var list []session
	inside, open := false, false
	for i, line := range strings.Split(page, "\n") {
		switch {
		case strings.HasPrefix(line, "```"):
			inside, open = !inside, false
		case !inside:
		case strings.HasPrefix(line, "$ "):
			open = false
			for _, prompt := range prompts {
				if command, ours := strings.CutPrefix(line, prompt); ours {
					open = true
					command, into, _ := strings.Cut(command, ">")
					list = append(list, session{line: i + 1, args: strings.Fields(command), into: strings.TrimSpace(into)})
				}
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
		code, stdout, stderr := program(s.args...)
		if code > 1 {
			t.Errorf("README.md:%d: clampheat %s: exit status %d: %s", s.line, strings.Join(s.args, " "), code, stderr)
			continue
		}
		if s.into != "" {
			if err := os.WriteFile(s.into, []byte(stdout), 0o644); err != nil {
				t.Error(err)
			}
			continue
		}
		shown := strings.TrimSpace(strings.Join(s.output, "\n"))
		if shown != "" && !matches(strings.Split(shown, "\n"), strings.Split(strings.TrimSpace(stdout), "\n")) {
			t.Errorf("README.md:%d: clampheat %s shows\n%s\nthe README has\n%s", s.line, strings.Join(s.args, " "), stdout, shown)
		}
	}
}

func TestSessions(t *testing.T) {
	page := "$ clampheat not in a block\n```\n$ clampheat help soak\n…\n$ ls\nx\n$ go run ./cmd/clampheat schema > a.json\n```\n"
	got := sessions(page)
	want := []session{
		{line: 3, args: []string{"help", "soak"}, output: []string{"…"}},
		{line: 7, args: []string{"schema"}, into: "a.json"},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
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
