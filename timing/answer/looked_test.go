package answer_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

// reads is one reading of a step, a minute for ten counts.
func reads(step string, change func(r *study.Reading)) study.Reading {
	r := study.Reading{Step: step, Count: 10, Seconds: 60, People: 1, Rating: 100, Source: study.Watch, Place: study.Place{File: "a.csv", Line: 7}}
	if change != nil {
		change(&r)
	}
	return r
}

// twoTasks is a study of a way that sows once and looks twice, of ninety cells in a hundred.
func twoTasks() study.Study {
	return study.Study{Confidence: 0.95, Heads: 40, Germination: crop.Germination{Share: 0.9},
		Steps: []study.Step{{Name: "sow"}, {Name: "look"}, {Name: "weed"}, {Name: "round", Together: true}},
		Workflows: []study.Workflow{{Name: "tray", SeedsPerCell: 1, HeadWeight: study.Known(0.2), Losses: []crop.Loss{{Day: 9, Share: 0.1}}, Tasks: []study.Task{
			{Step: "sow", Days: []int{0}, Count: crop.Cells, Each: 1, SharedBy: 1}, {Step: "look", Days: []int{3, 9}, Count: crop.Once, Each: 1, SharedBy: 1},
			{Step: "round", Days: []int{1, 2, 3}, Count: crop.Once, Each: 1, SharedBy: 1}}}},
	}
}

// What a grow's figures and readings say beside its way is remarked on, at both sides of
// what is worth a word.
func TestCheckGrows(t *testing.T) {
	some := func(cells, up, heads, kg float64) study.Grow {
		g := study.Grow{Name: "g1", Workflow: "tray"}
		for x, to := range map[*study.Maybe]float64{&g.Cells: cells, &g.CameUp: up, &g.Heads: heads, &g.Weight: kg} {
			if to > 0 {
				*x = study.Known(to)
			}
		}
		return g
	}
	in := func(steps ...string) (readings []study.Reading) {
		for _, s := range steps {
			readings = append(readings, reads(s, func(r *study.Reading) { r.Grow = "g1" }))
		}
		return readings
	}
	lap := reads("look", func(r *study.Reading) { r.Grow, r.Setups = "g1", study.Known(0) })
	other := reads("sow", func(r *study.Reading) { r.Grow, r.Workflow = "g1", "plug" })
	for name, c := range map[string]struct {
		grow     study.Grow
		readings []study.Reading
		remarks  []string
	}{
		"as it should be":          {some(100, 90, 81, 16.2), in("sow", "look", "look", "round", "round", "round"), nil},
		"nothing is known":         {some(0, 0, 0, 0), nil, []string{"no reading is of it"}},
		"a joint round once":       {some(0, 0, 0, 0), in("sow", "look", "look", "round"), []string{"round timed once, the workflow says 3; a joint round may stand under another grow"}},
		"laps are no visits":       {some(0, 0, 0, 0), append(in("sow", "look", "look", "round"), lap, lap), []string{"round timed once, the workflow says 3; a joint round may stand under another grow"}},
		"once too seldom":          {some(0, 0, 0, 0), in("sow", "look", "round"), []string{"look timed once, the workflow says 2", "round timed once, the workflow says 3; a joint round may stand under another grow"}},
		"once too often":           {some(0, 0, 0, 0), in("sow", "sow", "look", "look", "round"), []string{"sow timed twice, the workflow says 1", "round timed once, the workflow says 3; a joint round may stand under another grow"}},
		"never, and elsewhere":     {some(0, 0, 0, 0), append(in("look", "look", "weed", "round"), other), []string{"weed was timed but is in no task", "round timed once, the workflow says 3; a joint round may stand under another grow", "1 of its readings were logged under another way"}},
		"never at all":             {some(0, 0, 0, 0), in("look", "look", "round"), []string{"sow was not timed", "round timed once, the workflow says 3; a joint round may stand under another grow"}},
		"two sd of coming up":      {some(100, 85, 0, 0), nil, []string{"no reading is of it"}}, // 2·√(0.9·0.1/100) is 6 in 100
		"more than two":            {some(100, 83, 0, 0), nil, []string{"no reading is of it", "83 % of the cells came up, the study says 90 %"}},
		"two in a hundred of it":   {some(10_000, 8_801, 0, 0), nil, []string{"no reading is of it"}},
		"more than those":          {some(10_000, 8_799, 0, 0), nil, []string{"no reading is of it", "88 % of the cells came up, the study says 90 %"}},
		"more were lost":           {some(0, 100, 70, 0), nil, []string{"no reading is of it", "30 % lost, the study says 10 %"}},
		"a tenth of the weight":    {some(0, 0, 100, 22), nil, []string{"no reading is of it"}},
		"more of the weight":       {some(0, 0, 100, 22.1), nil, []string{"no reading is of it", "it gave 22.1 kg, the study says 20 for as many heads"}},
		"fewer heads of its cells": {some(100, 0, 60, 0), nil, []string{"no reading is of it", "60 % of the cells gave a head, the study says 81 %"}},
		"about as many":            {some(100, 0, 76, 0), nil, []string{"no reading is of it"}},
	} {
		st := twoTasks()
		st.Grows = []study.Grow{c.grow}
		got := answer.Fit(st, c.readings, answer.Options{}).CheckGrows()
		require.Len(t, got, 1, name)
		require.Equal(t, append([]string{}, c.remarks...), got[0].Remarks, name)
		require.Equal(t, len(c.readings), got[0].Readings, name)
	}
}

