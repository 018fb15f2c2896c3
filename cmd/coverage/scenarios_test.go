package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"headhours/timing/answer"
	"headhours/timing/stepfit"
)

// Counts are evenly spaced from the least to the most, and one alone is the planned one.
func TestSpaced(t *testing.T) {
	for _, c := range []struct {
		of   func(k, n int) float64
		n    int
		want []float64
	}{
		{unlike, 1, []float64{1}}, {unlike, 2, []float64{0.5, 1.5}}, {unlike, 3, []float64{0.5, 1, 1.5}}, {unlike, 5, []float64{0.5, 0.75, 1, 1.25, 1.5}},
		{alike, 1, []float64{1}}, {alike, 2, []float64{0.9, 1.1}}, {alike, 3, []float64{0.9, 1, 1.1}},
	} {
		for k, want := range c.want {
			assert.InDelta(t, want, c.of(k, c.n), 1e-12, "%d of %d", k, c.n)
		}
	}
}

// Scatters that are drawn are within their bounds and about as large as is said.
func TestScattersThatAreDrawn(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for name, c := range map[string]struct {
		draw           func(int, *rand.Rand) float64
		most           float64
		low, mid, high float64 // the sixth, the half and the five sixths of draws
		within         float64
	}{
		"drawn":     {drawn, 0.35, 0.09, 0.131, 0.19, 0.06}, // 0.12·√(4/χ²) at the quantiles of χ² on 4 degrees of freedom
		"around 15": {around15, 0.6, 0.15 * math.Exp(-0.5*0.9674), 0.15, 0.15 * math.Exp(0.5*0.9674), 0.04},
	} {
		x := make([]float64, 6000)
		for i := range x {
			x[i] = c.draw(i%len(jobs), random)
		}
		slices.Sort(x)
		assert.Greater(t, x[0], 0.0, name)
		assert.LessOrEqual(t, x[len(x)-1], c.most, name)
		for at, want := range map[int]float64{1000: c.low, 3000: c.mid, 5000: c.high} {
			assert.InEpsilon(t, want, x[at], c.within, "%s at %d", name, at)
		}
	}
	for i := range jobs {
		assert.InDelta(t, 0.3, same(0.3)(i, nil), 0)
	}
	for _, of := range []func(int, *rand.Rand) float64{longestMost, longestLeast, harvestMost} {
		for i := range jobs {
			assert.Positive(t, of(i, nil), "every job has a scatter")
		}
	}
	last := len(jobs) - 1
	assert.Equal(t, "harvest", jobs[last].name, "the longest")
	for i := range last {
		assert.Less(t, longestMost(i, nil), longestMost(last, nil))
		assert.Greater(t, longestLeast(i, nil), longestLeast(last, nil))
		assert.Less(t, harvestMost(i, nil), harvestMost(last, nil))
	}
}

func TestHowManyReadings(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	seen := map[int]bool{}
	for range 200 {
		seen[from(2, 4)(random)] = true
		assert.Equal(t, 7, always(7)(random))
	}
	assert.Equal(t, map[int]bool{2: true, 3: true, 4: true}, seen)
}

// Every scenario has a name of its own, what a grower needs, and rules with names of their
// own; those of one part stand together, so that each part is one table.
func TestScenariosAreWhole(t *testing.T) {
	names, groups := map[string]bool{}, []string{}
	for _, s := range scenarios() {
		assert.False(t, names[s.name], "%s stands twice", s.name)
		names[s.name] = true
		if len(groups) == 0 || groups[len(groups)-1] != s.group {
			groups = append(groups, s.group)
		}
		require.NotNil(t, s.times, s.name)
		require.NotNil(t, s.counts, s.name)
		require.NotNil(t, s.cv, s.name)
		require.NotEmpty(t, s.rules, s.name)
		rules := map[string]bool{}
		for _, r := range s.rules {
			assert.False(t, rules[r.name], "%s: %s stands twice", s.name, r.name)
			assert.NotEmpty(t, r.name)
			rules[r.name] = true
		}
		assert.True(t, s.growCV == 0 && s.missing == 0 || s.grows > 1, s.name)
		if s.spread != nil {
			assert.Equal(t, s.growing, *s.spread, "%s: the spread that the grower gives is the true one", s.name)
		}
	}
	assert.Equal(t, []string{given, readings, awkward, grownup, few}, groups)
	assert.Len(t, names, 65)
}

