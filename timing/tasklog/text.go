package tasklog

import (
	"fmt"
	"strconv"
	"strings"
)

// quote is a text in quotes, cut where it is very long.
func quote(text string) string {
	const most = 60 // letters, enough for any name
	letters := 0
	for i := range text {
		if letters == most {
			return strconv.Quote(text[:i] + "…")
		}
		letters++
	}
	return strconv.Quote(text)
}

// list is names in quotes, the first most of them.
func list(names []string, most int) string {
	var quoted []string
	for _, name := range names[:min(most, len(names))] {
		quoted = append(quoted, quote(name))
	}
	text := strings.Join(quoted, ", ")
	if more := len(names) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}
