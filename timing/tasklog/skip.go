package tasklog

import (
	"bytes"
	"cmp"
	"math/bits"
	"slices"
)

// readSkipped goes behind a cell that says nothing of the figures, in rows up to one that is to
// be told of.
func (p *parser) readSkipped(c *part, data []byte, at, next []uint32) (rows int) {
	for i := c.skipBare(data, at, next, p.separators); ; i++ {
		if i += c.skipQuoted(data, at[i:], next[i:], p.separators, p.cells); i == len(at) {
			return i
		}
		if !c.seekCell(p.cells, at[i]) {
			return i
		}
		behind := c.past(data, int(p.cells[c.cell].closing)+1)
		if behind == 0 {
			return i
		}
		at[i] = uint32(behind)
	}
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

// closingQuote is the quote that closes a cell, given the one that opens it; -1 where none does.
func closingQuote(data []byte, opening int) int {
	for to := opening + 1; ; to += 2 {
		quote := bytes.IndexByte(data[to:], '"')
		if quote < 0 {
			return -1
		}
		if to += quote; to+1 == len(data) || data[to+1] != '"' { // else they are one within
			return to
		}
	}
}
