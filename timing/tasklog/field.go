package tasklog

import (
	"bytes"
	"unicode"
)

// field is where a column stands in rows, and what its cells end with there.
type field struct {
	is        column // less than 0 where it is none of ours
	separator byte
	end       byte   // what stands behind it: the separator, or a line end
	stop      uint64 // that in all bytes, or returns where lines end with those too, as a rule
	beyond    uint32 // how many bytes the end then has
}

func fieldOf(is column, separator byte, isLast bool) field {
	f := field{is: is, separator: separator, end: separator, beyond: 1}
	if isLast {
		f.end = '\n'
	}
	f.stop = lowest * uint64(f.end)
	return f
}

// place is the field itself, of whatever it is a part.
func (f *field) place() *field { return f }

// stopAt says how the lines of some rows end, as a rule, of which it is the last field.
func (f *field) stopAt(rows []byte) {
	if bytes.HasSuffix(rows[:bytes.IndexByte(rows, '\n')+1], []byte("\r\n")) {
		f.stop, f.beyond = lowest*'\r', 2
	} else {
		f.stop, f.beyond = lowest*'\n', 1
	}
}

// past is what stands behind a cell that ends at an offset, 0 where it does not end
// there.
func (f *field) past(data []byte, at int) int {
	if data[at] == f.end {
		return at + 1
	}
	return behindReturn(data, at, f.end)
}

// behindReturn goes behind a line end of two bytes; 0 where there is none that ends the
// cell.
func behindReturn(data []byte, at int, end byte) int {
	if data[at] == '\r' && end == '\n' && data[at+1] == '\n' {
		return at + 2
	}
	return 0
}

// cell is the cell at an offset, and what stands behind what ends it, 0 where that is not
// the end of the field. Behind the data there is padding.
func (f *field) cell(data []byte, at int) (raw []byte, behind int) {
	data = data[:len(data)-padding]
	end, wrong := cellEnd(data, at, f.separator)
	if wrong != "" || end == len(data) {
		return nil, 0
	}
	raw = data[at:end]
	if behind = f.past(data, end); behind == end+1 && f.end == '\n' {
		raw = bytes.TrimSuffix(raw, []byte{'\r'})
	}
	return raw, behind
}

// content is where that begins and ends which stands in a cell, without quotes and blanks about it.
func content(raw []byte, at int) (from, to int) {
	if len(raw) > 1 && raw[0] == '"' {
		raw, at = raw[1:len(raw)-1], at+1
	}
	trimmed := bytes.TrimLeftFunc(raw, unicode.IsSpace)
	from = at + len(raw) - len(trimmed)
	return from, from + len(bytes.TrimSpace(trimmed))
}
