package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// DatedCalendar is a calendar with what a person asks of it: dates, hands, and how much
// a week can bear.
type DatedCalendar struct {
	answer.Calendar
	Start       time.Time `json:"-"`              // the day of the first sowing; zero where not known
	HoursPerDay float64   `json:"-"`              // that a person works; 0 where not asked
	Crew        *int      `json:"crew,omitempty"` // people for the peak day
	HoursWeek   float64   `json:"hours_per_week,omitempty"`
	MaxHeads    *int      `json:"most_heads,omitempty"` // a grow, within HoursWeek
	MaxPerWeek  float64   `json:"most_heads_per_week,omitempty"`
}

// Calendar lays out which day takes how many hours.
func Calendar(s DatedCalendar) Doc {
	doc := Doc{Title: calendarTitle(s), Notes: s.Notes}
	doc.say("days", calendarSentences(s)...)
	if len(s.Gaps) > 0 {
		doc.say("gaps", fmt.Sprintf("At least: %s.", neverTimed(s.Gaps)))
	}
	if len(s.Moved) > 0 {
		doc.say("moved", movedBlock(s))
	}
	doc.show("days", daysTable(s))
	doc.show("jobs", jobsTable(s))
	if s.Weekdays != nil {
		doc.show("week", weekdayTable(s))
	}
	return doc
}

func calendarTitle(s DatedCalendar) string {
	if s.EveryDays == nil {
		return fmt.Sprintf("%s: one grow of %s, day by day", words.Show(s.Workflow), words.Many(s.Heads, "head"))
	}
	return fmt.Sprintf("%s: %s %s %s", words.Show(s.Workflow), words.Many(s.Heads, "head"), StartWords(s.Calendar), words.EveryDays(*s.EveryDays))
}

// StartWords is how a grow begins: young plants that are bought are not sown.
func StartWords(c answer.Calendar) string {
	if c.Gives.Bought {
		return "set out"
	}
	return "sown"
}

// beginning is the work that a grow begins with.
func beginning(s DatedCalendar) string {
	if s.Gives.Bought {
		return "setting out"
	}
	return "sowing"
}

func calendarSentences(s DatedCalendar) []string {
	var lines []string
	peak, at := 0.0, 0
	for _, d := range s.Days {
		if d.Hours > peak {
			peak, at = d.Hours, d.Day
		}
	}
	switch {
	case peak == 0 && len(s.Gaps) == 0:
		return []string{"There is nothing to do for it, so its days have no hours."}
	case peak == 0:
		return []string{"Nothing that it needs was timed or judged yet, so its days have no hours."}
	}
	if s.EveryDays != nil {
		text := fmt.Sprintf("A steady week takes %s%s and gives %s", atLeastWords(s.Gaps), words.Duration(s.SteadyWeek.Value), words.Numbered(words.Count3(s.HeadsPerWeek.Value), "head"))
		if what := harvestWords(s.Gives, 7/float64(*s.EveryDays)); what != "" {
			text += ": " + what
		}
		lines = append(lines, text+".")
		steady := words.Duration(s.SteadyWeek.Value)
		if len(s.StartUp) > 1 && slices.ContainsFunc(s.StartUp, func(week float64) bool { return words.Duration(week) != steady }) {
			text := fmt.Sprintf("It is steady after %s", words.Many(len(s.StartUp), "week"))
			if first := s.StartUp[0]; first > 0 {
				text += fmt.Sprintf("; the first week takes %s%s", atLeastWords(s.Gaps), words.Duration(first))
			}
			lines = append(lines, text+".")
		}
	} else {
		text := fmt.Sprintf("It has work on %s, from %s to day %d.", words.Many(len(s.Days), "day"), beginning(s), s.LastDay)
		if what := harvestWords(s.Gives, 1); what != "" {
			text += " It gives " + what + "."
		}
		lines = append(lines, text)
	}
	text := fmt.Sprintf("The longest day takes %s%s: %s.", atLeastWords(s.Gaps), words.Duration(peak), dayName(s, at))
	if s.Crew != nil {
		text += fmt.Sprintf(" At %s a day each that is work for %s.", words.Numbered(words.Count(s.HoursPerDay), "hour"), words.Many(*s.Crew, "person"))
	}
	lines = append(lines, text)
	if s.MaxHeads != nil {
		lines = append(lines, maxSentence(s))
	}
	return lines
}

func maxSentence(s DatedCalendar) string {
	hours, are := words.Numbered(words.Count(s.HoursWeek), "hour"), "are"
	if *s.MaxHeads == 0 {
		if hours == "1 hour" {
			are = "is"
		}
		return fmt.Sprintf("%s a week %s not enough for a single head a grow.", hours, are)
	}
	text := fmt.Sprintf("With %s a week: at most %s a grow, %s a week", hours, words.Many(*s.MaxHeads, "head"), words.Numbered(words.AtMost(s.MaxPerWeek), "head"))
	if what := harvestWords(s.Gives, s.MaxPerWeek/float64(s.Heads)); what != "" {
		text += ": " + what
	}
	return text + "."
}

