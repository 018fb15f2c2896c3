package tasklog

import (
	"slices"
	"strings"
	"time"

	"headhours/timing/notation"
	"headhours/timing/study"
)

// Dialect is what a study says of its logs: the names that they may use, and how they are
// written where their headings do not say it. The zero Dialect lets any name pass.
type Dialect struct {
	Steps, Workflows []string          // nil lets any name pass
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

// Step is the step that a log's or journal's name stands for; false where it is unknown,
// and then it is the name itself.
func (f *Dialect) Step(name string) (ours string, ok bool) {
	return meant(name, f.Steps, f.StepNames)
}

// Workflow is for a way of working what Step is for a step.
func (f *Dialect) Workflow(name string) (ours string, ok bool) {
	return meant(name, f.Workflows, f.WorkflowNames)
}

// Worker is who a log's or journal's name stands for.
func (f *Dialect) Worker(name string) string {
	ours, _ := meant(name, nil, f.WorkerNames)
	return ours
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

// fields are those of a row of headings that the dialect takes for a column, and whether it
// says anything of that.
func (f *Dialect) fields(c column, cells []string) (fields []int, isSaid bool) {
	headings, isSaid := f.Columns[columnNames[c]]
	for _, theirs := range headings {
		fields = append(fields, headed(theirs, cells)...)
	}
	return fields, isSaid
}

// Has says whether a heading that a dialect names is among those of a log.
func Has(headings []string, theirs string) bool { return len(headed(theirs, headings)) > 0 }

// headed are the fields of a heading that the dialect names, as it stands or without its unit.
func headed(theirs string, cells []string) (fields []int) {
	known := []string{theirs}
	for i, cell := range cells {
		if _, same := study.SameName(strings.TrimSpace(cell), known); same {
			fields = append(fields, i)
		}
	}
	for i, cell := range cells {
		if _, same := study.SameName(foldHeading(cell).name, known); same && len(fields) == 0 {
			fields = append(fields, i)
		}
	}
	return fields
}

// day reads a date in any of the forms that are understood.
func (f *Dialect) day(text string) (time.Time, bool) {
	if day, ok := notation.Date(text); ok {
		return day, true
	}
	return f.Dates.Order.Day(text)
}
