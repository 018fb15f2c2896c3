package answer

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// timedExactly are two readings that fix a step's setup and unit time, and a
// third so that its spread is known to be nothing.
func timedExactly(step string, setup, unit float64) []study.Reading {
	var readings []study.Reading
	for _, n := range []float64{10, 20, 40} {
		readings = append(readings, aReading(step, n, setup+unit*n))
	}
	return readings
}

func task(step string, count crop.Word, days ...int) study.Task {
	return study.Task{Step: step, Days: days, Count: count, Each: 1, SharedBy: 1}
}

// Minutes per saleable head carry the labour of lost plants: 6 s a cell, 8 s a
// transplant, 45 s a harvest, of which 0.80, 0.97 and 0.95 go on to the next,
// are 1.07 minutes, not the plain sum 0.98. Worked example, common practice, no
// source.
func TestLostPlantsCarryTheirLabour(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 0.80},
		Steps: []study.Step{{Name: "sow"}, {Name: "transplant"}, {Name: "harvest"}},
		Workflows: []study.Workflow{{
			Name: "tray", SeedsPerCell: 1,
			Tasks:  []study.Task{task("sow", crop.Cells, 0), task("transplant", crop.Plants, 14), task("harvest", crop.Plants, 35)},
			Losses: []crop.Loss{{Day: 20, Share: 0.03}, {Day: 36, Share: 0.05}},
		}},
	}
	var readings []study.Reading
	for step, unit := range map[string]float64{"sow": 6, "transplant": 8, "harvest": 45} {
		readings = append(readings, timedExactly(step, 0, unit)...)
	}
	c, err := Fit(st, readings, Options{}).Compare(nil, 100)
	require.NoError(t, err)
	assert.InDelta(t, 1.07, c.Workflows[0].MinutesPerHead, 0.005)
	assert.InDelta(t, (6/(.8*.97*.95)+8/(.97*.95)+45/.95)/60, c.Workflows[0].MinutesPerHead, 1e-9)
}

// A seeding plate does in 2 minutes a tray what takes 28.8 by hand: at 15 an
// hour 6.70 a tray, so that 800 are back after 119 trays of 288 cells. From
// figures of a university extension page, the times assumed.
func TestToolPayback(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Labour: &study.Labour{Wage: 15},
		Steps:     []study.Step{{Name: "sow"}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, Tasks: []study.Task{task("sow", crop.Cells, 0)}}},
		Changes:   []study.Change{{Name: "plate", Step: "sow", SetupFactor: 1, UnitFactor: 2 / 28.8, Outlay: study.Known(800)}},
	}
	in, err := Fit(st, timedExactly("sow", 0, 6), Options{}).Improve("", 288, nil)
	require.NoError(t, err)
	plate := in.Changes[0]
	assert.InDelta(t, 26.8/60, plate.Saved.Value, 1e-9)
	assert.InDelta(t, 6.70, plate.Saved.Value*15, 0.005)
	assert.InDelta(t, 119, math.Floor(plate.Payback.Value/288), 0)
}

// Sown weekly, work on days 0, 11, 21 and 35 falls on weekdays 0, 4, 0, 0:
// sowing, respacing and harvest hit one weekday. Worked example, common
// practice, no source.
func TestOffsetsFallOnOneWeekday(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1},
		Steps: []study.Step{{Name: "sow"}, {Name: "transplant"}, {Name: "respace"}, {Name: "harvest"}},
		Workflows: []study.Workflow{{Name: "raft", SeedsPerCell: 1, Tasks: []study.Task{
			task("sow", crop.Cells, 0), task("transplant", crop.Plants, 11),
			task("respace", crop.Plants, 21), task("harvest", crop.Heads, 35),
		}}},
	}
	var readings []study.Reading
	for _, s := range st.Steps {
		readings = append(readings, timedExactly(s.Name, 60, 6)...)
	}
	every := 7
	c, err := Fit(st, readings, Options{}).Calendar(Schedule{Heads: 100, Every: &every})
	require.NoError(t, err)
	one := 660.0 / 3600
	for weekday, want := range []float64{3 * one, 0, 0, 0, one, 0, 0} {
		assert.InDelta(t, want, c.Weekdays[weekday], 1e-9, "weekday %d", weekday)
	}
	assert.InDelta(t, 3*one, c.PeakDay.Value, 1e-9)
	assert.InDelta(t, 4*one, c.SteadyWeek.Value, 1e-9)
	assert.Len(t, c.StartUp, 5, "the week of day 35 has one of each: it is the first that is steady")
	assert.Equal(t, 35+6, c.Days[len(c.Days)-1].Day+2, "one period after the last task day; the last day with work is day 39")
}

