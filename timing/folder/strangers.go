package folder

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// ourName is the study's name for one of a journal's; false of one that it lacks, which is
// noted.
func (o *opener) ourName(at study.Place, kind, name string, find func(string) (string, bool)) (ours string, ok bool) {
	if ours, ok = find(name); ok {
		return ours, true
	}
	i := slices.IndexFunc(o.strangers, func(s stranger) bool { return s.kind == kind && s.name == name })
	if i < 0 {
		i = len(o.strangers)
		o.strangers = append(o.strangers, stranger{kind, name, at, 0})
	}
	o.strangers[i].readings++
	return name, false
}

// lookAtChanges warns of changes that were marked while working and that the study does not
// tell of as made: no answer tells before from after until it does.
func (o *opener) lookAtChanges(s stopwatch.State) {
	st := o.opened.Study
	var made, maybe []string
	for _, c := range st.Made {
		made = append(made, c.Name)
	}
	for _, c := range st.Changes {
		maybe = append(maybe, c.Name)
	}
	for _, c := range s.Changes {
		if step, ok := o.opened.dialect.OurStep(c.Step); ok {
			c.Step = step
		}
		name, isMade := study.SameName(c.Name, made)
		_, isMaybe := study.SameName(c.Name, maybe)
		table, text := s.TOML(c), ""
		switch {
		case isMade:
			text = takenBefore(s, c, st.Made[slices.Index(made, name)])
		case isMaybe:
			text = fmt.Sprintf("from here on %s is done otherwise, and the study has %s as a change that may be made: add to it in study.toml %s",
				words.Quote(c.Step), words.Quote(c.Name), table[3])
		default:
			text = fmt.Sprintf("from here on %s is done otherwise, and the study does not say so: write in study.toml %s, and below it %s",
				words.Quote(c.Step), table[0], strings.Join(table[1:4], ", "))
		}
		if text != "" {
			o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: c.Place, Text: text})
		}
	}
}

// takenBefore warns of readings of the day of a change that were taken before it was marked.
func takenBefore(s stopwatch.State, marked stopwatch.MarkedChange, made study.MadeChange) string {
	n := s.TakenBefore(marked)
	if n == 0 || made.Since.Format(time.DateOnly) != marked.At.Format(time.DateOnly) {
		return ""
	}
	return fmt.Sprintf("%s of %s %s taken before %s on its day, and %s as taken after it: void %s, or write in study.toml since = %q",
		words.Many(n, "reading"), words.Quote(marked.Step), words.Agree(n, "was", "were"), words.Quote(made.Name), words.Agree(n, "counts", "count"),
		words.Agree(n, "it", "them"), made.Since.AddDate(0, 0, 1).Format(time.DateOnly))
}

// maxStrangers is of how many names every answer tells.
const maxStrangers = 5

// tellStrangers has every answer say which names of journals the study lacks: a step that
// has another name now keeps no other from being answered for.
func (o *opener) tellStrangers() {
	for i, s := range o.strangers {
		names := o.opened.dialect.Steps
		if s.kind == "workflow" {
			names = o.opened.dialect.Workflows
		}
		near := ""
		if i < study.MaxProblems { // else the advice would not be listed
			near = study.Nearest(s.name, names)
		}
		text := fmt.Sprintf("%s. If it has another name now, %s", s.sentence(), tasklog.Joins(s.kind, s.name, near))
		o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: s.at, Text: text})
		switch {
		case i < maxStrangers:
			o.opened.Cautions = append(o.opened.Cautions, text)
		case i == maxStrangers:
			o.opened.Cautions = append(o.opened.Cautions, fmt.Sprintf("journals have %d more names that the study lacks: headhours check lists them", len(o.strangers)-i))
		}
	}
}

// sentence says of how many readings a name is and what becomes of them.
func (s stranger) sentence() string {
	readings, are := words.Many(s.readings, "reading"), words.Agree(s.readings, "is", "are")
	if s.kind == "workflow" {
		return fmt.Sprintf("%s of journals %s taken as of no way: the study has no workflow %s", readings, are, words.Quote(s.name))
	}
	return fmt.Sprintf("%s of journals %s in no answer: the study has no step %s", readings, are, words.Quote(s.name))
}
