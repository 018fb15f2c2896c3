package tasklog

import (
	"math/bits"
)

// skip goes behind cells that say nothing of the figures.
func (p *parser) skip(data []byte, from int, of *part) (behind int) {
	left := len(of.fields)
	for at := from; ; {
		if data[at] == '"' {
			if at > from && data[at-1] != p.separator {
				return 0 // it must not be there
			}
			switch at = p.skipQuoted(data, at+1); {
			case at == 0:
				return 0
			case left == 1:
				return of.past(data, at)
			case data[at] != p.separator:
				return 0
			}
			at++
			left--
		}
		word := wordAt(data, at)
		found, lines, plain := alike(word, p.separators), uint64(0), 8
		if zeros(word^quotes)|zeros(word^newlines) != 0 {
			quote := alike(word, quotes)
			before := quote&-quote - 1
			lines = alike(word, newlines) & before
			found = found&before | lines
			plain = bits.TrailingZeros64(quote) >> 3 // 8 where there is none
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
		left -= n
		at += plain
	}
}

// skipQuoted goes from behind an opening quote behind the one that closes it; 0 where none
// does.
func (p *parser) skipQuoted(data []byte, at int) (behind int) {
	for end := len(data) - padding; at < end; {
		word := wordAt(data, at)
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
		case data[at+1] != '"':
			return at + 1
		default:
			at++ // of two quotes, which are one
		}
		at++
	}
	return 0
}
