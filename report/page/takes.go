package page

import (
	"slices"
	"strings"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing"
)

// takes says what a head takes and costs, which way is quicker, and what more
// heads would take.
func takes(w report.Whole) []part {
	hours := part{Title: "Hours of one grow", Answer: report.Compare(w.Compare).Only("hours", "shared").Words(), Tables: []report.Table{waysTable(w)}}
	if sold := report.Compare(w.Compare).Section("sold"); sold.Table != nil {
		hours.Answer, hours.Tables = append(hours.Answer, sold.Answer...), append(hours.Tables, *sold.Table)
	}
	parts := append([]part{hours}, costs(w)...)
	parts = append(parts, pairs(w)...)
	if !known(w) {
		return parts
	}
	scale := report.Scale(w.Scale)
	growth := of(scale, drawn(plots.Growth(w.Scale, nil), true))
	growth.Answer = asList(growth.Answer)
	growth.Notes = only(scale.Notes, w.Scale.Notes)
	return append(parts, growth)
}

// waysTable is the hours of each way, by name, an interval in one cell.
func waysTable(w report.Whole) report.Table {
	t := w.Tables()[0].Table
	for i, way := range w.Ways {
		t.Rows[i][0].Text = report.Show(way.Workflow)
	}
	for j, c := range t.Columns {
		if c.Key == "next_high_h" {
			return joined(t, j)
		}
	}
	return t
}

// joined is a table with a column's cells put behind those before them.
func joined(t report.Table, j int) report.Table {
	for _, row := range t.Rows {
		row[j-1].Text += " " + row[j].Text
	}
	return without(t, t.Columns[j].Key)
}

// costs are the cost of a head, and its lines for each way of working.
func costs(w report.Whole) []part {
	doc := report.Cost(w.Cost)
	cost := of(doc, drawn(plots.CostPerHead(w.Cost), true))
	cost.Answer, cost.Tables = asList(cost.Answer), doc.Only("costs", "sold").Tables()
	cost.Notes = only(doc.Notes, w.Cost.Notes)
	if !costly(w) {
		return []part{{Title: cost.Title, Answer: cost.Answer}}
	}
	lines := part{Fold: "Cost line by line"}
	for _, way := range w.QuickestFirst() {
		one := w.Cost
		one.Workflows = nil
		for _, c := range w.Cost.Workflows {
			if c.Workflow == way.Workflow {
				one.Workflows = append(one.Workflows, c)
			}
		}
		table := *report.Cost(one).Section("lines").Table
		lines.Parts = append(lines.Parts, part{Title: report.Show(way.Workflow), Tables: []report.Table{without(table, "workflow")}})
	}
	return []part{cost, lines}
}

// pairs say which of two ways is quicker and from how many heads on: those with
// the quickest first, the others folded away.
func pairs(w report.Whole) []part {
	var with, other []timing.Pair
	for _, of := range timing.ByCrop(w.Compare) {
		quickest := of.Quickest().Workflow
		for _, p := range of.Pairs {
			if p.A == quickest || p.B == quickest {
				with = append(with, p)
			} else {
				other = append(other, p)
			}
		}
	}
	if len(with) == 0 {
		return nil
	}
	first := pairsPart(w, with)
	first.Title = "Which way is quicker"
	first.Figure = drawn(plots.BreakEvens(w.Scale, with), known(w))
	parts := []part{first}
	if len(other) > 0 {
		rest := pairsPart(w, other)
		rest.Title = "The other pairs"
		parts = append(parts, part{Fold: "The other pairs of ways", Parts: []part{rest}})
	}
	return parts
}

// pairsPart is the sentences and the table of some of a comparison's pairs.
func pairsPart(w report.Whole, pairs []timing.Pair) part {
	p := part{Tables: people([]report.Table{report.PairsTable(pairs)})}
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
