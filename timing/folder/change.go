package folder

import (
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// chore reads a [[chore]].
func (d *decoder) chore(n *node) study.Chore {
	c := study.Chore{Count: 1}
	d.table(n, "[[chore]]", keys{
		{"step", needed, knownName(&c.Step, &d.names.steps, "step")},
		{"every_days", needed, whole(&c.EveryDays, atLeast(1))},
		{"count", optional, number(&c.Count, above(0))},
	})
	return c
}

// changes reads the [[change]] tables: what-ifs, and those that were made.
func (d *decoder) changes(f field) {
	var all []study.MadeChange
	tables(&all, "[[change]]", (*decoder).change)(d, f)
	if all == nil {
		return
	}
	d.study.Changes = []study.Change{}
	days := map[string]string{} // a change of a step's day
	for i, c := range all {
		if c.Since.IsZero() {
			d.study.Changes = append(d.study.Changes, c.Change)
			continue
		}
		key := c.Step + c.Since.Format(" 2006-01-02")
		if other, ok := days[key]; ok && c.Step != "" {
			d.problem(f.value.items[i].at, "[[change]] %s: %s changed %s on the same day: give them different days, or make them one", words.Quote(c.Name), words.Quote(other), words.Quote(c.Step))
		}
		days[key] = c.Name
		for _, other := range all {
			if other.Step == c.Step && other.Drop && !other.Since.IsZero() && other.Since.Before(c.Since) {
				d.problem(f.value.items[i].at, "[[change]] %s: %s is not done any more since %s", words.Quote(c.Name), words.Quote(c.Step), other.Since.Format(time.DateOnly))
			}
		}
		d.study.Made = append(d.study.Made, c)
	}
}

// change reads a [[change]].
func (d *decoder) change(n *node) study.MadeChange {
	c := study.MadeChange{Change: study.Change{SetupFactor: 1, UnitFactor: 1}}
	d.table(n, "[[change]]", keys{
		{"name", needed, newName(&c.Name, &d.names.changes)},
		{"step", needed, knownName(&c.Step, &d.names.steps, "step")},
		{"setup_factor", optional, number(&c.SetupFactor, atLeast(0))},
		{"unit_factor", optional, number(&c.UnitFactor, atLeast(0))},
		{"visits_factor", optional, maybe(&c.VisitsFactor, atLeast(0))},
		{"count_factor", optional, maybe(&c.CountFactor, atLeast(0))},
		{"drop", optional, yesNo(&c.Drop)},
		{"outlay", optional, maybe(&c.Outlay, atLeast(0))},
		{"since", optional, date(&c.Since)},
	})
	d.checkChange(n, &c)
	return c
}

// checkChange refuses a change that drops a step and changes it too, and one
// that does neither.
func (d *decoder) checkChange(n *node, c *study.MadeChange) {
	drop, hasDrop := n.get("drop")
	at, factors := drop.at, false
	for _, key := range []string{"setup_factor", "unit_factor", "visits_factor", "count_factor"} {
		if f, found := n.get(key); found {
			at, factors = max(at, f.at), true
		}
	}
	_, isMade := n.get("since")
	c.HasHoped = factors
	switch {
	case c.Drop && factors:
		d.problem(at, "drop = true removes the step and a factor changes it, want one of them")
	case !isMade && !c.Drop && !factors && (!hasDrop || drop.value.kind == aBool):
		d.lack(n.at, "[[change]] changes nothing, want setup_factor, unit_factor, visits_factor, count_factor or drop = true")
	}
}
