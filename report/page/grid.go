package page

import (
	"html/template"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"headhours/report"
	"headhours/timing/words"
)

// grid is a table as the page shows it.
type grid struct {
	Title   string
	Columns []report.Column
	Rows    [][]string
	Folded  bool // behind its title, for it is long
	Narrow  bool // so only where its rows are stacked
	Stacks  bool // too wide for a phone: there each row is a block of its own
	Scrolls bool // may be wider than any page: it scrolls sideways
}

// maxRows is how many rows of a table stand open, maxStacked how many of one
// whose rows are stacked.
const (
	maxRows    = 14
	maxStacked = 5
)

// Widths that a page has for a table at least, in CSS pixels: on a phone, where the
// style sheet does not stack tables any more, and there beside the first words or a
// figure.
const (
	onPhone = 288
	onPage  = 700
	beside  = 500
)

// tableOf lays a table of a part out; a tucked one is behind its title however short, and
// one of a part with a figure is beside it where there is room.
func tableOf(t report.Table, tucked bool, part pagePart) grid {
	g := grid{Title: t.Title, Rows: make([][]string, len(t.Rows))}
	for j, c := range t.Columns {
		if c.Full || blank(t, j) {
			continue
		}
		if c.Long != "" {
			c.Head = c.Long
		}
		g.Columns = append(g.Columns, c)
		for i, row := range t.Rows {
			g.Rows[i] = append(g.Rows[i], row[j].Text)
		}
	}
	width := g.width()
	g.Stacks, g.Scrolls = width > onPhone, width > onPage || part.Figure != nil && width > beside
	long := tucked || len(t.Rows) > maxRows
	g.Narrow = !long && g.Stacks && len(t.Rows) > maxStacked
	g.Folded = long || g.Narrow
	return g
}

// blank says that a column has nothing to read: only bars, which the figure above
// shows, or nothing at all.
func blank(t report.Table, j int) bool {
	for _, row := range t.Rows {
		if strings.Trim(row[j].Text, "▇") != "" {
			return false
		}
	}
	return true
}

// longText is how many bytes make a cell a long one, which has a width of its own, and
// longWord how many letters without a blank, which are broken there.
const (
	longText = 60
	longWord = 30
)

// Long says whether a cell's text is to have room.
func (grid) Long(text string) bool { return len(text) > longText || longestWord(text) > longWord }

// Pair says whether a cell of numbers has a figure and its range, which need the room of
// two where rows are stacked.
func (grid) Pair(text string) bool { return ansi.StringWidth(text) > 11 }

// width is about what a table needs at least, in CSS pixels, as the style sheet
// lays it out: numbers are not broken, words are not broken but between them.
func (g grid) width() float64 {
	const letter, gap, figure, name, long = 7.6, 12, 60, 104, 240
	total := 0.0
	for j, c := range g.Columns {
		widest := letter * longestWord(c.Head)
		switch {
		case j == 0 && !c.Right:
			widest = max(widest, name)
		case c.Right && j > 0:
			widest = max(widest, figure)
		}
		for _, row := range g.Rows {
			switch {
			case c.Right:
				widest = max(widest, letter*float64(ansi.StringWidth(row[j])))
			case j > 0 && g.Long(row[j]):
				widest = max(widest, long)
			default:
				widest = max(widest, letter*longestWord(row[j]))
			}
		}
		total += widest + gap
	}
	return total
}

func longestWord(text string) float64 {
	longest := 0
	for _, word := range strings.Fields(text) {
		longest = max(longest, ansi.StringWidth(word))
	}
	return float64(longest)
}

// Role is an attribute that says what part of a table an element is, for tables
// that the style sheet may lay out otherwise: to a browser they were none then.
func (g grid) Role(name string) template.HTMLAttr {
	if !g.Stacks {
		return ""
	}
	return template.HTMLAttr(` role="` + name + `"`)
}

// Label is what a cell of a column bears where rows are stacked.
func (g grid) Label(j int) string {
	if !g.Stacks {
		return ""
	}
	return words.Show(g.Columns[j].Head)
}
