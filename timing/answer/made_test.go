package answer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

var changedOn = time.Date(2027, 4, 12, 0, 0, 0, 0, time.UTC)

// changedGrower is an invented study with a change made to sow, its readings, and the same
// with the step named apart: a way as it was and one as it is.
func changedGrower(r *rand.Rand) (st, apart study.Study, readings, named []study.Reading) {
	estimate := &study.Estimate{Low: 2, Likely: 4, High: 8}
	step := func(name string) study.Step {
		s := study.Step{Name: name}
		if name == "sow" && r.IntN(3) == 0 {
			s.SetupCovers = 20
		}
		return s
	}
	task := func(step string, day int, count string) study.Task {
		return study.Task{Step: step, Days: []int{day}, Count: crop.Word(count), Each: 1, SharedBy: 1}
	}
	st = study.Study{
		Confidence: 0.95, Allowance: 0.1, Germination: crop.Germination{Share: 0.9}, SowEveryDays: 7,
		Labour: &study.Labour{Wage: 15}, Steps: []study.Step{step("sow"), {Name: "carry", Estimate: estimate}, step("harvest")},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, CellsPerTray: 24, Tasks: []study.Task{
			task("sow", 0, "seeds"), task("carry", 3, "once"), task("sow", 4, "once"), task("harvest", 30, "heads"),
		}}},
	}
	apart = st
	before := st.Steps[0]
	before.Name = "sow before"
	apart.Steps = append([]study.Step{st.Steps[0], st.Steps[1], st.Steps[2]}, before)
	old := st.Workflows[0]
	old.Name, old.Tasks = "as it was", append([]study.Task{}, old.Tasks...)
	old.Tasks[0].Step, old.Tasks[2].Step = before.Name, before.Name
	apart.Workflows = append([]study.Workflow{}, st.Workflows[0], old)
	st.Made = []study.MadeChange{{Change: study.Change{Name: "dibber", Step: "sow", SetupFactor: 0.5, UnitFactor: 0.4, Outlay: study.Known(18)}, Since: changedOn, HasHoped: true}}

	for grow := range 2 + r.IntN(4) {
		slow := math.Exp(0.1 * r.NormFloat64())
		day := changedOn.AddDate(0, 0, 7*(grow-2))
		for _, name := range []string{"sow", "harvest"} {
			for range 1 + r.IntN(3) {
				count := float64(5 + r.IntN(40))
				reading := aReading(name, count, slow*(40+5*count)*math.Exp(0.15*r.NormFloat64()))
				reading.Date, reading.Grow = day, fmt.Sprint("g", grow)
				if r.IntN(9) == 0 {
					reading.Date = time.Time{}
				}
				readings = append(readings, reading)
				if name == "sow" && reading.Date.Before(changedOn) {
					reading.Step = before.Name
				}
				named = append(named, reading)
			}
		}
	}
	return st, apart, readings, named
}

func alikeTo(t *testing.T, want, got study.Maybe, what string) {
	t.Helper()
	require.Equal(t, want.Known, got.Known, what)
	assert.InDelta(t, want.Value, got.Value, 1e-9*math.Max(1, math.Abs(want.Value)), what)
}