// dayName is a day by its number and, where the first is known, its date.
func dayName(s DatedCalendar, day int) string {
	name := fmt.Sprintf("day %d", day)
	if !s.Start.IsZero() {
		name += s.Start.AddDate(0, 0, day).Format(", Mon 2006-01-02")
	}
	return name
}

func movedBlock(s DatedCalendar) string {
	lines := []string{"Moved off days that are free:"}
	for i, m := range s.Moved {
		if i == 12 {
			lines = append(lines, fmt.Sprintf("and %d more.", len(s.Moved)-i))
			break
		}
		lines = append(lines, fmt.Sprintf("%s, from %s to %s.", words.Names(m.Steps), dayName(s, m.From), dayName(s, m.To)))
	}
	return strings.Join(lines, "\n")
}

func daysTable(s DatedCalendar) Table {
	t := Table{Title: "Days", For: onlyPeople, Columns: []Column{
		{Head: "what"},
		{Head: "day", Right: true},
		{Head: "date"},
		{Head: "minutes", Right: true},
		{Head: ""},
	}}
	longest := 0.0
	for _, d := range s.Days {
		longest = math.Max(longest, d.Hours)
	}
	for _, d := range s.Days {
		var steps []string
		for _, j := range d.Tasks {
			steps = append(steps, words.Show(j.Step))
		}
		date := ""
		if !s.Start.IsZero() {
			date = s.Start.AddDate(0, 0, d.Day).Format("Mon 2006-01-02")
		}
		t.Rows = append(t.Rows, []Cell{
			{Text: strings.Join(steps, ", ")}, {Text: fmt.Sprint(d.Day)}, {Text: date},
			{Text: atLeast(untimedOf(d), dayMinutes(d))}, {Text: bar(d.Hours, longest)},
		})
	}
	return t
}

// untimedOf is the steps of a day that were neither timed nor judged.
func untimedOf(d answer.CalendarDay) []string {
	var gaps []string
	for _, j := range d.Tasks {
		if !j.Hours.Known {
			gaps = append(gaps, j.Step)
		}
	}
	return gaps
}

// dayMinutes is what is known of the minutes of a day, "?" where that is nothing.
func dayMinutes(d answer.CalendarDay) string {
	if len(d.Tasks) > 0 && len(untimedOf(d)) == len(d.Tasks) {
		return "?"
	}
	return words.Fixed(d.Hours*60, 0)
}

// dayHours is the same in words, for the head of a day in a calendar.
func dayHours(d answer.CalendarDay) string {
	gaps := untimedOf(d)
	if len(d.Tasks) > 0 && len(gaps) == len(d.Tasks) {
		return "not timed"
	}
	return atLeastWords(gaps) + words.Duration(d.Hours)
}

func jobsTable(s DatedCalendar) Table {
	t := Table{Title: "Jobs", For: Programs, Columns: []Column{
		{Head: "day", Key: "day"}, {Head: "date", Key: "date"}, {Head: "step", Key: "step"},
		{Head: "count", Key: "count"}, {Head: "hours", Key: "hours_h"},
	}}
	for _, d := range s.Days {
		date := ""
		if !s.Start.IsZero() {
			date = s.Start.AddDate(0, 0, d.Day).Format(time.DateOnly)
		}
		for _, j := range d.Tasks {
			t.Rows = append(t.Rows, []Cell{{Value: d.Day}, {Value: date}, {Value: j.Step}, {Value: j.Count}, {Value: j.Hours}})
		}
	}
	return t
}

// weekTitle says on which weekday a steady week is taken to be sown.
func weekTitle(s DatedCalendar) string {
	switch {
	case *s.EveryDays%7 != 0:
		return "A steady week, by weekday"
	case s.Start.IsZero():
		return fmt.Sprintf("A steady week, if %s on Mondays", StartWords(s.Calendar))
	}
	return fmt.Sprintf("A steady week, %s on %s", StartWords(s.Calendar), words.Plural(s.Start.Weekday().String()))
}

func weekdayTable(s DatedCalendar) Table {
	t := Table{Title: weekTitle(s), Columns: []Column{
		{Head: "weekday", Key: "weekday"}, {Head: "minutes", Key: "hours_h", Right: true}, {},
	}}
	longest := 0.0
	for _, h := range s.Weekdays {
		longest = math.Max(longest, h)
	}
	for i, h := range s.Weekdays {
		name := time.Weekday((i + 1) % 7).String()
		t.Rows = append(t.Rows, []Cell{{name, name}, {words.Fixed(h*60, 0), h}, {Text: bar(h, longest)}})
	}
	return t
}
