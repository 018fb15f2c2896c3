package folder

import (
	"fmt"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// decoder turns the tree of a study file into a study.
type decoder struct {
	source   source
	cut      bool // a fault ends the file early: what is missing may stand below
	study    study.Study
	problems study.Problems
	warnings study.Problems
	names    struct{ steps, workflows, grows, supplies, overheads, changes names }
	log      logTable
	// startUnread says that the season's first day is there and cannot be read: dates are
	// not held against it.
	startUnread bool
	noTrays     []string // workflows that do not say how many cells a tray has
}

// names are those that the tables of one kind have, and where.
type names struct {
	all []string
	at  map[string]int // offset
	// first is the first of those that are the same but for case and blanks.
	first map[string]string
}

// list is the names in order of the file; empty, not nil, where there are none.
func (n names) list() []string { return append([]string{}, n.all...) }

// logTable is what [log] says of the logs of a study.
type logTable struct {
	dialect  tasklog.Dialect
	headings []heading
}

// heading is a heading of logs that the study file names, and where.
type heading struct {
	name string
	at   study.Place
}

func (d *decoder) problem(at int, format string, args ...any) {
	d.problems = d.problems.And(study.Problem{Place: d.source.place(at), Text: fmt.Sprintf(format, args...)})
}

func (d *decoder) warn(at int, format string, args ...any) {
	d.warnings = d.warnings.And(study.Problem{Place: d.source.place(at), Text: fmt.Sprintf(format, args...)})
}

// lack is a problem of something that is not there; where the file is cut short
// it may stand below.
func (d *decoder) lack(at int, format string, args ...any) {
	if !d.cut {
		d.problem(at, format, args...)
	}
}

// want says that a value is not what its key wants.
func (d *decoder) want(f field, what string) {
	d.problem(f.value.at, "%s: found %s, want %s", f.name, f.value.describe(), what)
}
