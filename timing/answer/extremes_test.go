package answer

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// Nothing that leaves the package is a NaN or an infinity: it would not survive
// as JSON.
func TestNoNumberIsNaN(t *testing.T) {
	forInvented(t, func(t *testing.T, st study.Study, readings []study.Reading) { finite(t, st, readings) })
}

// Neither is it so with the largest and the smallest numbers that are read.
func TestNoNumberIsNaNAtTheBounds(t *testing.T) {
	for seed := range draws(100) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			study, readings := invented(seed)
			pushed(&study, readings, rand.New(rand.NewPCG(seed, 3)))
			finite(t, study, readings)
			if seed%20 == 0 { // takes a while
				plan, err := Fit(study, readings, Options{}).Plan(nil, study.Heads, 0)
				require.NoError(t, err)
				_, err = json.Marshal(plan)
				assert.NoError(t, err)
			}
		})
	}
}

// pushed moves numbers of a study and its readings to the bounds, or to elsewhere
// between them.
func pushed(st *study.Study, readings []study.Reading, r *rand.Rand) {
	push := func(numbers ...*float64) {
		for _, x := range numbers {
			switch r.IntN(3) {
			case 0:
				*x = []float64{study.MinDivisor, 1, study.MaxNumber}[r.IntN(3)]
			case 1:
				*x = math.Pow(10, 21*r.Float64()-9)
			}
		}
	}
	st.Heads = []int{1, 100, 1_000_000_000}[r.IntN(3)]
	st.SowEveryDays = []int{0, 1, 30, 1_000_000_000}[r.IntN(4)]
	st.Confidence = []float64{1e-15, 0.95, 1 - 1e-16}[r.IntN(3)]
	st.Germination.Share = []float64{1e-6, 1, st.Germination.Share}[r.IntN(3)]
	price, space := 1.0, 1.0
	push(&st.Labour.Wage, &st.Labour.OnCost, &price, &space)
	st.PricePerHead, st.SpacePrice = study.Known(price), study.Known(space)
	for i := range st.Steps {
		step := &st.Steps[i]
		if step.SetupCovers > 0 {
			push(&step.SetupCovers)
		}
		if e := step.Estimate; e != nil {
			push(&e.Low, &e.Likely, &e.High)
			three := []float64{e.Low, e.Likely, e.High}
			slices.Sort(three)
			e.Low, e.Likely, e.High = three[0], three[1], three[2]
		}
		change := study.Change{Name: step.Name, Step: step.Name, SetupFactor: 1, UnitFactor: 1, Outlay: study.Known(study.MaxNumber)}
		push(&change.SetupFactor, &change.UnitFactor)
		st.Changes = append(st.Changes, change)
		chore := study.Chore{Step: step.Name, EveryDays: []int{1, 7, 1_000_000_000}[r.IntN(3)], Count: 1}
		push(&chore.Count)
		st.Chores = append(st.Chores, chore)
	}
	for i := range st.Workflows {
		w := &st.Workflows[i]
		w.Losses[0].Share = []float64{0, 0.1, 1 - study.MinDivisor}[r.IntN(3)]
		for j := range w.Tasks {
			push(&w.Tasks[j].Each)
			w.Tasks[j].SharedBy = []int{1, 3, 1_000_000_000}[r.IntN(3)]
			supply := study.Supply{Name: fmt.Sprint(i, j), Count: w.Tasks[j].Count, Price: 1, Uses: 1, Each: 1}
			push(&supply.Price, &supply.Uses, &supply.Each)
			st.Supplies = append(st.Supplies, supply)
		}
		w.Space = []study.SpaceUse{{From: 0, To: 1_000_000_000, Count: "cells", M2: study.MaxNumber}}
		grow := study.Grow{Name: fmt.Sprintf("g%d", i), Workflow: w.Name}
		heads, weight := 1.0, 1.0
		push(&heads, &weight)
		grow.Heads, grow.Weight = study.Known(heads), study.Known(weight)
		st.Grows = append(st.Grows, grow)
	}
	for i := range readings {
		reading := &readings[i]
		push(&reading.Seconds, &reading.Count, &reading.People, &reading.Rating)
		if reading.Setups.Value > 0 || r.IntN(8) == 0 {
			setups := 1.0
			push(&setups)
			reading.Setups = study.Known(setups)
		}
	}
}

// finite asks for every answer and holds it against JSON.
func finite(t *testing.T, st study.Study, readings []study.Reading) {
	t.Helper()
	m := Fit(st, readings, Options{})
	hold := func(answer any, err error) {
		t.Helper()
		require.NoError(t, err)
		_, err = json.Marshal(answer)
		assert.NoError(t, err)
	}
	ask := func(m *Models, err error) *Models { require.NoError(t, err); return m }
	fits, err := m.FitsOverGrows(nil)
	hold(fits, err)
	apart, err := ask(m.Apart(apartByWorker)).Fits(nil)
	hold(apart, err)
	compared, err := m.Compare(nil, st.Heads)
	hold(compared, err)
	for _, h := range compared.Workflows {
		assert.Equal(t, len(h.Rests.NoScatter) == 0, h.Low.Known && h.High.Known, "limits are there where a spread is")
	}
	hold(m.Measure(compared), nil)
	hold(m.CheckGrows(), nil)
	scale, err := m.Scale(nil, nil)
	hold(scale, err)
	var changes []string
	for _, c := range st.Changes {
		changes = append(changes, c.Name)
	}
	costs, err := m.Cost(nil, st.Heads, WhatIf{Changes: changes, HeadsPerYear: 1})
	hold(costs, err)
	seeding, err := m.Seeding("", st.Heads, 0.95)
	hold(seeding, err)
	improvement, err := m.Improve("", st.Heads, changes)
	hold(improvement, err)
	calendar, err := m.Calendar(Schedule{Heads: st.Heads})
	hold(calendar, err)
	sensitivity, _, err := m.Sensitivity("", st.Heads)
	hold(sensitivity, err)
	curves, err := m.SeedingCurves("", st.Heads)
	hold(curves, err)
}
