package tasklog

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"headhours/timing"
)

// csvReader takes the rows of a CSV file apart.
type csvReader struct {
	reader
	data   []byte
	csv    *csv.Reader
	fields int // in the header
}

func readCSV(data []byte, file string, names Names) *reader {
	rows := newReader(data, file, names)
	if isUTF16(data) {
		rows.problem(timing.Place{File: file}, "holds UTF-16, not UTF-8: save it as CSV UTF-8")
	} else if rows.header() {
		rows.readings()
	}
	return &rows.reader
}

func newReader(data []byte, file string, names Names) *csvReader {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	rows := csv.NewReader(bytes.NewReader(data))
	rows.Comma = separator(data)
	rows.FieldsPerRecord = -1 // ragged rows are told of in our own words
	rows.ReuseRecord = true
	r := &csvReader{data: data, csv: rows}
	r.reader = reader{
		file: file, names: names, comma: rows.Comma != ',',
		place: r.fieldPlace, own: strings.Clone, texts: map[string]string{},
	}
	return r
}

// header reads the names of the columns and says whether rows can be read by
// them.
func (r *csvReader) header() bool {
	if !r.next() {
		if len(r.problems) == 0 {
			r.problem(timing.Place{File: r.file}, "empty: the first line names the columns, at least step,count,time")
		}
		return false
	}
	r.fields = len(r.record)
	for i, cell := range r.record {
		if strings.Contains(cell, "\r") {
			// Some spreadsheets end lines so; the whole file would pass for a header.
			r.problem(r.place(i), "a carriage return alone ends no line: save the file as CSV UTF-8")
			return false
		}
	}
	r.reader.header()
	return r.isText() && len(r.problems) == 0
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
func (r *csvReader) next() bool {
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
func (r *csvReader) readings() {
	for r.next() {
		if r.isWhole() && r.isText() {
			r.keep()
		}
	}
}

// isWhole says whether the row has as many fields as the header.
func (r *csvReader) isWhole() bool {
	n := len(r.record)
	if n == r.fields {
		return true
	}
	at := r.place(min(n-1, r.fields)) // the first field too many, or the last there is
	r.problem(at, "number of fields is %d, of names in the header %d: one field for each name, in quotes where it holds a separator", n, r.fields)
	return false
}

// isText says whether the row holds nothing but UTF-8 text.
func (r *csvReader) isText() bool {
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

// fieldPlace is where a field of the row starts.
func (r *csvReader) fieldPlace(field int) timing.Place {
	line, col := r.csv.FieldPos(field)
	return timing.Place{File: r.file, Line: line, Column: col}
}
