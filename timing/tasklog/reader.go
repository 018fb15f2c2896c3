package tasklog

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Log is what one file holds.
type Log struct {
	Readings []study.Reading // in the order of the rows, voided ones too
	Warnings study.Problems  // what was read but may have been meant otherwise
}

// reader checks the rows of one log, whatever they were read from.
type reader struct {
	*decoders
	file        string
	at          [columns]int                            // the field that holds a column; -1 where the log lacks it
	record      []string                                // the row in hand
	headings    []string                                // blanks trimmed
	place       func(int) study.Place                   // where a field of it stands
	own         func(string) string                     // a text that does not hold on to the whole row
	keepReading func(*study.Reading)                    // a good one
	sumAbove    func() (n int, counts, seconds float64) // of the readings above; nil where the log has them
	unused      []string                                // names of columns that are none of ours
	counts      []int                                   // the fields that may hold the count, where they are several
	mapped      []string                                // the headings that the dialect names and the log has
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

// cell is what a column of the row holds, blanks trimmed; "" where the log
// lacks the column.
func (r *reader) cell(c column) string {
	if r.at[c] < 0 {
		return ""
	}
	return strings.TrimSpace(r.record[r.at[c]])
}

// bad makes a cell a problem, or blames it for what a row lacks: what follows
// the name of its column and the text found there. What many rows may have is told once.
func (r *reader) bad(c column, err error) {
	if many, ok := errors.AsType[*often](err); ok {
		r.badOften(c, many)
		return
	}
	if len(r.problems) > study.MaxProblems {
		r.problem(study.Place{}, "") // is but counted
		return
	}
	found := c.String()
	if text := r.cell(c); text != "" {
		found += " " + words.Quote(text)
	}
	r.problem(r.place(r.at[c]), "%s %s", found, err)
}

// badOften is a problem of the row in hand that others may have too.
func (r *reader) badOften(c column, problem *often) {
	r.faults++
	r.unordered = r.unordered || c == dateColumn && problem.key == noOrder
	key := c.String() + " " + problem.key
	at, ok := r.oftenAt[key]
	if !ok && len(r.repeated) >= maxRepeated {
		key = others.key
		at, ok = r.oftenAt[key]
	}
	if ok {
		r.repeated[at].rows++
		return
	}
	if r.oftenAt == nil {
		r.oftenAt = map[string]int{}
	}
	what, do := others.what, others.do
	if key != others.key {
		what, do = problem.words()
	}
	r.oftenAt[key] = len(r.repeated)
	r.repeated = append(r.repeated, repeated{key, r.place(r.at[c]), what, do, 1})
}

// figure is what a cell holds, unknown where it is blank or a problem. One that may have been meant otherwise is
// doubtful.
func (r *reader) figure(c column) (x study.Maybe, doubtful bool) {
	text := r.cell(c)
	if text == "" {
		return study.Maybe{}, false
	}
	value, doubtful, err := r.figures[c].of(text)
	if err != nil {
		r.bad(c, err)
		return study.Maybe{}, false
	}
	return study.Known(value), doubtful
}

// tidyText is a cell whose lines end in \n, whatever system wrote it.
func (r *reader) tidyText(c column) string { return tidied(r.cell(c)) }

// collect takes a reading among those of the log.
func (r *reader) collect(reading *study.Reading) { r.log.Readings = append(r.log.Readings, *reading) }

// What a row lacks.
var (
	errNoStep    = errors.New("is blank: name the step that was timed")
	errNoCount   = errors.New("is blank: how many units the time covered")
	errZeroCount = errors.New("is not above 0: only a row whose setups are above 0 may do without")
	errNoTime    = errors.New("is blank: give it, or both start and end")
	errNoClock   = errors.New("is blank: without a time, both start and end are needed")
)
