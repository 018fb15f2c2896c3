package main

import (
	"bytes"
	"flag"
	"math"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/study"
)

var update = flag.Bool("update", false, "rewrite the golden file")

// output is what a command line that must succeed prints.
func output(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	require.Equal(t, done, run(args, &out, &errs), errs.String())
	assert.Empty(t, errs.String())
	return out.String()
}

// A tiny run prints what it printed before, on one core or on many.
func TestTableDependsOnTheSeedAlone(t *testing.T) {
	const golden = "testdata/tiny.md"
	tiny := []string{"--replicates", "25", "--seed", "7", "--scenario", "8 readings", "--scenario", "2 or 3", "--scenario", "once or twice"}
	got := output(t, tiny...)
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "run go test ./cmd/coverage -update, and read what changed")

	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	assert.Equal(t, got, output(t, tiny...), "on one core")
	assert.NotEqual(t, got, output(t, append(tiny, "--seed", "8")...))
}

// Where the textbook says exactly what an interval covers the simulation finds it,
// within four of its own standard errors: t intervals of a setup and a unit time with
// normal errors. The unit time of the job that is known to have none is never missed.
func TestTextbookIntervalsKeepTheirPromise(t *testing.T) {
	scenarios := choose(textbook(), []string{"8 readings", "8, with its square", "8, scatters drawn"})
	require.Len(t, scenarios, 3)
	for _, r := range simulate(scenarios, 600, 3, func() {}) {
		steps := float64(len(jobs))
		for a, want := range map[target]float64{setupTime: 0.95, unitTime: (0.95*(steps-1) + 1) / steps} {
			c := r.answers[a]
			assert.Less(t, c.err, 0.006)
			assert.InDelta(t, want, c.share, 4*c.err, "%s, %s", r.scenario, a)
			assert.InDelta(t, 1, c.withRange, 0)
		}
	}
}

// The truth that answers are held against is the jobs' own times, summed by hand.
func TestTruth(t *testing.T) {
	for _, slow := range []float64{0, 0.5} {
		s := scenario{slowShare: slow}
		truth := s.truth()
		fixed, perHead := [2]float64{}, [2]float64{}
		for _, j := range jobs {
			for w, days := range [][]int{j.inTray, j.inRaft} {
				fixed[w] += float64(len(days)) * j.setup
				perHead[w] += float64(len(days)) * j.unit * j.perHead
			}
		}
		for w, h := range truth.Workflows {
			want := (1 + 0.3*slow) * (fixed[w] + heads*perHead[w]) / 3600
			assert.InEpsilon(t, want, h.Hours, 1e-9)
		}
		even := (fixed[0] - fixed[1]) / (perHead[1] - perHead[0])
		assert.InEpsilon(t, even, truth.Pairs[0].BreakEven.Heads.Value, 1e-9)
		assert.Greater(t, even, 20.0, "near the planned heads, or the answer is of no interest")
		assert.Less(t, even, 200.0)
	}
}

func TestScores(t *testing.T) {
	known, unknown := study.Known, study.Maybe{}
	var s score
	s.add(known(1), known(3), 2, 4)
	s.add(known(1), known(3), 4, 4)
	s.add(unknown, unknown, 4, 4)
	assert.Equal(t, score{intervals: 3, bounded: 2, hits: 1, widths: []float64{0.5, 0.5}}, s)

	s = score{}
	s.addTime(unknown, unknown, unknown, 0)
	s.addTime(unknown, unknown, unknown, 5)
	s.addTime(known(5), unknown, unknown, 5)
	s.addTime(known(5), known(4), known(6), 5)
	assert.Equal(t, score{intervals: 4, bounded: 3, hits: 2, widths: []float64{0.4}}, s)

	for kind, c := range map[answer.BreakEvenKind]struct{ in, out float64 }{
		answer.Interval: {15, 30}, answer.Outside: {30, 15}, answer.Everywhere: {in: 15}, answer.Never: {out: 15},
	} {
		set := answer.BreakEven{Kind: kind, Low: known(10), High: known(20)}
		for truth, hits := range map[float64]float64{c.in: 1, c.out: 0} {
			if truth > 0 {
				var s score
				s.addBreakEven(set, truth)
				assert.Equal(t, hits, s.hits, "%s %v", kind, truth)
				assert.InDelta(t, 1, s.bounded, 0)
			}
		}
	}
	s = score{}
	s.addBreakEven(answer.BreakEven{Kind: answer.Outside, High: known(20)}, 15)
	s.addBreakEven(answer.BreakEven{}, 15)
	assert.Equal(t, score{intervals: 2, bounded: 1}, s)
}

