package page

import (
	"slices"
	"strings"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/words"
)

// takes says what a head takes and costs, which way is quicker, and what more
// heads would take.
func takes(w report.Whole) []pagePart {
	hours := pagePart{Title: "Minutes of one head", Tables: []report.Table{report.HoursTable(w.Compare)}}
	if len(w.Workflows) > 1 {
		hours.Figure = shownFigure(plots.PerHead(w.Compare, huesOf(w)), hasAnswers(w))
	}
	hours.More = []report.Table{report.NextTable(w.Compare)}
	if sold := report.Compare(w.Compare).Section("sold"); sold.Table != nil {
		hours.Answer, hours.Tables = sold.Answer, append(hours.Tables, *sold.Table)
	}
	return append(append([]pagePart{hours}, costs(w)...), pairs(w)...)
}

// costs are the cost of a head, and its lines for each way.
func costs(w report.Whole) []pagePart {
	doc := report.Cost(w.Cost)
	if !costly(w) {
		return []pagePart{{Title: doc.Title, Answer: asList(doc.Words())}}
	}
	cost := pagePart{Title: doc.Title, Figure: shownFigure(plots.CostPerHead(w.Cost), true), Tables: append([]report.Table{report.CostTable(w.Cost)}, doc.Only("sold").Tables()...)}
	if w.Cost.Workflows[0].PerHead.Known {
		cost.Notes = only(doc.Notes, w.Cost.Notes)
	} else {
		cost.Answer = asList(doc.Words())
	}
	lines := pagePart{Fold: "Cost line by line", Parts: []pagePart{{Tables: doc.Only("costs").Tables()}}}
	for _, workflow := range w.QuickestFirst() {
		one := w.Cost
		one.Workflows = nil
		for _, c := range w.Cost.Workflows {
			if c.Workflow == workflow.Workflow {
				one.Workflows = append(one.Workflows, c)
			}
		}
		table := *report.Cost(one).Section("lines").Table
		lines.Parts = append(lines.Parts, pagePart{Title: words.Show(workflow.Workflow), Tables: []report.Table{without(table, "workflow")}})
	}
	return []pagePart{cost, lines}
}

// pairs say which of two ways is quicker and from how many heads on, beside what more
// heads take: those with the quickest first, the others folded away.
func pairs(w report.Whole) []pagePart {
	var with, other []answer.Pair
	for _, of := range answer.ByCrop(w.Compare) {
		quickest := of.Quickest().Workflow
		for _, p := range of.Pairs {
			if p.A == quickest || p.B == quickest {
				with = append(with, p)
			} else {
				other = append(other, p)
			}
		}
	}
	first := pagePart{Title: "Minutes a head against heads"}
	if len(with) > 0 {
		first = pairsPart(w, with)
		first.Title = "Which way is quicker, and for how many heads"
	}
	if hasAnswers(w) {
		scale := report.Scale(w.Scale)
		first.Figure = shownFigure(plots.Growth(w.Growth, with), true)
		first.More = scale.Tables()
		first.Notes = only(scale.Notes, w.Scale.Notes)
	}
	var parts []pagePart
	if len(with) > 0 || hasAnswers(w) { // else there is nothing to say of either
		parts = append(parts, first)
	}
	if len(other) > 0 {
		rest := pairsPart(w, other)
		rest.Title = "The other pairs"
		parts = append(parts, pagePart{Fold: "The other pairs of ways", Parts: []pagePart{rest}})
	}
	return parts
}

// pairsPart is the sentences and the table of some of a comparison's pairs.
func pairsPart(w report.Whole, pairs []answer.Pair) pagePart {
	p := pagePart{Tables: people([]report.Table{report.PairsTable(pairs)})}
	for _, pair := range pairs {
		p.Answer = append(p.Answer, report.PairWords(pair, w.Heads))
	}
	return p
}

// asList is paragraphs that say the same of each way of working as one list.
func asList(paragraphs []string) []string { return []string{strings.Join(paragraphs, "\n")} }

// only is the notes that an answer has beyond those that stand for all.
func only(notes, common []string) []string {
	var own []string
	for _, n := range notes {
		if !slices.Contains(common, n) {
			own = append(own, n)
		}
	}
	return own
}

// without is a table without a column.
func without(t report.Table, key string) report.Table {
	cut := report.Table{Title: t.Title, For: t.For}
	for j, c := range t.Columns {
		if c.Key == key {
			continue
		}
		cut.Columns = append(cut.Columns, c)
		for i, row := range t.Rows {
			if len(cut.Rows) <= i {
				cut.Rows = append(cut.Rows, nil)
			}
			cut.Rows[i] = append(cut.Rows[i], row[j])
		}
	}
	return cut
}
