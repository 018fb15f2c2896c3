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

// part is what plain rows have side by side: a field, or a run of fields whose cells
// recur, which are looked up together.
type part struct {
	does   doing
	end    byte // what stands behind it: the separator, or a line end
	ends   uint64
	fields []column // of a run

	kinds   [nameKinds]int32 // of a run: all ones for the names that it has
	inner   int              // ends within the run
	latest  *phrase          // of the row before
	masks   *[4]uint64       // of that
	met     *[slots]phrase
	indices map[says]int32
	says    []says // what phrases were found to say beside names
	applied int32  // which of them the row in hand says
}

// doing is what is done with a part of the rows.
type doing uint8

const (
	skipped  doing = iota // a note, or a column of another name
	told                  // a run
	counted               // numbers that differ from row to row
	timed                 // times likewise
	notPlain              // rows in which anything stands here are not plain
)

// phrase is the cells of a run and what ends them, of no more than longest bytes, and
// what they were found to say.
type phrase struct {
	words [4]uint64 // the bytes, the first the lowest, 0 behind them
	size  int
	names [nameKinds]int32
	says  int32
}

const (
	slotBits = 10
	slots    = 1 << slotBits
	longest  = 32
	// mostSays bounds what is remembered of a run.
	mostSays = 4096
)

// unlike is a phrase that no text holds.
var unlike = phrase{words: [4]uint64{1}}

// says is what a phrase says beside names.
type says struct {
	day            timing.Day
	flags          timing.Flags
	setups         float64
	people, rating float64
}

// nothing is what blank cells say.
var nothing = says{day: timing.NoDay, people: 1, rating: 100}

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
			if kind, ok := nameKind(is); ok {
				p.kinds[kind] = -1
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

const (
	lowest  = 0x0101010101010101
	highest = 0x8080808080808080
)

// plainRow reads the row at an offset, where it is plain, and gives its end; else 0.
func (p *parser) plainRow(data []byte, at int) int {
	var count, seconds float64
	row := uint32(p.parsed.lines)
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
				at += latest.size
				continue
			}
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
			return 0
		}
	}
	p.row.Count, p.row.Seconds = count, seconds
	p.row.Basic = seconds * p.says.people
	if p.says.rating != 100 {
		p.row.Basic = p.row.Basic * p.says.rating / 100
	}
	p.row.Row = row
	if p.row.Named[timing.StepNames] == 0 || !(count > 0 && p.row.Basic > 0 && p.row.Basic <= math.MaxFloat64) {
		return 0
	}
	p.parsed.batch.Rows = append(p.parsed.batch.Rows, p.row)
	p.parsed.lines++
	return at
}

// opens is where a number begins, which may be in quotes, and what ends it.
func (c *part) opens(data []byte, at int) (from int, end byte) {
	if data[at] == '"' {
		return at + 1, '"'
	}
	return at, c.end
}

// closes goes from behind a closing quote behind the end of the field; false where there
// is more before it.
func (c *part) closes(data []byte, at int) (behind int, ok bool) {
	if data[at] == '\r' && c.end == '\n' {
		at++
	}
	return at + 1, data[at] == c.end
}

// skip goes behind a field that says nothing of the figures, which may be in quotes.
func (p *parser) skip(data []byte, at int, c *part) (behind int, ok bool) {
	switch data[at] {
	case c.end:
		return at + 1, true
	case '"':
		size := quoteEnd(data[at+1 : len(data)-padding])
		if size < 0 {
			return 0, false
		}
		p.parsed.lines += bytes.Count(data[at:at+size], []byte{'\n'})
		return c.closes(data, at+1+size)
	}
	size := bytes.IndexByte(data[at:], c.end)
	return at + size + 1, size >= 0 && p.isOneField(data[at:at+size])
}

