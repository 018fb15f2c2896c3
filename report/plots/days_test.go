package plots

import (
	"testing"
	"time"

	"headhours/report/look"
	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var dayHues = Hues{
	"sow": {fill: look.StepAt(0).Fill, letter: "a", name: "sow"}, "harvest": {fill: look.StepAt(1).Fill, letter: "b", name: "harvest"}, "pack": {fill: look.StepAt(2).Fill, letter: "c", name: "pack"},
}

// Bars of days are as high as their hours, the step that takes most lowest, and the key is
// in the same order.
func TestDaysAreToScale(t *testing.T) {
	t.Parallel()
	for name, f := range map[string]Figure{"grow": Days(growOf(), monday, dayHues), "week": Days(everyWeek(), monday, dayHues)} {
		sow, harvest, pack := filled(f, look.StepAt(0).Fill), filled(f, look.StepAt(1).Fill), filled(f, look.StepAt(2).Fill)
		require.Len(t, sow, 2, "%s: one in the key", name)
		high := func(i int) float64 {
			return float64([]float64{float64(sow[1].Max.Y - sow[1].Min.Y), float64(harvest[1].Max.Y - harvest[1].Min.Y), float64(pack[1].Max.Y - pack[1].Min.Y)}[i])
		}
		assert.InDelta(t, 3, high(1)/high(0), 1e-6, name)
		assert.InDelta(t, 2, high(2)/high(0), 1e-6, name)
		assert.InDelta(t, float64(harvest[1].Max.Y), float64(pack[1].Min.Y), 1e-6, "%s: on top of each other", name)
		assert.Less(t, float64(harvest[0].Min.X), float64(pack[0].Min.X), "%s: in the key", name)
		assert.Less(t, float64(pack[0].Min.X), float64(sow[0].Min.X), "%s: in the key", name)
		if name == "week" {
			assert.InDelta(t, float64(pack[1].Max.Y), float64(sow[1].Min.Y), 1e-6)
			assert.InDelta(t, float64(harvest[1].Min.X), float64(sow[1].Min.X), 1e-6, "all on Monday")
		} else {
			assert.Less(t, float64(sow[1].Max.X), float64(harvest[1].Min.X), "day 0 is before day 35")
		}
	}
}

func TestDaysInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name        string
		calendar    answer.Calendar
		change      func(c *answer.Calendar)
		start       time.Time
		title, axis string
	}{
		{"one grow", growOf(), func(c *answer.Calendar) {}, monday, "Work day by day, one grow of 48 heads", "days after sowing"},
		{"one head", growOf(), func(c *answer.Calendar) { c.Heads = 1 }, monday, "Work day by day, one grow of 1 head", "days after sowing"},
		{"bought", growOf(), func(c *answer.Calendar) { c.Gives.Bought = true }, monday, "Work day by day, one grow of 48 heads", "days after setting out"},
		{"weekly", everyWeek(), func(c *answer.Calendar) {}, monday.AddDate(0, 0, 4), "One steady week, 48 heads sown every 7 days", "a steady week, sown on Fridays"},
		{"weekly, no date", everyWeek(), func(c *answer.Calendar) { c.Gives.Bought = true }, time.Time{}, "One steady week, 48 heads set out every 7 days", "a steady week, if set out on Mondays"},
		{"every ten days", everyWeek(), func(c *answer.Calendar) { c.EveryDays = ref(10) }, monday, "One steady week, 48 heads sown every 10 days", "a steady week"},
		{"daily", everyWeek(), func(c *answer.Calendar) { c.EveryDays, c.Heads = ref(1), 1 }, monday, "One steady week, 1 head sown every day", "a steady week"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.change(&c.calendar)
			f := Days(c.calendar, c.start, dayHues)
			for _, text := range []string{c.title, c.axis} {
				_, ok := where(f, text)
				assert.True(t, ok, "%q in %q", text, says(f))
			}
			readable(t, f)
		})
	}
	week := everyWeek()
	said := says(Days(week, monday, dayHues))
	assert.Contains(t, said, "Before that, 3 weeks: 10 min 60 min")
	assert.Contains(t, said, "minutes of work")
	week.SteadyWeek, week.WeekSteps[1].Hours[0], week.StartUp = known(4), 4, []float64{0.6, 2}
	said = says(Days(week, monday, dayHues))
	assert.Contains(t, said, "Before that, 2 weeks: 1 h 4 h")
	assert.Contains(t, said, "hours of work")
	week.StartUp = week.StartUp[:1]
	assert.NotContains(t, says(Days(week, monday, dayHues)), "Before that")
	week.Gaps = []string{"weigh"}
	assert.Contains(t, says(Days(week, monday, dayHues)), "Hours are at least as many, without weigh, not timed.")
	week.WeekSteps = nil
	assert.NotContains(t, says(Days(week, monday, dayHues)), "hours of work", "nothing to draw")
}

