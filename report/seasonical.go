package report

import (
	"crypto/sha256"
	"fmt"
	"io"
	"strings"
	"time"

	"headhours/timing/answer"
	"headhours/timing/words"

	ics "github.com/arran4/golang-ical"
)

// SeasonICal writes a season of the whole place as iCalendar (RFC 5545): an all-day event
// for each day with work, with its tasks and minutes; that of a week's first day has the
// week's total too. Identifiers come from the study and the day's date alone. now is the
// time of writing. The error is w's.
func SeasonICal(w io.Writer, p answer.SeasonPlan, start time.Time, study string, now time.Time) error {
	calendar := ics.NewCalendarFor("headhours")
	calendar.SetMethod(ics.MethodPublish)
	calendar.SetName(seasonTitle(p))
	id := sha256.Sum256([]byte(study + "\x00season\x00" + start.Format(time.DateOnly)))
	before := -1
	for _, d := range p.Calendar {
		event := calendar.AddEvent(fmt.Sprintf("%x-season-%d@headhours.invalid", id[:8], d.Day))
		event.SetDtStampTime(now.UTC())
		date := start.AddDate(0, 0, d.Day)
		event.SetAllDayStartAt(date)
		event.SetAllDayEndAt(date.AddDate(0, 0, 1))
		var steps, lines []string
		for _, j := range d.Tasks {
			steps = append(steps, words.Show(j.Step))
			lines = append(lines, jobLine(j))
		}
		if week := d.Day / 7; week != before {
			before = week
			lines = append([]string{fmt.Sprintf("This week: %s in all.", words.Duration(p.Weeks[week].Hours))}, lines...)
		}
		event.SetSummary(fmt.Sprintf("%s: %s", dayHours(d), strings.Join(steps, ", ")))
		event.SetDescription(strings.Join(lines, "\n"))
		event.SetTimeTransparency(ics.TransparencyTransparent)
	}
	return calendar.SerializeTo(w)
}

// jobLine is a task of a day in minutes.
func jobLine(j answer.CalendarJob) string {
	line := fmt.Sprintf("%s: %s", words.Show(j.Step), words.Count(words.Rounded(j.Count, 4)))
	if !j.Hours.Known {
		return line + ", not timed"
	}
	minutes := j.Hours.Value * 60
	return line + ", " + words.Numbered(words.Plain(minutes), "minute")
}
