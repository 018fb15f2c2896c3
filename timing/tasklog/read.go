package tasklog

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"

	"headhours/timing"
	"headhours/timing/tasklog/sheets"
)

// Names are the names a log may use; a nil slice of steps or workflows lets any name
// pass. ByVisit are those of the steps that are counted by the visit: a count that is
// left blank is 1.
type Names struct{ Steps, Workflows, ByVisit []string }

// Log is what one file holds.
type Log struct {
	Readings []timing.Reading // in the order of the rows, voided ones too
	Warnings timing.Problems  // what was read but may have been meant otherwise
}

// Read reads one task log, CSV or a workbook; file is the name that places carry.
// Header names may be in any case; needed are step, count, and time or both start
// and end. Cells are trimmed of blanks, rows that are all blank are skipped.
//
// The error is timing.Problems, by their place, no more than timing.MostProblems of
// them and how many more there are, and then the log has no readings, only warnings;
// or it is the error of r itself. Where the header is at fault, rows are not looked
// at. An unclosed quote swallows the rows behind it.
func Read(r io.Reader, file string, names Names) (Log, error) {
	in := newChunker(r)
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
		rows = readWorkbook(data, file, names)
	} else {
		csv := newCSVReader(file, names, in.separator)
		rows = &csv.reader
		if err := csv.readAll(in, next); err != nil {
			return Log{}, err
		}
	}
	if len(rows.problems) > 0 {
		rows.log.Readings = nil
	}
	sortByPlace(rows.problems)
	sortByPlace(rows.log.Warnings)
	return rows.log, rows.problems.Err()
}

// readAll reads all rows, from the first chunk on.
func (r *csvReader) readAll(in *chunker, first chunk) error {
	r.take = r.collect
	c, good, err := r.begin(in, first)
	for good && err == nil {
		for rest := c.data; len(rest) > 0 && !c.unread; {
			row := c.row(rest, r.separator)
			r.read(c.ended(row, rest))
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

// collect takes a reading among those of the log.
func (r *reader) collect(reading *timing.Reading) { r.log.Readings = append(r.log.Readings, *reading) }

func sortByPlace(problems timing.Problems) {
	slices.SortStableFunc(problems, func(a, b timing.Problem) int {
		if a.More > 0 || b.More > 0 {
			return cmp.Compare(a.More, b.More)
		}
		return cmp.Or(cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Column, b.Place.Column))
	})
}

// reader checks the rows of one log, whatever they were read from.
type reader struct {
	file     string
	names    Names
	comma    bool                   // decimal commas are allowed
	at       [columns]int           // the field that holds a column; -1 where the log lacks it
	record   []string               // the row in hand
	place    func(int) timing.Place // where a field of it stands
	own      func(string) string    // a text that does not hold on to the whole row
	texts    map[string]string      // one copy of each name that recurs
	take     func(*timing.Reading)  // a good one
	unused   []string               // names of columns that are none of ours
	unit     unit                   // of bare times
	log      Log
	bare     Bare
	problems timing.Problems
}

func (r *reader) problem(at timing.Place, format string, args ...any) {
	r.problems = added(r.problems, at, format, args)
}

func (r *reader) warn(at timing.Place, format string, args ...any) {
	r.log.Warnings = added(r.log.Warnings, at, format, args)
}

// added is problems and one more, which is put into words only where it is listed.
func added(problems timing.Problems, at timing.Place, format string, args []any) timing.Problems {
	if len(problems) > timing.MostProblems {
		return problems.And(timing.Problem{More: 1})
	}
	return problems.And(timing.Problem{Place: at, Text: fmt.Sprintf(format, args...)})
}

// keep takes in the reading of the row in hand, if it is a good one.
func (r *reader) keep() {
	before := r.problems.Count()
	if reading := r.reading(); r.problems.Count() == before {
		if at := r.at[timeColumn]; at >= 0 && r.unit.name == "" {
			r.bare.see(r.cell(timeColumn), r.place(at), &reading)
		} else {
			r.bare.other = true
		}
		r.take(&reading)
	}
}
