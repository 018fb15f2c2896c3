package tasklog

import "strings"

// anyFigure reads a cell that differs from row to row in any form, and goes behind it; blank
// where it is, 0 where it is wrong or in doubt.
func (p *parser) anyFigure(data []byte, at int, c *part) (x float64, behind int) {
	if behind = c.past(data, at); behind > 0 {
		return noFigure, behind
	}
	from, end := at, c
	if data[at] == '"' {
		from, end = at+1, &inQuotes
	}
	switch {
	case c.does == isClock:
		x, behind = clockAt(data, from, end)
	case c.unit > 0:
		x, behind = timeAt(data, from, c, end)
	default:
		x, behind = numberAt(data, from, end.end, c.mark)
	}
	if behind > 0 && end != c {
		behind = c.past(data, behind)
	}
	if behind > 0 {
		return x, behind
	}
	return p.figureOf(data, at, c)
}

// inQuotes is a cell up to its closing quote.
var inQuotes = part{end: '"'}

// figureOf is what a cell says by its decoder.
func (p *parser) figureOf(data []byte, at int, c *part) (x float64, behind int) {
	raw, behind := p.cellAt(data[:len(data)-padding], at, c.end == '\n')
	content := strings.TrimSpace(cellText(string(raw)))
	if behind == 0 || content == "" {
		return noFigure, behind
	}
	var err error
	doubtful := false
	switch is := c.fields[0]; is {
	case countColumn:
		x, err = p.numberIn(content)
	case startColumn, endColumn:
		x, err = p.clockIn(content)
	default:
		x, doubtful, err = p.durationIn(is, content)
	}
	if err != nil || doubtful {
		return 0, 0
	}
	return x, behind
}

func hasPrefix(data []byte, text string) bool {
	return len(data) >= len(text) && string(data[:len(text)]) == text
}
