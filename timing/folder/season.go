package folder

import (
	"fmt"
	"time"

	"headhours/timing/study"
)

// The days of a season: a week to four years.
const (
	minSeason = 7
	maxSeason = 1456
)

// season reads [season].
func (d *decoder) season(f field) {
	s := &d.study.Season
	d.oneTable(f, "[season]", keys{
		{"start", optional, date(&s.Start)},
		{"days", optional, whole(&s.Days, atLeast(minSeason), atMost(maxSeason))},
	})
	_, given := f.value.get("start")
	d.startUnread = given && s.Start.IsZero()
	if days, found := f.value.get("days"); found && s.Days%7 != 0 {
		d.want(days, "whole weeks, a multiple of 7")
	}
}

// date reads a day of the calendar.
func date(to *time.Time) keyReader {
	return func(d *decoder, f field) {
		day, err := time.Parse(time.DateOnly, f.value.text)
		if f.value.kind != aText && f.value.kind != aDate || err != nil {
			d.want(f, `a date such as "2027-03-01"`)
			return
		}
		*to = day
	}
}

// sowing reads a [[sowing]].
func (d *decoder) sowing(n *node) study.Sowing {
	var s study.Sowing
	d.table(n, "[[sowing]]", keys{
		{"workflow", needed, knownName(&s.Workflow, &d.names.workflows, "workflow")},
		{"heads", optional, divides(maybe(&s.Heads, above(0)))},
		{"cells", optional, divides(maybe(&s.Cells, above(0)))},
		{"every_days", optional, whole(&s.EveryDays, atLeast(1))},
		{"from", optional, d.seasonDay(&s.From)},
		{"until", optional, d.until(&s.Until)},
	})
	heads, hasHeads := n.get("heads")
	cells, hasCells := n.get("cells")
	switch {
	case hasHeads && hasCells:
		d.problem(max(heads.at, cells.at), "a sowing has both heads and cells, want one of them")
	case !hasHeads && !hasCells:
		d.lack(n.at, `a sowing lacks the key "heads" or "cells"`)
	}
	d.checkDays(n, s)
	return s
}

// unread is the day of a sowing that could not be read.
const unread = -1 << 30

// seasonDay reads a day of the season, by number or by date.
func (d *decoder) seasonDay(to *int) keyReader {
	return func(_ *decoder, f field) {
		*to = unread
		if f.value.kind != aText && f.value.kind != aDate {
			whole(to, atLeast(0))(d, f)
			return
		}
		var day time.Time
		before := d.problems.Count()
		date(&day)(d, f)
		switch start := d.study.Season.Start; {
		case d.problems.Count() > before, d.startUnread:
		case start.IsZero():
			d.lack(f.value.at, `%s: a date needs the season's first day: say start = "%s" or earlier in [season], or give %s as a number of days`, f.name, f.value.text, f.name)
		default:
			*to = int(day.Sub(start).Hours() / 24)
		}
	}
}

func (d *decoder) until(to **int) keyReader {
	return func(_ *decoder, f field) {
		day := unread
		if d.seasonDay(&day)(d, f); day != unread {
			*to = &day
		}
	}
}

// checkDays refuses a sowing that never falls within the season and its own days.
func (d *decoder) checkDays(n *node, s study.Sowing) {
	from, hasFrom := n.get("from")
	until, hasUntil := n.get("until")
	if s.From == unread || hasUntil && s.Until == nil {
		return
	}
	days := d.study.Season.Length()
	if s.From < 0 || s.From >= days {
		d.want(from, fmt.Sprintf("a day in the season, 0 to %d%s: it is never sown", days-1, d.dates(days)))
		return
	}
	if s.Until != nil && *s.Until < s.From {
		first := "day 0, on which it is first sown"
		if hasFrom {
			first = "from, " + from.value.text
		}
		d.want(until, "no day before "+first)
	}
}

// dates says the first and last date of the season, where it has them.
func (d *decoder) dates(days int) string {
	s := d.study.Season
	if s.Start.IsZero() {
		return ""
	}
	return fmt.Sprintf(", %s to %s", *s.Date(0), *s.Date(days - 1))
}
