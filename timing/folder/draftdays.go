package folder

import (
	"maps"
	"slices"

	"headhours/timing/condense"
)

// Bounds of the days of a task.
const (
	maxDays     = 12   // that are told
	maxDaysHeld = 1000 // that are kept in mind
)

// workflowDays is what is met of a way.
type workflowDays struct {
	steps     []string
	tasks     map[string]*taskDays
	firstDays map[string]condense.Day // by grow
}

// taskDays is the days of a step in the first grow that it is met in.
type taskDays struct {
	grow string
	days map[condense.Day]bool
}

func newWorkflowDays() *workflowDays {
	return &workflowDays{tasks: map[string]*taskDays{}, firstDays: map[string]condense.Day{}}
}

func (w *workflowDays) take(step, grow string, day condense.Day) {
	task := w.tasks[step]
	if task == nil {
		task = &taskDays{grow, map[condense.Day]bool{}}
		w.steps, w.tasks[step] = append(w.steps, step), task
	}
	if day == condense.NoDay {
		return
	}
	if first, ok := w.firstDays[grow]; !ok || day < first {
		w.firstDays[grow] = day
	}
	if task.grow == grow && len(task.days) < maxDaysHeld {
		task.days[day] = true
	}
}

// unnamedGrows is of how many grows the readings that name none seem to be, and by which
// step. A grow begins once: of the steps done on the first day the one that was done again
// least often says on how many days one began. 0 where there is no such reading that is dated.
func (w *workflowDays) unnamedGrows() (grows int, step string) {
	first, ok := w.firstDays[""]
	if !ok {
		return 0, ""
	}
	for _, name := range w.steps {
		task := w.tasks[name]
		if task.grow == "" && task.days[first] && (grows == 0 || len(task.days) < grows) {
			grows, step = len(task.days), name
		}
	}
	return grows, step
}

// grows is of how many grows the readings of a way seem to be.
func (w *workflowDays) grows() int {
	unnamed, _ := w.unnamedGrows()
	named := len(w.firstDays)
	if unnamed > 0 {
		named--
	}
	return max(1, named+unnamed)
}

// drafts are the tasks of a way whose readings that name no grow are of so many. One grow's
// days of a task are as many as fall to each of them, the first there are: what was done
// once a grow is done once, where all days of all grows would have it done for each of them.
// They are told from a grow's first.
func (w *workflowDays) drafts(grows int, first func(grow string) condense.Day) []DraftTask {
	var tasks []DraftTask
	for _, step := range w.steps {
		task := w.tasks[step]
		days := slices.Sorted(maps.Keys(task.days))
		if task.grow == "" && grows > 1 {
			days = days[:(len(days)+grows-1)/grows]
		}
		draft := DraftTask{Step: step}
		for _, day := range days[:min(len(days), maxDays)] {
			draft.Days = append(draft.Days, int(day-first(task.grow)))
		}
		tasks = append(tasks, draft)
	}
	return tasks
}

// drafts are the ways that were met. What was done in none of them by name was done in all.
func (g *draftGathering) drafts() []DraftWorkflow {
	var workflows []DraftWorkflow
	shared, inAll := g.workflows[""], 0
	for _, name := range g.order {
		if name != "" {
			inAll += g.workflows[name].grows()
		}
	}
	for _, name := range g.order {
		if name == "" && len(g.order) > 1 {
			continue
		}
		w := g.workflows[name]
		grows, begins := w.unnamedGrows()
		tasks := w.drafts(grows, func(grow string) condense.Day {
			if grow == "" {
				return w.firstDays[""]
			}
			return g.firstDay(grow)
		})
		if shared != nil && name != "" {
			for _, task := range shared.drafts(inAll, g.firstDay) {
				if _, own := w.tasks[task.Step]; !own {
					tasks = append(tasks, task)
				}
			}
		}
		slices.SortStableFunc(tasks, func(a, b DraftTask) int { return a.first() - b.first() })
		workflows = append(workflows, DraftWorkflow{name, tasks, grows, begins})
	}
	return workflows
}

// firstDay is the first day of a grow in whatever way, or of all that name none.
func (g *draftGathering) firstDay(grow string) condense.Day {
	first, ok := condense.NoDay, false
	for _, w := range g.workflows {
		if day, dated := w.firstDays[grow]; dated && (!ok || day < first) {
			first, ok = day, true
		}
	}
	return first
}
