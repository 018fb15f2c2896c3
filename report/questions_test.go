package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/answer"
	"headhours/timing/study"
)

func TestQuestionsAskTheThreeLargestByWhatIsKnown(t *testing.T) {
	share := func(step string, class study.Class, hours, setup float64) answer.StepShare {
		return answer.StepShare{Step: step, Class: class, Hours: study.Known(hours), SetupHours: study.Known(setup)}
	}
	wash := share("wash hands", study.Operation, 9, 9)
	wash.Hygiene = true
	thin := share("thin", study.Operation, 5, 0)
	thin.Rework = true
	gap := answer.StepShare{Step: "not timed", Class: study.Operation}
	text := questionsBlock(answer.Improvement{Steps: []answer.StepShare{
		wash, gap, thin, share("carry", study.Transport, 4, 1), share("sow", study.Operation, 3, 2), share("look", study.Inspection, 1, 0)}})
	lines := strings.Split(text, "\n")
	assert.Len(t, lines, 4)
	for i, part := range []string{"before buying", "thin: it undoes", "carry: how far", "sow: more than half of it is setup"} {
		assert.Contains(t, lines[i], part)
	}
	assert.Empty(t, questionsBlock(answer.Improvement{Steps: []answer.StepShare{wash, gap}}))
	assert.Contains(t, question(share("look", study.Inspection, 1, 0)), "what is found")
	assert.Contains(t, question(share("pot", study.Operation, 1, 0)), "is each part")
	bracketed := share("pot", study.Operation, 1, 1)
	bracketed.Bracketed = true
	assert.NotContains(t, question(bracketed), "getting ready", "setup is not known apart")
}
