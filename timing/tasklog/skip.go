package tasklog

import (
	"bytes"
	"math/bits"
)

// skipped are columns of other names than ours, and notes that do not recur. They are to be text, and no
// more.
type skipped struct {
	field             // of the last
	inner      int    // others before it
	separators uint64 // in all bytes
	in         *stretch
}

// read goes behind the cells of rows, up to one that does not end as it should.
func (c *skipped) read(s *stretch, data []byte) { s.rows = c.skip(data, s.at[:s.rows], s.starts[1:]) }

func (c *skipped) skip(data []byte, at, next []uint32) (rows int) {
	if c.inner > fewCells {
		at = at[:c.skipInner(data, at, next)]
	} else {
		for range c.inner {
			at = at[:c.skipCells(data, at, next, c.skipShort(data, at, next), c.separator)]
		}
	}
	if c.end != '\n' {
		return c.skipCells(data, at, next, c.skipShort(data, at, next), c.end)
	}
	return c.skipCells(data, at, next, c.skipShortLast(data, at, next), c.end)
}

// fewCells is up to how many cells are skipped one by one: of more several have room in a word.
const fewCells = 3

// odd has the high bits of the bytes that are not ASCII or are 0, and perhaps of others behind a 0; its
// other bits say nothing.
func odd(word uint64) uint64 { return word | (word - lowest) }

// skipShort goes behind a cell of rows, up to one that has more bytes than a word can have beside what ends
// it, or is in quotes.
func (c *skipped) skipShort(data []byte, at, next []uint32) (rows int) {
	separators, passed := c.separators, uint64(0)
	next = next[:len(at)]
	for ; rows < len(at); rows++ {
		from := at[rows]
		word := wordAt(data, int(from))
		found := zeros(word ^ separators)
		behind := from + uint32(bits.TrailingZeros64(found))/8 + 1
		if found == 0 || byte(word) == '"' || behind >= next[rows] {
			break
		}
		passed |= odd(word)
		at[rows] = behind
	}
	c.in.odd |= passed
	return rows
}

// skipShortLast is skipShort of the last cells of rows.
func (c *skipped) skipShortLast(data []byte, at, next []uint32) (rows int) {
	separators, passed := c.separators, uint64(0)
	next = next[:len(at)]
	for ; rows < len(at); rows++ {
		from, behind := at[rows], next[rows]
		word := wordAt(data, int(from))
		bare := uint32(bits.TrailingZeros64(zeros(word^separators))) / 8
		if behind-1-from > bare || byte(word) == '"' {
			break
		}
		passed |= odd(word)
		at[rows] = behind
	}
	c.in.odd |= passed
	return rows
}

// skipCells goes behind a cell of rows from one on, up to one that is to be told of.
func (c *skipped) skipCells(data []byte, at, next []uint32, i int, end byte) (rows int) {
	for i += c.skipBare(data, at[i:], next[i:], end); ; i++ {
		i += c.skipQuoted(data, at[i:], next[i:], c.in.quotes[i:], end)
		if i == len(at) || !c.skipCell(data, &at[i], next[i], end, &c.in.quotes[i]) {
			return i
		}
	}
}

// skipInner goes behind all cells but the last, in rows up to one that is to be told
// of.
func (c *skipped) skipInner(data []byte, at, next []uint32) (rows int) {
	for i := 0; ; i++ {
		if i += c.skipSeparators(data, at[i:], next[i:]); i == len(at) {
			return i
		}
		for range c.inner {
			if !c.skipCell(data, &at[i], next[i], c.separator, &c.in.quotes[i]) {
				return i
			}
		}
	}
}

// skipSeparators goes behind all separators but the last, in rows up to one that has not so
// many or has quotes.
func (c *skipped) skipSeparators(data []byte, at, next []uint32) (rows int) {
	separators, inner, passed := c.separators, uint64(c.inner), uint64(0)
	next = next[:len(at)]
	for i, to := range at {
		left := inner
		for {
			word := wordAt(data, int(to))
			if zeros(word^quotes) != 0 || to >= next[i] {
				c.in.odd |= passed
				return i
			}
			passed |= odd(word)
			found := allZeros(word ^ separators)
			if n := bytesIn(found); n < left {
				left -= n
				to += 8
				continue
			}
			for ; left > 1; left-- {
				found &= found - 1
			}
			to += uint32(bits.TrailingZeros64(found))/8 + 1
			break
		}
		at[i] = to
	}
	c.in.odd |= passed
	return len(at)
}

