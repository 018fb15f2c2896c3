package answer

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/crop"
	"headhours/timing/study"
)

// smallPlace is two crops with judged times, so that weeks can be worked by hand: water
// takes 10 minutes and 2 more a grow, picking 1 minute a head, sweeping 30 minutes.
func smallPlace() study.Study {
	judged := func(low float64, visit bool) *study.Estimate {
		return &study.Estimate{Low: low, Likely: low, High: low, OfVisit: visit}
	}
	until := 14
	return study.Study{
		Currency: "EUR", Germination: crop.Germination{Share: 1}, SowEveryDays: 7,
		Steps: []study.Step{
			{Name: "water", Together: true, Estimate: judged(600, true)},
			{Name: "pick", Estimate: judged(60, false)},
			{Name: "sweep", Estimate: judged(1800, true)},
		},
		Workflows: []study.Workflow{
			{Name: "a", Crop: "cress", SeedsPerCell: 1, Tasks: []study.Task{
				{Step: "water", Days: []int{3, 10}, Count: crop.Once, Each: 1, SharedBy: 1},
				{Step: "pick", Days: []int{14}, Count: crop.Heads, Each: 1, SharedBy: 1}},
				HeadWeight: study.Known(0.1), Sale: &study.Sale{Unit: "bag", Kg: 0.5, Price: study.Known(4), Share: 0.5},
				Space: []study.SpaceUse{{From: 0, To: 14, Count: crop.Plants, M2: 0.1}}},
			{Name: "b", SeedsPerCell: 1, Bought: true, Tasks: []study.Task{
				{Step: "water", Days: []int{3}, Count: crop.Once, Each: 1, SharedBy: 1},
				{Step: "pick", Days: []int{7}, Count: crop.Heads, Each: 1, SharedBy: 1}},
				HeadWeight: study.Known(0.2), Space: []study.SpaceUse{{From: 0, To: 7, Count: crop.Plants, M2: 0.1}}},
		},
		Chores:    []study.Chore{{Step: "sweep", EveryDays: 14, Count: 1}},
		Labour:    &study.Labour{Wage: 12, OwnHours: study.Known(1)},
		Sale:      &study.Sale{Unit: "head", Heads: 1, Price: study.Known(2), Share: 1},
		SpaceM2:   study.Known(9),
		Season:    study.Season{Days: 28, Start: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)},
		Sowings:   []study.Sowing{{Workflow: "a", Heads: study.Known(60), EveryDays: 7, Until: &until}, {Workflow: "b", Cells: study.Known(30), From: 7}},
		Overheads: []study.Overhead{{Name: "rent", PerYear: 365}},
	}
}

func placeModels(s study.Study) *Models {
	return NewModels(condense.Gather(&s, condense.Filter{}).Condensed(nil), Options{})
}

