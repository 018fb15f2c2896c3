package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/study"
)

// Heads reach from two thirds of the smallest grow that was timed to four times the largest, a
// quarter beyond being as good as timed.
func TestGrowthHeads(t *testing.T) {
	st := study.Study{
		Confidence: 0.95, Heads: 24, Germination: crop.Germination{Share: 1}, Steps: []study.Step{{Name: "sow"}},
		Workflows: []study.Workflow{{Name: "only", SeedsPerCell: 1, Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: crop.Heads, Each: 1, SharedBy: 1}}}},
	}
	readings := func(counts ...float64) (all []study.Reading) {
		for i, n := range counts {
			all = append(all, study.Reading{Step: "sow", Count: n, Seconds: 30 + 5*n + float64(i%2), People: 1, Rating: 100})
		}
		return all
	}
	for name, c := range map[string]struct {
		counts    []float64
		low, high int
	}{
		"timed from 20 to 40":      {[]float64{20, 30, 40}, 10, 200},
		"the usual is not timed":   {[]float64{80, 100, 120}, 16, 600},
		"nothing timed":            {nil, 16, 96},
		"timed only far beyond it": {[]float64{100000, 200000}, 16, 96},
	} {
		t.Run(name, func(t *testing.T) {
			heads, err := Fit(st, readings(c.counts...), Options{}).GrowthHeads(nil)
			require.NoError(t, err)
			assert.InDelta(t, c.low, heads[0], 1)
			assert.InEpsilon(t, c.high, heads[len(heads)-1], 0.05)
			assert.Contains(t, heads, 24)
			assert.IsIncreasing(t, heads)
		})
	}
	_, err := Fit(st, nil, Options{}).GrowthHeads([]string{"other"})
	assert.Error(t, err)
}
