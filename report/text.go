package report

import (
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

const (
	bold  = "\x1b[1m"
	faint = "\x1b[2m"
	reset = "\x1b[0m"
	gap   = "  " // between two columns
)

func writeText(w io.Writer, doc Doc, style Style) error {
	if style.Width == 0 {
		style.Width = 80
	}
	paint := func(code, text string) string {
		if !style.Colour {
			return text
		}
		return code + text + reset
	}
	var b strings.Builder
	b.WriteString(paint(bold, Wrap(doc.Title, style.Width, "")) + "\n")
	for _, paragraph := range doc.Words() {
		b.WriteByte('\n')
		lines, indent := strings.Split(paragraph, "\n"), ""
		if len(lines) > 1 {
			indent = "  "
		}
		for _, line := range lines {
			b.WriteString(Wrap(line, style.Width, indent) + "\n")
		}
	}
	for _, table := range doc.Tables() {
		if table.For == Programs {
			continue
		}
		b.WriteString("\n" + paint(bold, Wrap(table.Title, style.Width, "")) + "\n")
		for i, line := range textTable(table, style.Width) {
			if i == 0 {
				line = paint(faint, line)
			}
			b.WriteString(line + "\n")
		}
	}
	if len(doc.Notes) > 0 {
		b.WriteString("\n" + paint(bold, "Notes") + "\n")
		for _, note := range doc.Notes {
			b.WriteString(Wrap("- "+note, style.Width, "  ") + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Wrap breaks text at blanks into lines of at most width columns; lines after
// the first start with indent; a word longer than a line stands alone.
func Wrap(text string, width int, indent string) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(text) {
		length := ansi.StringWidth(word)
		switch {
		case column == 0:
		case column+1+length > width:
			b.WriteString("\n" + indent)
			column = ansi.StringWidth(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += length
	}
	return b.String()
}

// textTable lays a table out in columns, head first. Where it is too wide its
// first column is narrowed, and its cells go on over several lines.
func textTable(table Table, width int) []string {
	var columns []int // those that are shown
	widths := map[int]int{}
	total := 0
	for j, c := range table.Columns {
		if c.Full {
			continue
		}
		columns = append(columns, j)
		widths[j] = ansi.StringWidth(c.Head)
		for _, row := range table.Rows {
			widths[j] = max(widths[j], ansi.StringWidth(row[j].Text))
		}
		total += widths[j] + len(gap)
	}
	const minWidth = 14
	first := columns[0]
	if over := total - len(gap) - width; over > 0 {
		widths[first] = max(min(widths[first], minWidth), widths[first]-over)
	}
	heads := make([]Cell, len(table.Columns))
	for j, c := range table.Columns {
		heads[j] = Cell{Text: c.Head}
	}
	lines := textRow(table, heads, columns, widths)
	for _, row := range table.Rows {
		lines = append(lines, textRow(table, row, columns, widths)...)
	}
	return lines
}

// textRow is a row as one or more lines: its first cell may go on below. A word wider than
// its column has a line to itself, so that the figures stay in theirs.
func textRow(table Table, row []Cell, columns []int, widths map[int]int) []string {
	first := columns[0]
	names := strings.Split(Wrap(row[first].Text, widths[first], ""), "\n")
	var lines []string
	if ansi.StringWidth(names[0]) > widths[first] {
		lines, names[0] = []string{names[0]}, ""
	}
	line := pad(names[0], widths[first], table.Columns[first].Right)
	for _, j := range columns[1:] {
		line += gap + pad(row[j].Text, widths[j], table.Columns[j].Right)
	}
	lines = append(lines, strings.TrimRight(line, " "))
	for _, more := range names[1:] {
		lines = append(lines, "  "+more)
	}
	return lines
}

func pad(text string, width int, right bool) string {
	blanks := strings.Repeat(" ", max(0, width-ansi.StringWidth(text)))
	if right {
		return blanks + text
	}
	return text + blanks
}

// Style says how text may look.
type Style struct {
	Colour bool // terminal escapes for bold and colour
	Width  int  // columns; 0 means 80
}
