package tasklog

import "headhours/timing/condense"

// datesColumn is a column of dates in rows.
type datesColumn struct {
	field
	*dates
	last   dateMet // that was sought, if it is short enough
	window window
}

// dateMet is the cell of a date with what ends it, as words, the bytes behind it 0.
type dateMet struct {
	words, masks [2]uint64 // no words are like those of none
	size         uint32
	quotes       uint32
	day          condense.Day
}

// noDateMet stands where none was met that has no more bytes than these words.
var noDateMet = dateMet{words: [2]uint64{1}}

// read reads dates, up to one that is wrong. Whether rows go on with the date above them is
// seen at once, so that is tried first, and more rarely where they do not.
func (c *datesColumn) read(s *stretch, data []byte) {
	at, into := s.at[:s.rows], s.days[:s.rows]
	for i := 0; ; {
		alike := c.last.recurs(data, at[i:], into[i:])
		if c.last.quotes > 0 {
			for row := i; row < i+alike; row++ {
				s.quotes[row] += c.last.quotes
			}
		}
		c.window.reach(alike)
		if i += alike; i == len(at) {
			return
		}
		from, behind, quotes := 0, 0, uint32(0)
		for end := min(i+c.window.rows, len(at)); i < end; i++ {
			from, behind, quotes = int(at[i]), 0, 0
			day, ok := dateAt(data, from)
			if ok {
				behind = c.past(data, from+len("YYYY-MM-DD"))
			}
			if behind == 0 {
				if day, behind = c.anyDayAt(data, from); behind == 0 {
					s.rows = i
					return
				}
				quotes = uint32(countQuotes(data[from:behind]))
				s.quotes[i] += quotes
			}
			into[i], at[i] = day, uint32(behind)
		}
		if size := behind - from; size <= 16 {
			words, masks := wordsOf(data, from, size), &masksOf[size]
			c.last = dateMet{[2]uint64{words[0], words[1]}, [2]uint64{masks[0], masks[1]}, uint32(size), quotes, into[i-1]}
		}
	}
}

// anyDayAt is the day that a cell says in whatever form, and what stands behind what ends it; 0 where it is wrong.
func (c *datesColumn) anyDayAt(data []byte, at int) (day condense.Day, behind int) {
	if behind = c.past(data, at); behind > 0 {
		return condense.NoDay, behind
	}
	raw, behind := c.cell(data, at)
	if from, to := content(raw, at); behind > 0 && from < to {
		var err error
		if day, err = c.in(data, from, to); err != nil {
			return condense.NoDay, 0
		}
		return day, behind
	}
	return condense.NoDay, behind
}

// recurs says how many rows have the date again, and takes it in. It calls nothing, which leaves it the
// registers.
func (d *dateMet) recurs(data []byte, at []uint32, into []condense.Day) (rows int) {
	w0, w1, m0, m1, size, day := d.words[0], d.words[1], d.masks[0], d.masks[1], d.size, d.day
	into = into[:len(at)]
	for i, from := range at {
		if (wordAt(data, int(from))&m0^w0)|(wordAt(data, int(from)+8)&m1^w1) != 0 {
			return i
		}
		into[i], at[i] = day, from+size
	}
	return len(at)
}
