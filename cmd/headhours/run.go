package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/timing/study"
)

// Exit statuses.
const (
	done      = 0
	badData   = 1 // the data or the disk is at fault
	badUsage  = 2 // the command line is
	noCommand = ""
)

// usageError says what is wrong with a command line.
type usageError struct{ text string }

func (e usageError) Error() string { return e.text }

func usagef(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }

// command is a subcommand: its place in help and what it does.
type command struct {
	name     string
	args     string // what may follow the flags
	maxArgs  int    // of arguments
	does     string
	flags    []string // those it takes, beyond the ones that all take
	formats  []string // of its answer, the usual one first; nil: report.Formats
	choices  []string // what an argument may be, where it is one of few
	examples []string // command lines, each with what it is for behind " # " where that helps
	alone    bool     // logs given by --log are enough: no study is needed
	attended bool     // a person has to be there: no test can run its examples
	next     string   // the command that goes on from its answer, and what that does
	run      func(*call) error
}

// call is one run of a command.
type call struct {
	flags
	args           []string
	stdin          io.Reader
	stdout, stderr io.Writer
	width          int
	colour         bool
	progress       *progress // nil where none is shown
	cautions       []string  // what makes every answer doubtful, to be said first
}

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
			return help(c.stdout, noCommand)
		}
		return misread(err, set)
	}
	words := set.Args()
	if c.version {
		return printVersion(c.stdout)
	}
	if len(words) == 0 {
		return help(c.stdout, noCommand)
	}
	if words[0] == "complete" { // of shells, not of people: no help names it
		return complete(c.stdout, words[1:])
	}
	if words[0] == "help" || c.help {
		return help(c.stdout, topic(words))
	}
	cmd, err := find(words[0])
	if err != nil {
		return err
	}
	c.args = words[1:]
	if len(c.args) > cmd.maxArgs && len(c.from) == 0 {
		return usageError{tooMany(cmd, c.args)}
	}
	if err := c.flags.check(set, cmd); err != nil {
		return err
	}
	if err := c.needsStudy(cmd); err != nil {
		return err
	}
	c.width, c.colour = terminal(c.stdout)
	c.progress = c.newProgress()
	err = cmd.run(c)
	c.progress.end()
	if err != nil {
		return err
	}
	c.sayNext(cmd.next)
	return nil
}

// tooMany tells of more arguments than a command takes, and of the flag that the first
// of those left over may have been meant for.
func tooMany(cmd command, args []string) string {
	spare := args[cmd.maxArgs]
	text := fmt.Sprintf("%s does not take %q", cmd.name, spare)
	if cmd.maxArgs > 0 {
		text = fmt.Sprintf("%s takes one argument, %s: what is %q?", cmd.name, cmd.args, spare)
	}
	_, err := strconv.Atoi(spare)
	switch {
	case err == nil && slices.Contains(cmd.flags, "heads"):
		return text + ": is --heads " + spare + " meant?"
	case slices.Contains(cmd.flags, "workflow"):
		return text + fmt.Sprintf(": is --workflow %s meant?", shellWord(spare))
	}
	return text
}

// topic is the command that help was asked for.
func topic(words []string) string {
	if words[0] != "help" {
		return words[0]
	}
	if len(words) > 1 {
		return words[1]
	}
	return noCommand
}

func find(name string) (command, error) {
	var names []string
	for _, c := range commands() {
		if c.name == name {
			return c, nil
		}
		names = append(names, c.name)
	}
	return command{}, study.UnknownName{Kind: "command", Name: name, Known: names}
}

// write writes an answer to where it was asked for.
func (c *call) write(doc report.Doc, answer any) error {
	doc.First(c.cautions)
	doc, err := c.oneTable(doc)
	if err != nil {
		return err
	}
	style := report.Style{Width: c.width, Colour: c.colour && (c.output == "" || c.output == "-")}
	fill := func(w io.Writer) error { return report.Write(w, c.format, doc, answer, style) }
	return c.deliver(fill)
}

// oneTable leaves the table of a CSV answer that is asked for, or the first, and then names
// the others.
func (c *call) oneTable(doc report.Doc) (report.Doc, error) {
	ids := doc.TableIDs()
	switch {
	case c.table != "" && c.format != "csv":
		return doc, usagef("--table is for --format csv")
	case c.format != "csv" || len(ids) == 0:
		return doc, nil
	case c.table == "":
		if len(ids) > 1 {
			fmt.Fprintf(c.stderr, "hint: this is the table %s; --table has the others: %s\n", ids[0], strings.Join(ids[1:], ", "))
		}
		return doc.Only(ids[0]), nil
	case !slices.Contains(ids, c.table):
		return doc, study.UnknownName{Kind: "table", Name: c.table, Known: ids}
	}
	return doc.Only(c.table), nil
}