// The arithmetic of every week:
//
//	week 0: a is sown on day 0; water on day 3 (10 min), sweep on day 0 (30 min): 40 min.
//	week 1: a on 7, b on 7; day 10 water for a's first (day 10), a's second (3) and b (3): one
//	        doing, 10 min.
//	week 2: a on 14; pick a's first on 14 (60 min) and b on 14 (30 min); sweep on 14 (30);
//	        water on 17 for a's second and third: 10 min. 130 min, of which 60 are own.
//	week 3: pick a's second on 21 (60 min), water on 24: 10 min. 70 min, 60 of them own.
//
// a's third would be picked on day 28, outside: one grow is cut short. Water is done four
// times: days 3, 10, 17, 24, with counts 1, 3, 2, 1.
func TestSeasonByHand(t *testing.T) {
	p, err := PlanSeason(placeModels(smallPlace()), study.Known(6))
	require.NoError(t, err)
	minutes := []float64{40, 10, 130, 70}
	heads := []float64{0, 0, 90, 60}
	revenue := []float64{0, 0, 24 + 60, 24} // 60 heads are 6 kg, 12 bags, 6 of them sold at 4; 30 heads at 2
	for w, week := range p.Weeks {
		assert.InDelta(t, minutes[w]/60, week.Hours, 1e-12, "week %d", w)
		assert.InDelta(t, min(minutes[w], 60)/60, week.Own, 1e-12, "week %d", w)
		assert.Equal(t, heads[w], week.Heads)
		assert.InDelta(t, revenue[w], week.Revenue.Value, 1e-12)
		assert.Equal(t, fmt.Sprintf("2027-03-%02d", 1+7*w), *week.Date)
	}
	assert.InDelta(t, 250.0/60, p.Hours, 1e-12)
	assert.Equal(t, BusiestWeek{2, p.Weeks[2].Hours}, p.Busiest)
	assert.Equal(t, 14, p.Longest.Day) // 60 + 30 + 30 minutes
	assert.InDelta(t, 2.0, p.Longest.Hours, 1e-12)
	// steps: water 4 setups; of day 10's one, a bears 2/3 and b 1/3
	assert.Equal(t, "water", p.Steps[0].Step)
	assert.InDelta(t, 4, p.Steps[0].Setups, 1e-12)
	assert.InDelta(t, (10*(1+2.0/3+1+1)+120)/60, p.Sowings[0].Hours, 1e-12)
	assert.InDelta(t, (10/3.0+30)/60, p.Sowings[1].Hours, 1e-12)
	assert.Equal(t, []int{3, 1}, []int{p.Sowings[0].Grows, p.Sowings[0].CutShort})
	assert.Equal(t, 0, p.Sowings[1].CutShort)
	// space: 60 plants of a take 6 m²: one grow on days 0 to 6, two from 7 on; b 3 m² on 7 to
	// 13, so 15 m² then, and 12 until day 20; 6 from 21 to 27
	assert.InDelta(t, 15, p.PeakM2, 1e-12)
	assert.Equal(t, 7, *p.PeakDay)
	assert.Equal(t, 14, len(*p.Over))
	// money: 108 sold, 28 overhead (a day is 1), 80 minutes hired at 12 an hour
	assert.InDelta(t, 108, p.Revenue.Value, 1e-9)
	assert.InDelta(t, 16, p.HiredCost, 1e-9)
	assert.InDelta(t, 108-28-16, p.Margin.Value, 1e-9)
	own := 170.0 / 60
	assert.InDelta(t, 64/own, p.PerOwnHour.Value, 1e-9)
	assert.InDelta(t, (6*own+16+28)/108, p.PriceFactor.Value, 1e-9)
	assert.InDelta(t, (6*own+16+28)*p.Sowings[1].Share.Value/30, p.Sowings[1].PriceNeeded.Value, 1e-9)
	assert.InDelta(t, 18, p.Kg.Value, 1e-12) // two grows of 6 kg, and 30 heads of 0.2
}

// A plan beside the study's leaves the study as it is, and a filled one stops where hours
// or space do.
func TestSeasonTriedAndFilled(t *testing.T) {
	m := placeModels(smallPlace())
	own, err := PlanSeason(m, study.Maybe{})
	require.NoError(t, err)
	tried, err := TrySeason(m, own, study.Maybe{}, []study.Sowing{{Workflow: "b", Heads: study.Known(60), EveryDays: 14}})
	require.NoError(t, err)
	// b of 60 heads on days 0 and 14 in place of 30 on day 7: 120 minutes of picking for 30;
	// water still on days 3, 10, 17, 24
	assert.InDelta(t, 90.0/60, tried.Difference, 1e-12)
	again, err := PlanSeason(m, study.Maybe{})
	require.NoError(t, err)
	assert.Equal(t, own, again)
	// 15 m² of 9: 0.6 times the heads; by hours week 2 ends it: 90 f + 40 = 60, f = 2/9
	filled, err := FillSeason(m)
	require.NoError(t, err)
	assert.Equal(t, fullHours, filled.EndsBy)
	assert.InDelta(t, 2.0/9, filled.Factor.Value, 1e-8)
	s := smallPlace()
	s.Labour.OwnHours = study.Maybe{}
	filled, err = FillSeason(placeModels(s))
	require.NoError(t, err)
	assert.Equal(t, fullSpace, filled.EndsBy)
	assert.InDelta(t, 0.6, filled.Factor.Value, 1e-8)
	s.SpaceM2 = study.Maybe{}
	filled, err = FillSeason(placeModels(s))
	require.NoError(t, err)
	assert.Equal(t, Filled{}, filled)
}

