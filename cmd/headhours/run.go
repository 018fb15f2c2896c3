package main

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/pflag"

	"headhours/timing/study"
)

// run runs a command line and returns the exit status.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c := &call{stdin: stdin, stdout: stdout, stderr: stderr}
	err := c.dispatch(args)
	var usage usageError
	var unknown study.UnknownName
	switch {
	case err == nil:
		return done
	case errors.As(err, &usage), errors.As(err, &unknown), errors.Is(err, study.ErrMade):
		fmt.Fprintf(stderr, "headhours: %s\n", err)
		fmt.Fprintln(stderr, "hint: headhours help lists the commands, headhours help COMMAND its flags")
		return badUsage
	default:
		c.explain(err)
		return badData
	}
}

func (c *call) dispatch(args []string) error {
	set := c.flags.define()
	if err := set.Parse(args); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			return writeHelp(c.stdout, noCommand)
		}
		return misread(err, set)
	}
	words := set.Args()
	if c.version {
		return printVersion(c.stdout)
	}
	if len(words) == 0 {
		return writeHelp(c.stdout, noCommand)
	}
	if words[0] == "complete" { // of shells, not of people: no help names it
		return suggestTo(c.stdout, words[1:])
	}
	if words[0] == "help" || c.help {
		return writeHelp(c.stdout, helpTopic(words))
	}
	cmd, err := find(words[0])
	if err != nil {
		return err
	}
	c.args = words[1:]
	if len(c.args) > cmd.maxArgs && len(c.from) == 0 {
		return usageError{c.tooMany(cmd)}
	}
	if err := c.flags.check(set, cmd); err != nil {
		return err
	}
	if err := c.needsStudy(cmd); err != nil {
		return err
	}
	if err := c.sparesInputs(cmd); err != nil {
		return err
	}
	c.width, c.colour = terminal(c.stdout)
	c.progress = c.newProgress()
	err = cmd.do(c)
	c.progress.end()
	if err != nil {
		return err
	}
	c.sayNext(cmd.next)
	return nil
}

// newProgress shows progress on standard error, where that is a terminal that can; nil
// where it cannot.
func (c *call) newProgress() *progress {
	if _, able := terminal(c.stderr); !able {
		return nil
	}
	return &progress{w: c.stderr, now: time.Now}
}

// helpTopic is the command that help was asked for.
func helpTopic(words []string) string {
	if words[0] != "help" {
		return words[0]
	}
	if len(words) > 1 {
		return words[1]
	}
	return noCommand
}
