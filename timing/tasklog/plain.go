package tasklog

import (
	"encoding/binary"
	"slices"

	"headhours/timing"
)

// part is what plain rows have side by side: a field, or a run of fields whose cells
// recur, which are looked up together.
type part struct {
	does   doing
	end    byte // what stands behind it: the separator, or a line end
	ends   uint64
	fields []column // of a run

	inner  int        // of a run: ends within it
	latest *phrase    // of the row before, if it is short enough to remember
	said   *phrase    // likewise, however long
	tells  uint8      // of which groups it is
	masks  *[4]uint64 // of latest
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
	notPlain              // rows in which anything stands here are not plain
)

// partsOf are the parts of a log with the fields of a header. A run does not mix what
// changes from grow to grow with what changes from row to row.
func partsOf(fields []column, separator byte) []part {
	var parts []part
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
		p.fields = []column{is}
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
	case startColumn, endColumn, pausedColumn, voidColumn, journalColumn:
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
		return timing.StepNames, true
	case workflowColumn:
		return timing.WorkflowNames, true
	case growColumn:
		return timing.GrowNames, true
	case workerColumn:
		return timing.WorkerNames, true
	}
	return 0, false
}

// plainRow reads the row at an offset, where it is plain, and gives its end; else 0.
func (p *parser) plainRow(data []byte, at int) int {
	var count, seconds float64
	row, others := uint32(p.parsed.lines), uint8(0)
	for i := range p.parts {
		c := &p.parts[i]
		ok := true
		switch c.does {
		case told:
			text, latest, masks := data[at:at+longest], c.latest, c.masks
			words := [4]uint64{binary.LittleEndian.Uint64(text), binary.LittleEndian.Uint64(text[8:]),
				binary.LittleEndian.Uint64(text[16:]), binary.LittleEndian.Uint64(text[24:])}
			if (words[0]&masks[0]^latest.words[0])|(words[1]&masks[1]^latest.words[1])|
				(words[2]&masks[2]^latest.words[2])|(words[3]&masks[3]^latest.words[3]) == 0 {
				at += int(latest.size)
				continue
			}
			others |= c.tells
			at, ok = p.look(data, at, &words, c)
		case counted:
			from, end := c.opens(data, at)
			count, at, ok = p.number(data, from, end)
			if ok && end != c.end {
				at, ok = c.closes(data, at)
			}
		case timed:
			from, end := c.opens(data, at)
			seconds, at, ok = p.time(data, from, end)
			ok = ok && (seconds >= 10 || !hasHundredths(data[from:at-1]))
			if ok && end != c.end {
				at, ok = c.closes(data, at)
			}
		case notPlain:
			if data[at] == '\r' && c.end == '\n' {
				at++
			}
			ok = data[at] == c.end
			at++
		default:
			at, ok = p.skip(data, at, c)
		}
		if !ok {
			p.where.known, p.what.known = false, false
			return 0
		}
	}
	if others&tellsWhere != 0 || !p.where.known {
		p.settle(&p.where, (*parser).tellWhere)
	}
	if others&tellsWhat != 0 || !p.what.known {
		p.settle(&p.what, (*parser).tellWhat)
	}
	b := &p.parsed.batch
	if p.whats.List[p.what.latest].Step == 0 || !(count > 0 && seconds > 0 && sane(count) && sane(seconds)) {
		return 0
	}
	b.Rows = append(b.Rows, timing.Brief{Where: p.where.latest, What: p.what.latest, Row: row, Count: count, Seconds: seconds})
	p.parsed.lines++
	return at
}
