package tasklog

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// plainNumber reads digits with no more than one decimal, which a field must hold alone,
// and goes behind what ends it; 0 where there is anything else.
func plainNumber(data []byte, at int, end byte) (x float64, behind int) {
	word := binary.LittleEndian.Uint64(data[at:])
	values := word ^ digitZeros
	others := (values + (highest - 10*lowest) | values) & highest // the first high bit is that of the first byte above 9
	size := bits.TrailingZeros64(others) / 8
	if size == 0 || size > 5 {
		return 0, 0
	}
	value := eightDigits(values << (64 - 8*size))
	behind = at + size + 1
	rest := word >> (8 * size)
	switch mark := byte(rest); {
	case mark == end:
		return float64(value), behind
	case mark == '.' && byte(rest>>16) == end && byte(rest>>8)-'0' <= 9:
		return float64(10*value+rest>>8&15) / 10, behind + 2
	}
	return 0, 0
}

const digitZeros = '0' * lowest

// eightDigits is the number that eight bytes from 0 to 9 are the digits of, the lowest
// first (D. Lemire, Number parsing at a gigabyte per second, Software: Practice and
// Experience 51, 2021).
func eightDigits(word uint64) uint64 {
	const pairs, hundreds, rest = 0x000000ff000000ff, 100 + 1_000_000<<32, 1 + 10_000<<32
	word = word*10 + word>>8
	return (word&pairs*hundreds + word>>16&pairs*rest) >> 32
}

// figure reads a number or a time of any form that is plain, which may be in quotes; 0
// where it is not plain.
func (p *parser) figure(data []byte, at int, c *part) (x float64, behind int) {
	from, end := c.opens(data, at)
	var ok bool
	if c.does == counted {
		x, behind, ok = p.number(data, from, end)
	} else {
		if p.unit > 1 {
			x, behind, ok = p.number(data, from, end)
		} else {
			x, behind, ok = p.time(data, from, end)
		}
		ok = ok && (x >= 10 || !hasHundredths(data[from:behind-1]))
		x *= p.unit
	}
	if ok && end != c.end {
		behind, ok = c.closes(data, behind)
	}
	if !ok {
		return 0, 0
	}
	return x, behind
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

// skip goes behind a field that says nothing of the figures, which may be in quotes; 0
// where it is not plain.
func (p *parser) skip(data []byte, at int, c *part) (behind int) {
	if data[at] == '"' {
		return p.skipQuoted(data, at+1, c)
	}
	for {
		word := binary.LittleEndian.Uint64(data[at:])
		found := zeros(word^p.separators) | zeros(word^newlines) | zeros(word^quotes) | zeros(word)
		if found == 0 {
			at += 8
			continue
		}
		if at += bits.TrailingZeros64(found) / 8; data[at] == c.end {
			return at + 1
		}
		return 0
	}
}

// skipQuoted does so behind an opening quote.
func (p *parser) skipQuoted(data []byte, at int, c *part) (behind int) {
	end := len(data) - padding
	for at < end {
		word := binary.LittleEndian.Uint64(data[at:])
		found := zeros(word^quotes) | zeros(word^newlines) | zeros(word)
		if found == 0 {
			at += 8
			continue
		}
		at += bits.TrailingZeros64(found) / 8
		switch {
		case at >= end || data[at] == 0:
			return 0
		case data[at] == '\n':
			p.parsed.lines++
		case data[at+1] != '"':
			if behind, ok := c.closes(data, at+1); ok {
				return behind
			}
			return 0
		default:
			at++ // of two quotes, which are one
		}
		at++
	}
	return 0
}

const (
	newlines = lowest * '\n'
	quotes   = lowest * '"'
)

// zeros has the high bit of the first byte that is 0, and perhaps of others behind it (A.
// Mycroft; H. S. Warren, Hacker's Delight, 2nd ed., section 6-1).
func zeros(word uint64) uint64 { return (word - lowest) & ^word & highest }

// time reads a number of seconds, or m:ss or h:mm:ss, as number does.
func (p *parser) time(data []byte, at int, end byte) (seconds float64, behind int, ok bool) {
	seconds, behind, ok = p.number(data, at, end)
	for range 2 { // minutes behind hours, seconds behind minutes
		colon := behind - 1
		if ok || colon <= at || colon > at+maxDigits || data[colon] != ':' || bytes.IndexByte(data[at:colon], '.') >= 0 || bytes.IndexByte(data[at:colon], ',') >= 0 {
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
		if size += decimals; size > maxDigits {
			return 0, 0, false
		}
		x = float64(value) / tens[decimals]
	}
	if data[at] == '\r' && end == '\n' {
		at++
	}
	return x, at + 1, data[at] == end && size > 0 && size <= maxDigits
}

// maxDigits is of how many digits any number is exact in a float64.
const maxDigits = 15

var tens = [maxDigits + 1]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// hasHundredths says whether a number has exactly two decimals.
func hasHundredths(text []byte) bool {
	n := len(bytes.TrimRight(text, "\r")) - 3
	return n >= 0 && (text[n] == '.' || text[n] == ',')
}
