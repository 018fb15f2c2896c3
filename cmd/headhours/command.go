package main

import (
	"io"

	"headhours/report"
)

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
	do       func(*call) error
}

// answersIn lists the formats of the command's answer, the usual one first.
func (c command) answersIn() []string {
	if c.formats == nil {
		return report.Formats
	}
	return c.formats
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
