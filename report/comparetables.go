package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

func workflowsTable(c answer.Comparison) Table {
	t := Table{Title: "Hours of one grow", Columns: []Column{
		{Head: "way", Key: "workflow"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "next grow", Key: "next_low_h", Right: true},
		{Head: "", Key: "next_high_h"},
		{Head: "min a head", Key: "minutes_per_head", Right: true},
		{Head: "df", Key: "df", Right: true, Full: true},
		{Head: "beyond what was timed", Key: "extrapolated", Full: true},
		{Head: "not timed", Key: "gaps", Full: true},
	}}
	for i, h := range c.Workflows {
		known := !nothingKnown(h)
		nextHigh := Cell{"to " + maybe(h.NextHigh, 2).Text, h.NextHigh}
		if !known {
			nextHigh.Text = ""
		}
		t.Rows = append(t.Rows, []Cell{
			{workflowLetter(i) + "  " + words.Show(h.Workflow), h.Workflow},
			Cell{atLeast(h.Gaps, words.Fixed(h.Hours, 2)), h.Hours}.where(known),
			maybe(h.Low, 2).where(known), maybe(h.High, 2).where(known),
			maybe(h.NextLow, 2).where(known), nextHigh,
			Cell{atLeast(h.Gaps, words.Fixed(h.MinutesPerHead, 2)), h.MinutesPerHead}.where(known),
			maybe(h.DF, 1),
			{yes(h.Extrapolated), h.Extrapolated},
			{words.Names(h.Gaps), h.Gaps},
		})
	}
	return t
}

// minutesTable puts the minutes of each step side by side, for reading.
func minutesTable(c answer.Comparison) Table {
	t := Table{Title: "Where the minutes go", For: onlyPeople, Columns: []Column{{Head: "step"}}}
	rows := map[string][]Cell{}
	var order []string
	for i, h := range c.Workflows {
		t.Columns = append(t.Columns, Column{Head: workflowLetter(i), Right: true})
		if len(c.Workflows) == 1 {
			t.Columns[1].Head = "minutes"
		}
		for _, s := range h.Steps {
			if rows[s.Step] == nil {
				order = append(order, s.Step)
				rows[s.Step] = append([]Cell{{Text: words.Show(s.Step)}}, make([]Cell, len(c.Workflows))...)
			}
			rows[s.Step][i+1] = Cell{Text: "?"}
			if s.Hours.Known {
				rows[s.Step][i+1].Text = words.Fixed(s.Hours.Value*60, 1)
			}
		}
	}
	for _, step := range order {
		t.Rows = append(t.Rows, rows[step])
	}
	if len(c.Workflows) == 1 {
		addShares(&t, c.Workflows[0])
	}
	return t
}

// addShares puts the share of each step beside its minutes, and a bar.
func addShares(t *Table, h answer.Hours) {
	t.Columns = append(t.Columns, Column{Head: "share", Right: true}, Column{})
	longest := 0.0
	for _, s := range h.Steps {
		longest = max(longest, s.Share.Value)
	}
	for i, s := range h.Steps {
		cell := Cell{}
		if s.Share.Known {
			cell.Text = words.Share(s.Share.Value)
		}
		t.Rows[i] = append(t.Rows[i], cell, Cell{Text: bar(s.Share.Value, longest)})
	}
}

// workflowLetter is the letter that stands for a way of working in narrow columns.
func workflowLetter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return fmt.Sprintf("%c%d", 'A'+i%26, i/26)
}

func stepsTable(c answer.Comparison) Table {
	t := Table{Title: "Where the time goes", For: Programs, Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "way", Key: "workflow"},
		{Head: "visits", Key: "visits", Right: true},
		{Head: "setups", Key: "setups", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "minutes", Key: "hours_h", Right: true},
		{Head: "share", Key: "share", Right: true},
	}}
	for _, h := range c.Workflows {
		for _, s := range h.Steps {
			minutes, part := Cell{"not timed", s.Hours}, Cell{"", s.Share}
			if s.Hours.Known {
				minutes.Text = words.Fixed(s.Hours.Value*60, 1)
			}
			if s.Share.Known {
				part.Text = words.Share(s.Share.Value)
			}
			t.Rows = append(t.Rows, []Cell{
				{words.Show(s.Step), s.Step},
				{words.Show(h.Workflow), h.Workflow},
				{fmt.Sprint(s.Visits), s.Visits},
				{words.Count(s.Setups), s.Setups},
				{words.Count(s.Count), s.Count},
				minutes, part,
			})
		}
	}
	return t
}

func pairsTable(c answer.Comparison) Table {
	t := Table{Title: "Differences, second less first", Columns: []Column{
		{Head: "first", Key: "a"},
		{Head: "second", Key: "b"},
		{Head: "minutes", Key: "difference_h", Right: true},
		{Head: "lowest", Key: "low_h", Right: true},
		{Head: "highest", Key: "high_h", Right: true},
		{Head: "p", Key: "p", Right: true, Full: true},
		{Head: "df", Key: "df", Right: true, Full: true},
		{Head: "bears variation of", Key: "tips_at_cv", Right: true, Full: true},
		{Head: "break-even", Key: "break_even_heads", Right: true},
		{Head: "kind", Key: "break_even_kind", Full: true},
		{Head: "from", Key: "break_even_low", Right: true, Full: true},
		{Head: "to", Key: "break_even_high", Right: true, Full: true},
		{Head: "not timed", Key: "gaps", Full: true},
	}}
	for _, p := range c.Pairs {
		minutes := func(m study.Maybe) Cell { return Cell{maybe(m.Times(60), 1).Text, m} }
		known := p.Difference != 0 || len(p.Gaps) == 0
		t.Rows = append(t.Rows, []Cell{
			{words.Show(p.A), p.A}, {words.Show(p.B), p.B},
			minutes(study.Known(p.Difference)).where(known), minutes(p.Low).where(known), minutes(p.High).where(known),
			chance(p.P), maybe(p.DF, 1), maybe(p.TipsAtCV, 3),
			breakEvenCell(p.BreakEven), {string(p.BreakEven.Kind), string(p.BreakEven.Kind)},
			maybe(p.BreakEven.Low, 0), maybe(p.BreakEven.High, 0),
			{words.Names(p.Gaps), p.Gaps},
		})
	}
	return t
}

func breakEvenCell(e answer.BreakEven) Cell {
	switch {
	case e.Heads.Known:
		return Cell{words.HeadsAlone(e.Heads.Value), e.Heads}
	case e.Kind == answer.Never:
		return Cell{"none", e.Heads}
	case e.Kind == "":
		return Cell{"?", e.Heads}
	}
	return Cell{"-", e.Heads}
}
