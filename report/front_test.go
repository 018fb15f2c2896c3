package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// invented is a report of invented answers, so many ways of them.
func invented(ways int) Whole {
	w := Whole{Heads: 48, Compare: comparisonOf(ways), Cost: costsOf(ways), Quickest: "tray"}
	for _, h := range w.Compare.Workflows {
		way := WorkflowAnswers{Workflow: h.Workflow, Improve: improvementOf(1), Seeding: seedingOf(), Grow: growOf()}
		way.Improve.Workflow, way.Seeding.Workflow, way.Grow.Workflow = h.Workflow, h.Workflow, h.Workflow
		w.Workflows = append(w.Workflows, way)
	}
	w.Fit = answer.Fits{Confidence: 0.95, Steps: []answer.StepFit{fitOf("sow", 30, 2), gapFit("weigh"), gapFit("pack")}}
	return w
}

// The numbers that a report begins with, by what the study has prices for.
func TestNumbersThatAReportBeginsWith(t *testing.T) {
	t.Parallel()
	left := Headline{"0.80", "EUR left a head", "0.74 to 0.86"}
	cost := Headline{"0.80", "EUR a head costs", "0.74 to 0.86"}
	head := Headline{"1.25", "minutes a head", "1.12 to 1.38"}
	hour := Headline{"47", "EUR an hour returns", ""}
	grow := Headline{"60", "minutes a grow of 48", "54 to 66"}
	for _, c := range []struct {
		name   string
		change func(h *answer.Hours, c *answer.GrowCost)
		want   []Headline
	}{
		{"all", func(h *answer.Hours, c *answer.GrowCost) {}, []Headline{left, cost, head, hour}},
		{"no price", func(h *answer.Hours, c *answer.GrowCost) { c.LeftPerHead = unknown }, []Headline{cost, head, grow}},
		{"no wage", func(h *answer.Hours, c *answer.GrowCost) { c.PerHead = unknown }, []Headline{head, grow, {"?", "EUR a head costs", "the study gives no wage"}}},
		{"a step lacks", func(h *answer.Hours, c *answer.GrowCost) { h.Gaps, c.Gaps = []string{"weigh"}, []string{"weigh"} }, []Headline{
			{"≤ 0.80", left.Unit, left.Range}, {"≥ 0.80", cost.Unit, cost.Range}, {"≥ 1.25", head.Unit, head.Range}, {"≤ 47", hour.Unit, ""},
		}},
		{"doubt not known", func(h *answer.Hours, c *answer.GrowCost) {
			h.Low, h.High, c.LeftPerHead, c.PerHeadLow, c.PerHeadHigh = unknown, unknown, unknown, unknown, unknown
		}, []Headline{{"0.80", cost.Unit, "how sure is not known yet"}, {"1.2", head.Unit, "how sure is not known yet"}, {"60", grow.Unit, "how sure is not known yet"}}},
		{"nothing was timed", func(h *answer.Hours, c *answer.GrowCost) { h.Rests = answer.Basis{} }, []Headline{
			{"?", left.Unit, "nothing was timed or judged yet"}, {"?", cost.Unit, "nothing was timed or judged yet"}, {"?", head.Unit, "nothing was timed or judged yet"}, {"?", hour.Unit, "nothing was timed or judged yet"},
		}},
		{"bags", func(h *answer.Hours, c *answer.GrowCost) {
			h.Gives, c.Unit = bags(), "bag"
			c.PerUnit, c.PerUnitLow, c.PerUnitHigh = known(2.1), known(1.9), known(2.3)
		}, []Headline{{"2.1", "EUR a bag that is sold costs", "1.9 to 2.3"}, left, cost, head, hour}},
		{"hours", func(h *answer.Hours, c *answer.GrowCost) {
			h.Hours, h.Low, h.High, c.LeftPerHead = 3, known(2.5), known(3.5), unknown
		}, []Headline{cost, {"1.2", "minutes a head", "3.1 to 4.4"}, {"3.0", "hours a grow of 48", "2.5 to 3.5"}}},
		{"very little", func(h *answer.Hours, c *answer.GrowCost) {
			c.LeftPerHead, c.PerHead, c.PerHeadLow, c.PerHeadHigh = unknown, known(0.0042), known(0.0031), known(0.0053)
		}, []Headline{{"0.0042", cost.Unit, "0.0031 to 0.0053"}, head, grow}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := invented(2)
			c.change(&w.Compare.Workflows[0], &w.Cost.Workflows[0])
			assert.Equal(t, c.want, w.Headlines("tray"))
		})
	}
	w := invented(2)
	w.Cost.Currency = nil
	assert.Equal(t, "money left a head", w.Headlines("tray")[0].Unit)
	assert.Equal(t, "0.70", w.Headlines("in place")[0].Value, "each way has its own")
}

