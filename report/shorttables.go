package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// HoursTable is the hours of each way, a line each that a phone has room for.
func HoursTable(c answer.Comparison) Table {
	t := Table{Title: fmt.Sprintf("Hours of one grow of %s", words.Many(c.Heads, "head")), For: onlyPeople, Columns: []Column{
		{Head: "way"}, {Head: "hours (range)", Right: true},
	}}
	for _, h := range c.Workflows {
		t.Rows = append(t.Rows, []Cell{{Text: words.Show(h.Workflow)},
			Cell{Text: atLeast(h.Gaps, words.Fixed(h.Hours, 2)+" h"+between(h.Low, h.High, 2))}.where(!nothingKnown(h))})
	}
	return t
}

// NextTable is what the next grow of each way may take, and what a head takes.
func NextTable(c answer.Comparison) Table {
	t := Table{Title: "The next grow by itself, which varies more than the mean", For: onlyPeople, Columns: []Column{
		{Head: "way"}, {Head: "next grow, h", Right: true}, {Head: "a head, min (range)", Right: true},
	}}
	perHead := 60 / float64(c.Heads)
	for _, h := range c.Workflows {
		known := !nothingKnown(h)
		t.Rows = append(t.Rows, []Cell{
			{Text: words.Show(h.Workflow)}, Cell{Text: dashed(h.NextLow, h.NextHigh, 2)}.where(known),
			Cell{Text: atLeast(h.Gaps, words.Fixed(h.MinutesPerHead, 2)+between(h.Low.Times(perHead), h.High.Times(perHead), 2))}.where(known),
		})
	}
	return t
}

// CostTable is what a head of each way costs, what it leaves and what an hour returns.
func CostTable(c answer.Costs) Table {
	money := "money"
	if c.Currency != nil {
		money = words.Show(*c.Currency)
	}
	t := Table{Title: "A head, in " + money + ", with ranges", For: onlyPeople, Columns: []Column{
		{Head: "way"}, {Head: "costs", Right: true}, {Head: "leaves", Right: true}, {Head: "an hour returns", Right: true},
	}}
	d := 2
	for _, w := range c.Workflows {
		d = enough(d, w.PerHead, w.PerHeadLow, w.PerHeadHigh)
	}
	for _, w := range c.Workflows {
		row := make([]Cell, len(t.Columns))
		row[0].Text = words.Show(w.Workflow)
		if w.PerHead.Known && untimed(w) && w.PerHead.Value == 0 {
			row[1].Text = "?"
		} else if w.PerHead.Known {
			row[1].Text = atLeast(w.Gaps, words.Fixed(w.PerHead.Value, d)+between(w.PerHeadLow, w.PerHeadHigh, d))
		}
		if w.LeftPerHead.Known {
			row[2].Text = atMost(w.Gaps, words.Fixed(w.LeftPerHead.Value, d)+between(w.LeftPerHeadLow, w.LeftPerHeadHigh, d))
		}
		if w.ReturnPerHour.Known {
			row[3].Text = atMost(w.Gaps, words.Fixed(w.ReturnPerHour.Value, 2))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// atMost marks what is left where a step lacks.
func atMost(gaps []string, text string) string {
	if len(gaps) > 0 && text != "?" {
		return "≤ " + text
	}
	return text
}
