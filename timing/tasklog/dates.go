package tasklog

import "headhours/timing/condense"

// dateMet is the cell of a date with what ends it, as words, the bytes behind it 0.
type dateMet struct {
	words, masks [2]uint64 // no words are like those of none
	size         uint32
	quotes       uint32
	day          condense.Day
}

// noDateMet stands where none was met that has no more bytes than these words.
var noDateMet = dateMet{words: [2]uint64{1}}

// readDates reads dates, up to one that is to be told of. Whether rows go on with the date above them is
// seen at once, so that is tried first, and more rarely where they do not.
func (p *parser) readDates(c *part, data []byte, at []uint32, into []condense.Day) (rows int) {
	for i := 0; ; {
		alike := c.date.recurs(data, at[i:], into[i:])
		if c.date.quotes > 0 {
			for row := i; row < i+alike; row++ {
				p.stretch.quotes[row] += c.date.quotes
			}
		}
		c.reach(alike)
		if i += alike; i == len(at) {
			return i
		}
		from, behind, quotes := 0, 0, uint32(0)
		for end := min(i+c.window, len(at)); i < end; i++ {
			var day condense.Day
			from, quotes = int(at[i]), 0
			if day, behind = dateAt(data, from, c); behind == 0 {
				if day, behind = p.anyDate(data, from, c); behind == 0 {
					return i
				}
				quotes = uint32(countQuotes(data[from:behind]))
				p.stretch.quotes[i] += quotes
			}
			into[i], at[i] = day, uint32(behind)
		}
		if size := behind - from; size <= 16 {
			words, masks := wordsOf(data, from, size), &masksOf[size]
			c.date = dateMet{[2]uint64{words[0], words[1]}, [2]uint64{masks[0], masks[1]}, uint32(size), quotes, into[i-1]}
		}
	}
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

// The dashes of YYYY-MM-DD, and what takes each byte of such less those and zeros to 128 where it is too large.
const (
	dashes     = lowest*'0' - ('0'-'-')*(1<<32+1<<56)
	beyondDate = 0x7f76_767f_7676_7676
)

// dateAt reads YYYY-MM-DD, and goes behind what ends it; 0 where it is no such day.
func dateAt(data []byte, at int, c *part) (day condense.Day, behind int) {
	month, date := wordAt(data, at)^dashes, wordAt(data, at+8)^lowest*'0'
	const two = 0xffff
	if ((month|(month+beyondDate))|(date&two|(date&two+0x7676)))&highest != 0 {
		return 0, 0
	}
	y, m, d := int(fourDigits(uint32(month))), 10*int(month>>40&255)+int(month>>48&255), 10*int(date&255)+int(date>>8&255)
	if y < 2 || m < 1 || m > 12 || d < 1 || d > daysOf[m] && !(m == 2 && d == 29 && y%4 == 0 && (y%100 != 0 || y%400 == 0)) {
		return 0, 0
	}
	return dayOf(y, m, d), c.past(data, at+len("YYYY-MM-DD"))
}

// daysOf is how many days a month has, from January on as 1, February in a common year.
var daysOf = [...]int{0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// dayOf is a day of the Gregorian calendar since 1970-01-01, of years from March on (E. M. Reingold and
// N. Dershowitz, Calendrical Calculations, 4th ed., 2018, section 2.3).
func dayOf(year, month, day int) condense.Day {
	if month -= 3; month < 0 {
		year, month = year-1, month+12
	}
	const epoch = 719468 // days from 0000-03-01 to 1970-01-01
	return condense.Day(365*year + year/4 - year/100 + year/400 + (153*month+2)/5 + day - 1 - epoch)
}

// anyDate reads a date in any form, and goes behind what ends its cell; 0 where it is wrong.
func (p *parser) anyDate(data []byte, at int, c *part) (day condense.Day, behind int) {
	if behind = c.past(data, at); behind > 0 {
		return condense.NoDay, behind
	}
	raw, behind := p.cellAt(data[:len(data)-padding], at, c.end == '\n')
	if day, met := c.days[string(raw)]; met || behind == 0 {
		return day, behind
	}
	text := tidied(cellText(string(raw)))
	if text == "" {
		return condense.NoDay, behind
	}
	day, err := p.dayIn(text)
	if err != nil {
		return 0, 0
	}
	if c.days == nil || len(c.days) == maxFigures {
		c.days = map[string]condense.Day{}
	}
	c.days[string(raw)] = day
	return day, behind
}
