package report

import (
	"strings"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/condense"

	"github.com/stretchr/testify/assert"
)

// Readings that stand out are said with what the step would be without them.
func TestReadingsThatStandOut(t *testing.T) {
	t.Parallel()
	s := standingOut()
	const counted = " It is counted all the same; void it with a reason if it was not that work."
	assert.Equal(t, "Stands out: transplant, 900 s for 24 (march.csv:14). Without it: setup 80 s, 7.0 s a plant."+counted, standsOutSentence(s, s.StandsOut[0]))
	s.Per, s.StandsOut[0].Setup, s.StandsOut[0].File = nil, unknown, "\x1b.csv"
	assert.Equal(t, `Stands out: transplant, 900 s for 24 (\x1b.csv:14). Without it: 7.0 s a unit.`+counted, standsOutSentence(s, s.StandsOut[0]))
	s.StandsOut[0].Expected = known(990)
	assert.Contains(t, standsOutSentence(s, s.StandsOut[0]), "a unit. It is only 9.1 % off: the others agree more closely than handwork does, so leave it as it is.")
	s.StandsOut[0].Expected = known(1010)
	assert.Contains(t, standsOutSentence(s, s.StandsOut[0]), counted)
	s.StandsOut[0].Setup, s.StandsOut[0].Unit = known(80), unknown
	assert.Equal(t, `Stands out: transplant, 900 s for 24 (\x1b.csv:14). Without it: setup 80 s.`+counted, standsOutSentence(s, s.StandsOut[0]))
	doc := Fit(answer.Fits{Steps: []answer.StepFit{standingOut()}, Earlier: []answer.StepFit{standingOut()}})
	assert.Len(t, doc.Section("stands out").Answer, 2, "of a step as it was before a change too")
	assert.Equal(t, []string{"model", "earlier", "stands out"}, sectionIDs(doc))
}

// Of many that stand out those are told of that do so most, and how many more there are; the
// table for programs has all.
func TestManyReadingsThatStandOut(t *testing.T) {
	t.Parallel()
	s := standingOut()
	one := s.StandsOut[0]
	for line := 15; line < 20; line++ {
		one.Line, one.P = line, one.P/2
		s.StandsOut = append(s.StandsOut, one)
	}
	said := standsOutSentences(s)
	assert.Len(t, said, 6)
	assert.Contains(t, said[0], "march.csv:19")
	assert.Contains(t, said[4], "march.csv:15")
	assert.Equal(t, "1 more reading of transplant stands out, less than these: this answer as CSV or JSON lists all.", said[5])
	s.StandsOut = append(s.StandsOut, one)
	assert.Contains(t, standsOutSentences(s)[5], "2 more readings of transplant stand out, ")
	s.StandsOut = s.StandsOut[:5]
	assert.Contains(t, standsOutSentences(s)[0], "march.csv:14", "few are told of as they stand in the log")
	table := Fit(answer.Fits{Steps: []answer.StepFit{s}}).Section("stands out").Table
	assert.Len(t, table.Rows, 5)
	assert.Equal(t, Audience(Programs), table.For)
}

// Counts of a step, and what stands there where it has none.
func TestCountsOfSteps(t *testing.T) {
	t.Parallel()
	for want, change := range map[string]func(*answer.StepFit){
		"12–48": func(s *answer.StepFit) {}, "12": func(s *answer.StepFit) { s.CountMax = s.CountMin }, "0.5–48": func(s *answer.StepFit) { s.CountMin = known(0.5) },
		"judged": func(s *answer.StepFit) { s.CountMin, s.CountMax = unknown, unknown }, "never": func(s *answer.StepFit) { s.Form = nil },
	} {
		s := fitOf("sow", 30, 2)
		change(&s)
		assert.Equal(t, want, countsOf(s))
	}
}

// A note is said once for all steps it is true of.
func TestNotesOfSteps(t *testing.T) {
	t.Parallel()
	steps := []answer.StepFit{fitOf("sow", 30, 2), fitOf("cut", 30, 2), gapFit("weigh"), gapFit("pack"), fitOf("cover", 3, 1), gapFit("wash")}
	steps[5].Voided = 2
	steps[0].Notes, steps[1].Notes, steps[4].Notes = []string{"scatter is lent"}, []string{"timed at one count"}, []string{"scatter is lent"}
	f := answer.Fits{Steps: steps, Notes: []string{"own"}}
	assert.Equal(t, []string{
		"own", "sow and cover: scatter is lent", "cut: timed at one count", `weigh and pack: neither timed nor judged; totals that need them say "at least"`,
		`wash: timed in void readings only, and not judged; totals that need it say "at least"`,
	}, Fit(f).Notes)
	assert.Len(t, FitNotes(f), 3, "without what was not timed")
	assert.Equal(t, []string{"own"}, f.Notes)
	f.Earlier = []answer.StepFit{{Step: "sow (before 2026-04-12)", Form: ref("both"), Notes: []string{"scatter is lent"}}}
	assert.Contains(t, Fit(f).Notes, "sow, cover and sow (before 2026-04-12): scatter is lent")
	assert.Empty(t, Fit(answer.Fits{}).Notes)
}