func withChores(st study.Study) study.Study {
	st.Chores = []study.Chore{{Step: "step 0", EveryDays: 2, Count: 3}, {Step: "step 6", EveryDays: 5, Count: 1}}
	return st
}

// The days of one grow sum to its hours, whatever days are off.
func TestDaysSumToTheGrow(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		m := Fit(st, readings, Options{})
		hours := compared(t, st, readings).Workflows[0].Hours
		monday := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
		for _, rest := range []Rest{{}, {Start: monday, Off: []time.Weekday{time.Saturday, time.Sunday}}} {
			c, err := m.Calendar(Schedule{Heads: st.Heads, Rest: rest})
			require.NoError(t, err)
			assert.Nil(t, c.EveryDays)
			sum := 0.0
			for _, d := range c.Days {
				sum += d.Hours
				assert.False(t, rest.off(d.Day))
			}
			assert.InDelta(t, hours, sum, 1e-9*(1+abs(hours)))
		}
	})
}

// A steady week takes 7/N grows and the chores; so does the sum of its weekdays,
// which is counted from the days themselves.
func TestSteadyWeek(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		st = withChores(st)
		m := Fit(st, readings, Options{})
		hours := m.hours(st.Workflows[0], st.Heads).Hours
		for _, every := range []int{1, 3, 7, 10, 400} {
			c, err := m.Calendar(Schedule{Heads: st.Heads, Every: &every})
			require.NoError(t, err)
			want := hours * 7 / float64(every)
			for _, chore := range st.Chores {
				if model := m.Steps[m.Index[chore.Step]].Model; model != nil {
					load := m.choreLoad(chore, 7/float64(chore.EveryDays))
					want += model.At(load) * m.perHour()
				}
			}
			assert.InDelta(t, want, c.SteadyWeek.Value, 1e-9*(1+abs(want)))
			sum := 0.0
			for _, h := range c.Weekdays {
				sum += h
			}
			assert.InDelta(t, want, sum, 1e-9*(1+abs(want)), "every %d", every)
		}
	})
}

func TestMostHeads(t *testing.T) {
	study, readings := invented(4)
	study.SowEveryDays = 7
	m := Fit(study, readings, Options{})
	for _, hours := range []float64{0.001, 5, 40} {
		heads, perWeek, err := m.MaxHeads(Schedule{}, hours)
		require.NoError(t, err)
		at := func(n int) float64 {
			c, err := m.Calendar(Schedule{Heads: n})
			require.NoError(t, err)
			return c.SteadyWeek.Value
		}
		assert.Greater(t, at(heads+1), hours)
		if heads > 0 {
			assert.LessOrEqual(t, at(heads), hours)
		}
		assert.InDelta(t, float64(heads), perWeek, 1e-9)
	}
}

func TestMovingOffDays(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1},
		Steps:     []study.Step{{Name: "sow"}, {Name: "look"}},
		Workflows: []study.Workflow{{Name: "raft", SeedsPerCell: 1, Tasks: []study.Task{task("sow", crop.Cells, 0), task("look", crop.Once, 4, 5, 6)}}},
	}
	monday := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	c, err := Fit(st, timedExactly("sow", 60, 6), Options{}).Calendar(Schedule{
		Heads: 10, Rest: Rest{Start: monday, Off: []time.Weekday{time.Saturday, time.Sunday}},
	})
	require.NoError(t, err)
	assert.Equal(t, []Move{{From: 5, To: 7, Steps: []string{"look"}}, {From: 6, To: 7, Steps: []string{"look"}}}, c.Moved)
	require.Len(t, c.Days, 3)
	assert.Equal(t, 7, c.Days[2].Day)
	assert.Equal(t, []CalendarJob{{Step: "look", Count: 2}}, c.Days[2].Tasks)
	assert.Equal(t, []string{"look"}, c.Gaps)
}

func TestSeedingLaws(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		m := Fit(st, readings, Options{})
		s, err := m.Seeding("", st.Heads, 0.95)
		require.NoError(t, err)
		require.Len(t, s.Choices, maxSeeds)
		assert.InDelta(t, 0, s.Choices[0].SurplusPerCell, 1e-12)
		best := 0
		for i, c := range s.Choices {
			assert.Equal(t, i+1, c.SeedsPerCell)
			assert.GreaterOrEqual(t, float64(*c.CellsAssured), c.CellsExpected-1)
			if c.Best {
				best++
				for _, other := range s.Choices {
					assert.LessOrEqual(t, c.worth(), other.worth()*(1+1e-9)+1e-12)
				}
			}
		}
		assert.Equal(t, 1, best)
	})
}

