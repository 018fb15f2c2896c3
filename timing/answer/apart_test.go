package answer

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// twoWays are readings of one step under two workflows, by two workers, in grows of
// one workflow each; aside is how much longer a plant takes in the second.
func twoWays(aside float64) []study.Reading {
	var readings []study.Reading
	for i, count := range []float64{20, 50, 35, 60, 25, 45, 30, 55} {
		for w, unit := range []float64{9, 9 + aside} {
			r := aReading("transplant", count, 60+unit*count+[]float64{8, -5, -9, 6}[(i+w)%4])
			r.Workflow, r.Worker = fmt.Sprint("way ", w), fmt.Sprint("w", i%2)
			r.Grow = fmt.Sprintf("g%d", 2*(i/4)+w)
			readings = append(readings, r)
		}
	}
	return readings
}

func TestOneModelForTwoWorkflows(t *testing.T) {
	st := study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "transplant", Per: "plant"}}}
	notes := func(readings []study.Reading) []string {
		return Fit(st, readings, Options{}).Steps[0].apartNotes()
	}
	assert.Empty(t, notes(twoWays(0)), "the same work")
	assert.Empty(t, notes(twoWays(0.5)), "not a tenth more")
	found := notes(twoWays(5))
	require.Len(t, found, 1)
	assert.Equal(t, `one model does not serve all its readings: it takes 10.5 s a plant in "way 0" and 15.5 s in "way 1" at a count of 40 (p below 0.001); `+
		"if it is not the same work, name them apart", found[0])
	// by worker
	readings := twoWays(5)
	for i := range readings {
		readings[i].Worker, readings[i].Workflow = readings[i].Workflow, ""
	}
	found = notes(readings)
	require.Len(t, found, 1)
	assert.Equal(t, "one model does not serve the readings of all workers (p below 0.001): see whether all do it in one way, with the same tools", found[0],
		"no worker's pace is told")
}

func TestApart(t *testing.T) {
	readings := twoWays(5)
	sow := aReading("sow", 10, 50)
	sow.Worker = "w0"
	spoilt := aReading("transplant", 10, 999)
	spoilt.Void, spoilt.Workflow, spoilt.Worker = "a visitor", "way 0", ""
	readings = append(readings, sow, spoilt)
	st := studyOf(readings)
	st.Workflows = []study.Workflow{{Name: "way 0", Tasks: []study.Task{{Step: "transplant"}}}, {Name: "way 1", Tasks: []study.Task{{Step: "sow"}}}}
	m := Fit(st, readings, Options{})

	rows := func(by Separation, workflows ...string) map[string]int {
		apart, err := m.Apart(by)
		require.NoError(t, err)
		fits, err := apart.Fits(workflows)
		require.NoError(t, err)
		found := map[string]int{}
		for _, s := range fits.Steps {
			found[s.Step] = s.Readings
		}
		return found
	}
	assert.Equal(t, map[string]int{"transplant (w0)": 8, "transplant (w1)": 8, "transplant (no worker)": 0, "sow": 1}, rows(apartByWorker))
	assert.Equal(t, map[string]int{"transplant (way 0)": 8, "transplant (way 1)": 8, "sow": 1}, rows(apartByWorkflow))
	assert.Equal(t, map[string]int{"transplant (way 0)": 8, "transplant (way 1)": 8}, rows(apartByWorkflow, "way 0"))
	assert.Equal(t, map[string]int{"sow": 1}, rows(apartByWorkflow, "way 1"))

	// each part is the fit of its own readings
	apart, err := m.Apart(apartByWorkflow)
	require.NoError(t, err)
	assert.InDelta(t, 9, apart.Steps[0].Model.UnitSec, 1.2)
	assert.InDelta(t, 14, apart.Steps[1].Model.UnitSec, 1.2)
	assert.Equal(t, "transplant", m.Study.Steps[0].Name, "the study is as it was")
	assert.Equal(t, "transplant", readings[0].Step)
}

// A part is never named as a step that there is.
func TestPartName(t *testing.T) {
	m := Fit(study.Study{Steps: []study.Step{{Name: "sow"}, {Name: "sow (w1)"}}}, nil, Options{})
	assert.Equal(t, "sow (w1)*", m.partName("sow", apartByWorker, "w1"))
	assert.Equal(t, "sow (no workflow)", m.partName("sow", apartByWorkflow, ""))
}

