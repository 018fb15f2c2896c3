package tasklog

import (
	"encoding/csv"
	"errors"

	"headhours/timing/study"
)

// badQuote tells of the quote for which the row in hand cannot be taken apart.
func (r *csvReader) badQuote(err error, row []byte) {
	fault, ok := errors.AsType[*csv.ParseError](err)
	if !ok {
		return // the row is a blank line
	}
	at := study.Place{File: r.file, Line: r.line + fault.Line - fault.StartLine, Column: fault.Column}
	if errors.Is(fault, csv.ErrBareQuote) {
		r.problem(at, "a quote in a field that does not start with one: put the field in quotes and write each quote inside it twice")
		return
	}
	if opened, ok := unclosed(row, fault); ok {
		at.Line, at.Column = r.line+opened.line, opened.column
		r.problem(at, "the quote opened here is never closed: close it; the rows behind it were not read")
		return
	}
	r.problem(at, "a field goes on after its closing quote: write each quote inside it twice")
}

// unclosed is the place of a quote that is opened and never closed, where the
// csv reader names the end of the row instead. It is false where a quote
// stands at the place that the csv reader names. Quotes before that place are
// in order, so that every second one closes.
func unclosed(row []byte, fault *csv.ParseError) (opened spot, ok bool) {
	var at spot
	open := false
	for i, b := range row {
		at.column++
		switch {
		case b == '\n':
			at = spot{at.line + 1, 0}
		case b != '"':
		case at.line == fault.Line-fault.StartLine && at.column == fault.Column:
			return spot{}, false
		default:
			open = !open
			if open && (i == 0 || row[i-1] != '"') { // not the second of a doubled quote
				opened = at
			}
		}
	}
	return opened, true
}