// What is not looked for is said.
func TestMoreCellsThanAreLookedAt(t *testing.T) {
	study, readings := invented(1)
	study.Germination, study.Workflows[0].Losses = crop.Germination{Share: 0.1}, nil
	s, err := Fit(study, readings, Options{}).Seeding("", 1e9, 0.95)
	require.NoError(t, err)
	assert.Nil(t, s.Choices[0].CellsAssured)
	assert.Contains(t, strings.Join(s.Notes, "\n"), "no number of cells up to 4294967296, the most that are looked at, gives that many heads with such assurance at these seeds a cell: 1, 2\n")
}

func TestImproveLaws(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		st.Changes = []study.Change{
			{Name: "quicker", Step: "step 1", SetupFactor: 0.5, UnitFactor: 0.8, Outlay: study.Known(40)},
			{Name: "none", Step: "step 1", Drop: true},
			{Name: "other", Step: "step 2", SetupFactor: 1, UnitFactor: 0.5},
		}
		m := Fit(st, readings, Options{})
		in, err := m.Improve("", st.Heads, []string{"quicker", "other"})
		require.NoError(t, err)
		last, sum := math.Inf(1), 0.0
		for _, s := range in.Steps {
			if s.Hours.Known {
				assert.LessOrEqual(t, s.Hours.Value, last)
				last = s.Hours.Value
				sum += s.Hours.Value
				assert.InDelta(t, s.Hours.Value, s.SetupHours.Value+s.UnitHours.Value, 1e-9*(1+abs(s.Hours.Value)))
			}
		}
		assert.InDelta(t, in.Hours, sum, 1e-9*(1+abs(in.Hours)))
		// dropping a step saves all of it
		for _, s := range in.Steps {
			if s.Step == "step 1" && s.Hours.Known {
				assert.InDelta(t, s.Hours.Value, in.Changes[1].Saved.Value, 1e-9*(1+abs(s.Hours.Value)))
			}
		}
		// changes of unlike steps add up
		if a, b := in.Changes[0].Saved, in.Changes[2].Saved; a.Known && b.Known {
			assert.InDelta(t, a.Value+b.Value, in.Together.Saved.Value, 1e-9*(1+abs(a.Value)))
		}
	})
}

// What a cost says with a change is what it says without, less the saving, plus
// its outlay's share.
func TestCostWithAChange(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		st.Changes = []study.Change{{Name: "quicker", Step: "step 1", SetupFactor: 0.5, UnitFactor: 0.8, Outlay: study.Known(40)}}
		m := Fit(st, readings, Options{})
		plain, err := m.Cost(nil, st.Heads, WhatIf{})
		require.NoError(t, err)
		with, err := m.Cost(nil, st.Heads, WhatIf{Changes: []string{"quicker"}, HeadsPerYear: 1000})
		require.NoError(t, err)
		in, err := m.Improve("", st.Heads, nil)
		require.NoError(t, err)
		saved := in.Changes[0].Saved.Value * st.Labour.PerHour()
		outlay := 40.0 / 1000 * float64(st.Heads)
		assert.InDelta(t, plain.Workflows[0].Total.Value-saved+outlay, with.Workflows[0].Total.Value, 1e-6)
		_, err = m.Cost(nil, st.Heads, WhatIf{Changes: []string{"quicker"}})
		assert.ErrorIs(t, err, ErrHeadsPerYear)
	})
}

func TestSensitivityMovesOneInput(t *testing.T) {
	study, readings := invented(4)
	m := Fit(study, readings, Options{})
	s, ok, err := m.Sensitivity("", study.Heads)
	require.NoError(t, err)
	require.True(t, ok)
	cost, err := m.Cost(nil, study.Heads, WhatIf{})
	require.NoError(t, err)
	assert.InDelta(t, cost.Workflows[0].PerHead.Value, s.PerHead, 1e-12)
	labour := cost.Workflows[0].LabourPerHead.Value
	for i, in := range s.Inputs {
		if i > 0 {
			assert.LessOrEqual(t, in.reach(), s.Inputs[i-1].reach())
		}
		if in.Name == "wage" {
			assert.InDelta(t, s.PerHead-0.2*labour, in.Lower, 1e-9)
			assert.InDelta(t, s.PerHead+0.2*labour, in.Higher, 1e-9)
		}
	}
}

