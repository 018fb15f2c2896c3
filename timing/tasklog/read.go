package tasklog

import (
	"bytes"
	"fmt"
	"io"

	"headhours/timing/study"
	"headhours/timing/tasklog/sheets"
)

// Log is what one file holds.
type Log struct {
	Readings []study.Reading // in the order of the rows, voided ones too
	Warnings study.Problems  // what was read but may have been meant otherwise
}

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
	next, err := in.begin()
	if err != nil {
		return Log{}, err
	}
	var rows *reader
	if sheets.Is(file, next.data) {
		data, err := in.all(next)
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
	return r.rows(in, first, r.goOn)
}

// rows goes through the rows below the headings, from the first chunk on, for as long as
// do wants more.
func (r *csvReader) rows(in *chunker, first chunk, do func() bool) error {
	c, more, err := r.begin(in, first)
	for more && err == nil {
		for rest := c.data; more && len(rest) > 0 && !c.unread; {
			row := c.row(rest, r.separator)
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
	next, err := in.begin()
	if err != nil {
		return err
	}
	if sheets.Is(file, next.data) {
		data, err := in.all(next)
		if err == nil {
			inWorkbook(data, file, &dialect, do)
		}
		return err
	}
	csv := newCSVReader(file, &dialect, in.separator)
	csv.keepReading = func(*study.Reading) {}
	return csv.rows(in, next, func() bool { return do(&csv.reader) })
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

// collect takes a reading among those of the log.
func (r *reader) collect(reading *study.Reading) { r.log.Readings = append(r.log.Readings, *reading) }

// reader checks the rows of one log, whatever they were read from.
type reader struct {
	decoder
	file        string
	at          [columns]int          // the field that holds a column; -1 where the log lacks it
	record      []string              // the row in hand
	headings    []string              // blanks trimmed
	place       func(int) study.Place // where a field of it stands
	own         func(string) string   // a text that does not hold on to the whole row
	keepReading func(*study.Reading)  // a good one
	unused      []string              // names of columns that are none of ours
	counts      []int                 // the fields that may hold the count, where they are several
	mapped      []string              // the headings that the dialect names and the log has
	log         Log
	bare        Bare
	problems    study.Problems

	faults    int // how many of the rows' problems are in repeated
	repeated  []repeated
	oftenAt   map[string]int // where each stands in that, by its key
	unordered bool           // a date was met whose order is not known
}

func (r *reader) problem(at study.Place, format string, args ...any) {
	r.problems = added(r.problems, at, format, args)
}

func (r *reader) warn(at study.Place, format string, args ...any) {
	r.log.Warnings = added(r.log.Warnings, at, format, args)
}

// added is problems and one more, which is put into words only where it is listed.
func added(problems study.Problems, at study.Place, format string, args []any) study.Problems {
	if len(problems) > study.MaxProblems {
		return problems.And(study.Problem{More: 1})
	}
	return problems.And(study.Problem{Place: at, Text: fmt.Sprintf(format, args...)})
}

// keep takes in the reading of the row in hand, if it is a good one.
func (r *reader) keep() {
	before := r.problems.Count() + r.faults
	if reading := r.reading(); r.problems.Count()+r.faults == before {
		if at := r.at[timeColumn]; at >= 0 && r.units[timeColumn].name == "" {
			r.bare.see(r.cell(timeColumn), r.place(at), &reading)
		} else {
			r.bare.other = true
		}
		r.keepReading(&reading)
	}
}
