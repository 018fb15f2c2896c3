package answer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// grower times sow and two other steps by the seed, grow after grow.
type grower struct {
	r            *rand.Rand
	cv, slow     float64
	readings     []study.Reading
	fromThenOnBy float64 // of sow's time, from the day of the change on
}

func (g *grower) time(grow, day, each int) {
	slow := math.Exp(g.slow * g.r.NormFloat64())
	for _, step := range []string{"sow", "pick", "wash"} {
		for range each {
			count := float64(10 + g.r.IntN(40))
			seconds := slow * 5 * count * math.Max(0.2, 1+g.cv*g.r.NormFloat64())
			if step == "sow" && day >= 0 {
				seconds *= g.fromThenOnBy
			}
			reading := atDay(step, day, count, seconds)
			reading.Grow = fmt.Sprint("g", grow)
			g.readings = append(g.readings, reading)
		}
	}
}

// A trial of as many grows as it says shows the saving in about four cases of five: a
// simulation of growers who then time so many, and whose change saves what they hoped for.
func TestTrialShowsItFourTimesInFive(t *testing.T) {
	for _, c := range []struct {
		grows, each      int
		cv, slow, saving float64
	}{{1, 4, 0.15, 0, 1.0 / 3}, {4, 2, 0.20, 0.08, 1.0 / 3}, {6, 2, 0.25, 0.08, 0.4}, {3, 3, 0.15, 0.05, 0.25}} {
		board := dibber(0)
		board.UnitFactor = 1 - c.saving
		st := smallMade(board)
		st.Steps = append(st.Steps, study.Step{Name: "pick", Form: "unit"}, study.Step{Name: "wash", Form: "unit"})
		r, planned, shown := rand.New(rand.NewPCG(1, 2)), 0, 0
		for range draws(80) {
			g := &grower{r: r, cv: c.cv, slow: c.slow, fromThenOnBy: 1 - c.saving}
			for grow := range c.grows {
				g.time(grow, grow-20, c.each)
			}
			trial, err := Fit(st, g.readings, Options{}).PlanTrial("dibber", "", 40)
			require.NoError(t, err)
			if !trial.Grows.Known {
				continue
			}
			planned++
			for grow := range int(trial.Grows.Value) {
				g.time(100+grow, grow, 1)
			}
			in, err := Fit(st, g.readings, Options{}).Improve("", 40, nil)
			require.NoError(t, err)
			if made := in.Made[0]; made.Clear() && made.Saved.Value > 0 {
				shown++
			}
		}
		assert.Greater(t, planned, 20, "%+v", c)
		assert.InDelta(t, 0.84, float64(shown)/float64(planned), 0.12, "%+v", c)
	}
}

// Readings of one grow say less of a change than as many of nobody knows which.
func TestTrialAfterOneGrow(t *testing.T) {
	g := &grower{r: rand.New(rand.NewPCG(4, 4)), cv: 0.1}
	g.time(0, -3, 6)
	st := smallMade(dibber(0))
	st.Made[0].UnitFactor = 0.6
	st.Steps = append(st.Steps, study.Step{Name: "pick"}, study.Step{Name: "wash"})
	trial := func() ChangeTrial {
		t.Helper()
		p, err := Fit(st, g.readings, Options{}).PlanTrial("dibber", "", 40)
		require.NoError(t, err)
		require.True(t, p.Grows.Known)
		return p
	}
	one := trial()
	for i := range g.readings {
		g.readings[i].Grow = ""
	}
	assert.Greater(t, one.Grows.Value, trial().Grows.Value)
}

// A step whose setup and units are not told apart may have saved far less than it seems: a plan
// does not call readings enough that leave the difference unclear.
func TestTrialOfABracketedStep(t *testing.T) {
	r, readings := rand.New(rand.NewPCG(7, 7)), []study.Reading(nil)
	for day := -20; day < 8; day++ {
		seconds := 200 + 10*r.NormFloat64()
		if day >= 0 {
			seconds *= 0.6
		}
		reading := atDay("sow", day, 1, seconds)
		reading.Grow = fmt.Sprint("g", day/4)
		readings = append(readings, reading)
	}
	st := smallMade(dibber(0))
	st.Made[0].HasHoped = false
	for form, enough := range map[string]bool{"": false, "setup": true} {
		st.Steps[0].Form = form
		m := Fit(st, readings, Options{})
		trial, err := m.PlanTrial("dibber", "", 4)
		require.NoError(t, err)
		in, err := m.Improve("", 4, nil)
		require.NoError(t, err)
		assert.Equal(t, !enough, trial.Bracketed)
		assert.Equal(t, enough, trial.Grows == study.Known(0), "%q: %v", form, trial.Grows)
		assert.Equal(t, enough, in.Made[0].Clear())
	}
}

// A step that is not done any more is saved as its readings before say: clearly, as improve
// has it, and no reading after it is needed.
func TestTrialOfAStepNotDoneAnyMore(t *testing.T) {
	st := oneStep(study.Step{Form: "unit"})
	st.Steps = append(st.Steps, study.Step{Name: "wash"})
	st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, task("wash", crop.Heads, 31))
	st.Changes = []study.Change{{Name: "no wash", Step: "wash", Drop: true}}
	readings := []study.Reading{aReading("pack", 10, 100), aReading("wash", 10, 50), aReading("wash", 40, 200)}
	for _, seconds := range []float64{210, 900} {
		m := Fit(st, append(readings, aReading("wash", 40, seconds)), Options{})
		in, err := m.Improve("", 40, nil)
		require.NoError(t, err)
		trial, err := m.PlanTrial("no wash", "", 40)
		require.NoError(t, err)
		saved := in.Changes[0]
		assert.InDelta(t, saved.Saved.Value, trial.Saving.Value, 1e-12)
		assert.Equal(t, saved.Low.Value > 0, trial.Grows.Known, seconds)
		assert.Equal(t, trial.Grows, trial.After)
		assert.Equal(t, trial.Grows, trial.ToBefore)
		assert.Equal(t, 0.0, trial.Grows.Value)
		assert.Equal(t, seconds == 210, trial.Grows.Known)
	}
}
