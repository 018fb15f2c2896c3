package report

import (
	"fmt"
	"strings"

	"headhours/timing"
)

// settings are what the answers rest on of the study's figures, as a person
// reads them.
func settings(m *timing.Models, a Asked) []Setting {
	s := m.Study
	list := []Setting{
		{"study", show(s.Name)},
		{"heads a grow", fmt.Sprint(a.Heads)},
		{"confidence of intervals", fmt.Sprintf("%.4g %%", 100*m.Confidence)},
		{"allowance for rest and personal needs", fmt.Sprintf("%.3g %%", 100*s.Allowance)},
		{"seeds that come up", germination(s)},
		{"assurance of cells to sow", fmt.Sprintf("%.4g %%", 100*a.Assurance)},
	}
	add := func(name, format string, args ...any) {
		list = append(list, Setting{name, fmt.Sprintf(format, args...)})
	}
	switch {
	case a.Schedule.Every != nil && *a.Schedule.Every > 0:
		add("a new grow", "every %s (instead of the study's)", many(*a.Schedule.Every, "day"))
	case a.Schedule.Every == nil && s.SowEveryDays > 0:
		add("a new grow", "every %s", many(s.SowEveryDays, "day"))
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
	if l := s.Labour; l != nil {
		add("wage", "%s %s an hour, and %.3g %% on top", money(l.Wage), s.Currency, 100*l.OnCost)
	}
	if s.PricePerHead.Known {
		add("price of a head", "%s %s", money(s.PricePerHead.Value), s.Currency)
	}
	if s.SpacePrice.Known {
		add("price of space", "%s %s a square metre and day", money(s.SpacePrice.Value), s.Currency)
	}
	return list
}

func germination(s timing.Study) string {
	text := fmt.Sprintf("%.3g %%", 100*s.Germination.Share)
	if s.Germination.Of > 0 {
		text += fmt.Sprintf(" (%d of %d)", s.Germination.CameUp, s.Germination.Of)
	}
	return text
}

// money is a price as it was written: two decimals, more where it has more.
func money(x float64) string {
	text := fixed(x, 4)
	for strings.HasSuffix(text, "0") && len(text)-strings.IndexByte(text, '.') > 3 {
		text = strings.TrimSuffix(text, "0")
	}
	return text
}
