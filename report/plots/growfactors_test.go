package plots

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing"
)

// A dot a grow and step, a line a grow, a name a grow; the newest thirty.
func TestGrowFactors(t *testing.T) {
	grows := []timing.GrowFactor{
		{Grow: "g1", All: 0.95, Steps: []timing.StepFactor{{Step: "sow", Readings: 2, Factor: 0.9}, {Step: "cut", Readings: 1, Factor: 1}}},
		{Grow: "g2 <slow>", All: 1.2, Steps: []timing.StepFactor{{Step: "sow", Readings: 1, Factor: 1.25}}},
	}
	f := GrowFactors(grows)
	assert.Contains(t, f.Alt(), "g1: 0.95 in all, from 2 steps.")
	text := svg(t, f)
	assert.Contains(t, text, "g2 &lt;slow&gt;")
	assert.Contains(t, text, ">times what was expected<")
	readable(t, f)
	many := make([]timing.GrowFactor, 40)
	for i := range many {
		many[i] = timing.GrowFactor{Grow: "g", All: 1, Steps: []timing.StepFactor{{Step: "s", Readings: 1, Factor: 50}}}
	}
	assert.Contains(t, says(GrowFactors(many)), "10 earlier grows are not drawn.")
	assert.Equal(t, "No reading names a grow.", GrowFactors(nil).Alt())
}
