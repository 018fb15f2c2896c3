package answer

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// invented makes a study of random steps, counts and readings: every form of a
// model, laps, voided readings, judged steps, gaps, single readings; of grows and by
// workers that differ, most of them named.
func invented(seed uint64) (study.Study, []study.Reading) {
	r, groups := rand.New(rand.NewPCG(seed, 1)), rand.New(rand.NewPCG(seed, 2))
	st := study.Study{
		Heads: 10 + r.IntN(200), Allowance: r.Float64() / 4, Confidence: 0.95,
		Germination: crop.Germination{Share: 0.6 + 0.4*r.Float64()},
		Labour:      &study.Labour{Wage: 10 + 10*r.Float64(), OnCost: r.Float64() / 2},
	}
	var readings []study.Reading
	for i := range 7 {
		step := study.Step{Name: fmt.Sprintf("step %d", i)}
		if r.IntN(4) == 0 {
			step.SetupCovers = float64(5 + r.IntN(20))
		}
		if r.IntN(3) == 0 {
			low := 10 * r.Float64()
			step.Estimate = &study.Estimate{Low: low, Likely: low + 20*r.Float64(), High: low + 60, OfVisit: r.IntN(2) == 0}
		}
		st.Steps = append(st.Steps, step)
		setup, unit := 200*r.Float64(), 20*r.Float64()
		more := 40 * groups.Float64()
		for range r.IntN(9) {
			count := float64(1 + r.IntN(60))
			reading := aReading(step.Name, count, (setup+unit*count)*(0.8+0.4*r.Float64()))
			g, w := groups.IntN(3), groups.IntN(2)
			reading.Grow, reading.Worker = fmt.Sprintf("g%d", g), fmt.Sprintf("w%d", w)
			reading.Date = time.Date(2026, 1, 1+20*g, 0, 0, 0, 0, time.UTC)
			reading.Seconds += more * float64((g+2*w)%3)
			if groups.IntN(40) == 0 {
				reading.Grow, reading.Date = "", time.Time{}
			}
			reading.Workflow = []string{"", "way 0", "way 1"}[r.IntN(3)]
			switch r.IntN(8) {
			case 0:
				reading.Void = "a visitor came"
			case 1:
				reading.Setups, reading.Seconds = study.Known(0), unit*count*(0.8+0.4*r.Float64())
			}
			readings = append(readings, reading)
		}
	}
	for w := range 2 {
		way := study.Workflow{
			Name: fmt.Sprintf("way %d", w), SeedsPerCell: 1 + r.IntN(3), CellsPerTray: 10 + r.IntN(50),
			Losses: []crop.Loss{{Day: 9, Share: r.Float64() / 5}},
		}
		for i := range st.Steps {
			if r.IntN(3) > 0 {
				way.Tasks = append(way.Tasks, study.Task{
					Step: st.Steps[i].Name, Days: []int{r.IntN(10), 10 + r.IntN(20)}[:1+r.IntN(2)],
					Count: crop.Words[r.IntN(len(crop.Words))], Each: 0.5 + r.Float64(), SharedBy: 1 + r.IntN(2),
				})
			}
		}
		st.Workflows = append(st.Workflows, way)
	}
	return st, readings
}

// forInvented runs a law over many invented studies.
func forInvented(t *testing.T, law func(t *testing.T, st study.Study, readings []study.Reading)) {
	for seed := range draws(150) {
		st, readings := invented(seed)
		if !t.Run(fmt.Sprint(seed), func(t *testing.T) { law(t, st, readings) }) {
			return
		}
	}
}

func compared(t *testing.T, st study.Study, readings []study.Reading) Comparison {
	t.Helper()
	c, err := Fit(st, readings, Options{}).Compare(nil, st.Heads)
	require.NoError(t, err)
	return c
}

// same holds two numbers equal to rounding.
func same(t *testing.T, want, got study.Maybe, what string) {
	t.Helper()
	require.Equal(t, want.Known, got.Known, what)
	assert.InDelta(t, want.Value, got.Value, 1e-7*(1+abs(want.Value)), what)
}

