package tasklog

import "math/bits"

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
// lines, with a quote in it or with another end. It calls nothing.
func (c *part) skipUsual(data []byte, at, next []uint32, separators uint64) (rows int) {
	isLast, separator := c.end == '\n', byte(separators)
	next = next[:len(at)]
	for i := range at {
		from, line := int(at[i]), int(next[i])-1
		to := from
		for to < line {
			word := wordAt(data, to)
			found := zeros(word^separators) | zeros(word^quotes)
			to += bits.TrailingZeros64(found) / 8
			if found != 0 {
				break
			}
		}
		switch {
		case to >= line:
			if to = line; !isLast || from > line {
				return i
			}
		case data[to] == separator:
			if isLast {
				return i
			}
		case to > from:
			return i
		default: // in quotes
			for to++; ; {
				found := zeros(wordAt(data, to) ^ quotes)
				to += bits.TrailingZeros64(found) / 8
				if to >= line {
					return i
				}
				if found != 0 {
					if to++; data[to] != '"' { // two are one within
						break
					}
					to++
				}
			}
			if isLast && data[to] == '\r' {
				to++
			}
			if data[to] != c.end || isLast && to != line {
				return i
			}
		}
		at[i] = uint32(to) + 1
	}
	return len(at)
}
