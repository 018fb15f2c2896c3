package tasklog

import (
	"encoding/binary"
	"math/bits"
)

const (
	lowest   = 0x0101010101010101
	highest  = 0x8080808080808080
	newlines = lowest * '\n'
	quotes   = lowest * '"'
)

// Figures in the forms that nearly all have are read where they stand, the rest by their
// decoders. Each of these goes behind what ends a cell, and gives 0 where it is of another
// form.

// numberAt reads digits with at most one decimal mark.
func numberAt(data []byte, at int, end, comma byte) (x float64, behind int) {
	values := binary.LittleEndian.Uint64(data[at:]) ^ lowest*'0'
	size := digits(values)
	if size == 0 || size > 7 {
		return 0, 0
	}
	whole := eightDigits(values << (64 - 8*size))
	at += size
	mark := data[at]
	if mark == end {
		return float64(whole), at + 1
	}
	if mark != '.' && mark != comma {
		return float64(whole), behindReturn(data, at, end)
	}
	if decimal := uint64(data[at+1] - '0'); decimal <= 9 && data[at+2] == end {
		return float64(10*whole+decimal) / 10, at + 3
	}
	values = binary.LittleEndian.Uint64(data[at+1:]) ^ lowest*'0'
	if size = digits(values); size == 0 || size > 7 {
		return 0, 0
	}
	whole = whole*tens[size] + eightDigits(values<<(64-8*size))
	if at += 1 + size; data[at] == end {
		return float64(whole) / float64(tens[size]), at + 1
	}
	return float64(whole) / float64(tens[size]), behindReturn(data, at, end)
}

// behindReturn goes behind a line end of two bytes; 0 where there is none that ends the
// cell.
func behindReturn(data []byte, at int, end byte) int {
	if data[at] == '\r' && end == '\n' && data[at+1] == '\n' {
		return at + 2
	}
	return 0
}

var tens = [8]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7}

// digits is how many bytes in front of a word are from 0 to 9.
func digits(values uint64) int {
	return bits.TrailingZeros64((values+(highest-10*lowest)|values)&highest) >> 3
}

// eightDigits is the number that eight bytes from 0 to 9 are the digits of, the lowest
// first (D. Lemire, Number parsing at a gigabyte per second, Software: Practice and
// Experience 51, 2021).
func eightDigits(word uint64) uint64 {
	const pairs, hundreds, rest = 0x000000ff000000ff, 100 + 1_000_000<<32, 1 + 10_000<<32
	word = word*10 + word>>8
	return (word&pairs*hundreds + word>>16&pairs*rest) >> 32
}

// timeAt reads minutes and seconds, with or without hours, or a number of a time's units
// that can be meant in one way only.
func timeAt(data []byte, at int, c, end *part) (seconds float64, behind int) {
	if seconds, behind = numberAt(data, at, end.end, c.mark); behind > 0 {
		if seconds < 10 && behind-at > 4 { // it may have two decimals
			return 0, 0
		}
		return seconds * c.unit, behind
	}
	values := binary.LittleEndian.Uint64(data[at:]) ^ lowest*'0'
	size := digits(values)
	if size == 0 || size > 4 {
		return 0, 0
	}
	total, parts := eightDigits(values<<(64-8*size)), 0
	for at += size; parts < 2 && data[at] == ':'; parts++ {
		ten, one := data[at+1]-'0', data[at+2]-'0'
		if ten > 5 || one > 9 {
			return 0, 0
		}
		total = 60*total + 10*uint64(ten) + uint64(one)
		at += 3
	}
	if parts == 0 || parts == 1 && c.unit > 60 {
		return 0, 0
	}
	return float64(total), end.behind(data, at)
}

// clockAt reads H:MM or H:MM:SS.
func clockAt(data []byte, at int, p *part) (seconds float64, behind int) {
	total := int(data[at] - '0')
	if total > 9 {
		return 0, 0
	}
	if at++; data[at] != ':' {
		if data[at]-'0' > 9 {
			return 0, 0
		}
		total = 10*total + int(data[at]-'0')
		at++
	}
	if total > 23 {
		return 0, 0
	}
	parts := 0
	for ; parts < 2 && data[at] == ':'; parts++ {
		ten, one := data[at+1]-'0', data[at+2]-'0'
		if ten > 5 || one > 9 {
			return 0, 0
		}
		total = 60*total + 10*int(ten) + int(one)
		at += 3
	}
	switch parts {
	case 0:
		return 0, 0
	case 1:
		total *= 60
	}
	return float64(total), p.behind(data, at)
}

// skip goes behind cells that say nothing of the figures.
func (p *parser) skip(data []byte, at int, of *part) (behind int) {
	begun := at // the cell in hand
	for left := len(of.fields); ; {
		if data[at] == '"' {
			if at != begun {
				return 0 // it must not be there
			}
			switch at = p.skipQuoted(data, at+1); {
			case at == 0:
				return 0
			case left == 1:
				return of.behind(data, at)
			case data[at] != p.separator:
				return 0
			}
			at++
			left--
			begun = at
		}
		word := binary.LittleEndian.Uint64(data[at:])
		quote, lines := alike(word, quotes), alike(word, newlines)
		found := alike(word, p.separators) | lines
		if quote != 0 {
			before := quote&-quote - 1
			found, lines = found&before, lines&before
		}
		n := bits.OnesCount64(found)
		if n >= left {
			for range left - 1 {
				found &= found - 1
			}
			end := at + bits.TrailingZeros64(found)>>3
			if data[end] != of.end || lines&(found&-found-1) != 0 {
				return 0 // the row has fewer cells, or more
			}
			return end + 1
		}
		if lines != 0 {
			return 0
		}
		if left -= n; n > 0 {
			begun = at + bits.Len64(found)>>3
		}
		at += bits.TrailingZeros64(quote) >> 3 // 8 where there is none
	}
}

// skipQuoted goes from behind an opening quote behind the one that closes it; 0 where none
// does.
func (p *parser) skipQuoted(data []byte, at int) (behind int) {
	for end := len(data) - padding; at < end; {
		word := binary.LittleEndian.Uint64(data[at:])
		found := zeros(word^quotes) | zeros(word^newlines)
		if found == 0 {
			at += 8
			continue
		}
		at += bits.TrailingZeros64(found) / 8
		switch {
		case at >= end:
			return 0
		case data[at] == '\n':
			p.parsed.lines++
		case data[at+1] != '"':
			return at + 1
		default:
			at++ // of two quotes, which are one
		}
		at++
	}
	return 0
}

// zeros has the high bit of the first byte that is 0, and perhaps of others behind it (A.
// Mycroft; H. S. Warren, Hacker's Delight, 2nd ed., section 6-1).
func zeros(word uint64) uint64 { return (word - lowest) & ^word & highest }

// alike has the high bit of each byte of a word that is like one in all bytes of another
// (H. S. Warren, Hacker's Delight, 2nd ed., section 6-1).
func alike(word, like uint64) uint64 {
	const others = ^uint64(highest)
	word ^= like
	return ^((word&others + others) | word | others)
}
