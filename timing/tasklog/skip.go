package tasklog

import (
	"bytes"
	"cmp"
	"math/bits"
	"slices"
)

// readSkipped goes behind cells that say nothing of the figures, in rows up to one that is to be
// told of.
func (p *parser) readSkipped(c *part, data []byte, at, next []uint32) (rows int) {
	if c.inner > 0 {
		at = at[:p.skipInner(c, data, at, next)]
	}
	for i := c.skipBare(data, at, next, p.separators); ; i++ {
		i += c.skipQuoted(data, at[i:], next[i:], p.separators, p.cells)
		if i == len(at) || !p.skipCell(c, data, &at[i], next[i], c.end) {
			return i
		}
	}
}

// skipInner goes behind all cells of a part but the last, in rows up to one that is to be told
// of.
func (p *parser) skipInner(c *part, data []byte, at, next []uint32) (rows int) {
	for i := 0; ; i++ {
		if i += c.skipSeparators(data, at[i:], next[i:], p.separators); i == len(at) {
			return i
		}
		for range c.inner {
			if !p.skipCell(c, data, &at[i], next[i], p.separator) {
				return i
			}
		}
	}
}

// skipSeparators goes behind all separators within a part, in rows up to one that has not so
// many or has quotes.
func (c *part) skipSeparators(data []byte, at, next []uint32, separators uint64) (rows int) {
	next = next[:len(at)]
	for i, to := range at {
		left := uint64(c.inner)
		for {
			word := wordAt(data, int(to))
			if zeros(word^quotes) != 0 || to >= next[i] {
				return i
			}
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
	return len(at)
}

// skipCell goes behind a cell and what ends it; false where it does not end so.
func (p *parser) skipCell(c *part, data []byte, at *uint32, next uint32, end byte) bool {
	to := *at
	if data[to] != '"' {
		to = bareEnd(data, to, next-1, p.separators)
	} else if c.seekCell(p.cells, to) {
		to = p.cells[c.cell].closing + 1
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
	*at = to + 1
	return true
}

// skipBare goes behind a cell of rows, given where the next rows begin, up to one with another
// end or in quotes.
func (c *part) skipBare(data []byte, at, next []uint32, separators uint64) (rows int) {
	end := c.end
	next = next[:len(at)]
	for i, from := range at {
		to := bareEnd(data, from, next[i]-1, separators)
		if data[from] == '"' || data[to] != end || to < from {
			return i
		}
		at[i] = to + 1
	}
	return len(at)
}

// bareEnd is the first separator from an offset on, or the end of the line.
func bareEnd(data []byte, from, line uint32, separators uint64) uint32 {
	for ; ; from += 8 {
		if found := zeros(wordAt(data, int(from)) ^ separators); found != 0 || from >= line {
			return min(from+uint32(bits.TrailingZeros64(found))/8, line)
		}
	}
}

// skipQuoted is skipBare where some are in quotes, up to one that is not the next of those.
func (c *part) skipQuoted(data []byte, at, next []uint32, separators uint64, cells []quotedCell) (rows int) {
	next = next[:len(at)]
	cell := c.cell
	for ; rows < len(at); rows++ {
		from, line := at[rows], next[rows]-1
		to := from
		if data[from] != '"' {
			to = bareEnd(data, from, line, separators)
		} else {
			if uint(cell) >= uint(len(cells)) || cells[cell].opening != from {
				break
			}
			if to = cells[cell].closing + 1; to+1 == line && data[to] == '\r' {
				to = line
			}
			cell++
		}
		if data[to] != c.end || to < from {
			break
		}
		at[rows] = to + 1
	}
	c.cell = cell
	return rows
}

// seekCell finds the cell in quotes that begins at an offset.
func (c *part) seekCell(cells []quotedCell, from uint32) bool {
	if c.cell >= len(cells) || cells[c.cell].opening > from {
		c.cell = 0
	}
	to, step := c.cell, 1
	for ; to < len(cells) && cells[to].opening < from; step *= 2 {
		c.cell = to
		to += step
	}
	at, found := slices.BinarySearchFunc(cells[c.cell:min(to+1, len(cells))], from, func(cell quotedCell, from uint32) int {
		return cmp.Compare(cell.opening, from)
	})
	c.cell += at
	return found
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