func TestTimesOverGrows(t *testing.T) {
	var readings []study.Reading
	for i, day := range []int{40, 1, 20, 60} { // g0 is the third
		for _, count := range []float64{10, 30} {
			r := aReading("sow", count, 0)
			r.Grow, r.Workflow = fmt.Sprint("g", i), "way"
			r.Date = time.Date(2026, 1, day, 0, 0, 0, 0, time.UTC)
			place := []float64{0.64 + 0.062103702, 1, 0.8, 0.64}[i] // 0.8 for twice as many grows
			r.Seconds = (50 + 5*count) * place
			readings = append(readings, r)
		}
	}
	st := studyOf(readings)
	st.Steps[0].Form = "setup+unit"
	fits, err := Fit(st, readings, Options{}).FitsOverGrows(nil)
	require.NoError(t, err)
	over := fits.OverGrows[0]
	assert.Equal(t, 20.0, over.Count)
	var order []string
	for _, g := range over.Grows {
		order = append(order, g.Grow)
		assert.Equal(t, 2, g.Readings)
	}
	assert.Equal(t, []string{"g1", "g2", "g0", "g3"}, order)
	assert.InEpsilon(t, 0.8, over.Grows[1].Seconds.Value/over.Grows[0].Seconds.Value, 1e-9)
	assert.InEpsilon(t, 0.8, over.Rate.Value, 1e-6)
	assert.Equal(t, falling, over.Trend)
	assert.Less(t, over.RateHigh.Value, 1.0)
	assert.Less(t, over.P.Value, 0.001)

	// without dates there is no order, without names no grow
	readings[0].Date, readings[1].Date, readings[2].Grow = time.Time{}, time.Time{}, ""
	fits, err = Fit(st, readings, Options{}).FitsOverGrows(nil)
	require.NoError(t, err)
	over = fits.OverGrows[0]
	assert.Equal(t, "g0", over.Grows[3].Grow, "the one without a date comes last")
	assert.Equal(t, []string{"1 of 8 readings name no grow and are left out", "1 of 4 grows have no date, so they have no place in the order"}, over.Notes)
	fits, err = Fit(st, readings[2:6], Options{}).FitsOverGrows(nil)
	require.NoError(t, err)
	assert.Equal(t, NoTrend, fits.OverGrows[0].Trend)
	assert.False(t, fits.OverGrows[0].Rate.Known)
}

// A way that was timed only after another, while times were falling, may owe its
// saving to practice.
func TestPracticeIsWarnedOf(t *testing.T) {
	log := func(places []float64, ways string, from int) []study.Reading {
		var readings []study.Reading
		for i, place := range places {
			for _, count := range []float64{10, 30, 20} {
				r := aReading("sow", count, (50+5*count)*place)
				r.Grow, r.Workflow = fmt.Sprint("g", i), map[byte]string{'A': "old way", 'B': "new way"}[ways[i]]
				r.Date = time.Date(2026, 1, from+10*i, 0, 0, 0, 0, time.UTC)
				readings = append(readings, r)
			}
		}
		return readings
	}
	notes := func(readings []study.Reading) []string {
		st := studyOf(readings)
		task := []study.Task{{Step: "sow", Days: []int{0}, Count: "cells", Each: 1, SharedBy: 1}}
		st.Germination.Share = 1
		st.Workflows = []study.Workflow{{Name: "new way", SeedsPerCell: 1, Tasks: task}, {Name: "old way", SeedsPerCell: 1, Tasks: task}}
		m := Fit(st, readings, Options{})
		c, err := m.Compare(nil, 24)
		require.NoError(t, err)
		return c.Notes
	}
	falling := []float64{1, 0.8, 0.702, 0.64, 0.596}
	warning := `"new way" was timed only after "old way", from 2026-02-01 on, and times were falling over the grows (sow): part of what it saves may be practice`
	assert.Contains(t, notes(log(falling, "AAABB", 2)), warning)
	assert.NotContains(t, fmt.Sprint(notes(log(falling, "ABABB", 2))), "practice", "timed in turn")
	assert.NotContains(t, fmt.Sprint(notes(log([]float64{1, 0.9, 1.02, 0.88, 0.97}, "AAABB", 2))), "practice", "not clear of chance")
	undated := log(falling, "AAABB", 2)
	undated[0].Date = time.Time{}
	assert.NotContains(t, fmt.Sprint(notes(undated)), "practice", "one without a date")
}

// Batches of one table may name the parts in another order each.
func TestApartOfSeveralBatches(t *testing.T) {
	readings := []study.Reading{
		aReading("sow", 4, 20), aReading("sow", 4, 40), aReading("thin", 4, 100),
		aReading("thin", 4, 100), aReading("thin", 4, 300), aReading("sow", 4, 40),
	}
	for i := range readings {
		readings[i].Worker = []string{"w1", "w2", "w1", "w1", "w2", "w2"}[i]
	}
	var whole *condense.Batch
	require.NoError(t, condense.InMemory(readings)(nil, func(b *condense.Batch) error { whole = b; return nil }))
	whole.Table = new(condense.NameTable)
	again := func(look func(*condense.Batch), take func(*condense.Batch) error) error {
		for i := 0; i < len(readings); i += 3 {
			b := *whole
			b.Rows = condense.Rows{}
			for j := range 3 {
				b.Rows.Add(whole.Rows.At(i + j))
			}
			if i > 0 {
				b.What = slices.Clone(whole.What)
				slices.Reverse(b.What)
				for j, what := range b.Rows.What {
					b.Rows.What[j] = uint32(len(b.What)-1) - what
				}
			}
			if err := take(&b); err != nil {
				return err
			}
		}
		return nil
	}
	st := studyOf(readings)
	g := condense.Gather(&st, condense.Filter{})
	require.NoError(t, again(nil, g.Take))
	m, err := NewModels(g.Condensed(again), Options{}).Apart(apartByWorker)
	require.NoError(t, err)
	got := map[string][]float64{}
	for _, s := range m.Steps {
		_, seconds := s.Sums.Totals()
		got[s.Step.Name] = []float64{float64(s.Readings), seconds}
	}
	assert.Equal(t, map[string][]float64{"sow (w1)": {1, 20}, "sow (w2)": {2, 80}, "thin (w1)": {2, 200}, "thin (w2)": {1, 300}}, got)
}
