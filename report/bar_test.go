package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/study"
)

func TestBar(t *testing.T) {
	for _, c := range []struct {
		x, longest float64
		want       int
	}{{8, 8, 8}, {4, 8, 4}, {0.4, 8, 0}, {0.5, 8, 1}, {0, 8, 0}, {0, 0, 0}, {-3, 8, 0}, {-3, -1, 0}} {
		assert.Equal(t, strings.Repeat("▇", c.want), bar(c.x, c.longest), c)
	}
}

// Shares have a bar beside them, the largest the longest; a step without a share
// has none. Programs are spared it.
func TestBarsBesideShares(t *testing.T) {
	steps := []answer.StepHours{
		{Step: "sow", Hours: study.Known(0.1), Share: study.Known(0.25)},
		{Step: "harvest", Hours: study.Known(0.3), Share: study.Known(0.75)},
		{Step: "weigh"},
	}
	table := minutesTable(answer.Comparison{Workflows: []answer.Hours{{Workflow: "tray", Steps: steps}}})
	var bars []string
	for _, row := range table.Rows {
		require.Len(t, row, len(table.Columns))
		bars = append(bars, row[len(row)-1].Text)
	}
	assert.Equal(t, []string{"▇▇▇", "▇▇▇▇▇▇▇▇", ""}, bars)

	improve := Improve(answer.Improvement{Steps: []answer.StepShare{
		{Step: "harvest", Share: study.Known(0.75)}, {Step: "sow", Share: study.Known(0.25)}, {Step: "weigh"},
	}})
	var text, csv strings.Builder
	require.NoError(t, Write(&text, "text", improve, nil, Style{}))
	require.NoError(t, Write(&csv, "csv", improve, nil, Style{}))
	assert.Contains(t, text.String(), "75 %  ▇▇▇▇▇▇▇▇")
	assert.Contains(t, text.String(), "25 %  ▇▇▇   ")
	assert.NotContains(t, csv.String(), "▇")
	head, _, _ := strings.Cut(csv.String(), "\r\n")
	assert.Equal(t, "step,hours_h,share,cumulative_share,setup_h,unit_h,tenth_h,class,rework,variance_share", head)
}
