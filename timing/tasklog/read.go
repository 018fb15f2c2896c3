package tasklog

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"headhours/timing"
)

// Names are the names a log may use, to be matched letter by letter; a nil
// slice lets any name pass.
type Names struct{ Steps, Workflows []string }

// Log is what one file holds.
type Log struct {
	Readings []timing.Reading // in the order of the rows, voided ones too
	Warnings []timing.Problem // what was read but may have been meant otherwise
}

// Read reads one task log; file is the name that places carry. Header names
// may be in any case; needed are step, count, and time or both start and end.
// Cells are trimmed of blanks, rows that are all blank are skipped.
//
// The error is timing.Problems, all of them by their place, and then the
// log has no readings, only warnings; or it is the error of r itself. Where
// the header is at fault, rows are not looked at. An unclosed quote swallows
// the rows behind it.
func Read(r io.Reader, file string, names Names) (Log, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return Log{}, err
	}
	rows := newReader(data, file, names)
	if isUTF16(data) {
		rows.problem(timing.Place{File: file}, "holds UTF-16, not UTF-8: save it as CSV UTF-8")
	} else if rows.header() {
		rows.readings()
	}
	if len(rows.problems) > 0 {
		rows.log.Readings = nil
	}
	slices.SortStableFunc(rows.problems, byPlace)
	slices.SortStableFunc(rows.log.Warnings, byPlace)
	return rows.log, rows.problems.Err()
}

func byPlace(a, b timing.Problem) int {
	return cmp.Or(cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Column, b.Place.Column))
}

// reader reads the rows of one log.
type reader struct {
	data     []byte
	csv      *csv.Reader
	file     string
	names    Names
	comma    bool              // decimal commas are allowed
	fields   int               // in the header
	at       [columns]int      // the field that holds a column; -1 where the log lacks it
	record   []string          // the row in hand
	texts    map[string]string // one copy of each name that recurs
	log      Log
	problems timing.Problems
}

func newReader(data []byte, file string, names Names) *reader {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	rows := csv.NewReader(bytes.NewReader(data))
	rows.Comma = separator(data)
	rows.FieldsPerRecord = -1 // ragged rows are told of in our own words
	rows.ReuseRecord = true
	return &reader{
		data: data, csv: rows, file: file, names: names,
		comma: rows.Comma != ',', texts: map[string]string{},
	}
}

// separator is what stands between fields of the header, outside quotes: a tab
// if there is one, else a semicolon if there is one, else a comma.
func separator(data []byte) rune {
	found, quoted := ',', false
	for _, b := range bytes.TrimLeft(data, " \r\n") {
		switch {
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '\t':
			return '\t'
		case b == ';':
			found = ';'
		case b == '\n':
			return found
		}
	}
	return found
}

// next moves on to the next row that can be taken apart and is not blank. One
// that cannot is a problem. It is false at the end of the log.
func (r *reader) next() bool {
	for {
		start := r.csv.InputOffset()
		record, err := r.csv.Read()
		if err == io.EOF {
			return false
		}
		if fault, ok := errors.AsType[*csv.ParseError](err); ok {
			r.badQuote(fault, start)
			if r.fields == 0 {
				return false // no row after it is the header
			}
			continue
		}
		if !slices.ContainsFunc(record, func(cell string) bool { return strings.TrimSpace(cell) != "" }) {
			continue
		}
		r.record = record
		return true
	}
}

// readings reads every row below the header.
func (r *reader) readings() {
	for r.next() {
		if r.isWhole() && r.isText() {
			reading := r.reading()
			if len(r.problems) == 0 {
				r.log.Readings = append(r.log.Readings, reading)
			}
		}
	}
}

// isWhole says whether the row has as many fields as the header.
func (r *reader) isWhole() bool {
	n := len(r.record)
	if n == r.fields {
		return true
	}
	at := r.place(min(n-1, r.fields)) // the first field too many, or the last there is
	r.problem(at, "number of fields is %d, of names in the header %d: one field for each name, in quotes where it holds a separator", n, r.fields)
	return false
}

// isText says whether the row holds nothing but UTF-8 text.
func (r *reader) isText() bool {
	good := true
	for i, cell := range r.record {
		switch {
		case strings.IndexByte(cell, 0) >= 0:
			r.problem(r.place(i), "%s holds a NUL byte: save the file as CSV UTF-8", quote(cell))
			good = false
		case !utf8.ValidString(cell):
			r.problem(r.place(i), "%s is not UTF-8: save the file as CSV UTF-8", quote(cell))
			good = false
		}
	}
	return good
}

// isUTF16 knows a file saved as "Unicode text" by its byte-order mark, or by
// the NUL that stands beside its first letter.
func isUTF16(data []byte) bool {
	return bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) ||
		bytes.IndexByte(data[:min(2, len(data))], 0) >= 0
}

// place is where a field of the row starts.
func (r *reader) place(field int) timing.Place {
	line, col := r.csv.FieldPos(field)
	return timing.Place{File: r.file, Line: line, Column: col}
}

func (r *reader) problem(at timing.Place, format string, args ...any) {
	r.problems = append(r.problems, timing.Problem{Place: at, Text: fmt.Sprintf(format, args...)})
}
