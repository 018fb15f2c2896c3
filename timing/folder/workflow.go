package folder

import (
	"math"

	"headhours/timing/crop"
	"headhours/timing/study"
	"headhours/timing/words"
)

// workflow reads a [[workflow]].
func (d *decoder) workflow(n *node) study.Workflow {
	w := study.Workflow{SeedsPerCell: 1}
	d.table(n, "[[workflow]]", keys{
		{"name", needed, newName(&w.Name, &d.names.workflows)},
		{"seeds_per_cell", optional, whole(&w.SeedsPerCell, atLeast(1))},
		{"cells_per_tray", optional, whole(&w.CellsPerTray, atLeast(1))},
		{"tasks", needed, filled(tables(&w.Tasks, "{ … }", (*decoder).task))},
		{"crop", optional, oneLine(&w.Crop)},
		{"germination", optional, ownGermination(&w.Germination)},
		{"bought", optional, yesNo(&w.Bought)},
		{"head_kg", optional, maybe(&w.HeadWeight, above(0))},
		{"cuts", optional, tables(&w.Cuts, "{ … }", (*decoder).cutting)},
		{"sale", optional, ownSale(&w.Sale)},
		{"losses", optional, tables(&w.Losses, "{ … }", (*decoder).loss)},
		{"space", optional, tables(&w.Space, "{ … }", (*decoder).spaceUse)},
	})
	if _, found := n.get("cells_per_tray"); !found {
		d.refuseTrays(n)
		if w.Name != "" {
			d.noTrays = append(d.noTrays, w.Name)
		}
	}
	d.checkPlants(n, w)
	if f, found := n.get("losses"); found && shareLeft(w.Losses) < study.MinDivisor {
		d.problem(f.value.at, "losses: together they leave as good as no plants, want a share of at least %s left", words.InFull(study.MinDivisor))
	}
	d.lookAtLosses(n, w)
	return w
}

// lookAtLosses warns of losses behind the last task: plants are raised for them that no work is left for.
func (d *decoder) lookAtLosses(n *node, w study.Workflow) {
	last := 0
	for _, t := range w.Tasks {
		for _, day := range t.Days {
			last = max(last, day)
		}
	}
	losses, found := n.get("losses")
	for i, l := range w.Losses {
		if found && l.Day > last && len(w.Tasks) > 0 {
			row := losses.value.items[min(i, len(losses.value.items)-1)]
			d.warn(row.at, "the loss of day %d comes after the last task, on day %d, and more is sown for it: is that the day that is meant?", l.Day, last)
		}
	}
}

// shareLeft is the share of plants that losses leave.
func shareLeft(losses []crop.Loss) float64 {
	return crop.Propagation{Losses: losses}.SurvivingShare(math.MaxInt)
}

// refuseTrays refuses trays as a count in a workflow that does not say how many
// cells one has.
func (d *decoder) refuseTrays(workflow *node) {
	for _, key := range []string{"tasks", "space"} {
		rows, found := workflow.get(key)
		if !found {
			continue
		}
		for _, row := range rows.value.items {
			if f, _ := row.get("count"); f.value.isText(string(crop.Trays)) {
				d.lack(f.value.at, `count: "trays" needs the workflow's cells_per_tray`)
			}
		}
	}
}

// task reads a task of a workflow.
func (d *decoder) task(n *node) study.Task {
	t := study.Task{Each: 1, SharedBy: 1}
	var day *int
	d.table(n, "a task", keys{
		{"step", needed, knownName(&t.Step, &d.names.steps, "step")},
		{"day", optional, wholeOrNil(&day, atLeast(0), atMost(lastDay))},
		{"days", optional, filled(listOf(&t.Days, dayNumber))},
		{"count", needed, count(&t.Count, `each = `)},
		{"each", optional, number(&t.Each, above(0))},
		{"shared_by", optional, whole(&t.SharedBy, atLeast(1))},
	})
	d.checkJoint(n, t)
	if day != nil {
		t.Days = []int{*day}
	}
	one, hasDay := n.get("day")
	several, hasDays := n.get("days")
	switch {
	case hasDay && hasDays:
		d.problem(max(one.at, several.at), "a task has both day and days, want one of them")
	case !hasDay && !hasDays:
		d.lack(n.at, `a task lacks the key "day" or "days"`)
	}
	return t
}

// loss reads a loss of a workflow.
func (d *decoder) loss(n *node) (l crop.Loss) {
	d.table(n, "a loss", keys{
		{"day", needed, dayNumber(&l.Day)},
		{"share", needed, number(&l.Share, atLeast(0), below(1))},
	})
	return l
}

// spaceUse reads a stretch of days of a workflow and the space its plants take.
func (d *decoder) spaceUse(n *node) study.SpaceUse {
	var s study.SpaceUse
	var from, to *int
	d.table(n, "a space row", keys{
		{"from", needed, wholeOrNil(&from, atLeast(0))},
		{"to", needed, wholeOrNil(&to, atLeast(0))},
		{"count", needed, count(&s.Count, `m2 = that of one × `)},
		{"m2", needed, number(&s.M2, above(0))},
	})
	if from == nil || to == nil {
		return s
	}
	if s.From, s.To = *from, *to; s.From >= s.To {
		f, _ := n.get("from")
		t, _ := n.get("to")
		d.want(t, "a day after from, "+f.value.text)
	}
	return s
}

// count reads a count word. A number is none; instead is the key that takes it
// beside the word once.
func count(to *crop.Word, instead string) keyReader {
	return func(d *decoder, f field) {
		switch x, isNumber := f.value.decimal(); {
		case isNumber && x > 0:
			d.want(f, `a count word: write count = "once", `+instead+f.value.text)
			return
		case isNumber:
			d.want(f, "a count word, and what is not counted at all left out")
			return
		}
		oneOf(to, crop.Words)(d, f)
	}
}

// isText says whether a value is this text; a nil one is not.
func (n *node) isText(text string) bool { return n != nil && n.kind == aText && n.text == text }
