package words

import (
	"unicode"
	"unicode/utf8"
)

// Capital is a sentence that begins with a name, which may begin with any letter.
func Capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// Uncapital is a sentence as it goes on after a colon.
func Uncapital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToLower(first)) + text[size:]
}
