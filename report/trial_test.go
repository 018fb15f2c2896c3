package report

import (
	"strings"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// How many readings would show what a change saves, before and after it.
func TestReadingsOfATrial(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(t *answer.ChangeTrial)
		want   string
	}{
		{"after", func(t *answer.ChangeTrial) {}, "4 more readings in 2 further grows after it (at 24 and 48) would, four times in five, show the 8.0 minutes a grow that are hoped for."},
		{"one after", func(t *answer.ChangeTrial) { t.Grows, t.After, t.Counts = known(1), known(1), []float64{48} },
			"1 more reading in 1 further grow after it (at 48) would, four times in five, show the 8.0 minutes a grow that are hoped for."},
		{"before and after", func(t *answer.ChangeTrial) { t.GrowsTo, t.ToBefore = known(1), known(2) },
			"2 more readings in 1 grow before the change is made, and 4 more readings in 2 further grows after it (at 24 and 48) would, four times in five, show the 8.0 minutes a grow that are hoped for."},
		{"before alone", func(t *answer.ChangeTrial) {
			t.GrowsTo, t.ToBefore, t.After, t.Counts = known(2), known(1), known(0), nil
		},
			"1 more reading in 2 grows before the change is made would, four times in five, show the 8.0 minutes a grow that are hoped for."},
		{"none", func(t *answer.ChangeTrial) { t.After = known(0) }, "Readings are enough to show, four times in five, the 8.0 minutes a grow that are hoped for."},
		{"a third", func(t *answer.ChangeTrial) { t.IsHoped, t.After = false, known(0) }, "Readings are enough to show, four times in five, a saving of a third (8.0 minutes a grow)."},
		{"not within so many", func(t *answer.ChangeTrial) { t.Grows, t.Made = unknown, false },
			"Even 50 further grows would not show the 8.0 minutes a grow that are hoped for clearly: the step varies too much beside it."},
		{"not within so many, and no more before", func(t *answer.ChangeTrial) { t.Grows = unknown },
			"Even 50 further grows would not show the 8.0 minutes a grow that are hoped for clearly: that rests on 5 readings before the change, and no more can be had. A larger saving may show all the same."},
		{"one before, and no more", func(t *answer.ChangeTrial) { t.Grows, t.Had = unknown, 1 },
			"Even 50 further grows would not show the 8.0 minutes a grow that are hoped for clearly: that rests on 1 reading before the change, and no more can be had. A larger saving may show all the same."},
		{"setup and units not told apart", func(t *answer.ChangeTrial) { t.Grows, t.Bracketed = unknown, true },
			"Even 50 further grows would not show the 8.0 minutes a grow that are hoped for clearly: the readings before it were all at about one count, and do not tell setup from units. " +
				`Where its time is all setup, or all units, say so in the study: form = "setup" or form = "unit".`},
		{"none before", func(t *answer.ChangeTrial) { t.Grows, t.Had = unknown, 0 },
			"What it saves cannot be shown: transplant was not timed before the change, and what was judged of it is too wide to show the 8.0 minutes a grow that are hoped for. No reading before it can be had any more."},
		{"another since", func(t *answer.ChangeTrial) { t.Until = "2026-06-01" }, "No more readings of it can be had: since 2026-06-01 another change of transplant stands in its place."},
		{"another since, and enough", func(t *answer.ChangeTrial) { t.Until, t.After = "2026-06-01", known(0) }, "Readings are enough to show, four times in five, the 8.0 minutes a grow that are hoped for."},
		{"not done any more", func(t *answer.ChangeTrial) { t.Dropped, t.After = true, known(0) },
			"No further reading is needed: that it saves 8.0 minutes a grow, all of the step's time, is clear already."},
		{"not done any more, and not clear", func(t *answer.ChangeTrial) { t.Dropped, t.Grows, t.After = true, unknown, unknown },
			"It saves all of the step's time, 8.0 minutes a grow as far as is known; the readings before it do not show clearly that this is more than nothing."},
		{"nothing is saved", func(t *answer.ChangeTrial) { t.Grows, t.Saving = unknown, known(0) }, "There is nothing to plan; the notes say why."},
		{"not timed", func(t *answer.ChangeTrial) { t.Grows, t.Before = unknown, unknown }, "There is nothing to plan; the notes say why."},
		{"saving not known", func(t *answer.ChangeTrial) { t.Grows, t.Saving = unknown, unknown }, "There is nothing to plan; the notes say why."},
	} {
		t.Run(c.name, func(t *testing.T) {
			trial := trialOf()
			trial.Notes = []string{"a note"}
			c.change(&trial)
			doc := ChangeTrial(trial)
			assert.Equal(t, []string{c.want}, doc.Section("plan").Answer)
			assert.Equal(t, []string{"a note"}, doc.Notes)
			assert.Len(t, doc.Section("plan").Table.Rows, 1)
		})
	}
	wide := trialOf()
	wide.Change, wide.Workflow, wide.Step = "long spout for the can", "bok choy, three seeds", "move to raft"
	var b strings.Builder
	require.NoError(t, Write(&b, "text", ChangeTrial(wide), nil, Style{}))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, len(line), 80, line)
	}
	rows := trialTable(answer.ChangeTrial{Step: "sow", Done: 2}).Rows
	assert.Equal(t, []string{"sow", "?", "?", "2", "?", "?", "?"}, texts(rows[0]))
	assert.Equal(t, "12, 24.5 and 48", eachCount([]float64{12, 24.5, 12, 48}))
}
