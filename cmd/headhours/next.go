package main

import (
	"fmt"
	"strings"
	"unicode"
)

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

// shellWord is a word as a shell reads it back.
func shellWord(word string) string {
	plain := func(r rune) bool {
		return strings.ContainsRune("._/,:=+-", r) || unicode.IsLetter(r) || unicode.IsDigit(r)
	}
	if word != "" && strings.IndexFunc(word, func(r rune) bool { return !plain(r) }) < 0 {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
