package folder

import (
	"slices"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// cut reads a cut of a workflow.
func (d *decoder) cutting(n *node) (c study.Cut) {
	d.table(n, "a cut", keys{
		{"day", needed, dayNumber(&c.Day)},
		{"kg", needed, number(&c.Kg, above(0))},
	})
	return c
}

// ownGermination reads the germination of a workflow.
func ownGermination(to **crop.Germination) keyReader {
	return func(d *decoder, f field) {
		g := crop.Germination{Share: 1}
		germination(&g)(d, f)
		*to = &g
	}
}

// checkPlants refuses what cannot be of one workflow: bought plants that are sown, two
// ways of telling a weight, and cuts on days without a task.
func (d *decoder) checkPlants(n *node, w study.Workflow) {
	for _, key := range []string{"seeds_per_cell", "germination"} {
		if f, found := n.get(key); found && w.Bought {
			d.problem(f.at, "%s beside bought = true, want one of them: plants that are bought are not sown", key)
		}
	}
	cuts, hasCuts := n.get("cuts")
	weight, hasWeight := n.get("head_kg")
	if hasCuts && hasWeight {
		d.problem(max(cuts.at, weight.at), "a workflow has both cuts and head_kg, want one of them: cuts tell the weight")
	}
	for i, c := range w.Cuts {
		row := cuts.value.items[min(i, len(cuts.value.items)-1)]
		day, found := row.get("day")
		on := slices.ContainsFunc(w.Tasks, func(t study.Task) bool { return slices.Contains(t.Days, c.Day) })
		if found && !on && day.value.kind == aWhole {
			d.lack(day.value.at, "day: no task of the workflow is on day %d, want the day of the task that cuts, or a task on that day", c.Day)
		}
	}
}

// checkJoint refuses shared_by on a task of a joint step: its doings are shared as they
// fall.
func (d *decoder) checkJoint(n *node, t study.Task) {
	f, found := n.get("shared_by")
	joint := slices.ContainsFunc(d.study.Steps, func(s study.Step) bool { return s.Name == t.Step && s.Together })
	if found && joint {
		d.problem(f.at, "shared_by on a task of a step with together = true, want it left out: what falls on one day is shared already")
	}
}
