package report

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected output in testdata/golden")

// shown is a document as each format has it, each table that a spreadsheet may have too.
func shown(t *testing.T, doc Doc) string {
	t.Helper()
	var b strings.Builder
	for _, format := range []string{"text", "markdown"} {
		fmt.Fprintf(&b, "-- %s --\n%s", format, written(t, format, doc, nil))
	}
	for _, id := range doc.TableIDs() {
		csv := written(t, "csv", doc.Only(id), nil)
		assert.Equal(t, strings.Count(csv, "\n"), strings.Count(csv, "\r\n"), "RFC 4180 ends lines with CRLF")
		fmt.Fprintf(&b, "-- %s.csv --\n%s", id, strings.ReplaceAll(csv, "\r\n", "\n"))
	}
	return b.String()
}

// Whole documents as they are read, by how many things are in them. A change of any word or
// figure in them is meant to be seen: -update rewrites what is expected, and its diff is to
// be read as code.
func TestDocumentsAsTheyAreRead(t *testing.T) {
	for name, docs := range goldenDocs() {
		t.Run(name, func(t *testing.T) {
			var b strings.Builder
			for _, d := range docs {
				fmt.Fprintf(&b, "== %s ==\n%s", d.name, shown(t, d.doc))
			}
			file := filepath.Join("testdata", "golden", name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o666))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Equal(t, string(want), b.String())
		})
	}
}

type namedDoc struct {
	name string
	doc  Doc
}

func goldenDocs() map[string][]namedDoc {
	all := map[string][]namedDoc{}
	add := func(file, name string, doc Doc) { all[file] = append(all[file], namedDoc{name, doc}) }
	for _, n := range []int{1, 2, 4} {
		ways := words.Many(n, "way")
		add("compare", ways, Compare(comparisonOf(n)))
		add("cost", ways, Cost(costsOf(n)))
		add("scale", ways, Scale(scaleOf(n)))
	}
	for _, n := range []int{0, 1, 2, 4} {
		add("improve", words.Many(n, "change"), Improve(improvementOf(n)))
		add("sensitivity", words.Many(n, "input"), Sensitivity(inputsOf(n)))
	}
	made := improvementOf(1)
	made.Made = []answer.Made{madeOf("dibber"), madeOf("bench")}
	add("improve", "changes that were made", Improve(made))
	add("fit", "a step and a gap", Fit(answer.Fits{Confidence: 0.95, Steps: []answer.StepFit{fitOf("transplant", 90, 7.5), gapFit("weigh")}}))
	add("fit", "before a change", Fit(answer.Fits{Confidence: 0.9, Steps: []answer.StepFit{fitOf("sow", 30, 2)}, Earlier: []answer.StepFit{fitOf("sow (before 2026-04-12)", 60, 4)}}))
	add("seeding", "sown", Seeding(seedingOf()))
	bought := seedingOf()
	bought.Bought, bought.Choices = true, bought.Choices[1:2]
	add("seeding", "bought", Seeding(bought))
	dated := everyWeek()
	dated.Start, dated.HoursPerDay, dated.Crew = day0, 8, ref(1)
	add("calendar", "one grow", Calendar(growOf()))
	add("calendar", "every week, with dates", Calendar(dated))
	add("readings", "within", Readings(answer.Plans{Plan: plannedOf()}))
	add("place", "two sowings", Season(SeasonAnswer{SeasonPlan: seasonOf(2)}))
	tried := seasonOf(1)
	tried.Changes = []answer.SeasonSaving{{Name: "dibber", Saved: known(3), Low: known(2), High: known(4), Payback: known(40)}, {Name: "bench"}}
	add("place", "tried and filled", Season(SeasonAnswer{
		SeasonPlan: tried, Try: &SeasonTrial{SeasonPlan: seasonOf(2), Difference: 5, DiffLow: known(4), DiffHigh: known(6), MarginMore: known(-30)},
		Fill: &answer.Filled{Factor: known(0.8333), EndsBy: "hours", Week: ref(2)},
	}))
	add("check", "nothing wrong", Check(answer.Check{Files: []answer.CheckedFile{{Name: "march.csv", Readings: 12}}}))
	add("check", "much to see", Check(checkOf()))
	add("trial", "after it was made", ChangeTrial(trialOf()))
	add("lists", "stand-outs", Of(standOuts([]answer.StepFit{standingOut()})))
	add("lists", "voided", Of(VoidedTable([]condense.VoidedReading{voidedOf("sow", "watch not stopped", 3), {Step: "cut", Seconds: 2, Reason: "no count"}})))
	add("lists", "settings", Of(SettingsTable([]Setting{{"wage", "18.00 EUR an hour"}})))
	add("lists", "files", Of(filesTable([]SourceFile{{Name: "timings/march.csv", SHA256: "ab12", Readings: 12}})))
	add("measured", "grows by head", MeasuredGrows(measuredOf()))
	sold := measuredOf()
	sold.Grows[0].Gives = bags()
	add("measured", "grows by the bag", MeasuredGrows(sold))
	bagged := comparisonOf(2)
	bagged.Workflows[1].Gives = bags()
	add("sold", "heads and bags", Compare(bagged).Only("sold"))
	priced := costsOf(2)
	priced.Workflows[1].Gives, priced.Workflows[1].Unit, priced.Workflows[1].PerUnit = bags(), "bag", known(2.1)
	add("sold", "their costs", Cost(priced).Only("sold"))
	add("fit", "over the grows", FitOverGrows(answer.FitsOverGrows{Fits: answer.Fits{Confidence: 0.95}, OverGrows: []answer.StepOverGrows{{
		Step: "sow", Setups: 1, Count: 24, Grows: []answer.GrowTime{{Grow: "g1", Date: day0, Readings: 2, Seconds: known(120)}, {Grow: "g2", Date: day0.AddDate(0, 0, 7), Readings: 3, Seconds: known(108)}},
		Rate: known(0.9), RateLow: known(0.84), RateHigh: known(0.96), P: known(0.0123), Trend: "falling",
	}}}))
	add("lists", "grows", Of(FactorsTable([]answer.GrowFactor{{Grow: "g1", Day: condense.DayOf(day0), All: 1.1, Steps: []answer.StepFactor{{Step: "sow", Factor: 1.1}}}})))
	return all
}

