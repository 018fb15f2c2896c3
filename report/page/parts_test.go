package page

import (
	"fmt"
	"strings"
	"testing"

	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var known = study.Known

func ref[T any](x T) *T { return &x }

// invented is a report of so many ways of 48 heads: 60 minutes, 10 more in each further
// one, half of it sowing and half cutting, give or take 6.
func invented(workflows int) report.Whole {
	w := report.Whole{Study: "salad", Heads: 48, Quickest: "way 0", LastDay: condense.NoDay, Readings: 12}
	w.Compare = answer.Comparison{Heads: 48, Confidence: 0.95}
	w.Cost = answer.Costs{Heads: 48, Currency: ref("EUR")}
	w.Fit = answer.Fits{Confidence: 0.95, Steps: []answer.StepFit{fitOf("sow"), fitOf("cut")}}
	for i := range workflows {
		name, minutes := fmt.Sprintf("way %d", i), 60+10*float64(i)
		h := answer.Hours{
			Workflow: name, Hours: minutes / 60, Low: known((minutes - 6) / 60), High: known((minutes + 6) / 60), MinutesPerHead: minutes / 48,
			Rests: answer.Basis{Timed: []string{"sow", "cut"}}, Gives: answer.Harvest{ByHead: true},
			Steps: []answer.StepHours{{Step: "sow", Hours: known(minutes / 120)}, {Step: "cut", Hours: known(minutes / 120)}},
		}
		for _, before := range w.Compare.Workflows {
			d := h.Hours - before.Hours
			w.Compare.Pairs = append(w.Compare.Pairs, answer.Pair{A: before.Workflow, B: name, Difference: d, Low: known(d - 0.05), High: known(d + 0.05), BreakEven: answer.BreakEven{Kind: answer.Never, Fixed: 1}})
		}
		w.Compare.Workflows = append(w.Compare.Workflows, h)
		w.Cost.Workflows = append(w.Cost.Workflows, answer.GrowCost{Workflow: name, Hours: h.Hours, Gives: h.Gives, PerHead: known(0.5), PerHeadLow: known(0.4), PerHeadHigh: known(0.6),
			Lines: []answer.CostLine{{Name: "sow", Kind: answer.LabourLine, Amount: known(24), PerHead: known(0.5)}}})
		w.Scale.Workflows = append(w.Scale.Workflows, answer.ScaleLine{Workflow: name, Points: []answer.ScalePoint{{Heads: 10, Hours: 1, MinutesPerHead: 6}, {Heads: 100, Hours: 4, MinutesPerHead: 2.4}}})
		own := report.WorkflowAnswers{Workflow: name}
		own.Improve = answer.Improvement{Workflow: name, Heads: 48, Hours: h.Hours, Steps: []answer.StepShare{{Step: "sow", Hours: known(0.5), Share: known(0.5), Cumulative: known(0.5)}},
			Advice: []answer.TimeAdvice{{Step: "sow", How: "once more"}}}
		own.Seeding = answer.Seeding{Workflow: name, Heads: 48, Assurance: 0.95, Choices: []answer.SeedingChoice{{SeedsPerCell: 1, Best: true, CellsAssured: ref(60), MinutesPerHead: 1}}}
		own.Grow.Calendar = answer.Calendar{Workflow: name, Heads: 48, Days: []answer.CalendarDay{{Day: 0, Hours: 1, Tasks: []answer.CalendarJob{{Step: "sow", Count: 60, Hours: known(1)}}}}}
		w.Workflows = append(w.Workflows, own)
	}
	w.Growth = w.Scale
	return w
}

func fitOf(step string) answer.StepFit {
	return answer.StepFit{Step: step, Form: ref("unit"), Readings: 6, Unit: known(5), UnitLow: known(4), UnitHigh: known(6), ReadingsFor10: ref(9)}
}

// folds are the titles that parts are folded behind, at any depth.
func folds(parts []pagePart) (all []string) {
	for _, p := range parts {
		if p.Fold != "" {
			all = append(append(all, p.Fold), folds(p.Parts)...)
		}
	}
	return all
}

// What is for one way alone stands open for the first, folded for one other, and all others
// are behind one fold.
func TestOtherWaysAreFolded(t *testing.T) {
	t.Parallel()
	lay := func(o report.WorkflowAnswers) []pagePart { return []pagePart{{Title: o.Workflow}} }
	for n, want := range map[int][]string{
		1: nil, 2: {`The same for "way 1"`}, 3: {"The same for the 2 other ways", `The same for "way 1"`, `The same for "way 2"`},
	} {
		parts := eachWorkflow(invented(n), lay)
		assert.Equal(t, "way 0", parts[0].Title)
		assert.Equal(t, want, folds(parts))
	}
	w := invented(3)
	w.Quickest = "way 2"
	assert.Equal(t, "way 2", eachWorkflow(w, lay)[0].Title)
	some := eachWorkflow(invented(3), func(o report.WorkflowAnswers) []pagePart {
		if o.Workflow == "way 1" {
			return nil
		}
		return lay(o)
	})
	assert.Equal(t, []string{`The same for "way 2"`}, folds(some), "a way of which nothing is to be said has no fold")
}

// Pairs with the quickest way stand open, the others are folded.
func TestPairsOnThePage(t *testing.T) {
	t.Parallel()
	one, two, three := pairs(invented(1)), pairs(invented(2)), pairs(invented(3))
	assert.Equal(t, "Minutes a head against heads", one[0].Title)
	assert.Empty(t, one[0].Answer)
	assert.Equal(t, "Which way is quicker, and for how many heads", two[0].Title)
	assert.Len(t, two[0].Answer, 1)
	assert.Empty(t, folds(two))
	assert.Len(t, three[0].Answer, 2)
	assert.Equal(t, []string{"The other pairs of ways"}, folds(three))
	assert.Len(t, three[1].Parts[0].Answer, 1)
	assert.NotNil(t, three[0].Figure)
	nothing := invented(2)
	for i := range nothing.Compare.Workflows {
		nothing.Compare.Workflows[i].Rests = answer.Basis{}
	}
	assert.Nil(t, pairs(nothing)[0].Figure, "an empty figure says nothing")
}

func TestCostsOnThePage(t *testing.T) {
	t.Parallel()
	w := invented(2)
	w.Quickest = "way 1"
	parts := costs(w)
	require.Len(t, parts, 2)
	assert.NotNil(t, parts[0].Figure)
	assert.Empty(t, parts[0].Answer)
	assert.Equal(t, []string{"Cost line by line"}, folds(parts))
	lines := parts[1].Parts
	assert.Equal(t, []string{"way 1", "way 0"}, []string{lines[1].Title, lines[2].Title})
	assert.Len(t, lines[1].Tables[0].Columns, 4, "without a column for the way")
	w.Cost.Workflows[0].PerHead, w.Cost.Workflows[1].PerHead = study.Maybe{}, study.Maybe{}
	parts = costs(w)
	require.Len(t, parts, 1)
	assert.Contains(t, parts[0].Answer[0], "the study gives no wage")
	assert.Nil(t, parts[0].Figure)
	w.Cost.Workflows[1].Supplies = 3
	assert.NotNil(t, costs(w)[0].Figure, "supplies are a cost")
}

// What is not known is listed, and what stands out or was voided counted.
func TestHowSure(t *testing.T) {
	t.Parallel()
	w := invented(1)
	const always = 2
	assert.Len(t, unknown(w), always)
	w.Fit.Steps[0].UnitLow = study.Maybe{}
	assert.Equal(t, "How much these vary, timed too seldom with nothing to lend a spread: sow.", unknown(w)[0])
	w.Fit.Steps[0].SetupLow = known(1)
	assert.Len(t, unknown(w), always)
	w.Fit.Steps[1].UnitLow, w.Fit.Steps[1].Form = study.Maybe{}, nil
	assert.Len(t, unknown(w), always, "what was not timed is said elsewhere")
	w.Definition.Chores = []study.Chore{{Step: "clean"}}
	assert.Contains(t, unknown(w)[0], "A grow's share of clean, which is done for the whole place")
	w.Definition.SowEveryDays = 7
	assert.Len(t, unknown(w), always)

	assert.Equal(t, []string{"None of the 12 readings that count stands out from its step's others."}, standsOut(w).Answer)
	w.Readings = 1
	assert.Equal(t, []string{"None of the 1 reading that count stands out from its step's others."}, standsOut(w).Answer)
	w.Readings = 0
	assert.Equal(t, []string{"There are no readings yet."}, standsOut(w).Answer)
	w.Fit.Steps[0].StandsOut = []answer.StandOut{{File: "a.csv", Line: 3, Count: 5, Seconds: 60, Unit: known(5)}}
	assert.Contains(t, standsOut(w).Answer[0], "Stands out: sow")

	assert.Equal(t, []string{"No reading was voided."}, voided(w).Answer)
	w.Voided = make([]condense.VoidedReading, 1)
	assert.Equal(t, []string{"1 reading was kept and not counted, for the reason that was given."}, voided(w).Answer)
	w.Voided = make([]condense.VoidedReading, 2)
	assert.Equal(t, []string{"2 readings were kept and not counted, for the reason that was given."}, voided(w).Answer)
	assert.Len(t, voided(w).Tables[0].Rows, 2)
	w.Warnings = study.Problems{{Place: study.Place{File: "a.csv", Line: 2}, Text: "a long time"}}
	assert.Equal(t, "a.csv:2: a long time", warnings(w.Warnings))
	titles := ""
	for _, p := range sure(w) {
		titles += p.Title + p.Fold + ";"
	}
	assert.Equal(t, "What is not known;What was assumed;Readings that stand out;Voided readings;Worth a look;Time of each step, with its readings;", titles)
	w.Factors = make([]answer.GrowFactor, 2)
	for i := range w.Factors {
		w.Factors[i] = answer.GrowFactor{Grow: "g", All: 1, Steps: []answer.StepFactor{{Step: "sow", Factor: 1}}}
	}
	assert.Contains(t, folds(sure(w)), "How grows differ")
	w.Factors = w.Factors[:1]
	assert.NotContains(t, folds(sure(w)), "How grows differ", "one differs from none")
	w.Measured = answer.Measured{Grows: []answer.MeasuredGrow{{Grow: "g", Lacks: []string{"sow"}, InPart: []answer.Lacking{{Step: "sow", Missing: 1, Planned: 1}}}}}
	assert.Contains(t, folds(sure(w)), "Grows as they were timed")
}

// Readings to take: none below nothing, and none known where there is no spread.
func TestReadingsThatWouldDo(t *testing.T) {
	t.Parallel()
	w := invented(1)
	w.Fit.Steps = append(w.Fit.Steps, fitOf("pack"), answer.StepFit{Step: "weigh"})
	w.Fit.Steps[1].Readings, w.Fit.Steps[2].Readings = 9, 30
	var rows [][]string
	for _, row := range readingsTable(w).Rows {
		var texts []string
		for _, cell := range row {
			texts = append(texts, cell.Text)
		}
		rows = append(rows, texts)
	}
	assert.Equal(t, [][]string{{"sow", "6", "9", "3"}, {"cut", "9", "9", "-"}, {"pack", "30", "9", "-"}, {"weigh", "0", "?", ""}}, rows)
	parts := next(w)
	assert.Equal(t, []string{"What to time next, most useful first:\nsow: once more."}, parts[0].Answer)
	w.Workflows[0].Improve.Advice = nil
	assert.Equal(t, "How many readings would do", next(w)[0].Fold)
	w.Fit.Steps = nil
	assert.Empty(t, next(w))
}

// Cautions name the steps that are marked, each hazard once, in one order; without a mark
// there are those that hold always.
func TestCautionsOfMarkedSteps(t *testing.T) {
	t.Parallel()
	s := study.Study{Steps: []study.Step{
		{Name: "carry", Hazards: []study.Hazard{study.Repetition, study.Lifting}}, {Name: "lift\x1b", Hazards: []study.Hazard{study.Lifting}}, {Name: "look"},
	}}
	parts := care(s)
	require.Len(t, parts, 4)
	assert.Equal(t, `Lifting and carrying: carry, lift\x1b.`+"\nThe same movement for long: carry.", parts[1].Answer[0])
	assert.Equal(t, "Lifting and carrying", parts[2].Parts[0].Title)
	assert.Equal(t, "The same movement for long", parts[2].Parts[1].Title)
	assert.Contains(t, parts[2].Parts[0].Answer[0], "1.6 times what is recommended: 12.4 kg")
	bare := care(study.Study{})
	require.Len(t, bare, 2)
	assert.Contains(t, bare[0].Answer[0], "Your local codes")
	assert.Contains(t, bare[1].Parts[0].Answer[0], "Compare ways, never workers")
	for _, h := range hazards {
		marked := care(study.Study{Steps: []study.Step{{Name: "x", Hazards: []study.Hazard{h.hazard}}}})
		assert.Equal(t, h.title+": x.", marked[1].Answer[0])
		assert.Equal(t, strings.Join(h.lines, "\n"), marked[2].Parts[0].Answer[0])
	}
	// 23 kg × 25/35 × (1 − 0.003·|30 − 75|) × (0.82 + 4.5/45) × 0.95, the lifting equation
	weight := 23.0 * 25 / 35 * (1 - 0.003*45) * (0.82 + 4.5/45) * 0.95
	assert.Contains(t, hazards[0].lines[1], fmt.Sprintf("%.1f times what is recommended: %.1f kg", 20/weight, weight))
}

// Titles and formulas say what is sown and what is bought.
func TestBoughtAndSown(t *testing.T) {
	t.Parallel()
	of := func(bought ...bool) report.Whole {
		w := invented(len(bought))
		for i, is := range bought {
			w.Workflows[i].Seeding.Bought = is
		}
		return w
	}
	for _, c := range []struct {
		w                   report.Whole
		title, sure, counts string
	}{
		{of(), "How to sow", "Cells to sow for sure", "A cell of k seeds"},
		{of(false, false), "How to sow", "Cells to sow for sure", "A cell of k seeds"},
		{of(true), "What to buy", "Plants to buy for sure", "Young plants that are bought are one a cell"},
		{of(true, false), "How to sow, what to buy", "Cells to sow for sure", "independently of each other. Young plants that are bought"},
	} {
		assert.Equal(t, c.title, sowTitle(c.w))
		assert.Equal(t, c.sure, sureTerm(c.w).Word)
		assert.Contains(t, countsTerm(c.w).Meaning, c.counts)
	}
	w := of(false)
	assert.Empty(t, seasonTerms(w))
	w.Cost.Workflows[0].Gives = answer.Harvest{Unit: "bag"}
	assert.Len(t, seasonTerms(w), 1)
	w.Season = &answer.SeasonPlan{}
	assert.Len(t, seasonTerms(w), 4)
}

// Changes that were made stand apart from what-ifs, the figure by date with the way in front.
func TestChangesOnThePage(t *testing.T) {
	t.Parallel()
	w := invented(2)
	titles := func(parts []pagePart) (all []string) {
		for _, p := range parts {
			if p.Fold == "" {
				all = append(all, p.Title)
			}
		}
		return all
	}
	assert.Equal(t, []string{"way 0: where the time of 48 heads goes"}, titles(change(w)))
	for i := range w.Workflows {
		in := &w.Workflows[i].Improve
		in.Made = []answer.Made{{Name: "dibber", Step: "sow", Since: "2026-04-12", Before: known(0.5)}}
	}
	assert.Equal(t, []string{"way 0: where the time of 48 heads goes", "Changes made"}, titles(change(w)))
	assert.Nil(t, change(w)[1].Figure, "no step has readings by date")
	w.ByDates = []answer.ByDate{{Step: "sow", Points: []answer.DatedPoint{{Day: 1, Ratio: 1}}}}
	assert.NotNil(t, change(w)[1].Figure)
	w.Workflows[0].Improve.Changes = []answer.Saving{{Name: "bench", Saved: known(0.1), Steps: []string{"sow"}}}
	parts := change(w)
	assert.Equal(t, []string{"way 0: where the time of 48 heads goes", "Changes made", "What-ifs"}, titles(parts))
	assert.Nil(t, parts[3].Parts[1].Figure, "once is enough")
	w.Workflows[0].Sensitivity = &answer.Sensitivity{Workflow: "way 0", Inputs: []answer.Input{{Name: "wage"}}}
	assert.Contains(t, folds(change(w)), "What moves the cost of a head")
}

// The steady week stands open, day by day behind it, where grows are sown regularly.
func TestDaysOnThePage(t *testing.T) {
	t.Parallel()
	w := invented(1)
	parts := days(w)
	require.Len(t, parts, 1)
	assert.Contains(t, parts[0].Title, "one grow of 48 heads, day by day")
	steady := w.Workflows[0].Grow
	steady.EveryDays, steady.SteadyWeek, steady.Weekdays, steady.HeadsPerWeek = ref(7), known(1), make([]float64, 7), known(48)
	w.Workflows[0].Steady = &steady
	parts = days(w)
	require.Len(t, parts, 2)
	assert.Contains(t, parts[0].Title, "sown every 7 days")
	assert.Len(t, parts[0].Tables, 1)
	assert.Equal(t, []string{`Day by day, from the first sowing of "way 0"`}, folds(parts))
	assert.Len(t, parts[1].Parts[0].Tables, 2)
	assert.True(t, parts[1].Parts[0].Tucked)
}
