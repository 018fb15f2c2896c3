package tasklog

import (
	"time"

	"headhours/timing/study"
)

// readingInHand is what the row in hand says. It is worth nothing where a cell of it
// is a problem.
func (r *reader) readingInHand() study.Reading {
	r.chooseCount()
	setups, _ := r.figure(setupsColumn)
	paused := r.timeIn(pausedColumn)
	start, _ := r.figure(startColumn)
	end, _ := r.figure(endColumn)
	return study.Reading{
		Place:    r.place(0),
		Date:     r.date(),
		Grow:     r.named(growColumn),
		Workflow: r.named(workflowColumn),
		Step:     r.stepNamed(),
		Worker:   r.named(workerColumn),
		People:   r.orElse(peopleColumn, blankPeople),
		Start:    start,
		End:      end,
		Paused:   paused.Value,
		Seconds:  r.basic(start, end, paused),
		Count:    r.count(setups),
		Setups:   setups,
		Source:   r.sourceOf(),
		Rating:   r.orElse(ratingColumn, blankRating),
		Void:     r.own(unguarded(r.tidyText(voidColumn))),
		Note:     r.own(unguarded(r.tidyText(noteColumn))),
		Journal:  r.own(r.tidyText(journalColumn)),
	}
}

// named is what a name stands for, "" where the cell is blank.
func (r *reader) named(c column) string {
	text := r.tidyText(c)
	if text == "" {
		return ""
	}
	ours, err := r.name(c, text)
	if err != nil {
		r.bad(c, err)
	}
	if c == growColumn { // of the others there is one copy
		ours = r.own(ours)
	}
	return ours
}

func (r *reader) stepNamed() string {
	step := r.named(stepColumn)
	if step == "" {
		r.bad(stepColumn, r.noStep())
	}
	return step
}

// date is a cell's day, the zero time where it is blank or a problem.
func (r *reader) date() time.Time {
	text := r.cell(dateColumn)
	if text == "" {
		return time.Time{}
	}
	day, err := r.days.of(text)
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
	source, err := sourceOf(text)
	if err != nil {
		r.bad(sourceColumn, err)
	}
	return source
}

// keep takes in the reading of the row in hand, if it is a good one.
func (r *reader) keep() {
	before := r.problems.Count() + r.faults
	if reading := r.readingInHand(); r.problems.Count()+r.faults == before {
		if at := r.at[timeColumn]; at >= 0 && r.units[timeColumn].name == "" {
			r.bare.see(r.cell(timeColumn), r.place(at), &reading)
		} else {
			r.bare.other = true
		}
		r.keepReading(&reading)
	}
}