// Without a price, a weight or anything sown, what rests on it is not known.
func TestSeasonUnknowns(t *testing.T) {
	s := smallPlace()
	s.Workflows[0].HeadWeight = study.Maybe{}
	p, err := PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	for _, m := range []study.Maybe{p.Kg, p.Revenue, p.Margin, p.MarginLow, p.PerOwnHour, p.PriceFactor, p.Weeks[0].Kg, p.Weeks[0].Revenue, p.Sowings[0].Units} {
		assert.False(t, m.Known)
	}
	assert.True(t, p.Sowings[1].Revenue.Known)
	s.Sowings = nil
	_, err = PlanSeason(placeModels(s), study.Maybe{})
	assert.ErrorIs(t, err, ErrNoSowing)
	_, err = FillSeason(placeModels(s))
	assert.ErrorIs(t, err, ErrNoSowing)
}

// Grows that run beyond the season are told of, whether the study ends their sowing or not.
func TestGrowsBeyondTheSeason(t *testing.T) {
	s := smallPlace()
	p, err := PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	const beyond = `"a": 1 grow would run beyond the season's end, what falls there is not counted; ` +
		`the last sowing that is still harvested within it is that of 2027-03-08 (until = "2027-03-08")`
	assert.Contains(t, p.Notes, beyond)
	until := 7
	s.Sowings[0].Until = &until
	p, err = PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(p.Notes, "\n"), "beyond")
	s.Workflows[0].Space = []study.SpaceUse{{From: 0, To: 27, Count: crop.Cells, M2: 0.1}}
	p, err = PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	assert.Contains(t, p.Notes, `"a": 1 grow would run beyond the season's end, what falls there is not counted`, "its harvest is not cut short")
	s.Sowings[0].Until, s.Sowings[0].From = nil, 21
	p, err = PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	assert.Contains(t, p.Notes, `"a" is sown too late to harvest all of it within the season; what falls beyond its end is not counted`)
}

// What would save time if done together is said, but not of what is done with clean hands.
func TestHints(t *testing.T) {
	s := smallPlace()
	s.Steps[0].Together = false
	p, err := PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	// day 10 has three, day 17 two: 30 minutes in four weeks
	assert.Contains(t, p.Notes, "done apart for several grows on one day: water (7.5 minutes a week): if one round can serve them all, the study can say so (together)")
	s.Steps[0].Hazards = []study.Hazard{study.Hygiene}
	p, err = PlanSeason(placeModels(s), study.Maybe{})
	require.NoError(t, err)
	for _, note := range p.Notes {
		assert.NotContains(t, note, "done apart")
	}
}

// A joint step of one grow meets its like: visits whose days are alike modulo the days
// between sowings share one setup. With a chore of the same step the steady week is the
// mean of the days.
func TestTogetherInOneGrow(t *testing.T) {
	s := smallPlace()
	s.Allowance = 0
	m := placeModels(s)
	c, err := m.Compare([]string{"a"}, 60)
	require.NoError(t, err)
	// days 3 and 10 are alike in a round of 7: one setup of 10 minutes, and 60 to pick
	assert.InDelta(t, 70.0/60, c.Workflows[0].Hours, 1e-12)
	assert.Equal(t, 2, c.Workflows[0].Steps[0].Visits)
	assert.InDelta(t, 1, c.Workflows[0].Steps[0].Setups, 1e-12)
	s.SowEveryDays = 0
	c, err = placeModels(s).Compare([]string{"a"}, 60)
	require.NoError(t, err)
	assert.InDelta(t, 80.0/60, c.Workflows[0].Hours, 1e-12)
	// water for grows on day 3 of each week, and as a chore every 14 days on day 0: 3 doings
	// in 14 days, and the sweeping; 60 heads a week
	s.Chores = append(s.Chores, study.Chore{Step: "water", EveryDays: 14, Count: 1})
	seven := 7
	calendar, err := placeModels(s).Calendar(Schedule{Workflow: "a", Heads: 60, Every: &seven})
	require.NoError(t, err)
	assert.InDelta(t, (15+15+60)/60.0, calendar.SteadyWeek.Value, 1e-12)
}

