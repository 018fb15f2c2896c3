package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// What a change of a hygiene step saves is never told without a word of care.
func TestMadeOfHygiene(t *testing.T) {
	c := answer.Made{
		Name: "quick wash", Step: "wash", Since: "2027-04-12", ReadingsBefore: 3, ReadingsAfter: 3, Hygiene: true,
		Before: study.Known(0.1), After: study.Known(0.04), Saved: study.Known(0.06), Low: study.Known(0.05), High: study.Known(0.07),
	}
	const care = "It is a hygiene step: see that it is done as well as before."
	assert.Contains(t, madeSentence(c, answer.Improvement{}), care)
	c.Hygiene = false
	assert.NotContains(t, madeSentence(c, answer.Improvement{}), care)
}
