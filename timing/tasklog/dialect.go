package tasklog

import (
	"slices"
	"time"

	"headhours/timing/notation"
	"headhours/timing/study"
)

// Dialect is what a study says of its logs: the names that they may use, and how they are
// written where their headings do not say it. The zero Dialect lets any name pass.
type Dialect struct {
	Steps, Workflows []string          // nil lets any name pass
	Grows            *study.Names      // those of the study, nil where it has none; logs may name others
	Per              map[string]string // what the count of each step counts
	Times            string            // what a bare number is where no heading says it: seconds, minutes or hours; "" is seconds
	Dates            DateOrder         // of dates with strokes or hyphens, the year last
	Called           string            // what the batches of Scan call the log; "" leaves its path
	Columns          map[string][]string
	// Columns has the headings that stand for ours, by our name; of several that are
	// filled in a row the count is that named like the step's per. None at all reads no
	// column as this.

	StepNames, WorkflowNames, WorkerNames map[string]string // ours, by the logs' own
}

// ColumnNames are those that a log may have, in the order in which Write puts them.
func ColumnNames() []string { return slices.Clone(columnNames[:]) }

// OurStep is the step that a log's or journal's name stands for; false where it is unknown,
// and then it is the name itself.
func (f *Dialect) OurStep(name string) (ours string, ok bool) {
	return meant(name, f.Steps, f.StepNames)
}

// OurWorkflow is for a way of working what Step is for a step.
func (f *Dialect) OurWorkflow(name string) (ours string, ok bool) {
	return meant(name, f.Workflows, f.WorkflowNames)
}

// OurWorker is who a log's or journal's name stands for.
func (f *Dialect) OurWorker(name string) string {
	ours, _ := meant(name, nil, f.WorkerNames)
	return ours
}

// OurGrow is the study's grow that a log's or journal's name stands for, else the name itself.
func (f *Dialect) OurGrow(name string) string {
	if ours, ok := f.Grows.Same(name); ok {
		return ours
	}
	return name
}

// meant is what a name stands for: renamed before known, exact before folded.
func meant(name string, known []string, renamed map[string]string) (ours string, ok bool) {
	if ours, ok := renamed[name]; ok {
		return ours, true
	}
	if name == "" || slices.Contains(known, name) {
		return name, true
	}
	if same, ok := study.SameName(name, known); ok {
		return same, true
	}
	if len(renamed) > 0 {
		theirs := make([]string, 0, len(renamed))
		for other := range renamed {
			theirs = append(theirs, other)
		}
		if same, ok := study.SameName(name, theirs); ok {
			return renamed[same], true
		}
	}
	return name, known == nil
}

// day reads a date in any of the forms that are understood.
func (f *Dialect) day(text string) (time.Time, bool) {
	if day, ok := notation.Date(text); ok {
		return day, true
	}
	return f.Dates.Order.Day(text)
}
