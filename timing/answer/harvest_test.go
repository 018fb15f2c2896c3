package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// cutsStudy has a way cut twice that is sold in bags, one cut once, and one of heads.
func cutsStudy() study.Study {
	bag := &study.Sale{Unit: "bag", Kg: 0.2, Share: 0.5}
	judged := &study.Estimate{Low: 6, Likely: 6, High: 6}
	task := func(days ...int) []study.Task {
		return []study.Task{{Step: "cut", Days: days, Count: crop.Plants, Each: 1, SharedBy: 1}}
	}
	return study.Study{
		Heads: 100, Confidence: 0.95, Germination: crop.Germination{Share: 1}, Steps: []study.Step{{Name: "cut", Estimate: judged}},
		Workflows: []study.Workflow{
			{Name: "twice", Crop: "mizuna", SeedsPerCell: 1, Tasks: task(30, 45), Cuts: []study.Cut{{Day: 30, Kg: 0.04}, {Day: 45, Kg: 0.02}}, Sale: bag},
			{Name: "once", Crop: "mizuna", SeedsPerCell: 1, Tasks: task(30), Cuts: []study.Cut{{Day: 30, Kg: 0.04}}, Sale: bag},
			{Name: "heads", SeedsPerCell: 1, Tasks: task(30)},
		},
	}
}

// 100 plants cut twice take 2 × 100 × 6 s = 20 min and give 6 kg, 30 bags, of which 15 are
// sold: 4/3 min a bag. Cut once it is 10 min, 4 kg, 20 bags, 10 sold: 1 min.
func TestWhatIsSold(t *testing.T) {
	t.Parallel()
	c := compared(t, cutsStudy(), nil)
	twice, once, heads := c.Workflows[0].Gives, c.Workflows[1].Gives, c.Workflows[2].Gives
	assert.InDelta(t, 6, twice.Kg.Value, 1e-12)
	assert.InDelta(t, 30, twice.Units.Value, 1e-12)
	assert.InDelta(t, 4.0/3, twice.Minutes.Value, 1e-12)
	assert.InDelta(t, 1, once.Minutes.Value, 1e-12)
	assert.True(t, twice.More())
	assert.False(t, heads.More())
	assert.InDelta(t, -1.0/3, c.Pairs[0].AUnit.Difference, 1e-12)
	assert.False(t, c.Pairs[0].OtherCrop)
	assert.True(t, c.Pairs[1].OtherCrop)
	assert.Nil(t, c.Pairs[1].AUnit)
	parts := ByCrop(c)
	assert.Len(t, parts, 2)
	assert.Equal(t, "mizuna", parts[0].Crop)
	assert.Len(t, parts[0].Pairs, 1)
	assert.Empty(t, parts[1].Pairs)
	assert.Len(t, OfOneCrop(c.Pairs), 1)
}

func TestCommonMeasure(t *testing.T) {
	t.Parallel()
	head, bag := Harvest{Unit: "head", ByHead: true, Sold: study.Known(9)}, Harvest{Unit: "bag", Sold: study.Known(5), Kg: study.Known(2)}
	box := Harvest{Unit: "box", Sold: study.Known(4), Kg: study.Known(3)}
	for _, c := range []struct {
		name string
		of   []Harvest
		unit string
		ok   bool
	}{
		{"heads", []Harvest{head, head}, "head", true},
		{"bags", []Harvest{bag, bag}, "bag", true},
		{"bags and boxes", []Harvest{bag, box}, "kilogram", true},
		{"bags and heads without a weight", []Harvest{bag, head}, "kilogram", false},
		{"bags of an unknown weight", []Harvest{bag, {Unit: "bag"}}, "kilogram", false},
		{"nothing sold", []Harvest{{Unit: "bag", Sold: study.Known(0)}}, "kilogram", false},
	} {
		by, ok := measureOf(c.of)
		assert.Equal(t, c.ok, ok, c.name)
		assert.Equal(t, c.unit, by.Unit, c.name)
	}
}

// By the head cutting once is dearer or cheaper as its minutes say; by the bag it is 10 min
// for 10 bags beside 20 min for 15.
func TestCheapestByWhatIsSold(t *testing.T) {
	t.Parallel()
	s := cutsStudy()
	s.Labour = &study.Labour{Wage: 6} // 0.10 a minute
	s.Supplies = []study.Supply{{Name: "seed", Count: crop.Cells, Price: 0.01, Uses: 1, Each: 1}}
	costs, err := Fit(s, nil, Options{}).Cost(nil, 100, WhatIf{})
	assert.NoError(t, err)
	assert.Len(t, costs.Ranks, 1, "the way without a crop is alone")
	r := costs.Ranks[0]
	assert.Equal(t, "bag", r.By.Unit)
	// once: (1.00 + 1.00) ÷ 10 = 0.200 a bag; twice: (2.00 + 1.00) ÷ 15 = 0.200 a bag
	assert.InDelta(t, 0.2, costs.Workflows[0].PerUnit.Value, 1e-12)
	assert.InDelta(t, 0.2, costs.Workflows[1].PerUnit.Value, 1e-12)
	assert.InDelta(t, 0, r.Dearer[0].More, 1e-12)
	s.Supplies[0].Price = 0.02 // (1 + 2) ÷ 10 beside (2 + 2) ÷ 15
	costs, err = Fit(s, nil, Options{}).Cost(nil, 100, WhatIf{})
	assert.NoError(t, err)
	assert.Equal(t, "twice", costs.Ranks[0].Cheapest)
	assert.InDelta(t, 0.3-4.0/15, costs.Ranks[0].Dearer[0].More, 1e-12)
}

func TestWeightBesideTheStudy(t *testing.T) {
	t.Parallel()
	s := cutsStudy()
	grow := study.Grow{Name: "g", Workflow: "twice", Heads: study.Known(100), Weight: study.Known(5)}
	assert.Equal(t, []string{"it gave 5 kg, the study says 6 for as many heads"}, weightRemarks(s, grow, s.Workflows[0]))
	grow.Weight = study.Known(5.7)
	assert.Empty(t, weightRemarks(s, grow, s.Workflows[0]))
	assert.Empty(t, weightRemarks(s, grow, s.Workflows[2]), "no weight is said")
}
