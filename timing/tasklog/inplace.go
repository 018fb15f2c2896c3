package tasklog

import "math/bits"

// readPart reads a part of all rows, or of those up to the first in which it is to be told of.
func (p *parser) readPart(c *part, data []byte) {
	s := &p.stretch
	at := s.at[:s.rows]
	switch c.does {
	case isRun:
		s.rows = p.readRun(c, data, at)
		if c.quoted {
			for i, id := range c.found[:s.rows] {
				s.quotes[i] += p.phrases.list[id].quotes
			}
		}
	case isNumber:
		if !c.further {
			s.rows = p.readNumbers(c, data, at, s.figures[c.figure][:len(at)])
			return
		}
		s.rows = p.readNumbers(c, data, at, s.other[:len(at)])
		s.addCounts()
	case isClock:
		s.rows = p.readClocks(c, data, at, s.figures[c.figure][:len(at)])
	case isDate:
		s.rows = p.readDates(c, data, at, s.days[:len(at)])
	case isAside:
		s.rows = readAside(c, data, at)
	default:
		s.rows = p.readSkipped(c, data, at, s.starts[1:])
	}
}

// readRun finds the phrases of rows, up to one that has none. Whether rows go on with the phrase
// above them is seen at once, so that is tried first, and more rarely where they do not.
func (p *parser) readRun(c *part, data []byte, at []uint32) (rows int) {
	found := c.found[:len(at)]
	for i := 0; i < len(at); {
		if c.last != nil {
			alike := c.last.recurs(data, at[i:], found[i:])
			c.reach(alike)
			if i += alike; i == len(at) {
				return i
			}
		}
		end := min(i+c.window, len(at))
		if len(c.fields) == 1 {
			i = p.readCells(c, data, at[:end], i)
		} else {
			c.sought += end - i
			i = p.readMeasured(c, data, at[:end], i)
		}
		if i < end {
			return i
		}
		c.last = p.at(c, end-1)
	}
	return len(at)
}

// readMeasured finds the phrases of rows from one on by what they are long.
func (p *parser) readMeasured(c *part, data []byte, at []uint32, i int) (rows int) {
	found, sizes := c.found[:len(at)], p.stretch.sizes[:len(at)]
	for c.measure(data, at[i:], sizes[i:]); ; i++ {
		if i += c.lookUp(data, at[i:], sizes[i:], found[i:]); i == len(at) {
			return i
		}
		f := p.meet(data, int(at[i]), c, int(sizes[i])%sizeless)
		if f == nil {
			return i
		}
		found[i], at[i] = f.id, at[i]+f.long()
	}
}

// reach has how many rows are looked up before it is tried whether others go on with the last of
// them: the more the fewer did. Half a dozen that did save more than a trial costs.
func (c *part) reach(alike int) {
	if alike > min(2*c.window, 6) {
		c.window /= 2
	} else {
		c.window *= 2
	}
	c.window = min(max(c.window, 1), maxStretch)
}

// sizeless is the size of a run of more than maxMemo bytes, as measured.
const sizeless = maxMemo + 1

// measure finds how many bytes the run has in rows, with what ends it, its quotes left aside.
func (c *part) measure(data []byte, at []uint32, sizes []uint8) {
	end, inner := c.ends, c.inner
	sizes = sizes[:len(at)]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, int(from))
		others := unlike(w0, end) | unlike(w1, end)<<8
		if inner > 0 || others == 0xffff { // one cell is short, as a rule
			others |= unlike(w2, end)<<16 | unlike(w3, end)<<24
		} else {
			others |= 0xffff << 16
		}
		ends := ^others
		for range inner {
			ends &= ends - 1
		}
		sizes[i] = uint8(bits.TrailingZeros32(ends)) + 1
	}
}

// lookUp finds the phrases of rows of which the sizes are known, up to one that was not met
// lately. It calls nothing, as measure does not.
func (c *part) lookUp(data []byte, at []uint32, sizes []uint8, found []uint32) (rows int) {
	memo := c.memo
	sizes, found = sizes[:len(at)], found[:len(at)]
	for i, from := range at {
		size := sizes[i]
		if size > maxMemo {
			return i
		}
		w0, w1, w2, w3 := wordsAt(data, int(from))
		masks := &masksOf[size]
		w0, w1, w2, w3 = w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3]
		slot := slotOf(w0, w1, w2, w3)
		f := &memo[slot]
		if !areWords(&f.words, w0, w1, w2, w3) {
			if f = &memo[slot^1]; !areWords(&f.words, w0, w1, w2, w3) {
				return i
			}
		}
		found[i], at[i] = f.id, from+uint32(size)
	}
	return len(at)
}

// recurs says how many rows go on with the phrase, and takes it in.
func (f *phrase) recurs(data []byte, at, found []uint32) (rows int) {
	found = found[:len(at)]
	if f.size == 0 {
		for i, from := range at {
			if !hasPrefix(data[from:], f.text) {
				return i
			}
			found[i], at[i] = f.id, from+uint32(len(f.text))
		}
		return len(at)
	}
	for i, from := range at {
		if !f.stands(wordsAt(data, int(from))) {
			return i
		}
		found[i], at[i] = f.id, from+f.size
	}
	return len(at)
}

