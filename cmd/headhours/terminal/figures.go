package terminal

import "strings"

// shapes are the figures of the clock, three squares wide and five high, a colon
// one wide: # is lit.
var shapes = map[rune][5]string{
	'0': {"###", "# #", "# #", "# #", "###"},
	'1': {" # ", "## ", " # ", " # ", "###"},
	'2': {"###", "  #", "###", "#  ", "###"},
	'3': {"###", "  #", "###", "  #", "###"},
	'4': {"# #", "# #", "###", "  #", "  #"},
	'5': {"###", "#  ", "###", "  #", "###"},
	'6': {"###", "#  ", "###", "# #", "###"},
	'7': {"###", "  #", "  #", "  #", "  #"},
	'8': {"###", "# #", "###", "# #", "###"},
	'9': {"###", "# #", "###", "  #", "###"},
	':': {" ", "#", " ", "#", " "},
}

// square is a square of a figure in columns and lines. Those of a terminal are
// about twice as high as wide.
type square struct{ wide, high int }

// squares are the sizes of figures, the largest first; the last is that of text.
var squares = []square{{8, 4}, {7, 4}, {6, 3}, {5, 3}, {4, 2}, {3, 2}, {2, 1}}

// large is a time in the largest figures that fit, "#" for what is lit; plain text
// where none do.
func large(time string, width, height int) []string {
	for _, s := range squares {
		if max(s.columns(time), s.columns("00:00")) <= width && 5*s.high <= height {
			return s.draw(time)
		}
	}
	return []string{time}
}

func (s square) columns(time string) int {
	squares := -1 // no gap before the first
	for _, r := range time {
		squares += len(shapes[r][0]) + 1
	}
	return squares * s.wide
}

func (s square) draw(time string) []string {
	var lines []string
	for row := range 5 {
		var b strings.Builder
		for i, r := range time {
			if i > 0 {
				b.WriteString(strings.Repeat(" ", s.wide))
			}
			for _, lit := range shapes[r][row] {
				b.WriteString(strings.Repeat(string(lit), s.wide))
			}
		}
		for range s.high {
			lines = append(lines, strings.ReplaceAll(b.String(), "#", "█"))
		}
	}
	return lines
}
