package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/pflag"
)

// commands lists the subcommands in the order in which a person meets them.
func commands() []command {
	return []command{demoCommand, initCommand, checkCommand, fitCommand, compareCommand, scaleCommand, costCommand,
		improveCommand, seedingCommand, calendarCommand, filmCommand, sheetCommand}
}

const intro = `headhours: hours and cost per head of leafy greens, from a stopwatch

  headhours [--study DIR] COMMAND

`

// help prints the list of commands, or one command's flags and examples.
func help(w io.Writer, name string) error {
	if name == noCommand {
		fmt.Fprint(w, intro)
		for _, c := range commands() {
			fmt.Fprintf(w, "  %-16s %s\n", strings.TrimSpace(c.name+" "+c.args), c.does)
		}
		_, err := fmt.Fprint(w, "\nheadhours help COMMAND lists its flags. Begin with: headhours demo\n")
		return err
	}
	c, err := find(name)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "headhours %s: %s\n\n", strings.TrimSpace(c.name+" "+c.args), c.does)
	for _, example := range c.examples {
		fmt.Fprintf(w, "  %s\n", example)
	}
	_, err = fmt.Fprintf(w, "\n%s", flagsOf(c).FlagUsages())
	return err
}

func flagsOf(c command) *pflag.FlagSet {
	var all flags
	own := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	own.SortFlags = false
	all.define().VisitAll(func(f *pflag.Flag) {
		if slices.Contains(c.flags, f.Name) || slices.Contains(anywhere, f.Name) {
			own.AddFlag(f)
		}
	})
	return own
}

func printVersion(w io.Writer) error {
	version := "unreleased"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	_, err := fmt.Fprintf(w, "headhours %s\n", version)
	return err
}
