package plots

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// monday is a day to begin on.
var monday = time.Date(2026, time.March, 2, 0, 0, 0, 0, time.UTC)

// wayFigures are the figures of one way of working, by name.
func wayFigures(t *testing.T, m *answer.Models, name string, heads int) map[string]Figure {
	t.Helper()
	improvement, err := m.Improve(name, heads, nil)
	require.NoError(t, err)
	seeding, err := m.Seeding(name, heads, 0.95)
	require.NoError(t, err)
	curves, err := m.SeedingCurves(name, heads)
	require.NoError(t, err)
	once, weekly := 0, 7
	grow, err := m.Calendar(answer.Schedule{Workflow: name, Heads: heads, Every: &once})
	require.NoError(t, err)
	steady, err := m.Calendar(answer.Schedule{Workflow: name, Heads: heads, Every: &weekly})
	require.NoError(t, err)
	comparison, err := m.Compare(nil, heads)
	require.NoError(t, err)
	scale, err := m.Scale(nil, nil)
	require.NoError(t, err)
	figures := map[string]Figure{
		"shares": Shares(improvement, HuesOf(m.Study)), "seeding": SeedingCost(seeding, curves),
		"grow": Days(grow, time.Time{}, HuesOf(m.Study)), "steady": Days(steady, time.Time{}, HuesOf(m.Study)), "dated": Days(steady, monday, HuesOf(m.Study)),
		"growth": Growth(scale, comparison.Pairs),
	}
	if s, ok, err := m.Sensitivity(name, heads); ok {
		require.NoError(t, err)
		figures["swing"] = Swing(s)
	}
	return figures
}

func TestWaysReadable(t *testing.T) {
	for _, dir := range []string{demo, chard} {
		m := modelsOf(t, dir)
		for _, name := range m.Study.WorkflowNames() {
			first, second := wayFigures(t, m, name, 48), wayFigures(t, m, name, 48)
			for what, f := range first {
				t.Run(dir+" "+name+" "+what, func(t *testing.T) {
					readable(t, f)
					assert.Equal(t, svg(t, f), svg(t, second[what]), "the same every time")
					assert.Greater(t, len(f.Alt()), 40)
					assert.Less(t, float64(f.height()), 700.0, "a page holds it")
				})
			}
		}
	}
}

// The bars of the steps are as long as their times, setup and units apart.
func TestShares(t *testing.T) {
	m := modelsOf(t, demo)
	in, err := m.Improve("tray, three seeds", 48, nil)
	require.NoError(t, err)
	f := Shares(in, HuesOf(m.Study))
	said := says(f)
	assert.Contains(t, said, "Not timed, so not drawn: weigh and label.")
	assert.Contains(t, said, "rework")
	assert.Contains(t, f.Alt(), "weigh and label: not timed.")
	hues := HuesOf(m.Study)
	var longest, hours float64
	for _, s := range in.Steps {
		if !s.Hours.Known || hues.of(s.Step).fill == restFill {
			continue
		}
		assert.Contains(t, said, s.Step)
		bars := filled(f, hues.of(s.Step).fill)
		long := 0.0
		for _, bar := range bars {
			long += float64(bar.Max.X - bar.Min.X)
		}
		if hours == 0 {
			longest, hours = long, s.Hours.Value
		}
		assert.InDelta(t, s.Hours.Value/hours*longest, long, 0.02, s.Step)
		parts := 0
		for _, h := range []study.Maybe{s.SetupHours, s.UnitHours} {
			if h.Value > 0 {
				parts++
			}
		}
		assert.Len(t, bars, parts, s.Step)
	}
}

// Bars end before the figures behind them begin, however long these are.
func TestLadderLeavesRoom(t *testing.T) {
	m := modelsOf(t, demo)
	in, err := m.Improve("tray, one seed", 48, nil)
	require.NoError(t, err)
	hues := HuesOf(m.Study)
	f := Shares(in, hues)
	reach := vg.Length(0)
	for _, s := range in.Steps {
		for _, bar := range filled(f, hues.of(s.Step).fill) {
			reach = max(reach, bar.Max.X)
		}
	}
	assert.InDelta(t, margin+inner-rungWords, float64(reach), 0.01, "the longest bar fills the axis")
	for _, w := range texts(f) {
		if strings.HasSuffix(w.text, " %") {
			assert.GreaterOrEqual(t, float64(w.Min.X), float64(reach), w.text)
		}
	}
}

