package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"
	"headhours/timing/words"
)

// settings are what the answers rest on of the study's figures, as a person
// reads them.
func settings(m *answer.Models, a WholeOptions) []Setting {
	s := m.Study
	if len(a.Workflows) > 0 { // of the ways that are answered for alone
		s.Workflows = slices.DeleteFunc(slices.Clone(s.Workflows), func(w study.Workflow) bool { return !slices.Contains(a.Workflows, w.Name) })
	}
	list := []Setting{
		{"study", words.Show(s.Name)},
		{"heads a grow", fmt.Sprint(a.Heads)},
		{"confidence of intervals", words.Percent(m.Confidence, 4)},
		{"allowance for rest and personal needs", words.Percent(s.Allowance, 3)},
		{assuranceOf(s), words.Percent(a.Assurance, 4)},
	}
	list = slices.Insert(list, 4, comesUp(s)...)
	add := func(name, format string, args ...any) {
		list = append(list, Setting{name, fmt.Sprintf(format, args...)})
	}
	switch {
	case a.Schedule.Every != nil && *a.Schedule.Every > 0:
		add("a new grow", "%s (instead of the study's)", words.EveryDays(*a.Schedule.Every))
	case a.Schedule.Every == nil && s.SowEveryDays > 0:
		add("a new grow", "%s", words.EveryDays(s.SowEveryDays))
	}
	if rest := a.Schedule.Rest; !rest.Start.IsZero() {
		add("first sowing", "%s", rest.Start.Format("Monday 2006-01-02"))
		var off []string
		for _, w := range rest.Off {
			off = append(off, w.String())
		}
		if len(off) > 0 {
			add("days off", "%s", strings.Join(off, ", "))
		}
	}
	return append(list, moneySettings(s)...)
}

// moneySettings are those of what work, space and what is sold cost and bring.
func moneySettings(s study.Study) []Setting {
	var list []Setting
	price := func(x float64) string { return inMoney(words.Price(x), s.Currency) }
	add := func(name, format string, args ...any) {
		list = append(list, Setting{name, fmt.Sprintf(format, args...)})
	}
	if l := s.Labour; l != nil {
		add("wage", "%s an hour, and %s on top", price(l.Wage), words.Percent(l.OnCost, 3))
	}
	if l := s.Labour; l != nil && l.OwnHours.Known {
		add("own hours a week", "%s; what goes beyond is hired", words.Count(l.OwnHours.Value))
	}
	if s.PricePerHead.Known {
		add("price of a head", "%s", price(s.PricePerHead.Value))
	}
	if s.Sale != nil {
		add("what is sold", "%s", saleWords(*s.Sale, s.Currency))
	}
	for _, w := range s.Workflows {
		if w.Sale != nil {
			add("sold of "+words.Show(w.Name), "%s", saleWords(*w.Sale, s.Currency))
		}
	}
	for _, o := range s.Overheads {
		add(words.Show(o.Name), "%s a year", price(o.PerYear))
	}
	if s.SpaceM2.Known {
		add("space there is", "%s m²", words.Count(s.SpaceM2.Value))
	}
	if s.SpacePrice.Known {
		add("price of space", "%s a square metre and day", price(s.SpacePrice.Value))
	}
	return list
}

// assuranceOf is what the assurance is of: cells to sow, young plants to buy.
func assuranceOf(s study.Study) string {
	bought := 0
	for _, w := range s.Workflows {
		if w.Bought {
			bought++
		}
	}
	switch {
	case bought == 0:
		return "assurance of cells to sow"
	case bought == len(s.Workflows):
		return "assurance of plants to buy"
	}
	return "assurance of cells to sow and plants to buy"
}

// comesUp is the germination of the study, where a way of working leaves it, and that of
// ways with their own.
func comesUp(s study.Study) []Setting {
	var list []Setting
	leaves := false
	for _, w := range s.Workflows {
		leaves = leaves || w.LeavesGermination()
		if w.Germination != nil {
			list = append(list, Setting{"seeds that come up, " + words.Show(w.Name), germination(*w.Germination)})
		}
	}
	if leaves || len(s.Workflows) == 0 {
		list = append([]Setting{{"seeds that come up", germination(s.Germination)}}, list...)
	}
	return list
}

func germination(g crop.Germination) string {
	text := words.Percent(g.Share, 3)
	if g.Of > 0 {
		text += fmt.Sprintf(" (%d of %d)", g.CameUp, g.Of)
	}
	return text
}

// saleWords are how a harvest is sold.
func saleWords(s study.Sale, currency string) string {
	text := "by the " + words.Show(s.Unit)
	switch {
	case s.Kg > 0:
		text += fmt.Sprintf(" of %s kg", words.Count(s.Kg))
	case s.Heads != 1:
		text += fmt.Sprintf(" of %s heads", words.Count(s.Heads))
	}
	if s.Price.Known {
		text += fmt.Sprintf(", %s each", inMoney(words.Price(s.Price.Value), currency))
	}
	if s.Share != 1 {
		text += fmt.Sprintf(", %s of it", words.Percent(s.Share, 3))
	}
	return text
}

// inMoney is an amount with its currency, where the study names one.
func inMoney(amount, currency string) string {
	return strings.TrimSuffix(amount+" "+words.Show(currency), " ")
}
