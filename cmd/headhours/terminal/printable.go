package terminal

import (
	"strings"
	"unicode"
)

// printable leaves out what a line does not hold: control characters and the
// like; line ends and tabs become blanks.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case unicode.IsGraphic(r):
			return r
		}
		return -1
	}, text)
}

// clean is a typed line as an event may hold it.
func clean(text string) string { return strings.TrimSpace(printable(text)) }
