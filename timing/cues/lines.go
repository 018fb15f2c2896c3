package cues

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"
)

// line is a line of the file, or what is left of it, with its number.
type line struct {
	n    int
	text string
}

// split cuts a file into its lines, of which there is always one; they end in
// LF, CRLF or CR, as WebVTT has it.
func split(data []byte) []line {
	text := string(bytes.TrimPrefix(data, []byte("\ufeff")))
	lines := make([]line, 0, 1+strings.Count(text, "\n")+strings.Count(text, "\r"))
	for n := 1; ; n++ {
		at := strings.IndexAny(text, "\r\n")
		if at < 0 {
			return append(lines, line{n, text})
		}
		lines = append(lines, line{n, text[:at]})
		if strings.HasPrefix(text[at:], "\r\n") {
			at++
		}
		text = text[at+1:]
	}
}

func notText(l line) bool { return strings.IndexByte(l.text, 0) >= 0 || !utf8.ValidString(l.text) }

func hasArrow(l line) bool { return strings.Contains(l.text, "-->") }

// clean is a text on one line without blanks around it: every blank and control
// character is a plain space, and what is not UTF-8 is U+FFFD.
func clean(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.IsControl(r) {
			return ' '
		}
		return r
	}, text))
}
