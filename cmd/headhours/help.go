package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"headhours/report"
	"headhours/timing/study"
)

// allCommands lists the subcommands in the order in which a person meets them.
func allCommands() []command {
	return []command{demoCommand, initCommand, checkCommand, fitCommand, compareCommand, scaleCommand, costCommand,
		improveCommand, readingsCommand, seedingCommand, calendarCommand, seasonCommand, reportCommand, recordCommand, phoneCommand, filmCommand, sheetCommand, exportCommand, completionCommand}
}

func find(name string) (command, error) {
	var names []string
	for _, c := range allCommands() {
		if c.name == name {
			return c, nil
		}
		names = append(names, c.name)
	}
	return command{}, study.UnknownName{Kind: "command", Name: name, Known: names}
}

const intro = `headhours: hours and cost per head of leafy greens, from a stopwatch

  headhours [--study DIR] COMMAND

`

const outro = `
headhours help COMMAND shows examples and flags of a command, headhours help
study, log, place or intervals explains the study file, the task log, the whole
place over a season, what the ranges mean. Begin with: headhours demo
`

// helpWidth is how wide help is.
const helpWidth = 80

// writeHelp prints the list of commands, one command's examples and flags, or the text
// of a topic.
func writeHelp(w io.Writer, name string) error {
	if name == noCommand {
		return helpAll(w)
	}
	if ok, err := writeTopic(w, name); ok {
		return err
	}
	c, err := find(name)
	if unknown, ok := errors.AsType[study.UnknownName](err); ok {
		unknown.Kind, unknown.Known = "command or topic", append(unknown.Known, topics...)
		return unknown
	}
	title := fmt.Sprintf("headhours %s: %s", strings.TrimSpace(c.name+" "+c.args), c.does)
	fmt.Fprintf(w, "%s\n\n", report.Wrap(title, helpWidth, "  "))
	for _, example := range c.examples {
		line, what, _ := strings.Cut(example, " # ")
		fmt.Fprintf(w, "  %s\n", line)
		if what != "" {
			fmt.Fprintf(w, "      %s\n", report.Wrap(what, helpWidth-6, "      "))
		}
	}
	usages := flagsOf(c).FlagUsagesWrapped(helpWidth)
	const switchable = "[=true|false]" // a flag that is given or not is shown as it is written
	usages = strings.ReplaceAll(usages, switchable, strings.Repeat(" ", len(switchable)))
	_, err = fmt.Fprintf(w, "\n%s", usages)
	return err
}

func helpAll(w io.Writer) error {
	const column = 21
	fmt.Fprint(w, intro)
	for _, c := range allCommands() {
		does := report.Wrap(c.does, helpWidth-column, strings.Repeat(" ", column))
		fmt.Fprintf(w, "  %-*s%s\n", column-2, strings.TrimSpace(c.name+" "+c.args), does)
	}
	_, err := fmt.Fprint(w, outro)
	return err
}

func flagsOf(c command) *pflag.FlagSet {
	var all flags
	own := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	own.SortFlags = false
	all.define().VisitAll(func(f *pflag.Flag) {
		if slices.Contains(c.flags, f.Name) || slices.Contains(anywhere, f.Name) {
			if f.Name == "format" {
				f.DefValue, f.Usage = c.answersIn()[0], formatUsage(c.answersIn())
			}
			if meaning, ok := meanings[c.name][f.Name]; ok {
				f.Usage = meaning
			}
			own.AddFlag(f)
		}
	})
	return own
}
