package tasklog

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"headhours/timing/study"
	"headhours/timing/words"
)

// csvReader takes rows of a CSV log apart one by one: those that are to be told of, see parser, and where whole
// readings are asked for all of them.
type csvReader struct {
	reader
	separator byte
	width     int    // fields in the header; 0 before it is read
	line      int    // of the row in hand
	spots     []spot // where its fields start
}

func newCSVReader(file string, dialect *Dialect, separator byte) *csvReader {
	r := &csvReader{separator: separator}
	r.reader = reader{
		decoders: newDecoders(dialect, form{comma: separator != ','}),
		file:     file, place: r.fieldPlace, own: strings.Clone,
	}
	return r
}

// begin reads the names of the columns from the first row that is not blank, which is in
// the first chunk as a rule, and gives the chunk with what stands behind it. It is false
// where rows cannot be read by them.
func (r *csvReader) begin(in *chunker, c chunk) (rest chunk, good bool, err error) {
	r.line = 1
	if in.wide {
		r.problem(study.Place{File: r.file}, "holds UTF-16, not UTF-8: save it as CSV UTF-8")
		return c, false, nil
	}
	for err == nil {
		var rest []byte
		rest, good = r.header(c)
		if c = c.behind(len(c.data) - len(rest)); good || len(r.problems) > 0 {
			break
		}
		c, err = in.next(in.buffer())
	}
	return c, good, err
}

// header is begin, as far as a chunk goes.
func (r *csvReader) header(c chunk) (rest []byte, good bool) {
	rest = c.data
	for len(rest) > 0 {
		row := c.firstRow(rest, r.separator)
		if r.split(c.ended(row, rest)) {
			break
		}
		if wrong := r.problems; len(wrong) > 0 { // a title may stand as it likes
			r.problems = nil
			if behind, ok := r.seekHeadings(c, rest); ok {
				r.width = len(r.record)
				return behind, len(r.problems) == 0
			}
			r.problems = wrong
			return nil, false // no row behind it is the header
		}
		rest = rest[len(row):]
		r.line += bytes.Count(row, []byte{'\n'})
	}
	if len(rest) == 0 {
		if c.last {
			r.problem(study.Place{File: r.file}, "empty: the first line names the columns, at least step,count,time")
		}
		return nil, false
	}
	for i, cell := range r.record {
		if strings.Contains(cell, "\r") {
			// Some spreadsheets end lines so; the whole file would pass for a header.
			r.problem(r.place(i), "a carriage return alone ends no line: save the file as CSV UTF-8")
			return nil, false
		}
	}
	if c.unread {
		r.tooLong()
		return nil, false
	}
	if !isExact(r.record) {
		if behind, ok := r.seekHeadings(c, rest); ok {
			r.width = len(r.record)
			return behind, len(r.problems) == 0
		}
	}
	r.width = len(r.record)
	r.reader.header()
	good = r.isText() && len(r.problems) == 0
	row := c.firstRow(rest, r.separator)
	r.line += bytes.Count(row, []byte{'\n'})
	return rest[len(row):], good
}

// tooLong tells of the row in hand, of which no more was read.
func (r *csvReader) tooLong() {
	r.problem(r.place(0), "a row of more than %d million bytes: is a quote in it never closed? The rows behind it were not read", maxRow>>20)
}

// read reads a row below the header.
func (r *csvReader) read(row []byte) {
	if r.isRow(row) {
		r.keep()
	}
}

// isRow takes a row below the header apart; false where it is blank or cannot be, which is
// a problem.
func (r *csvReader) isRow(row []byte) bool { return r.split(row) && r.isWhole() && r.isText() }

// isWhole says whether the row has as many fields as the header.
func (r *csvReader) isWhole() bool {
	n := len(r.record)
	if n == r.width {
		return true
	}
	at := r.place(min(n-1, r.width)) // the first field too many, or the last there is
	r.problem(at, "number of fields is %d, of names in the header %d: one field for each name, in quotes where it holds a separator", n, r.width)
	return false
}

// isText says whether the row holds nothing but UTF-8 text.
func (r *csvReader) isText() bool {
	good := true
	for i, cell := range r.record {
		switch {
		case strings.IndexByte(cell, 0) >= 0:
			r.problem(r.place(i), "%s holds a NUL byte: save the file as CSV UTF-8", words.Quote(cell))
			good = false
		case !utf8.ValidString(cell):
			r.problem(r.place(i), "%s is not UTF-8: save the file as CSV UTF-8", words.Quote(cell))
			good = false
		}
	}
	return good
}

// fieldPlace is where a field of the row in hand starts.
func (r *csvReader) fieldPlace(field int) study.Place {
	at := r.spots[field]
	return study.Place{File: r.file, Line: r.line + at.line, Column: at.column}
}

// split takes a row apart; false where it is blank or cannot be, which is a problem.
func (r *csvReader) split(row []byte) bool {
	r.record, r.spots = r.record[:0], r.spots[:0]
	text, isBlank := string(row), true
	line, column := 0, 1 // of the cell in hand: letters are counted, as an editor does
	for at := 0; ; {
		end, wrong := cellEnd(row, at, r.separator)
		if wrong == "" {
			r.spots = append(r.spots, spot{line, column})
		}
		raw, inLine := text[at:end], at
		if last := strings.LastIndexByte(raw, '\n'); last >= 0 {
			line, column, inLine = line+strings.Count(raw, "\n"), 1, at+last+1
		}
		column += utf8.RuneCountInString(text[inLine:end])
		if wrong != "" {
			r.problem(study.Place{File: r.file, Line: r.line + line, Column: column}, "%s", wrong)
			return false
		}
		isLast := end == len(row) || row[end] != r.separator
		if isLast {
			raw = strings.TrimSuffix(raw, "\r")
		}
		cell := cellText(raw)
		r.record = append(r.record, cell)
		isBlank = isBlank && strings.TrimSpace(cell) == ""
		if isLast {
			return !isBlank
		}
		at, column = end+1, column+1
	}
}

// seekHeadings looks for the headings among the first rows, where the first that is not
// blank has not our own names, and gives what stands behind them. It is false where none
// are, and then nothing is changed.
func (r *csvReader) seekHeadings(c chunk, rest []byte) (behind []byte, ok bool) {
	record, spots, line := slices.Clone(r.record), slices.Clone(r.spots), r.line
	likely := filled(record) // of the row that most looks like headings
	title := 0
	for n := 0; n < maxTitle && len(rest) > 0 && !c.unread; n++ {
		row := c.firstRow(rest, r.separator)
		before := r.problems
		if r.split(c.ended(row, rest)) {
			if r.isText() && r.readHeadings() {
				r.titleAbove(title)
				r.line += bytes.Count(row, []byte{'\n'})
				return rest[len(row):], true
			}
			title++
			if n := filled(r.record); n > likely && r.isText() {
				record, spots, likely = slices.Clone(r.record), slices.Clone(r.spots), n
				line = r.line
			}
		} else if len(r.problems) > len(before) {
			title++
		}
		r.problems = before // rows of a title may stand as they like
		rest = rest[len(row):]
		r.line += bytes.Count(row, []byte{'\n'})
	}
	r.record, r.spots, r.line = record, spots, line
	return nil, false
}
