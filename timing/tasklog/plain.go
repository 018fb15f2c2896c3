package tasklog

import (
	"bytes"
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
	"strings"
	"time"

	"headhours/timing"
)

// plainColumn is a field of plain rows.
type plainColumn struct {
	is     column // -1 where it is none of ours
	does   doing
	kind   int    // of names
	end    byte   // what stands behind its cells: the separator, or a line end
	ends   uint64 // that in every byte
	latest *cell  // the one of the row before
	cells  *[cellSlots]cell
}

// doing is what is done with a column's cells.
type doing uint8

const (
	skipped  doing = iota // a note, or a column of another name
	told                  // cells that recur: what they say is looked up
	counted               // numbers that differ from row to row
	timed                 // times likewise
	notPlain              // rows in which anything stands here are not plain
)

func newPlainColumn(is column, separator byte, last bool) plainColumn {
	c := plainColumn{is: is, end: separator}
	if last {
		c.end = '\n'
	}
	c.ends = lowest * uint64(c.end)
	switch is {
	case stepColumn:
		c.kind = timing.StepNames
	case workflowColumn:
		c.kind = timing.WorkflowNames
	case growColumn:
		c.kind = timing.GrowNames
	case workerColumn:
		c.kind = timing.WorkerNames
	}
	switch is {
	case countColumn:
		c.does = counted
	case timeColumn:
		c.does = timed
	case startColumn, endColumn, pausedColumn, voidColumn, journalColumn:
		c.does = notPlain
	case stepColumn, workflowColumn, growColumn, workerColumn, dateColumn, sourceColumn, peopleColumn, setupsColumn, ratingColumn:
		c.does, c.cells = told, new([cellSlots]cell)
	}
	return c
}

// cell is a cell of no more than longest bytes and the byte that ends it, and what it
// was found to say.
type cell struct {
	low, high         uint64 // the bytes, the first the lowest, 0 behind them
	lowMask, highMask uint64 // where they stand
	size              int    // of all of them
	serial            uint32 // of the chunk in which it says so
	says              says
}

const (
	cellSlots = 256
	longest   = 15
)

// unlike is a cell that no text holds.
var unlike = cell{lowMask: ^uint64(0)}

// says is what a cell says.
type says struct {
	index  int32 // of a name, or a day
	flags  timing.Flags
	number float64
}

const (
	lowest  = 0x0101010101010101
	highest = 0x8080808080808080
)

// plainRow reads the row at an offset, where it is plain, and gives its end; else 0.
func (p *parser) plainRow(data []byte, at int) int {
	var count, seconds float64
	row := uint32(p.parsed.lines)
	for i := range p.columns {
		c := &p.columns[i]
		ok := true
		switch c.does {
		case told:
			latest := c.latest
			low, high := binary.LittleEndian.Uint64(data[at:]), binary.LittleEndian.Uint64(data[at+8:])
			if (low^latest.low)&latest.lowMask|(high^latest.high)&latest.highMask == 0 {
				at += latest.size
				continue
			}
			at, ok = p.look(data, at, low, high, c)
		case counted:
			count, at, ok = p.number(data, at, c.end)
		case timed:
			from := at
			seconds, at, ok = p.time(data, at, c.end)
			ok = ok && (seconds >= 10 || !hasHundredths(data[from:at-1]))
		case notPlain:
			if data[at] == '\r' && c.end == '\n' {
				at++
			}
			ok = data[at] == c.end
			at++
		default:
			at, ok = p.skip(data, at, c.end)
		}
		if !ok {
			return 0
		}
	}
	p.row.Count, p.row.Seconds = count, seconds
	p.row.Basic = seconds * p.people
	if p.rating != 100 {
		p.row.Basic = p.row.Basic * p.rating / 100
	}
	p.row.Row = row
	if p.row.Named[timing.StepNames] == 0 || !(count > 0 && p.row.Basic > 0 && p.row.Basic <= math.MaxFloat64) {
		return 0
	}
	p.parsed.batch.Rows = append(p.parsed.batch.Rows, p.row)
	p.parsed.lines++
	return at
}

