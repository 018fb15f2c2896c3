package report

import (
	"strings"
	"testing"
	"time"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// What a calendar says first, of one grow and of one every so many days.
func TestCalendarInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		season DatedCalendar
		change func(s *DatedCalendar)
		want   []string
	}{
		{"one grow", growOf(), func(s *DatedCalendar) {}, []string{"It has work on 3 days, from sowing to day 35.", "The longest day takes 50 minutes: day 35."}},
		{"one day", growOf(), func(s *DatedCalendar) { s.Days, s.LastDay = s.Days[:1], 0 }, []string{"It has work on 1 day, from sowing to day 0.", "The longest day takes 10 minutes: day 0."}},
		{"bought", growOf(), func(s *DatedCalendar) { s.Gives.Bought = true }, []string{"It has work on 3 days, from setting out to day 35.", "The longest day takes 50 minutes: day 35."}},
		{"bags", growOf(), func(s *DatedCalendar) { s.Gives = bags() }, []string{"It has work on 3 days, from sowing to day 35. It gives 20 bags to sell, 3.2 kg.", "The longest day takes 50 minutes: day 35."}},
		{"dated", growOf(), func(s *DatedCalendar) { s.Start = day0 }, []string{"It has work on 3 days, from sowing to day 35.", "The longest day takes 50 minutes: day 35, Mon 2026-04-06."}},
		{"the first of equal days", growOf(), func(s *DatedCalendar) { s.Days[1].Hours = s.Days[2].Hours }, []string{"It has work on 3 days, from sowing to day 35.", "The longest day takes 50 minutes: day 14."}},
		{"nothing timed", growOf(), func(s *DatedCalendar) { s.Days, s.Gaps = []answer.CalendarDay{{Day: 0}}, []string{"sow"} }, []string{"Nothing that it needs was timed or judged yet, so its days have no hours."}},
		{"no day", growOf(), func(s *DatedCalendar) { s.Days = nil }, []string{"There is nothing to do for it, so its days have no hours."}},
		{"weekly", everyWeek(), func(s *DatedCalendar) {},
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "It is steady after 5 weeks; the first week takes 30 minutes.", "The longest day takes 50 minutes: day 35."}},
		{"every ten days, a head a week, steady at once", everyWeek(), func(s *DatedCalendar) { s.EveryDays, s.HeadsPerWeek, s.StartUp = ref(10), known(1), s.StartUp[:1] },
			[]string{"A steady week takes 2.5 hours and gives 1 head.", "The longest day takes 50 minutes: day 35."}},
		{"steady after two weeks", everyWeek(), func(s *DatedCalendar) { s.StartUp = s.StartUp[:2] },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "It is steady after 2 weeks; the first week takes 30 minutes.", "The longest day takes 50 minutes: day 35."}},
		{"all weeks alike", everyWeek(), func(s *DatedCalendar) { s.StartUp = []float64{s.SteadyWeek.Value, s.SteadyWeek.Value} },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35."}},
		{"bags every fortnight", everyWeek(), func(s *DatedCalendar) { s.EveryDays, s.Gives, s.StartUp = ref(14), bags(), nil },
			[]string{"A steady week takes 2.5 hours and gives 48 heads: 10 bags to sell, 1.6 kg.", "The longest day takes 50 minutes: day 35."}},
		{"hands", everyWeek(), func(s *DatedCalendar) { s.StartUp, s.HoursPerDay, s.Crew = nil, 7.5, ref(2) },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35. At 7.5 hours a day each that is work for 2 people."}},
		{"one hand for an hour", everyWeek(), func(s *DatedCalendar) { s.StartUp, s.HoursPerDay, s.Crew = nil, 1, ref(1) },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35. At 1 hour a day each that is work for 1 person."}},
		{"a step lacks", everyWeek(), func(s *DatedCalendar) { s.Gaps = []string{"weigh"} },
			[]string{"A steady week takes at least 2.5 hours and gives 48 heads.", "It is steady after 5 weeks; the first week takes at least 30 minutes.", "The longest day takes at least 50 minutes: day 35."}},
		{"how much fits", everyWeek(), func(s *DatedCalendar) { s.StartUp, s.HoursWeek, s.MaxHeads, s.MaxPerWeek = nil, 20, ref(384), 384 },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35.", "With 20 hours a week: at most 384 heads a grow, 384 heads a week."}},
		{"how many bags fit", everyWeek(), func(s *DatedCalendar) {
			s.StartUp, s.HoursWeek, s.MaxHeads, s.MaxPerWeek, s.Gives = nil, 1, ref(1), 96, bags()
		}, []string{"A steady week takes 2.5 hours and gives 48 heads: 20 bags to sell, 3.2 kg.", "The longest day takes 50 minutes: day 35.", "With 1 hour a week: at most 1 head a grow, 96 heads a week: 40 bags to sell, 6.4 kg."}},
		{"many fit", everyWeek(), func(s *DatedCalendar) {
			s.StartUp, s.HoursWeek, s.MaxHeads, s.MaxPerWeek = nil, 2000, ref(21848), 21848
		},
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35.", "With 2000 hours a week: at most 21848 heads a grow, 21848 heads a week."}},
		{"nothing fits", everyWeek(), func(s *DatedCalendar) { s.StartUp, s.HoursWeek, s.MaxHeads = nil, 1, ref(0) },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35.", "1 hour a week is not enough for a single head a grow."}},
		{"nothing fits either", everyWeek(), func(s *DatedCalendar) { s.StartUp, s.HoursWeek, s.MaxHeads = nil, 1.5, ref(0) },
			[]string{"A steady week takes 2.5 hours and gives 48 heads.", "The longest day takes 50 minutes: day 35.", "1.5 hours a week are not enough for a single head a grow."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.change(&c.season)
			assert.Equal(t, c.want, Calendar(c.season).Section("days").Answer)
		})
	}
}

func TestTitlesOfCalendars(t *testing.T) {
	t.Parallel()
	s := everyWeek()
	assert.Equal(t, "tray: 48 heads sown every 7 days", Calendar(s).Title)
	s.EveryDays, s.Heads, s.Gives.Bought = ref(1), 1, true
	assert.Equal(t, "tray: 1 head set out every day", Calendar(s).Title)
	s.EveryDays, s.Weekdays = nil, nil
	assert.Equal(t, "tray: one grow of 1 head, day by day", Calendar(s).Title)
}

// A steady week begins on the day on which it is sown, where every week is alike.
func TestWeekdaysOfASteadyWeek(t *testing.T) {
	t.Parallel()
	s := everyWeek()
	assert.Equal(t, "A steady week, if sown on Mondays", weekTitle(s))
	s.Gives.Bought = true
	assert.Equal(t, "A steady week, if set out on Mondays", weekTitle(s))
	s.Start = day0.AddDate(0, 0, 3)
	assert.Equal(t, "A steady week, set out on Thursdays", weekTitle(s))
	s.EveryDays = ref(10)
	assert.Equal(t, "A steady week, by weekday", weekTitle(s))
	s.EveryDays = ref(14)
	assert.Equal(t, "A steady week, set out on Thursdays", weekTitle(s))
	rows := weekdayTable(s).Rows
	assert.Equal(t, []string{"Monday", "50", "▇▇▇▇▇▇▇"}, texts(rows[0]))
	assert.Equal(t, []string{"Sunday", "60", "▇▇▇▇▇▇▇▇"}, texts(rows[6]))
	assert.Equal(t, []string{"Saturday", "0", ""}, texts(rows[5]))
	s.Weekdays = nil
	assert.Nil(t, Calendar(s).Section("week").Table)
}

// A day whose work was never timed has no 0 minutes, and one of which a part was not has
// at least the rest.
func TestDaysWithWorkThatWasNeverTimed(t *testing.T) {
	t.Parallel()
	s := growOf()
	s.Gaps = []string{"weigh", "sow"}
	s.Days[0].Hours, s.Days[0].Tasks[0].Hours = 0, unknown
	s.Days[2].Hours, s.Days[2].Tasks[1].Hours = 48.0/60, unknown
	doc := Calendar(s)
	assert.Equal(t, []string{"At least: weigh and sow were not timed."}, doc.Section("gaps").Answer)
	var minutes []string
	for _, row := range doc.Section("days").Table.Rows {
		minutes = append(minutes, row[3].Text)
	}
	assert.Equal(t, []string{"?", "40", "≥ 48"}, minutes)
	jobs := doc.Section("jobs").Table.Rows
	assert.Empty(t, plain(jobs[0][4].Value))
	s.Start = day0
	var b strings.Builder
	assert.NoError(t, ICal(&b, s, "study", day0))
	calendar := unfolded(b.String())
	assert.Contains(t, calendar, "SUMMARY:not timed: sow\n")
	assert.Contains(t, calendar, `SUMMARY:at least 48 minutes: harvest\, weigh`)
	assert.Contains(t, calendar, `DESCRIPTION:harvest: 48\, 48 minutes\nweigh: 48\, not timed`)
}

func TestMovedDays(t *testing.T) {
	t.Parallel()
	s := growOf()
	assert.Empty(t, Calendar(s).Section("moved").Answer)
	for i := range 13 {
		s.Moved = append(s.Moved, answer.Move{From: 7*i + 6, To: 7*i + 5, Steps: []string{"sow", "cut"}})
	}
	lines := strings.Split(Calendar(s).Section("moved").Answer[0], "\n")
	assert.Len(t, lines, 14)
	assert.Equal(t, "Moved off days that are free:", lines[0])
	assert.Equal(t, "sow and cut, from day 6 to day 5.", lines[1])
	assert.Equal(t, "and 1 more.", lines[13])
	s.Moved, s.Start = s.Moved[:12], day0
	lines = strings.Split(Calendar(s).Section("moved").Answer[0], "\n")
	assert.Equal(t, "sow and cut, from day 83, Sun 2026-05-24 to day 82, Sat 2026-05-23.", lines[12])
}

// unfolded is iCalendar as it was before lines were folded (RFC 5545, 3.1).
func unfolded(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n ", ""), "\r\n", "\n")
}

// A calendar for other programs: whole days, one event a day, the same identifier whenever
// it is written.
func TestICal(t *testing.T) {
	t.Parallel()
	s := everyWeek()
	s.Start = day0
	now := time.Date(2026, time.January, 5, 6, 7, 8, 0, time.FixedZone("", 3600))
	var b, again strings.Builder
	assert.NoError(t, ICal(&b, s, "study", now))
	calendar := unfolded(b.String())
	assert.Equal(t, 3, strings.Count(calendar, "BEGIN:VEVENT\n"))
	for _, line := range []string{
		"METHOD:PUBLISH", "NAME:tray: 48 heads sown every 7 days", "DTSTART;VALUE=DATE:20260302", "DTEND;VALUE=DATE:20260303", "DTSTART;VALUE=DATE:20260406", "DTEND;VALUE=DATE:20260407",
		"DTSTAMP:20260105T050708Z", "SUMMARY:10 minutes: sow", `SUMMARY:50 minutes: harvest\, weigh`, `DESCRIPTION:harvest: 48\, 48 minutes\nweigh: 48\, 2.0 minutes`, "TRANSP:TRANSPARENT",
	} {
		assert.Contains(t, calendar, line+"\n")
	}
	assert.NoError(t, ICal(&again, s, "study", now.AddDate(0, 1, 0)))
	ids := func(text string) (ids []string) {
		for _, line := range strings.Split(text, "\n") {
			if id, ok := strings.CutPrefix(line, "UID:"); ok {
				ids = append(ids, id)
			}
		}
		return ids
	}
	first := ids(calendar)
	assert.Len(t, first, 3)
	assert.NotEqual(t, first[0], first[1])
	assert.Equal(t, first, ids(unfolded(again.String())))
	for what, other := range map[string]struct {
		study, workflow string
		start           time.Time
	}{
		"study": {"another study", s.Workflow, s.Start}, "way": {"study", "raft", s.Start}, "first day": {"study", s.Workflow, s.Start.AddDate(0, 0, 1)},
	} {
		changed := s
		changed.Workflow, changed.Start = other.workflow, other.start
		again.Reset()
		assert.NoError(t, ICal(&again, changed, other.study, now))
		assert.NotEqual(t, first[0], ids(unfolded(again.String()))[0], "of another "+what)
	}
	assert.ErrorIs(t, ICal(noRoom{}, s, "study", now), errNoRoom)
	s.Days[0].Tasks[0].Step = "a;b,c\nd\x1b"
	b.Reset()
	assert.NoError(t, ICal(&b, s, "study", now))
	assert.Contains(t, unfolded(b.String()), `SUMMARY:10 minutes: a\;b\,c\\nd\\x1b`)
}

// A season's calendar has the week's total on its first day with work.
func TestPlaceICal(t *testing.T) {
	t.Parallel()
	p := seasonOf(1)
	job := func(step string, count float64, mean float64) answer.CalendarJob {
		return answer.CalendarJob{Step: step, Count: count, Hours: minutes(mean)}
	}
	p.Calendar = []answer.CalendarDay{
		{Day: 1, Hours: 0.5, Tasks: []answer.CalendarJob{job("sow", 60.00004, 30)}},
		{Day: 3, Hours: 3, Tasks: []answer.CalendarJob{job("harvest", 48, 180), {Step: "weigh", Count: 48}}},
		{Day: 14, Tasks: []answer.CalendarJob{{Step: "weigh", Count: 48}}},
	}
	var b strings.Builder
	assert.NoError(t, SeasonICal(&b, p, day0, "study", day0))
	calendar := unfolded(b.String())
	for _, line := range []string{
		"NAME:The whole place\\, 4 weeks from 2026-03-02", "DTSTART;VALUE=DATE:20260303", "DTEND;VALUE=DATE:20260304", "SUMMARY:30 minutes: sow",
		`DESCRIPTION:This week: 8.0 hours in all.\nsow: 60\, 30 minutes`, `DESCRIPTION:harvest: 48\, 180 minutes\nweigh: 48\, not timed`,
		`SUMMARY:at least 3.0 hours: harvest\, weigh`, "SUMMARY:not timed: weigh", `DESCRIPTION:This week: 12 hours in all.\nweigh: 48\, not timed`, "DTSTART;VALUE=DATE:20260316",
	} {
		assert.Contains(t, calendar, line+"\n")
	}
	assert.Equal(t, 3, strings.Count(calendar, "BEGIN:VEVENT\n"))
	assert.Equal(t, 2, strings.Count(calendar, "This week: "))
	assert.ErrorIs(t, SeasonICal(noRoom{}, p, day0, "study", day0), errNoRoom)
}