// A change on a gap step that the way lacks saves nothing, and no day has work where
// nothing is done.
func TestNothingToSave(t *testing.T) {
	s := smallPlace()
	s.Steps = append(s.Steps, study.Step{Name: "dream"})
	s.Changes = []study.Change{
		{Name: "no more", Step: "dream", SetupFactor: 1, UnitFactor: 1, Drop: true},
		{Name: "half the rounds", Step: "water", SetupFactor: 1, UnitFactor: 1, VisitsFactor: study.Known(0.5)},
	}
	m := placeModels(s)
	in, err := m.Improve("b", 30, nil)
	require.NoError(t, err)
	assert.Equal(t, study.Known(0), in.Changes[0].Saved)
	assert.InDelta(t, 5.0/60, in.Changes[1].Saved.Value, 1e-12)
	p, err := PlanSeason(m, study.Maybe{})
	require.NoError(t, err)
	assert.Equal(t, study.Known(0), p.Changes[0].Saved)
	assert.InDelta(t, 20.0/60, p.Changes[1].Saved.Value, 1e-12)
	s.Workflows[1].Tasks = []study.Task{{Step: "pick", Days: []int{1}, Count: crop.Seeds, Each: 1, SharedBy: 1}}
	calendar, err := placeModels(s).Calendar(Schedule{Workflow: "b", Heads: 30, Every: new(int)})
	require.NoError(t, err)
	assert.Empty(t, calendar.Days)
	assert.Equal(t, study.Known(0), calendar.PeakDay)
}

// BenchmarkSeason is a year of two hundred sowings and twenty ways.
func BenchmarkSeason(b *testing.B) {
	s := smallPlace()
	s.Season.Days = 364
	way := s.Workflows[0]
	s.Sowings = nil
	s.Workflows = nil
	for i := range 20 {
		way.Name = fmt.Sprint(i)
		s.Workflows = append(s.Workflows, way)
	}
	for i := range 200 {
		s.Sowings = append(s.Sowings, study.Sowing{Workflow: fmt.Sprint(i % 20), Heads: study.Known(60), EveryDays: 7, From: i % 7})
	}
	m := placeModels(s)
	for b.Loop() {
		if _, err := PlanSeason(m, study.Known(20)); err != nil {
			b.Fatal(err)
		}
	}
}

// A year of two hundred weekly sowings of twenty ways.
func BenchmarkPlanSeason(b *testing.B) {
	s := study.Study{Confidence: 0.95, Germination: crop.Germination{Share: 0.9}, Labour: &study.Labour{Wage: 12, OwnHours: study.Known(30)}}
	for i := range 18 {
		s.Steps = append(s.Steps, study.Step{Name: fmt.Sprint("step ", i), Together: i%6 == 0, Estimate: &study.Estimate{Low: 3, Likely: 4, High: 6}})
	}
	for w := range 20 {
		way := study.Workflow{Name: fmt.Sprint("way ", w), Crop: fmt.Sprint("crop ", w%5), SeedsPerCell: 1}
		for i := range 18 {
			way.Tasks = append(way.Tasks, study.Task{Step: s.Steps[i].Name, Days: []int{i, 20 + i}, Count: crop.Plants, Each: 1, SharedBy: 1})
		}
		s.Workflows = append(s.Workflows, way)
	}
	for k := range 200 {
		s.Sowings = append(s.Sowings, study.Sowing{Workflow: s.Workflows[k%20].Name, Heads: study.Known(float64(20 + k)), EveryDays: 7, From: k % 7})
	}
	m := placeModels(s)
	for b.Loop() {
		if _, err := PlanSeason(m, study.Maybe{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The steady part is the weeks in which all comes round that does: from the first pick of the
// slower sowing on, as long as both are sown. Sweeping every other week makes them differ.
func TestSteadyWeeks(t *testing.T) {
	st := smallPlace()
	st.Season.Days = 70
	a, b := 42, 49
	st.Sowings = []study.Sowing{{Workflow: "a", Heads: study.Known(60), EveryDays: 7, Until: &a}, {Workflow: "b", Cells: study.Known(30), From: 7, EveryDays: 7, Until: &b}}
	p, err := PlanSeason(placeModels(st), study.Maybe{})
	require.NoError(t, err)
	// weeks 2 to 6: 60 and 30 heads picked, water once; sweep in even ones
	assert.InDelta(t, (60+30+10+30)/60.0, p.Weeks[2].Hours, 1e-9)
	assert.InDelta(t, 100/60.0, p.Steady.Least.Value, 1e-9)
	assert.InDelta(t, 130/60.0, p.Steady.Most.Value, 1e-9)
	assert.InDelta(t, (130+100+130+100+130)/5/60.0, p.Steady.Mean.Value, 1e-9)

	for i := range st.Sowings {
		st.Sowings[i].EveryDays = 0
	}
	p, err = PlanSeason(placeModels(st), study.Maybe{})
	require.NoError(t, err)
	assert.Equal(t, SteadyWeeks{}, p.Steady, "nothing comes round")
}