// A time below zero stands left of zero.
func TestSharesBelowZero(t *testing.T) {
	fill := sameFill
	assert.Equal(t, []stretchOf{{-2, 0, fill, true}, {0, 5, fill, false}}, setupAndUnits(-2, 5, fill))
	assert.Equal(t, []stretchOf{{0, 2, fill, true}, {2, 7, fill, false}}, setupAndUnits(2, 5, fill))
	assert.Equal(t, []stretchOf{{-2, 0, fill, true}, {-5, -2, fill, false}}, setupAndUnits(-2, -3, fill))
	assert.Empty(t, setupAndUnits(0, 0, fill))
}

func TestSwing(t *testing.T) {
	s, ok, err := modelsOf(t, demo).Sensitivity("", 48)
	require.NoError(t, err)
	require.True(t, ok)
	f := Swing(s)
	said := says(f)
	assert.Contains(t, said, "wage")
	assert.Contains(t, said, fmt.Sprintf("%.3f or %.3f", s.Inputs[0].Lower, s.Inputs[0].Higher))
	assert.Contains(t, said, fmt.Sprintf("%d further inputs, of less effect, are not drawn.", len(s.Inputs)-maxSwings))
	assert.Contains(t, f.Alt(), "What moves it most is wage")
	lower, higher := filled(f, lowerFill)[1:], filled(f, higherFill)[1:]
	require.Len(t, lower, maxSwings)
	require.Len(t, higher, maxSwings)
	for i, in := range s.Inputs[:maxSwings] {
		assert.Equal(t, in.Lower < s.PerHead, lower[i].Min.X < higher[i].Min.X, in.Name)
	}
	// both ends above: the longer one first, so that the shorter is seen
	both := swings(1, answer.Input{Lower: 1.1, Higher: 1.3})
	assert.Equal(t, []stretchOf{{1, 1.3, higherFill, false}, {1, 1.1, lowerFill, false}}, both)
}

// A steady week has a part for each step on its days, the weeks before it a line; its
// parts come to its hours.
func TestSteadyWeek(t *testing.T) {
	m := modelsOf(t, demo)
	weekly := 7
	c, err := m.Calendar(answer.Schedule{Heads: 48, Every: &weekly})
	require.NoError(t, err)
	hues := HuesOf(m.Study)
	bars := steadyWeek(c, hues)
	for i, hours := range c.Weekdays {
		assert.InDelta(t, hours, bars.total(i), 1e-9)
	}
	f := Days(c, monday, hues)
	said := says(f)
	for _, want := range []string{"Mon Tue Wed Thu Fri Sat Sun", "One steady week, 48 heads sown every 7 days", "Before that, 6 weeks:", "Hours are at least as many, without weigh and label, not timed."} {
		assert.Contains(t, said, want)
	}
	assert.Contains(t, says(Days(c, monday.AddDate(0, 0, 2), hues)), "a steady week, sown on Wednesdays")
	assert.Contains(t, says(Days(c, time.Time{}, hues)), "if sown on Mondays")
	assert.Contains(t, f.Alt(), "A steady week takes at least 102 minutes")
	for _, s := range c.WeekSteps {
		days, sum := 0, 0.0
		for _, h := range s.Hours {
			if sum += h; h > 0 {
				days++
			}
		}
		if fill := hues.of(s.Step).fill; fill != restFill && sum > 0.03*c.SteadyWeek.Value {
			assert.Len(t, filled(f, fill), days+1, "%s: a part a day, one in the key", s.Step)
		}
	}
	daily := 1
	c, err = m.Calendar(answer.Schedule{Heads: 48, Every: &daily})
	require.NoError(t, err)
	assert.Contains(t, says(Days(c, time.Time{}, hues)), "48 heads sown every day")
}

