package report

import (
	"crypto/sha256"
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"headhours/timing/words"
)

// ICal writes a season as iCalendar (RFC 5545): an all-day event for each day
// with work. An event's identifier comes from the study, the way of working, the
// first day and its own day alone, so that importing a season again brings its
// events up to date rather than adding to them. now is the time of writing. The
// error is w's.
func ICal(w io.Writer, s DatedCalendar, study string, now time.Time) error {
	calendar := ics.NewCalendarFor("headhours")
	calendar.SetMethod(ics.MethodPublish)
	calendar.SetName(calendarTitle(s))
	season := sha256.Sum256([]byte(study + "\x00" + s.Workflow + "\x00" + s.Start.Format(time.DateOnly)))
	for _, d := range s.Days {
		event := calendar.AddEvent(fmt.Sprintf("%x-day-%d@headhours.invalid", season[:8], d.Day))
		event.SetDtStampTime(now.UTC())
		date := s.Start.AddDate(0, 0, d.Day)
		event.SetAllDayStartAt(date)
		event.SetAllDayEndAt(date.AddDate(0, 0, 1))
		var steps, lines []string
		for _, j := range d.Tasks {
			steps = append(steps, words.Show(j.Step))
			line := fmt.Sprintf("%s: %s", words.Show(j.Step), words.Count(j.Count))
			if j.Hours.Known {
				line += ", " + words.Duration(j.Hours.Value)
			} else {
				line += ", not timed"
			}
			lines = append(lines, line)
		}
		event.SetSummary(fmt.Sprintf("%s: %s", dayHours(d), strings.Join(steps, ", ")))
		event.SetDescription(strings.Join(lines, "\n"))
		event.SetTimeTransparency(ics.TransparencyTransparent)
	}
	return calendar.SerializeTo(w)
}