// A change answers as two ways that differ in nothing but the name of its step.
func TestMadeIsAPairOfWays(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	compared := 0
	for n := range 40 {
		st, apart, readings, named := changedGrower(r)
		m, two := Fit(st, readings, Options{}), Fit(apart, named, Options{})
		in, err := m.Improve("tray", 48, nil)
		require.NoError(t, err)
		require.Len(t, in.Made, 1)
		made := in.Made[0]
		assert.Empty(t, in.Changes)
		c, err := two.Compare([]string{"tray", "as it was"}, 48)
		require.NoError(t, err)
		if made.ReadingsAfter == 0 || made.ReadingsBefore == 0 {
			continue
		}
		compared++
		pair := c.Pairs[0]
		alikeTo(t, study.Known(pair.Difference), made.Saved, fmt.Sprint("saved ", n))
		alikeTo(t, pair.Low, made.Low, fmt.Sprint("low ", n))
		alikeTo(t, pair.High, made.High, "high")
		alikeTo(t, pair.P, made.P, "p")
		alikeTo(t, c.Workflows[1].Steps[0].Hours, made.Before, "before")
		alikeTo(t, c.Workflows[0].Steps[0].Hours, made.After, "after")
		hours, err := m.Compare([]string{"tray"}, 48)
		require.NoError(t, err)
		now, want := hours.Workflows[0], c.Workflows[0]
		alikeTo(t, study.Known(want.Hours), study.Known(now.Hours), "hours")
		alikeTo(t, want.Low, now.Low, "low")
		alikeTo(t, want.NextHigh, now.NextHigh, "next")
		for i := range want.Steps {
			assert.Equal(t, want.Steps[i].Step, now.Steps[i].Step)
			alikeTo(t, want.Steps[i].Hours, now.Steps[i].Hours, "step")
		}
	}
	assert.Greater(t, compared, 20)
}

func atDay(step string, day int, count, seconds float64) study.Reading {
	r := aReading(step, count, seconds)
	r.Date = changedOn.AddDate(0, 0, day)
	return r
}

// smallMade is a study of one step that was changed, without rest, one grow a week.
func smallMade(changes ...study.MadeChange) study.Study {
	return study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, SowEveryDays: 7, Labour: &study.Labour{Wage: 36},
		Steps:     []study.Step{{Name: "sow", Form: "unit"}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: "seeds", Each: 1, SharedBy: 1}}}},
		Made:      changes,
	}
}

func dibber(day int) study.MadeChange {
	return study.MadeChange{Change: study.Change{Name: "dibber", Step: "sow", SetupFactor: 1, UnitFactor: 0.25, Outlay: study.Known(3)}, Since: changedOn.AddDate(0, 0, day), HasHoped: true}
}

// Without a reading since, answers take the earlier ones with what was hoped for.
func TestMadeAndNotTimedYet(t *testing.T) {
	m := Fit(smallMade(dibber(0)), []study.Reading{atDay("sow", -3, 10, 40), atDay("sow", -2, 20, 80), aReading("sow", 30, 120)}, Options{})
	in, err := m.Improve("", 100, nil)
	require.NoError(t, err)
	assert.InDelta(t, 100.0/3600, in.Hours, 1e-12) // a second a seed, a quarter of four
	made := in.Made[0]
	assert.Equal(t, []int{3, 0}, []int{made.ReadingsBefore, made.ReadingsAfter})
	assert.InDelta(t, 400.0/3600, made.Before.Value, 1e-12)
	assert.InDelta(t, 300.0/3600, made.Hoped.Value, 1e-12)
	for _, unknown := range []study.Maybe{made.After, made.Saved, made.Low, made.High, made.P, made.Payback} {
		assert.False(t, unknown.Known)
	}
	assert.Nil(t, made.PaybackOn)
	assert.Contains(t, in.Notes, "sow: 1 reading without a date, taken as from before dibber")
	assert.Contains(t, in.Notes, "sow was not timed since 2027-04-12 (dibber): answers take its earlier readings with what was hoped for: setup times × 1, unit times × 0.25")
	c, err := m.Compare(nil, 100)
	require.NoError(t, err)
	assert.InDelta(t, 100.0/3600, c.Workflows[0].Hours, 1e-12)
	assert.Equal(t, 100.0, c.Workflows[0].Steps[0].Count)
	fits, err := m.Fits(nil)
	require.NoError(t, err)
	require.Len(t, fits.Steps, 1)
	assert.InDelta(t, 1, fits.Steps[0].Unit.Value, 1e-12)
	assert.Equal(t, 3, fits.Steps[0].Readings)
	cost, err := m.Cost(nil, 100, WhatIf{})
	require.NoError(t, err)
	assert.InDelta(t, 1, cost.Workflows[0].Total.Value, 1e-9)
	// with nothing but an estimate, that
	st := smallMade(dibber(0))
	st.Steps[0].Estimate = &study.Estimate{Low: 8, Likely: 8, High: 8}
	in, err = Fit(st, nil, Options{}).Improve("", 100, nil)
	require.NoError(t, err)
	assert.InDelta(t, 200.0/3600, in.Hours, 1e-12)
	st.Made[0].HasHoped, st.Made[0].UnitFactor = false, 1
	in, err = Fit(st, nil, Options{}).Improve("", 100, nil)
	require.NoError(t, err)
	assert.Contains(t, in.Notes, "sow was not timed since 2027-04-12 (dibber): answers take its estimate as it is")
}

