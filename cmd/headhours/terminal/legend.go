package terminal

import "github.com/charmbracelet/x/ansi"

// hint is a key and what it does, at length and, where that differs, in a word.
type hint struct{ key, does, short string }

// narrow is a screen with room for words only.
const narrow = 60

// legend is the keys, in as many lines as they need.
func legend(hints []hint, width int) []painted {
	lines := []painted{{}}
	column := 0
	for _, h := range hints {
		if width < narrow && h.short != "" {
			h.does = h.short
		}
		key, does := "["+h.key+"]", " "+printable(h.does)
		w := ansi.StringWidth(key + does)
		if column > 0 && column+2+w > width {
			lines, column = append(lines, painted{}), 0
		}
		at := len(lines) - 1
		if column > 0 {
			lines[at] = append(lines[at], styledText{"  ", plain})
			column += 2
		}
		lines[at] = append(lines[at], styledText{key, bold}, styledText{does, plain})
		column += w
	}
	return lines
}
