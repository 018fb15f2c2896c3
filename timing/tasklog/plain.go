package tasklog

import (
	"encoding/binary"
	"slices"

	"headhours/timing/condense"
)

// part is what plain rows have side by side: a field, or a run of fields whose cells
// recur, which are looked up together.
type part struct {
	does   doing
	end    byte // what stands behind it: the separator, or a line end
	ends   uint64
	fields []column // of a run

	inner  int        // of a run: ends within it
	tells  uint8      // of which groups it is
	steady bool       // it was the same in the last two rows
	said   *phrase    // of the last row
	id     uint32     // of that, whose place may be another's by now
	masks  *[4]uint64 // of that
	met    *[slots]phrase
}

// The groups of runs.
const (
	tellsWhere = 1 << iota
	tellsWhat
)

// doing is what is done with a part of the rows.
type doing uint8

const (
	skipped  doing = iota // a note, or a column of another name
	told                  // a run
	counted               // numbers that differ from row to row
	timed                 // times likewise
	clocked               // times of day
	notPlain              // rows in which anything stands here are not plain
)

// partsOf are the parts of a log with the fields of a header. A run does not mix what
// changes from grow to grow with what changes from row to row.
func partsOf(fields []column, separator byte) []part {
	parts := make([]part, 0, len(fields)) // as many where each is kept out of the way
	for i, is := range fields {
		p := part{does: doingOf(is), end: separator}
		if i == len(fields)-1 {
			p.end = '\n'
		}
		p.ends = lowest * uint64(p.end)
		last := len(parts) - 1
		if p.does == told && last >= 0 && parts[last].does == told && !slices.ContainsFunc(parts[last].fields, apartFrom(is)) {
			parts[last].fields = append(parts[last].fields, is)
			parts[last].end, parts[last].ends = p.end, p.ends
			continue
		}
		p.fields = fields[i : i+1 : i+1]
		parts = append(parts, p)
	}
	for i := range parts {
		p := &parts[i]
		for _, is := range p.fields {
			switch is {
			case dateColumn, growColumn, workflowColumn:
				p.tells |= tellsWhere
			case stepColumn, workerColumn, sourceColumn, setupsColumn, peopleColumn, ratingColumn:
				p.tells |= tellsWhat
			}
		}
		if p.end != '\n' {
			p.inner = len(p.fields) - 1
		}
	}
	return parts
}

func doingOf(is column) doing {
	switch is {
	case countColumn:
		return counted
	case timeColumn:
		return timed
	case startColumn, endColumn:
		return clocked
	case pausedColumn, voidColumn, journalColumn:
		return notPlain
	case stepColumn, workflowColumn, growColumn, workerColumn, dateColumn, sourceColumn, peopleColumn, setupsColumn, ratingColumn:
		return told
	}
	return skipped
}

// apartFrom says of a column whether another changes at quite another pace.
func apartFrom(is column) func(column) bool {
	slow := []column{dateColumn, growColumn, workflowColumn}
	quick := []column{stepColumn, workerColumn}
	return func(other column) bool {
		return slices.Contains(slow, is) && slices.Contains(quick, other) ||
			slices.Contains(quick, is) && slices.Contains(slow, other)
	}
}

// nameKind is of what kind a column's names are.
func nameKind(is column) (kind int, ok bool) {
	switch is {
	case stepColumn:
		return condense.StepNames, true
	case workflowColumn:
		return condense.WorkflowNames, true
	case growColumn:
		return condense.GrowNames, true
	case workerColumn:
		return condense.WorkerNames, true
	}
	return 0, false
}

// blankTime is the time of a row that does not give it.
const blankTime = -1

// plainRow reads the row at an offset, where it is plain, and gives its end; else 0.
func (p *parser) plainRow(data []byte, at int) int {
	var count float64
	seconds, start, end := float64(blankTime), float64(noClock), float64(noClock)
	row, others := p.parsed.lines, uint8(0)
	parts := p.parts
	for i := range parts {
		c := &parts[i]
		switch c.does {
		case told:
			text := data[at : at+longest]
			w0, w1 := binary.LittleEndian.Uint64(text), binary.LittleEndian.Uint64(text[8:])
			w2, w3 := binary.LittleEndian.Uint64(text[16:]), binary.LittleEndian.Uint64(text[24:])
			said, masks := c.said, c.masks
			if c.steady && w0&masks[0] == said.words[0] &&
				(said.size <= 8 || (w1&masks[1]^said.words[1])|(w2&masks[2]^said.words[2])|(w3&masks[3]^said.words[3]) == 0) {
				at += said.size
				continue
			}
			found, slot, size := c.look(w0, w1, w2, w3)
			if found == nil {
				found = p.meet(data, at, c, slot, size)
				size = found.long
			}
			if c.steady = found.id == c.id; !c.steady {
				c.said, c.id, c.masks = found, found.id, &masksOf[found.size]
				others |= c.tells
			}
			if at += size; size > 0 { // not found.long, which is known later
				continue
			}
		case counted, timed:
			x, behind := plainNumber(data, at, c.end)
			switch {
			case behind == 0 && c.does == timed && data[at] == c.end && p.hasClocks:
				x, behind = blankTime, at+1
			case behind == 0 && c.does == counted && p.counts > 0 && isBlankField(data, at, c.end):
				if at++; data[at-1] == '\r' {
					at++
				}
				continue
			case behind == 0:
				x, behind = p.figure(data, at, c)
			case c.does == timed:
				x *= p.unit
			}
			if at = behind; at > 0 {
				if c.does == counted {
					if count > 0 {
						break // of several that are filled, care chooses
					}
					count = x
				} else {
					seconds = x
				}
				continue
			}
		case clocked:
			x, behind := plainClock(data, at, c.end)
			if at = behind; at > 0 {
				if c.fields[0] == startColumn {
					start = x
				} else {
					end = x
				}
				continue
			}
		case notPlain:
			if data[at] == '\r' && c.end == '\n' {
				at++
			}
			at++
			if data[at-1] == c.end {
				continue
			}
		default:
			if at = p.skip(data, at, c); at > 0 {
				continue
			}
		}
		p.where.known, p.what.known = false, false
		return 0
	}
	if others&tellsWhere != 0 || !p.where.known {
		p.settle(&p.where, (*parser).tellWhere)
	}
	if others&tellsWhat != 0 || !p.what.known {
		p.settle(&p.what, (*parser).tellWhat)
	}
	if seconds == blankTime {
		seconds = between(start, end)
	}
	b := &p.parsed.batch
	if b.What[p.what.latest].Step == 0 || !(count > 0 && seconds > 0 && sane(count) && sane(seconds)) {
		return 0
	}
	what := p.what.latest
	if start != noClock && end != noClock && b.Where[p.where.latest].Day != condense.NoDay {
		what = p.clocked(what)
		p.parsed.found.Clocks++
	}
	n := len(b.Rows)
	b.Rows = slices.Grow(b.Rows, 1)[:n+1]
	r := &b.Rows[n] // field by field: a whole Brief would be put together elsewhere first
	r.Where, r.What, r.Row, r.Count, r.Seconds = p.where.latest, what, uint32(row), count, seconds
	p.parsed.lines++
	return at
}

// isBlankField says whether a field ends where it begins.
func isBlankField(data []byte, at int, end byte) bool {
	return data[at] == end || data[at] == '\r' && end == '\n' && data[at+1] == end
}
