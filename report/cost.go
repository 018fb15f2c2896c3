package report

import (
	"fmt"

	"headhours/timing"
)

// Cost lays out what a head costs.
func Cost(c timing.Costs) Doc {
	money := "money"
	if c.Currency != nil {
		money = *c.Currency
	}
	doc := Doc{Title: fmt.Sprintf("Cost per head, %d heads a grow", c.Heads), Notes: c.Notes}
	for _, w := range c.Workflows {
		doc.Answer = append(doc.Answer, costSentence(w, c.Heads, money))
	}
	doc.Tables = []Table{costTable(c, money), costLines(c, money)}
	doc.Notes = append(doc.Notes, "the range is that of the labour alone: prices, counts and losses are taken as exact")
	return doc
}

func costSentence(w timing.GrowCost, heads int, money string) string {
	if !w.PerHead.Known {
		return fmt.Sprintf("%s: the study gives no [labour] wage, so no cost of a head; supplies and space come to %s %s a head.",
			quoted(w.Workflow), fixed((w.Supplies+w.Space)/float64(heads), 2), money)
	}
	text := fmt.Sprintf("%s: a head costs ", quoted(w.Workflow))
	if len(w.Gaps) > 0 {
		text += "at least "
	}
	text += fmt.Sprintf("%s %s", fixed(w.PerHead.Value, 2), money)
	if w.PerHeadLow.Known {
		text += fmt.Sprintf(" (somewhere between %s and %s)", fixed(w.PerHeadLow.Value, 2), fixed(w.PerHeadHigh.Value, 2))
	}
	if w.PerHead.Value > 0 {
		text += fmt.Sprintf("; %s of it is labour", share(w.LabourPerHead.Value/w.PerHead.Value))
	}
	if w.ReturnPerHour.Known {
		text += fmt.Sprintf(". An hour's work returns %s %s", fixed(w.ReturnPerHour.Value, 2), money)
	}
	if len(w.Gaps) > 0 {
		text += fmt.Sprintf(". Not counted: %s", list(w.Gaps))
	}
	return text + "."
}

func costTable(c timing.Costs, money string) Table {
	t := Table{Title: "One grow, in " + money, Columns: []Column{
		{Head: "way of working", Key: "workflow"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "chores, h", Key: "chores_h", Right: true},
		{Head: "labour", Key: "labour", Right: true},
		{Head: "supplies", Key: "supplies", Right: true},
		{Head: "space", Key: "space", Right: true},
		{Head: "total", Key: "total", Right: true},
		{Head: "a head", Key: "per_head", Right: true},
		{Head: "from", Key: "per_head_low", Right: true, Full: true},
		{Head: "to", Key: "per_head_high", Right: true, Full: true},
		{Head: "labour a head", Key: "labour_per_head", Right: true, Full: true},
		{Head: "return an hour", Key: "return_per_hour", Right: true, Full: true},
		{Head: "not counted", Key: "gaps", Full: true},
	}}
	for _, w := range c.Workflows {
		t.Rows = append(t.Rows, []Cell{
			{show(w.Workflow), w.Workflow},
			{atLeast(w.Gaps, fixed(w.Hours, 2)), w.Hours},
			{fixed(w.Chores, 2), w.Chores},
			maybe(w.Labour, 2), {fixed(w.Supplies, 2), w.Supplies}, {fixed(w.Space, 2), w.Space},
			maybe(w.Total, 2), maybe(w.PerHead, 2), maybe(w.PerHeadLow, 2), maybe(w.PerHeadHigh, 2),
			maybe(w.LabourPerHead, 2), maybe(w.ReturnPerHour, 2),
			{list(w.Gaps), w.Gaps},
		})
	}
	return t
}

func costLines(c timing.Costs, money string) Table {
	t := Table{Title: "Line by line, in " + money, Columns: []Column{
		{Head: "for", Key: "name"},
		{Head: "way of working", Key: "workflow"},
		{Head: "kind", Key: "kind"},
		{Head: "a grow", Key: "amount", Right: true},
		{Head: "a head", Key: "per_head", Right: true},
	}}
	for _, w := range c.Workflows {
		for _, line := range w.Lines {
			t.Rows = append(t.Rows, []Cell{
				{show(line.Name), line.Name}, {show(w.Workflow), w.Workflow},
				{string(line.Kind), string(line.Kind)},
				maybe(line.Amount, 2), maybe(line.PerHead, 3),
			})
		}
	}
	return t
}
