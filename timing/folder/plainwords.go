package folder

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"

	"headhours/timing/late"
)

// plainWords are what the library says of a mistake, each with what a grower would say of
// it, and where the mistake is: at the place that the library gives, or earlier.
var plainWords = []struct {
	library, plain string
	at             func(text []byte, at int) int
}{
	{"strings cannot have new lines", `text is not closed: a quotation mark is missing at its end`, openingQuote},
	{"expected ',' or ']' after array value", "a comma is missing between two items of a list, or the ] at its end", lastBefore},
	{"expected ',' or '}' after inline table", "a comma is missing between two keys in braces, or the } at their end", lastBefore},
	{"inline table is incomplete", "the } is missing that closes a {", nil},
	{"array is incomplete", "the ] is missing that closes a [", nil},
	{"expected newline but got", "there is something behind the value: a line has one key and one value", nil},
	{"expected ']]' to close", "the ]] of a heading is missing, as in [[step]]", nil},
	{"expected ']' to close", "the ] of a heading is missing, as in [study]", nil},
	{"U+000A at start of value", "a value is missing behind the =", lastBefore},
	{"at start of value", "this is no value", nil},
	{"expected '=' after key", noEquals, nil},
	{"invalid escape character", `a \ within text is written twice, or the text stands in single quotes`, nil},
	{"impossible date", "there is no such day", nil},
	{"leading zero", "a number does not begin with a 0 that means nothing", nil},
	{"expected value but got", "a value is missing, or there is a comma too many", nil},
	{"at start of key", "a line begins with a key, as in heads = 48", nil},
	{"must be followed by a digit", "digits are missing behind the decimal point", nil},
	{"expected keyword", "true and false stand alone, any other text in quotes", nil},
}

const noEquals = "the = is missing between a key and its value"

// foundLetter is a letter as the library names it: by its number, and in quotes where it
// can be shown.
var foundLetter = late.Regexp(`(U\+[0-9A-F]+)(?: ('.'))?`)

// keyTwice is what the library says of a key or heading that was there before.
var keyTwice = late.Regexp(`((?:key|table) .+) (?:is already defined|already exists)`)

// inPlainWords says of a fault what a grower would, at the place where the mistake is.
func (s source) inPlainWords(f *fault) {
	if twice := keyTwice().FindStringSubmatch(f.text); twice != nil {
		f.text = "cannot be read: " + twice[1] + " stands twice: keep one of the two"
		if name := headingAt(s.text[s.lineStart(f.at):]); slices.Contains(headedLists, name) {
			f.text = fmt.Sprintf("cannot be read: %s stands twice: each takes two brackets, [[%s]]", name, name)
		}
		return
	}
	if open, ok := s.openList(f); ok {
		f.text = fmt.Sprintf("cannot be read: the ] is missing that closes the [ of line %d, before this line", s.place(open).Line)
		return
	}
	for _, w := range plainWords {
		if !strings.Contains(f.text, w.library) {
			continue
		}
		found := foundLetter().FindStringSubmatch(f.text)
		f.text = "cannot be read: " + w.plain
		if found != nil && found[1] != "U+000A" {
			f.text += ", found " + cmp.Or(found[2], found[1])
		}
		if w.at != nil {
			f.at = w.at(s.text, f.at)
		}
		return
	}
}

// headedLists are the tables of which there may be several, each under a heading in two
// brackets.
var headedLists = []string{"step", "workflow", "grow", "supply", "overhead", "sowing", "chore", "change"}

// headings and keys as lines begin with them.
var (
	headingLine = late.Regexp(`^\s*\[+\s*([\w-]+)\s*\]`)
	keyLine     = late.Regexp(`^\s*[\w-]+\s*=`)
	listLine    = late.Regexp(`^\s*[\w-]+\s*=\s*\[`)
)

// headingAt is the name in a heading that a text begins with, "" where it begins with none.
func headingAt(text []byte) string {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	if found := headingLine().FindSubmatch(line); found != nil {
		return string(found[1])
	}
	return ""
}

// openList is where a list begins that the line of a fault goes on with, though that is a
// heading or a key and so belongs behind it; false where there is none such.
func (s source) openList(f *fault) (at int, ok bool) {
	start := s.lineStart(f.at)
	line, _, _ := bytes.Cut(s.text[start:], []byte("\n"))
	if !strings.Contains(f.text, "at start of value") || len(bytes.Trim(s.text[start:f.at], " \t[")) > 0 || headingAt(line) == "" && !keyLine().Match(line) {
		return 0, false
	}
	for start > 0 {
		start = s.lineStart(start - 1)
		line, _, _ := bytes.Cut(s.text[start:], []byte("\n"))
		if listLine().Match(line) {
			return start, true
		}
	}
	return 0, false
}

// lastBefore is the last place before another at which something but blanks stands.
func lastBefore(text []byte, at int) int {
	before := len(bytes.TrimRight(text[:at], " \t\r\n"))
	return max(before-1, 0)
}

// openingQuote is where the text begins that is not closed in its line.
func openingQuote(text []byte, at int) int {
	line := bytes.LastIndexByte(text[:at], '\n') + 1
	open := -1
	var quote byte
	for i := line; i < at; i++ {
		switch c := text[i]; {
		case open < 0 && (c == '"' || c == '\''):
			open, quote = i, c
		case open >= 0 && c == '\\' && quote == '"':
			i++
		case open >= 0 && c == quote:
			open = -1
		}
	}
	if open < 0 {
		return at
	}
	return open
}
