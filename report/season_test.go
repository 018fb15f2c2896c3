package report

import (
	"strings"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// What a season says first, by what the study tells.
func TestSeasonInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		words  func(p answer.SeasonPlan) string
		change func(p *answer.SeasonPlan)
		want   string
	}{
		{"weeks", weekWords, func(p *answer.SeasonPlan) {}, "A week of the steady part takes 10.0 hours; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"weeks without dates", weekWords, func(p *answer.SeasonPlan) { p.Weeks[2].Date = nil }, "A week of the steady part takes 10.0 hours; the busiest, week 2, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"all alike", weekWords, func(p *answer.SeasonPlan) { p.Steady = weeks(11.92, 11.9, 11.95) }, "A week of the steady part takes 12.0 hours, give or take 1.0; no week takes more. The season takes 40 hours, give or take 4."},
		{"hardly alike", weekWords, func(p *answer.SeasonPlan) { p.Steady = weeks(11.9, 11.9, 11.9) }, "A week of the steady part takes 11.9 hours; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"by turns", weekWords, func(p *answer.SeasonPlan) { p.Steady = weeks(10.5, 9, 12) }, "A week of the steady part takes 10.5 hours on average, in weeks of 9.0 to 12.0; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"by turns, and one more", weekWords, func(p *answer.SeasonPlan) { p.Steady = weeks(9.5, 9, 10) }, "A week of the steady part takes 9.5 hours on average, in weeks of 9.0 to 10.0; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"no steady part", weekWords, func(p *answer.SeasonPlan) { p.Steady = answer.SteadyWeeks{} }, "The busiest week, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},
		{"doubt not known", weekWords, func(p *answer.SeasonPlan) {
			p.Low, p.High, p.Weeks[2].Low, p.Weeks[2].High = unknown, unknown, unknown, unknown
		},
			"A week of the steady part takes 10 hours; the busiest, week 2, from 2026-03-16, takes 12 hours. The season takes 40 hours."},
		{"nothing in the steady part", weekWords, func(p *answer.SeasonPlan) { p.Steady = weeks(0, 0, 0) }, "A week of the steady part takes 0 seconds; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0. The season takes 40 hours, give or take 4."},

		{"earned", earnWords, func(p *answer.SeasonPlan) {}, "An hour of your own earns 20.50 EUR (somewhere between 18.25 and 22.75): 780 EUR are left of 1000, after supplies, space, overheads and hired hours."},
		{"earned, doubt not known", earnWords, func(p *answer.SeasonPlan) { p.PerOwnHourLow, p.MarginLow = unknown, unknown }, "An hour of your own earns 20.50 EUR: 780 EUR are left of 1000, after supplies, space, overheads and hired hours."},
		{"earned, doubt of what is left", earnWords, func(p *answer.SeasonPlan) {
			p.PerOwnHourLow, p.MarginLow, p.MarginHigh = unknown, known(-388), known(937)
		}, "An hour of your own earns 20.50 EUR, how surely is not known: 780 EUR (somewhere between -388 and 937) are left of 1000, after supplies, space, overheads and hired hours."},
		{"earned for sure", earnWords, func(p *answer.SeasonPlan) { p.PerOwnHourLow = p.PerOwnHourHigh }, "An hour of your own earns 20.50 EUR: 780 EUR are left of 1000, after supplies, space, overheads and hired hours."},
		{"no price", earnWords, func(p *answer.SeasonPlan) { p.Revenue = unknown }, "What an hour earns is not known: not everything that is sold has a price, or a weight where it is sold by weight."},
		{"no own hours", earnWords, func(p *answer.SeasonPlan) { p.PerOwnHour, p.Currency = unknown, nil }, "780 money are left over, and no hours of your own."},

		{"charge", chargeWords, func(p *answer.SeasonPlan) {}, `For 25.00 EUR an hour charge: 1.87 EUR a head of "tray" (now 1.60); 1.87 EUR a head of "in place" (now 1.60). That is 1.17 times today's prices, all taken together.`},
		{"charge at least", chargeWords, func(p *answer.SeasonPlan) {
			p.Gaps, p.Sowings, p.PriceFactor = []string{"weigh"}, p.Sowings[:1], unknown
		}, `For 25.00 EUR an hour charge at least: 1.87 EUR a head of "tray" (now 1.60).`},
		{"charge for a bag", chargeWords, func(p *answer.SeasonPlan) {
			p.Sowings, p.PriceFactor = p.Sowings[:1], unknown
			p.Sowings[0].Unit, p.Sowings[0].Price, p.Sowings[0].PriceNeeded = "bag", unknown, known(0.042)
		}, `For 25.00 EUR an hour charge: 0.042 EUR a bag of "tray".`},
		{"charge for a way sown twice", chargeWords, func(p *answer.SeasonPlan) { p.Sowings[1].Workflow, p.PriceFactor = "tray", unknown }, `For 25.00 EUR an hour charge: 1.87 EUR a head of "tray" (now 1.60).`},
		{"what to earn is not said", chargeWords, func(p *answer.SeasonPlan) { p.Earn = unknown }, "What to charge is known once an hour's worth is said, or the study gives a wage."},
		{"no price helps", chargeWords, func(p *answer.SeasonPlan) { p.Sowings[0].PriceNeeded, p.Sowings[1].PriceNeeded = unknown, unknown }, ""},
		{"charge for many", chargeWords, func(p *answer.SeasonPlan) {
			for _, name := range []string{"a", "b", "c", "d", "e", "f"} {
				more := p.Sowings[0]
				more.Workflow, more.Price = name, unknown
				p.Sowings = append(p.Sowings, more)
			}
			p.PriceFactor = unknown
		}, `For 25.00 EUR an hour charge: 1.87 EUR a head of "tray" (now 1.60); 1.87 EUR a head of "in place" (now 1.60); 1.87 EUR a head of "a"; 1.87 EUR a head of "b"; 1.87 EUR a head of "c"; 1.87 EUR a head of "d"; 2 more in the table.`},

		{"charge for six", chargeWords, func(p *answer.SeasonPlan) {
			for _, name := range []string{"a", "b", "c", "d"} {
				more := p.Sowings[0]
				more.Workflow, more.Price = name, unknown
				p.Sowings = append(p.Sowings, more)
			}
			p.PriceFactor = unknown
		}, `For 25.00 EUR an hour charge: 1.87 EUR a head of "tray" (now 1.60); 1.87 EUR a head of "in place" (now 1.60); 1.87 EUR a head of "a"; 1.87 EUR a head of "b"; 1.87 EUR a head of "c"; 1.87 EUR a head of "d".`},
		{"hours run out", hoursWords, func(p *answer.SeasonPlan) {}, "Your 10 hours a week run out in 1 week, first in week 2, from 2026-03-16: 2.0 hours are hired, for 30.00 EUR."},
		{"one hour runs out", hoursWords, func(p *answer.SeasonPlan) { p.OwnWeek, p.Weeks[0].Hired = known(1), 1 }, "Your 1 hour a week runs out in 2 weeks, first in week 0, from 2026-03-02: 2.0 hours are hired, for 30.00 EUR."},
		{"hours are enough", hoursWords, func(p *answer.SeasonPlan) {
			for i := range p.Weeks {
				p.Weeks[i].Hired, p.Weeks[i].High = 0, known(10)
			}
		}, "No week takes more than your 10 hours."},
		{"an hour is enough", hoursWords, func(p *answer.SeasonPlan) { p.Weeks[2].Hired, p.OwnWeek = 0, known(1) }, "No week takes more than your 1 hour, as far as the timings tell: one may take up to 13 hours."},
		{"hours may not be enough", hoursWords, func(p *answer.SeasonPlan) { p.Weeks[2].Hired, p.Weeks[2].High = 0, known(11.3) }, "No week takes more than your 10 hours, as far as the timings tell: one may take up to 11 hours."},
		{"hours are enough of what is known", hoursWords, func(p *answer.SeasonPlan) { p.Weeks[2].Hired, p.Gaps = 0, []string{"weigh"} }, "No week takes more than your 10 hours, as far as is known."},
		{"hours run out, at least", hoursWords, func(p *answer.SeasonPlan) { p.Gaps = []string{"weigh"} }, "Your 10 hours a week run out in 1 week, first in week 2, from 2026-03-16: at least 2.0 hours are hired, for 30.00 EUR."},
		{"earned at most", earnWords, func(p *answer.SeasonPlan) { p.PerOwnHourLow, p.Gaps = unknown, []string{"weigh"} }, "An hour of your own earns at most 20.50 EUR: 780 EUR are left of 1000, after supplies, space, overheads and hired hours."},
		{"weeks, at least", weekWords, func(p *answer.SeasonPlan) { p.Gaps = []string{"weigh"} }, "A week of the steady part takes at least 10.0 hours; the busiest, week 2, from 2026-03-16, takes at least 12.0 hours, give or take 1.0. The season takes at least 40 hours, give or take 4."},
		{"own hours are not said", hoursWords, func(p *answer.SeasonPlan) { p.OwnWeek = unknown }, ""},

		{"space is enough", spaceWords, func(p *answer.SeasonPlan) {}, "Space is enough: at most 12.3 of 14 m² are in use, on day 20, Sun 2026-03-22."},
		{"space runs out", spaceWords, func(p *answer.SeasonPlan) { p.Over, p.PeakM2 = &[]int{3, 4}, 14.0014 }, "Space runs out on 2 days, first on day 3, Thu 2026-03-05: up to 14.001 m² are asked for, and there are 14."},
		{"space runs out on an unknown date", spaceWords, func(p *answer.SeasonPlan) { p.Over, p.Start, p.PeakM2 = &[]int{3}, nil, 20 }, "Space runs out on 1 day, first on day 3: up to 20 m² are asked for, and there are 14."},
		{"space is not said", spaceWords, func(p *answer.SeasonPlan) { p.M2 = unknown }, ""},
		{"no space is used", spaceWords, func(p *answer.SeasonPlan) { p.PeakDay = nil }, ""},

		{"no change", changeWords, func(p *answer.SeasonPlan) {}, ""},
		{"the change that saves most", changeWords, func(p *answer.SeasonPlan) {
			p.Changes = []answer.SeasonSaving{{Name: "a", Saved: known(2)}, {Name: "b", Saved: known(3), Low: known(2), High: known(4)}, {Name: "wash less", Saved: known(9), Hygiene: true}, {Name: "c"}}
		}, `First change to make: "b", which would save 3.0 hours in the season, give or take 1.0.`},
		{"a change that may save nothing", changeWords, func(p *answer.SeasonPlan) {
			p.Changes = []answer.SeasonSaving{{Name: "b", Saved: known(3), Low: known(0), High: known(6), Payback: known(0.6)}}
		}, `First change to make: "b", which would save 3 hours in the season, give or take 3; that it saves anything is not sure; its outlay is back after 1 day.`},
		{"a change that pays for itself after the season", changeWords, func(p *answer.SeasonPlan) {
			p.Days, p.Changes = 182, []answer.SeasonSaving{{Name: "b", Saved: known(3), Payback: known(214)}}
		}, `First change to make: "b", which would save 3.0 hours in the season; its outlay is back after 214 days, not within this season.`},
		{"a change whose doubt is not known", changeWords, func(p *answer.SeasonPlan) { p.Changes = []answer.SeasonSaving{{Name: "b", Saved: known(3)}} },
			`First change to make: "b", which would save 3.0 hours in the season.`},
		{"changes that cost time", changeWords, func(p *answer.SeasonPlan) {
			p.Changes = []answer.SeasonSaving{{Name: "a", Saved: known(-2)}, {Name: "b", Saved: known(0)}}
		}, ""},
		{"a change that may save something", openChanges, func(p *answer.SeasonPlan) {
			p.Changes = []answer.SeasonSaving{{Name: "b", Saved: known(0), Low: known(0), High: known(2), Open: []answer.TimeAdvice{{Step: "check", How: "time it twice"}}}}
		}, `"b" may save up to 2.0 hours in the season, or change nothing: setup and unit time cannot be told apart yet (check: time it twice).`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := seasonOf(2)
			c.change(&p)
			assert.Equal(t, c.want, c.words(p))
		})
	}
}

