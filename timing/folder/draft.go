package folder

import (
	"slices"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// Draft is what logs say of the study that they could be the start of.
type Draft struct {
	Readings  int // voided ones too
	Steps     []DraftStep
	Workflows []DraftWorkflow
	Workers   []string
	Dates     string   // the form of dates in [log] that the logs show; "" where none is needed
	Cautions  []string // of times that look like minutes
	Unread    []UnreadHeading
	Undated   bool // no reading has a date
}

// DraftStep is a step that logs name, in order of first appearance.
type DraftStep struct {
	Name    string
	Per     string // what its count counts, as the heading of the counts says; "" where it does not
	Heading string // that
	Total   bool   // it may be no step, but a row of totals
}

// DraftWorkflow is a way of working: "" where logs name none.
type DraftWorkflow struct {
	Name  string
	Tasks []DraftTask // by day, then in order of first appearance
	// Grows is how many grows its readings that name none are taken for, since Begins, which
	// is done first, was done on so many days; 0 where nothing of it is so.
	Grows  int
	Begins string
}

// DraftTask is a step of a way, and on which days of a grow it was done; none where it was
// not dated.
type DraftTask struct {
	Step string
	Days []int // from the first that is dated, in order
}

// UnreadHeading is a heading that is not read and looks like a column of ours, or like none.
type UnreadHeading struct{ Heading, Column string }

// DraftFrom reads logs without a study. The error is that of Open.
func DraftFrom(dir string, logs []string) (Draft, error) {
	o, err := Open(dir, logs, How{})
	if err != nil {
		return Draft{}, err
	}
	g := draftGathering{workflows: map[string]*workflowDays{}}
	for _, l := range o.logs {
		if err := o.scanAgain(l, nil, func(b *condense.Batch) error { g.take(b, l.counted); return nil }, new(counting)); err != nil {
			return Draft{}, err
		}
	}
	d := Draft{Steps: g.steps, Workers: g.workers, Cautions: o.minutes, Undated: !g.dated}
	for _, f := range o.Files {
		d.Readings += f.Readings
		for _, heading := range f.Unused {
			d.Unread = append(d.Unread, UnreadHeading{heading, tasklog.LooksLike(heading)})
		}
	}
	d.Dates = onlyPattern(o.orders)
	d.Workflows = g.drafts()
	return d, nil
}

// onlyPattern is the form of dates that logs show, "" where they show several: each then shows
// its own.
func onlyPattern(orders map[string]tasklog.DateOrder) string {
	only := ""
	for _, order := range orders {
		pattern := order.Order.Pattern()
		if only != "" && pattern != only {
			return ""
		}
		only = pattern
	}
	return only
}

// inOneLine is a name as a study can have it: where a spreadsheet has it in several lines they are one.
func inOneLine(name string) string { return strings.Join(strings.Fields(name), " ") }

// draftGathering takes in which steps are done in which ways, and when.
type draftGathering struct {
	steps     []DraftStep
	workers   []string
	order     []string // of ways
	workflows map[string]*workflowDays
	dated     bool // a reading is
}

// take takes in a batch of a log whose counts have a heading.
func (g *draftGathering) take(b *condense.Batch, heading string) {
	for i := range b.Rows.Len() {
		row := b.Rows.At(i)
		step := g.step(b.Name(row, condense.StepNames), heading)
		if worker := inOneLine(b.Name(row, condense.WorkerNames)); worker != "" && !slices.Contains(g.workers, worker) && len(g.workers) < maxWorkers {
			g.workers = append(g.workers, worker)
		}
		g.dated = g.dated || row.Day != condense.NoDay
		g.workflow(b.Name(row, condense.WorkflowNames)).take(step, b.Name(row, condense.GrowNames), row.Day)
	}
}

// maxWorkers is how many workers are told.
const maxWorkers = 100

// step is the first spelling of a step's name.
func (g *draftGathering) step(name, heading string) string {
	at := slices.IndexFunc(g.steps, func(s DraftStep) bool { return s.Name == name })
	if at < 0 {
		at = slices.IndexFunc(g.steps, func(s DraftStep) bool { return isSame(s.Name, name) })
	}
	if at < 0 {
		at = len(g.steps)
		per, ok := tasklog.CountedBy(heading)
		if !ok {
			heading = ""
		}
		g.steps = append(g.steps, DraftStep{inOneLine(name), inOneLine(per), heading, tasklog.IsTotal(name)})
	}
	return g.steps[at].Name
}

func isSame(a, b string) bool {
	_, same := study.SameName(a, []string{b})
	return same
}

func (g *draftGathering) workflow(name string) *workflowDays {
	if w, ok := g.workflows[name]; ok {
		return w
	}
	for _, other := range g.order {
		if isSame(other, name) {
			g.workflows[name] = g.workflows[other]
			return g.workflows[other]
		}
	}
	w := newWorkflowDays()
	g.order, g.workflows[name] = append(g.order, inOneLine(name)), w
	g.workflows[inOneLine(name)] = w
	return w
}

// first is the first day of a task; one without comes last.
func (t DraftTask) first() int {
	if len(t.Days) == 0 {
		return 1 << 30
	}
	return t.Days[0]
}

// Count is the number in a grow that a task's count most likely is, "" where nothing tells.
func (s DraftStep) Count() string {
	counts := map[string]string{
		"seed": "seeds", "cell": "cells", "tray": "trays", "plant": "plants", "seedling": "plants", "head": "heads",
		"visit": "once", "container": "cells", "pot": "cells", "plug": "cells",
	}
	return counts[strings.ToLower(s.Per)]
}
