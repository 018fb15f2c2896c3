package answer

import (
	"cmp"
	"slices"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// Due is one doing of a task that a grow's workflow foresees.
type Due struct {
	Step string
	Day  int // from sowing
	// Count is of the whole doing, all grows that share it together, save where visits are
	// counted: of grows met in one round each has its own, and the round is one all the same.
	// It is unknown where the study says for how many heads neither of the grow nor of all.
	Count study.Maybe
	Fixed bool // the count is the same however many heads: nothing is counted, since it is known beforehand
}

// Due lists what a grow's workflow foresees, by day and then in the order of the
// tasks. The counts are for the heads that the grow gave or the cells that were
// sown, as far as the study notes them, else for the study's heads; a grow need
// not be in the study. The errors are those of Study.Workflow.
func (m *Models) Due(workflow, grow string) ([]Due, error) {
	w, err := m.Study.Workflow(workflow)
	if err != nil {
		return nil, err
	}
	heads, hasHeads := m.growHeads(study.Grow{}, w), m.Study.Heads > 0
	for _, g := range m.Study.Grows {
		if g.Name == grow {
			heads = m.growHeads(g, w)
			hasHeads = hasHeads || g.Heads.Value > 0 || g.Cells.Value > 0
		}
	}
	fixed := map[Due]bool{}
	for _, task := range w.Tasks {
		for _, day := range task.Days {
			fixed[Due{Step: task.Step, Day: day}] = task.Count == crop.Once
		}
	}
	var due []Due
	for _, v := range m.visits(w, heads) {
		d := Due{Step: m.Study.Steps[v.step].Name, Day: v.day}
		d.Fixed = fixed[d]
		count := v.whole.Count
		if m.Study.Steps[v.step].Per == "visit" {
			count = v.count
		}
		if hasHeads || d.Fixed {
			d.Count = study.Known(count)
		}
		due = append(due, d)
	}
	slices.SortStableFunc(due, func(a, b Due) int { return cmp.Compare(a.Day, b.Day) })
	return due, nil
}
