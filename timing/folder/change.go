package folder

import "headhours/timing"

// chore reads a [[chore]].
func (d *decoder) chore(n *node) timing.Chore {
	c := timing.Chore{Count: 1}
	d.table(n, "[[chore]]", keys{
		{"step", needed, knownName(&c.Step, &d.names.steps, "step")},
		{"every_days", needed, whole(&c.EveryDays, atLeast(1))},
		{"count", optional, number(&c.Count, above(0))},
	})
	return c
}

// change reads a [[change]].
func (d *decoder) change(n *node) timing.Change {
	c := timing.Change{SetupFactor: 1, UnitFactor: 1}
	d.table(n, "[[change]]", keys{
		{"name", needed, newName(&c.Name, &d.names.changes)},
		{"step", needed, knownName(&c.Step, &d.names.steps, "step")},
		{"setup_factor", optional, number(&c.SetupFactor, atLeast(0))},
		{"unit_factor", optional, number(&c.UnitFactor, atLeast(0))},
		{"visits_factor", optional, maybe(&c.VisitsFactor, atLeast(0))},
		{"count_factor", optional, maybe(&c.CountFactor, atLeast(0))},
		{"drop", optional, yesNo(&c.Drop)},
		{"outlay", optional, maybe(&c.Outlay, atLeast(0))},
	})
	d.checkChange(n, c)
	return c
}

// checkChange refuses a change that drops a step and changes it too, and one
// that does neither.
func (d *decoder) checkChange(n *node, c timing.Change) {
	drop, hasDrop := n.get("drop")
	at, factors := drop.at, false
	for _, key := range []string{"setup_factor", "unit_factor", "visits_factor", "count_factor"} {
		if f, found := n.get(key); found {
			at, factors = max(at, f.at), true
		}
	}
	switch {
	case c.Drop && factors:
		d.problem(at, "drop = true removes the step and a factor changes it, want one of them")
	case !c.Drop && !factors && (!hasDrop || drop.value.kind == aBool):
		d.lack(n.at, "[[change]] changes nothing, want setup_factor, unit_factor, visits_factor, count_factor or drop = true")
	}
}
