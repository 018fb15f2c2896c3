package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// bags is a harvest of 20 bags of 3.2 kg in all, a bag taking 3 minutes.
func bags() answer.Harvest {
	return answer.Harvest{Unit: "bag", Units: known(21), Sold: known(20), Weighs: true, Kg: known(3.2), Minutes: known(3), MinutesLow: known(2.5), MinutesHigh: known(3.5)}
}

func TestWhatAGrowGives(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(h *answer.Hours)
		want   string
	}{
		{"bags", func(h *answer.Hours) {}, `"tray" gives 20 bags to sell, 3.2 kg; a bag takes 3.0 minutes, give or take 0.5.`},
		{"a step lacks", func(h *answer.Hours) { h.Gaps = []string{"weigh"} }, `"tray" gives 20 bags to sell, 3.2 kg; a bag takes at least 3.0 minutes, give or take 0.5.`},
		{"doubt not known", func(h *answer.Hours) { h.Gives.MinutesLow, h.Gives.MinutesHigh = unknown, unknown }, `"tray" gives 20 bags to sell, 3.2 kg; a bag takes 3.0 minutes.`},
		{"nothing was timed", func(h *answer.Hours) { h.Rests = answer.Basis{} }, `"tray" gives 20 bags to sell, 3.2 kg.`},
		{"a weight that nothing tells", func(h *answer.Hours) { h.Gives = answer.Harvest{Unit: "kg", Weighs: true} },
			`"tray" gives no known number of units: a kg is sold by weight, and neither cuts, head_kg nor a [[grow]] tell that.`},
		{"heads that weigh something", func(h *answer.Hours) { h.Gives.ByHead = true }, `"tray" gives 3.2 kg.`},
		{"heads whose weight is not known", func(h *answer.Hours) { h.Gives = answer.Harvest{ByHead: true, Weighs: true} }, `"tray" gives heads.`},
		{"one", func(h *answer.Hours) { h.Gives.Sold, h.Gives.Kg = known(1), known(0.004) }, `"tray" gives 1 bag to sell, 0.004 kg; a bag takes 3.0 minutes, give or take 0.5.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := wayOf("tray", 60, 6)
			h.Gives = bags()
			c.change(&h)
			assert.Equal(t, c.want, soldLine(h))
		})
	}
	assert.Equal(t, "40 bags to sell, 6.4 kg", harvestWords(bags(), 2))
	assert.Empty(t, harvestWords(answer.Harvest{ByHead: true, Sold: known(48)}, 1))
	unweighed := bags()
	unweighed.Weighs = false
	assert.Equal(t, "20 bags to sell", harvestWords(unweighed, 1), "no weight where the study does not speak of it")
}

// By what is sold the other way may be the quicker one.
func TestQuickerByTheUnit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		difference float64
		low, high  answer.UnitDifference
		gaps       []string
		want       string
	}{
		{-2, answer.UnitDifference{Low: known(-3)}, answer.UnitDifference{High: known(-1)}, nil, `A bag of "B" is quicker than one of "A", by 2.0 minutes, give or take 1.0.`},
		{2, answer.UnitDifference{Low: known(1)}, answer.UnitDifference{High: known(4)}, nil, `A bag of "A" is quicker than one of "B", by 2.0 minutes (somewhere between 1.0 and 4.0).`},
		{2, answer.UnitDifference{}, answer.UnitDifference{}, nil, `A bag of "A" takes 2.0 minutes less than one of "B", as far as is known.`},
		{-2, answer.UnitDifference{}, answer.UnitDifference{}, nil, `A bag of "B" takes 2.0 minutes less than one of "A", as far as is known.`},
		{2, answer.UnitDifference{Low: known(-1)}, answer.UnitDifference{High: known(5)}, nil, `By the bag no clear difference is seen between "A" and "B".`},
		{-2, answer.UnitDifference{Low: known(-5)}, answer.UnitDifference{High: known(1)}, nil, `By the bag no clear difference is seen between "A" and "B".`},
		{2, answer.UnitDifference{Low: known(0)}, answer.UnitDifference{High: known(4)}, nil, `By the bag no clear difference is seen between "A" and "B".`},
		{2, answer.UnitDifference{Low: known(1)}, answer.UnitDifference{High: known(3)}, []string{"weigh", "pack"}, `For which of "A" and "B" a bag is quicker cannot be told: they differ in weigh and pack, not timed.`},
	} {
		p := answer.Pair{A: "A", B: "B", Gaps: c.gaps, AUnit: &answer.UnitDifference{Unit: "bag", Difference: c.difference, Low: c.low.Low, High: c.high.High}}
		assert.Equal(t, c.want, aUnitSentence(p))
	}
}

// What is sold stands beside the comparison where that is more than heads.
func TestSoldBesideHours(t *testing.T) {
	t.Parallel()
	c := comparisonOf(2)
	assert.Nil(t, Compare(c).Section("sold").Table)
	c.Workflows[1].Gives = bags()
	c.Pairs[0].AUnit = &answer.UnitDifference{Unit: "bag", Difference: 2}
	doc := Compare(c)
	assert.Equal(t, []string{`"in place" gives 20 bags to sell, 3.2 kg; a bag takes 3.0 minutes, give or take 0.5.`, `A bag of "tray" takes 2.0 minutes less than one of "in place", as far as is known.`}, doc.Section("sold").Answer)
	rows := doc.Section("sold").Table.Rows
	var texts [][]string
	for _, row := range rows {
		var text []string
		for _, cell := range row {
			text = append(text, cell.Text)
		}
		texts = append(texts, text)
	}
	assert.Equal(t, [][]string{{"tray", "?", "head", "?", "?", "?", "?"}, {"in place", "3.2", "bag", "20.0", "3.00", "2.50", "3.50"}}, texts)
	c.Workflows[1].Gaps = []string{"weigh"}
	assert.Equal(t, "≥ 3.00", Compare(c).Section("sold").Table.Rows[1][4].Text)
	four := comparisonOf(4)
	four.Workflows[1].Gives, four.Pairs[0].AUnit = bags(), c.Pairs[0].AUnit
	assert.Len(t, Compare(four).Section("sold").Answer, 1, "of four ways no pairs are spelled out")
}

func TestCostOfAUnit(t *testing.T) {
	t.Parallel()
	c := costsOf(2)
	w := &c.Workflows[1]
	w.Gives, w.Unit, w.Kg, w.PerKg = bags(), "bag", known(3.2), known(12.5)
	w.PerUnit, w.PerUnitLow, w.PerUnitHigh, w.MinutesAUnit, w.Gaps = known(2.1), known(1.9), known(0.031), known(3), []string{"weigh"}
	var text []string
	for _, cell := range Cost(c).Section("sold").Table.Rows[1] {
		text = append(text, cell.Text)
	}
	assert.Equal(t, []string{"in place", "3.2", "12.500", "bag", "20.0", "≥ 2.100", "1.900", "0.031", "≥ 3.00"}, text)
	assert.Equal(t, "What is sold of one grow, and its cost in EUR", aUnitTable(c, "EUR").Title)
	assert.Equal(t, "What is sold of one grow, and its cost", aUnitTable(c, "").Title)
}