// The standard error is the ordinary one of a share where replicates have one answer
// each, and larger where the answers of one hang together.
func TestCovered(t *testing.T) {
	var single, together []score
	for k := range 400 {
		hit := math.Min(1, float64(k%20))
		single = append(single, score{intervals: 1, bounded: 1, hits: hit})
		together = append(together, score{intervals: 4, bounded: 4, hits: 4 * hit})
	}
	for _, scores := range [][]score{single, together} {
		c := covered(scores, false)
		assert.InDelta(t, 0.95, c.share, 1e-12)
		assert.InEpsilon(t, math.Sqrt(0.95*0.05/400), c.err, 1e-9)
		assert.False(t, c.bounded)
	}
	assert.Equal(t, "-", covered([]score{{intervals: 1}}, false).String())
	half := covered([]score{{intervals: 2, bounded: 1, hits: 1, widths: []float64{0.5, 0.1, 9}}}, true)
	assert.Equal(t, "100.0±0.0 w50 [50]", half.String())
}

func TestUsage(t *testing.T) {
	for text, args := range map[string][]string{
		"above 0":      {"--replicates", "0"},
		"in its name":  {"--scenario", "nothing like it"},
		"0 or more":    {"--plans", "-1"},
		"no arguments": {"now"},
		"unknown flag": {"--reps", "3"},
		"invalid arg":  {"--seed", "x"},
	} {
		var out, errs bytes.Buffer
		assert.Equal(t, badUsage, run(args, &out, &errs))
		assert.Contains(t, errs.String(), text)
		assert.Empty(t, out.String())
	}
}

func TestProgress(t *testing.T) {
	var out strings.Builder
	p := progress{to: &out, total: 4}
	for range 4 {
		p.step()
	}
	p.end()
	assert.Contains(t, out.String(), "[##########                              ]  25 %")
	assert.Contains(t, out.String(), strings.Repeat("#", barWidth)+"] 100 %")
	(&progress{}).step()
}

// Readings and the grow to come have the mean and the scatter that the scenario says.
func TestReadingsAreDrawnAsSaid(t *testing.T) {
	once := func(s scenario) scenario { s.times, s.counts = always(1), unlike; return s }
	for name, c := range map[string]struct {
		scenario
		mean, cv float64 // of a reading at the planned count, beside the true mean
	}{
		"normal":      {once(scenario{cv: same(0.2)}), 1, 0.2},
		"growing":     {once(scenario{cv: same(0.2), growing: 2}), 1, 0.2},
		"lognormal":   {once(scenario{cv: same(0.3), skewed: true}), 1, 0.3},
		"slow worker": {once(scenario{cv: same(0), slowShare: 0.5}), 1.15, 0.15 / 1.15},
		"grows":       {once(scenario{cv: same(0), growCV: 0.1}), 1, 0.1},
		"both":        {once(scenario{cv: same(0.1), growCV: 0.1}), 1, math.Sqrt(0.01 + 0.01 + 0.0001)},
	} {
		const draws = 4000
		var ratio, squares, next float64
		truth := c.truth()
		for k := range draws {
			g := c.grower(stream(11, name, k))
			last := g.readings()[len(jobs)-1]
			require.Equal(t, "harvest", last.Step)
			x := last.Seconds / jobs[len(jobs)-1].mean(last.Count)
			ratio, squares = ratio+x/draws, squares+x*x/draws
			next += g.nextGrow()[1] / truth.Workflows[1].Hours / draws
		}
		sd := math.Sqrt(squares - ratio*ratio)
		assert.InDelta(t, c.mean, ratio, 4*sd/math.Sqrt(draws), name)
		assert.InEpsilon(t, c.cv, sd/ratio, 0.06, name)
		assert.InDelta(t, 1, next, 0.01, name)
	}
	// with the count, and not beyond it: half the count has half the deviation, or all of it
	for growing, want := range map[int]float64{0: 1, 1: math.Sqrt(0.5), 2: 0.5} {
		s := scenario{cv: same(0.1), growing: growing}
		var squares float64
		g := s.grower(stream(12, "", growing))
		j := jobs[len(jobs)-1]
		for range 4000 {
			d := g.time(len(jobs)-1, j.planned()/2, 1) - j.mean(j.planned()/2)
			squares += d * d / 4000
		}
		assert.InEpsilon(t, want*0.1*j.mean(j.planned()), math.Sqrt(squares), 0.05)
	}
	// grows that differ together are slow, or quick, in every step
	g := scenario{cv: same(0), growCV: 0.1, together: true, times: always(1), counts: alike}.grower(stream(13, "", 0))
	readings := g.readings()
	for i, r := range readings {
		assert.InEpsilon(t, readings[0].Seconds/jobs[0].mean(readings[0].Count), r.Seconds/jobs[i].mean(r.Count), 1e-9)
	}
}