// A gap makes what an hour earns less where something is left; a loss is spread over more hours.
func TestAnHourWithGaps(t *testing.T) {
	t.Parallel()
	p := seasonOf(1)
	p.PerOwnHour, p.PerOwnHourLow, p.Margin = known(5), unknown, known(50)
	assert.Equal(t, "An hour of your own earns 5.00 EUR", anHourEarns(p))
	p.Gaps = []string{"weigh"}
	assert.Equal(t, "An hour of your own earns at most 5.00 EUR", anHourEarns(p))
	assert.Contains(t, Season(SeasonAnswer{SeasonPlan: p}).Section("gaps").Answer[0], "what an hour earns is at most that")
	p.PerOwnHour, p.Margin = known(-5), known(-50)
	assert.Equal(t, "As far as is known an hour of your own earns -5.00 EUR", anHourEarns(p))
	assert.NotContains(t, Season(SeasonAnswer{SeasonPlan: p}).Section("gaps").Answer[0], "at most")
	assert.Contains(t, SeasonFront(&p), "As far as is known an hour of your own earns -5.00 EUR.")
	p.Hours = 0
	assert.Equal(t, []string{"Nothing that is sown was timed or judged yet, so its weeks have no hours.", spaceWords(p)}, seasonWords(p))
}

// Another plan beside the study's, and how much would fit.
func TestPlansThatAreTried(t *testing.T) {
	t.Parallel()
	for want, trial := range map[string]SeasonTrial{
		"The plan that is tried takes 5.0 hours more in the season than the study's, give or take 1.0, and leaves 30 EUR less. The study stays as it is.":               {Difference: 5, DiffLow: known(4), DiffHigh: known(6), MarginMore: known(-30)},
		"The plan that is tried takes 5.0 hours less in the season than the study's (somewhere between 4.0 and 7.0), and leaves 30 EUR more. The study stays as it is.": {Difference: -5, DiffLow: known(-7), DiffHigh: known(-4), MarginMore: known(30)},
		"The plan that is tried takes 5.0 hours more in the season than the study's. The study stays as it is.":                                                         {Difference: 5},
		"The plan that is tried takes as long in the season as the study's, and leaves as much. The study stays as it is.":                                              {MarginMore: known(0.2)},
	} {
		assert.Equal(t, want, tryWords(trial, "EUR", false))
	}
	for want, trial := range map[string]SeasonTrial{ // with a step that was never timed in it alone
		"The plan that is tried takes at least 5.0 hours more in the season than the study's, and leaves at least 30 EUR less. The study stays as it is.": {Difference: 5, MarginMore: known(-30)},
		"The plan that is tried takes at most 5.0 hours less in the season than the study's, and leaves at most 30 EUR more. The study stays as it is.":   {Difference: -5, MarginMore: known(30)},
		"The plan that is tried takes at least as long in the season as the study's, and leaves at most as much. The study stays as it is.":               {MarginMore: known(0.2)},
	} {
		assert.Equal(t, want, tryWords(trial, "EUR", true))
	}
	full, fits := seasonOf(1), seasonOf(1)
	full.Hired, full.Over, full.PeakM2, full.Gaps = 2, &[]int{3, 4}, 62.7, []string{"weigh"}
	fits.Weeks[2].Hired, fits.Hired = 0, 0
	for i := range fits.Weeks {
		fits.Weeks[i].High = known(10)
	}
	for _, c := range []struct {
		tried, own answer.SeasonPlan
		lead, fits string
	}{
		{full, fits, "and leaves at most 30 EUR more; it does not fit your own hours and the space there is. The study stays as it is.",
			"In the plan that is tried: your 10 hours a week run out in 1 week, first in week 2, from 2026-03-16: at least 2.0 hours are hired, for 30.00 EUR. " +
				"Space runs out on 2 days, first on day 3, Thu 2026-03-05: up to 62.7 m² are asked for, and there are 14. Its hours are at least that: weigh was not timed."},
		{fits, full, "and leaves 30 EUR more. The study stays as it is.",
			"In the plan that is tried: no week takes more than your 10 hours. Space is enough: at most 12.3 of 14 m² are in use, on day 20, Sun 2026-03-22."},
	} {
		doc := Season(SeasonAnswer{SeasonPlan: c.own, Try: &SeasonTrial{SeasonPlan: c.tried, Difference: 5, MarginMore: known(30)}})
		words := doc.Section("try").Answer
		assert.True(t, strings.HasSuffix(words[0], c.lead), words[0])
		assert.Equal(t, c.fits, words[1])
	}
	noted := SeasonTrial{SeasonPlan: fits}
	fits.Notes, noted.Notes = []string{"both"}, []string{"both", "cut short"}
	notes := Season(SeasonAnswer{SeasonPlan: fits, Try: &noted}).Notes
	assert.Contains(t, notes, "in the plan that is tried: cut short")
	assert.NotContains(t, notes, "in the plan that is tried: both")
	p := seasonOf(1)
	for want, fill := range map[string]answer.Filled{
		"Nothing ends how much can be grown: the study says neither own_hours_per_week in [labour] nor m2 in [space].":     {},
		"Not even a little fits: what ends it is space, on day 3, Thu 2026-03-05.":                                         {Factor: known(0), EndsBy: "space", Day: ref(3)},
		"What fits is 0.9996 times the heads of every sowing; what ends it is your own hours, in week 2, from 2026-03-16.": {Factor: known(0.99961), EndsBy: "own hours", Week: ref(2)},
		"What fits is 2.35 times the heads of every sowing; what ends it is space, on day 3, Thu 2026-03-05.":              {Factor: known(2.3456), EndsBy: "space", Day: ref(3)},
	} {
		assert.Equal(t, want, fillWords(p, fill))
	}
}