// Steps that take little share one part, those of no time have none.
func TestLittleStepsOfDays(t *testing.T) {
	t.Parallel()
	of := map[string][]float64{"a": {1, 0}, "b": {0, 97}, "c": {0.5, 0.5}, "d": {1, 0}, "e": {0, 0}, "f": {-5, 0}}
	stacks := stacksBySize([]string{"a", "c", "b", "d", "e", "f"}, of, nil)
	require.Len(t, stacks, 2)
	assert.Equal(t, []float64{0, 97}, stacks[0].amounts)
	assert.Equal(t, "b", stacks[0].name)
	assert.Equal(t, []float64{2.5, 0.5}, stacks[1].amounts)
	assert.Equal(t, "smaller steps", stacks[1].name)
	equal := stacksBySize([]string{"y", "x"}, map[string][]float64{"x": {1}, "y": {1}}, nil)
	assert.Equal(t, []string{"y", "x"}, []string{equal[0].name, equal[1].name}, "equals keep their order")
	two := stackedBars{at: []float64{0, 1}, stacks: []stack{{[]float64{2, -1}, stepHue{}}, {[]float64{1, 0.5}, stepHue{}}}, line: known(2.5)}
	assert.InDelta(t, 3, two.highest(), 0)
	assert.InDelta(t, 0.5, two.total(1), 0, "what is below nothing takes nothing away")
	hours := two.inHours()
	assert.Equal(t, "hours of work", hours.unit)
	two.stacks[0].amounts[0], two.line = 1.9, known(2.95)
	few := two.inHours()
	assert.Equal(t, "minutes of work", few.unit)
	assert.InDelta(t, 114, few.stacks[0].amounts[0], 1e-9)
	assert.InDelta(t, 177, few.line.Value, 1e-9)
	assert.InDelta(t, 1.9, two.stacks[0].amounts[0], 0, "and the hours are left as they are")
}

// Weeks of a season are as high as their hours, with one's own as a line, and below them
// what each week brings.
func TestWeeksOfASeason(t *testing.T) {
	t.Parallel()
	f := Season(seasonOf())
	lettuce, chores := filled(f, greys[0]), filled(f, greys[1])
	require.Len(t, lettuce, 1+4)
	require.Len(t, chores, 1+4+4, "and the revenue")
	high := func(i int) float64 { return float64(lettuce[i].Max.Y - lettuce[i].Min.Y) }
	assert.InDelta(t, 10.0/8, high(2)/high(1), 1e-6)
	assert.InDelta(t, 12.0/8, high(3)/high(1), 1e-6)
	for i := 1; i <= 4; i++ {
		assert.InDelta(t, 3, high(i)/float64(chores[i].Max.Y-chores[i].Min.Y), 1e-6)
		assert.InDelta(t, float64(lettuce[i].Max.Y), float64(chores[i].Min.Y), 1e-6)
		assert.InDelta(t, float64(i), float64(chores[4+i].Max.Y-chores[4+i].Min.Y)/float64(chores[5].Max.Y-chores[5].Min.Y), 1e-6, "of 100, 200 and so on")
		assert.Less(t, float64(chores[4+i].Max.Y), float64(lettuce[i].Min.Y), "below the hours")
	}
	own := stroked(f, ink, ownStyle.Width)
	require.Len(t, own, 2, "one in the key")
	assert.True(t, own[1].Min.Y > chores[2].Max.Y && own[1].Min.Y < chores[3].Max.Y, "11 hours lie between 10 and 12")
	for _, text := range []string{"lettuce", "chores", "your own hours", "What is sold, in EUR", "EUR a week", "hours of work"} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	p := seasonOf()
	p.OwnWeek, p.Revenue, p.Gaps = unknown, unknown, []string{"weigh"}
	f = Season(p)
	assert.Empty(t, stroked(f, ink, ownStyle.Width))
	assert.NotContains(t, says(f), "What is sold")
	assert.Contains(t, says(f), "without weigh, not timed")
	p.Revenue, p.Currency = known(1), nil
	assert.Contains(t, says(Season(p)), "What is sold, in money")
	assert.Contains(t, f.Alt(), "Hours of each week as a bar, stacked by crop.")
}