// Of a task that has nothing to do, such as thinning one seed a cell, it is not said that it
// is none.
func TestCheckOfATaskWithNothingToDo(t *testing.T) {
	st := twoTasks()
	st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, study.Task{Step: "weed", Days: []int{5}, Count: crop.Surplus, Each: 1, SharedBy: 1})
	st.Grows = []study.Grow{{Name: "g1", Workflow: "tray"}}
	weed := reads("weed", func(r *study.Reading) { r.Grow = "g1" })
	got := answer.Fit(st, []study.Reading{weed}, answer.Options{}).CheckGrows()
	require.Contains(t, got[0].Remarks, "weed was timed, but this way has nothing to do of it")
}

// Readings that look mistyped are named at both sides of each bound, and the voided are not.
func TestDoubtfulAtItsBounds(t *testing.T) {
	usual := []study.Reading{reads("sow", nil), reads("sow", nil), reads("sow", nil)}
	of := func(seconds, rating, count float64) study.Reading {
		return reads("sow", func(r *study.Reading) { r.Seconds, r.Rating, r.Count, r.Place.Line = seconds, rating, count, 9 })
	}
	for name, c := range map[string]struct {
		reading study.Reading
		doubt   string
	}{
		"eight times as long":         {of(480, 100, 10), ""},
		"a little longer":             {of(481, 100, 10), "sow took 8 times as long as its other readings do"},
		"as long for as many more":    {of(4800, 100, 100), ""}, // all unit: 600 s
		"an eighth":                   {of(7.5, 100, 10), ""},
		"a little less":               {of(7.4, 100, 10), "sow was 8.1 times as quick as its other readings are"},
		"an eighth for fewer":         {of(0.8, 100, 1), ""}, // all unit: 6 s
		"four hours":                  {of(14400, 100, 3000), ""},
		"more than four hours":        {of(14401, 100, 3000), "sow took 4 hours: were minutes meant?"},
		"at forty":                    {of(60, 40, 10), ""},
		"below forty":                 {of(60, 39, 10), "sow at 39 % of normal pace"},
		"at two hundred":              {of(60, 200, 10), ""},
		"above two hundred":           {of(60, 201, 10), "sow at 201 % of normal pace"},
		"basic time is what is meant": {of(400, 150, 10), "sow took 10 times as long"},
	} {
		doubts, err := answer.Fit(twoTasks(), append(slices.Clone(usual), c.reading), answer.Options{}).Doubtful()
		require.NoError(t, err)
		if c.doubt == "" {
			require.Empty(t, doubts, name)
			continue
		}
		require.Len(t, doubts, 1, name)
		require.Equal(t, 9, doubts[0].Place.Line, name)
		require.True(t, strings.HasPrefix(doubts[0].Text, c.doubt), "%s: %s", name, doubts[0].Text)
	}
	voided := of(9000, 100, 10)
	voided.Void = "a visitor"
	doubts, err := answer.Fit(twoTasks(), append(usual, voided), answer.Options{}).Doubtful()
	require.NoError(t, err)
	require.Empty(t, doubts)
}