// time reads a number of seconds, or m:ss or h:mm:ss, as number does.
func (p *parser) time(data []byte, at int, end byte) (seconds float64, behind int, ok bool) {
	seconds, behind, ok = p.number(data, at, end)
	for range 2 { // minutes behind hours, seconds behind minutes
		colon := behind - 1
		if ok || colon <= at || colon > at+mostDigits || data[colon] != ':' || bytes.IndexByte(data[at:colon], '.') >= 0 || bytes.IndexByte(data[at:colon], ',') >= 0 {
			break
		}
		at = behind
		if data[at]-'0' > 5 || data[at+1]-'0' > 9 || data[at+2]-'0' <= 9 {
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
	var value uint64
	from := at
	for data[at]-'0' <= 9 {
		value = 10*value + uint64(data[at]-'0')
		at++
	}
	size := at - from
	x = float64(value)
	if mark := data[at]; mark == '.' || mark == ',' && p.comma {
		at++
		from = at
		for data[at]-'0' <= 9 {
			value = 10*value + uint64(data[at]-'0')
			at++
		}
		decimals := at - from
		if size += decimals; size > mostDigits {
			return 0, 0, false
		}
		x = float64(value) / tens[decimals]
	}
	if data[at] == '\r' && end == '\n' {
		at++
	}
	return x, at + 1, data[at] == end && size > 0 && size <= mostDigits
}

// mostDigits is of how many digits any number is exact in a float64.
const mostDigits = 15

var tens = [mostDigits + 1]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// hasHundredths says whether a number has exactly two decimals.
func hasHundredths(text []byte) bool {
	n := len(bytes.TrimRight(text, "\r")) - 3
	return n >= 0 && (text[n] == '.' || text[n] == ',')
}

// places has a bit for each byte of a word that is like those of another, the first the
// lowest (H. S. Warren, Hacker's Delight, 2nd ed., section 6-1; the bits are brought
// together by a multiplication).
func places(word, like uint64) uint64 {
	const others = ^uint64(highest)
	word ^= like
	zero := ^((word&others + others) | word | others) // a high bit for each byte of 0
	return zero >> 7 * 0x0102040810204080 >> 56
}

// slotOf finds where a run is remembered that begins with words, and how long it is with
// what ends it; 0 where it is longer than longest bytes.
func (c *part) slotOf(words *[4]uint64) (slot uint64, size int) {
	ends := places(words[0], c.ends) | places(words[1], c.ends)<<8 | places(words[2], c.ends)<<16 | places(words[3], c.ends)<<24
	for range c.inner {
		ends &= ends - 1
	}
	if ends == 0 {
		return 0, 0
	}
	size = bits.TrailingZeros64(ends) + 1
	masks := &masksOf[size]
	words[0] &= masks[0]
	words[1] &= masks[1]
	words[2] &= masks[2]
	words[3] &= masks[3]
	hash := (words[0]*0x9e3779b97f4a7c15 ^ words[1]*0xc2b2ae3d27d4eb4f) + (words[2]*0x165667b19e3779f9 ^ words[3]*0x85ebca77c2b2ae63)
	return hash >> (64 - slotBits), size
}

func (f *phrase) is(words *[4]uint64) bool {
	return (f.words[0]^words[0])|(f.words[1]^words[1])|(f.words[2]^words[2])|(f.words[3]^words[3]) == 0
}

// look finds what the run at an offset says, the bytes there being words, and goes
// behind its end; false where the row is not plain.
func (p *parser) look(data []byte, at int, words *[4]uint64, c *part) (behind int, ok bool) {
	slot, size := c.slotOf(words)
	if size == 0 {
		return p.meet(data, at, c, nil)
	}
	known := &c.met[slot]
	if !known.is(words) { // two may share a slot, else they would go in turns
		known = &c.met[slot^1]
	}
	if known.is(words) {
		c.latest, c.masks = known, &masksOf[size]
		p.say(c, known)
		return at + size, true
	}
	c.met[slot^1] = c.met[slot]
	found := &c.met[slot]
	*found = phrase{words: *words, size: size}
	return p.meet(data, at, c, found)
}

// masksOf are the masks of so many bytes.
var masksOf = func() (all [longest + 1][4]uint64) {
	for size := range all {
		for i := range size {
			all[size][i/8] |= 255 << (8 * (i % 8))
		}
	}
	return all
}()

// say makes what a run says part of the row.
func (p *parser) say(c *part, found *phrase) {
	for kind := range found.names {
		p.row.Named[kind] = p.row.Named[kind]&^c.kinds[kind] | found.names[kind]
	}
	if found.says != c.applied {
		c.applied = found.says
		p.apply(c)
	}
}

// apply makes what a run says beside names part of the row.
func (p *parser) apply(c *part) {
	says := &c.says[c.applied]
	for _, is := range c.fields {
		switch is {
		case dateColumn:
			p.row.Day = says.day
		case sourceColumn:
			p.row.Flags = p.row.Flags&^timing.IsJudged | says.flags&timing.IsJudged
		case setupsColumn:
			p.row.Flags = p.row.Flags&^timing.HasSetups | says.flags&timing.HasSetups
			p.row.Setups = says.setups
		case peopleColumn:
			p.says.people = says.people
		case ratingColumn:
			p.says.rating, p.row.Rating = says.rating, float32(says.rating)
		}
	}
}

// meet reads a run that was not met lately, and remembers what it says where it is short
// enough; false where a cell of it is wrong or not plain.
func (p *parser) meet(data []byte, at int, c *part, found *phrase) (behind int, ok bool) {
	if found == nil {
		found = new(phrase)
	}
	said := nothing
	behind, ok = p.meetCells(data, at, c, found, &said)
	if !ok {
		*found = unlike
		c.unlike()
		return 0, false
	}
	found.says = c.index(said)
	p.say(c, found)
	c.latest, c.masks = found, &masksOf[found.size]
	if found.size == 0 { // too long
		c.unlike()
	}
	return behind, true
}

// meetCells reads the cells of a run, which must stand in one line; what they hold has no
// quotes and no separators.
func (p *parser) meetCells(data []byte, at int, c *part, found *phrase, said *says) (behind int, ok bool) {
	text := data[at:]
	size := bytes.IndexByte(text, '\n')
	if c.end != '\n' {
		size = nthByte(text, p.careful.separator, len(c.fields))
	}
	if size < 0 {
		return 0, false
	}
	text = text[:size]
	if c.end == '\n' {
		text = bytes.TrimSuffix(text, []byte{'\r'})
	}
	if bytes.IndexByte(text, '\n') >= 0 || bytes.IndexByte(text, '\r') >= 0 {
		return 0, false
	}
	for i, is := range c.fields {
		cell, rest, more := bytes.Cut(text, []byte{p.careful.separator})
		if len(cell) > 1 && cell[0] == '"' && cell[len(cell)-1] == '"' {
			cell = cell[1 : len(cell)-1]
		}
		if more != (i < len(c.fields)-1) || bytes.IndexByte(cell, '"') >= 0 || !p.meetCell(cell, is, found, said) {
			return 0, false
		}
		text = rest
	}
	return at + size + 1, true
}

// nthByte is where the n-th byte of a kind stands, -1 where there are fewer.
func nthByte(text []byte, b byte, n int) int {
	at := -1
	for range n {
		next := bytes.IndexByte(text[at+1:], b)
		if next < 0 {
			return -1
		}
		at += 1 + next
	}
	return at
}

// unlike forgets the last row.
func (c *part) unlike() { c.latest, c.masks = &unlike, &masksOf[0] }

// index is that of what a run says beside names.
func (c *part) index(said says) int32 {
	i, met := c.indices[said]
	if !met {
		i = int32(len(c.says))
		c.indices[said] = i
		c.says = append(c.says, said)
	}
	return i
}

// meetCell reads one cell of a run.
func (p *parser) meetCell(text []byte, is column, found *phrase, said *says) bool {
	switch kind, isName := nameKind(is); {
	case isName:
		at, met := p.names[kind][string(text)]
		if !met {
			name := strings.TrimSpace(string(text))
			if !p.careful.knows(is, name) {
				return false
			}
			at = p.index(name, kind)
		}
		found.names[kind] = at
	case is == dateColumn && len(text) > 0:
		if string(text) != p.date {
			day, err := time.Parse(time.DateOnly, string(text))
			if err != nil || day.IsZero() {
				return false
			}
			p.date, p.day = string(text), timing.DayOf(day)
		}
		said.day = p.day
	case is == sourceColumn && string(text) == string(timing.FromMemory):
		said.flags |= timing.IsJudged
	case is == sourceColumn:
		return len(text) == 0 || string(text) == string(timing.Watch) || string(text) == string(timing.Film)
	case len(text) > 0: // setups, people or a rating
		return said.number(string(text), is, p.comma)
	}
	return true
}

// number reads setups, people or a rating.
func (s *says) number(text string, is column, comma bool) bool {
	x, err := parseNumber(text, comma)
	switch is {
	case setupsColumn:
		s.setups = x
		s.flags |= timing.HasSetups
		return err == nil
	case peopleColumn:
		s.people = x
	case ratingColumn:
		s.rating = x
	}
	return err == nil && x > 0
}

// isOneField says whether what stands before the end of a field is no more than that,
// and none in quotes.
func (p *parser) isOneField(text []byte) bool {
	return bytes.IndexByte(text, '"') < 0 && bytes.IndexByte(text, '\n') < 0 && bytes.IndexByte(text, p.careful.separator) < 0
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
