package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output of scripts and golden files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"headhours": func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// Each script is one behaviour of the command line: files, commands, what they
// print, how they exit.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script", UpdateScripts: *update,
		RequireExplicitExec: true, RequireUniqueNames: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

// exits runs a command that must end with a status: exits 1 headhours check.
func exits(ts *testscript.TestScript, _ bool, args []string) {
	var ended *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); !errors.As(err, &ended) || fmt.Sprint(ended.ExitCode()) != args[0] {
		ts.Fatalf("%q: %v, want exit status %s", args[1:], err, args[0])
	}
}
