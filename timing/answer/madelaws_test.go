package answer

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// answersOf are all answers of models for a way, as their JSON has them, without notes and
// without what is said of changes.
func answersOf(t *testing.T, m *Models, way string) map[string]any {
	t.Helper()
	all := map[string]any{}
	put := func(name string, answer any, err error) {
		require.NoError(t, err, name)
		data, err := json.Marshal(answer)
		require.NoError(t, err, name)
		var tree any
		require.NoError(t, json.Unmarshal(data, &tree))
		flatten(all, name, tree)
	}
	names, every := []string{way}, 7
	fits, err := m.Fits(names)
	put("fit", fits, err)
	compared, err := m.Compare(names, 48)
	put("compare", compared, err)
	scale, err := m.Scale(names, nil)
	put("scale", scale, err)
	cost, err := m.Cost(names, 48, WhatIf{})
	put("cost", cost, err)
	seeding, err := m.Seeding(way, 48, 0.95)
	put("seeding", seeding, err)
	calendar, err := m.Calendar(Schedule{Workflow: way, Heads: 48, Every: &every})
	put("calendar", calendar, err)
	season, err := PlanSeason(m, study.Known(20))
	put("season", season, err)
	plan, err := m.Plan(names, 48, 0)
	put("plan", plan, err)
	improved, err := m.Improve(way, 48, nil)
	improved.Made = nil
	put("improve", improved, err)
	return all
}

// flatten puts the leaves of a JSON tree under their paths, but for notes.
func flatten(to map[string]any, path string, tree any) {
	switch node := tree.(type) {
	case map[string]any:
		for key, value := range node {
			if key != "notes" {
				flatten(to, path+"."+key, value)
			}
		}
	case []any:
		to[path+".len"] = float64(len(node))
		for i, value := range node {
			flatten(to, fmt.Sprint(path, ".", i), value)
		}
	default:
		to[path] = node
	}
}

func assertAnswersAlike(t *testing.T, want, got map[string]any, what string) {
	t.Helper()
	require.Len(t, got, len(want), what)
	for path, w := range want {
		number, isNumber := w.(float64)
		if g, ok := got[path].(float64); isNumber && ok {
			require.InDelta(t, number, g, 1e-8*max(1, abs(number)), "%s %s", what, path)
			continue
		}
		require.Equal(t, w, got[path], "%s %s", what, path)
	}
}

// manyChanges is an invented study whose steps were changed up to three times, its readings,
// and the same with every stage named apart, the present by the step's own name.
func manyChanges(r *rand.Rand) (st, apart study.Study, readings, named []study.Reading, timed bool) {
	task := func(step string, day int, count string) study.Task {
		return study.Task{Step: step, Days: []int{day}, Count: crop.Word(count), Each: 1, SharedBy: 1 + r.IntN(2)}
	}
	steps := []study.Step{{Name: "sow"}, {Name: "carry", Form: "setup", Class: study.Transport}, {Name: "check", Form: "setup", Together: true}, {Name: "harvest"}}
	if r.IntN(2) == 0 {
		steps[3].SetupCovers = 24
	}
	st = study.Study{
		Confidence: 0.9, Allowance: 0.1, Germination: crop.Germination{Share: 0.9}, SowEveryDays: 7, Heads: 48,
		Labour: &study.Labour{Wage: 15}, Steps: steps, PricePerHead: study.Known(2),
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1 + r.IntN(2), CellsPerTray: 24, Tasks: []study.Task{
			task("sow", 0, "seeds"), task("carry", 3, "once"), task("check", 7, "once"), task("carry", 10, "once"), task("harvest", 30, "heads"),
		}}},
		Sowings: []study.Sowing{{Workflow: "tray", Heads: study.Known(40), EveryDays: 7}},
		Chores:  []study.Chore{{Step: "check", EveryDays: 3, Count: 1}},
	}
	for i := range 1 + r.IntN(3) {
		st.Made = append(st.Made, study.MadeChange{
			Change: study.Change{Name: fmt.Sprint("change ", i), Step: steps[r.IntN(2)*(1+r.IntN(3))].Name, SetupFactor: 1, UnitFactor: 1},
			Since:  changedOn.AddDate(0, 0, 14*i),
		})
	}
	apart = st
	apart.Made, apart.Steps = nil, append([]study.Step{}, steps...)
	stage := func(step string, reading study.Reading) (name string, stages int) {
		at := 0
		for _, c := range st.Made {
			if c.Step == step {
				stages++
				if !reading.Date.IsZero() && !reading.Date.Before(c.Since) {
					at++
				}
			}
		}
		if at == stages {
			return step, stages
		}
		return fmt.Sprint(step, " stage ", at), stages
	}
	count := map[string]int{}
	for grow := range 7 {
		for _, s := range steps {
			for range 1 + r.IntN(3) {
				n := float64(1 + r.IntN(40))
				if s.Form == "setup" {
					n = 1
				}
				reading := aReading(s.Name, n, (30+4*n)*(0.6+0.8*r.Float64()))
				reading.Date, reading.Grow, reading.Workflow = changedOn.AddDate(0, 0, 7*(grow-2)+r.IntN(3)), fmt.Sprint("g", grow), "tray"
				readings = append(readings, reading)
				reading.Step, _ = stage(s.Name, reading)
				count[reading.Step]++
				named = append(named, reading)
			}
		}
	}
	timed = true
	for _, s := range steps {
		_, stages := stage(s.Name, study.Reading{})
		for at := range stages {
			earlier := s
			earlier.Name = fmt.Sprint(s.Name, " stage ", at)
			apart.Steps = append(apart.Steps, earlier)
			timed = timed && count[earlier.Name] > 0
		}
		timed = timed && count[s.Name] > 0
	}
	return st, apart, readings, named, timed
}

