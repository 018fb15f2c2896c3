package words

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Show is a text as it is shown to people: what a terminal or a page would act on,
// control characters and marks that turn the direction of text, is written as
// escapes, and bytes that are not UTF-8 as U+FFFD. It does not escape HTML.
func Show(text string) string { return escape(text, Hidden) }

// ShowCell is a text as a cell of a table that programs read: as Show has it, but for
// what joins letters or breaks lines, which names may hold.
func ShowCell(text string) string { return escape(text, actedOn) }

// MayBeFormula says whether a spreadsheet would take a text for a formula.
func MayBeFormula(text string) bool {
	return strings.HasPrefix(strings.TrimLeft(text, " "), "=") || strings.ContainsAny(text[:min(1, len(text))], "+-@\t")
}

func escape(text string, which func(rune) bool) string {
	text = strings.ToValidUTF8(text, "\ufffd")
	if strings.IndexFunc(text, which) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if which(r) {
			b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// actedOn says whether a terminal does more with a rune than to show it or begin a line.
func actedOn(r rune) bool {
	return r != '\n' && r != '\t' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
}

// Hidden says whether a rune is a control character, turns the direction of text, or is
// not to be seen otherwise.
func Hidden(r rune) bool {
	if r < utf8.RuneSelf { // as nearly all are
		return unicode.IsControl(r)
	}
	return r != ' ' && !unicode.IsGraphic(r) || unicode.Is(unicode.Bidi_Control, r)
}

// Quote is a text in quotes, cut where it is very long.
func Quote(text string) string { return strconv.Quote(Short(text)) }

// maxShort is of how many letters a text is shown: enough for any name.
const maxShort = 60

// Short is a text, cut where it is very long.
func Short(text string) string { return cutTo(text, maxShort) }

// Cause is what a library says is wrong with a file, fit to be shown: it may hold any
// part of the file.
func Cause(err error) string { return Show(cutTo(err.Error(), 4*maxShort)) }

func cutTo(text string, maxRunes int) string {
	letters := 0
	for i := range text {
		if letters == maxRunes {
			return text[:i] + "…"
		}
		letters++
	}
	return text
}
