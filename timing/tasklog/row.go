package tasklog

import (
	"strings"

	"headhours/timing/study"
)

// reading is what the row in hand says. It is worth nothing where a cell of it
// is a problem.
func (r *reader) reading() study.Reading {
	r.chooseCount()
	setups := r.number(setupsColumn)
	paused := r.time(pausedColumn)
	start, end := r.clock(startColumn), r.clock(endColumn)
	return study.Reading{
		Place:    r.place(0),
		Date:     r.date(),
		Grow:     r.name(growColumn),
		Workflow: r.known(workflowColumn),
		Step:     r.step(),
		Worker:   r.known(workerColumn),
		People:   r.above0(peopleColumn, 1),
		Start:    start,
		End:      end,
		Paused:   paused.Value,
		Seconds:  r.seconds(start, end, paused),
		Count:    r.count(setups),
		Setups:   setups,
		Source:   r.source(),
		Rating:   r.above0(ratingColumn, 100),
		Void:     r.own(r.text(voidColumn)),
		Note:     r.own(r.text(noteColumn)),
		Journal:  r.own(r.text(journalColumn)),
	}
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
// the name of its column and the text found there.
func (r *reader) bad(c column, what string) {
	if len(r.problems) > study.MaxProblems {
		r.problem(study.Place{}, "") // is but counted
		return
	}
	found := c.String()
	if text := r.cell(c); text != "" {
		found += " " + study.Quote(text)
	}
	r.problem(r.place(r.at[c]), "%s %s", found, what)
}

// text is a cell with the line ends of the system that reads, not of the one
// that wrote.
func (r *reader) text(c column) string {
	text := r.cell(c)
	if strings.IndexByte(text, '\r') >= 0 {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return text
}

// name is a text that recurs from row to row, kept in one copy.
func (r *reader) name(c column) string {
	text := r.text(c)
	name, ok := r.texts[text]
	if !ok {
		name = r.own(text)
		r.texts[name] = name
	}
	return name
}

// known is a name that must be one of those a log may use, or blank.
func (r *reader) known(c column) string {
	name := r.name(c)
	ours, ok := r.ours(c, name)
	if !ok {
		known := r.form.Steps
		if c == workflowColumn {
			known = r.form.Workflows
		}
		what, do := unknownName(c, name, known)
		r.often(c, name, what, do)
	}
	return ours
}

// ours is what a name in a column stands for; false where it is unknown.
func (r *reader) ours(c column, name string) (ours string, ok bool) {
	switch c {
	case stepColumn:
		return r.form.Step(name)
	case workflowColumn:
		return r.form.Workflow(name)
	case workerColumn:
		return r.form.Worker(name), true
	}
	return name, true
}

func (r *reader) step() string {
	step := r.known(stepColumn)
	if step == "" {
		r.bad(stepColumn, "is blank: name the step that was timed")
	}
	return step
}

func (r *reader) source() study.Source {
	text := r.cell(sourceColumn)
	if text == "" {
		return study.Watch
	}
	for _, source := range study.Sources {
		if strings.EqualFold(text, string(source)) {
			return source
		}
	}
	r.bad(sourceColumn, "is not a source: watch, film or judged")
	return ""
}
