package condense

import (
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// onDays are readings of thin, one on each day; 0 is undated.
func onDays(days ...int) (readings []study.Reading) {
	for _, n := range days {
		r := plainReading("thin")
		if n > 0 {
			r.Date = day(n)
		}
		readings = append(readings, r)
	}
	return readings
}

// The day of a change is the first after it; readings without a day are before the first,
// and changes may stand in any order in the study.
func TestStageOfADay(t *testing.T) {
	for _, c := range []struct {
		on   int
		want []int // readings of each stage
	}{{0, []int{1, 0, 0}}, {1, []int{1, 0, 0}}, {19, []int{1, 0, 0}}, {20, []int{0, 1, 0}}, {39, []int{0, 1, 0}}, {40, []int{0, 0, 1}}, {99, []int{0, 0, 1}}} {
		got := gather(t, twoChanges(), Filter{}, onDays(c.on))
		require.Equal(t, c.want, got.Stages[1].Readings, c.on)
	}
	s := gather(t, twoChanges(), Filter{}).Stages[1]
	require.Equal(t, []int{1, 0}, s.Changes) // first is the study's second
	require.Equal(t, []Day{DayOf(day(20)), DayOf(day(40))}, s.Since)
}

// A stage that was timed stands for itself, and has nothing of what was hoped.
func TestStagesThatWereTimed(t *testing.T) {
	c := gather(t, twoChanges(), Filter{}, onDays(1, 2, 25, 50, 51, 52))
	s := c.Stages[1]
	require.Equal(t, []int{2, 1, 3}, s.Readings)
	require.Equal(t, 1, s.At[2], "the present keeps its step's place")
	require.Equal(t, []stepfit.Load{{Setups: 1, Count: 1}, {Setups: 1, Count: 1}, {Setups: 1, Count: 1}}, s.Hoped)
	require.Equal(t, []int{s.At[0], s.At[1]}, c.Earlier(1))
	require.False(t, c.AnsweredFor(1))
	require.Equal(t, stepfit.Load{Setups: 2, Count: 3}, c.AsItIs(1, stepfit.Load{Setups: 2, Count: 3}))
	require.Equal(t, []string{"thin (before 2027-03-20)", "thin (before 2027-04-09)"}, []string{c.Steps[s.At[0]].Step.Name, c.Steps[s.At[1]].Step.Name})
}

// A stage that was not timed is answered for by the last before it that was, with what each
// change in between was hoped to do.
func TestStagesThatWereNotTimed(t *testing.T) {
	for _, c := range []struct {
		days          []int
		setups, count float64 // of what is asked of the present
		answered      bool
	}{
		{[]int{1, 2}, 0.25, 0.4, true},
		{[]int{1, 2, 25}, 0.5, 0.8, true},
		{[]int{25}, 0.5, 0.8, true},
		{[]int{1, 50}, 1, 1, false},
		{nil, 0.25, 0.4, true},
	} {
		got := gather(t, twoChanges(), Filter{}, onDays(c.days...))
		require.Equal(t, c.answered, got.AnsweredFor(1), c.days)
		load := got.AsItIs(1, stepfit.Load{Setups: 1, Count: 1})
		require.InDelta(t, c.setups, load.Setups, 1e-15, c.days)
		require.InDelta(t, c.count, load.Count, 1e-15, c.days)
	}
	c := gather(t, twoChanges(), Filter{}, onDays(1, 2))
	require.Equal(t, 2, c.Steps[1].Readings, "what was timed before stands at the step's place")
	require.Empty(t, c.Earlier(1))
	require.False(t, c.AnsweredFor(0))
	require.Nil(t, c.Earlier(0))
}

// Voided readings since a change are the step's, though another stage answers for it.
func TestVoidedSinceAChange(t *testing.T) {
	readings := onDays(1, 50)
	readings[1].Void = "interrupted"
	c := gather(t, twoChanges(), Filter{}, readings)
	require.Equal(t, []int{1, 1}, []int{c.Steps[1].Readings, c.Steps[1].Voided})
}

// The name of a stage is that of no step of the study.
func TestStageNameIsFree(t *testing.T) {
	st := twoChanges()
	st.Steps = append(st.Steps, study.Step{Name: "thin (before 2027-03-20)"})
	c := gather(t, st, Filter{}, onDays(1))
	require.Len(t, c.Index, 4)
	names := map[string]bool{}
	for _, s := range c.Steps {
		require.False(t, names[s.Step.Name], s.Step.Name)
		names[s.Step.Name] = true
	}
}

// A step that a change has dropped is in no task and no chore any more, save in the study as
// it was before.
func TestDroppedStep(t *testing.T) {
	st := twoChanges()
	st.Made = []study.MadeChange{{Change: study.Change{Name: "no thinning", Step: "thin", Drop: true}, Since: day(20)}}
	st.Workflows = []study.Workflow{{Name: "tray", Tasks: []study.Task{{Step: "thin"}, {Step: "pick"}, {Step: "thin"}}}}
	st.Chores = []study.Chore{{Step: "thin"}, {Step: "sow"}}
	c := gather(t, st, Filter{}, onDays(1))
	require.Equal(t, []study.Task{{Step: "pick"}}, c.Study.Workflows[0].Tasks)
	require.Equal(t, []study.Chore{{Step: "sow"}}, c.Study.Chores)
	require.Len(t, c.Before.Workflows[0].Tasks, 3)
	require.Len(t, st.Workflows[0].Tasks, 3, "the caller's study is left alone")
	require.Len(t, st.Chores, 2)
}

// Each names the stage that a reading is of.
func TestEachByStage(t *testing.T) {
	c := gather(t, twoChanges(), Filter{}, onDays(0, 5, 20, 39, 40, 41))
	s, seen := c.Stages[1], map[int]int{}
	require.NoError(t, c.Each(func(step int, _ *Batch, _ int) { seen[step]++ }))
	require.Equal(t, map[int]int{s.At[0]: 2, s.At[1]: 2, s.At[2]: 2}, seen)
}
