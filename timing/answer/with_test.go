package answer_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Readings that are added to what others come to give what all of them give at once, but for last
// digits, since they are summed in another order, and leave the others as they are.
func TestWith(t *testing.T) {
	st := study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "sow"}, {Name: "thin"}}, Grows: []study.Grow{{Name: "g1"}}}
	reading := func(file string, i int) study.Reading {
		return study.Reading{
			Place: study.Place{File: file, Line: i + 2}, Date: time.Date(2026, 3, 1+i%20, 0, 0, 0, 0, time.UTC),
			Step: st.Steps[i%2].Name, Grow: fmt.Sprint("g", i%5), Worker: fmt.Sprint("w", i%3), People: 1, Rating: 100,
			Seconds: 30 + 5*float64(10+i%7) + float64(i*i%11), Count: float64(10 + i%7),
		}
	}
	for _, first := range []int{0, 1, 7, 300, 900} { // more than are kept as they are, too
		var some, more []study.Reading
		for i := range first {
			some = append(some, reading("a.csv", i))
		}
		for i := range 40 {
			more = append(more, reading("b.csv", i*3))
		}
		base := answer.Fit(st, some, answer.Options{})
		usual := func(m *answer.Models) (u answer.Usual, rest string) {
			u, ok := m.Usual("sow", stepfit.Load{Setups: 1, Count: 12})
			odd, err := m.Doubtful()
			require.NoError(t, err)
			return u, fmt.Sprint(u.Readings, u.Low.Known, u.High.Known, ok, m.Grows, m.Workers, odd)
		}
		before, restBefore := usual(base)
		want, rest := usual(answer.Fit(st, append(some[:len(some):len(some)], more...), answer.Options{}))
		got, restGot := usual(answer.NewModels(base.With(more), answer.Options{}))
		assert.Equal(t, rest, restGot, first)
		for _, both := range [][2]float64{{want.Seconds, got.Seconds}, {want.Low.Value, got.Low.Value}, {want.High.Value, got.High.Value}} {
			assert.InDelta(t, both[0], both[1], 1e-13*want.High.Value, first)
		}
		after, restAfter := usual(base)
		assert.Equal(t, before, after)
		assert.Equal(t, restBefore, restAfter)
	}
}

func TestDoneIn(t *testing.T) {
	st := study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "sow"}, {Name: "thin"}}}
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	one := func(grow, step string, date time.Time, count float64, void string) study.Reading {
		return study.Reading{Place: study.Place{File: "a.csv"}, Date: date, Grow: grow, Step: step, Workflow: "tray", Worker: grow + "w", People: 1, Rating: 100, Seconds: 9, Count: count, Void: void}
	}
	m := answer.Fit(st, []study.Reading{
		one("g1", "sow", day, 20, ""), one("g2", "sow", day, 7, ""), one("g1", "sow", day, 10, ""), one("g1", "sow", day, 5, "dropped"),
		one("g1", "thin", time.Time{}, 3, ""), one("g1", "sow", day.AddDate(0, 0, 1), 1, ""), one("g3", "sow", day, 1, ""),
	}, answer.Options{})
	done, err := answer.DoneIn(m, "g1")
	require.NoError(t, err)
	assert.Equal(t, []answer.Done{
		{Step: "sow", Day: condense.DayOf(day), Readings: 2, Count: 30}, {Step: "thin", Day: condense.NoDay, Readings: 1, Count: 3},
		{Step: "sow", Day: condense.DayOf(day) + 1, Readings: 1, Count: 1},
	}, done)
	grow, workflow, worker, err := answer.LastNames(m)
	require.NoError(t, err)
	assert.Equal(t, []string{"g3", "tray", "g3w"}, []string{grow, workflow, worker})
}