// Rules are those there are: the ones of --scatter all of them, the old ones with nothing
// lent and nothing in common.
func TestRules(t *testing.T) {
	assert.Len(t, byScatter(), len(answer.Scatters))
	assert.Equal(t, answer.Options{Scatter: answer.OwnScatter, Grouping: answer.NoGrouping}, newAndOld()[1].options)
	for _, r := range []rule{newAndOld()[0], asItIs()[0], byGrouping()[1]} {
		assert.Equal(t, answer.Options{}, r.options, r.name)
	}
	assert.Equal(t, answer.NoGrouping, byGrouping()[0].options.Grouping)
}

// A scenario that is changed leaves the one it came from as it was.
func TestWith(t *testing.T) {
	base := scenario{name: "base", grows: 2}
	other := base.with("other", func(s *scenario) { s.grows = 3 })
	assert.Equal(t, []any{"base", 2, "other", 3}, []any{base.name, base.grows, other.name, other.grows})
}

func TestChoose(t *testing.T) {
	all := []scenario{{name: "a b"}, {name: "b c"}, {name: "c d"}}
	for texts, want := range map[string]string{"": "a b,b c,c d,", "b": "a b,b c,", "c d": "c d,", "a|d": "a b,c d,", "b|b c": "a b,b c,", "x": ""} {
		list := strings.FieldsFunc(texts, func(r rune) bool { return r == '|' })
		got := ""
		for _, s := range choose(all, list) {
			got += s.name + ","
		}
		assert.Equal(t, want, got, texts)
	}
}

// Random numbers hang on the seed, the scenario and the replicate, on each of them.
func TestStreams(t *testing.T) {
	seen := map[uint64]string{}
	for seed := range uint64(6) {
		for _, name := range []string{"", "a", "b", "ab"} {
			for replicate := range 6 {
				who := fmt.Sprint(seed, name, replicate)
				x := stream(seed, name, replicate).Uint64()
				assert.Empty(t, seen[x], who)
				seen[x] = who
				assert.Equal(t, x, stream(seed, name, replicate).Uint64())
			}
		}
	}
	// The finaliser of Steele, Lea and Flood's SplittableRandom at its first steps from 0.
	assert.Equal(t, uint64(0xe220a8397b1dcdaf), stirred(0))
	assert.Equal(t, uint64(0x6e789e6aa1b965f4), stirred(0x9e3779b97f4a7c15))
}

// The study of an invented grower has every job, in the ways and on the days that do it.
func TestStudyOf(t *testing.T) {
	s := studyOf(stepfit.SetupUnit, q(1))
	require.Len(t, s.Steps, len(jobs))
	done := map[string]int{}
	for w, way := range s.Workflows {
		for _, task := range way.Tasks {
			j := jobs[jobOf(task.Step)]
			assert.Equal(t, [2][]int{j.inTray, j.inRaft}[w], task.Days, task.Step)
			done[task.Step] += len(task.Days)
			if j.perHead == 0 {
				assert.InDelta(t, 1, task.Each, 0)
			} else {
				assert.InDelta(t, j.perHead, task.Each, 0)
			}
		}
	}
	for i, j := range jobs {
		assert.Equal(t, len(j.inTray)+len(j.inRaft), done[j.name], j.name)
		want := "setup+unit"
		if j.onlySetup {
			want = "setup"
		}
		assert.Equal(t, want, s.Steps[i].Form, j.name)
		assert.Equal(t, 1, *s.Steps[i].Spread)
	}
	assert.Nil(t, studyOf("", nil).Steps[0].Spread)
	assert.Panics(t, func() { jobOf("nobody's") })
}