// Each part of several changes ends where the next begins.
func TestMadeSeveralTimes(t *testing.T) {
	second := dibber(10)
	second.Name, second.HasHoped = "board", false
	readings := []study.Reading{atDay("sow", 12, 10, 10), atDay("sow", 0, 10, 20), atDay("sow", 9, 20, 40), atDay("sow", -1, 10, 40), atDay("sow", 10, 30, 30)}
	m := Fit(smallMade(second, dibber(0)), readings, Options{})
	in, err := m.Improve("", 100, nil)
	require.NoError(t, err)
	assert.InDelta(t, 100.0/3600, in.Hours, 1e-12)
	board, first := in.Made[0], in.Made[1]
	assert.Equal(t, []string{"", board.Since}, []string{board.Until, first.Until})
	assert.Empty(t, m.YetToCome())
	assert.Equal(t, "2027-04-22", board.Since)
	assert.Equal(t, []int{2, 2, 1, 2}, []int{board.ReadingsBefore, board.ReadingsAfter, first.ReadingsBefore, first.ReadingsAfter})
	assert.InDelta(t, 200.0/3600, first.Saved.Value, 1e-12)
	assert.InDelta(t, 100.0/3600, board.Saved.Value, 1e-12)
	assert.False(t, board.Hoped.Known)
	// 200 s saved a grow at 36 an hour are 2: an outlay of 3 is earned after one and a half grows, 150 heads, 11 days
	assert.InDelta(t, 150, first.Payback.Value, 1e-9)
	assert.Equal(t, "2027-04-23", *first.PaybackOn)
	for _, end := range []struct {
		saved study.Maybe
		on    *string
	}{{first.High, first.PaybackFrom}, {first.Low, first.PaybackTo}} {
		if !end.saved.Known || end.saved.Value <= 0 {
			assert.Nil(t, end.on)
			continue
		}
		require.NotNil(t, end.on)
		days := int(math.Ceil(3 / (36 * end.saved.Value) * 7))
		assert.Equal(t, time.Date(2027, 4, 12+days, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), *end.on)
	}
	fits, err := m.Fits(nil)
	require.NoError(t, err)
	require.Len(t, fits.Steps, 1)
	assert.Equal(t, 2, fits.Steps[0].Readings)
	// a filter chooses first
	in, err = Fit(smallMade(second, dibber(0)), readings, Options{Filter: condense.Filter{Until: changedOn.AddDate(0, 0, 9)}}).Improve("", 100, nil)
	require.NoError(t, err)
	assert.InDelta(t, 200.0/3600*0.25, in.Hours, 1e-12)
	assert.Equal(t, 0, in.Made[0].ReadingsAfter)
	assert.InDelta(t, 200.0/3600, in.Made[0].Before.Value, 1e-12)
	// the last reading is of before it was made
	assert.Equal(t, []string{`"board" has since = 2027-04-22, later than the last reading (2027-04-21): answers take it as made; if it is not made yet, leave since out, which makes it a what-if`},
		Fit(smallMade(second, dibber(0)), readings[:4], Options{Filter: condense.Filter{Until: changedOn.AddDate(0, 0, 9)}}).YetToCome())
	assert.Empty(t, Fit(smallMade(second), nil, Options{}).YetToCome(), "nothing was timed at all")
}

