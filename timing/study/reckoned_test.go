package study

import (
	"testing"
	"time"

	"headhours/timing/stepfit"

	"github.com/stretchr/testify/assert"
)

// Basic seconds are net seconds, of all hands, at normal pace.
func TestBasic(t *testing.T) {
	for _, c := range []struct{ seconds, people, rating, want float64 }{
		{187.4, 1, 100, 187.4}, {60, 2, 100, 120}, {60, 1, 80, 48}, {60, 3, 125, 225}, {0.1, 1.5, 100, 0.1 * 1.5},
	} {
		r := Reading{Seconds: c.seconds, People: c.people, Rating: c.rating}
		assert.InDelta(t, c.want, r.Basic(), 1e-12)
		assert.Equal(t, Basic(c.seconds, c.people, c.rating), r.Basic())
	}
	assert.Equal(t, 187.4, Basic(187.4, 1, 100), "to the last digit")
	assert.True(t, Reading{}.Counts())
	assert.False(t, Reading{Void: "x"}.Counts())
}

// A judgement of three points: its mean and spread by PERT, of a triangle's ends and middle.
func TestJudged(t *testing.T) {
	for _, c := range []struct {
		low, likely, high, mean, sd float64
	}{{180, 240, 360, 250, 30}, {60, 60, 60, 60, 0}, {0, 0, 6, 1, 1}, {0, 6, 6, 5, 1}} {
		j := Estimate{Low: c.low, Likely: c.likely, High: c.high}
		assert.InDelta(t, c.mean, j.Mean(), 1e-12)
		assert.InDelta(t, c.sd, j.SD(), 1e-12)
	}
}

// Setups are one a visit, or one for every so many counts begun; a sum that rounding alone
// has made too large begins none.
func TestSetupsFor(t *testing.T) {
	for _, c := range []struct{ covers, count, want float64 }{
		{0, 0, 1}, {0, 1e9, 1}, {20, 20, 1}, {20, 20.1, 2}, {20, 0.5, 1}, {20, 41, 3}, {2.5, 10, 4}, {0.1, 0.3, 3}, {20, 20 * (1 + 1e-12), 1},
	} {
		s := Step{SetupCovers: c.covers}
		assert.Equal(t, c.want, s.SetupsFor(c.count), "%+v", c)
	}
}

// One doing in place of several spares what setups it does not need, never less than none.
func TestSpared(t *testing.T) {
	alone, covers := Step{}, Step{SetupCovers: 10}
	assert.Equal(t, 2.0, alone.Spared(stepfit.Load{Setups: 3, Count: 30}))
	assert.Equal(t, 0.0, alone.Spared(stepfit.Load{Setups: 1, Count: 30}))
	assert.Equal(t, 0.0, alone.Spared(stepfit.Load{Setups: 0.5, Count: 5}), "shared already")
	assert.Equal(t, 1.0, covers.Spared(stepfit.Load{Setups: 3, Count: 12}))
	assert.Equal(t, 0.0, covers.Spared(stepfit.Load{Setups: 3, Count: 25}))
}

func TestPerHour(t *testing.T) {
	assert.InDelta(t, 14.5*1.21, Labour{Wage: 14.5, OnCost: 0.21}.PerHour(), 1e-12)
	assert.Equal(t, 12.0, Labour{Wage: 12}.PerHour())
}

// What was hoped of setups and counts is the product of both factors of each.
func TestHoped(t *testing.T) {
	c := MadeChange{Change: Change{SetupFactor: 0.5, UnitFactor: 0.8}}
	assert.Equal(t, []float64{0.5, 0.8}, []float64{c.Hoped().Setups, c.Hoped().Count})
	c.VisitsFactor, c.CountFactor = Known(0.5), Known(0)
	assert.Equal(t, []float64{0.25, 0}, []float64{c.Hoped().Setups, c.Hoped().Count})
}

// Steps that were dropped are in no task or chore, and a study without any is left as it is.
func TestAsItIs(t *testing.T) {
	st := Study{
		Workflows: []Workflow{{Tasks: []Task{{Step: "thin"}, {Step: "pick"}}}, {Tasks: []Task{{Step: "thin"}}}},
		Chores:    []Chore{{Step: "thin"}, {Step: "sweep"}},
		Made:      []MadeChange{{Change: Change{Step: "pick"}}},
	}
	assert.Equal(t, st, st.AsItIs())
	st.Made = append(st.Made, MadeChange{Change: Change{Step: "thin", Drop: true}}, MadeChange{Change: Change{Step: "thin"}})
	is := st.AsItIs()
	assert.Equal(t, []Task{{Step: "pick"}}, is.Workflows[0].Tasks)
	assert.Empty(t, is.Workflows[1].Tasks)
	assert.Equal(t, []Chore{{Step: "sweep"}}, is.Chores)
	assert.Len(t, st.Workflows[0].Tasks, 2)
	assert.Len(t, st.Chores, 2)
}

// A stretch that has a name goes past midnight where its end is before its start.
func TestNamedStretch(t *testing.T) {
	date := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)
	r := Reading{Step: "sow", Worker: "ab", Date: date, Start: Known(23 * 3600), End: Known(600)}
	n, ok := r.Named()
	assert.True(t, ok)
	assert.Equal(t, Stretch{What: "sow", Worker: "ab", Date: date, Start: 23 * 3600, End: 24*3600 + 600}, n)
	r.End = r.Start
	n, ok = r.Named()
	assert.True(t, ok)
	assert.Equal(t, n.Start, n.End)
	for _, lacks := range []Reading{{Date: date, Start: Known(1)}, {Date: date, End: Known(1)}, {Start: Known(1), End: Known(2)}} {
		_, ok := lacks.Named()
		assert.False(t, ok)
	}
}

// A reading's setups are those that it says, none among them, else those its count called
// for.
func TestLoadOfAReading(t *testing.T) {
	step := Step{SetupCovers: 20}
	for _, c := range []struct {
		setups Maybe
		want   float64
	}{{Maybe{}, 3}, {Known(0), 0}, {Known(5), 5}} {
		assert.Equal(t, stepfit.Load{Setups: c.want, Count: 50}, step.LoadOf(Reading{Count: 50, Setups: c.setups}))
	}
}
