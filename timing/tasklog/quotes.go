package tasklog

import (
	"bytes"
	"encoding/csv"
	"errors"

	"headhours/timing"
)

// badQuote tells of the quote for which a row cannot be taken apart; start is
// how far the data had been read before that row.
func (r *csvReader) badQuote(fault *csv.ParseError, start int64) {
	at := timing.Place{File: r.file, Line: fault.Line, Column: fault.Column}
	if errors.Is(fault, csv.ErrBareQuote) {
		r.problem(at, "a quote in a field that does not start with one: put the field in quotes and write each quote inside it twice")
		return
	}
	if opened, ok := r.unclosed(fault, start); ok {
		r.problem(opened, "the quote opened here is never closed: close it; the rows behind it were not read")
		return
	}
	r.problem(at, "a field goes on after its closing quote: write each quote inside it twice")
}

// unclosed is the place of a quote that is opened and never closed, where the
// csv reader names the end of the file instead. It is false where a quote
// stands at the place that the csv reader names. Quotes before that place are
// in order, so that every second one closes.
func (r *csvReader) unclosed(fault *csv.ParseError, start int64) (timing.Place, bool) {
	row := r.data[start:r.csv.InputOffset()]
	at := timing.Place{File: r.file, Line: fault.Line - bytes.Count(bytes.TrimSuffix(row, []byte("\n")), []byte("\n"))}
	var opened timing.Place
	open := false
	for i, b := range row {
		at.Column++
		switch {
		case b == '\n':
			at.Line, at.Column = at.Line+1, 0
		case b != '"':
		case at.Line == fault.Line && at.Column == fault.Column:
			return timing.Place{}, false
		default:
			open = !open
			if open && (i == 0 || row[i-1] != '"') { // not the second of a doubled quote
				opened = at
			}
		}
	}
	return opened, true
}
