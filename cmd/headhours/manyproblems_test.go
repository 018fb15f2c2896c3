package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Of more problems than are listed the first are, in whatever order they were found, and all
// are counted, in every format.
func TestMoreProblemsThanAreListed(t *testing.T) {
	t.Parallel()
	log := "step,count,time\nsaw,1,2\n" + strings.Repeat("sow,x,2\n", 1500)
	dir := studyHolding(t, map[string]string{"study.toml": small, "timings/a.csv": log})
	for _, c := range []struct{ format, first, count, last string }{
		{"text", `step "saw" is`, "1501 problems to put right", "and 501 more"},
		{"markdown", `| step "saw" is not known`, "1501 problems to put right", "| and 501 more |  |"},
		{"csv", `"step ""saw"" is not known`, "", "and 501 more,"},
		{"json", `"text": "step \"saw\" is not known`, "", `"more": 501`},
	} {
		got := headhoursIn(dir, "check", "--format", c.format)
		require.Equal(t, badData, got.status)
		for _, want := range []string{c.first, c.count, c.last} {
			assert.True(t, strings.Contains(got.out, want), "%s: %s", c.format, want)
		}
		assert.Less(t, strings.Index(got.out, c.first), strings.Index(got.out, "not a number"), c.format)
		assert.True(t, strings.HasPrefix(got.err, dir+`/timings/a.csv:2:1: step "saw" is not known`))
		assert.True(t, strings.Contains(got.err, "and 501 more\n"))
	}
}
