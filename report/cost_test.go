package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// What a head costs, with or without a wage, a price, space, and steps that lack.
func TestWhatAHeadCosts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(w *answer.GrowCost)
		want   string
	}{
		{"all is known", func(w *answer.GrowCost) {},
			`"tray": a head costs 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour. Sold for 1.60, it leaves 0.80 (somewhere between 0.74 and 0.86). An hour's work returns 46.67 EUR.`},
		{"no wage", func(w *answer.GrowCost) { w.PerHead = unknown },
			`"tray": the study gives no wage, so no cost of a head; supplies and space come to 0.20 EUR a head.`},
		{"no wage, nothing bought", func(w *answer.GrowCost) { w.PerHead, w.Supplies, w.Space, w.Lines = unknown, 0, 0, nil },
			`"tray": the study gives no wage and no prices, so nothing of a head is priced.`},
		{"no wage, sold by the bag", func(w *answer.GrowCost) {
			w.PerHead = unknown
			w.Gives = answer.Harvest{Unit: "bag", Sold: known(20), Weighs: true, Kg: known(3.21)}
		}, `"tray": the study gives no wage, so no cost of a head; supplies and space come to 0.20 EUR a head, a grow giving 20 bags to sell, 3.21 kg.`},
		{"no wage, hardly a supply", func(w *answer.GrowCost) { w.PerHead, w.Supplies, w.Space = unknown, 0.02, 0 },
			`"tray": the study gives no wage, so no cost of a head; supplies and space come to 0.00042 EUR a head.`},
		{"no price", func(w *answer.GrowCost) { w.LeftPerHead, w.ReturnPerHour = unknown, unknown },
			`"tray": a head costs 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour.`},
		{"no doubt known", func(w *answer.GrowCost) {
			w.PerHeadLow, w.PerHeadHigh, w.LeftPerHeadLow, w.LeftPerHeadHigh, w.ReturnPerHour = unknown, unknown, unknown, unknown, unknown
		}, `"tray": a head costs 0.80 EUR; 75 % of it is labour. Sold for 1.60, it leaves 0.80.`},
		{"a step lacks", func(w *answer.GrowCost) { w.Gaps, w.ReturnPerHour = []string{"weigh"}, unknown },
			`"tray": a head costs at least 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour. Sold for 1.60, it leaves at most 0.80 (somewhere between 0.74 and 0.86). Not counted: weigh.`},
		{"a step and space lack", func(w *answer.GrowCost) {
			w.Gaps, w.NoSpace, w.LeftPerHead, w.ReturnPerHour = []string{"weigh"}, true, unknown, unknown
		}, `"tray": a head costs at least 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour. Not counted: weigh and space.`},
		{"a chore's share is not known", func(w *answer.GrowCost) {
			w.Gaps, w.Unshared, w.LeftPerHead, w.ReturnPerHour = []string{"weigh", "water"}, []string{"water"}, unknown, unknown
		}, `"tray": a head costs at least 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour. Not counted: weigh and water (without sow_every_days in the study a grow's share of water is not known).`},
		{"for nothing", func(w *answer.GrowCost) {
			w.PerHead, w.PerHeadLow, w.PerHeadHigh, w.LeftPerHead, w.ReturnPerHour = known(0), known(0), known(0), unknown, unknown
		}, `"tray": a head costs 0.00 EUR (somewhere between 0.00 and 0.00).`},
		{"very little", func(w *answer.GrowCost) {
			w.PerHead, w.PerHeadLow, w.PerHeadHigh, w.LabourPerHead = known(0.0042), known(0.0031), known(0.0053), known(0.0021)
			w.LeftPerHead, w.ReturnPerHour = unknown, unknown
		}, `"tray": a head costs 0.0042 EUR (somewhere between 0.0031 and 0.0053); 50 % of it is labour.`},
		{"a bag", func(w *answer.GrowCost) {
			w.Gives, w.Unit = answer.Harvest{Unit: "bag", Weighs: true}, "bag"
			w.PerUnit, w.PerUnitLow, w.PerUnitHigh, w.MinutesAUnit, w.PerKg = known(2.1), known(1.9), known(2.3), known(3), known(14)
		}, `"tray": a head costs 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour; a bag that is sold costs 2.10 EUR (somewhere between 1.90 and 2.30) and takes 3.0 minutes; a kilogram costs 14.00 EUR. What it gives sells for 1.60, which leaves 0.80 (somewhere between 0.74 and 0.86). An hour's work returns 46.67 EUR.`},
		{"a bag of unknown weight", func(w *answer.GrowCost) {
			w.Gives, w.Unit, w.LeftPerHead, w.ReturnPerHour = answer.Harvest{Unit: "bag", Weighs: true}, "bag", unknown, unknown
		}, `"tray": a head costs 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour; it gives no known number of units: a bag is sold by weight, and neither cuts, head_kg nor a [[grow]] tell that.`},
		{"a bag, and a step lacks", func(w *answer.GrowCost) {
			w.Gives, w.Unit, w.Gaps = answer.Harvest{Unit: "bag", Weighs: true}, "bag", []string{"weigh"}
			w.PerUnit, w.MinutesAUnit, w.PerKg, w.LeftPerHead, w.ReturnPerHour = known(2.1), known(3), known(14), unknown, unknown
		}, `"tray": a head costs at least 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour; a bag that is sold costs at least 2.10 EUR and takes at least 3.0 minutes; a kilogram costs at least 14.00 EUR. Not counted: weigh.`},
		{"at a loss", func(w *answer.GrowCost) {
			w.LeftPerHead, w.LeftPerHeadLow, w.LeftPerHeadHigh = known(-0.2), known(-0.3), known(-0.1)
		},
			`"tray": a head costs 0.80 EUR (somewhere between 0.74 and 0.86); 75 % of it is labour. Sold for 1.60, it leaves -0.20 (somewhere between -0.30 and -0.10). An hour's work returns 46.67 EUR.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := costOf("tray")
			c.change(&w)
			assert.Equal(t, c.want, costSentence(w, 48, "EUR"))
		})
	}
}

// Which way is cheapest, by what they are sold as and how sure that is.
func TestWhichIsCheapest(t *testing.T) {
	t.Parallel()
	byBag := func(r *answer.CostRank) { r.By = answer.Measure{Unit: "bag"} }
	for _, c := range []struct {
		name    string
		several bool
		change  func(r *answer.CostRank)
		want    string
	}{
		{"clear", false, func(r *answer.CostRank) {}, `Cheapest: "tray", by 0.10 EUR a head (somewhere between 0.05 and 0.15) against "in place".`},
		{"the nearest is named, wherever it stands", false, func(r *answer.CostRank) { r.Dearer[0].More = 0.9 }, `Cheapest: "tray", by 0.20 EUR a head (somewhere between 0.15 and 0.25) against "raft".`},
		{"of a crop", true, func(r *answer.CostRank) { r.Crop = "basil" }, `Cheapest of "basil": "tray", by 0.10 EUR a head (somewhere between 0.05 and 0.15) against "in place".`},
		{"of the only crop", false, func(r *answer.CostRank) { r.Crop = "basil" }, `Cheapest: "tray", by 0.10 EUR a head (somewhere between 0.05 and 0.15) against "in place".`},
		{"by the bag", false, byBag, `Cheapest for a bag: "tray", by 0.10 EUR a bag (somewhere between 0.05 and 0.15) against "in place".`},
		{"by the bag, of a crop", true, func(r *answer.CostRank) { byBag(r); r.Crop = "basil" }, `Cheapest for a bag of "basil": "tray", by 0.10 EUR a bag (somewhere between 0.05 and 0.15) against "in place".`},
		{"one tie", false, func(r *answer.CostRank) { r.Dearer[0].Low = known(-0.02) }, `Cheapest: "tray" or "in place"; no clear difference between them: a head of "in place" may cost up to 0.02 EUR less or up to 0.15 more.`},
		{"a tie that just touches", false, func(r *answer.CostRank) { r.Dearer[0].Low = known(0) }, `Cheapest: "tray" or "in place"; no clear difference between them: a head of "in place" may cost up to 0.00 EUR less or up to 0.15 more.`},
		{"two ties", false, func(r *answer.CostRank) { r.Dearer[0].Low, r.Dearer[1].Low = known(-0.02), known(-0.01) }, `Cheapest: "tray", "in place" or "raft"; no clear difference between them.`},
		{"doubt not known", false, func(r *answer.CostRank) { r.Dearer[1].Low = unknown }, `Cheapest: "tray" or "raft"; no clear difference between them.`},
		{"a step lacks", false, func(r *answer.CostRank) { r.Dearer[0].Gaps = []string{"weigh"} }, `Cheapest: "tray" or "in place"; which cannot be told, since weigh was not timed and not all need as much of it.`},
		{"two steps lack of two ways", false, func(r *answer.CostRank) {
			r.Dearer[0].Gaps, r.Dearer[1].Gaps = []string{"weigh"}, []string{"pack", "weigh"}
		}, `Cheapest: "tray", "in place" or "raft"; which cannot be told, since weigh and pack were not timed and not all need as much of them.`},
		{"no common measure", false, func(r *answer.CostRank) { r.Unlike = true }, `Which way is cheapest is not told: they sell by different units, and the weight is not known of all.`},
		{"no common measure of a crop", true, func(r *answer.CostRank) { r.Unlike, r.Crop = true, "basil" }, `Which way of "basil" is cheapest is not told: they sell by different units, and the weight is not known of all.`},
		{"by next to nothing", false, func(r *answer.CostRank) {
			r.Dearer[0].More, r.Dearer[0].Low, r.Dearer[0].High = 0.0004, known(0.0003), known(0.0005)
		},
			`Cheapest: "tray", by 0.00040 EUR a head (somewhere between 0.00030 and 0.00050) against "in place".`},
	} {
		t.Run(c.name, func(t *testing.T) {
			rank := costsOf(3).Ranks[0]
			c.change(&rank)
			assert.Equal(t, c.want, cheapestSentence(rank, "EUR", c.several))
		})
	}
}

// What is not priced is noted of all ways, or of which.
func TestWhatIsNotPriced(t *testing.T) {
	t.Parallel()
	const (
		neither  = "neither supplies nor space are priced in the study, so the cost of a head is that of labour alone"
		supplies = "supplies are not priced in the study"
		space    = "space is not priced in the study"
	)
	all, labour, noSupply, noSpace := costOf("all"), costOf("labour"), costOf("no supply"), costOf("no space")
	labour.Lines, noSupply.Lines, noSpace.Lines = all.Lines[:1], []answer.CostLine{all.Lines[0], all.Lines[2]}, all.Lines[:2]
	for _, c := range []struct {
		ways []answer.GrowCost
		want []string
	}{
		{[]answer.GrowCost{all, all}, nil},
		{[]answer.GrowCost{labour, labour}, []string{neither}},
		{[]answer.GrowCost{noSupply}, []string{supplies}},
		{[]answer.GrowCost{noSpace}, []string{space}},
		{[]answer.GrowCost{all, labour}, []string{`of "labour": ` + neither}},
		{[]answer.GrowCost{noSupply, all, noSpace, noSupply}, []string{`of "no supply" and "no supply": ` + supplies, `of "no space": ` + space}},
	} {
		assert.Equal(t, c.want, unpricedNotes(answer.Costs{Workflows: c.ways}))
	}
}

func TestCostWithoutMuch(t *testing.T) {
	t.Parallel()
	c := costsOf(2)
	c.Currency, c.PerHour, c.Ranks = nil, unknown, nil
	doc := Cost(c)
	assert.Contains(t, doc.Section("costs").Answer[0], "a head costs 0.80 money")
	assert.Equal(t, []string{"the range is that of the labour alone: prices, counts and losses are taken as exact"}, doc.Notes)
	assert.Empty(t, doc.Section("lead").Answer)
	assert.Nil(t, doc.Section("sold").Table)
	assert.True(t, doc.Section("costs").Table.Columns[6].Full, "no outlay, no column for it where there is little room")
	c.Workflows[1].Outlay, c.Workflows[1].Gives.Weighs = 3, true
	c.Workflows[1].Gives.Kg, c.Workflows[1].Kg, c.Workflows[1].PerKg = known(6), known(6), known(7.2)
	doc = Cost(c)
	assert.False(t, doc.Section("costs").Table.Columns[6].Full)
	assert.Equal(t, "3.00", doc.Section("costs").Table.Rows[1][6].Text)
	rows := doc.Section("sold").Table.Rows
	assert.Equal(t, []string{"?", "?"}, []string{rows[0][1].Text, rows[0][2].Text})
	assert.Equal(t, []string{"6.0", "7.20"}, []string{rows[1][1].Text, rows[1][2].Text})
}

// Amounts of a table have as many decimals as the smallest needs.
func TestSmallAmountsShow(t *testing.T) {
	t.Parallel()
	c := costsOf(2)
	c.Workflows[1].Supplies = 0.0042
	c.Workflows[1].Lines[1].Amount, c.Workflows[1].Lines[1].PerHead = known(0.0042), known(0.000087)
	doc := Cost(c)
	rows, lines := doc.Section("costs").Table.Rows, doc.Section("lines").Table.Rows
	assert.Equal(t, []string{"7.2000", "0.0042"}, []string{rows[0][4].Text, rows[1][4].Text})
	assert.Equal(t, []string{"0.150000", "0.0042", "0.000087"}, []string{lines[1][4].Text, lines[4][3].Text, lines[4][4].Text})
	c.Workflows[0] = answer.GrowCost{Workflow: "tray", Gaps: []string{"weigh"}, Lines: []answer.CostLine{{Name: "weigh", Kind: answer.LabourLine}}}
	doc = Cost(c)
	row := doc.Section("costs").Table.Rows[0]
	for j := range row {
		if j == 3 || j >= 7 && j <= 12 {
			assert.Equal(t, "?", row[j].Text, "without a wage")
		}
	}
	assert.Equal(t, "weigh", row[13].Text)
	assert.Equal(t, []string{"?", "?"}, []string{doc.Section("lines").Table.Rows[0][3].Text, doc.Section("lines").Table.Rows[0][4].Text})
}
