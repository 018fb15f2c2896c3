package tasklog

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"headhours/timing"
	"headhours/timing/tasklog/sheets"
)

// Names are the names a log may use, to be matched letter by letter; a nil
// slice lets any name pass.
type Names struct{ Steps, Workflows []string }

// Log is what one file holds.
type Log struct {
	Readings []timing.Reading // in the order of the rows, voided ones too
	Warnings []timing.Problem // what was read but may have been meant otherwise
}

// Read reads one task log, CSV or a workbook; file is the name that places carry.
// Header names may be in any case; needed are step, count, and time or both start
// and end. Cells are trimmed of blanks, rows that are all blank are skipped.
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
	var rows *reader
	if sheets.Is(file, data) {
		rows = readWorkbook(data, file, names)
	} else {
		rows = readCSV(data, file, names)
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
	log      Log
	problems timing.Problems
}

func (r *reader) problem(at timing.Place, format string, args ...any) {
	r.problems = append(r.problems, timing.Problem{Place: at, Text: fmt.Sprintf(format, args...)})
}

func (r *reader) warn(at timing.Place, format string, args ...any) {
	r.log.Warnings = append(r.log.Warnings, timing.Problem{Place: at, Text: fmt.Sprintf(format, args...)})
}

// keep takes the row in hand among the readings of the log.
func (r *reader) keep() {
	reading := r.reading()
	if len(r.problems) == 0 {
		r.log.Readings = append(r.log.Readings, reading)
	}
}
