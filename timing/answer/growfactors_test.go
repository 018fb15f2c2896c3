package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// g2 took half as long again in both steps; the models' times lie between.
func TestGrowFactors(t *testing.T) {
	var readings []study.Reading
	for grow, slow := range map[string]float64{"g1": 1, "g2": 1.5} {
		for _, step := range []string{"sow", "cut"} {
			r := aReading(step, 10, 100*slow)
			r.Grow = grow
			readings = append(readings, r)
		}
	}
	grows := Fit(studyOf(readings), readings, Options{}).GrowFactors()
	require.Len(t, grows, 2)
	assert.Equal(t, []string{"g1", "g2"}, []string{grows[0].Grow, grows[1].Grow})
	assert.InDelta(t, 1/1.25, grows[0].All, 1e-12)
	assert.InDelta(t, 1.5/1.25, grows[1].All, 1e-12)
	require.Len(t, grows[1].Steps, 2)
	assert.InDelta(t, 1.2, grows[1].Steps[0].Factor, 1e-12)
}
