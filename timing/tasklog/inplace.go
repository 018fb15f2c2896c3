package tasklog

import "math/bits"

// readPart reads a part of all rows, or of those up to the first in which it is to be told of.
func (p *parser) readPart(c *part, data []byte) {
	s := &p.stretch
	at := s.at[:s.rows]
	switch c.does {
	case isRun:
		s.rows = p.readRun(c, data, at)
	case isNumber:
		if !c.further {
			s.rows = p.readNumbers(c, data, at, s.figures[c.figure][:len(at)])
			return
		}
		s.rows = p.readNumbers(c, data, at, s.other[:len(at)])
		s.addCounts()
	case isClock:
		s.rows = p.readClocks(c, data, at, s.figures[c.figure][:len(at)])
	case isAside:
		s.rows = readAside(c, data, at)
	default:
		s.rows = p.readSkipped(c, data, at)
	}
}

func (p *parser) readRun(c *part, data []byte, at []int) (rows int) {
	found, memo, end, inner := c.found[:len(at)], c.memo, c.ends, c.inner
	p.stretches++
	var last *phrase
	for i := 0; uint(i) < uint(len(at)); i++ {
		from := at[i]
		w0, w1, w2, w3 := wordsAt(data, from)
		ends := places(w0, end) | places(w1, end)<<8
		if inner > 0 || ends == 0 { // one cell is short, as a rule
			ends |= places(w2, end)<<16 | places(w3, end)<<24
			if inner > 0 {
				ends &= ends - 1
				for range inner - 1 {
					ends &= ends - 1
				}
			}
		}
		var f *phrase
		slot, size := uint64(0), 0
		if ends != 0 {
			size = bits.TrailingZeros64(ends) + 1
			masks := &masksOf[size]
			w0, w1, w2, w3 = w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3]
			slot = slotOf(w0, w1, w2, w3)
			if f = &memo[slot]; !f.is(w0, w1, w2, w3) {
				if f = &memo[slot^1]; !f.is(w0, w1, w2, w3) {
					f = nil
				}
			}
		}
		if f == nil {
			if f = p.meet(data, from, c, slot, size); f == nil {
				return i
			}
			size = f.long()
		}
		f.stretch = p.stretches
		found[i], at[i] = f, from+size
		if f == last { // more may follow
			i += f.recurs(data, at[i+1:], found[i+1:])
		}
		last = f
	}
	return len(at)
}

// recurs says how many rows go on with the phrase, and takes it in.
func (f *phrase) recurs(data []byte, at []int, found []*phrase) (rows int) {
	found = found[:len(at)]
	if f.size == 0 {
		for i, from := range at {
			if !hasPrefix(data[from:], f.text) {
				return i
			}
			found[i], at[i] = f, from+len(f.text)
		}
		return len(at)
	}
	size, masks := f.size, &masksOf[f.size]
	for i, from := range at {
		w0, w1, w2, w3 := wordsAt(data, from)
		if !f.is(w0&masks[0], w1&masks[1], w2&masks[2], w3&masks[3]) {
			return i
		}
		found[i], at[i] = f, from+size
	}
	return len(at)
}

// readNumbers reads numbers: in place where they are whole or have one decimal, as most.
func (p *parser) readNumbers(c *part, data []byte, at []int, into []float64) (rows int) {
	end, mark, unit := uint64(c.end), uint64(c.mark), max(1, c.unit)
	into = into[:len(at)]
	for i, from := range at {
		word := wordAt(data, from)
		values := word ^ lowest*'0'
		size := digits(values)
		if size-1 < 5 { // what ends it is in the word too, as a rule
			whole := eightDigits(values << ((64 - 8*size) & 63))
			tail := word >> (8 * size & 63)
			if tail&255 == end && size < 4 {
				into[i], at[i] = float64(int64(whole))*unit, from+int(size)+1
				continue
			}
			decimal := tail>>8&255 - '0'
			if decimal < 10 && tail>>16&255 == end && (tail&255 == '.' || tail&255 == mark) && (whole >= 10 || size == 1) {
				into[i], at[i] = float64(int64(10*whole+decimal))/10*unit, from+int(size)+3
				continue
			}
		}
		x, behind := numberAt(data, from, c.end, c.mark)
		switch {
		case behind == 0, c.unit > 0 && x < 10 && behind-from > 4: // a time that may have two decimals
			if x, behind = p.anyFigure(data, from, c); behind == 0 {
				return i
			}
		case c.unit > 1:
			x *= c.unit
		}
		into[i], at[i] = x, behind
	}
	return len(at)
}

func (p *parser) readClocks(c *part, data []byte, at []int, into []float64) (rows int) {
	for i, from := range at {
		x, behind := clockAt(data, from, c)
		if behind == 0 {
			if x, behind = p.anyFigure(data, from, c); behind == 0 {
				return i
			}
		}
		into[i], at[i] = x, behind
	}
	return len(at)
}

func readAside(c *part, data []byte, at []int) (rows int) {
	for i, from := range at {
		if at[i] = c.past(data, from); at[i] == 0 {
			return i
		}
	}
	return len(at)
}

func (p *parser) readSkipped(c *part, data []byte, at []int) (rows int) {
	for i, from := range at {
		if at[i] = p.skip(data, from, c); at[i] == 0 {
			return i
		}
	}
	return len(at)
}

// addCounts adds the counts of a further column, up to a row in which several are filled: of
// those one is chosen with care.
func (s *stretch) addCounts() {
	counts := &s.figures[ofCount]
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