// Ways have headlines where it cannot be told which of them is quicker, up to three.
func TestWaysThatTie(t *testing.T) {
	t.Parallel()
	tie := func(w *Whole, pairs ...int) {
		for _, i := range pairs {
			w.Compare.Pairs[i].Low = known(-1)
		}
	}
	w := invented(4)
	assert.Equal(t, []string{"tray"}, w.Tied())
	tie(&w, 0)
	assert.Equal(t, []string{"tray", "in place"}, w.Tied())
	tie(&w, 1, 2)
	assert.Equal(t, []string{"tray", "in place", "raft"}, w.Tied())
	w.Compare.Pairs[1].Gaps = []string{"weigh"}
	assert.Equal(t, []string{"tray", "in place"}, w.Tied(), "which cannot be told for want of a step")
	w.Compare.Pairs[0].Low = unknown
	assert.Equal(t, []string{"tray"}, w.Tied(), "nor for want of doubt")
	w = invented(4)
	tie(&w, 0, 1, 3)
	assert.Equal(t, []string{"tray"}, w.Tied(), "four are too many")
	w = invented(2)
	tie(&w, 0)
	w.Compare.Workflows[1].Hours = 0.5
	w.Quickest = "in place"
	assert.Equal(t, []string{"in place", "tray"}, w.Tied(), "the quicker one first")
	for i := range w.Compare.Workflows {
		w.Compare.Workflows[i].Rests = answer.Basis{}
	}
	assert.Len(t, w.Tied(), 1, "nothing is known")
}

// What a report says first, and what was never timed, once.
func TestWhatAReportSaysFirst(t *testing.T) {
	t.Parallel()
	w := invented(2)
	w.Cautions = []string{"careful"}
	assert.Equal(t, []string{
		"careful", `Quickest for 48 heads: "tray".`, `Cheapest: "tray", by 0.10 EUR a head (somewhere between 0.05 and 0.15) against "in place".`,
	}, w.Lede())
	assert.Empty(t, w.NeverTimed())
	assert.Empty(t, w.Remarks())
	w.Cost.Ranks = append(w.Cost.Ranks, w.Cost.Ranks[0])
	w.Cost.Ranks[0].Crop, w.Cost.Ranks[1].Crop, w.Cost.Currency = "lettuce", "basil", nil
	assert.Equal(t, `Cheapest of "basil": "tray", by 0.10 money a head (somewhere between 0.05 and 0.15) against "in place".`, w.Lede()[3])
	one := invented(1)
	assert.Equal(t, []string{"48 heads take 60 minutes, give or take 6."}, one.Lede())

	const marked = " What needs them is more than is said, marked ≥, and what is left less, marked ≤."
	w.Compare.Workflows[0].Gaps, w.Cost.Workflows[1].Gaps = []string{"weigh"}, []string{"weigh", "clean", "pack"}
	assert.Equal(t, "Not timed: weigh and pack. Not shared out, since the study does not say how often a grow is sown: clean."+marked, w.NeverTimed())
	w.Cost.Workflows[1].Gaps = nil
	assert.Equal(t, "Not timed: weigh."+marked, w.NeverTimed())
	w.Compare.Workflows[0].Gaps, w.Cost.Workflows[1].Gaps = nil, []string{"clean"}
	assert.Equal(t, "Not shared out, since the study does not say how often a grow is sown: clean."+marked, w.NeverTimed())
	for i := range w.Compare.Workflows {
		h := &w.Compare.Workflows[i]
		h.Gaps, h.Low, h.High, h.Rests.NoScatter = []string{"weigh"}, unknown, unknown, h.Rests.Timed
	}
	assert.Equal(t, []string{"Each job was timed once, so how much this varies is not known yet."}, w.Remarks(), "what was not timed is said elsewhere")
	assert.Equal(t, []string{"weigh"}, w.Compare.Workflows[0].Gaps, "and is not taken out of the answer")
}

// The way in front is the quickest, of the first crop that has several.
func TestTheWayInFront(t *testing.T) {
	t.Parallel()
	names := func(w Whole) (names []string) {
		for _, way := range w.QuickestFirst() {
			names = append(names, way.Workflow)
		}
		return names
	}
	w := invented(4)
	assert.Equal(t, []string{"tray", "in place", "raft", "two trays"}, names(w))
	w.Quickest = "raft"
	assert.Equal(t, []string{"raft", "tray", "in place", "two trays"}, names(w))
	for i, crop := range []string{"lettuce", "basil", "basil", "cress"} {
		w.Compare.Workflows[i].Gives.Crop = crop
	}
	assert.Equal(t, []string{"in place", "tray", "raft", "two trays"}, names(w))
	assert.Equal(t, "in place", w.Front())
}

