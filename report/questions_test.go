package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing"
)

func TestQuestionsAskTheThreeLargestByWhatIsKnown(t *testing.T) {
	share := func(step string, class timing.Class, hours, setup float64) timing.StepShare {
		return timing.StepShare{Step: step, Class: class, Hours: timing.Known(hours), SetupHours: timing.Known(setup)}
	}
	wash := share("wash hands", timing.Operation, 9, 9)
	wash.Hygiene = true
	thin := share("thin", timing.Operation, 5, 0)
	thin.Rework = true
	gap := timing.StepShare{Step: "never timed", Class: timing.Operation}
	text := questionsBlock(timing.Improvement{Steps: []timing.StepShare{
		wash, gap, thin, share("carry", timing.Transport, 4, 1), share("sow", timing.Operation, 3, 2), share("look", timing.Inspection, 1, 0)}})
	lines := strings.Split(text, "\n")
	assert.Len(t, lines, 4)
	for i, part := range []string{"before buying", "thin: it undoes", "carry: how far", "sow: more than half of it is setup"} {
		assert.Contains(t, lines[i], part)
	}
	assert.Empty(t, questionsBlock(timing.Improvement{Steps: []timing.StepShare{wash, gap}}))
	assert.Contains(t, question(share("look", timing.Inspection, 1, 0)), "what is found")
	assert.Contains(t, question(share("pot", timing.Operation, 1, 0)), "is each part")
	bracketed := share("pot", timing.Operation, 1, 1)
	bracketed.Bracketed = true
	assert.NotContains(t, question(bracketed), "getting ready", "setup is not known apart")
}
