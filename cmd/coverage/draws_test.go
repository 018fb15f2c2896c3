package main

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"headhours/timing/answer"
	"headhours/timing/study"
)

// Readings come from the grows in turn, at the counts that are said, of both workers; what is
// missing never is the first of a step.
func TestALogAsItIsDrawn(t *testing.T) {
	s := scenario{times: always(6), counts: unlike, cv: same(0.1), grows: 4, growCV: 0.1}
	log, factors := s.grower(stream(1, "log", 0)).log()
	require.Len(t, log, 6*len(jobs))
	require.Len(t, factors, len(jobs))
	for i, j := range jobs {
		require.Len(t, factors[i], 4)
		for k := range 6 {
			r := log[6*i+k]
			assert.Equal(t, j.name, r.Step)
			assert.Equal(t, fmt.Sprint("g", k%4+1), r.Grow)
			assert.Equal(t, "w1", r.Worker)
			assert.InDelta(t, 1, r.People, 0)
			assert.InDelta(t, 100, r.Rating, 0)
			want := 1.0
			if j.perHead > 0 {
				want = math.Max(1, math.Round(heads*j.perHead*unlike(k, 6)))
			}
			assert.InDelta(t, want, r.Count, 0, "%s %d", j.name, k)
			assert.Positive(t, r.Seconds)
		}
	}

	slow := 0
	s = scenario{times: always(40), counts: alike, cv: same(0), slowShare: 0.25}
	for _, r := range s.grower(stream(1, "slow", 0)).readings() {
		mean := jobs[jobOf(r.Step)].mean(r.Count)
		if r.Worker == "w2" {
			slow++
			mean *= slowBy
		}
		assert.InEpsilon(t, mean, r.Seconds, 1e-9)
	}
	assert.InDelta(t, 0.25*40*float64(len(jobs)), float64(slow), 40)
	assert.InEpsilon(t, 1+0.25*(slowBy-1), s.slowness(), 1e-12)

	s = scenario{times: always(8), counts: alike, cv: same(0.1), grows: 8, growCV: 0.1, missing: 0.5}
	missing := 0
	for k := range 20 {
		log := s.grower(stream(1, "missing", k)).readings()
		first := map[string]string{}
		for _, r := range log {
			if first[r.Step] == "" {
				first[r.Step] = r.Grow
			}
		}
		assert.Len(t, first, len(jobs), "every step has one")
		for step, grow := range first {
			assert.Equal(t, "g1", grow, step)
		}
		missing += 8*len(jobs) - len(log)
	}
	assert.InDelta(t, 0.5*7*20*float64(len(jobs)), float64(missing), 80)
}

// Grows differ step by step, or in all steps alike, or not at all.
func TestGrowFactors(t *testing.T) {
	for _, c := range []struct {
		cv       float64
		together bool
	}{{0, false}, {0.1, false}, {0.1, true}} {
		s := scenario{cv: same(0), growCV: c.cv, together: c.together}
		factors := s.grower(stream(2, "", 0)).growFactors(300)
		require.Len(t, factors, len(jobs))
		var mean, squares float64
		for _, x := range factors[3] {
			mean, squares = mean+x/300, squares+x*x/300
		}
		assert.InDelta(t, 1, mean, 0.03)
		assert.InDelta(t, c.cv, math.Sqrt(max(0, squares-mean*mean)), 0.02)
		assert.Equal(t, c.together || c.cv == 0, assert.ObjectsAreEqual(factors[0], factors[5]))
	}
}

// Readings without scatter have the jobs' own times, at three counts, longer for a slower
// grower.
func TestExactReadings(t *testing.T) {
	readings := exact(1.3)
	require.Len(t, readings, 3*len(jobs))
	for k, r := range readings {
		j := jobs[k/3]
		assert.Equal(t, j.name, r.Step)
		assert.InDelta(t, []float64{1, 2, 4}[k%3]*j.planned(), r.Count, 1e-9)
		assert.InEpsilon(t, 1.3*(j.setup+j.unit*r.Count), r.Seconds, 1e-12)
	}
}

// The readings of a plan are of further grows one of every step each, the rest in the last
// grow there was, at the counts that the plan says and never below one.
func TestReadingsOfAPlan(t *testing.T) {
	s := scenario{times: always(2), counts: alike, cv: same(0), grows: 3, growCV: 0.1, together: true}
	g := s.grower(stream(3, "", 0))
	_, factors := g.log()
	plan := answer.Plan{FurtherGrows: 2, Readings: []answer.PlannedReadings{{Step: "sow", Readings: 4, Count: 20}, {Step: "carry trays", Readings: 2, Count: 0.2}}}
	got := g.readingsOf(plan, factors)
	var told []string
	for _, r := range got {
		told = append(told, fmt.Sprintf("%s %s of %g", r.Grow, r.Step, r.Count))
	}
	assert.Equal(t, []string{"g4 sow of 20", "g5 sow of 20", "g3 sow of 20", "g3 sow of 20", "g4 carry trays of 1", "g5 carry trays of 1"}, told)
	sow := jobs[jobOf("sow")].mean(20)
	assert.InEpsilon(t, factors[jobOf("sow")][2], got[2].Seconds/sow, 1e-9, "as slow as that grow was")
	assert.InEpsilon(t, got[0].Seconds/sow, got[4].Seconds/jobs[jobOf("carry trays")].mean(1), 1e-9, "a further grow is slow in all steps alike")
}

