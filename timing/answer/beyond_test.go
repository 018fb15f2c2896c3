package answer_test

import (
	"testing"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

// pickOnce is a study of one step that is done once a grow, of so many counts a head.
func pickOnce(step study.Step, each float64) study.Study {
	step.Name = "pick"
	return study.Study{Confidence: 0.95, Germination: crop.Germination{Share: 1}, Steps: []study.Step{step},
		Workflows: []study.Workflow{{Name: "way", SeedsPerCell: 1, Tasks: []study.Task{{Step: "pick", Days: []int{5}, Count: crop.Heads, Each: each, SharedBy: 1}}}}}
}

func picked(count, seconds float64) study.Reading {
	return reads("pick", func(r *study.Reading) { r.Count, r.Seconds = count, seconds })
}

// A quarter beyond what was timed is not extrapolated, on either side, and a little more is;
// by the count per setup, and without laps.
func TestExtrapolatedAtItsBounds(t *testing.T) {
	lap := picked(5000, 60)
	lap.Setups = study.Known(0)
	twice := picked(80, 300)
	twice.Setups = study.Known(2)
	for name, c := range map[string]struct {
		step     study.Step
		readings []study.Reading
		heads    int
		want     bool
	}{
		"a quarter more":             {study.Step{}, []study.Reading{picked(80, 90)}, 100, false},
		"more than that":             {study.Step{}, []study.Reading{picked(80, 90)}, 101, true},
		"a quarter less":             {study.Step{}, []study.Reading{picked(100, 90)}, 80, false},
		"less than that":             {study.Step{}, []study.Reading{picked(100, 90)}, 79, true},
		"between two":                {study.Step{}, []study.Reading{picked(10, 20), picked(1000, 900)}, 100, false},
		"laps tell nothing":          {study.Step{}, []study.Reading{picked(80, 90), lap}, 500, true},
		"laps alone tell nothing":    {study.Step{}, []study.Reading{lap}, 9, false},
		"by the setup":               {study.Step{}, []study.Reading{twice}, 50, false},
		"more by the setup":          {study.Step{}, []study.Reading{twice}, 51, true},
		"setups that cover a few":    {study.Step{SetupCovers: 40}, []study.Reading{picked(40, 90)}, 4000, false},
		"a few left over":            {study.Step{SetupCovers: 40}, []study.Reading{picked(40, 90)}, 41, true}, // 20½ a setup
		"judged, never":              {study.Step{Estimate: &study.Estimate{Low: 1, Likely: 2, High: 3}}, nil, 9999, false},
		"a gap, never":               {study.Step{}, nil, 9999, false},
		"of what was taken together": {study.Step{Together: true}, []study.Reading{picked(80, 90)}, 101, true},
	} {
		got, err := answer.Fit(pickOnce(c.step, 1), c.readings, answer.Options{}).Compare(nil, c.heads)
		require.NoError(t, err)
		require.Equal(t, c.want, got.Workflows[0].Extrapolated, name)
	}
}

// A way that takes as long by one count as by another crosses nothing; a lead that grows
// from nothing crosses at none.
func TestPairsOfOneStep(t *testing.T) {
	st := pickOnce(study.Step{Form: "unit"}, 1)
	other := st.Workflows[0]
	other.Name, other.Tasks = "other", []study.Task{{Step: "pick", Days: []int{5}, Count: crop.Heads, Each: 1.5, SharedBy: 1}}
	same := st.Workflows[0]
	same.Name = "same"
	st.Workflows = append(st.Workflows, other, same)
	readings := []study.Reading{picked(10, 20), picked(30, 66), picked(50, 95), picked(80, 170)}
	got, err := answer.Fit(st, readings, answer.Options{}).Compare(nil, 40)
	require.NoError(t, err)
	apart, alike := got.Pairs[0], got.Pairs[1]
	require.True(t, apart.Clear())
	require.InDelta(t, got.Workflows[0].Hours/2, apart.Difference, 1e-12)
	require.Equal(t, answer.Never, apart.BreakEven.Kind)
	require.False(t, apart.BreakEven.Heads.Known)
	require.Zero(t, alike.Difference)
	require.Equal(t, []study.Maybe{study.Known(0), study.Known(0)}, []study.Maybe{alike.Low, alike.High})
	require.False(t, alike.P.Known)
	require.Equal(t, answer.Everywhere, alike.BreakEven.Kind)
}

// Nothing saved pays nothing back, and an outlay of nothing is back at once.
func TestPaybackAtItsBounds(t *testing.T) {
	for _, c := range []struct {
		unit    float64
		outlay  study.Maybe
		payback study.Maybe
	}{
		{0.5, study.Known(10), study.Known(10 / (0.5 * 100 * 2.0 / 3600 * 18 / 100))}, // a second a head of two
		{0.5, study.Known(0), study.Known(0)},
		{0.5, study.Maybe{}, study.Maybe{}},
		{1, study.Known(10), study.Maybe{}},
		{1.2, study.Known(10), study.Maybe{}},
	} {
		st := pickOnce(study.Step{Form: "unit"}, 1)
		st.Labour = &study.Labour{Wage: 15, OnCost: 0.2}
		st.Changes = []study.Change{{Name: "knife", Step: "pick", SetupFactor: 1, UnitFactor: c.unit, Outlay: c.outlay}}
		got, err := answer.Fit(st, []study.Reading{picked(10, 20), picked(30, 60)}, answer.Options{}).Improve("", 100, nil)
		require.NoError(t, err)
		saved := got.Changes[0]
		require.InDelta(t, (1-c.unit)*200/3600, saved.Saved.Value, 1e-12)
		require.Equal(t, c.payback.Known, saved.Payback.Known, "%v", c)
		require.InDelta(t, c.payback.Value, saved.Payback.Value, 1e-9)
	}
}