// A step that was dropped is not done any more.
func TestMadeDropped(t *testing.T) {
	drop := study.MadeChange{Change: study.Change{Name: "no sowing", Step: "sow", SetupFactor: 1, UnitFactor: 1, Drop: true}, Since: changedOn}
	st := smallMade(drop)
	st.Steps = append(st.Steps, study.Step{Name: "pick", Form: "unit"})
	st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, study.Task{Step: "pick", Days: []int{9}, Count: "heads", Each: 1, SharedBy: 1})
	m := Fit(st, []study.Reading{atDay("sow", -3, 10, 40), atDay("sow", -2, 20, 80), atDay("pick", -2, 20, 80)}, Options{})
	in, err := m.Improve("", 100, nil)
	require.NoError(t, err)
	assert.InDelta(t, 400.0/3600, in.Hours, 1e-12)
	assert.Len(t, in.Steps, 1)
	made := in.Made[0]
	assert.InDelta(t, 400.0/3600, made.Before.Value, 1e-12)
	assert.Equal(t, study.Known(0), made.After)
	assert.InDelta(t, 400.0/3600, made.Saved.Value, 1e-12)
	assert.Equal(t, made.Before, made.Hoped)
}

// What is usual of a step that was changed and not timed since is what was hoped for, and
// lies within its own limits.
func TestUsualIsWhatWasHoped(t *testing.T) {
	m := Fit(smallMade(dibber(0)), []study.Reading{atDay("sow", -3, 10, 40), atDay("sow", -2, 20, 80), atDay("sow", -2, 30, 121)}, Options{})
	u, ok := m.Usual("sow", stepfit.Load{Setups: 1, Count: 100})
	require.True(t, ok)
	assert.InDelta(t, 100.5, u.Seconds, 1)
	assert.Less(t, u.Low.Value, u.Seconds)
	assert.Greater(t, u.High.Value, u.Seconds)
	assert.Less(t, u.High.Value, 200.0)
}

// A step that was never timed before its change has its hours since all the same.
func TestMadeWithoutReadingsBefore(t *testing.T) {
	in, err := Fit(smallMade(dibber(0)), []study.Reading{atDay("sow", 1, 10, 20), atDay("sow", 2, 20, 40)}, Options{}).Improve("", 100, nil)
	require.NoError(t, err)
	made := in.Made[0]
	assert.Equal(t, study.Maybe{}, made.Before)
	assert.Equal(t, study.Maybe{}, made.Saved)
	assert.InDelta(t, 200.0/3600, made.After.Value, 1e-12)
	assert.True(t, made.After.Known)
}

// The plan of a trial is met when readings as it expects them are taken.
func TestPlanTrial(t *testing.T) {
	var readings []study.Reading
	for i, seconds := range []float64{40, 82, 118, 165, 78, 121} {
		r := atDay("sow", i-9, 10*float64(1+i%4), seconds)
		r.Seconds = 4 * r.Count * (1 + 0.03*float64(i%3-1))
		readings = append(readings, r)
	}
	st := smallMade(dibber(0))
	trial, err := Fit(st, readings, Options{}).PlanTrial("Dibber", "", 100)
	require.NoError(t, err)
	assert.InDelta(t, 0.75*trial.Before.Value, trial.Saving.Value, 1e-9)
	assert.True(t, trial.IsHoped)
	assert.Equal(t, []float64{100}, trial.Counts)
	require.True(t, trial.Grows.Known)
	assert.Equal(t, study.Known(0), trial.GrowsTo)
	for i := range int(trial.After.Value) {
		readings = append(readings, atDay("sow", i, 100, 100))
	}
	m := Fit(st, readings, Options{})
	in, err := m.Improve("", 100, nil)
	require.NoError(t, err)
	assert.True(t, in.Made[0].Clear())

	// a what-if that was not made: before as well, a third where nothing is hoped for
	made := dibber(0)
	made.HasHoped, made.UnitFactor = false, 1
	trial, err = Fit(smallMade(made), readings[:2], Options{}).PlanTrial("dibber", "", 100)
	require.NoError(t, err)
	assert.InDelta(t, trial.Before.Value/3, trial.Saving.Value, 1e-12)
	st = smallMade()
	st.Changes = []study.Change{{Name: "seeder", Step: "sow", SetupFactor: 1, UnitFactor: 0.8}}
	trial, err = Fit(st, readings[:1], Options{}).PlanTrial("seeder", "", 100)
	require.NoError(t, err)
	assert.Positive(t, trial.ToBefore.Value)
	assert.Positive(t, trial.After.Value)
	_, err = Fit(st, readings, Options{}).PlanTrial("sieve", "", 100)
	assert.EqualError(t, err, `no change is named "sieve": there is "seeder"`)
}

