package report

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

// wholeOf gathers every answer of a study of this module.
func wholeOf(t *testing.T, dir string, asked WholeOptions) Whole {
	t.Helper()
	opened, err := folder.Open(dir, nil, folder.How{})
	require.NoError(t, err)
	if asked.Heads == 0 {
		asked.Heads = opened.Study.Heads
	}
	asked.Assurance = 0.95
	w, err := Gather(answer.NewModels(opened.Readings, answer.Options{}), asked)
	require.NoError(t, err)
	return w
}

const (
	demoStudy  = "../cmd/headhours/demo"
	chardStudy = "../testdata/reference/study_chard"
	newStudy   = "../cmd/headhours/starter"
)

// Every table is tidy: one header, rows as wide, names for all columns, and the
// same tables whatever the study.
func TestTables(t *testing.T) {
	var names []string
	for _, study := range []string{demoStudy, chardStudy, newStudy} {
		var own []string
		for _, table := range wholeOf(t, study, WholeOptions{}).Tables() {
			own = append(own, table.Name)
			if len(table.Columns) == 0 {
				assert.Empty(t, table.Rows, table.Name)
				continue
			}
			var b bytes.Buffer
			require.NoError(t, Write(&b, "csv", Of(table.Table), nil, Style{}))
			rows, err := csv.NewReader(&b).ReadAll()
			require.NoError(t, err, table.Name)
			require.NotEmpty(t, rows, table.Name)
			assert.Len(t, rows, len(table.Rows)+1, table.Name)
			seen := map[string]bool{}
			for _, key := range rows[0] {
				assert.NotEmpty(t, key, table.Name)
				assert.False(t, seen[key], "%s has %s twice", table.Name, key)
				seen[key] = true
			}
		}
		if names == nil {
			names = own
		}
		assert.Equal(t, names, own)
	}
}

// What is worked out for one way of working is there for each.
func TestWays(t *testing.T) {
	w := wholeOf(t, demoStudy, WholeOptions{})
	require.Len(t, w.Workflows, 4)
	assert.Equal(t, "tray, one seed", w.Quickest)
	assert.Equal(t, w.Quickest, w.QuickestFirst()[0].Workflow)
	for i, way := range w.Workflows {
		assert.Equal(t, w.Compare.Workflows[i].Workflow, way.Workflow)
		assert.Equal(t, way.Workflow, way.Improve.Workflow)
		assert.Equal(t, way.Workflow, way.Seeding.Workflow)
		assert.Nil(t, way.Grow.EveryDays)
		require.NotNil(t, way.Steady)
		assert.Equal(t, 7, *way.Steady.EveryDays)
		assert.InDelta(t, w.Cost.Workflows[i].PerHead.Value, way.Sensitivity.PerHead, 1e-12)
	}
	assert.Len(t, w.Voided, 3)
	assert.Equal(t, "watch not stopped", w.Voided[0].Reason)

	none := 0
	alone := wholeOf(t, demoStudy, WholeOptions{
		Workflows: []string{"in place, one seed"}, Heads: 12,
		Schedule: answer.Schedule{Every: &none, Rest: answer.Rest{Start: time.Date(2026, time.March, 2, 0, 0, 0, 0, time.UTC)}},
	})
	require.Len(t, alone.Workflows, 1)
	assert.Nil(t, alone.Workflows[0].Steady)
	assert.Equal(t, 12, alone.Compare.Heads)
	assert.Contains(t, Calendar(alone.Workflows[0].Grow).Words()[1], "2026-04-07", "day 36")
	assert.Contains(t, alone.Settings, Setting{"first sowing", "Monday 2026-03-02"})

	_, err := Gather(answer.Fit(study.Study{}, nil, answer.Options{}), WholeOptions{Heads: 1})
	assert.ErrorContains(t, err, "the study has no [[workflow]]")
}

func TestHeadlines(t *testing.T) {
	known, none := study.Known, study.Maybe{}
	for _, c := range []struct {
		x, low, high study.Maybe
		want         Headline
	}{
		{known(1.8345), known(1.79), known(1.888), Headline{Value: "1.83", Range: "1.79 to 1.89"}},
		{known(61.2), known(57.1), known(65.3), Headline{Value: "61", Range: "57 to 65"}},
		{known(2.62), known(2.19), known(3.05), Headline{Value: "2.6", Range: "2.2 to 3.0"}},
		{known(22.4), none, none, Headline{Value: "22", Range: "how sure is not known yet"}},
		{known(5), known(5), known(5), Headline{Value: "5.0"}},
	} {
		assert.Equal(t, c.want, headline(c.x, c.low, c.high, "", "≥ ", nil))
	}
	w := wholeOf(t, demoStudy, WholeOptions{})
	lines := w.Headlines(w.Quickest)
	require.Len(t, lines, 4)
	assert.Equal(t, []string{"EUR left a head", "EUR a head costs", "minutes a head", "EUR an hour returns"},
		[]string{lines[0].Unit, lines[1].Unit, lines[2].Unit, lines[3].Unit})
	for i, bound := range []string{"≤ ", "≥ ", "≥ ", "≤ "} {
		assert.True(t, strings.HasPrefix(lines[i].Value, bound), "weigh and label was not timed")
	}
	// what is left and what it costs come to the price
	c := w.Cost.Workflows[0]
	assert.InDelta(t, 1.6, c.PerHead.Value+c.LeftPerHead.Value, 1e-12)
	assert.InDelta(t, 1.6, c.PerHeadLow.Value+c.LeftPerHeadHigh.Value, 1e-12)
	c.LeftPerHead = none
	w.Cost.Workflows[0] = c
	assert.Equal(t, "minutes a grow of 48", w.Headlines(w.Quickest)[2].Unit, "without a price")
	w.Cost.Workflows[0].PerHead = none
	assert.Equal(t, Headline{Value: "?", Unit: "EUR a head costs", Range: "the study gives no wage"}, w.Headlines(w.Quickest)[2])
	w.Compare.Workflows[0].Rests = answer.Basis{}
	assert.Equal(t, "nothing was timed or judged yet", w.Headlines(w.Quickest)[0].Range)
}