// readNumbers reads numbers, up to one that is to be told of.
func (p *parser) readNumbers(c *part, data []byte, at []uint32, into []float64) (rows int) {
	for i := 0; ; i++ {
		if i += c.usualNumbers(data, at[i:], into[i:]); i == len(at) {
			return i
		}
		from := int(at[i])
		x, behind := numberAt(data, from, c.end, c.mark)
		switch isTime := c.unit > 0; {
		case behind > 0 && !isTime && p.mayBeThousands(data[from:behind]):
			if !p.untold {
				return i
			}
			p.stretch.doubts[i]++
		case behind == 0:
			if x, behind = p.anyFigure(data, from, c); behind == 0 {
				return i
			}
		case isTime && x < 10 && hasTwoDecimals(data[from:behind]):
			if !p.untold { // it may have been meant otherwise
				return i
			}
			p.stretch.doubts[i]++
			fallthrough
		case isTime:
			x *= c.unit
		}
		p.stretch.passed(i, data[from:behind])
		p.stretch.lacks = p.stretch.lacks || x <= 0 && c.figure != ofPause
		into[i], at[i] = x, uint32(behind)
	}
}

// hasTwoDecimals says whether a number does, given with what ends its cell.
func hasTwoDecimals(cell []byte) bool {
	end := len(cell) - 1
	if cell[end-1] == '\r' {
		end--
	}
	return end > len(".00") && cell[end-len(".00")] < '0' // a mark is, and no digit
}

// usualNumbers reads numbers as nearly all are, up to one of another form.
func (c *part) usualNumbers(data []byte, at []uint32, into []float64) (rows int) {
	for rows < len(at) {
		before := rows
		rows += c.wholes(data, at[rows:], into[rows:])
		rows += c.tenths(data, at[rows:], into[rows:])
		if rows == before {
			break
		}
	}
	return rows
}

// valuesBefore is the values of the digits of a word before the first byte that stops, given where there
// are such: the last below the highest byte, and eight times how many bytes they were moved up by.
func valuesBefore(word, stops uint64) (values uint64, up uint) {
	up = uint(bits.TrailingZeros64(stops)) ^ 63
	return (word ^ lowest*'0') << (up & 63), up
}

// wholes reads numbers of up to four digits, up to one that is none such or is 0. Loops such as
// this call nothing, which leaves them the registers.
func (c *part) wholes(data []byte, at []uint32, into []float64) (rows int) {
	const first = highest >> 24 // bytes of a word, which the stop is among
	stop, behind, unit := c.stop, 7+c.beyond, max(1, c.unit)
	into = into[:len(at)]
	for i, from := range at {
		word := wordAt(data, int(from))
		stops := zeros(word^stop) & first
		if stops == 0 {
			return i
		}
		values, up := valuesBefore(word, stops)
		four := uint32(values >> 24)
		number := fourDigits(four)
		if !areDigits(four) || number == 0 {
			return i
		}
		into[i], at[i] = float64(int64(number))*unit, from+behind-uint32(up)/8
	}
	return len(at)
}

// tenths is wholes of numbers that have one digit behind a decimal mark.
func (c *part) tenths(data []byte, at []uint32, into []float64) (rows int) {
	const (
		first = highest >> 8
		most  = 0x00767f7676767600 // what digits, and 0 where the mark was, can be more by without their high bits
	)
	stop, behind, unit := c.stop, 7+c.beyond, max(1, c.unit)
	comma := uint64(c.mark^'.') << 40
	into = into[:len(at)]
	for i, from := range at {
		word := wordAt(data, int(from))
		stops := zeros(word^stop) & first
		if stops == 0 {
			return i
		}
		values, up := valuesBefore(word, stops)
		values = (values | comma) ^ ('.'^'0')<<40
		number := 10*uint64(fourDigits(uint32(values>>8))) + values>>48&255
		if (values+most|values)&(first&^255) != 0 || number == 0 {
			return i
		}
		into[i], at[i] = float64(int64(number))/10*unit, from+behind-uint32(up)/8
	}
	return len(at)
}

func (p *parser) readClocks(c *part, data []byte, at []uint32, into []float64) (rows int) {
	for i := 0; ; i++ {
		if i += c.usualClocks(data, at[i:], into[i:]); i == len(at) {
			return i
		}
		from := int(at[i])
		x, behind := p.anyFigure(data, from, c)
		if behind == 0 {
			return i
		}
		p.stretch.passed(i, data[from:behind])
		p.stretch.unclocked = p.stretch.unclocked || x == noFigure
		into[i], at[i] = x, uint32(behind)
	}
}

// usualClocks reads times of day, up to one of another form.
func (c *part) usualClocks(data []byte, at []uint32, into []float64) (rows int) {
	stop, beyond := byte(c.stop), c.beyond
	into = into[:len(at)]
	for i, from := range at {
		clock, size := clockDigits(wordAt(data, int(from)))
		seconds := secondsOf(clock)
		if behind := from + uint32(size); seconds < 24*3600 && data[behind] == stop {
			into[i], at[i] = float64(seconds), behind+beyond
			continue
		}
		return i
	}
	return len(at)
}

func readAside(c *part, data []byte, at []uint32) (rows int) {
	for i, from := range at {
		if at[i] = uint32(c.past(data, int(from))); at[i] == 0 {
			return i
		}
	}
	return len(at)
}

// addCounts adds the counts of a further column, up to a row in which several are filled: of
// those one is chosen with care.
func (s *stretch) addCounts() {
	counts := s.figures[ofCount]
	for i, count := range s.other[:s.rows] {
		switch {
		case count == noFigure:
		case counts[i] != noFigure:
			s.rows = i
			return
		default:
			counts[i] = count
		}
	}
}
