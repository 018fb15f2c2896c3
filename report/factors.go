package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// FactorsTable is how long grows took, as factors of what was expected.
func FactorsTable(grows []answer.GrowFactor) Table {
	t := Table{Title: "Times what was expected, by grow", Columns: []Column{
		{Head: "grow", Key: "grow"},
		{Head: "first day", Key: "date"},
		{Head: "in all", Key: "factor", Right: true},
		{Head: "quickest step", Key: "quickest_step"},
		{Head: "slowest step", Key: "slowest_step"},
	}}
	for _, g := range grows {
		day := ""
		if date := g.Day.Date(); !date.IsZero() {
			day = date.Format("2006-01-02")
		}
		quickest, slowest := g.Steps[0], g.Steps[0]
		for _, s := range g.Steps {
			if s.Factor < quickest.Factor {
				quickest = s
			}
			if s.Factor > slowest.Factor {
				slowest = s
			}
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(g.Grow), g.Grow}, {day, day}, {words.Fixed(g.All, 2), g.All},
			factorCell(quickest), factorCell(slowest),
		})
	}
	return t
}

func factorCell(s answer.StepFactor) Cell {
	return Cell{fmt.Sprintf("%s %s", words.Show(s.Step), words.Fixed(s.Factor, 2)), s.Step}
}
