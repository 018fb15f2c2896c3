package main

import "fmt"

// sayNext names the command that goes on from an answer. Only a person at a
// terminal is told, on standard error, so that no program has to read past it.
func (c *call) sayNext(next string) {
	if next == "" || c.format != "text" || !isTerminal(c.stderr) {
		return
	}
	study := ""
	if c.set.Changed("study") {
		study = "--study " + shellWord(c.study) + " "
	}
	fmt.Fprintf(c.stderr, "next: headhours %s%s\n", study, next)
}
