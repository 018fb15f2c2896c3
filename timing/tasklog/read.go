package tasklog

import (
	"bytes"
	"io"
	"strings"

	"headhours/timing/notation"
	"headhours/timing/sheets"
	"headhours/timing/study"
)

// Read reads one task log, CSV or a workbook; file is the name that places carry.
// Header names may be in any case; needed are step, count, and time or both start
// and end. Cells are trimmed of blanks, rows that are all blank are skipped.
//
// The error is study.Problems, by their place, no more than study.MaxProblems of
// them and how many more there are, and then the log has no readings, only warnings;
// or it is the error of r itself. Where the header is at fault, rows are not looked
// at. An unclosed quote swallows the rows behind it.
func Read(r io.Reader, file string, dialect Dialect) (Log, error) {
	in := newChunker(r, &dialect)
	in.careful = true
	next, err := in.begin()
	if err != nil {
		return Log{}, err
	}
	var rows *reader
	if sheets.Is(file, next.data) {
		data, err := in.wholeFile(next)
		if err != nil {
			return Log{}, err
		}
		rows = readWorkbook(data, file, &dialect)
	} else {
		csv := newCSVReader(file, &dialect, in.separator)
		rows = &csv.reader
		if err := csv.readAll(in, next); err != nil {
			return Log{}, err
		}
	}
	rows.finish()
	return rows.log, rows.problems.Err()
}

// readAll reads all rows, from the first chunk on.
func (r *csvReader) readAll(in *chunker, first chunk) error {
	r.keepReading = r.collect
	return r.goThrough(in, first, r.goOn)
}

// goThrough goes through the rows below the headings, from the first chunk on, for as long as
// do wants more.
func (r *csvReader) goThrough(in *chunker, first chunk, do func() bool) error {
	c, more, err := r.begin(in, first)
	for more && err == nil {
		for rest := c.data; more && len(rest) > 0 && !c.unread; {
			row := c.firstRow(rest, r.separator)
			if r.isRow(c.ended(row, rest)) {
				more = do()
			}
			rest = rest[len(row):]
			r.line += bytes.Count(row, []byte{'\n'})
		}
		if c.unread {
			r.spots = []spot{{0, 1}}
			r.tooLong()
		}
		if c.last {
			break
		}
		c, err = in.next(in.buffer())
	}
	return err
}

// eachRow goes through the rows of a log that can be taken apart, for as long as do wants
// more; of a workbook, to the last. The error is that of r.
func eachRow(r io.Reader, file string, dialect Dialect, do func(*reader) bool) error {
	in := newChunker(r, &dialect)
	in.careful = true
	in.size, in.rows = headSize, 0 // as a rule the first rows are enough
	next, err := in.begin()
	if err != nil {
		return err
	}
	if sheets.Is(file, next.data) {
		data, err := in.wholeFile(next)
		if err == nil {
			inWorkbook(data, file, &dialect, do)
		}
		return err
	}
	csv := newCSVReader(file, &dialect, in.separator)
	csv.keepReading = func(*study.Reading) {}
	return csv.goThrough(in, next, func() bool { return do(&csv.reader) })
}

// finish puts what is wrong with many rows into words, and all of it in order; then there are
// no readings.
func (r *reader) finish() {
	r.problems = r.problems.And(inWords(r.repeated)...)
	if len(r.problems) > 0 {
		r.log.Readings = nil
	}
	r.problems.Sort()
	r.log.Warnings.Sort()
}

// BareTimes looks at the times of a CSV log that was read before without a problem. It goes
// no further than the first that cannot be meant as minutes. The error is that of the
// reader.
func BareTimes(r io.Reader, file string, dialect Dialect) (Bare, error) {
	var bare Bare
	err := eachRow(r, file, dialect, func(rows *reader) bool {
		rows.keep()
		bare = rows.bare
		return !bare.other
	})
	return bare, err
}

// OrderOfDates looks for a date that shows the order of day and month in a log, and goes
// no further than that; the zero DateOrder where none does. The error is that of r.
func OrderOfDates(r io.Reader, file string, dialect Dialect) (DateOrder, error) {
	found := DateOrder{}
	err := eachRow(r, file, dialect, func(rows *reader) bool {
		text := rows.cell(dateColumn)
		if order, shows := notation.OrderShown(text); shows {
			found = DateOrder{order, strings.Clone(text), rows.place(rows.at[dateColumn])}
		}
		return found.Order == 0
	})
	return found, err
}
