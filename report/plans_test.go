package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// What stands now, of one way or of two, by how sure it is.
func TestWhereAnAnswerStands(t *testing.T) {
	t.Parallel()
	two := func(mean, low, high float64) answer.Plan {
		p := plannedOf()
		p.Other, p.Goal, p.Hours, p.Low, p.High = ref("raft"), answer.GoalClear, mean/60, minutes(low), minutes(high)
		return p
	}
	unsure := func(p answer.Plan) answer.Plan { p.Low, p.High = unknown, unknown; return p }
	for want, p := range map[string]answer.Plan{
		`"tray" takes 61 minutes, give or take 14`:                                                                                 plannedOf(),
		`"tray" takes 61 minutes; how much that varies is not known yet`:                                                           unsure(plannedOf()),
		`"tray" takes less than "raft", by 10 minutes, give or take 5`:                                                             two(10, 5, 15),
		`"raft" takes less than "tray", by 10 minutes (somewhere between 5 and 30)`:                                                two(-10, -30, -5),
		`"tray" takes 10 minutes less than "raft"; how much that varies is not known yet`:                                          unsure(two(10, 0, 0)),
		`"tray" takes 10 minutes less than "raft" as far as is known, but it may be up to 25 minutes less or up to 5 minutes more`: two(10, -5, 25),
		`"raft" takes 10 minutes less than "tray" as far as is known, but it may be up to 25 minutes less or up to 5 minutes more`: two(-10, -25, 5),
		`"tray" takes 10 minutes less than "raft" as far as is known, but it may be up to 25 minutes less or up to 0 minutes more`: two(10, 0, 25),
	} {
		assert.Equal(t, want, answerNow(p))
	}
}

func TestGoalsAndPlans(t *testing.T) {
	t.Parallel()
	p := plannedOf()
	for within, want := range map[float64]string{0.1: "sure to within 10 %", 0.05: "sure to within 5.0 %", 0.125: "sure to within 12 %", 0.005: "sure to within 0.50 %"} {
		p.Within = known(within)
		assert.Equal(t, want, goalReached(p))
	}
	p.Goal = answer.GoalClear
	assert.Equal(t, "a clear difference", goalReached(p))
	assert.Equal(t, "About 1 more reading", about(1))
	assert.Equal(t, "About 0 more readings", about(0))

	rows := []answer.PlannedReadings{
		{Step: "sow", Count: 24, Readings: 1}, {Step: "cut", Count: 48, Readings: 2}, {Step: "sow", Count: 0, Readings: 3}, {Step: "sow", Count: 12.5, Readings: 4}, {Step: "weigh", Count: 48, Readings: 1, Gap: true},
	}
	assert.Equal(t, "sow 1 at 24, 3 of its setup alone and 4 at 12.5; cut 2 at 48; weigh at 48", plannedList(rows))
	assert.Equal(t, "sow 1 at 24; cut 2 at 48", furtherList(p, rows[:2]))
	p.FurtherGrows = 1
	assert.Equal(t, "sow 1 at 24; cut 2 at 48; of these, one of each step in 1 further grow", furtherList(p, rows[:2]))
	p.FurtherGrows = 2
	assert.Equal(t, "sow 1 at 24; of these, one of each step in 2 further grows", furtherList(p, rows[:1]))
	p.Readings = rows[:4]
	assert.Empty(t, gapReadingsSentence(p))
	p.Readings = append(rows, answer.PlannedReadings{Step: "pack", Count: 48, Readings: 1, Gap: true})
	assert.Equal(t, "First, once each: weigh at 48; pack at 48. Not timed, so what they take is not in what follows.", gapReadingsSentence(p))
}

// Whether another grow tells more is said where there is a choice, and no more than once.
func TestWhatIsWorthMore(t *testing.T) {
	t.Parallel()
	const (
		grow    = "Timing another grow is worth more, reading by reading, than timing more in the grows there are: grows differ."
		reading = "Grows differ, but a reading of what is named here is worth more than one of each step in another grow."
	)
	gap := []answer.PlannedReadings{{Step: "weigh", Count: 48, Readings: 1, Gap: true}}
	for _, c := range []struct {
		name   string
		change func(p *answer.Plan)
		want   []string
	}{
		{"grows are not known to differ", func(p *answer.Plan) { p.WorthMore = "" }, nil},
		{"a grow", func(p *answer.Plan) { p.WorthMore = answer.WorthGrow }, []string{grow}},
		{"a reading", func(p *answer.Plan) { p.WorthMore = answer.WorthReading }, []string{reading}},
		{"no reading is needed", func(p *answer.Plan) { p.WorthMore, p.Readings = answer.WorthReading, nil }, nil},
		{"none but of gaps", func(p *answer.Plan) { p.WorthMore, p.Readings = answer.WorthReading, gap }, nil},
		{"none but of gaps, and it is not met", func(p *answer.Plan) { p.WorthMore, p.Readings, p.Meets = answer.WorthGrow, gap, false }, []string{grow}},
		{"of gaps, and further grows", func(p *answer.Plan) { p.WorthMore, p.Readings, p.FurtherGrows = answer.WorthGrow, gap, 1 }, []string{grow}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plannedOf()
			c.change(&p)
			assert.Equal(t, c.want, append([]string(nil), readings(p).Section("plan").Answer[1:]...))
		})
	}
}

// The plan that tells two apart comes before that of one way, and neither loses its table.
func TestPlansOfTwo(t *testing.T) {
	t.Parallel()
	one, two := plannedOf(), plannedOf()
	one.Notes, two.Notes = []string{"of both", "of one"}, []string{"of two", "of both"}
	two.Other, two.Goal = ref("raft"), answer.GoalClear
	doc := Readings(answer.Plans{Plan: one, Pair: &two})
	assert.Equal(t, "tray and raft: readings to tell them apart, 48 heads", doc.Title)
	assert.Equal(t, []string{"plan", "steps", "and", "plan-total", "steps-total"}, sectionIDs(doc))
	assert.Equal(t, []string{"tray: readings that would settle the time of 48 heads."}, doc.Section("and").Answer)
	assert.Equal(t, []string{"of two", "of both", whichToGoBy, "of one"}, doc.Notes)
	assert.Len(t, doc.Tables(), 4)
	assert.Equal(t, []string{"tray alone. Readings to take, most useful first", "tray alone. Each step by itself: readings in all for ± 10 %, and as handbooks count"},
		[]string{doc.Tables()[2].Title, doc.Tables()[3].Title})
	two.Goal = answer.GoalWithin
	assert.Equal(t, "tray and raft: readings that would settle their difference for 48 heads", Readings(answer.Plans{Plan: two}).Title)
	none := plannedOf()
	none.Readings, none.Steps = nil, nil
	assert.Empty(t, Readings(answer.Plans{Plan: none}).Tables())
}

func TestTableOfNeeds(t *testing.T) {
	t.Parallel()
	steps := plannedOf().Steps
	for i := range steps {
		steps[i].Share = 0.05
	}
	table := needsTable(steps)
	assert.Equal(t, "Each step by itself: readings in all for ± 5.0 %, and as handbooks count", table.Title)
	assert.Equal(t, []string{"transplant", "3", "20 %", "18", "16", "no", "5.0 %"}, texts(table.Rows[0]))
	assert.Equal(t, []string{"harvest", "1", "25 %", "?", "25", "yes", "5.0 %"}, texts(table.Rows[1]))
	assert.Empty(t, plain(table.Rows[1][3].Value), "what a test cannot tell is no number of readings")
}
