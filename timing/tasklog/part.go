package tasklog

import (
	"math/bits"
	"slices"
)

// part is what rows have side by side: a field, or a run of fields whose cells recur from
// row to row, which are looked up together.
type part struct {
	does   doing
	fields []column
	end    byte    // what stands behind it: the separator, or a line end
	ends   uint64  // that in all bytes
	figure uint8   // of a row
	mark   byte    // beside a point, of decimals
	unit   float64 // seconds of a time's bare numbers; 0 of other figures

	inner  int        // of a run, that of texts or of fields to skip: ends within it
	groups uint8      // of which it tells
	steady bool       // it was the same in the last two rows
	rare   int        // how many rows of the chunk had one that was not met lately
	last   *phrase    // of the last row
	id     uint32     // of that, whose place may be another's by now
	masks  *[4]uint64 // of that
	memo   *[slots]phrase
	texts  map[string]*phrase // those that have one
}

// The groups of runs.
const (
	tellsWhere = 1 << iota
	tellsWhat
	tellsDay
)

// doing is what is done with a part of the rows.
type doing uint8

const (
	isSkipped doing = iota // notes, or columns of other names
	isRun                  // texts
	isNumber               // a count or a time
	isClock                // a time of day
	isAside                // a reading with anything here says more than a batch holds
)

func doingOf(is column) doing {
	switch is {
	case countColumn, timeColumn, pausedColumn:
		return isNumber
	case startColumn, endColumn:
		return isClock
	case voidColumn, journalColumn:
		return isAside
	case dateColumn, growColumn, workflowColumn, stepColumn, workerColumn, sourceColumn, peopleColumn, setupsColumn, ratingColumn:
		return isRun
	}
	return isSkipped
}

// partsOf are the parts of a log with the fields of a header. A run does not mix what
// changes from grow to grow with what changes from row to row, nor what is to stand apart
// with anything.
func partsOf(fields []column, separator byte, apart [columns]bool) []part {
	parts := make([]part, 0, len(fields)) // as many where each is kept out of the way
	for i, is := range fields {
		if n := len(parts); n > 0 && parts[n-1].takes(is, apart) {
			parts[n-1].fields = append(parts[n-1].fields, is)
		} else {
			parts = append(parts, part{does: doingOf(is), fields: fields[i : i+1 : i+1]})
		}
		p := &parts[len(parts)-1]
		p.end, p.inner = separator, len(p.fields)-1
		if i == len(fields)-1 {
			p.end, p.inner = '\n', 0
		}
		p.ends = lowest * uint64(p.end)
		switch is {
		case dateColumn:
			p.groups |= tellsDay
		case growColumn, workflowColumn:
			p.groups |= tellsWhere
		case stepColumn, workerColumn, sourceColumn, setupsColumn, peopleColumn, ratingColumn:
			p.groups |= tellsWhat
		}
	}
	return parts
}

// takes says whether a column behind a part belongs to it.
func (p *part) takes(is column, apart [columns]bool) bool {
	if p.does == isSkipped {
		return doingOf(is) == isSkipped
	}
	return p.does == isRun && doingOf(is) == isRun && !apart[is] && !slices.ContainsFunc(p.fields, apartFrom(is))
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

// forget forgets what was met.
func (p *part) forget() {
	if p.does == isRun {
		p.steady, p.last, p.id, p.masks = false, &unlike, 0, &masksOf[0]
		p.memo, p.texts = new([slots]phrase), nil
	}
}

// past is what stands behind a cell that ends at an offset, 0 where it does not end
// there.
func (p *part) past(data []byte, at int) int {
	if data[at] == p.end {
		return at + 1
	}
	return behindReturn(data, at, p.end)
}

// read says how a decoder reads the figures of a part.
func (p *part) read(d *decoder) {
	if p.mark = '.'; d.comma {
		p.mark = ','
	}
	switch c := p.fields[0]; c {
	case countColumn:
		p.figure = ofCount
	case startColumn:
		p.figure = ofStart
	case endColumn:
		p.figure = ofEnd
	case timeColumn, pausedColumn:
		if p.figure = ofTime; c == pausedColumn {
			p.figure = ofPause
		}
		p.unit = max(1, d.units[c].seconds)
	}
}

// figures are those of a row that few rows have, blank where it does not say them.
type figures [3]float64

const noFigure = -1

// The figures of a row.
const (
	ofPause = iota
	ofStart
	ofEnd
	ofTime
	ofCount
)

// look finds the phrase of a run that begins with four words, nil where it was not met
// lately; where it is or would be remembered; and how long it is with what ends it, 0
// where it is longer than maxMemo bytes.
func (c *part) look(w0, w1, w2, w3 uint64) (found *phrase, slot uint64, size int) {
	ends := places(w0, c.ends) | places(w1, c.ends)<<8
	if c.inner == 0 && ends != 0 { // one cell, which is short as a rule
		size = bits.TrailingZeros64(ends) + 1
		masks := &masksOf[size]
		w0, w1 := w0&masks[0], w1&masks[1]
		slot = mixed(w0, w1) >> (64 - slotBits) // as below, of words that are 0 behind these
		if f := &c.memo[slot]; (f.words[0]^w0)|(f.words[1]^w1)|f.words[2]|f.words[3] == 0 {
			return f, slot, size
		}
	}
	ends |= places(w2, c.ends)<<16 | places(w3, c.ends)<<24
	for range c.inner {
		ends &= ends - 1
	}
	if ends == 0 {
		return nil, 0, 0
	}
	size = bits.TrailingZeros64(ends) + 1
	masks := &masksOf[size]
	w0, w1, w2, w3 = w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3]
	hash := mixed(w0, w1) + (w2*0x165667b19e3779f9 ^ w3*0x85ebca77c2b2ae63)
	slot = hash >> (64 - slotBits)
	// two slots for each, else those that share one would go in turns
	if f := &c.memo[slot]; (f.words[0]^w0)|(f.words[1]^w1)|(f.words[2]^w2)|(f.words[3]^w3) == 0 {
		return f, slot, size
	}
	if f := &c.memo[slot^1]; (f.words[0]^w0)|(f.words[1]^w1)|(f.words[2]^w2)|(f.words[3]^w3) == 0 {
		return f, slot, size
	}
	return nil, slot, size
}

// behindReturn goes behind a line end of two bytes; 0 where there is none that ends the
// cell.
func behindReturn(data []byte, at int, end byte) int {
	if data[at] == '\r' && end == '\n' && data[at+1] == '\n' {
		return at + 2
	}
	return 0
}
