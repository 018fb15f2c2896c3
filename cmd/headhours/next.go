package main

import "fmt"

// sayNext names the command that goes on from an answer. Only a person at a
// terminal is told, on standard error, so that no program has to read past it.
func (c *call) sayNext(next string) {
	if next == "" || c.format != "text" || !isTerminal(c.stderr) {
		return
	}
	fmt.Fprintf(c.stderr, "next: %s %s\n", c.commandOfStudy(), next)
}

// commandOfStudy is what headhours is called by, with the study where one was named.
func (c *call) commandOfStudy() string {
	if c.set.Changed("study") {
		return "headhours --study " + shellWord(c.study)
	}
	return "headhours"
}