// Welch's t of the two published cases of the reference: Student's sleep data
// and NIST's AUTO83B, the latter from its summary figures.
func TestWelchAgreesWithReference(t *testing.T) {
	for _, c := range inferenceCases(t) {
		switch c.ID {
		case "welch/sleep":
			// group 1 less group 2; Student, Biometrika 6, 1908
			one := []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
			two := []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
			pair := welch(two, one, c.Confidence)
			near(t, c.Expected["difference"], pair.Difference, "difference")
			near(t, c.Expected["t"], pair.T, "t")
			near(t, c.Expected["df"], pair.DF, "df")
			near(t, c.Expected["p"], pair.P, "p")
			near(t, c.Expected["low"], pair.Low, "low")
			near(t, c.Expected["high"], pair.High, "high")
		case "welch/auto83b":
			var u uncertainty
			u.steps.add(6.4147*6.4147/249, 248)
			u.steps.add(6.10771*6.10771/79, 78)
			near(t, c.Expected["df"], u.df(), "df")
			near(t, c.Expected["p"], u.p(-10.33643), "p")
		}
	}
}

func TestMeasuredGrows(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Allowance: 0.1,
		Steps: []study.Step{{Name: "sow"}, {Name: "harvest"}},
		Workflows: []study.Workflow{
			{Name: "a", SeedsPerCell: 1, Tasks: []study.Task{task("sow", crop.Cells, 0), task("harvest", crop.Heads, 30)}},
			{Name: "b", SeedsPerCell: 1, Tasks: []study.Task{task("harvest", crop.Heads, 30)}},
		},
	}
	var readings []study.Reading
	grow := func(name, way string, sow, harvest float64) {
		st.Grows = append(st.Grows, study.Grow{Name: name, Workflow: way, Heads: study.Known(20), Weight: study.Known(4)})
		for step, seconds := range map[string]float64{"sow": sow, "harvest": harvest} {
			if seconds > 0 {
				r := aReading(step, 20, seconds)
				r.Grow, r.Workflow = name, way
				readings = append(readings, r)
			}
		}
	}
	grow("g1", "a", 100, 500)
	grow("g2", "a", 120, 540)
	grow("g3", "b", 0, 520)
	grow("g4", "b", 0, 560)
	grow("g5", "a", 0, 530) // sowing was not timed
	m := Fit(st, readings, Options{})
	c, err := m.Compare(nil, 20)
	require.NoError(t, err)
	got := m.Measure(c)
	require.Len(t, got.Grows, 5)
	assert.InDelta(t, 600*1.1/60/20, got.Grows[0].MinutesPerHead, 1e-12)
	assert.InDelta(t, 600*1.1/60/4, got.Grows[0].MinutesPerKg.Value, 1e-12)
	assert.Equal(t, []string{"sow"}, got.Grows[4].Lacks)
	assert.Equal(t, []Lacking{{Step: "sow", Missing: 1, Planned: 1}}, got.Grows[4].InPart)
	pair := got.Pairs[0]
	assert.Equal(t, 2, pair.AGrows)
	assert.Equal(t, 2, pair.BGrows)
	assert.InDelta(t, (540.0-630.0)*1.1/60/20, pair.Difference.Value, 1e-12)
	assert.True(t, pair.P.Known)
	assert.False(t, pair.Disagrees)

	// one grow of each: the difference without a test
	single := welch([]float64{3}, []float64{2.5}, 0.95)
	assert.Equal(t, study.Known(-0.5), single.Difference)
	assert.False(t, single.Low.Known)
}

func TestMostHeadsWithoutALimit(t *testing.T) {
	st := study.Study{
		Germination: crop.Germination{Share: 1}, SowEveryDays: 7, Steps: []study.Step{{Name: "sow"}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, Tasks: []study.Task{task("sow", crop.Cells, 0)}}},
	}
	_, _, err := Fit(st, nil, Options{}).MaxHeads(Schedule{}, 10)
	assert.ErrorIs(t, err, errNoLimit)
}

// One seed a cell with the empty fifth sown once more, by arithmetic: 6 s a seed, 10 s
// a cell sown again, (1 - 0.8)² of the cells empty for good, 0.02 a seed.
func TestResowing(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 0.8}, Labour: &study.Labour{Wage: 10},
		Steps:     []study.Step{{Name: "sow"}, {Name: "Re-sow gaps"}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 2, Tasks: []study.Task{task("sow", crop.Seeds, 0)}}},
		Supplies:  []study.Supply{{Name: "seed", Count: crop.Seeds, Price: 0.02, Uses: 1, Each: 1}},
	}
	readings := append(timedExactly("sow", 0, 6), timedExactly("Re-sow gaps", 0, 10)...)
	s, err := Fit(st, readings, Options{}).Seeding("", 50, 0.95)
	require.NoError(t, err)
	require.NotNil(t, s.Resown)
	cells := 50 / 0.96
	seconds := 6*cells + 10*0.2*cells
	assert.InDelta(t, seconds/60/50, s.Resown.MinutesPerHead, 1e-9)
	assert.InDelta(t, (seconds/3600*10+0.02*1.2*cells)/50, s.Resown.CostPerHead.Value, 1e-9)
}
