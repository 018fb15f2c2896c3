package plots

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// A dot a grow and step, a line a grow, a name a grow; the newest thirty.
func TestGrowFactors(t *testing.T) {
	grows := []answer.GrowFactor{
		{Grow: "g1", All: 0.95, Steps: []answer.StepFactor{{Step: "sow", Readings: 2, Factor: 0.9}, {Step: "cut", Readings: 1, Factor: 1}}},
		{Grow: "g2 <slow>", All: 1.2, Steps: []answer.StepFactor{{Step: "sow", Readings: 1, Factor: 1.25}}},
	}
	f := GrowFactors(grows)
	assert.Contains(t, f.Alt(), "g1: 0.95 in all, from 2 steps.")
	text := svg(t, f)
	assert.Contains(t, text, "g2 &lt;slow&gt;")
	assert.Contains(t, text, ">times what was expected<")
	readable(t, f)
	many := make([]answer.GrowFactor, 40)
	for i := range many {
		many[i] = answer.GrowFactor{Grow: "g", All: 1, Steps: []answer.StepFactor{{Step: "s", Readings: 1, Factor: 50}}}
	}
	assert.Contains(t, says(GrowFactors(many)), "10 earlier grows are not drawn.")
	assert.Equal(t, "No reading names a grow.", GrowFactors(nil).Alt())
}