func scaleOf(n int) answer.Scale {
	s := answer.Scale{Confidence: 0.95, Notes: []string{}}
	for i := range n {
		line := answer.ScaleLine{Workflow: manyNames[i], Gaps: []string{}}
		for _, heads := range []int{10, 100, 1000} {
			hours := 0.25 + 0.02*float64(heads)
			line.Points = append(line.Points, answer.ScalePoint{
				Heads: heads, Hours: hours, Low: known(hours * 0.9), High: known(hours * 1.1), MinutesPerHead: 60 * hours / float64(heads), Extrapolated: heads == 1000,
			})
		}
		s.Workflows = append(s.Workflows, line)
	}
	return s
}

func standingOut() answer.StepFit {
	s := fitOf("transplant", 90, 7.5)
	s.StandsOut = []answer.StandOut{{File: "march.csv", Line: 14, Count: 24, Seconds: 900, P: 0.0004, Setup: known(80), Unit: known(7)}}
	return s
}

func checkOf() answer.Check {
	at := func(line int) study.Place { return study.Place{File: "march.csv", Line: line} }
	return answer.Check{
		Files:    []answer.CheckedFile{{Name: "march.csv", Readings: 1}, {Name: "april.csv", Readings: 11}},
		Problems: study.Problems{{Place: at(3), Text: "no count"}},
		Warnings: study.Problems{{Place: at(5), Text: "a long time"}, {Place: at(6), Text: "a short time"}},
		Grows: []answer.GrowCheck{
			{Grow: "g1", Workflow: "tray", Readings: 9}, {Grow: "g2", Workflow: "raft", Readings: 3, Remarks: []string{"sow was not timed", "harvest was timed twice"}},
		},
		Clock: []answer.Reconciliation{
			{Worker: "w1", Session: "s1", Date: "2026-03-02", Minutes: 100, Named: 0.9, Nameless: 10},
			{Worker: "w2", Date: "2026-03-02", Minutes: 60, Named: 1, Overlaps: []string{"sow and harvest overlap"}},
			{Worker: "w1", Session: "s2", Date: "2026-03-03", Minutes: 60, Named: 0.99, Nameless: 0.6},
		},
		Notes: []string{},
	}
}

func trialOf() answer.ChangeTrial {
	return answer.ChangeTrial{
		Change: "dibber", Step: "transplant", Workflow: "tray", Heads: 48, Before: minutes(20), Saving: minutes(8), IsHoped: true, Assured: 0.8, Done: 3,
		Grows: known(2), After: known(4), GrowsTo: known(0), ToBefore: known(0), Counts: []float64{24, 48, 24}, Made: true, Had: 5,
	}
}

func measuredOf() answer.Measured {
	head := answer.Harvest{ByHead: true, Unit: "head"}
	return answer.Measured{
		Grows: []answer.MeasuredGrow{
			{Grow: "g1", Workflow: "tray", Heads: 48, Minutes: 60, MinutesPerHead: 1.25, MinutesPerKg: known(8.3), ModelPerHead: 1.3, Gives: head},
			{Grow: "g2", Workflow: "raft", Heads: 44.5, Minutes: 70, MinutesPerHead: 1.573, ModelPerHead: 1.6, Lacks: []string{"sow", "weigh"}, InPart: []answer.Lacking{{Step: "sow", Missing: 1, Planned: 1}, {Step: "weigh", Missing: 1, Planned: 3}}, Gives: head},
		},
		Pairs: []answer.MeasuredPair{{A: "tray", B: "raft", AGrows: 3, BGrows: 2, Difference: known(0.32), Low: known(0.1), High: known(0.54)}},
	}
}
