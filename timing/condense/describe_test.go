package condense

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// day is a day of March 2027, and after it.
func day(n int) time.Time { return time.Date(2027, 3, n, 0, 0, 0, 0, time.UTC) }

// plainReading is one of sixty seconds for six counts.
func plainReading(step string) study.Reading {
	return study.Reading{Step: step, People: 1, Rating: 100, Count: 6, Seconds: 60, Source: study.Watch}
}

// ofAll are invented readings with some of everything a row can say: two files, laps,
// getting ready alone, pauses of judgement, voids, days noted and not, two hands.
func ofAll(n int, seed uint64) []study.Reading {
	r := rand.New(rand.NewPCG(seed, 7))
	readings := make([]study.Reading, n)
	for i := range readings {
		x := plainReading([]string{"sow", "thin", "pick", "unheard of"}[min(r.IntN(12), 3)])
		x.Place = study.Place{File: []string{"a.csv", "b.csv"}[2*i/n], Line: i + 2}
		x.Grow, x.Worker, x.Workflow = []string{"", "g1", "g2", "g3"}[r.IntN(4)], []string{"", "ab", "cd"}[r.IntN(3)], []string{"", "tray", "plug"}[r.IntN(3)]
		x.Count = float64(4 + r.IntN(60))
		x.Seconds = (30 + 4*x.Count) * math.Exp(0.2*r.NormFloat64())
		if r.IntN(6) > 0 {
			x.Date = day(1 + r.IntN(60))
		}
		switch r.IntN(14) {
		case 0:
			x.Void = fmt.Sprint("reason ", i)
		case 1:
			x.Setups = study.Known(0)
		case 2:
			x.Setups, x.Count = study.Known(2), 0
		case 3:
			x.Source, x.People, x.Rating = study.ByJudgement, 2, 80
		}
		readings[i] = x
	}
	return readings
}

// twoChanges is a study of three steps, one of them changed twice, with a grow.
func twoChanges() *study.Study {
	made := func(name string, on int, unit float64) study.MadeChange {
		return study.MadeChange{Change: study.Change{Name: name, Step: "thin", SetupFactor: 0.5, UnitFactor: unit}, Since: day(on), HasHoped: true}
	}
	return &study.Study{
		Steps: []study.Step{{Name: "sow", SetupCovers: 12}, {Name: "thin"}, {Name: "pick"}},
		Made:  []study.MadeChange{made("later", 40, 0.8), made("first", 20, 0.5)},
		Grows: []study.Grow{{Name: "g1", Workflow: "tray"}, {Name: "g9", Workflow: "tray"}},
	}
}

func gather(t *testing.T, st *study.Study, filter Filter, parts ...[]study.Reading) *Condensed {
	t.Helper()
	g := Gather(st, filter)
	for _, part := range parts {
		require.NoError(t, InMemory(part)(nil, g.Take))
	}
	return g.Condensed(InMemory(slices.Concat(parts...)))
}

// described is all that a Condensed says, in words that can be compared to the last digit.
func described(c *Condensed) (lines []string) {
	line := func(words ...any) { lines = append(lines, fmt.Sprintln(words...)) }
	line("workers", c.Workers, "grows", c.Grows, "index", c.Index)
	for _, s := range c.Steps {
		line(s.Step.Name, s.Readings, s.Voided, s.Guessed, s.Sums)
		for what, k := range s.Kinds.All() {
			line("  ", what, k.dateRange, k.all())
		}
		for q := range stepfit.Spreads {
			line("  far", q, inFull(s.Kept.Far(q)))
		}
		line("  ", inFull(s.Kept.First), s.Kept.Outline, s.Kept.Past)
	}
	for i, s := range c.Stages {
		if s != nil {
			line("stages of", i, *s)
		}
	}
	for _, g := range c.Study.Grows {
		line("grow", g.Name, c.Grow(g.Name))
	}
	return lines
}

// inFull is readings with where they stand.
func inFull(list []Timed) (all []any) {
	for _, t := range list {
		all = append(all, t.Place(), t.Reading)
	}
	return all
}

// alike holds a Condensed to another: whole numbers, names and ends of ranges as they are,
// sums by every fit that can be made of them, to 12 digits. Kinds may stand in any order.
func alike(t *testing.T, want, got *Condensed) {
	t.Helper()
	require.Equal(t, want.Index, got.Index)
	require.Len(t, got.Steps, len(want.Steps))
	for i := range want.Steps {
		w, g := &want.Steps[i], &got.Steps[i]
		require.Equal(t, []int{w.Readings, w.Voided, w.Guessed}, []int{g.Readings, g.Voided, g.Guessed}, w.Step.Name)
		require.Equal(t, w.Step, g.Step)
		sameSums(t, w.Sums, g.Sums)
		wk, gk := inOrder(w.Kinds), inOrder(g.Kinds)
		require.Len(t, gk, len(wk), w.Step.Name)
		for k := range wk {
			require.Equal(t, w.Kinds.kinds.at(wk[k].kind), g.Kinds.kinds.at(gk[k].kind))
			require.Equal(t, wk[k].dateRange, gk[k].dateRange)
			sameSums(t, wk[k].all(), gk[k].all())
		}
	}
	for _, grow := range want.Study.Grows {
		w, g := want.Grow(grow.Name), got.Grow(grow.Name)
		require.InDelta(t, w.Seconds, g.Seconds, 1e-12*w.Seconds)
		w.Seconds, g.Seconds = 0, 0
		require.Equal(t, w, g)
	}
}

func inOrder(k readingsByKind) []*kindReadings {
	return slices.SortedFunc(k.all(), func(one, other *kindReadings) int {
		a, b := k.kinds.at(one.kind), k.kinds.at(other.kind)
		return cmp.Or(cmp.Compare(a.Workflow, b.Workflow), cmp.Compare(a.Grow, b.Grow), cmp.Compare(a.Worker, b.Worker))
	})
}

func sameSums(t *testing.T, want, got stepfit.Sums) {
	t.Helper()
	require.Equal(t, want.Readings, got.Readings)
	require.Equal(t, [2]float64{want.CountMin, want.CountMax}, [2]float64{got.CountMin, got.CountMax})
	least, most, ok := want.CountPerSetup()
	gotLeast, gotMost, gotOK := got.CountPerSetup()
	require.Equal(t, []any{least, most, ok}, []any{gotLeast, gotMost, gotOK})
	near := func(want, got, scale float64) { t.Helper(); require.InDelta(t, want, got, 1e-11*math.Abs(scale)) }
	load, seconds := want.Totals()
	gotLoad, gotSeconds := got.Totals()
	near(load.Setups, gotLoad.Setups, load.Setups)
	near(load.Count, gotLoad.Count, load.Count)
	near(seconds, gotSeconds, seconds)
	for _, form := range []stepfit.Form{stepfit.Unit, stepfit.Setup, stepfit.SetupUnit} {
		for q := range stepfit.Spreads {
			f, g := want.Choose(stepfit.Options{Form: form, Spread: &q}).Fit, got.Choose(stepfit.Options{Form: form, Spread: &q}).Fit
			require.Equal(t, []any{f.Form, f.Spread}, []any{g.Form, g.Spread})
			near(f.SetupSec, g.SetupSec, math.Abs(f.SetupSec)+math.Abs(f.UnitSec)+1)
			near(f.UnitSec, g.UnitSec, math.Abs(f.SetupSec)+math.Abs(f.UnitSec)+1)
			near(f.RSS, g.RSS, f.TSS+seconds*seconds)
		}
	}
}
