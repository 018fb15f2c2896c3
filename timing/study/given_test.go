package study

import (
	"testing"
	"time"

	"headhours/timing/crop"

	"github.com/stretchr/testify/assert"
)

// gives is a study of a way that loses a tenth on day 12 and is cut or picked.
func gives() (Study, Workflow) {
	return Study{Germination: crop.Germination{Share: 0.8}}, Workflow{
		Name: "a", SeedsPerCell: 1, Losses: []crop.Loss{{Day: 12, Share: 0.1}},
		Tasks: []Task{{Step: "sow", Days: []int{0}, Count: crop.Seeds}, {Step: "pick", Days: []int{30, 44}, Count: crop.Plants}},
	}
}

// The harvest is on the first day on which heads are counted, in whatever order the tasks
// stand, else on the last task's.
func TestHarvestDay(t *testing.T) {
	_, w := gives()
	assert.Equal(t, 44, w.HarvestDay())
	w.Tasks = append(w.Tasks, Task{Step: "pick", Days: []int{40, 33}, Count: crop.Heads}, Task{Days: []int{35}, Count: crop.Heads})
	assert.Equal(t, 33, w.HarvestDay())
	w.Tasks = append(w.Tasks, Task{Days: []int{0}, Count: crop.Heads})
	assert.Equal(t, 0, w.HarvestDay())
	assert.Equal(t, 0, Workflow{}.HarvestDay())
}

// Each cut gives of the plants that are alive on its day, losses of that day taken off.
func TestYieldsOfCuts(t *testing.T) {
	st, w := gives()
	w.Cuts = []Cut{{Day: 11, Kg: 0.02}, {Day: 12, Kg: 0.03}, {Day: 44, Kg: 0.01}}
	list := st.Yields(w, 90) // 90 heads are of 100 plants before the loss
	assert.Equal(t, []int{44, 11, 12, 44}, []int{list[0].Day, list[1].Day, list[2].Day, list[3].Day})
	assert.Equal(t, Yield{Day: 44, Heads: 90, Kg: Known(0)}, list[0])
	for i, want := range []float64{0, 2, 2.7, 0.9} {
		assert.InDelta(t, want, list[i].Kg.Value, 1e-12)
	}
}

// Without cuts a head weighs what the study says, else what its way's grows gave that have
// both a weight and a number of heads.
func TestYieldsOfHeads(t *testing.T) {
	st, w := gives()
	assert.Equal(t, []Yield{{Day: 44, Heads: 90}}, st.Yields(w, 90))
	grow := func(way string, heads, kg Maybe) Grow { return Grow{Workflow: way, Heads: heads, Weight: kg} }
	st.Grows = []Grow{grow("a", Known(10), Known(2)), grow("a", Known(30), Known(10)), grow("a", Known(50), Maybe{}), grow("a", Maybe{}, Known(9)), grow("b", Known(1), Known(1))}
	assert.InDelta(t, 90*12.0/40, st.Yields(w, 90)[0].Kg.Value, 1e-12)
	w.HeadWeight = Known(0.2)
	assert.InDelta(t, 18, st.Yields(w, 90)[0].Kg.Value, 1e-12)
}

// A sale is taken whole: the way's, else the study's, else by the head.
func TestSaleOf(t *testing.T) {
	st, w := gives()
	st.PricePerHead = Known(1.9)
	assert.Equal(t, Sale{Unit: "head", Heads: 1, Price: Known(1.9), Share: 1}, st.SaleOf(w))
	st.Sale = &Sale{Unit: "bag", Kg: 0.15, Price: Known(2), Share: 0.9}
	assert.Equal(t, *st.Sale, st.SaleOf(w))
	w.Sale = &Sale{Unit: "bunch", Heads: 6, Share: 0.5}
	assert.Equal(t, *w.Sale, st.SaleOf(w))
}

