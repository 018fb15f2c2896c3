package answer

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// oneStep is a study whose workflow is one doing of one step a head.
func oneStep(step study.Step) study.Study {
	step.Name = "pack"
	return study.Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1}, Steps: []study.Step{step},
		Workflows: []study.Workflow{{Name: "way", SeedsPerCell: 1, Tasks: []study.Task{task("pack", crop.Heads, 30)}}},
	}
}

// For one step of one time a plan is the handbooks' sample, by Student's t: as many
// readings in all as the reference says.
func TestPlanAgreesWithHandbooks(t *testing.T) {
	text, err := os.ReadFile(reference + "timestudy.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			ID, Kind string
			Input    json.RawMessage
			Expected struct {
				TBased int `json:"t_based"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	ran := 0
	for _, c := range file.Cases {
		if c.Kind != "readings_needed" {
			continue
		}
		ran++
		var in struct {
			Readings []float64
			Share    float64 `json:"relative_error"`
			Z        float64
		}
		require.NoError(t, json.Unmarshal(c.Input, &in))
		var readings []study.Reading
		for _, x := range in.Readings {
			readings = append(readings, aReading("pack", 1, x))
		}
		o := Options{}
		if in.Z == 2.58 {
			o.Confidence = 0.99
		}
		plan, err := Fit(oneStep(study.Step{Form: "setup"}), readings, o).plan(nil, 1, in.Share, 0)
		require.NoError(t, err)
		require.Len(t, plan.Readings, 1, c.ID)
		assert.Equal(t, c.Expected.TBased, len(in.Readings)+plan.Readings[0].Readings, c.ID)
		assert.Equal(t, c.Expected.TBased, *plan.Steps[0].ByT, c.ID)
		assert.True(t, plan.Meets)
	}
	assert.Equal(t, 4, ran)
}

// Readings are called for where the line is held best: half at each end for its
// setup and unit time, and all at the far end for unit time alone.
func TestPlanTimesTheEnds(t *testing.T) {
	var readings []study.Reading
	random := rand.New(rand.NewPCG(1, 2))
	for _, n := range []float64{10, 20, 30, 40} {
		readings = append(readings, aReading("pack", n, 200+5*n+40*random.NormFloat64()))
	}
	at := func(step study.Step) map[float64]int {
		plan, err := Fit(oneStep(step), readings, Options{}).plan(nil, 25, 0.04, 0)
		require.NoError(t, err)
		require.True(t, plan.Meets)
		counts := map[float64]int{}
		for _, r := range plan.Readings {
			counts[r.Count] += r.Readings
		}
		return counts
	}
	both := at(study.Step{Form: "setup+unit"})
	assert.Equal(t, map[float64]int{10: both[10], 40: both[40]}, both, "nothing in the middle, no setup alone")
	assert.InDelta(t, both[10], both[40], 1)
	unit := at(study.Step{Form: "unit"})
	assert.Equal(t, map[float64]int{40: unit[40]}, unit)
}

// One reading at an unlike count closes a bracket.
func TestPlanClosesABracket(t *testing.T) {
	var readings []study.Reading
	for k := range 12 {
		readings = append(readings, aReading("pack", 24, 300+float64(k%3)))
	}
	m := Fit(oneStep(study.Step{}), readings, Options{})
	plan, err := m.plan(nil, 48, 0.10, 0)
	require.NoError(t, err)
	c, err := m.Compare(nil, 48)
	require.NoError(t, err)
	assert.Greater(t, plan.Now.Value, 0.4*plan.Hours, "all setup would take half as long")
	assert.InDelta(t, c.Workflows[0].Hours-c.Workflows[0].Low.Value, plan.Now.Value, 1e-12)
	assert.Equal(t, []PlannedReadings{{Step: "pack", Count: 48, Setups: 1, Readings: 1}}, plan.Readings)
	assert.Contains(t, fmt.Sprint(plan.Notes), "about the same count")
}

// Before any timing: judged steps are timed until their own readings do better.
func TestPlanFromJudgement(t *testing.T) {
	m := Fit(oneStep(study.Step{Estimate: &study.Estimate{Low: 4, Likely: 10, High: 16}}), nil, Options{})
	plan, err := m.plan(nil, 20, 0.10, 0)
	require.NoError(t, err)
	assert.InDelta(t, 1.96*2*20/3600, plan.Now.Value, 1e-4, "the normal quantile, 2 s a head")
	assert.True(t, plan.Meets)
	// (1.96 × 0.2 / 0.1)² is 15.4 readings of a variation that is taken as known
	assert.Equal(t, 16, plan.Steps[0].Handbook)
	assert.InDelta(t, 18, plan.total(), 3, "t instead of the normal, one more time to find")
	judged, err := m.plan(nil, 20, 0.40, 0)
	require.NoError(t, err)
	assert.True(t, judged.Meets)
	assert.Empty(t, judged.Readings, "known well enough by judgement")
}

// A step without a reading comes first, whatever it may take.
func TestPlanPutsGapsFirst(t *testing.T) {
	st := oneStep(study.Step{Form: "unit"})
	st.Steps = append(st.Steps, study.Step{Name: "wash"})
	st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, task("wash", crop.Heads, 31))
	plan, err := Fit(st, []study.Reading{aReading("pack", 10, 100), aReading("pack", 10, 130)}, Options{}).Plan(nil, 20, 0.10)
	require.NoError(t, err)
	assert.Equal(t, []string{"wash"}, plan.Gaps)
	assert.Equal(t, PlannedReadings{Step: "wash", Count: 20, Setups: 1, Readings: 1, Gap: true}, plan.Readings[0])
	assert.Greater(t, len(plan.Readings), 1)
	assert.True(t, plan.Meets, "of what is known")

	other := st.Workflows[0]
	other.Name, other.Tasks = "quick", []study.Task{task("pack", crop.Once, 30)}
	st.Workflows = append(st.Workflows, other)
	plan, err = Fit(st, []study.Reading{aReading("pack", 10, 100), aReading("pack", 10, 130)}, Options{}).Plan([]string{"way", "quick"}, 20, 0)
	require.NoError(t, err)
	assert.Equal(t, []string{"wash"}, plan.Gaps)
	assert.Negative(t, plan.High.Value)
	assert.False(t, plan.Meets, "what lacks a step is never called clear")
}

// Of a step timed once, as of all handwork, a variation is assumed.
func TestPlanAssumesAVariation(t *testing.T) {
	plan, err := Fit(oneStep(study.Step{Form: "unit"}), []study.Reading{aReading("pack", 10, 100)}, Options{}).plan(nil, 20, 0.10, 0)
	require.NoError(t, err)
	assert.True(t, plan.Now.Known)
	assert.True(t, plan.Meets)
	assert.True(t, plan.Steps[0].Assumed)
	assert.Contains(t, fmt.Sprint(plan.Notes), "20 % is assumed")
	// t(M − 1)·0.2/√M ≤ 0.10 needs 18 readings of one size (t(17) = 2.110)
	assert.InDelta(t, 18, 1+plan.total(), 4, "larger ones count for more")
}

// A plan never calls for a reading that its goal can do without, keeps within its
// bound, and begins from what Compare says.
func TestPlanLaws(t *testing.T) {
	for seed := range draws(30) {
		study, readings := invented(seed)
		m := Fit(study, readings, Options{Scatter: Scatters[seed%uint64(len(Scatters))]})
		for _, names := range [][]string{nil, {"way 0", "way 1"}} {
			t.Run(fmt.Sprint(seed, names), func(t *testing.T) {
				within := 0.25
				if names != nil {
					within = 0
				}
				plan, err := m.Plan(names, study.Heads, within)
				require.NoError(t, err)
				c, err := m.Compare(nil, study.Heads)
				require.NoError(t, err)
				low, high := c.Workflows[0].Low, c.Workflows[0].High
				if names != nil {
					low, high = c.Pairs[0].Low, c.Pairs[0].High
				}
				same(t, low, plan.Low, "low")
				same(t, high, plan.High, "high")
				total := 0
				for _, r := range plan.Readings {
					if !r.Gap {
						total += r.Readings
					}
				}
				assert.LessOrEqual(t, total, MaxPlanned)
				if plan.Meets && names != nil {
					assert.Less(t, plan.Reached.Value, abs(plan.Hours)*(1+1e-9))
				}
				if plan.Meets && names == nil {
					assert.LessOrEqual(t, plan.Reached.Value, within*abs(plan.Hours)*(1+1e-9)+1e-12)
				}
				if total > 0 && plan.Now.Known && plan.Reached.Known {
					assert.Less(t, plan.Reached.Value, plan.Now.Value)
				}
			})
		}
	}
}

// What a plan promises is what comes of it: readings drawn as it says, with a scatter
// that is known here, give intervals of about the half width that it foresaw.
func TestPlanKeepsItsPromise(t *testing.T) {
	const sd = 40
	seconds := func(r *rand.Rand, n float64) float64 { return 200 + 5*n + sd*r.NormFloat64() }
	st := oneStep(study.Step{Form: "setup+unit"})
	random := rand.New(rand.NewPCG(5, 5))
	var readings []study.Reading
	for k := range 30 {
		n := []float64{10, 40}[k%2]
		readings = append(readings, aReading("pack", n, seconds(random, n)))
	}
	m := Fit(st, readings, Options{})
	plan, err := m.Plan(nil, 25, 0.8*m.hours(st.Workflows[0], 25).High.Plus(-m.hours(st.Workflows[0], 25).Hours).Value/m.hours(st.Workflows[0], 25).Hours)
	require.NoError(t, err)
	require.True(t, plan.Meets)
	sum := 0.0
	const draws = 200
	for range draws {
		more := slices.Clone(readings)
		for _, r := range plan.Readings {
			for range r.Readings {
				more = append(more, aReading(r.Step, r.Count, seconds(random, r.Count)))
			}
		}
		h := Fit(st, more, Options{}).hours(st.Workflows[0], 25)
		sum += (h.High.Value - h.Hours) / draws
	}
	// it took the scatter of the first thirty readings for the true one
	known := m.Steps[0].Model.SD
	assert.InEpsilon(t, plan.Reached.Value*math.Sqrt((30*known*known+float64(plan.total())*sd*sd)/float64(30+plan.total()))/known, sum, 0.02)
}

// total is how many readings a plan calls for.
func (p Plan) total() int {
	n := 0
	for _, r := range p.Readings {
		n += r.Readings
	}
	return n
}

func TestPlanNeedsOneOrTwoWays(t *testing.T) {
	st := oneStep(study.Step{})
	way := st.Workflows[0]
	for _, name := range []string{"b", "c"} {
		way.Name = name
		st.Workflows = append(st.Workflows, way)
	}
	m := Fit(st, nil, Options{})
	_, err := m.Plan([]string{"way", "b", "c"}, 5, 0)
	assert.ErrorIs(t, err, ErrTwoWorkflows)
	_, err = m.Plan([]string{"wey"}, 5, 0.1)
	assert.ErrorAs(t, err, new(study.UnknownName))
	plan, err := m.Plan([]string{"way", "b"}, 5, 0)
	require.NoError(t, err)
	assert.False(t, plan.Meets, "what is the same is never clearly different")
	assert.Empty(t, plan.Readings)
}

func TestAsTimed(t *testing.T) {
	for count, want := range map[float64]float64{52.7: 53, 1.5: 2, 1.44: 1.4, 0.0523: 0.052, 0: 0} {
		assert.InDelta(t, want, asTimed(count), 1e-12)
	}
}

// Nothing that is planned can be left out: the goal is missed without it.
func TestPlanCallsForNothingNeedless(t *testing.T) {
	checked := 0
	for seed := range uint64(40) {
		study, readings := invented(seed)
		m := Fit(study, readings, Options{})
		visits := m.visits(study.Workflows[0], float64(study.Heads))
		f := m.newForecast(visits, m.loads(visits), GoalWithin, 0.25)
		var plan Plan
		f.fill(&plan)
		if !plan.Meets {
			continue
		}
		for k := range f.planned {
			if f.planned[k].grow > 0 {
				continue // a grow is timed as a whole
			}
			less := m.newForecast(visits, m.loads(visits), GoalWithin, 0.25)
			less.answer, less.nowDF = f.answer, f.nowDF
			less.take(slices.Delete(slices.Clone(f.planned), k, k+1))
			assert.False(t, less.meetsGoal(less.outlook()), "seed %d without %v", seed, f.planned[k])
			checked++
		}
	}
	assert.Greater(t, checked, 30)
}

func TestMultisets(t *testing.T) {
	a, b := plannedReading{step: 1}, plannedReading{step: 2}
	assert.Equal(t, [][]plannedReading{{a}, {b}, {a, a}, {a, b}, {b, b}}, multisets([]plannedReading{a, b}, 2))
	assert.Len(t, multisets([]plannedReading{a, b, {step: 3}, {step: 4}}, 3), 4+10+20)
}

// What a plan that falls short is said to reach is what its goal was held to; and of a step
// that is always one a visit it is said what is needed where it is all setup.
func TestPlanThatFallsShort(t *testing.T) {
	step := study.Step{Name: "check"}
	st := oneStep(step)
	st.Steps = append(st.Steps, step)
	st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, study.Task{Step: "check", Days: []int{1}, Count: crop.Once, Each: 3, SharedBy: 1})
	readings := []study.Reading{}
	for i := range 6 {
		readings = append(readings, aReading("pack", 20+4*float64(i), 10*(20+4*float64(i))+float64(i%3)), aReading("check", 1, 300+float64(5*i)))
	}
	plan, err := Fit(st, readings, Options{}).Plan(nil, 20, 0.05)
	require.NoError(t, err)
	require.NotNil(t, plan.Simpler)
	assert.Equal(t, []string{"check"}, plan.Simpler.Steps)
	assert.True(t, plan.Simpler.Meets)
	assert.Zero(t, plan.Simpler.Readings)
	st.Steps[1].Form = "setup"
	simple, err := Fit(st, readings, Options{}).Plan(nil, 20, 0.05)
	require.NoError(t, err)
	assert.Nil(t, simple.Simpler)
	assert.Equal(t, plan.Simpler.Meets, simple.Meets)
	assert.Empty(t, simple.Readings)

	for _, within := range []float64{0.2, 0.05, 0.01, 0.0001} {
		st.Steps[1].Form = ""
		plan, err := Fit(st, readings, Options{}).Plan(nil, 20, within)
		require.NoError(t, err)
		assert.InDelta(t, within*plan.Hours, plan.Aim.Value, 1e-12)
		assert.Equal(t, plan.Meets, plan.Surely.Value <= plan.Aim.Value, within)
		assert.GreaterOrEqual(t, plan.Surely.Value, plan.Reached.Value)
	}
}