// Ways between which it cannot be told have their numbers side by side, unless they are many.
func TestTied(t *testing.T) {
	w := wholeOf(t, demoStudy, WholeOptions{})
	assert.Equal(t, []string{"tray, one seed", "in place, one seed"}, w.Tied())
	for i := range w.Compare.Pairs {
		w.Compare.Pairs[i].Low, w.Compare.Pairs[i].High = study.Known(-1), study.Known(1)
	}
	assert.Equal(t, []string{"tray, one seed"}, w.Tied(), "four are too many")
}

// What was never timed is said once, and what holds for all ways beside it.
func TestLede(t *testing.T) {
	w := wholeOf(t, demoStudy, WholeOptions{Cautions: []string{"careful"}})
	lede := w.Lede()
	require.Len(t, lede, 3)
	assert.Equal(t, "careful", lede[0])
	assert.Contains(t, lede[1], "Quickest for 48 heads: ")
	assert.Contains(t, lede[2], `Cheapest: "tray, one seed", by 0.04 EUR a head (somewhere between 0.02 and 0.06) against "in place, one seed".`)
	assert.Contains(t, w.NeverTimed(), "Not timed: weigh and label.")
	assert.NotContains(t, strings.Join(append(lede, w.Remarks()...), " "), "not timed")
	one := wholeOf(t, demoStudy, WholeOptions{Workflows: []string{"in place, one seed"}})
	assert.Contains(t, one.Lede()[0], "48 heads take at least 89 minutes")
}

// Two ways that change places near so many heads: one sentence that does not say both
// that one is quicker and that none is.
func TestTooCloseToCall(t *testing.T) {
	p := answer.Pair{A: "a", B: "b", Difference: 0.01, Low: study.Known(-0.03), High: study.Known(0.05)}
	p.BreakEven = answer.BreakEven{Kind: answer.Interval, Heads: study.Known(45), Low: study.Known(34), High: study.Known(58), Fixed: -0.1, PerHead: 0.01}
	assert.Equal(t, `"a" is quicker somewhere above 34 to 58 heads, "b" below that; 48 is too close to call: "b" may take up to 1.8 minutes less than "a" or up to 3.0 minutes more.`, PairWords(p, 48))
	p.Low = study.Known(0.001)
	assert.NotContains(t, PairWords(p, 48), "too close to call", "where it is clear")
	p.Low, p.BreakEven.Kind = study.Known(-0.03), answer.Everywhere
	assert.NotContains(t, PairWords(p, 48), "too close to call", "where nothing is told anywhere")
}

func TestCheapestSentence(t *testing.T) {
	r := answer.CostRank{Cheapest: "a", By: answer.Measure{ByHead: true}, Dearer: []answer.CostMore{
		{Workflow: "b", More: 0.02, Low: study.Known(-0.01), High: study.Known(0.05)},
	}}
	assert.Equal(t, `Cheapest: "a" or "b"; no clear difference between them: a head of "b" may cost up to 0.01 EUR less or up to 0.05 more.`, cheapestSentence(r, "EUR", false))
	r.Dearer[0].Low = study.Known(0.01)
	assert.Equal(t, `Cheapest: "a", by 0.02 EUR a head (somewhere between 0.01 and 0.05) against "b".`, cheapestSentence(r, "EUR", false))
	r.Dearer[0].Gaps = []string{"weigh"}
	assert.Equal(t, `Cheapest: "a" or "b"; which cannot be told, since weigh was not timed and not all need as much of it.`, cheapestSentence(r, "EUR", false))
}

func TestMoney(t *testing.T) {
	for x, want := range map[float64]string{15: "15.00", 0.008: "0.008", 14.5: "14.50", 0.12345: "0.1235", 0: "0.00"} {
		assert.Equal(t, want, words.Price(x))
	}
}

func TestMeasuredGrows(t *testing.T) {
	doc := MeasuredGrows(wholeOf(t, demoStudy, WholeOptions{}).Measured)
	assert.Empty(t, doc.Words(), "no pair has a grow each that was timed whole")
	require.Len(t, doc.Tables(), 1)
	assert.Len(t, doc.Tables()[0].Rows, 6)
	pair := answer.MeasuredPair{A: "a", B: "b", AGrows: 1, BGrows: 1, Difference: study.Known(0.5)}
	doc = MeasuredGrows(answer.Measured{Grows: []answer.MeasuredGrow{{Grow: "g"}}, Pairs: []answer.MeasuredPair{pair}})
	require.Len(t, doc.Words(), 1)
	assert.True(t, strings.HasPrefix(doc.Words()[0], "As measured"))
}