func TestSeasonWithoutMuch(t *testing.T) {
	t.Parallel()
	p := seasonOf(1)
	p.Hours = 0
	doc := Season(SeasonAnswer{SeasonPlan: p})
	assert.Equal(t, []string{"Nothing that is sown was timed or judged yet, so its weeks have no hours.", spaceWords(p)}, doc.Section("lead").Answer)
	assert.Equal(t, []string{"lead", "sowings", "weeks", "steps"}, sectionIDs(doc))
	assert.Equal(t, []string{"The whole place: nothing that is sown was timed or judged yet."}, SeasonFront(&p))
	p = seasonOf(1)
	p.Gaps, p.Start, p.Days, p.Notes = []string{"weigh"}, nil, 7, []string{"own note"}
	doc = Season(SeasonAnswer{SeasonPlan: p})
	assert.Equal(t, "The whole place, 1 week", doc.Title)
	assert.Equal(t, []string{"At least: weigh was not timed, so hours are those of the rest and what an hour earns is at most that."}, doc.Section("gaps").Answer)
	assert.Equal(t, []string{"own note", "the range is that of the hours alone: prices, counts and losses are taken as exact"}, doc.Notes)
	p.Start = ref("in spring")
	assert.Equal(t, "day 3", seasonDay(p, 3))
}