// An estimate in another unit than the readings shows from twenty times on, either way.
func TestFarFromEstimatesAtItsBounds(t *testing.T) {
	for _, c := range []struct {
		seconds float64
		says    string
	}{{119.9, ""}, {2.01, "20 times as quick"}, {2.2, ""}, {800.1, "takes 20 times as long"}, {799, ""}} {
		st := twoTasks()
		judged := 40.0
		if c.seconds > 100 && c.seconds < 200 {
			judged = 60
		}
		if c.seconds < 100 {
			judged = 40.2 // of one unit of ten: 4.02 s
		}
		st.Steps[0].Estimate = &study.Estimate{Low: judged, Likely: judged, High: judged, OfVisit: true}
		got := answer.Fit(st, []study.Reading{reads("sow", func(r *study.Reading) { r.Seconds = c.seconds })}, answer.Options{}).FarFromEstimates()
		if c.says == "" {
			require.Empty(t, got, "%v", c.seconds)
			continue
		}
		require.Len(t, got, 1, "%v", c.seconds)
		require.Contains(t, got[0], c.says)
		require.Contains(t, got[0], "a.csv:7")
	}
}

// Stretches of whole minutes beside the clock, minute by minute: what has a name, what has
// not, where spells end, and which lie over each other.
func TestReconcileMinuteByMinute(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for round := range 300 {
		session := []string{"", "s1"}[round%2]
		var stretches []study.Stretch
		for i := range 1 + r.IntN(6) {
			start := float64(r.IntN(400))
			stretches = append(stretches, study.Stretch{What: fmt.Sprint("step ", i), Worker: "ab", Session: session, Date: firstDay, Start: 60 * start, End: 60 * (start + float64(r.IntN(60)))})
		}
		inOrder := slices.Clone(stretches)
		slices.SortStableFunc(inOrder, func(a, b study.Stretch) int { return int(a.Start - b.Start) })
		var want []answer.Reconciliation
		from, end, over := inOrder[0].Start, inOrder[0].Start, 0
		var named map[int]bool
		close := func() {
			if named == nil {
				return
			}
			wall := (end - from) / 60
			w := answer.Reconciliation{Worker: "ab", Session: session, Date: "2027-03-01", Minutes: wall, Named: 1, Nameless: wall - float64(len(named)), Overlaps: make([]string, over)}
			if wall > 0 {
				w.Named = float64(len(named)) / wall
			}
			want = append(want, w)
		}
		for _, s := range inOrder {
			if named == nil || session == "" && s.Start-end > 3600 {
				close()
				from, end, over, named = s.Start, s.Start, 0, map[int]bool{}
			}
			if end-s.Start > 60 {
				over++
			}
			for minute := s.Start; minute < s.End; minute += 60 {
				named[int(minute)] = true
			}
			end = max(end, s.End)
		}
		close()
		got := answer.Reconcile(stretches)
		require.Len(t, got, len(want), round)
		for i := range want {
			require.Len(t, got[i].Overlaps, len(want[i].Overlaps), "%d %+v", round, inOrder)
			got[i].Overlaps = want[i].Overlaps
			require.InDelta(t, want[i].Nameless, got[i].Nameless, 1e-9)
			got[i].Nameless = want[i].Nameless
			require.Equal(t, want[i], got[i], round)
			require.Equal(t, want[i].Named < 0.98, got[i].Unnamed())
		}
	}
}
