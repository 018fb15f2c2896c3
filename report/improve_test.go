package report

import (
	"strings"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The fewest steps that take half of the hours are named, and no more.
func TestLargestSteps(t *testing.T) {
	t.Parallel()
	steps := func(shares ...answer.StepShare) answer.Improvement {
		return answer.Improvement{Hours: 100.0 / 60, Steps: shares}
	}
	for want, in := range map[string]answer.Improvement{
		"Harvest takes 50 % of the 100 minutes.":                 steps(shareOf("harvest", 50, 0.5), shareOf("sow", 50, 1)),
		"Harvest and cover take 70 % of the 100 minutes.":        steps(shareOf("harvest", 45, 0.45), shareOf("cover", 25, 0.7), shareOf("sow", 30, 1)),
		"Wash, cover and sow take 60 % of the 100 minutes.":      steps(shareOf("wash", 20, 0.2), shareOf("cover", 20, 0.4), shareOf("sow", 20, 0.6), shareOf("cut", 20, 0.8)),
		"Nothing that it needs was timed or judged yet.":         steps(answer.StepShare{Step: "sow"}),
		`\x1b[2J takes 100 % of the 100 minutes.`:                steps(shareOf("\x1b[2J", 100, 1)),
		"Sow takes 100 % of the 100 minutes.":                    steps(shareOf("sow", 100, 1), answer.StepShare{Step: "weigh"}),
		"There is nothing to do for it.":                         {},
		"Éclaircir and transplant take 90 % of the 100 minutes.": steps(shareOf("éclaircir", 49, 0.49), shareOf("transplant", 41, 0.9)),
	} {
		assert.Equal(t, strings.TrimSpace(want), largestSentence(in))
	}
}

// What a change would save, and what is said of it where it saves nothing, costs time,
// cannot be told or is of hygiene.
func TestWhatAChangeWouldSave(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(s *answer.Saving, in *answer.Improvement)
		want   string
	}{
		{"clear", func(s *answer.Saving, in *answer.Improvement) {}, `"dibber" would save 10 minutes a grow, give or take 2.`},
		{"lopsided", func(s *answer.Saving, in *answer.Improvement) { s.High = minutes(20) }, `"dibber" would save 10 minutes a grow (somewhere between 8 and 20).`},
		{"perhaps nothing", func(s *answer.Saving, in *answer.Improvement) { s.Low = minutes(-1) }, `"dibber" may save 10 minutes a grow, but it may be nothing: no clear saving (up to 12 minutes).`},
		{"touching nothing", func(s *answer.Saving, in *answer.Improvement) { s.Low = known(0) }, `"dibber" may save 10 minutes a grow, but it may be nothing: no clear saving (up to 12 minutes).`},
		{"exact", func(s *answer.Saving, in *answer.Improvement) { s.Low, s.High = s.Saved, s.Saved }, `"dibber" would save 10 minutes a grow.`},
		{"doubt not known", func(s *answer.Saving, in *answer.Improvement) { s.Low, s.High = unknown, unknown }, `"dibber" would save 10 minutes a grow, as far as is known.`},
		{"more work", func(s *answer.Saving, in *answer.Improvement) { s.Saved = minutes(-3) }, `"dibber" would take 3.0 minutes more a grow.`},
		{"nothing", func(s *answer.Saving, in *answer.Improvement) { s.Saved, s.Low, s.High = known(0), known(0), known(0) }, `"dibber" saves nothing here: what transplant takes in this way stays as it is.`},
		{"no part of the way", func(s *answer.Saving, in *answer.Improvement) {
			s.Saved, s.Low, s.High, in.Steps = known(0), known(0), known(0), nil
		}, `"dibber" saves nothing here: transplant is no part of this way.`},
		{"nothing, as far as can be told", func(s *answer.Saving, in *answer.Improvement) {
			s.Saved, s.Low, s.High = known(0), known(0), minutes(2)
			s.Open = []answer.TimeAdvice{{Step: "check pH", How: "time it at another count"}, {Step: "sow", How: "time it again"}}
		}, `"dibber" may save up to 2.0 minutes a grow, or change nothing: setup and unit time cannot be told apart yet (check pH: time it at another count; sow: time it again).`},
		{"nothing or more, as far as can be told", func(s *answer.Saving, in *answer.Improvement) {
			s.Saved, s.Low, s.High = known(0), minutes(-3), minutes(2)
		},
			`"dibber" may save up to 2.0 minutes a grow or take up to 3.0 minutes more a grow, or change nothing.`},
		{"not timed", func(s *answer.Saving, in *answer.Improvement) { s.Saved, s.Steps = unknown, []string{"sow", "cut"} }, `"dibber": what it would save cannot be told, since sow and cut were not timed.`},
		{"hygiene", func(s *answer.Saving, in *answer.Improvement) { s.Hygiene = true }, `"dibber" touches a hygiene step: that is never suggested as a saving.`},
		{"by the bag", func(s *answer.Saving, in *answer.Improvement) {
			in.Gives = answer.Harvest{Unit: "bag", Sold: known(20)}
		},
			`"dibber" would save 10 minutes a grow, give or take 2. That is 30 seconds for a bag that is sold.`},
		{"by bags of which none is sold", func(s *answer.Saving, in *answer.Improvement) { in.Gives = answer.Harvest{Unit: "bag", Sold: known(0)} },
			`"dibber" would save 10 minutes a grow, give or take 2.`},
		{"paid back", func(s *answer.Saving, in *answer.Improvement) {
			s.Outlay, s.Payback, s.PaybackLow, s.PaybackHigh = known(80), known(1234), known(950), known(2345)
		}, `"dibber" would save 10 minutes a grow, give or take 2. Its outlay comes back after about 1200 heads (somewhere between 950 and 2300 heads), where the minutes are paid for.`},
		{"paid back, perhaps late", func(s *answer.Saving, in *answer.Improvement) {
			s.Outlay, s.Payback, s.PaybackHigh = known(80), known(1234), known(10001)
		},
			`"dibber" would save 10 minutes a grow, give or take 2. Its outlay comes back after about 1200 heads, where the minutes are paid for; perhaps not within 10,000.`},
		{"paid back, as late as may be", func(s *answer.Saving, in *answer.Improvement) {
			s.Outlay, s.Payback, s.PaybackLow, s.PaybackHigh = known(80), known(10000), known(9000), known(10000)
		}, `"dibber" would save 10 minutes a grow, give or take 2. Its outlay comes back after about 10000 heads (somewhere between 9000 and 10000 heads), where the minutes are paid for.`},
		{"not paid back", func(s *answer.Saving, in *answer.Improvement) { s.Outlay, s.Payback = known(80), known(10001) },
			`"dibber" would save 10 minutes a grow, give or take 2. Its outlay does not come back within 10,000 heads.`},
		{"payback not known", func(s *answer.Saving, in *answer.Improvement) { s.Outlay = known(80) }, `"dibber" would save 10 minutes a grow, give or take 2.`},
		{"no outlay", func(s *answer.Saving, in *answer.Improvement) { s.Outlay, s.Payback = known(0), known(5) }, `"dibber" would save 10 minutes a grow, give or take 2.`},
		{"no wage", func(s *answer.Saving, in *answer.Improvement) { s.Outlay, in.PaidFor = known(80), false },
			`"dibber" would save 10 minutes a grow, give or take 2. When its outlay comes back cannot be told without a wage.`},
		{"paid back in bags", func(s *answer.Saving, in *answer.Improvement) {
			in.Gives = answer.Harvest{Unit: "bag", Sold: known(24)}
			s.Outlay, s.Payback, s.PaybackLow, s.PaybackHigh = known(80), known(96), known(80), known(120)
		}, `"dibber" would save 10 minutes a grow, give or take 2. That is 25 seconds for a bag that is sold. Its outlay comes back after about 96 heads (48 bags) (somewhere between 80 and 120 heads), where the minutes are paid for.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, in := savingOf("dibber", 10, 2), improvementOf(0)
			c.change(&s, &in)
			assert.Equal(t, c.want, savingSentence(s, in))
		})
	}
}

func TestWhereATenthIsWorthMost(t *testing.T) {
	t.Parallel()
	const pace = " See that no pace suffers for it: a better tool or place, not haste."
	step := func(name string, setup, units float64) answer.StepShare {
		return answer.StepShare{Step: name, Hours: minutes(setup + units), SetupHours: minutes(setup), UnitHours: minutes(units)}
	}
	wash, pot := step("wash", 90, 90), step("pot", 30, 5)
	wash.Hygiene, pot.Bracketed = true, true
	for _, c := range []struct {
		steps []answer.StepShare
		want  string
	}{
		{[]answer.StepShare{step("sow", 5, 20), step("cut", 15, 10)}, "A tenth quicker is worth most in each unit of sow: 2.0 minutes a grow." + pace},
		{[]answer.StepShare{step("sow", 5, 20), step("cut", 25, 10)}, "A tenth quicker is worth most in setup of cut: 2.5 minutes a grow." + pace},
		{[]answer.StepShare{step("sow", 5, 20), wash}, "A tenth quicker is worth most in each unit of sow: 2.0 minutes a grow." + pace},
		{[]answer.StepShare{step("sow", 5, 20), pot}, "A tenth quicker is worth most in pot: 3.5 minutes a grow." + pace},
		{[]answer.StepShare{{Step: "weigh"}, wash}, ""},
		{[]answer.StepShare{step("first", 20, 0), step("second", 20, 0)}, "A tenth quicker is worth most in setup of first: 2.0 minutes a grow." + pace},
	} {
		assert.Equal(t, c.want, tenthSentence(answer.Improvement{Steps: c.steps}))
	}
}

// The sections of an answer, and what is left out where there is nothing to say.
func TestWhatImproveSays(t *testing.T) {
	t.Parallel()
	bare := Improve(improvementOf(0))
	assert.Equal(t, []string{"questions", "shares", "no changes", "tenth"}, sectionIDs(bare))
	assert.Contains(t, bare.Section("no changes").Answer[0], "[[change]]")

	in := improvementOf(2)
	together := savingOf("together", 25, 3)
	in.Together, in.Gaps = &together, []string{"weigh", "pack"}
	in.Advice = []answer.TimeAdvice{{Step: "sow", How: "once at few and once at many cells"}, {Step: "weigh", How: "once"}}
	in.Steps[2].Rework, in.Steps[1].Bracketed, in.Steps[0].Hygiene = true, true, true
	in.Steps = append(in.Steps, answer.StepShare{Step: "weigh", Rework: true})
	in.Gives, in.Notes = bags(), []string{"own note"}
	doc := Improve(in)
	assert.Equal(t, "tray: where the time of 48 heads goes (20 bags to sell, 3.2 kg)", doc.Title)
	assert.Equal(t, []string{"questions", "shares", "rework", "gaps", "changes", "tenth", "time next"}, sectionIDs(doc))
	assert.Equal(t, []string{"10 minutes of it only undoes earlier work: sow."}, doc.Section("rework").Answer)
	assert.Equal(t, []string{"At least: weigh and pack were not timed."}, doc.Section("gaps").Answer)
	require.Len(t, doc.Section("changes").Answer, 3)
	assert.Contains(t, doc.Section("changes").Answer[2], `"together" would save 25 minutes a grow, give or take 3.`)
	assert.Len(t, doc.Section("changes").Table.Rows, 3)

	*in.Together = in.Changes[0]
	assert.Len(t, Improve(in).Section("changes").Answer, 2, "one taken together with none is itself")
	assert.Equal(t, "What to time next, most useful first:\nsow: once at few and once at many cells.\nweigh: once.", doc.Section("time next").Answer[0])
	in.MostlyGrows = true
	assert.NotContains(t, Improve(in).Section("time next").Answer[0], "another grow", "what was never timed comes first")
	gaps := in.Gaps
	in.Gaps = nil
	assert.Contains(t, Improve(in).Section("time next").Answer[0], "most useful first:\nanother grow: how much grows differ is most of what is not known, ")
	in.Gaps = gaps
	assert.Equal(t, []string{
		"own note", "always timed at about the same count, so that setup and units cannot be told apart: transplant",
		"rest and hand-washing are never counted as a saving", "minutes saved are money only where they are paid for, or used for other work that is",
	}, doc.Notes)
	var cells [][]string
	for _, row := range doc.Section("shares").Table.Rows {
		cells = append(cells, texts(row))
	}
	assert.Equal(t, [][]string{
		{"harvest", "50.0", "50 %", "▇▇▇▇▇▇▇▇", "50 %", "12.5", "37.5", "-", "operation", "no", "25 %"},
		{"transplant", "40.0", "40 %", "▇▇▇▇▇▇", "90 %", "-", "-", "4.0", "operation", "no", "20 %"},
		{"sow", "10.0", "10 %", "▇▇", "100 %", "2.5", "7.5", "1.0", "operation, rework", "yes", "5 %"},
		{"weigh", "?", "", "", "", "?", "?", "?", ", rework", "yes", ""},
	}, cells)
}

// texts are the cells of a row as people read them.
func texts(row []Cell) []string {
	all := make([]string, len(row))
	for i, cell := range row {
		all[i] = cell.Text
	}
	return all
}

// sectionIDs are the sections of an answer, in order.
func sectionIDs(d Doc) []string {
	var ids []string
	for _, s := range d.Sections {
		ids = append(ids, s.ID)
	}
	return ids
}

func TestOtherWaysInALineEach(t *testing.T) {
	t.Parallel()
	doc := Improve(improvementOf(0))
	for _, name := range []string{"raft", "in place"} {
		in := improvementOf(0)
		in.Workflow = name
		doc.AddWay(in)
	}
	assert.Equal(t, []string{"The other ways, which --workflow shows whole:\n\"raft\": Harvest takes 50 % of the 100 minutes.\n\"in place\": Harvest takes 50 % of the 100 minutes."}, doc.Section("other ways").Answer)
}

func TestTableOfSavings(t *testing.T) {
	t.Parallel()
	in := improvementOf(1)
	in.Changes[0].Outlay, in.Changes[0].Payback = known(80), known(1234)
	in.Changes = append(in.Changes, answer.Saving{Name: "=bench", Steps: []string{"weigh"}})
	rows := savingsTable(in).Rows
	assert.Equal(t, []string{"change tray", "10.0", "8.0", "12.0", "80.00", "1200"}, texts(rows[0]))
	assert.Equal(t, []string{"=bench", "?", "?", "?", "-", "-"}, texts(rows[1]))
}

// Each class of step has its question; setup goes before class, rework before both.
func TestQuestionOfEachClass(t *testing.T) {
	t.Parallel()
	for class, part := range map[study.Class]string{
		study.Transport: "how far is it, and how often? Could things stand nearer, or go in one trip?", study.Inspection: "what is done about what is found? Could one look while doing another step?", study.Delay: "what is waited for? Could other work be done meanwhile, or in another order?", study.Storage: "must it be put away at all? Could it go straight to where it is needed next?", study.Operation: "is each part of it needed? Could it be joined with another step, or made simpler by a tool or a better place?", "": "is each part of it needed? Could it be joined with another step, or made simpler by a tool or a better place?",
	} {
		s := shareOf("x", 8, 1)
		s.Class = class
		assert.Equal(t, part, question(s))
		s.SetupHours = minutes(4.1)
		assert.Contains(t, question(s), "more than half of it is setup")
		s.SetupHours = minutes(4)
		assert.Equal(t, part, question(s), "just half is not more")
		s.SetupHours = unknown
		assert.Equal(t, part, question(s))
		s.Rework, s.SetupHours = true, minutes(8)
		assert.Contains(t, question(s), "it undoes earlier work")
	}
	in := improvementOf(0)
	in.Steps[0].Hours = known(-0.1)
	assert.NotContains(t, questionsBlock(in), "harvest", "a time below nothing is no large step")
	in.Steps[1].Step = "\x1b[2J"
	assert.Contains(t, questionsBlock(in), `\x1b[2J: `)
}