func TestDifferenceIsSecondLessFirst(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		c := compared(t, st, readings)
		want := c.Workflows[1].Hours - c.Workflows[0].Hours
		assert.InDelta(t, want, c.Pairs[0].Difference, 1e-9*(1+c.Workflows[0].Hours))
	})
}

func TestSharesSumToOne(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		for _, h := range compared(t, st, readings).Workflows {
			sum, hours := 0.0, 0.0
			for _, s := range h.Steps {
				sum += s.Share.Value
				hours += s.Hours.Value
			}
			assert.InDelta(t, h.Hours, hours, 1e-9*(1+h.Hours))
			if h.Hours != 0 {
				assert.InDelta(t, 1, sum, 1e-9)
			}
		}
	})
}

func TestDoublingTimesDoublesHours(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		before := compared(t, st, readings)
		doubled := slices.Clone(readings)
		for i := range doubled {
			doubled[i].Seconds *= 2
		}
		for i, s := range st.Steps {
			if s.Estimate != nil {
				e := *s.Estimate
				st.Steps[i].Estimate = &study.Estimate{Low: 2 * e.Low, Likely: 2 * e.Likely, High: 2 * e.High, OfVisit: e.OfVisit}
			}
		}
		after := compared(t, st, doubled)
		for i, h := range before.Workflows {
			g := after.Workflows[i]
			assert.InDelta(t, 2*h.Hours, g.Hours, 1e-9*(1+h.Hours))
			same(t, h.Low.Times(2), g.Low, "low")
			same(t, h.High.Times(2), g.High, "high")
			same(t, h.NextHigh.Times(2), g.NextHigh, "next high")
			same(t, h.DF, g.DF, "df")
		}
		p, q := before.Pairs[0], after.Pairs[0]
		same(t, p.Low.Times(2), q.Low, "pair low")
		same(t, p.P, q.P, "p")
		same(t, p.TipsAtCV, q.TipsAtCV, "tips")
		same(t, p.BreakEven.High, q.BreakEven.High, "break-even")
	})
}

func TestOrderOfReadingsChangesNothing(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		before := compared(t, st, readings)
		shuffled := slices.Clone(readings)
		rand.New(rand.NewPCG(9, 9)).Shuffle(len(shuffled), func(i, j int) {
			shuffled[i], shuffled[j] = shuffled[j], shuffled[i]
		})
		after := compared(t, st, shuffled)
		for i, h := range before.Workflows {
			g := after.Workflows[i]
			assert.InDelta(t, h.Hours, g.Hours, 1e-9*(1+h.Hours))
			same(t, h.Low, g.Low, "low")
			same(t, h.NextHigh, g.NextHigh, "next high")
			assert.Equal(t, h.Gaps, g.Gaps)
		}
	})
}

// A step of which both workflows have the same to do cancels: neither its
// readings nor their absence moves a difference, unless its spread is lent.
func TestSharedStepDoesNotMoveADifference(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) {
		for w := range st.Workflows {
			tasks := st.Workflows[w].Tasks
			tasks = slices.DeleteFunc(tasks, func(k study.Task) bool { return k.Step == "step 0" })
			st.Workflows[w].Tasks = append(tasks, study.Task{Step: "step 0", Days: []int{3, 12}, Count: crop.Heads, Each: 1, SharedBy: 1})
		}
		readings = slices.DeleteFunc(readings, func(r study.Reading) bool { return r.Step == "step 0" })
		without := compared(t, st, readings).Pairs[0]
		assert.NotContains(t, without.Gaps, "step 0")
		for i, seconds := range []float64{100, 150, 333} {
			readings = append(readings, aReading("step 0", float64(10*(i+1)), seconds))
		}
		with := compared(t, st, readings).Pairs[0]
		assert.InDelta(t, without.Difference, with.Difference, 1e-9*(1+abs(with.Difference)))
		if m := Fit(st, readings, Options{}); !lends(m) {
			same(t, without.Low, with.Low, "low")
			same(t, without.BreakEven.Heads, with.BreakEven.Heads, "break-even")
		}
	})
}

// lends says whether any step is lent some of its scatter, so that what others lend
// matters to it.
func lends(m *Models) bool {
	return slices.ContainsFunc(m.Steps, func(s StepModel) bool { return s.doubt.share > 0 })
}
