package report

import (
	"fmt"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Cost lays out what a head costs.
func Cost(c answer.Costs) Doc {
	money := "money"
	if c.Currency != nil {
		money = words.Show(*c.Currency)
	}
	doc := Doc{Title: fmt.Sprintf("Cost per head, %s a grow", words.Many(c.Heads, "head")), Notes: slices.Clone(c.Notes)}
	for _, rank := range c.Ranks {
		doc.say("lead", cheapestSentence(rank, money, len(c.Ranks) > 1))
	}
	for _, w := range c.Workflows {
		doc.say("costs", costSentence(w, c.Heads, money))
	}
	doc.show("costs", costTable(c, money))
	if sellsMore(c) {
		doc.show("sold", aUnitTable(c, money))
	}
	doc.show("lines", costLines(c, money))
	if c.PerHour.Known {
		doc.Notes = append(doc.Notes, fmt.Sprintf("an hour of work is taken to cost %s %s, on-costs included", words.Fixed(c.PerHour.Value, 2), money))
	}
	doc.Notes = append(doc.Notes, unpricedNotes(c)...)
	doc.Notes = append(doc.Notes, "the range is that of the labour alone: prices, counts and losses are taken as exact")
	return doc
}

// cheapestSentence names the cheapest way of a crop and by how much it is, or those that
// are not clearly dearer.
func cheapestSentence(r answer.CostRank, money string, several bool) string {
	of, one := "", "a head"
	if several && r.Crop != "" {
		of = " of " + words.Quoted(r.Crop)
	}
	if r.Unlike {
		return fmt.Sprintf("Which way%s is cheapest is not told: they sell by different units, and the weight is not known of all.", of)
	}
	if !r.By.ByHead {
		one = aUnit(r.By.Unit)
		of = " for " + one + of
	}
	var tied []answer.CostMore
	next := r.Dearer[0]
	for _, d := range r.Dearer {
		if !d.Low.Known || d.Low.Value <= 0 || len(d.Gaps) > 0 {
			tied = append(tied, d)
		}
		if d.More < next.More {
			next = d
		}
	}
	if len(tied) == 0 {
		return fmt.Sprintf("Cheapest%s: %s, by %s %s %s%s against %s.", of, words.Quoted(r.Cheapest), words.Fixed(next.More, visible(2, study.Known(next.More))), money, one,
			somewhere(next.Low, next.High), words.Quoted(next.Workflow))
	}
	names := []string{words.Quoted(r.Cheapest)}
	for _, d := range tied {
		names = append(names, words.Quoted(d.Workflow))
	}
	var gaps []string
	for _, d := range tied {
		gaps = union(gaps, d.Gaps)
	}
	if len(gaps) > 0 {
		return fmt.Sprintf("Cheapest%s: %s; which cannot be told, since %s and not all need as much of %s.",
			of, words.Or(names), neverTimed(gaps), words.Agree(len(gaps), "it", "them"))
	}
	text := fmt.Sprintf("Cheapest%s: %s; no clear difference between them", of, words.Or(names))
	if d := tied[0]; len(tied) == 1 && d.Low.Known && d.Low.Value < d.High.Value {
		digits := visible(2, d.Low, d.High)
		text += fmt.Sprintf(": %s of %s may cost up to %s %s less or up to %s more", one, names[1], words.Fixed(-d.Low.Value, digits), money, words.Fixed(d.High.Value, digits))
	}
	return text + "."
}

func costSentence(w answer.GrowCost, heads int, money string) string {
	if !w.PerHead.Known && w.Supplies+w.Space == 0 && !hasLine(w, answer.SupplyLine) && !hasLine(w, answer.SpaceLine) {
		text := words.Quoted(w.Workflow) + ": the study gives no wage and no prices, so nothing of a head is priced"
		if what := harvestWords(w.Gives, 1); what != "" {
			text += "; a grow gives " + what
		}
		return text + "."
	}
	if !w.PerHead.Known {
		bought := study.Known((w.Supplies + w.Space) / float64(heads))
		text := fmt.Sprintf("%s: the study gives no wage, so no cost of a head; supplies and space come to %s %s a head",
			words.Quoted(w.Workflow), words.Fixed(bought.Value, enough(2, bought)), money)
		if what := harvestWords(w.Gives, 1); what != "" {
			text += ", a grow giving " + what
		}
		return text + "."
	}
	if untimed(w) && w.PerHead.Value == 0 {
		return fmt.Sprintf("%s: what a head costs cannot be told, since nothing that it needs was timed or judged yet.", words.Quoted(w.Workflow))
	}
	d := enough(2, w.PerHead, w.PerHeadLow, w.PerHeadHigh)
	text := fmt.Sprintf("%s: a head costs ", words.Quoted(w.Workflow))
	if len(w.Gaps) > 0 {
		text += "at least "
	}
	text += fmt.Sprintf("%s %s", words.Fixed(w.PerHead.Value, d), money)
	if w.PerHeadLow.Known && !untimed(w) {
		text += fmt.Sprintf(" (somewhere between %s and %s)", words.Fixed(w.PerHeadLow.Value, d), words.Fixed(w.PerHeadHigh.Value, d))
	}
	if w.PerHead.Value > 0 {
		text += fmt.Sprintf("; %s of it is labour", words.Share(w.LabourPerHead.Value/w.PerHead.Value))
	}
	text += unitCost(w, money)
	if w.LeftPerHead.Known {
		bound := ""
		if len(w.Gaps) > 0 {
			bound = "at most "
		}
		d := enough(2, w.SoldPerHead, w.LeftPerHead)
		sells := "Sold for %s, it"
		if !w.Gives.ByHead {
			sells = "What it gives sells for %s, which"
		}
		text += fmt.Sprintf(". "+sells+" leaves %s%s%s", words.Fixed(w.SoldPerHead.Value, d), bound, words.Fixed(w.LeftPerHead.Value, d), somewhere(w.LeftPerHeadLow, w.LeftPerHeadHigh))
	}
	if w.ReturnPerHour.Known {
		text += ". " + anHour("An hour's work returns", w.ReturnPerHour.Value, w.Gaps, money)
	}
	missing := slices.Clone(w.Gaps)
	if w.NoSpace {
		missing = append(missing, "space")
	}
	if len(missing) > 0 {
		text += fmt.Sprintf(". Not counted: %s", words.Names(missing))
		if len(w.Unshared) > 0 {
			text += fmt.Sprintf(" (%s)", whyLacking(nil, w.Unshared))
		}
	}
	return text + "."
}

// untimed says that nothing of a way's hours is known, chores among them.
func untimed(w answer.GrowCost) bool {
	return w.Hours == 0 && w.Chores == 0 && len(w.Gaps) > 0
}

// unitCost says what a unit and a kilogram cost, where a study speaks of them.
func unitCost(w answer.GrowCost, money string) (text string) {
	if !w.Gives.ByHead && !w.PerUnit.Known && !w.Gives.Sold.Known {
		text = "; it gives " + unweighed(w.Gives)
	}
	if !w.Gives.ByHead && w.PerUnit.Known {
		d := enough(2, w.PerUnit, w.PerUnitLow, w.PerUnitHigh)
		text = fmt.Sprintf("; %s that is sold costs %s%s %s", aUnit(w.Unit), atLeastWords(w.Gaps), words.Fixed(w.PerUnit.Value, d), money)
		if w.PerUnitLow.Known {
			text += fmt.Sprintf(" (somewhere between %s and %s)", words.Fixed(w.PerUnitLow.Value, d), words.Fixed(w.PerUnitHigh.Value, d))
		}
		if w.MinutesAUnit.Known {
			text += fmt.Sprintf(" and takes %s%s", atLeastWords(w.Gaps), words.Duration(w.MinutesAUnit.Value/60))
		}
	}
	if w.Gives.Weighs && w.PerKg.Known {
		text += fmt.Sprintf("; a kilogram costs %s%s %s", atLeastWords(w.Gaps), words.Fixed(w.PerKg.Value, enough(2, w.PerKg)), money)
	}
	return text
}

func costTable(c answer.Costs, money string) Table {
	t := Table{Title: "One grow, in " + money, Columns: []Column{
		{Head: "way", Key: "workflow"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "chores, h", Key: "chores_h", Right: true},
		{Head: "labour", Key: "labour", Right: true},
		{Head: "supplies", Key: "supplies", Right: true},
		{Head: "space", Key: "space", Right: true},
		{Head: "outlay", Key: "outlay", Right: true, Full: !hasOutlay(c)},
		{Head: "total", Key: "total", Right: true},
		{Head: "a head", Key: "per_head", Right: true},
		{Head: "from", Key: "per_head_low", Right: true, Full: true},
		{Head: "to", Key: "per_head_high", Right: true, Full: true},
		{Head: "labour a head", Key: "labour_per_head", Right: true, Full: true},
		{Head: "return an hour", Key: "return_per_hour", Right: true, Full: true},
		{Head: "not counted", Key: "gaps", Full: true},
	}}
	d, bought := 2, 2 // of what a head costs, and of what is bought
	for _, w := range c.Workflows {
		d = enough(d, w.PerHead, w.PerHeadLow, w.PerHeadHigh, w.LabourPerHead)
		bought = visible(bought, study.Known(w.Supplies), study.Known(w.Space), study.Known(w.Outlay), w.Labour)
	}
	for _, w := range c.Workflows {
		known := !untimed(w) || w.PerHead.Value != 0
		t.Rows = append(t.Rows, []Cell{
			{words.Show(w.Workflow), w.Workflow},
			Cell{atLeast(w.Gaps, words.Fixed(w.Hours, 2)), w.Hours}.where(w.Hours != 0 || len(w.Gaps) == 0),
			{words.Fixed(w.Chores, 2), w.Chores},
			maybe(w.Labour, bought).where(!untimed(w)), {words.Fixed(w.Supplies, bought), w.Supplies}, {words.Fixed(w.Space, bought), w.Space},
			{words.Fixed(w.Outlay, bought), w.Outlay},
			Cell{atLeast(w.Gaps, maybe(w.Total, bought).Text), w.Total}.where(known), Cell{atLeast(w.Gaps, maybe(w.PerHead, d).Text), w.PerHead}.where(known), maybe(w.PerHeadLow, d).where(known), maybe(w.PerHeadHigh, d).where(known),
			maybe(w.LabourPerHead, d).where(!untimed(w)), maybe(w.ReturnPerHour, 2),
			{words.Names(w.Gaps), w.Gaps},
		})
	}
	return t
}

func hasOutlay(c answer.Costs) bool {
	return slices.ContainsFunc(c.Workflows, func(w answer.GrowCost) bool { return w.Outlay > 0 })
}

// unpricedNotes say what is not priced: of all ways, or of which.
func unpricedNotes(c answer.Costs) []string {
	var notes []string
	ways := map[string][]string{}
	for _, w := range c.Workflows {
		note := unpriced(w)
		if note != "" && ways[note] == nil {
			notes = append(notes, note)
		}
		ways[note] = append(ways[note], w.Workflow)
	}
	for i, note := range notes {
		if of := ways[note]; len(of) < len(c.Workflows) {
			names := make([]string, len(of))
			for j, name := range of {
				names[j] = words.Quoted(name)
			}
			notes[i] = "of " + words.And(names) + ": " + note
		}
	}
	return notes
}

// hasLine says whether a cost has a line of a kind.
func hasLine(w answer.GrowCost, kind answer.LineKind) bool {
	return slices.ContainsFunc(w.Lines, func(l answer.CostLine) bool { return l.Kind == kind })
}

// unpriced says which kinds of cost the study gives no price for, "" where it
// prices all.
func unpriced(w answer.GrowCost) string {
	supplies, space := hasLine(w, answer.SupplyLine), hasLine(w, answer.SpaceLine)
	switch {
	case !supplies && !space && w.PerHead.Known:
		return "neither supplies nor space are priced in the study, so the cost of a head is that of labour alone"
	case !supplies && !space: // said of each way
		return ""
	case !supplies:
		return "supplies are not priced in the study"
	case !space:
		return "space is not priced in the study"
	}
	return ""
}

func costLines(c answer.Costs, money string) Table {
	t := Table{Title: "Line by line, in " + money, Columns: []Column{
		{Head: "for", Key: "name"},
		{Head: "way", Key: "workflow"},
		{Head: "kind", Key: "kind"},
		{Head: "a grow", Key: "amount", Right: true},
		{Head: "a head", Key: "per_head", Right: true},
	}}
	amount, perHead := 2, 3
	for _, w := range c.Workflows {
		for _, line := range w.Lines {
			amount, perHead = visible(amount, line.Amount), visible(perHead, line.PerHead)
		}
	}
	for _, w := range c.Workflows {
		for _, line := range w.Lines {
			t.Rows = append(t.Rows, []Cell{
				{words.Show(line.Name), line.Name}, {words.Show(w.Workflow), w.Workflow},
				{string(line.Kind), string(line.Kind)},
				maybe(line.Amount, amount), maybe(line.PerHead, perHead),
			})
		}
	}
	return t
}
