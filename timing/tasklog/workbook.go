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
	title  int          // rows met before its headings
	wrong  bool         // the header is at fault: rows are not looked at
	named  bool         // a row has headings for all that a log needs, if under other names than ours
	likely *sheetReader // of the row that most looks like headings
	stray  study.Place  // of the first cell beyond the header
	strays int
}

// book is one file with sheets, of which one is a log.
type book struct {
	data    []byte
	file    string
	dialect *Dialect
	do      func(*reader) bool // with each row of the log
	hides   bool               // it has hidden sheets
}

// pass is what is looked for in a workbook: a log among its visible or its hidden sheets, by
// our own names in its first row or by any, and then rows of a title may stand above them.
type pass struct{ hidden, anyNames bool }

// readWorkbook reads the first sheet whose first row has our own names for what a log needs,
// else the first with headings for that, and warns of the others; a hidden one only where no
// other is a log. Where none is, the one that comes closest says what it lacks.
func readWorkbook(data []byte, file string, dialect *Dialect) *reader {
	return inWorkbook(data, file, dialect, (*reader).goOn)
}

// goOn keeps the reading of the row in hand.
func (r *reader) goOn() bool { r.keep(); return true }

// inWorkbook calls do with the rows of the sheet that is a log.
func inWorkbook(data []byte, file string, dialect *Dialect, do func(*reader) bool) *reader {
	w := book{data: data, file: file, dialect: dialect, do: do}
	var lacking *reader
	for _, p := range []pass{{false, false}, {false, true}, {true, false}, {true, true}} {
		if p.hidden && !w.hides {
			break
		}
		log, found := w.firstLog(p)
		if found {
			return log
		}
		if p.anyNames && lacking == nil {
			lacking = log
		}
	}
	if lacking == nil {
		return wrongFile(file, "empty: the first row of a sheet names the columns, at least step, count and time")
	}
	return lacking
}

// firstLog reads the first sheet that is a log; false where there is none, and then it is
// the one that comes closest, nil where none has a row.
func (w *book) firstLog(p pass) (r *reader, found bool) {
	var log, sheet *sheetReader // the one that is read, the one in hand
	var others []*sheetReader
	for row, err := range sheets.Rows(w.data) {
		w.hides = w.hides || row.Hidden
		switch {
		case err != nil:
			return wrongFile(w.file, err.Error()), true // it is wrong whatever its headings are
		case isBlankRow(row):
		case sheet == nil || sheet.row.Sheet != row.Sheet:
			sheet = newSheetReader(w.file, w.dialect, row, p.anyNames)
			sheet.likely = sheet
			if l := layoutOf(sheet.record, w.dialect, true); l.isLog() {
				sheet.named = true
			}
			if log == nil && row.Hidden == p.hidden && sheet.isLog() {
				log = sheet
			} else {
				others = append(others, sheet)
			}
		case sheet == log:
			log.read(row, w.do)
		case sheet.title < maxTitle && !sheet.named:
			below := newSheetReader(w.file, w.dialect, row, true)
			switch {
			case !below.isLog():
				sheet.title++
				if filled(below.record) > filled(sheet.likely.record) {
					sheet.likely = below
				}
			case p.anyNames && log == nil && row.Hidden == p.hidden:
				below.titleAbove(sheet.title)
				others = others[:len(others)-1]
				log, sheet = below, below
			default:
				sheet.named = true
			}
		}
	}
	if log != nil {
		log.warnOfOthers(others, p)
		return &log.reader, true
	}
	return closest(others, p), false
}

// closest is the sheet that has most of what a log needs, the first of several, as far as
// they are looked at; nil where none is.
func closest(all []*sheetReader, p pass) (found *reader) {
	most := -1
	for _, sheet := range all {
		l := layoutOf(sheet.likely.record, sheet.dialect, true)
		if n := l.needed(); sheet.row.Hidden == p.hidden && n > most {
			most, found = n, &sheet.likely.reader
		}
	}
	return found
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
		decoders: newDecoders(dialect, form{comma: true, groups: true}), // no separator takes the comma up
		file:     file, place: r.fieldPlace, own: func(text string) string { return text },
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

// warnOfOthers warns of what was passed over. A cell beyond the headings is no problem, as in
// the CSV file that a spreadsheet makes of the sheet, whose headings are filled up with blanks:
// it shifts no other, as a field too many in a row of CSV may.
func (r *sheetReader) warnOfOthers(others []*sheetReader, p pass) {
	if p.hidden {
		r.warn(study.Place{File: r.file, Sheet: r.row.Sheet}, "is a hidden sheet, and read since no other is a log")
	}
	for _, other := range others {
		at, why := study.Place{File: r.file, Sheet: other.row.Sheet}, ""
		switch {
		case !other.named:
			r.warn(at, "is not read: none of its first %d rows has headings for what a log needs, step, count, and time or both start and end", maxTitle)
			continue
		case other.row.Hidden && !p.hidden:
			why = ", which is not hidden"
		case !p.anyNames && !other.isLog():
			why = ", whose first row has just the names step, count, and time or start and end"
		}
		r.warn(at, "is not read: a file holds one log, and this one's is in %s%s. To have it read too, save it as a file of its own", words.Quote(r.row.Sheet), why)
	}
	const beyond = "stands beyond the last heading and is not read"
	switch {
	case r.strays == 1:
		r.warn(r.stray, beyond)
	case r.strays > 1:
		r.warn(r.stray, beyond+", nor %s %s", words.Agree(r.strays-1, "is", "are"), words.Many(r.strays-1, "more such cell"))
	}
}