// Plans that are tried are counted among those that promised, and where nothing did there is
// no share of nothing.
func TestWritePlans(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, writePlans(&out, 1, 5))
	text := out.String()
	assert.Contains(t, text, "The hours of one way to within 15 %, 1 invented growers a row")
	for _, s := range plans() {
		assert.Contains(t, text, "| "+s.name+" | ")
	}
	assert.NotContains(t, text, "NaN")
	assert.ErrorContains(t, writePlans(&failing{0}, 1, 5), "full")
	assert.ErrorContains(t, writePlans(&failing{1}, 1, 5), "full", "a row")
}

// failing is a writer that takes some writes and then no more.
type failing struct{ left int }

func (f *failing) Write(p []byte) (int, error) {
	if f.left--; f.left < 0 {
		return 0, fmt.Errorf("full")
	}
	return len(p), nil
}

// Cells of the table, as they are read.
func TestCells(t *testing.T) {
	for want, c := range map[string]coverage{
		"-":                  {},
		"95.0±0.3":           {share: 0.95, err: 0.003, withRange: 1},
		"95.0±0.3 w12":       {share: 0.95, err: 0.003, withRange: 1, width: 0.12, bounded: true},
		"100.0±0.0 w0 [50]":  {share: 1, withRange: 0.5, bounded: true},
		"0.0±0.0 [0.25]":     {withRange: 0.0025},
		"94.9±0.1 w250":      {share: 0.949, err: 0.001, withRange: 0.995, width: 2.5, bounded: true},
		"94.9±0.1 w250 [99]": {share: 0.949, err: 0.001, withRange: 0.994, width: 2.5, bounded: true},
	} {
		assert.Equal(t, want, c.String())
	}
}

// Columns line up however wide their cells, the first two at the left, and a scenario's name
// and a group's heading stand once.
func TestTable(t *testing.T) {
	row := func(group, name, rule string) result { return result{group: group, scenario: name, rule: rule} }
	var out strings.Builder
	require.NoError(t, writeTable(&out, []result{row("A", "one", "now"), row("A", "one", "before"), row("A", "zwölf", "now"), row("B", "one", "now")}, 0.9, 7, 3))
	text := out.String()
	assert.Contains(t, text, "Coverage of 90 % intervals, 7 invented growers a row, seed 3.")
	assert.Equal(t, 1, strings.Count(text, "### A\n"))
	assert.Equal(t, 1, strings.Count(text, "### B\n"))
	_, a, _ := strings.Cut(text, "### A\n\n")
	a, b, _ := strings.Cut(a, "\n### B\n\n")
	assert.Equal(t, `| readings | rule   | setup | unit | total | difference | break-even | next grow |
| -------- | ------ | ----: | ---: | ----: | ---------: | ---------: | --------: |
| one      | now    |     - |    - |     - |          - |          - |         - |
|          | before |     - |    - |     - |          - |          - |         - |
| zwölf    | now    |     - |    - |     - |          - |          - |         - |
`, a)
	assert.Contains(t, b, "| one      | now  |", "a part begins anew")
	assert.ErrorContains(t, writeTable(&failing{}, nil, 0.9, 7, 3), "full")
	assert.Equal(t, failed, runTo(&failing{}))
}

// runTo runs the smallest simulation, its table going to a writer.
func runTo(w *failing) int {
	var errs bytes.Buffer
	return run([]string{"--replicates", "1", "--scenario", "4 readings a step"}, w, &errs)
}

// Scores of a comparison are those of both ways' hours, of the grow to come and of the pair.
func TestScored(t *testing.T) {
	known := study.Known
	way := func(hours, low, high, nextLow, nextHigh float64) answer.Hours {
		return answer.Hours{Hours: hours, Low: known(low), High: known(high), NextLow: known(nextLow), NextHigh: known(nextHigh)}
	}
	want := answer.Comparison{Workflows: []answer.Hours{way(4, 4, 4, 4, 4), way(2, 2, 2, 2, 2)}, Pairs: []answer.Pair{{Difference: -2, BreakEven: answer.BreakEven{Heads: known(40)}}}}
	got := answer.Comparison{
		Workflows: []answer.Hours{way(4.2, 3.8, 4.6, 3, 5), way(2.5, 2.2, 2.8, 1, 4)},
		Pairs:     []answer.Pair{{Difference: -1.7, Low: known(-2.4), High: known(-1), BreakEven: answer.BreakEven{Kind: answer.Interval, Low: known(20), High: known(80)}}},
	}
	s := scored(want, got, [2]float64{5.5, 2})
	assert.Equal(t, []float64{2, 2, 1}, []float64{s[totalHours].intervals, s[totalHours].bounded, s[totalHours].hits})
	assert.InDeltaSlice(t, []float64{0.2, 0.3}, s[totalHours].widths, 1e-9)
	assert.InDelta(t, 1, s[nextGrowHours].hits, 0, "5.5 is not in 3 to 5")
	assert.InDeltaSlice(t, []float64{0.5, 1.5}, s[nextGrowHours].widths, 1e-9)
	assert.InDelta(t, 1, s[differenceHours].hits, 0)
	assert.InDeltaSlice(t, []float64{1.4 / 4}, s[differenceHours].widths, 1e-9, "of the first way's hours")
	assert.InDelta(t, 1, s[breakEvenHeads].hits, 0)
	assert.InDeltaSlice(t, []float64{1.5}, s[breakEvenHeads].widths, 1e-9)
}