func TestUnitsAndRevenue(t *testing.T) {
	bag, bunch := Sale{Kg: 0.25, Price: Known(3), Share: 0.5}, Sale{Heads: 6, Share: 1}
	assert.Equal(t, Known(8), bag.Units(90, Known(2)))
	assert.Equal(t, Maybe{}, bag.Units(90, Maybe{}))
	assert.Equal(t, Known(15), bunch.Units(90, Maybe{}))
	assert.Equal(t, Known(4), bag.Sold(Known(8)))
	assert.Equal(t, Known(12), bag.Revenue(bag.Sold(Known(8))))
	assert.Equal(t, Maybe{}, bunch.Revenue(Known(15)), "no price")
	assert.Equal(t, Maybe{}, bag.Revenue(bag.Sold(Maybe{})))
}

// The germination of a way goes before the study's; bought plants are all there, one a cell.
func TestGerminationOf(t *testing.T) {
	st, w := gives()
	assert.Equal(t, 0.8, st.GerminationOf(w).Share)
	assert.True(t, w.LeavesGermination())
	w.Germination = &crop.Germination{Share: 0.5, CameUp: 5, Of: 10}
	assert.Equal(t, *w.Germination, st.GerminationOf(w))
	assert.False(t, w.LeavesGermination())
	w.Bought, w.SeedsPerCell = true, 3
	assert.Equal(t, crop.Germination{Share: 1}, st.GerminationOf(w))
	assert.False(t, w.LeavesGermination())
	assert.Equal(t, 1, st.Propagation(w).SeedsPerCell)
	assert.True(t, st.Propagation(w).Bought)
}

// Grows are sown from a day on, every so many, while the day is not after until and in the
// season.
func TestStarts(t *testing.T) {
	until := func(day int) *int { return &day }
	for _, c := range []struct {
		sowing Sowing
		days   int
		want   []int
	}{
		{Sowing{From: 5}, 28, []int{5}},
		{Sowing{EveryDays: 7}, 28, []int{0, 7, 14, 21}},
		{Sowing{EveryDays: 7}, 29, []int{0, 7, 14, 21, 28}},
		{Sowing{EveryDays: 7, From: 3, Until: until(17)}, 28, []int{3, 10, 17}},
		{Sowing{EveryDays: 7, From: 3, Until: until(16)}, 28, []int{3, 10}},
		{Sowing{EveryDays: 7, From: 3, Until: until(3)}, 28, []int{3}},
		{Sowing{EveryDays: 10, From: 20, Until: until(500)}, 42, []int{20, 30, 40}},
		{Sowing{From: 27, Until: until(27)}, 28, []int{27}},
		{Sowing{EveryDays: 7, Until: until(500)}, 29, []int{0, 7, 14, 21, 28}},
		{Sowing{EveryDays: 7, Until: until(500)}, 28, []int{0, 7, 14, 21}},
	} {
		assert.Equal(t, c.want, c.sowing.Starts(c.days), "%+v", c.sowing)
	}
}

func TestSeasonDates(t *testing.T) {
	assert.Equal(t, 364, Season{}.Length())
	assert.Equal(t, 28, Season{Days: 28}.Length())
	assert.Nil(t, Season{}.Date(3))
	s := Season{Start: time.Date(2028, 2, 27, 0, 0, 0, 0, time.UTC)}
	assert.Equal(t, []string{"2028-02-27", "2028-02-29", "2028-03-01", "2029-02-26"}, []string{*s.Date(0), *s.Date(2), *s.Date(3), *s.Date(365)})
}

// What is sown keeps the study's order, each way once.
func TestSown(t *testing.T) {
	st := threeWays()
	st.Sowings = []Sowing{{Workflow: "Bought in"}, {Workflow: "tray"}, {Workflow: "Bought in"}}
	assert.Equal(t, []string{"tray", "Bought in"}, Study{Workflows: st.Sown()}.WorkflowNames())
	assert.NotNil(t, Study{}.Sown())
}

func TestSharedTask(t *testing.T) {
	st := Study{Workflows: []Workflow{{Tasks: []Task{{Step: "mix", SharedBy: 1}}}, {Tasks: []Task{{Step: "mix", SharedBy: 2}, {Step: "sow", SharedBy: 1}}}}}
	assert.True(t, st.SharedTask("mix"))
	assert.False(t, st.SharedTask("sow"))
	assert.False(t, st.SharedTask("pick"))
}
