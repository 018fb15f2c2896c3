package tasklog

import "strings"

// anyFigure reads a cell that differs from row to row in any form, and goes behind it; blank
// where it is, 0 where it is wrong or in doubt.
func (p *parser) anyFigure(data []byte, at int, c *part) (x float64, behind int) {
	if behind = c.past(data, at); behind > 0 {
		return noFigure, behind
	}
	from := behindBlanks(data, at)
	if data[at] == '"' {
		if x, behind = p.figureAt(data, at+1, c, &inQuotes); behind > 0 {
			behind = c.past(data, behind)
		}
	} else if x, behind = p.figureAt(data, from, c, c); behind == 0 {
		if x, behind = p.figureAt(data, from, c, &beforeBlanks); behind > 0 {
			behind = c.past(data, behindBlanks(data, behind))
		}
	}
	if behind > 0 {
		return x, behind
	}
	return p.figureOf(data, at, c)
}

// inQuotes is a cell up to its closing quote, and beforeBlanks one up to blanks behind it.
var inQuotes, beforeBlanks = part{end: '"'}, part{end: ' '}

// behindBlanks is the first byte from one on that is no blank; a row ends with none.
func behindBlanks(data []byte, at int) int {
	for data[at] == ' ' {
		at++
	}
	return at
}

// figureAt reads a figure of a part in the forms that most have, and goes behind what ends it.
func (p *parser) figureAt(data []byte, at int, c, end *part) (x float64, behind int) {
	switch {
	case c.does == isClock:
		return clockAt(data, at, end)
	case c.unit > 0:
		return timeAt(data, at, c, end)
	}
	x, behind = numberAt(data, at, end.end, c.mark)
	if behind > 0 && p.mayBeThousands(data[at:behind]) {
		return 0, 0
	}
	return x, behind
}

// maxFigures is how many are remembered of a part.
const maxFigures = 4096

// figureOf is what a cell says by its decoder. What was met lately is remembered.
func (p *parser) figureOf(data []byte, at int, c *part) (x float64, behind int) {
	raw, behind := p.cellAt(data[:len(data)-padding], at, c.end == '\n')
	if x, met := c.met[string(raw)]; met {
		return x, behind
	}
	content := strings.TrimSpace(cellText(string(raw)))
	if behind == 0 || content == "" {
		return noFigure, behind
	}
	var err error
	doubtful := false
	switch is := c.fields[0]; is {
	case countColumn:
		x, err = p.numberIn(content)
		doubtful = p.mayBeThousands([]byte(content))
	case startColumn, endColumn:
		x, err = p.clockIn(content)
	default:
		x, doubtful, err = p.durationIn(is, content)
	}
	if err != nil || doubtful {
		return 0, 0
	}
	if c.met == nil || len(c.met) == maxFigures {
		c.met = map[string]float64{}
	}
	c.met[string(raw)] = x
	return x, behind
}

func hasPrefix(data []byte, text string) bool {
	return len(data) >= len(text) && string(data[:len(text)]) == text
}