// skip goes behind a field that says nothing of the figures, which may be in quotes.
func (p *parser) skip(data []byte, at int, end byte) (behind int, ok bool) {
	switch data[at] {
	case end:
		return at + 1, true
	case '"':
		size := quoteEnd(data[at+1 : len(data)-padding])
		if size < 0 {
			return 0, false
		}
		p.parsed.lines += bytes.Count(data[at:at+size], []byte{'\n'})
		at += 1 + size
		if data[at] == '\r' && end == '\n' {
			at++
		}
		return at + 1, data[at] == end
	}
	size := bytes.IndexByte(data[at:], end)
	return at + size + 1, size >= 0 && p.isOneField(data[at:at+size])
}

// time reads a number of seconds, or m:ss or h:mm:ss, as number does.
func (p *parser) time(data []byte, at int, end byte) (seconds float64, behind int, ok bool) {
	seconds, behind, ok = p.number(data, at, end)
	for range 2 { // minutes behind hours, seconds behind minutes
		colon := behind - 1
		if ok || colon <= at || data[colon] != ':' || bytes.IndexByte(data[at:colon], '.') >= 0 || bytes.IndexByte(data[at:colon], ',') >= 0 {
			break
		}
		at = behind
		if data[at] > '5' || data[at+1]-'0' > 9 || data[at+2]-'0' <= 9 {
			return 0, 0, false // not two digits under 60
		}
		var part float64
		part, behind, ok = p.number(data, at, end)
		seconds = 60*seconds + part
	}
	return seconds, behind, ok
}

// number reads digits with or without decimals, which a field must hold alone, and what
// ends it; they are few enough for the number to be exact before its point is set.
func (p *parser) number(data []byte, at int, end byte) (x float64, behind int, ok bool) {
	value, size := digits(data[at:])
	at += size
	if mark := data[at]; mark == '.' || mark == ',' && p.comma {
		decimals, more := digits(data[at+1:])
		at += 1 + more
		if size += more; size > mostDigits {
			return 0, 0, false
		}
		x = float64(value*whole10[more]+decimals) / tens[more]
	} else {
		x = float64(value)
	}
	if data[at] == '\r' && end == '\n' {
		at++
	}
	return x, at + 1, data[at] == end && size > 0 && size <= mostDigits
}

// mostDigits is of how many digits any number is exact in a float64.
const mostDigits = 15

// digits reads the digits with which data begins: their value, where there are no more
// than mostDigits, and how many there are.
func digits(data []byte) (value uint64, size int) {
	for data[size]-'0' <= 9 {
		value = 10*value + uint64(data[size]-'0')
		size++
	}
	return value, size
}

var whole10 = [...]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// hasHundredths says whether a number has exactly two decimals.
func hasHundredths(text []byte) bool {
	n := len(bytes.TrimRight(text, "\r")) - 3
	return n >= 0 && (text[n] == '.' || text[n] == ',')
}

// equal marks the bytes of a word that are like those of another, the lowest for
// certain.
func equal(word, like uint64) uint64 {
	word ^= like
	return (word - lowest) &^ word & highest
}

