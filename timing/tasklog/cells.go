package tasklog

import (
	"bytes"
	"strings"
)

// What is wrong with a quote (RFC 4180, section 2).
const (
	bareQuote     = "a quote in a field that does not start with one: put the field in quotes and write each quote inside it twice"
	goesOn        = "a field goes on after its closing quote: write each quote inside it twice"
	unclosedQuote = "the quote opened here is never closed: close it; the rows behind it were not read"
)

// cellEnd is where the cell that begins at an offset ends: at a separator, a line end or
// the end of the data. Where a quote in it is wrong it says what is, and the end is that
// quote; of one that is never closed, the opening one.
func cellEnd(data []byte, at int, separator byte) (end int, wrong string) {
	if at < len(data) && data[at] == '"' {
		quote := closingQuote(data, at)
		if quote < 0 {
			return at, unclosedQuote
		}
		if endsCell(data[quote+1:], separator) {
			return quote + 1, ""
		}
		return quote, goesOn
	}
	for end = at; end < len(data); end++ {
		switch data[end] {
		case separator, '\n':
			return end, ""
		case '"':
			return end, bareQuote
		}
	}
	return end, ""
}

// endsCell says whether what stands behind a quoted cell ends it, as far as there is
// anything.
func endsCell(rest []byte, separator byte) bool {
	switch {
	case len(rest) == 0 || rest[0] == separator || rest[0] == '\n':
		return true
	case rest[0] == '\r':
		return len(rest) == 1 || rest[1] == '\n'
	}
	return false
}

// rowEnd is the end of the first row of the data, its line end included; 0 where it does
// not end there. A row that cannot be taken apart ends with the line in which that shows.
func rowEnd(data []byte, separator byte) int {
	for at := 0; at < len(data); at++ {
		end, wrong := cellEnd(data, at, separator)
		switch {
		case wrong == unclosedQuote:
			return 0
		case wrong != "":
			return lineEnd(data, end)
		case end < len(data) && data[end] != separator:
			return lineEnd(data, end)
		}
		at = end
	}
	return 0
}

// isTidy says whether all quotes of a row stand where CSV has them.
func isTidy(row []byte, separator byte) bool {
	for at := 0; at < len(row); at++ {
		end, wrong := cellEnd(row, at, separator)
		if wrong != "" {
			return false
		}
		at = end
	}
	return true
}

func lineEnd(data []byte, at int) int {
	end := bytes.IndexByte(data[at:], '\n')
	if end < 0 {
		return 0
	}
	return at + end + 1
}

// cellText is what a cell holds, quotes taken off; its lines end in \n.
func cellText(cell string) string {
	if len(cell) < 2 || cell[0] != '"' {
		return cell
	}
	cell = cell[1 : len(cell)-1]
	if strings.IndexByte(cell, '"') >= 0 {
		cell = strings.ReplaceAll(cell, `""`, `"`)
	}
	if strings.IndexByte(cell, '\r') >= 0 {
		cell = strings.ReplaceAll(cell, "\r\n", "\n")
	}
	return cell
}

// spot is a place within a row: its line, counted from 0, and its column from 1, in letters.
type spot struct{ line, column int }