// Tables that a phone has room for.
func TestShortTables(t *testing.T) {
	t.Parallel()
	c := comparisonOf(2)
	c.Workflows[1] = lacking(c.Workflows[1], "weigh")
	hours, next := HoursTable(c), NextTable(c)
	assert.Equal(t, "Hours of one grow of 48 heads", hours.Title)
	assert.Equal(t, [][]string{{"tray", "1.00 h (0.90–1.10)"}, {"in place", "≥ 1.17 h (1.07–1.27)"}}, [][]string{texts(hours.Rows[0]), texts(hours.Rows[1])})
	assert.Equal(t, [][]string{{"tray", "0.80–1.20", "1.25 (1.12–1.38)"}, {"in place", "0.97–1.37", "≥ 1.46 (1.33–1.58)"}}, [][]string{texts(next.Rows[0]), texts(next.Rows[1])})
	c.Workflows[0].NextLow, c.Workflows[0].Low = known(-0.1), unknown
	assert.Equal(t, []string{"tray", "-0.10 to 1.20", "1.25"}, texts(NextTable(c).Rows[0]))
	c.Workflows[0].Rests, c.Workflows[0].Gaps = answer.Basis{}, []string{"sow"}
	assert.Equal(t, [][]string{{"tray", "?"}, {"tray", "?", "?"}}, [][]string{texts(HoursTable(c).Rows[0]), texts(NextTable(c).Rows[0])}, "nothing is known")
	costs := costsOf(3)
	costs.Workflows[1].Gaps = []string{"weigh"}
	costs.Workflows[2] = answer.GrowCost{Workflow: "raft", Gaps: []string{"weigh"}}
	table := CostTable(costs)
	assert.Equal(t, "A head, in EUR, with ranges", table.Title)
	assert.Equal(t, []string{"tray", "0.80 (0.74–0.86)", "0.80 (0.74–0.86)", "46.67"}, texts(table.Rows[0]))
	assert.Equal(t, []string{"in place", "≥ 0.90 (0.84–0.96)", "≤ 0.70 (0.64–0.76)", "≤ 46.67"}, texts(table.Rows[1]))
	assert.Equal(t, []string{"raft", "", "", ""}, texts(table.Rows[2]), "without a wage there is no cost of 0")
	costs.Workflows[2].PerHead = known(0)
	assert.Equal(t, []string{"raft", "?", "", ""}, texts(CostTable(costs).Rows[2]), "nothing is known")
	costs.Currency, costs.Workflows[0].PerHeadLow = nil, known(0.042)
	assert.Equal(t, "A head, in money, with ranges", CostTable(costs).Title)
	assert.Equal(t, "0.800 (0.042–0.860)", CostTable(costs).Rows[0][1].Text)
}

// Tables of every way stand below each other, the way in a column of its own.
func TestTablesOfEveryWay(t *testing.T) {
	t.Parallel()
	w := invented(2)
	tables := map[string]Table{}
	for _, table := range w.Tables() {
		tables[table.Name] = table.Table
	}
	assert.Equal(t, "workflow", tables["changes"].Columns[0].Key)
	assert.Equal(t, []string{"tray", "in place"}, []string{tables["changes"].Rows[0][0].Text, tables["changes"].Rows[1][0].Text})
	for _, none := range []string{"made", "sensitivity", "steady", "sold", "season_sowings", "season_weeks", "season_steps", "grows"} {
		assert.Empty(t, tables[none].Columns, none)
	}
	steady, season, inputs := everyWeek(), seasonOf(2), inputsOf(2)
	w.Workflows[1].Steady, w.Season, w.Workflows[1].Sensitivity, w.Measured = &steady, &season, &inputs, measuredOf()
	w.Workflows[1].Improve.Made = []answer.Made{madeOf("dibber")}
	w.Compare.Workflows[0].Gives = bags()
	for _, table := range w.Tables() {
		tables[table.Name] = table.Table
	}
	for name, rows := range map[string]int{"made": 1, "sensitivity": 2, "steady": 4, "sold": 2, "season_sowings": 2, "season_weeks": 4, "season_steps": 2, "grows": 2, "seeding": 6, "calendar": 8, "improve": 6, "fit": 3} {
		assert.Len(t, tables[name].Rows, rows, name)
	}
	assert.Equal(t, "in place", tables["made"].Rows[0][0].Value, "the way that has it")
	notes := notesTable([]string{"a", "\x1b"})
	assert.Equal(t, [][]string{{"a"}, {`\x1b`}}, [][]string{texts(notes.Rows[0]), texts(notes.Rows[1])})
	assert.Equal(t, []string{"wage", `18\x1b`}, texts(SettingsTable([]Setting{{"wage", "18\x1b"}}).Rows[0]))
	assert.Equal(t, []string{`\x1b.csv`, "3", "ab"}, texts(filesTable([]SourceFile{{"\x1b.csv", "ab", 3}}).Rows[0]))
}

// What answers rest on that was not timed is noted once for all of them.
func TestAssumptionsOnce(t *testing.T) {
	t.Parallel()
	w := invented(2)
	w.Compare.Notes, w.Cost.Notes = []string{"a", "b"}, []string{"b", "c"}
	w.Workflows[0].Seeding.Notes, w.Workflows[1].Seeding.Notes = []string{"c", "d"}, []string{"d"}
	notes := w.assumptions()
	seen := map[string]bool{}
	for _, note := range notes {
		assert.False(t, seen[note], note)
		seen[note] = true
	}
	for _, note := range []string{"a", "b", "c", "d", "the range is that of the labour alone: prices, counts and losses are taken as exact"} {
		assert.True(t, seen[note], note)
	}
}