// The front of a report has the season in three sentences at most.
func TestSeasonOnTheFront(t *testing.T) {
	t.Parallel()
	assert.Empty(t, SeasonFront(nil))
	front := func(change func(p *answer.SeasonPlan)) []string {
		p := seasonOf(2)
		change(&p)
		return SeasonFront(&p)
	}
	assert.Equal(t, []string{
		"The whole place: a week of the steady part takes 10.0 hours; the busiest, week 2, from 2026-03-16, takes 12.0 hours, give or take 1.0.",
		"An hour of your own earns 20.50 EUR (somewhere between 18.25 and 22.75).",
		`For 25.00 EUR an hour charge 1.87 EUR a head of "tray" (now 1.60); 1.87 EUR a head of "in place" (now 1.60).`,
	}, front(func(p *answer.SeasonPlan) {}))
	assert.Equal(t, []string{
		"The whole place: the busiest week, week 2, from 2026-03-16, takes at least 12.0 hours, give or take 1.0.",
		"An hour of your own earns at most 20.50 EUR.",
		"For 25.00 EUR an hour charge at least 1.17 times today's prices, all taken together.",
	}, front(func(p *answer.SeasonPlan) {
		p.Gaps, p.Steady, p.PerOwnHourLow = []string{"weigh"}, answer.SteadyWeeks{}, unknown
		for _, name := range []string{"a", "b"} {
			more := p.Sowings[0]
			more.Workflow = name
			p.Sowings = append(p.Sowings, more)
		}
	}))
	assert.Len(t, front(func(p *answer.SeasonPlan) { p.PerOwnHour, p.Earn = unknown, unknown }), 1)
	assert.Len(t, front(func(p *answer.SeasonPlan) { p.PerOwnHour, p.PriceFactor, p.Sowings = unknown, unknown, nil }), 1)
	least := front(func(p *answer.SeasonPlan) { p.Gaps = []string{"weigh"} })
	assert.Equal(t, "The whole place: a week of the steady part takes at least 10.0 hours; the busiest, week 2, from 2026-03-16, takes at least 12.0 hours, give or take 1.0.", least[0])
	assert.Contains(t, least[2], "charge at least 1.87 EUR a head")
}

