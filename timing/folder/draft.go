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
	Dates     string // the form of dates in [log] that the logs show; "" where none is needed
	Cautions  []string
	Unread    []UnreadHeading
}

// DraftStep is a step that logs name, in order of first appearance.
type DraftStep struct {
	Name    string
	Per     string // what its count counts, as the heading of the counts says; "" where it does not
	Heading string // that
}

// DraftWorkflow is a way of working: "" where logs name none.
type DraftWorkflow struct {
	Name  string
	Tasks []DraftTask // by day, then in order of first appearance
}

// DraftTask is a step of a way, and on which days of a grow it was done; none where it was
// not dated.
type DraftTask struct {
	Step string
	Days []int // from the first that is dated, in order
}

// UnreadHeading is a heading that is not read and looks like a column of ours, or like none.
type UnreadHeading struct{ Heading, Column string }

// maxDays is how many days of a task are told.
const maxDays = 12

// DraftFrom reads logs without a study. The error is that of Open.
func DraftFrom(dir string, logs []string) (Draft, error) {
	o, err := Open(dir, logs, How{})
	if err != nil {
		return Draft{}, err
	}
	g := draftGathering{workflows: map[string]*workflowDays{}}
	for _, l := range o.logs {
		if err := o.scanAgain(l, func(b *condense.Batch) error { g.take(b, l.counted); return nil }, &counting{nil, new(int64), 0, nil}); err != nil {
			return Draft{}, err
		}
	}
	d := Draft{Steps: g.steps, Workers: g.workers, Cautions: o.Cautions}
	for _, f := range o.Files {
		d.Readings += f.Readings
		for _, heading := range f.Unused {
			d.Unread = append(d.Unread, UnreadHeading{heading, tasklog.LooksLike(heading)})
		}
	}
	for _, order := range o.orders {
		d.Dates = order.Order.Pattern()
	}
	d.Workflows = g.drafts()
	return d, nil
}

// draftGathering takes in which steps are done in which ways, and when.
type draftGathering struct {
	steps     []DraftStep
	workers   []string
	order     []string // of ways
	workflows map[string]*workflowDays
}

// workflowDays is what is met of a way.
type workflowDays struct {
	steps     []string
	tasks     map[string]*taskDays
	firstDays map[string]condense.Day // by grow
}

// taskDays is the days of a step in the first grow that it is met in.
type taskDays struct {
	grow string
	days []condense.Day
}

// take takes in a batch of a log whose counts have a heading.
func (g *draftGathering) take(b *condense.Batch, heading string) {
	for i := range b.Rows {
		row := &b.Rows[i]
		step := g.step(b.Name(row, condense.StepNames), heading)
		if worker := b.Name(row, condense.WorkerNames); worker != "" && !slices.Contains(g.workers, worker) && len(g.workers) < maxWorkers {
			g.workers = append(g.workers, worker)
		}
		g.workflow(b.Name(row, condense.WorkflowNames)).take(step, b.Name(row, condense.GrowNames), b.Where[row.Where].Day)
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
		g.steps = append(g.steps, DraftStep{name, per, heading})
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
	w := &workflowDays{tasks: map[string]*taskDays{}, firstDays: map[string]condense.Day{}}
	g.order, g.workflows[name] = append(g.order, name), w
	return w
}

func (w *workflowDays) take(step, grow string, day condense.Day) {
	task := w.tasks[step]
	if task == nil {
		task = &taskDays{grow: grow}
		w.steps, w.tasks[step] = append(w.steps, step), task
	}
	if day == condense.NoDay {
		return
	}
	if first, ok := w.firstDays[grow]; !ok || day < first {
		w.firstDays[grow] = day
	}
	if task.grow == grow && len(task.days) < maxDays && !slices.Contains(task.days, day) {
		task.days = append(task.days, day)
	}
}

// drafts are the ways that were met. What was done in none of them by name was done in all.
func (g *draftGathering) drafts() []DraftWorkflow {
	var workflows []DraftWorkflow
	for _, name := range g.order {
		if name == "" && len(g.order) > 1 {
			continue
		}
		tasks := g.workflows[name].drafts()
		if shared := g.workflows[""]; shared != nil && name != "" {
			for _, task := range shared.drafts() {
				if _, own := g.workflows[name].tasks[task.Step]; !own {
					tasks = append(tasks, task)
				}
			}
		}
		slices.SortStableFunc(tasks, func(a, b DraftTask) int { return a.first() - b.first() })
		workflows = append(workflows, DraftWorkflow{name, tasks})
	}
	return workflows
}

func (w *workflowDays) drafts() []DraftTask {
	var tasks []DraftTask
	for _, step := range w.steps {
		ok := w.tasks[step]
		task := DraftTask{Step: step}
		for _, day := range ok.days {
			task.Days = append(task.Days, int(day-w.firstDays[ok.grow]))
		}
		slices.Sort(task.Days)
		tasks = append(tasks, task)
	}
	return tasks
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
