package tasklog

import (
	"strings"

	"headhours/timing/sheets"
	"headhours/timing/study"
	"headhours/timing/words"
)

// sheetReader checks the rows of one sheet of a workbook.
type sheetReader struct {
	reader
	row    sheets.Row
	title  int         // rows met before its headings
	wrong  bool        // the header is at fault: rows are not looked at
	stray  study.Place // of the first cell beyond the header
	strays int
}

// readWorkbook reads the first sheet whose first row names the columns that a log
// needs, and warns of the others. Where no sheet has such a row, the first that is
// not empty says what it lacks.
func readWorkbook(data []byte, file string, dialect *Dialect) *reader {
	return inWorkbook(data, file, dialect, (*reader).goOn)
}

// goOn keeps the reading of the row in hand.
func (r *reader) goOn() bool { r.keep(); return true }

// inWorkbook calls do with the rows of the sheet that is a log.
func inWorkbook(data []byte, file string, dialect *Dialect, do func(*reader) bool) *reader {
	log, found := firstLog(data, file, dialect, do, false)
	if !found {
		if other, found := firstLog(data, file, dialect, do, true); found {
			return other
		}
	}
	return log
}

// firstLog reads the first sheet that is a log; false where there is none. anyNames lets
// its headings have other names than ours, and rows of a title stand above them.
func firstLog(data []byte, file string, dialect *Dialect, do func(*reader) bool, anyNames bool) (r *reader, found bool) {
	var log, sheet *sheetReader // the one that is read, the one in hand
	var others []*sheetReader
	for row, err := range sheets.Rows(data) {
		switch {
		case err != nil:
			return wrongFile(file, err.Error()), true // it is wrong whatever its headings are
		case isBlankRow(row):
		case sheet == nil || sheet.row.Sheet != row.Sheet:
			sheet = newSheetReader(file, dialect, row, anyNames)
			if log == nil && sheet.isLog() {
				log = sheet
			} else {
				others = append(others, sheet)
			}
		case sheet == log:
			log.read(row, do)
		case anyNames && log == nil && sheet.title < maxTitle:
			below := newSheetReader(file, dialect, row, anyNames)
			if !below.isLog() {
				sheet.title++
				break
			}
			below.titleAbove(sheet.title)
			others = others[:len(others)-1]
			log, sheet = below, below
		}
	}
	switch {
	case log != nil:
		log.warnOfOthers(others)
		return &log.reader, true
	case len(others) > 0:
		return &others[0].reader, false
	}
	return wrongFile(file, "empty: the first row of a sheet names the columns, at least step, count and time"), false
}

// wrongFile has a problem with the file as a whole.
func wrongFile(file, text string) *reader {
	r := &reader{}
	r.problem(study.Place{File: file}, "%s", text)
	return r
}

func isBlankRow(row sheets.Row) bool {
	for _, cell := range row.Cells {
		if cell.Fault != "" || strings.TrimSpace(cell.Text) != "" {
			return false
		}
	}
	return true
}

// newSheetReader takes a sheet's first row for its header.
func newSheetReader(file string, dialect *Dialect, header sheets.Row, anyNames bool) *sheetReader {
	r := &sheetReader{row: header, title: 1}
	r.reader = reader{
		decoder: decoder{dialect: dialect, comma: true}, // no separator takes the comma up
		file:    file, place: r.fieldPlace, own: func(text string) string { return text },
	}
	for _, cell := range header.Cells {
		for len(r.record) < cell.Column {
			r.record = append(r.record, "")
		}
		r.record[cell.Column-1] = cell.Text
		if cell.Fault != "" {
			r.problem(r.fieldPlace(cell.Column-1), "the name of a column %s", cell.Fault)
		}
	}
	r.keepReading = r.collect
	if !anyNames || len(r.problems) > 0 || !r.readHeadings() {
		r.header()
	}
	r.wrong = len(r.problems) > 0
	return r
}

func (r *sheetReader) fieldPlace(field int) study.Place {
	return study.Place{File: r.file, Sheet: r.row.Sheet, Line: r.row.Number, Column: field + 1}
}

// read reads a row below the header.
func (r *sheetReader) read(row sheets.Row, do func(*reader) bool) {
	if r.wrong {
		return
	}
	r.row = row
	if !r.isWithin() {
		return
	}
	before := r.problems.Count()
	for _, field := range r.counts {
		r.fill(countColumn, field)
	}
	for c := range columns {
		if r.at[c] >= 0 && (c != countColumn || len(r.counts) == 0) {
			r.fill(c, r.at[c])
		}
	}
	if r.problems.Count() > before {
		return
	}
	r.doubtMinutes(pausedColumn)
	r.doubtMinutes(timeColumn)
	do(&r.reader)
}

// fill takes a cell of the row in hand.
func (r *sheetReader) fill(c column, field int) {
	cell := r.row.At(field + 1)
	r.record[field] = cell.Text
	if cell.Fault != "" {
		r.problem(r.place(field), "%s %s", c, cell.Fault)
	}
}

// isWithin says whether a cell of the row in hand stands under the header, and
// takes note of those beyond it.
func (r *sheetReader) isWithin() bool {
	within := false
	for _, cell := range r.row.Cells {
		switch {
		case cell.Fault == "" && strings.TrimSpace(cell.Text) == "":
		case cell.Column <= len(r.record):
			within = true
		case r.strays == 0:
			r.stray = r.place(cell.Column - 1)
			r.strays++
		default:
			r.strays++
		}
	}
	return within
}

// doubtMinutes warns of a time that is shown as hours and minutes: 3:07 typed into
// a spreadsheet becomes hours there, in a log minutes are meant by it.
func (r *sheetReader) doubtMinutes(c column) {
	if r.at[c] < 0 {
		return
	}
	cell := r.row.At(r.at[c] + 1)
	if short, ok := strings.CutSuffix(cell.Text, ":00"); ok && cell.Minutes {
		r.warn(r.place(r.at[c]), "%s is read as hours and minutes: write it as 0:%05s if minutes and seconds were meant", words.Quote(short), short)
	}
}

// warnOfOthers warns of what was passed over.
func (r *sheetReader) warnOfOthers(others []*sheetReader) {
	for _, other := range others {
		at := study.Place{File: r.file, Sheet: other.row.Sheet}
		if other.isLog() {
			r.warn(at, "is not read: a file holds one log, and this one's is in %s", words.Quote(r.row.Sheet))
		} else {
			r.warn(at, "is not read: its first row lacks names that a log needs, step, count, and time or both start and end")
		}
	}
	if r.strays > 0 {
		r.warn(r.stray, "stands beyond the last name of the header and is not read, nor are %d more such cells", r.strays-1)
	}
}
