package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

// A hint counts problems that are listed, and says so where there are more.
func TestHintCountsWhatIsListed(t *testing.T) {
	for _, c := range []struct {
		problems int
		want     string
	}{
		{5, ""},
		{40, "hint: 40 of these are one and the same: wrong\n"},
		{3000, "hint: 1000 of those listed are one and the same: wrong\n"},
	} {
		var problems study.Problems
		for i := range c.problems {
			problems = problems.And(study.Problem{Place: study.Place{File: fmt.Sprint(i)}, Text: "wrong"})
		}
		var b strings.Builder
		hintRecurring(&b, problems)
		assert.Equal(t, c.want, b.String())
	}
}
