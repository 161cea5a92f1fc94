package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"clampheat/cmd/clampheat/internal/cli"
)

// update has the scripts take what the program says now; read the change.
var update = flag.Bool("update", false, "rewrite the expected texts of the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"clampheat": main})
}

// The program as the user meets it.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join("testdata", "script"),
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"status": exitStatus},
		UpdateScripts: *update,
	})
}

// exitStatus is the script command "status N [full] COMMAND": it runs a command
// that must end with that exit status; full has it write to a full device.
func exitStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N [full] COMMAND")
	}
	want, command := args[0], args[1:]
	if command[0] == "full" {
		command = append([]string{"sh", "-c", `exec "$@" >/dev/full`, "sh"}, command[1:]...)
	}
	got := 0
	if err := ts.Exec(command[0], command[1:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if strconv.Itoa(got) != want {
		ts.Fatalf("exit status %d, want %s", got, want)
	}
}

// program runs clampheat in the folder where the test is.
func program(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = cli.Run(context.Background(), append([]string{"clampheat"}, args...), strings.NewReader(""), &out, &errs)
	return code, out.String(), errs.String()
}

// Every broken file that the reader is tested with ends with exit status 2,
// nothing on standard output, and all complaints of the reader on standard
// error. (What the reader cannot see, two studs that meet, may be added.)
func TestBrokenFiles(t *testing.T) {
	t.Chdir(filepath.Join("..", "..", "scenarios", "testdata", "broken"))
	files, err := filepath.Glob("*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no broken files: %v", err)
	}
	for _, file := range files {
		if file == "log-alone.yaml" {
			continue // of a file without a folder; the program knows the folder
		}
		t.Run(strings.TrimSuffix(file, ".yaml"), func(t *testing.T) {
			golden, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".txt")
			if err != nil {
				t.Fatal(err)
			}
			code, stdout, stderr := program("check", file)
			if code != 2 || stdout != "" {
				t.Errorf("exit status %d, want 2; standard output %q", code, stdout)
			}
			for _, complaint := range strings.Split(strings.TrimSpace(string(golden)), "\n"+file+":") {
				if !strings.Contains(stderr, complaint) {
					t.Errorf("is not told: %s\nbut\n%s", complaint, stderr)
				}
			}
		})
	}
}
