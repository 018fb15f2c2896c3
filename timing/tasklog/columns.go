package tasklog

import (
	"slices"
	"strings"

	"headhours/timing"
)

// column is one that a log may have; columnNames holds its name.
type column int

const (
	dateColumn column = iota
	growColumn
	workflowColumn
	stepColumn
	workerColumn
	peopleColumn
	startColumn
	endColumn
	pausedColumn
	timeColumn
	countColumn
	setupsColumn
	sourceColumn
	ratingColumn
	voidColumn
	noteColumn
	journalColumn
	columns // how many there are
)

// columnNames are in the order in which Write puts them.
var columnNames = [columns]string{
	"date", "grow", "workflow", "step", "worker", "people", "start", "end", "paused",
	"time", "count", "setups", "source", "rating", "void", "note", "journal",
}

func (c column) String() string { return columnNames[c] }

// header finds the column of each name in the row in hand. Columns of other names
// are kept out of the way.
func (r *reader) header() {
	var found, spare []string // every name, and those of no column of ours
	for i := range r.at {
		r.at[i] = -1
	}
	for i, cell := range r.record {
		name := strings.TrimSpace(cell)
		if name != "" {
			found = append(found, name)
		}
		c := slices.Index(columnNames[:], strings.ToLower(name))
		switch {
		case c < 0:
			spare = append(spare, name)
		case r.at[c] >= 0:
			r.problem(r.place(i), "column %q stands twice: keep one of the two", columnNames[c])
		default:
			r.at[c] = i
		}
	}
	r.checkNeeded(found, spare)
	for _, name := range spare {
		if name != "" {
			r.unused = append(r.unused, name)
		}
	}
}

// isLog says whether the header names the columns that a log needs.
func (r *reader) isLog() bool {
	return r.at[stepColumn] >= 0 && r.at[countColumn] >= 0 && r.isTimed()
}

func (r *reader) isTimed() bool {
	return r.at[timeColumn] >= 0 || r.at[startColumn] >= 0 && r.at[endColumn] >= 0
}

func (r *reader) checkNeeded(found, spare []string) {
	understood := columnsOf(r.record) // under another name
	if len(understood[stepColumn]) == 0 {
		r.missing(`no column "step"`, `rename the heading of the steps' names to "step", or add such a column`, found, spare, stepColumn)
	}
	if len(understood[countColumn]) == 0 {
		r.missing(`no column "count"`, `rename the heading of your counts to "count", or add such a column`, found, spare, countColumn)
	}
	if !r.isTimed() && len(understood[timeColumn]) == 0 && (len(understood[startColumn]) == 0 || len(understood[endColumn]) == 0) {
		r.missing(`no column "time", nor both "start" and "end"`,
			`rename the heading of your durations to "time" (a number alone is seconds), or those of your clock times to "start" and "end"`,
			found, spare, timeColumn, startColumn, endColumn)
	}
}

// missing tells of needed columns that the header lacks, at the name that comes
// close to one of them where there is such a name, else with what to do.
func (r *reader) missing(what, do string, found, spare []string, wanted ...column) {
	what += " among " + timing.QuoteList(found, 20)
	for _, c := range wanted {
		if r.at[c] >= 0 {
			continue
		}
		if near := timing.Nearest(c.String(), spare); near != "" {
			at := slices.IndexFunc(r.record, func(cell string) bool { return strings.TrimSpace(cell) == near })
			r.problem(r.place(at), "%s: is %s meant for %q?", what, timing.Quote(near), c)
			return
		}
	}
	r.problem(r.place(0), "%s: %s", what, do)
}
