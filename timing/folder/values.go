package folder

import (
	"slices"
	"strings"
	"unicode"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// seconds reads a time: a text as in a task log, or a number of seconds.
func seconds(to *study.Maybe) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind != aText {
			maybe(to, atLeast(0))(d, f)
			return
		}
		s, doubtful, err := notation.Duration(strings.TrimSpace(f.value.text), false)
		if err != nil {
			d.problem(f.value.at, "%s: %s %v", f.name, words.Quote(strings.TrimSpace(f.value.text)), err)
			return
		}
		if doubtful {
			d.warn(f.value.at, "%s: %s is read as seconds, write it as m:ss or with min if minutes were meant", f.name, words.Quote(f.value.text))
		}
		if s > study.MaxNumber {
			d.tooMuch(f)
			return
		}
		*to = study.Known(s)
	}
}

// yesNo reads true or false.
func yesNo(to *bool) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind != aBool {
			d.want(f, "true or false")
			return
		}
		*to = f.value.text == "true"
	}
}

// plainText reads free text.
func plainText(to *string) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind != aText {
			d.want(f, "a text in quotes")
			return
		}
		*to = f.value.text
	}
}

// oneLine reads a text of one line, blanks around it taken off.
func oneLine(to *string) keyReader {
	return func(d *decoder, f field) {
		if strings.ContainsFunc(f.value.text, unicode.IsControl) {
			d.want(f, "a text of one line without control characters")
			return
		}
		plainText(to)(d, f)
		*to = strings.TrimSpace(*to)
	}
}

// oneOf reads one of some words.
func oneOf[T ~string](to *T, words []T) keyReader {
	return func(d *decoder, f field) {
		if f.value.kind == aText && slices.Contains(words, T(f.value.text)) {
			*to = T(f.value.text)
			return
		}
		quoted := make([]string, len(words))
		for i, w := range words {
			quoted[i] = string(w)
		}
		if f.value.kind != aText {
			d.want(f, "one of "+strings.Join(quoted, ", "))
			return
		}
		d.problem(f.value.at, "%s: unknown word %s: %s", f.name, f.value.describe(), meant(f.value.text, quoted))
	}
}