// look finds what the cell at an offset says, the first bytes there being low and high,
// and goes behind its end; false where the row is not plain.
func (p *parser) look(data []byte, at int, low, high uint64, c *plainColumn) (behind int, ok bool) {
	found := cell{low: low, high: high, lowMask: ^uint64(0)}
	if ends := equal(low, c.ends); ends != 0 {
		zeros := bits.TrailingZeros64(ends) // 7, 15 …
		found.size = zeros/8 + 1
		found.lowMask = ^uint64(0) >> (63 - zeros)
	} else if ends = equal(high, c.ends); ends != 0 {
		zeros := bits.TrailingZeros64(ends)
		found.size = 8 + zeros/8 + 1
		found.highMask = ^uint64(0) >> (63 - zeros)
	} else {
		size := bytes.IndexByte(data[at:], c.end)
		if size < 0 {
			return 0, false
		}
		if found.says, ok = p.meet(data[at:at+size], c); ok {
			p.say(c, found.says)
			c.latest = &unlike
		}
		return at + size + 1, ok
	}
	found.low &= found.lowMask
	found.high &= found.highMask
	slot := (found.low*0x9e3779b97f4a7c15 ^ found.high*0xc2b2ae3d27d4eb4f) >> 56
	for range 2 { // two cells may share a slot, else they would go in turns
		known := &c.cells[slot]
		if known.low == found.low && known.high == found.high && known.serial == p.serial {
			c.latest = known
			p.say(c, known.says)
			return at + found.size, true
		}
		slot ^= 1
	}
	if found.says, ok = p.meet(data[at:at+found.size-1], c); !ok {
		return 0, false
	}
	found.serial = p.serial
	c.cells[slot^1] = c.cells[slot]
	c.cells[slot] = found
	c.latest = &c.cells[slot]
	p.say(c, found.says)
	return at + found.size, true
}

// say makes what a cell says part of the row.
func (p *parser) say(c *plainColumn, says says) {
	switch c.is {
	case stepColumn, workflowColumn, growColumn, workerColumn:
		p.row.Named[c.kind] = says.index
	case dateColumn:
		p.row.Day = timing.Day(says.index)
	case sourceColumn:
		p.row.Flags = p.row.Flags&^timing.IsJudged | says.flags
	case setupsColumn:
		p.row.Flags = p.row.Flags&^timing.HasSetups | says.flags
		p.row.Setups = says.number
	case peopleColumn:
		p.people = says.number
	case ratingColumn:
		p.rating, p.row.Rating = says.number, float32(says.number)
	}
}

// isOneField says whether what stands before the end of a field is no more than that,
// and none in quotes.
func (p *parser) isOneField(text []byte) bool {
	return bytes.IndexByte(text, '"') < 0 && bytes.IndexByte(text, '\n') < 0 && bytes.IndexByte(text, p.careful.separator) < 0
}

// meet finds what a cell says that was not met lately; false where it is wrong or not
// plain.
func (p *parser) meet(text []byte, c *plainColumn) (says, bool) {
	text = bytes.TrimSuffix(text, []byte{'\r'}) // of a line end
	if !p.isOneField(text) || bytes.IndexByte(text, '\r') >= 0 {
		return says{}, false
	}
	switch c.is {
	case dateColumn:
		if len(text) == 0 {
			return says{index: int32(timing.NoDay)}, true
		}
		day, err := time.Parse(time.DateOnly, string(text))
		return says{index: int32(timing.DayOf(day))}, err == nil && !day.IsZero()
	case sourceColumn:
		if string(text) == string(timing.FromMemory) {
			return says{flags: timing.IsJudged}, true
		}
		return says{}, len(text) == 0 || string(text) == string(timing.Watch) || string(text) == string(timing.Film)
	case setupsColumn, peopleColumn, ratingColumn:
		return p.meetNumber(string(text), c.is)
	}
	if at, met := p.names[c.kind][string(text)]; met {
		return says{index: at}, true
	}
	name := strings.TrimSpace(string(text))
	if !p.careful.knows(c.is, name) {
		return says{}, false
	}
	return says{index: p.index(name, c.kind)}, true
}

func (p *parser) meetNumber(text string, is column) (says, bool) {
	if text == "" {
		return says{number: map[column]float64{peopleColumn: 1, ratingColumn: 100}[is]}, true
	}
	x, err := parseNumber(text, p.comma)
	switch {
	case err != nil:
		return says{}, false
	case is == setupsColumn:
		return says{number: x, flags: timing.HasSetups}, true
	}
	return says{number: x}, x > 0
}

// knows says whether a log may use a name.
func (r *reader) knows(c column, name string) bool {
	switch {
	case c == stepColumn && r.names.Steps != nil:
		return slices.Contains(r.names.Steps, name)
	case c == workflowColumn && r.names.Workflows != nil && name != "":
		return slices.Contains(r.names.Workflows, name)
	}
	return true
}
