package tasklog

import (
	"bytes"
	"slices"

	"headhours/timing/condense"
)

// part is what rows have side by side: a field, or a run of fields whose cells recur from
// row to row, which are looked up together.
type part struct {
	does    doing
	fields  []column
	end     byte                    // what stands behind it: the separator, or a line end
	ends    uint64                  // that in all bytes
	stop    uint64                  // likewise, or returns where lines end with those too, as a rule
	beyond  uint32                  // how many bytes the end then has
	figure  uint8                   // of a row
	mark    byte                    // beside a point, of decimals
	further bool                    // counts stand in a part before it too
	unit    float64                 // seconds of a time's bare numbers; 0 of other figures
	met     map[string]float64      // figures in other than the usual forms, by their cells
	date    dateMet                 // the last of dates
	days    map[string]condense.Day // those in other than the usual form, by their cells

	inner  int      // ends within it
	groups uint8    // of which it tells
	rare   int      // how many rows of the chunk had one that was not met lately
	sought int      // how many had one that was looked up, not that of the row above
	found  []uint32 // of each row in hand, among the parser's phrases
	quoted bool     // some that were met are in quotes
	last   *phrase  // the last that was found; nil before the first
	window int      // how many rows are looked up before it is tried whether others go on with it
	memo   *[slots]remembered
	begun  *[1 << beginBits]begun // those of one cell by what they begin with, see slotOf
	apart  [4]uint64              // has the bytes of what they begin with that tell them apart
	long   bool                   // one of these has more than a word
	from8  uint32                 // where a word has all those bytes, from the beginning
	apart8 uint64                 // them, in that word
	longer bool                   // none has
	mixer  uint64                 // by which slots go
	mixed  int                    // how often that was another
	texts  map[string]*phrase     // those that have one
}

// The groups of runs.
const (
	tellsWhere = 1 << iota
	tellsWhat
	tellsHow
)

// doing is what is done with a part of the rows.
type doing uint8

const (
	isSkipped doing = iota // columns of other names, or notes that do not recur
	isRun                  // texts
	isNumber               // a count or a time
	isClock                // a time of day
	isDate
	isAside // a reading with anything here says more than a batch holds
)

func doingOf(is column, apart [columns]bool) doing {
	switch is {
	case noteColumn:
		if !apart[is] {
			return isRun
		}
	case countColumn, timeColumn, pausedColumn:
		return isNumber
	case startColumn, endColumn:
		return isClock
	case voidColumn, journalColumn:
		return isAside
	case dateColumn:
		return isDate
	case growColumn, workflowColumn, stepColumn, workerColumn, sourceColumn, peopleColumn, setupsColumn, ratingColumn:
		return isRun
	}
	return isSkipped
}

// partsOf are the parts of a log with the fields of a header. What changes from row to row has a
// run of its own, which is found sooner than one of several; so has what is to stand apart.
func partsOf(fields []column, separator byte, apart [columns]bool) []part {
	parts := make([]part, 0, len(fields)) // as many where each is kept out of the way
	for i, is := range fields {
		if n := len(parts); n > 0 && parts[n-1].takes(is, apart) {
			parts[n-1].fields = append(parts[n-1].fields, is)
		} else {
			parts = append(parts, part{does: doingOf(is, apart), fields: fields[i : i+1 : i+1]})
		}
		p := &parts[len(parts)-1]
		p.end, p.inner = separator, len(p.fields)-1
		if i == len(fields)-1 {
			if p.end = '\n'; p.does == isRun {
				p.inner = 0 // no line end is within
			}
		}
		p.ends = lowest * uint64(p.end)
		p.stop, p.beyond = p.ends, 1
		switch is {
		case growColumn, workflowColumn:
			p.groups |= tellsWhere
		case stepColumn, workerColumn:
			p.groups |= tellsWhat
		case sourceColumn, setupsColumn, peopleColumn, ratingColumn:
			p.groups |= tellsHow
		}
	}
	return parts
}

// takes says whether a column behind a part belongs to it.
func (p *part) takes(is column, apart [columns]bool) bool {
	if p.does != doingOf(is, apart) || is == noteColumn || p.fields[0] == noteColumn { // those are long, and in quotes
		return false
	}
	return p.does == isSkipped || p.does == isRun && !apart[is] && !slices.ContainsFunc(p.fields, apartFrom(is))
}

// apartFrom says of a column whether it changes from row to row or another does.
func apartFrom(is column) func(column) bool {
	quick := []column{stepColumn, workerColumn}
	return func(other column) bool {
		return slices.Contains(quick, is) || slices.Contains(quick, other)
	}
}

// forget forgets what was met.
func (p *part) forget() {
	p.date = noDateMet
	if p.does != isRun {
		return
	}
	if p.memo == nil {
		p.found, p.memo = make([]uint32, maxStretch), new([slots]remembered)
	}
	p.texts, p.last, p.window, p.quoted, p.long = nil, nil, 1, false, false
	p.apart, p.from8, p.apart8, p.longer = [4]uint64{}, 0, 0, false
	p.mixer, p.mixed = mixer, 0
	clear(p.memo[:])
	if len(p.fields) == 1 {
		p.nothingBegun()
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

// stopAt says how the lines of some rows end, as a rule, of which it is the last part.
func (p *part) stopAt(rows []byte) {
	if bytes.HasSuffix(rows[:bytes.IndexByte(rows, '\n')+1], []byte("\r\n")) {
		p.stop, p.beyond = lowest*'\r', 2
	} else {
		p.stop, p.beyond = p.ends, 1
	}
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

const noFigure = -1

// The figures of a row.
const (
	ofPause = iota
	ofStart
	ofEnd
	ofTime
	ofCount
	figures
)

// behindReturn goes behind a line end of two bytes; 0 where there is none that ends the
// cell.
func behindReturn(data []byte, at int, end byte) int {
	if data[at] == '\r' && end == '\n' && data[at+1] == '\n' {
		return at + 2
	}
	return 0
}
