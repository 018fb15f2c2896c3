package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected output of scripts and golden files")

const program = "headhours"

// TestMain puts the program in the path of the tests: this binary under its name.
func TestMain(m *testing.M) {
	if filepath.Base(os.Args[0]) == program {
		os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(withProgram(m))
}

func withProgram(m *testing.M) (status int) {
	bin, err := os.MkdirTemp("", program)
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(bin)
	self, err := os.Executable()
	if err == nil {
		err = os.Symlink(self, filepath.Join(bin, program))
	}
	if err != nil {
		panic(err)
	}
	debug.SetGCPercent(400) // hundreds of commands come and go
	os.Setenv("PATH", bin+string(filepath.ListSeparator)+os.Getenv("PATH"))
	return m.Run()
}

// Each script is one behaviour of the command line: files, commands, what they
// print, how they exit. "exec headhours" starts the program; "headhours" alone runs it
// within the test, which is ten times as quick.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Abs("testdata/script") // the working folder changes meanwhile
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir: scripts, UpdateScripts: *update, RequireUniqueNames: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){program: succeeds, "exits": exits},
	})
}

// succeeds runs a command within the test: headhours check.
func succeeds(ts *testscript.TestScript, not bool, args []string) {
	if status := within(ts, args); (status == done) == not {
		ts.Fatalf("headhours %q: exit status %d", args, status)
	}
}

// exits runs a command that must end with a status: exits 1 headhours check.
func exits(ts *testscript.TestScript, _ bool, args []string) {
	command := args[1:]
	var status int
	var ended *exec.ExitError
	switch command[0] {
	case program:
		status = within(ts, command[1:])
	case "exec":
		if errors.As(ts.Exec(command[1], command[2:]...), &ended) {
			status = ended.ExitCode()
		}
	default:
		ts.Fatalf("%q: want headhours or exec", args)
	}
	if fmt.Sprint(status) != args[0] {
		ts.Fatalf("%q: exit status %d, want %s", command, status, args[0])
	}
}

// oneAtATime is held by the script whose folder all of this process works in.
var oneAtATime sync.Mutex

func within(ts *testscript.TestScript, args []string) (status int) {
	if slices.Contains(args, "record") {
		ts.Fatalf("headhours %q reads its input, which only exec gives it", args)
	}
	oneAtATime.Lock()
	defer oneAtATime.Unlock()
	here, err := os.Getwd()
	ts.Check(err)
	ts.Check(os.Chdir(ts.MkAbs(".")))
	defer func() { ts.Check(os.Chdir(here)) }()
	return run(args, strings.NewReader(""), ts.Stdout(), ts.Stderr())
}
