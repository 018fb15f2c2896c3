package plots

import (
	"strings"
	"testing"

	"headhours/timing/answer"
	"headhours/timing/condense"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// center is the middle of a round mark: its path begins on the right, and its arc is about
// the middle.
func center(r vg.Rectangle) vg.Point { return r.Min }

// middle is that of any other shape.
func middle(r vg.Rectangle) vg.Point {
	return vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
}

// Readings stand at their day and time, changes between the days, means over their stretch.
func TestReadingsByDate(t *testing.T) {
	t.Parallel()
	f := ByDate([]answer.ByDate{datedOf("sow", "dibber")})
	dots := filled(f, see(greys[0], 170))
	require.Len(t, dots, 5)
	for i, dot := range dots[1:] {
		assert.InDelta(t, float64(center(dots[1]).X-center(dots[0]).X), float64(center(dot).X-center(dots[i]).X), 0.01, "a week apart")
	}
	up := func(i int) float64 { return float64(center(dots[i]).Y) }
	assert.Greater(t, up(1), up(0), "1.6 is above 1.5")
	assert.InDelta(t, (1.6-1.4)/(1.5-1), (up(1)-up(2))/(up(0)-up(3)), 1e-6, "to scale")
	changes := stroked(f, ink, 0.9)
	require.Len(t, changes, 1)
	week := center(dots[1]).X - center(dots[0]).X
	assert.InDelta(t, float64(center(dots[2]).X+week*5.5/7), float64(changes[0].Min.X), 0.01, "before the day of the change")
	means := stroked(f, ink, 2.2)
	require.Len(t, means, 2)
	assert.InDelta(t, up(0), float64(means[0].Min.Y), 0.01, "a mean of 1.5")
	assert.Less(t, float64(means[0].Max.X), float64(changes[0].Min.X))
	assert.Greater(t, float64(means[1].Min.X), float64(changes[0].Min.X))
	assert.Less(t, float64(means[1].Min.Y), float64(means[0].Min.Y), "it takes less now")
	name, ok := where(f, "dibber")
	require.True(t, ok)
	assert.Greater(t, float64(name.Min.X), float64(changes[0].Max.X))
	assert.Contains(t, f.Alt(), "sow: from 2026-03-02 to 2026-03-16 1.50 times what it takes now; from 2026-03-23 to 2026-03-30 0.95 times what it takes now; dibber on 2026-03-22.")
}

func TestReadingsByDateInWords(t *testing.T) {
	t.Parallel()
	d := datedOf("sow", "dibber")
	d.Parts = append([]answer.DatedPart{{First: condense.NoDay, Last: condense.NoDay, Ratio: 9}}, d.Parts[1])
	d.Left = 1
	assert.Equal(t, "sow: from 2026-03-23 to 2026-03-30 0.95 times what it takes now; dibber on 2026-03-22; 1 more reading is not drawn.", datedWords(d))
	d.Left = 2
	assert.True(t, strings.HasSuffix(datedWords(d), "; 2 more readings are not drawn."))
	assert.Len(t, stroked(ByDate([]answer.ByDate{d}), ink, 2.2), 1, "a stretch without dates has no mean to draw")
	assert.Equal(t, "No step that was changed has a reading with a date.", ByDate([]answer.ByDate{{Step: "sow"}}).Alt())
	assert.Empty(t, dated(nil).Alt())
	assert.Equal(t, Shares(improvementOf("sow"), nil).Alt(), Improved(improvementOf("sow"), nil, nil).Alt())
	assert.Contains(t, Improved(improvementOf("sow"), []answer.ByDate{d}, nil).Alt(), "dibber on 2026-03-22")
	assert.Contains(t, Checked(factorsOf("g1"), []answer.ByDate{d}).Alt(), "dibber on 2026-03-22")
	assert.Contains(t, Checked(nil, []answer.ByDate{d}).Alt(), "dibber on 2026-03-22")
	many := make([]answer.ByDate, maxPanels+1)
	for i := range many {
		many[i] = datedOf("sow", "dibber")
	}
	assert.Contains(t, says(ByDate(many)), "1 more step is not drawn.")
}

// The name of a change near the right end stands left of its line, every other one lower.
func TestNamesOfChanges(t *testing.T) {
	t.Parallel()
	d := datedOf("sow", "dibber")
	d.Lines[0].Day = d.Points[4].Day
	d.Lines = append(d.Lines, answer.DatedChange{Day: d.Points[0].Day, Name: "a name that is far too long for half a figure to hold, so that it is cut"})
	f := ByDate([]answer.ByDate{d})
	readable(t, f)
	line := stroked(f, ink, 0.9)
	name, ok := where(f, "dibber")
	require.True(t, ok)
	assert.Less(t, float64(name.Max.X), float64(line[0].Min.X))
	for _, w := range texts(f) {
		if strings.HasPrefix(w.text, "a name") {
			assert.Regexp(t, "^a name .*….* is cut$", w.text)
			assert.Less(t, float64(w.Max.Y), float64(name.Max.Y), "a line lower")
		}
	}
}

// A grow has a dot a step, larger where it has more readings, and a line for all of it; what
// is off the axis lies on its end.
func TestDotsOfGrows(t *testing.T) {
	t.Parallel()
	grows := factorsOf("g1", "g2")
	grows[1].Steps[1].Factor, grows[1].All = 99, 5
	f := GrowFactors(grows)
	dots := filled(f, see(greys[0], 150))
	require.Len(t, dots, 4)
	assert.Less(t, float64(center(dots[0]).X), float64(center(dots[1]).X))
	assert.InDelta(t, float64(center(dots[0]).Y), float64(center(dots[1]).Y), 1e-6)
	assert.Greater(t, float64(center(dots[0]).Y), float64(center(dots[2]).Y), "the first grow on top")
	assert.Less(t, float64(dots[0].Max.X-dots[0].Min.X), float64(dots[1].Max.X-dots[1].Min.X))
	assert.LessOrEqual(t, float64(dots[3].Max.X), float64(width))
	alls := filled(f, ink)
	require.Len(t, alls, 1, "a line that is off the axis is not drawn")
	assert.True(t, middle(alls[0]).X > center(dots[0]).X && middle(alls[0]).X < center(dots[1]).X)
	assert.Equal(t, "What each grow took, as factors of what was expected. g1: 1.00 in all, from 2 steps. g2: 5.00 in all, from 2 steps.", f.Alt())
	grows[0].Steps = grows[0].Steps[:1]
	assert.Contains(t, GrowFactors(grows).Alt(), "g1: 1.00 in all, from 1 step.")
	many := GrowFactors(factorsOf(someNames(maxGrows + 1)...))
	assert.Contains(t, says(many), "1 earlier grow is not drawn.")
	assert.NotContains(t, says(many), "name 0 ", "the earliest")
	assert.Contains(t, says(many), "name 30 ")
}
