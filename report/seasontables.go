package report

import (
	"fmt"
	"time"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// seasonDay is a day of a season by its number and date.
func seasonDay(p answer.SeasonPlan, day int) string {
	name := fmt.Sprintf("day %d", day)
	if p.Start == nil {
		return name
	}
	start, err := time.Parse(time.DateOnly, *p.Start)
	if err != nil {
		return name // no date that a study could have
	}
	return name + start.AddDate(0, 0, day).Format(", Mon 2006-01-02")
}

func sowingsTable(p answer.SeasonPlan, money string) Table {
	t := Table{Title: "Sowings, money in " + money, Columns: []Column{
		{Head: "way", Key: "workflow"},
		{Head: "crop", Key: "crop", Full: true},
		{Head: "every, days", Key: "every_days", Right: true},
		{Head: "first day", Key: "first_day", Right: true, Full: true},
		{Head: "last day", Key: "last_day", Right: true, Full: true},
		{Head: "grows", Key: "grows", Right: true, Full: true},
		{Head: "cut short", Key: "cut_short", Right: true, Full: true},
		{Head: "cells", Key: "cells", Right: true, Full: true},
		{Head: "heads", Key: "heads", Right: true},
		{Head: "kg", Key: "kg", Right: true, Full: true},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "share", Key: "share", Right: true, Full: true},
		{Head: "unit", Key: "unit"},
		{Head: "units", Key: "units", Right: true, Full: true},
		{Head: "sold", Key: "sold", Right: true},
		{Head: "revenue", Key: "revenue", Right: true},
		{Head: "supplies", Key: "supplies", Right: true, Full: true},
		{Head: "space", Key: "space", Right: true, Full: true},
		{Head: "price needed", Key: "price_needed", Right: true},
	}}
	for _, s := range p.Sowings {
		portion := Cell{"?", s.Share}
		if s.Share.Known {
			portion.Text = words.Share(s.Share.Value)
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Workflow), s.Workflow}, textOr(s.Crop), wholeOr(s.EveryDays, "once"),
			{fmt.Sprint(s.FirstDay), s.FirstDay}, {fmt.Sprint(s.LastDay), s.LastDay},
			{fmt.Sprint(s.Grows), s.Grows}, {fmt.Sprint(s.CutShort), s.CutShort},
			{words.Fixed(s.Cells, 0), s.Cells}, {words.Fixed(s.Heads, 0), s.Heads}, maybe(s.Kg, 1),
			{words.Fixed(s.Hours, 1), s.Hours}, portion,
			{words.Show(s.Unit), s.Unit}, maybe(s.Units, 0), maybe(s.Sold, 0), maybe(s.Revenue, 2),
			{words.Fixed(s.Supplies, 2), s.Supplies}, {words.Fixed(s.Space, 2), s.Space}, maybe(s.PriceNeeded, 2),
		})
	}
	return t
}

func weeksTable(p answer.SeasonPlan, money string) Table {
	t := Table{Title: "Week by week, money in " + money, Columns: []Column{
		{Head: "week", Key: "week", Right: true},
		{Head: "from", Key: "date"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "from, h", Key: "low_h", Right: true, Full: true},
		{Head: "to, h", Key: "high_h", Right: true, Full: true},
		{Head: "own", Key: "own_h", Right: true},
		{Head: "hired", Key: "hired_h", Right: true},
		{Head: "heads", Key: "heads", Right: true},
		{Head: "kg", Key: "kg", Right: true, Full: !p.Kg.Known},
		{Head: "revenue", Key: "revenue", Right: true},
	}}
	for _, w := range p.Weeks {
		t.Rows = append(t.Rows, []Cell{
			{fmt.Sprint(w.Week), w.Week}, textOr(w.Date),
			{words.Fixed(w.Hours, 2), w.Hours}, maybe(w.Low, 2), maybe(w.High, 2),
			{words.Fixed(w.Own, 2), w.Own}, {words.Fixed(w.Hired, 2), w.Hired},
			{words.Fixed(w.Heads, 0), w.Heads}, maybe(w.Kg, 1), maybe(w.Revenue, 2),
		})
	}
	return t
}

func seasonSteps(p answer.SeasonPlan) Table {
	t := Table{Title: "By step", Columns: []Column{
		{Head: "step", Key: "step"},
		{Head: "setups", Key: "setups", Right: true},
		{Head: "count", Key: "count", Right: true},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "share", Key: "share", Right: true},
	}}
	for _, s := range p.Steps {
		portion := Cell{"?", s.Share}
		if s.Share.Known {
			portion.Text = words.Share(s.Share.Value)
		}
		t.Rows = append(t.Rows, []Cell{
			{words.Show(s.Step), s.Step}, {words.Count(words.Rounded(s.Setups, 6)), s.Setups}, {words.Count(words.Rounded(s.Count, 6)), s.Count}, maybe(s.Hours, 1), portion,
		})
	}
	return t
}

func seasonChanges(p answer.SeasonPlan) Table {
	t := Table{Title: "What a change would save in the season", Columns: []Column{
		{Head: "change", Key: "name"},
		{Head: "hours saved", Key: "saved_h", Right: true},
		{Head: "from", Key: "low_h", Right: true},
		{Head: "to", Key: "high_h", Right: true},
		{Head: "back after, days", Key: "payback_days", Right: true},
	}}
	for _, c := range p.Changes {
		back := maybe(c.Payback, 0)
		if !c.Payback.Known {
			back.Text = "-"
		}
		t.Rows = append(t.Rows, []Cell{{words.Show(c.Name), c.Name}, maybe(c.Saved, 2), maybe(c.Low, 2), maybe(c.High, 2), back})
	}
	return t
}

// tryTable is the study's plan and another side by side.
func tryTable(a SeasonAnswer, money string) Table {
	t := Table{Title: "Side by side, money in " + money, Columns: []Column{
		{Head: "plan", Key: "plan"},
		{Head: "hours", Key: "hours_h", Right: true},
		{Head: "busiest week", Key: "busiest_week_h", Right: true},
		{Head: "hired", Key: "hired_h", Right: true},
		{Head: "heads", Key: "heads", Right: true},
		{Head: "revenue", Key: "revenue", Right: true, Full: true},
		{Head: "left", Key: "margin", Right: true},
		{Head: "an own hour", Key: "per_own_hour", Right: true},
		{Head: "m², at most", Key: "space_peak_m2", Right: true},
	}}
	row := func(name string, p answer.SeasonPlan) {
		t.Rows = append(t.Rows, []Cell{{name, name}, {words.Fixed(p.Hours, 1), p.Hours}, {words.Fixed(p.Busiest.Hours, 2), p.Busiest.Hours}, {words.Fixed(p.Hired, 1), p.Hired},
			{words.Fixed(p.Heads, 0), p.Heads}, maybe(p.Revenue, 0), maybe(p.Margin, 0), maybe(p.PerOwnHour, 2), {words.Fixed(p.PeakM2, 1), p.PeakM2}})
	}
	row("the study's", a.SeasonPlan)
	row("tried", a.Try.SeasonPlan)
	return t
}