func TestTablesOfASeason(t *testing.T) {
	t.Parallel()
	p := seasonOf(2)
	once := &p.Sowings[1]
	once.Crop, once.EveryDays, once.Share, once.Kg, once.Units, once.Sold, once.Revenue, once.PriceNeeded = nil, nil, unknown, known(96.04), unknown, unknown, unknown, unknown
	sowings := sowingsTable(p, "EUR")
	assert.Equal(t, []string{"tray", "lettuce", "7", "0", "27", "10", "1", "600", "480", "?", "20.0", "50 %", "head", "480", "456", "729.60", "72.00", "24.00", "1.87"}, texts(sowings.Rows[0]))
	assert.Equal(t, []string{"in place", "", "once", "0", "27", "10", "1", "600", "480", "96.0", "20.0", "?", "head", "?", "?", "?", "72.00", "24.00", "?"}, texts(sowings.Rows[1]))
	for j, cell := range sowings.Rows[1] {
		if cell.Text == "?" || cell.Text == "once" || cell.Text == "" {
			assert.Empty(t, plain(cell.Value), sowings.Columns[j].Key)
		}
	}
	p.Weeks[0].Low, p.Weeks[0].Revenue, p.Weeks[0].Date, p.Weeks[0].Kg, p.Kg = unknown, unknown, nil, known(9.06), known(9.06)
	weeks := weeksTable(p, "EUR")
	assert.Equal(t, []string{"0", "", "8.00", "?", "9.00", "8.00", "0.00", "120", "9.1", "?"}, texts(weeks.Rows[0]))
	assert.False(t, weeks.Columns[8].Full, "kilograms have room where they are known")
	assert.True(t, weeksTable(seasonOf(1), "EUR").Columns[8].Full)
	p.Steps = append(p.Steps, answer.SeasonStep{Step: "weigh", Setups: 1.0 / 3, Count: 1234567.8})
	assert.Equal(t, []string{"weigh", "0.33", "1234570", "?", "?"}, texts(seasonSteps(p).Rows[2]))
	p.Changes = []answer.SeasonSaving{{Name: "a", Saved: known(2), Low: known(-1), High: known(5), Payback: known(40.4)}, {Name: "b"}}
	assert.Equal(t, []string{"a", "2.00", "-1.00", "5.00", "40"}, texts(seasonChanges(p).Rows[0]))
	assert.Equal(t, []string{"b", "?", "?", "?", "-"}, texts(seasonChanges(p).Rows[1]))
	other := seasonOf(1)
	other.Hours, other.Busiest.Hours, other.Hired, other.Heads, other.Revenue, other.Margin, other.PerOwnHour, other.PeakM2 = 50, 15, 9, 500, unknown, known(-20.4), unknown, 13
	rows := tryTable(SeasonAnswer{SeasonPlan: p, Try: &SeasonTrial{SeasonPlan: other}}, "EUR").Rows
	assert.Equal(t, []string{"the study's", "40.0", "12.00", "2.0", "480", "1000", "780", "20.50", "12.3"}, texts(rows[0]))
	assert.Equal(t, []string{"tried", "50.0", "15.00", "9.0", "500", "?", "-20", "?", "13.0"}, texts(rows[1]))
}