// The days of one grow come to their hours.
func TestGrowDays(t *testing.T) {
	m := modelsOf(t, demo)
	once := 0
	c, err := m.Calendar(answer.Schedule{Heads: 48, Every: &once})
	require.NoError(t, err)
	bars := growDays(c, nil)
	require.Len(t, bars.at, len(c.Days))
	for i, d := range c.Days {
		assert.InDelta(t, d.Hours, bars.total(i), 1e-9, "day %d", d.Day)
	}
}

func TestSeedingCost(t *testing.T) {
	m := modelsOf(t, demo)
	s, err := m.Seeding("", 48, 0.95)
	require.NoError(t, err)
	curves, err := m.SeedingCurves("", 48)
	require.NoError(t, err)
	f := SeedingCost(s, curves)
	said := says(f)
	for _, want := range []string{"1 seed ", "2 seeds", "6 seeds", "the study's germination, 86 %", "EUR a head", "seeds that come up, %"} {
		assert.Contains(t, said, want)
	}
	assert.Contains(t, f.Alt(), "1 seed a cell is cheapest")
	s.ByCost = false
	assert.Contains(t, says(SeedingCost(s, curves)), "minutes a head")
}

// What is rare is drawn all the same, and names are drawn as text.
func TestWaysDegenerate(t *testing.T) {
	long := strings.Repeat("a name that is much too long ", 30)
	for name, m := range map[string]*answer.Models{
		"many steps": invented(40, 2, nil),
		"long names": invented(3, 1, func(s *study.Study) {
			s.Steps[0].Name, s.Workflows[0].Name, s.Currency = long, long, "EUR"
			s.Workflows[0].Tasks[0].Step = long
		}),
		"no wage": invented(2, 1, func(s *study.Study) { s.Labour = nil }),
		"nothing known": answer.Fit(study.Study{
			Confidence: 0.9, Steps: []study.Step{{Name: "sow"}}, Workflows: []study.Workflow{{Name: "only"}},
		}, nil, answer.Options{}),
		"harmless": invented(2, 2, func(s *study.Study) {
			s.Steps[0].Name, s.Workflows[0].Tasks[0].Step, s.Workflows[1].Tasks[0].Step = "<b>x</b>\x1b", "<b>x</b>\x1b", "<b>x</b>\x1b"
		}),
	} {
		for what, f := range wayFigures(t, m, m.Study.Workflows[0].Name, 20) {
			t.Run(name+" "+what, func(t *testing.T) {
				readable(t, f)
				assert.Less(t, float64(f.height()), 750.0)
				assert.NotContains(t, svg(t, f), "<b>")
				if name == "many steps" || name == "nothing known" { // the largest and the emptiest
					assert.NoError(t, f.Write(discarded{}, "png"))
					assert.NoError(t, f.Write(discarded{}, "pdf"))
				}
				assert.NotContains(t, f.Alt(), "\x1b")
			})
		}
	}
}

type discarded struct{}

func (discarded) Write(p []byte) (int, error) { return len(p), nil }

// Where setup and units cannot be told apart, the figure says so.
func TestSharesBracketed(t *testing.T) {
	in := answer.Improvement{Heads: 20, Steps: []answer.StepShare{
		{Step: "harvest", Hours: known(1), SetupHours: known(0.25), UnitHours: known(0.75), Share: known(0.8)},
		{Step: "sow", Hours: known(0.25), SetupHours: known(0), UnitHours: known(0.25), Share: known(0.2), Bracketed: true},
	}}
	f := Shares(in, nil)
	assert.Contains(t, says(f), "so all is drawn as units: sow.")
	assert.Contains(t, f.Alt(), "sow: 15.0 min, 20 %, setup and units not told apart.")
	assert.Contains(t, f.Alt(), "harvest: 60.0 min, 80 %, of which 15.0 min setup.")
	readable(t, f)
	in.Steps[1].Bracketed = false
	assert.NotContains(t, says(Shares(in, nil)), "drawn as units")
}
