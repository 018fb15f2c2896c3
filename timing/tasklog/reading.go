package tasklog

import (
	"errors"
	"strings"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// reading is what the row in hand says. It is worth nothing where a cell of it
// is a problem.
func (r *reader) reading() study.Reading {
	r.chooseCount()
	setups := r.decoded(setupsColumn, r.number)
	paused := r.time(pausedColumn)
	start, end := r.decoded(startColumn, r.clock), r.decoded(endColumn, r.clock)
	return study.Reading{
		Place:    r.place(0),
		Date:     r.date(),
		Grow:     r.named(growColumn),
		Workflow: r.named(workflowColumn),
		Step:     r.step(),
		Worker:   r.named(workerColumn),
		People:   r.orElse(peopleColumn, blankPeople),
		Start:    start,
		End:      end,
		Paused:   paused.Value,
		Seconds:  r.seconds(start, end, paused),
		Count:    r.count(setups),
		Setups:   setups,
		Source:   r.sourceOf(),
		Rating:   r.orElse(ratingColumn, blankRating),
		Void:     r.own(r.text(voidColumn)),
		Note:     r.own(r.text(noteColumn)),
		Journal:  r.own(r.text(journalColumn)),
	}
}

// What blanks say: one pair of hands, at normal pace.
const (
	blankPeople = 1
	blankRating = 100 // percent
)

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
		r.often(c, many)
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

// What a row lacks.
var (
	errNoStep    = errors.New("is blank: name the step that was timed")
	errNoCount   = errors.New("is blank: how many units the time covered")
	errZeroCount = errors.New("is not above 0: only a row whose setups are above 0 may do without")
	errNoTime    = errors.New("is blank: give it, or both start and end")
	errNoClock   = errors.New("is blank: without a time, both start and end are needed")
)

// text is a cell whose lines end in \n, whatever system wrote it.
func (r *reader) text(c column) string { return tidied(r.cell(c)) }

// tidied is a text without blanks about it, its lines ended by \n.
func tidied(text string) string {
	text = strings.TrimSpace(text)
	if strings.IndexByte(text, '\r') >= 0 {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return text
}

// named is what a name stands for, "" where the cell is blank.
func (r *reader) named(c column) string {
	text := r.text(c)
	if text == "" {
		return ""
	}
	ours, err := r.name(c, text)
	if err != nil {
		r.bad(c, err)
	}
	return ours
}

func (r *reader) step() string {
	step := r.named(stepColumn)
	if step == "" {
		r.bad(stepColumn, errNoStep)
	}
	return step
}

// date is a cell's day, the zero time where it is blank or a problem.
func (r *reader) date() time.Time {
	text := r.cell(dateColumn)
	if text == "" {
		return time.Time{}
	}
	day, err := r.day(text)
	if err != nil {
		r.bad(dateColumn, err)
	}
	return day.Date()
}

func (r *reader) sourceOf() study.Source {
	text := r.cell(sourceColumn)
	if text == "" {
		return study.Watch
	}
	source, err := r.source(text)
	if err != nil {
		r.bad(sourceColumn, err)
	}
	return source
}