// A trial starts from what changes that were not timed yet are hoped to have made of the step, as
// the list of made changes does.
func TestPlanTrialAfterAChangeNotTimed(t *testing.T) {
	next := dibber(10)
	next.Name, next.HasHoped, next.UnitFactor = "tape", false, 1
	st := smallMade(dibber(0), next)
	st.Changes = []study.Change{{Name: "seeder", Step: "sow", SetupFactor: 1, UnitFactor: 0.8}}
	m := Fit(st, []study.Reading{atDay("sow", -3, 10, 40), atDay("sow", -2, 20, 82), atDay("sow", -1, 30, 117)}, Options{})
	in, err := m.Improve("", 100, nil)
	require.NoError(t, err)
	for name, share := range map[string]float64{"tape": 1.0 / 3, "seeder": 0.2} {
		trial, err := m.PlanTrial(name, "", 100)
		require.NoError(t, err)
		assert.InDelta(t, in.Made[1].Before.Value, trial.Before.Value, 1e-12, name)
		assert.InDelta(t, share*trial.Before.Value, trial.Saving.Value, 1e-12, name)
		assert.True(t, trial.Grows.Known, name)
	}
}

// Readings that are added later are taken in as if they had been there.
func TestMadeWithMore(t *testing.T) {
	first := []study.Reading{atDay("sow", -3, 10, 40), atDay("sow", -2, 20, 80)}
	since := []study.Reading{atDay("sow", 0, 10, 10), atDay("sow", 1, 30, 30)}
	improve := func(c *condense.Condensed) Improvement {
		in, err := NewModels(c, Options{}).Improve("", 100, nil)
		require.NoError(t, err)
		return in
	}
	before := Fit(smallMade(dibber(0)), first, Options{}).Condensed
	want := improve(before)
	more := improve(before.With(since[:1]).With(since[1:]))
	assert.Equal(t, improve(Fit(smallMade(dibber(0)), append(first, since...), Options{}).Condensed), more)
	assert.Equal(t, 2, more.Made[0].ReadingsAfter)
	assert.Equal(t, want, improve(before), "and what they are added to is as it was")
}

// The first readings since a change are not taken for a step that varies more than it did.
func TestFirstReadingsSinceAChange(t *testing.T) {
	board := dibber(0)
	board.HasHoped, board.UnitFactor = false, 1
	m := Fit(smallMade(board), []study.Reading{atDay("sow", -9, 10, 40), atDay("sow", -8, 20, 81), atDay("sow", -2, 20, 80), atDay("sow", 0, 30, 60)}, Options{})
	notes, err := m.LessSure(nil, 100)
	require.NoError(t, err)
	assert.Equal(t, []string{`"tray" is less sure than without the newest readings, of 2027-04-12: sow has its first readings since "dibber", and no longer rests on those before it`}, notes)
}
