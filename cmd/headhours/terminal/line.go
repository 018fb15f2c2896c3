package terminal

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// style is how a piece of a line stands out. What it says is in words too.
type style int

const (
	plain style = iota
	bold
	faint
	good  // badges: running,
	still // paused,
	alarm // not saved
)

// codes are the attributes of each style (ECMA-48, SGR), of the sixteen colours.
var codes = map[style]string{bold: "1", faint: "2", good: "1;7;32", still: "1;7;33", alarm: "1;7;31"}

// styledText is a stretch of text in one style.
type styledText struct {
	text  string
	style style
}

// painted is a line of the screen.
type painted []styledText

func text(s string) painted             { return painted{{s, plain}} }
func styled(s string, as style) painted { return painted{{s, as}} }

// String is the line without its styles.
func (l painted) String() string {
	var b strings.Builder
	for _, p := range l {
		b.WriteString(p.text)
	}
	return b.String()
}

// painted is the line with its styles as a terminal takes them.
func (l painted) painted() string {
	var b strings.Builder
	for _, p := range l {
		if code := codes[p.style]; code != "" {
			b.WriteString("\x1b[" + code + "m" + p.text + "\x1b[0m")
			continue
		}
		b.WriteString(p.text)
	}
	return b.String()
}

func (l painted) width() int { return ansi.StringWidth(l.String()) }

// cut is the line in so many columns, an ellipsis where it is longer.
func (l painted) cut(width int) painted {
	if l.width() <= width {
		return l
	}
	var line painted
	left := width
	for _, p := range l {
		w := ansi.StringWidth(p.text)
		if w >= left { // more follows, or this is too long: for the ellipsis
			p.text = ansi.Truncate(p.text+"  ", left, "…")
			return append(line, p)
		}
		line, left = append(line, p), left-w
	}
	return line
}

// filled is the line cut or filled up to so many columns.
func (l painted) filled(width int) painted {
	l = l.cut(width)
	return append(l[:len(l):len(l)], styledText{strings.Repeat(" ", max(0, width-l.width())), plain})
}

// across puts right at the right end of a line of so many columns; left gives way.
func across(left, right painted, width int) painted {
	room := width - right.width()
	if room <= 0 {
		return right.cut(width)
	}
	return append(left.filled(room), right...)
}

// wrapped is text in lines of so many columns, all in one style.
func wrapped(s string, as style, width int) []painted {
	var lines []painted
	for _, l := range strings.Split(ansi.Wrap(s, max(1, width), ""), "\n") {
		lines = append(lines, styled(l, as))
	}
	return lines
}
