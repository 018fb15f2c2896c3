package tasklog

import (
	"encoding/binary"
	"slices"
	"strings"

	"headhours/timing/condense"
)

// plainRows reads the rows from an offset up to an end, or up to one that is blank or is to
// be told of, and says how far that is.
func (p *parser) plainRows(data []byte, from, end int) (behind int) {
	parts, parsed := p.parts, p.parsed
	above := parsed.lines
rows:
	for from < end && data[from] != '\n' && data[from] != '\r' {
		at, others := from, uint8(0)
		count, seconds := float64(noFigure), float64(noFigure)
		rest := figures{noFigure, noFigure, noFigure}
		for i := range parts {
			c := &parts[i]
			switch c.does {
			case isRun:
				text := data[at : at+maxMemo]
				w0, w1 := binary.LittleEndian.Uint64(text), binary.LittleEndian.Uint64(text[8:])
				w2, w3 := binary.LittleEndian.Uint64(text[16:]), binary.LittleEndian.Uint64(text[24:])
				last, masks := c.last, c.masks
				if c.steady && w0&masks[0] == last.words[0] &&
					(last.size <= 8 || (w1&masks[1]^last.words[1])|(w2&masks[2]^last.words[2])|(w3&masks[3]^last.words[3]) == 0) {
					at += last.size
					continue
				}
				if c.steady && last.text != "" && hasPrefix(data[at:], last.text) {
					at += len(last.text)
					continue
				}
				found, slot, size := c.look(w0, w1, w2, w3)
				if found == nil {
					if found = p.meet(data, at, c, slot, size); found == nil {
						break rows
					}
					size = found.long()
				}
				if c.steady = found.id == c.id; !c.steady {
					c.last, c.id, c.masks = found, found.id, &masksOf[found.size]
					others |= c.groups
				}
				at += size
			case isNumber:
				x, behind := numberAt(data, at, c.end, c.mark)
				if behind == 0 || x < 10 && c.unit > 0 && behind-at > 4 { // a time that may have two decimals
					if x, behind = p.anyFigure(data, at, c); behind == 0 {
						break rows
					}
				} else if c.unit > 1 {
					x *= c.unit
				}
				switch at = behind; {
				case x == noFigure:
				case c.figure == ofTime:
					seconds = x
				case c.figure == ofPause:
					rest[ofPause] = x
				case count != noFigure:
					break rows // of several that are filled one is chosen with care
				default:
					count = x
				}
			case isClock:
				x, behind := clockAt(data, at, c)
				if behind == 0 {
					if x, behind = p.anyFigure(data, at, c); behind == 0 {
						break rows
					}
				}
				at = behind
				rest[c.figure] = x
			case isAside:
				if at = c.past(data, at); at == 0 {
					break rows
				}
			default:
				if at = p.skip(data, at, c); at == 0 {
					break rows
				}
			}
		}
		if others&(tellsWhere|tellsDay) != 0 || !p.where.settled {
			if !p.where.isSettled(p.chunk) {
				p.settle(&p.where, (*parser).whereOf)
			}
			p.day = p.dayOf()
		}
		if (others&tellsWhat != 0 || !p.what.settled) && !p.what.isSettled(p.chunk) {
			p.settle(&p.what, (*parser).whatOf)
		}
		clocked := rest[ofStart] != noFigure && rest[ofEnd] != noFigure
		if clocked && seconds == noFigure {
			seconds = netTime(rest[ofStart], rest[ofEnd], max(0, rest[ofPause]))
		}
		b := &parsed.batch
		if count <= 0 || seconds <= 0 || b.What[p.what.latest].Step == 0 {
			break // it has not all that a reading needs
		}
		if clocked && p.day != condense.NoDay {
			parsed.found.Clocks++
		}
		n := len(b.Rows)
		if n == cap(b.Rows) {
			b.Rows = slices.Grow(b.Rows, 1)
		}
		b.Rows = b.Rows[:n+1]
		r := &b.Rows[n] // field by field: a whole Brief would be put together elsewhere first
		r.Where, r.What, r.Row, r.Day, r.Count, r.Seconds = p.where.latest, p.what.latest, uint32(above), p.day, count, seconds
		parsed.lines++ // beside those within its cells
		above, from = parsed.lines, at
	}
	parsed.lines = above
	p.where.settled, p.what.settled = false, false // of the row that it stops at, parts may have been read
	return from
}

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
	raw, behind := p.cellAt(data, at, c.end == '\n')
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