func TestTimesOverTheGrows(t *testing.T) {
	t.Parallel()
	at := func(grow string, day int, seconds float64) answer.GrowTime {
		return answer.GrowTime{Grow: grow, Date: day0.AddDate(0, 0, day), Readings: 2, Seconds: known(seconds)}
	}
	falling := answer.StepOverGrows{
		Step: "sow", Setups: 1, Count: 24.5, Grows: []answer.GrowTime{at("g1", 0, 120), at("g2", 7, 9.5), {Grow: "g3", Readings: 1}},
		Rate: known(0.9), RateLow: known(0.84), RateHigh: known(0.96), P: known(0.0123), Trend: "falling", Notes: []string{"three grows"},
	}
	unclear := answer.StepOverGrows{Step: "cut", Setups: 2, Count: 48, Grows: falling.Grows[:1], Trend: answer.NoTrend}
	f := answer.FitsOverGrows{Fits: answer.Fits{Confidence: 0.95}, OverGrows: []answer.StepOverGrows{falling, unclear}}
	doc := FitOverGrows(f)
	assert.Equal(t, []string{`"sow" is falling over the grows: after twice as many it takes 90 % of the time (95 % interval: 84–96 %). That is of these grows, and says nothing of later ones.`}, doc.Section("over-grows").Answer)
	assert.Equal(t, []string{"sow over the grows: three grows", "after twice: the share of its time that a step takes after twice as many grows, by the trend over these"}, doc.Notes)
	people := doc.Section("over-grows").Table
	assert.Equal(t, onlyPeople, people.For)
	assert.Equal(t, []string{"sow", "24.5", "g1 120, g2 9.5, g3 ?", "90 %", "84–96 %"}, texts(people.Rows[0]))
	assert.Equal(t, []string{"cut", "48", "g1 120", "", ""}, texts(people.Rows[1]))
	programs := doc.Section("by-grow").Table
	assert.Equal(t, Programs, programs.For)
	assert.Len(t, programs.Rows, 4)
	assert.Equal(t, []string{"sow", "1", "24.5", "g2", "2026-03-09", "2", "9.5", "0.900", "0.840", "0.960", "0.0123", "falling"}, texts(programs.Rows[1]))
	assert.Equal(t, []string{"sow", "1", "24.5", "g3", "", "1", "?", "0.900", "0.840", "0.960", "0.0123", "falling"}, texts(programs.Rows[2]))
	falling.Trend, falling.Rate, falling.RateLow, falling.RateHigh = "rising", known(1.1), known(1.04), known(1.16)
	assert.True(t, strings.HasPrefix(trendSentence(falling, 0.9), `"sow" is rising over the grows: after twice as many it takes 110 % of the time (90 % interval: 104–116 %).`))
}

func TestFactorsOfGrows(t *testing.T) {
	t.Parallel()
	step := func(name string, factor float64) answer.StepFactor {
		return answer.StepFactor{Step: name, Factor: factor, Readings: 2}
	}
	rows := FactorsTable([]answer.GrowFactor{
		{Grow: "g1", Day: condense.DayOf(day0), All: 1.126, Steps: []answer.StepFactor{step("sow", 1.1), step("cut", 0.9), step("wash", 1.3), step("pack", 1.2)}},
		{Grow: "g2", Day: condense.NoDay, All: 1, Steps: []answer.StepFactor{step("sow", 1)}},
	}).Rows
	assert.Equal(t, []string{"g1", "2026-03-02", "1.13", "cut 0.90", "wash 1.30"}, texts(rows[0]))
	assert.Equal(t, []string{"g2", "", "1.00", "sow 1.00", "sow 1.00"}, texts(rows[1]))
	assert.Equal(t, "cut", rows[0][3].Value, "programs have its name alone")
}

// What the smallest and the largest number of heads take.
func TestHoursAgainstHeads(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(line *answer.ScaleLine)
		want   string
	}{
		{"three", func(line *answer.ScaleLine) {}, `"tray": 10 heads take 27 minutes, give or take 3; 1000 heads take 20 hours, give or take 2.`},
		{"one", func(line *answer.ScaleLine) { line.Points = line.Points[:1] }, `"tray": 10 heads take 27 minutes, give or take 3.`},
		{"one head", func(line *answer.ScaleLine) { line.Points[0].Heads = 1 }, `"tray": 1 head takes 27 minutes, give or take 3; 1000 heads take 20 hours, give or take 2.`},
		{"one lacks", func(line *answer.ScaleLine) { line.Gaps = []string{"weigh"} }, `"tray": 10 heads take 27 minutes, give or take 3; 1000 heads take 20 hours, give or take 2; at least, since weigh was not timed.`},
		{"two lack", func(line *answer.ScaleLine) { line.Gaps = []string{"weigh", "pack"} }, `"tray": 10 heads take 27 minutes, give or take 3; 1000 heads take 20 hours, give or take 2; at least, since weigh and pack were not timed.`},
		{"nothing to do", func(line *answer.ScaleLine) { line.Points[2].Hours = 0 }, `"tray": there is nothing to do for it.`},
		{"nothing was timed", func(line *answer.ScaleLine) { line.Points[2].Hours, line.Gaps = 0, []string{"sow"} }, `"tray": nothing that it needs was timed or judged yet.`},
		{"none", func(line *answer.ScaleLine) { line.Points = nil }, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := scaleOf(1)
			c.change(&s.Workflows[0])
			assert.Equal(t, c.want, strings.Join(Scale(s).Words(), " "))
		})
	}
	s := scaleOf(1)
	line := &s.Workflows[0]
	line.Gaps, line.Points[0].Low, line.Points[2].Extrapolated = []string{"weigh"}, unknown, false
	line.Points[1].Hours = 9.994
	doc := Scale(s)
	assert.Empty(t, doc.Notes, "nothing is beyond what was timed")
	rows := doc.Section("scale").Table.Rows
	assert.Equal(t, []string{"tray", "10", "≥ 0.45", "?", "0.50", "≥ 2.70", "", "weigh"}, texts(rows[0]))
	assert.Equal(t, "≥ 9.99", rows[1][2].Text)
	assert.Equal(t, []string{"≥ 20.2", "18.2", "22.3"}, texts(rows[2][2:5]))
	assert.Equal(t, []int{2, 1}, []int{hourDecimals(9.99), hourDecimals(9.996)})
}
