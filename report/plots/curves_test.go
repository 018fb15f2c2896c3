package plots

import (
	"testing"

	"headhours/report/look"
	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// Readings stand at their count and time, on the line where they are as fitted, in the
// shape of their kind, and the band is as wide as its limits.
func TestReadingsAreToScale(t *testing.T) {
	t.Parallel()
	c := curveOf("sow")
	c.Points[2].StandsOut = true
	f := StepTimes([]answer.Curve{c}, nil)
	marks := stroked(f, ink, 1.3) // three in the key
	require.Len(t, marks, 6)
	circleAt := center(marks[4]) // 20 plants, one setup, 90 s
	lap, several := middle(marks[3]), middle(marks[5])
	assert.InDelta(t, 2, float64((several.X-circleAt.X)/(circleAt.X-lap.X)), 1e-6, "10, 20 and 40 plants")
	second := float64(several.Y-circleAt.Y) / 90 // 180 s less 90
	lines := stroked(f, ink, fittedStyle.Width)
	require.NotEmpty(t, lines)
	fitted := lines[len(lines)-1]
	assert.InDelta(t, float64(several.X-circleAt.X), float64(fitted.Max.X-circleAt.X), 1e-6, "to 40 plants")
	assert.InDelta(t, 60*second, float64(fitted.Max.Y-circleAt.Y), 1e-6, "150 s at 40 plants")
	band := filled(f, bandFill)
	require.Len(t, band, 2)
	assert.InDelta(t, (35+3.2*40-90)*second, float64(band[1].Max.Y-circleAt.Y), 1e-6)
	assert.InDelta(t, (25-90)*second, float64(band[1].Min.Y-circleAt.Y), 1e-6)
	rings := stroked(f, look.Light.Bad, 1.8)
	assert.Empty(t, rings)
	assert.Contains(t, says(f), "30 s a setup + 3.0 s a plant")
	assert.Contains(t, f.Alt(), "sow: 3 readings at counts from 10 to 40; 30 s a setup + 3.0 s a plant.")
	c.StandsOut = []answer.StandOut{{}}
	assert.Contains(t, StepTimes([]answer.Curve{c}, nil).Alt(), "; 1 reading out of line with the others.")
}

// What panels cannot show is said: each step in the sentence that is true of it.
func TestStepsInWords(t *testing.T) {
	t.Parallel()
	of := func(step string, change func(c *answer.Curve)) answer.Curve {
		c := curveOf(step)
		change(&c)
		return c
	}
	words := stepsWords([]answer.Curve{
		of("plain", func(c *answer.Curve) {}),
		of("never", func(c *answer.Curve) { c.Form, c.Points = nil, nil }),
		of("judged", func(c *answer.Curve) { c.Points = nil }),
		of("unknown", func(c *answer.Curve) { c.Lines[0].At[0].Low = unknown }),
		of("guessed", func(c *answer.Curve) { c.Borrowed, c.DF = true, unknown }),
		of("lent", func(c *answer.Curve) { c.Borrowed, c.DF = true, known(3) }),
		of("many", func(c *answer.Curve) { c.Readings = 4 }),
		of("single", func(c *answer.Curve) { c.CountMin, c.CountMax, c.Readings = known(1), known(1), 9 }),
	}, 1)
	assert.Equal(t, []string{
		"Of so many readings only some are drawn, and all that stand out: many.",
		"No interval, because how much it varies is not known yet: unknown.",
		"Timed too seldom to show how much it varies, so it is taken to vary as other steps and handwork do: lent.",
		"Timed too seldom for an interval of its own, so the grower's own guess of the spread is used: guessed.",
		"Timed one at a time, so not drawn: single (30 s a setup + 3.0 s a plant).",
		"Judged, not timed: judged (30 s a setup + 3.0 s a plant).",
		"Neither timed nor judged: never.",
		"1 more step, timed too, is not drawn.",
		"Time of work is that of one person at normal pace, without rest.",
	}, words)
	assert.Empty(t, stepsWords(nil, 0))
	assert.False(t, Single(answer.Curve{StepFit: answer.StepFit{CountMin: known(1), CountMax: known(1)}}), "what was not timed is not single")
	for setups, want := range map[float64]string{0: "a lap, no setup", 0.5: "one setup", 1: "one setup", 1.1: "several setups", 7: "several setups"} {
		assert.Equal(t, want, kindOf(setups).name)
	}
}

// The axis of a step is in the unit that its times call for.
func TestUnitOfSteps(t *testing.T) {
	t.Parallel()
	for scale, want := range map[float64]string{0.5: "seconds of work", 0.9: "seconds of work", 1: "minutes of work", 50: "minutes of work", 70: "hours of work"} {
		c := curveOf("sow")
		for i := range c.Points {
			c.Points[i].Seconds *= scale
		}
		for i := range c.Lines[0].At {
			at := &c.Lines[0].At[i]
			at.Seconds, at.Low, at.High = at.Seconds*scale, at.Low.Times(scale), at.High.Times(scale)
		}
		p := stepChart(c, 150)
		assert.Equal(t, want, p.Y.Label.Text, "%v", scale)
		assert.Equal(t, "count (plant)", p.X.Label.Text)
		assert.InDelta(t, 40*1.06, p.X.Max, 1e-9)
	}
	c := curveOf("sow")
	c.Lines[0].At[2].High = known(1e6)
	assert.InDelta(t, 1.08*1.5*180, newStepData(c).top, 1e-9, "a band far above is cut")
	c.Lines[0].At[0].Seconds, c.Per = -20, nil
	assert.InDelta(t, -20, newStepData(c).bottom, 0)
	assert.Equal(t, "count", stepChart(c, 150).X.Label.Text)
	assert.InDelta(t, 1, newStepData(c).minStep(), 0)
	c.Points[0].Count = 10.5
	assert.Zero(t, newStepData(c).minStep())
}

// Lines of heads: marks at their heads and minutes, intervals about them, names in order.
func TestGrowthIsToScale(t *testing.T) {
	t.Parallel()
	f := Growth(scaleOf("tray", "raft"), nil)
	whiskers := 0
	for _, r := range stroked(f, ink, 0.9) {
		if r.Max.X-r.Min.X < 0.01 {
			whiskers++
		}
	}
	assert.Equal(t, 2*5, whiskers)
	marks := stroked(f, ink, 1.3)
	require.Len(t, marks, 2*5+2, "and beside the names")
	at := func(i int) vg.Point { return center(marks[i]) } // of tray: circles
	assert.InDelta(t, 10, float64((at(2).X-at(0).X)/(at(1).X-at(0).X))*2.5, 1e-6, "10, 20 and 50 heads")
	assert.InDelta(t, (4-1.6)/(4-2.5), float64((at(0).Y-at(2).Y)/(at(0).Y-at(1).Y)), 1e-6, "4, 2.5 and 1.6 minutes a head")
	tray, _ := where(f, "tray")
	raft, _ := where(f, "raft")
	assert.Less(t, float64(tray.Min.Y), float64(raft.Min.Y), "raft takes longer and stands above")
	assert.Contains(t, f.Alt(), `"tray": 10 heads take 40 minutes`)
	for _, text := range []string{"was timed", "beyond it, projected", "95 % interval of the mean", "heads a grow", "minutes a head"} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	seven := Growth(scaleOf(someNames(maxRanges+1)...), nil)
	assert.NotContains(t, says(seven), "interval of the mean", "of many lines no intervals are drawn")
	assert.Contains(t, says(Growth(scaleOf(someNames(maxBars+1)...), nil)), "1 more way is not drawn.")
	pairs := waysOf(someNames(7)...).Pairs
	require.Len(t, pairs, 21)
	assert.Contains(t, says(Growth(scaleOf("tray"), pairs)), "6 more pairs are not drawn.")
	assert.Contains(t, says(Growth(scaleOf("tray"), pairs[:maxPairs+1])), "1 more pair is not drawn.")
}

// Of many points each line has a few marks, and lines have theirs at others.
func TestMarksOfManyPoints(t *testing.T) {
	t.Parallel()
	s := answer.Scale{Workflows: make([]answer.ScaleLine, 3)}
	for i := range s.Workflows {
		s.Workflows[i].Points = make([]answer.ScalePoint, 60)
	}
	g := growthLines{tracksOf(s)}
	seen := map[int]bool{}
	for line := range 3 {
		n := 0
		for point := range 60 {
			if g.marked(line, point) {
				n++
				assert.False(t, seen[point], "lines %d has a mark where another has", line)
				seen[point] = true
			}
		}
		assert.Equal(t, marksALine, n)
	}
	for i := range s.Workflows {
		s.Workflows[i].Points = s.Workflows[i].Points[:10]
	}
	g = growthLines{tracksOf(s)}
	assert.True(t, g.marked(0, 0) && g.marked(2, 9), "of few at all")
	tracks := tracksOf(scaleOf(someNames(11)...))
	assert.Equal(t, tracks[0].style.Color, tracks[4].style.Color)
	assert.NotEqual(t, tracks[0].style.Color, tracks[5].style.Color, "the same mark in another ink")
	assert.Equal(t, []int{10, 20, 50, 100, 1000}, headsOf(tracks), "each once")
}

// Seeds that come up: every line inside the axis, the study's germination where it is.
func TestSeedingIsToScale(t *testing.T) {
	t.Parallel()
	s, curves := seedingOf()
	f := SeedingCost(s, curves)
	here := stroked(f, greyInk, hereStyle.Width)
	require.Len(t, here, 2, "one in the key")
	lines := stroked(f, ink, 1.6)
	require.Len(t, lines, 3)
	left, right := float64(lines[2].Min.X), float64(lines[2].Max.X)
	assert.InDelta(t, left+(right-left)*40/60, float64(here[1].Min.X), 0.01, "80 of 40 to 100 %")
	for _, line := range lines {
		assert.True(t, line.Min.Y >= here[1].Min.Y-0.01 && line.Max.Y <= here[1].Max.Y+0.01, "inside the axis")
	}
	assert.Greater(t, float64(lines[0].Max.Y), float64(lines[1].Max.Y), "one seed is dear where few come up")
	for _, text := range []string{"1 seed", "3 seeds", "EUR a head", "the study's germination, 80 %", "seeds that come up, %"} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	s.Germination = 0.3
	assert.Len(t, stroked(SeedingCost(s, curves), greyInk, hereStyle.Width), 1, "below the axis it is not drawn")
	s.Currency = ""
	assert.Contains(t, says(SeedingCost(s, curves)), "money a head")
	assert.NotContains(t, says(SeedingCost(s, nil)), "germination")
	flat := []answer.SeedingCurve{{SeedsPerCell: 1, Germination: []float64{0.4, 1}, PerHead: []float64{2, 2}}}
	readable(t, SeedingCost(s, flat))
	steep := []answer.SeedingCurve{{Germination: []float64{0.4, 1}, PerHead: []float64{50, 1}}}
	assert.InDelta(t, 2.2+0.06*1.2, seedLines{curves: steep}.asChart("x").Y.Max, 1e-9, "what is far dearer is cut")

	rising := []answer.SeedingCurve{
		{SeedsPerCell: 1, Germination: []float64{0.4, 1}, PerHead: []float64{2, 1}}, {SeedsPerCell: 5, Germination: []float64{0.4, 1}, PerHead: []float64{2, 4}},
	}
	f = SeedingCost(s, rising)
	readable(t, f)
	assert.Len(t, stroked(f, ink, 0.7), 1, "no line leads to one that ends above the figure")
}

// Where the cost is the same whatever is sown and comes up, but for the rounding of sums,
// its lines are level and inside the axis.
func TestSeedingThatDoesNotMatter(t *testing.T) {
	t.Parallel()
	s, _ := seedingOf()
	for _, cost := range []float64{0, 1e-6, 0.130625, 2, 300} {
		curves := []answer.SeedingCurve{
			{SeedsPerCell: 1, Germination: []float64{0.4, 0.8, 1}, PerHead: []float64{cost, cost * (1 + 1e-15), cost}},
			{SeedsPerCell: 2, Germination: []float64{0.4, 0.8, 1}, PerHead: []float64{cost * (1 - 1e-15), cost, cost}},
		}
		f := SeedingCost(s, curves)
		readable(t, f)
		here := stroked(f, greyInk, hereStyle.Width)[1]
		lines := stroked(f, ink, 1.6)
		require.Len(t, lines, 2, "%v", cost)
		for _, line := range lines {
			assert.InDelta(t, float64(line.Min.Y), float64(line.Max.Y), 0.01, "level at %v", cost)
			assert.True(t, line.Min.Y >= here.Min.Y-0.01 && line.Max.Y < here.Max.Y-50, "inside the axis at %v", cost)
		}
	}
	close := []answer.SeedingCurve{{Germination: []float64{0.4, 1}, PerHead: []float64{2.001, 2}}}
	assert.InDelta(t, 2-0.06*0.001, seedLines{curves: close}.asChart("x").Y.Min, 1e-9, "what differs is seen to")
}

// Swings to the two ends of each input, about a line at the cost as it is.
func TestSwingsAreToScale(t *testing.T) {
	t.Parallel()
	f := Swing(inputsOf("wage", "seed"))
	lower, higher := filled(f, lowerFill), filled(f, higherFill)
	require.Len(t, lower, 3)
	assert.InDelta(t, 2, float64((lower[1].Max.X-lower[1].Min.X)/(lower[2].Max.X-lower[2].Min.X)), 1e-6)
	assert.InDelta(t, float64(lower[1].Max.X), float64(higher[1].Min.X), 1e-6)
	line := stroked(f, ink, 1.4)
	require.Len(t, line, 1)
	assert.InDelta(t, float64(lower[1].Max.X), float64(line[0].Min.X), 1e-6)
	assert.Contains(t, says(f), "0.600 or 1.000")
	assert.Contains(t, says(Swing(inputsOf(someNames(maxSwings+1)...))), "1 further input, of less effect, is not drawn.")
	assert.NotContains(t, says(Swing(inputsOf(someNames(maxSwings)...))), "not drawn")
	assert.NotContains(t, says(Swing(answer.Sensitivity{PerHead: 1})), "a fifth lower")
}

// Minutes by step: setup hatched before units, the rest counted, gaps named.
func TestMinutesByStep(t *testing.T) {
	t.Parallel()
	in := improvementOf("harvest", "sow")
	in.Steps[1].Rework = true
	in.Steps = append(in.Steps, answer.StepShare{Step: "weigh"})
	f := Shares(in, stepHues)
	harvest, sow := filled(f, look.StepAt(0).Fill), filled(f, look.StepAt(1).Fill)
	require.Len(t, harvest, 2)
	require.Len(t, sow, 2)
	long := func(r vg.Rectangle) float64 { return float64(r.Max.X - r.Min.X) }
	assert.InDelta(t, 3, long(harvest[1])/long(harvest[0]), 1e-6, "a quarter is setup, and stands first")
	assert.InDelta(t, 2, long(harvest[0])/long(sow[0]), 1e-6)
	for _, text := range []string{"20.0 min, 67 %", "10.0 min, 33 %", "sow (rework)", "Not timed, so not drawn: weigh.", "Minutes by step, in a grow of 48"} {
		_, ok := where(f, text)
		assert.True(t, ok, text)
	}
	assert.Contains(t, f.Alt(), "harvest: 20.0 min, 67 %, of which 5.0 min setup. sow: 10.0 min, 33 %, of which 2.5 min setup. weigh: not timed.")
	assert.Contains(t, says(Shares(improvementOf(someNames(maxShares+1)...), nil)), "1 smaller step is not drawn.")
	for minutes, text := range map[float64]string{780: "780.0 min, 33 %", 12345.6: "12345.6 min, 33 %"} {
		long := improvementOf("harvest", "sow")
		long.Steps[1].Hours = known(minutes / 60)
		f := Shares(long, stepHues)
		w, ok := where(f, text)
		assert.True(t, ok, "long times are whole")
		for _, bar := range filled(f, look.StepAt(1).Fill) {
			assert.Less(t, float64(bar.Max.X), float64(w.Min.X), "and clear of the bars")
		}
	}
	nothing := Shares(answer.Improvement{Heads: 1, Steps: []answer.StepShare{{Step: "weigh", SetupHours: study.Maybe{}}}}, nil)
	assert.NotContains(t, says(nothing), "the units")
}
