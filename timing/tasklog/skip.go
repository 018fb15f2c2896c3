package tasklog

import (
	"bytes"
	"math/bits"
)

// readSkipped goes behind a cell that says nothing of the figures, in rows up to one that is to
// be told of.
func (p *parser) readSkipped(c *part, data []byte, at, next []uint32) (rows int) {
	for i := 0; ; i++ {
		if i += c.skipUsual(data, at[i:], next[i:], p.separators); i == len(at) {
			return i
		}
		end, wrong := cellEnd(data[:len(data)-padding], int(at[i]), p.separator)
		if wrong != "" {
			return i
		}
		behind := c.past(data, end)
		if behind == 0 {
			return i
		}
		at[i] = uint32(behind)
	}
}

// skipUsual goes behind a cell of rows, given where the next rows begin, up to one of several
// lines, with a quote in it or with another end.
func (c *part) skipUsual(data []byte, at, next []uint32, separators uint64) (rows int) {
	end := c.end
	next = next[:len(at)]
	for i, from := range at {
		line := next[i] - 1
		found := eitherOf(wordAt(data, int(from)), separators, quotes)
		to := min(from+uint32(bits.TrailingZeros64(found))/8, line)
		if data[to] != end { // a long one, or one in quotes
			to = endOfCell(data, from, line, separators)
		}
		if data[to] != end || to < from {
			return i
		}
		at[i] = to + 1
	}
	return len(at)
}

// endOfCell is the first separator of a cell or quote within it, or the end of the line; of one
// in quotes, what is behind them, or the first where they are not closed in that line.
func endOfCell(data []byte, from, line uint32, separators uint64) uint32 {
	if data[from] == '"' {
		return behindQuotes(data, from, line)
	}
	for to := from; to < line; {
		found := eitherOf(wordAt(data, int(to)), separators, quotes)
		if to += uint32(bits.TrailingZeros64(found)) / 8; found != 0 {
			return min(to, line)
		}
	}
	return line
}

func behindQuotes(data []byte, from, line uint32) uint32 {
	quote := closingQuote(data[:line], int(from))
	if quote < 0 {
		return from
	}
	if behind := uint32(quote) + 1; behind+1 < line || data[behind] != '\r' {
		return behind
	}
	return line
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