// skipCell goes behind a cell and what ends it, and counts its quotes; false where it does not end so.
func (c *skipped) skipCell(data []byte, at *uint32, next uint32, end byte, quotes *uint32) bool {
	to := *at
	if data[to] != '"' {
		to, _ = bareEnd(data, to, next-1, c.separators)
	} else if closing := closingQuote(data[:len(data)-padding], int(to)); closing >= 0 {
		*quotes += uint32(countQuotes(data[to : closing+1]))
		to = uint32(closing) + 1
	}
	if data[to] != end {
		if to = uint32(behindReturn(data, int(to), end)); to == 0 {
			return false
		}
		to--
	}
	if to < *at {
		return false
	}
	c.in.odd = highest // for all that is known
	*at = to + 1
	return true
}

// skipBare goes behind a cell of rows, given where the next rows begin, up to one with another
// end or in quotes.
func (c *skipped) skipBare(data []byte, at, next []uint32, end byte) (rows int) {
	separators, all := c.separators, uint64(0)
	next = next[:len(at)]
	for ; rows < len(at); rows++ {
		from := at[rows]
		to, passed := bareEnd(data, from, next[rows]-1, separators)
		if data[from] == '"' || data[to] != end || to < from {
			break
		}
		all |= passed
		at[rows] = to + 1
	}
	c.in.odd |= all
	return rows
}

// bareEnd is the first separator from an offset on, or the end of the line, and what is odd up to there.
func bareEnd(data []byte, from, line uint32, separators uint64) (to uint32, passed uint64) {
	for ; ; from += 8 {
		word := wordAt(data, int(from))
		passed |= odd(word)
		if found := zeros(word ^ separators); found != 0 || from >= line {
			return min(from+uint32(bits.TrailingZeros64(found))/8, line), passed
		}
	}
}

// skipQuoted is skipBare where some are in quotes, up to one whose quotes do not close it within its
// line. It counts the quotes of each.
func (c *skipped) skipQuoted(data []byte, at, next, quoted []uint32, end byte) (rows int) {
	separators, all := c.separators, uint64(0)
	next, quoted = next[:len(at)], quoted[:len(at)]
	for i, from := range at {
		to, line, pairs, passed := from, next[i]-1, uint32(0), uint64(0)
		if data[from] != '"' {
			to, passed = bareEnd(data, from, line, separators)
		} else {
			for to++; to < line; to += 2 { // those within are pairs
				word := wordAt(data, int(to))
				found := zeros(word ^ quotes)
				for passed |= odd(word); found == 0 && to < line; passed |= odd(word) {
					to += 8
					word = wordAt(data, int(to))
					found = zeros(word ^ quotes)
				}
				pairs++
				if to += uint32(bits.TrailingZeros64(found)) / 8; data[to+1] != '"' {
					break
				}
			}
			if to++; to > line {
				c.in.odd |= all
				return i
			}
			if to+1 == line && data[to] == '\r' {
				to = line
			}
		}
		if data[to] != end || to < from {
			c.in.odd |= all
			return i
		}
		all |= passed
		at[i], quoted[i] = to+1, quoted[i]+2*pairs
	}
	c.in.odd |= all
	return len(at)
}

// nearNote is of how many bytes a text in quotes is looked through by words: a call takes longer.
const nearNote = 64

// closingQuote is the quote that closes a cell, given the one that opens it; -1 where none does.
func closingQuote(data []byte, opening int) int {
	to := opening + 1
	for near := min(to+nearNote, len(data)); to+8 <= near; {
		found := zeros(wordAt(data, to) ^ quotes)
		if found == 0 {
			to += 8
			continue
		}
		if to += bits.TrailingZeros64(found) / 8; to+1 == len(data) || data[to+1] != '"' {
			return to
		}
		to += 2 // they are one within
	}
	for ; ; to += 2 {
		quote := bytes.IndexByte(data[to:], '"')
		if quote < 0 {
			return -1
		}
		if to += quote; to+1 == len(data) || data[to+1] != '"' {
			return to
		}
	}
}