// Every answer uses a step as it is now: as a study in which what was before it is a step of
// another name, that no way of working uses.
func TestAnswersUseStepsAsTheyAre(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	compared := 0
	for n := range 30 {
		study, apart, readings, named, timed := manyChanges(r)
		if !timed {
			continue
		}
		compared++
		assertAnswersAlike(t, answersOf(t, Fit(apart, named, Options{}), "tray"), answersOf(t, Fit(study, readings, Options{}), "tray"), fmt.Sprint("study ", n))
	}
	assert.Greater(t, compared, 15)
}

// A change that nothing was hoped of, and that was not timed since, leaves every answer as
// it was.
func TestChangeNotTimedLeavesAnswers(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for n := range 8 {
		study, _, readings, _, _ := manyChanges(r)
		for i := range study.Made {
			study.Made[i].Since = changedOn.AddDate(1, 0, i)
		}
		plain := study
		plain.Made = nil
		assertAnswersAlike(t, answersOf(t, Fit(plain, readings, Options{}), "tray"), answersOf(t, Fit(study, readings, Options{}), "tray"), fmt.Sprint("study ", n))
	}
}

// What was hoped for of a change that was not timed since is in every answer as if the
// earlier times had been so: with a step in units alone, those times a factor.
func TestHopedInEveryAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2))
	for range 6 {
		st, _, readings, _, _ := manyChanges(r)
		st.Made = []study.MadeChange{{Change: study.Change{Name: "x", Step: "harvest", SetupFactor: 0.5, UnitFactor: 0.5}, Since: changedOn.AddDate(1, 0, 0), HasHoped: true}}
		plain := st
		plain.Made = nil
		was, is := answersOf(t, Fit(plain, readings, Options{}), "tray"), answersOf(t, Fit(st, readings, Options{}), "tray")
		assert.InDelta(t, was["fit.steps.3.unit_s"].(float64)/2, is["fit.steps.3.unit_s"].(float64), 1e-9)
		saved := was["compare.workflows.0.steps.3.hours_h"].(float64) / 2
		assert.InDelta(t, saved, is["compare.workflows.0.steps.3.hours_h"].(float64), 1e-9)
		for _, path := range []string{"compare.workflows.0.hours_h", "improve.hours_h", "cost.workflows.0.hours_h", "plan.hours_h"} {
			assert.InDelta(t, was[path].(float64)-saved, is[path].(float64), 1e-9, path)
		}
	}
}
