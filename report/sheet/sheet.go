// Package sheet lays out a timing sheet to write on by hand: one page of HTML
// that prints on A4 and on Letter, without a script or anything from outside.
//
// A row of it is a row of a task log, and its boxes bear the names of the log's
// columns, so that what was written is typed in as it stands. What is the same
// in all rows (grow, workflow, source) stands once above them. Rows are high
// enough for wet fingers; those left blank are for laps, for a task's further
// days and for work that no task foresees.
package sheet

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

const (
	pageRows      = 21 // that fill a page of Letter, the shorter of the two
	spareRows     = 4  // blank ones at the least, whatever the number of tasks
	interruptions = 3  // rows for them below
)

// form is what the template shows.
type form struct {
	Study, Workflow string
	Rows            []row
	Covers          bool // a row's setups say how many one covers
	Interruptions   []struct{}
}

// row is a row to write on; a blank one has nothing printed in it.
type row struct {
	Number    int
	Step, Per string
	Days      string // of the task
	Setups    string // what they are if left blank, where that is not 1
}

//go:embed sheet.html
var source string

// Write writes the sheet of a workflow: its tasks in order, a row each, then
// blank rows. Up to seventeen tasks are one page; with more the page overflows
// and the head of the table stands on each. The error is that of w.
func Write(w io.Writer, st study.Study, workflow study.Workflow) error {
	steps := map[string]study.Step{}
	for _, s := range st.Steps {
		steps[s.Name] = s
	}
	p := form{Study: st.Name, Workflow: workflow.Name, Interruptions: make([]struct{}, interruptions)}
	p.Rows = make([]row, max(pageRows, len(workflow.Tasks)+spareRows))
	for i := range p.Rows {
		p.Rows[i].Number = i + 1
		if i < len(workflow.Tasks) {
			task := workflow.Tasks[i]
			step := steps[task.Step]
			p.Rows[i] = row{i + 1, task.Step, step.Per, days(task.Days), setups(step)}
			p.Covers = p.Covers || step.SetupCovers > 0
		}
	}
	return template.Must(template.New("sheet").Parse(source)).Execute(w, p)
}

// setups are those of a step if left blank, where one covers so many.
func setups(s study.Step) string {
	if s.SetupCovers == 0 {
		return ""
	}
	return "1 for " + words.InFull(s.SetupCovers)
}

// maxDays is how many days of a task are named one by one.
const maxDays = 7

// days is the days of a task as they fit into the corner of a box.
func days(all []int) string {
	if len(all) > maxDays {
		return fmt.Sprintf("%d … %d (%d×)", all[0], all[len(all)-1], len(all))
	}
	text := make([]string, len(all))
	for i, d := range all {
		text[i] = strconv.Itoa(d)
	}
	return strings.Join(text, " ")
}
